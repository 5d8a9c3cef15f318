/* Forms that letters have in many fonts, but perhaps in none that is installed. Inside lettering alone. */
#ifndef LETTERING_DRAWN_H
#define LETTERING_DRAWN_H

#include "text/run.h"

enum { DRAWN_FORMS = 6, DRAWN_WEIGHTS = 5 };

/* Which letter a form is of. */
const char *lettering_drawn_letter(size_t form);

/* Its contours in one of the weights, capitals 1 high; in `a`. */
struct text_run lettering_draw(struct arena *a, size_t form, size_t weight);

#endif
