/* Where exactly the pages of a grid lie: least squares over the lines that go on from page to page. */
#ifndef DRAWING_FIT_H
#define DRAWING_FIT_H

#include "drawing/grid.h"

struct drawing_fit {
    vec2 *origins;     /* of each tile on the joined sheet, mm at true scale */
    double *misfit_mm; /* root mean square over the lines that go on from it, square to them */
    size_t *tied_by;   /* how many those are */
    double all_misfit_mm;
};

/* Each page is moved, none turned or stretched: those are as the file has them. `moved`: how far each
 * was moved by hand beyond that, or NULL; misfits are measured with that in. In the tiling's arena. */
struct drawing_fit drawing_fit_grid(const struct drawing_tiling *t, const struct drawing_twins *twins,
                                    struct drawing_grid *g, const vec2 *moved);

#endif
