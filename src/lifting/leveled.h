/* Which points of a lifted piece's outline lie on levels of the body. Not for other folders. */
#ifndef LIFTING_LEVELED_H
#define LIFTING_LEVELED_H

#include "lifting/chart.h"
#include "lifting/made.h"

/* Levels are numbered as they stand in the piece's struct lifting_levels; LIFTING_NONE: on none. */
struct lifting_leveled {
    const int *corner;       /* for each corner */
    const int *const *after; /* for each step of the curve behind each corner: of its end, where that is no corner */
};

/* Corners near to a level follow it; where the outline crosses it farther off, its curve (made->curves, made anew) is
 * parted in all sizes alike, and that place follows it. Corners beyond the highest and the lowest level follow these.
 * The fold has no points within and is left as it is. `levels` may be NULL. False, with the fault at its place, when a
 * level is beyond the piece. In `a`. */
bool lifting_find_leveled(struct arena *a, struct lifting_made *made, const struct lifting_levels *levels,
                          struct lifting_leveled *out, struct err_list *errs);

#endif
