/* How well pages fit where they are put: lines that go on from one to the other against lines that do not. */
#ifndef DRAWING_TRIAL_H
#define DRAWING_TRIAL_H

#include "drawing/grid.h"

struct drawing_trial;

/* Lines go on where they meet within `near_mm`. In the tiling's arena. */
struct drawing_trial *drawing_start_trial(const struct drawing_tiling *t, const struct drawing_twins *twins,
                                          double near_mm);

/* Fills in the grid's steps, and how many lines go on. Its worth: lines that go on, less a quarter of the others. Of
 * more than a few hundred tiles only the first are looked at. */
double drawing_try(struct drawing_trial *trial, struct drawing_grid *g);

/* How many lines run out of a tile, on all its sides. */
size_t drawing_runs_out(const struct drawing_trial *trial, size_t tile);

/* Of two tiles, `q` after `p` along the axis: how many lines go on, with the step where most do, and how many run out
 * of either to that side. */
size_t drawing_try_pair(const struct drawing_trial *trial, size_t p, size_t q, int axis, size_t *runs_out);

#endif
