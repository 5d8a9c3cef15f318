/* Which way rows run. Inside lettering alone. */
#ifndef LETTERING_TURNS_H
#define LETTERING_TURNS_H

#include "lettering/ink.h"

enum { TURNS_MOST = 24 };

/* Directions in which rows of these inks, all of one kind, may run, up to half a turn and some degrees; for each ink
 * the one of its row. Where nothing tells, to the right. How many. */
size_t lettering_find_turns(struct arena *a, const struct lettering_ink *inks, size_t count, vec2 turns[TURNS_MOST],
                            unsigned char *turn_of);

#endif
