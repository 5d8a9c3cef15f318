/* Lines that two pages both have whole, though each shows only a part of them: they tell exactly how the pages lie. */
#ifndef DRAWING_TWINS_H
#define DRAWING_TWINS_H

#include "drawing/tiling.h"

struct drawing_twin {
    size_t p, q; /* tiles, p before q in the file */
    vec2 apart;  /* of their origins when the two lines lie over each other: q's less p's, mm at true scale */
};

struct drawing_twins {
    struct drawing_twin *all;
    size_t count, cap;
};

/* Lines of the same look and shape on different tiles, at different places of them, where two or more say the same of
 * the two tiles; in the tiling's arena. */
struct drawing_twins drawing_find_twins(const struct drawing_tiling *t);

#endif
