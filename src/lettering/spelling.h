/* From the letters that a row's glyphs may be to the words that it has. Inside lettering alone. */
#ifndef LETTERING_SPELLING_H
#define LETTERING_SPELLING_H

#include "lettering/reading.h"

/* In `a`. *doubtful: a letter may be another one, and no known word says which. */
const char *lettering_spell(struct arena *a, const struct lettering_reading *reading,
                            const struct lettering_vocabulary *vocabulary, bool *doubtful);

#endif
