/* Pages in no order and without labels, put together by their lines alone. */
#ifndef DRAWING_JIGSAW_H
#define DRAWING_JIGSAW_H

#include "drawing/trial.h"

/* Fills in the cells of the largest lot of tiles that hold together by lines that go on from one to another, the surest
 * joins first; others are left out. False when none do. Looks at every pair of tiles. */
bool drawing_jigsaw(const struct drawing_trial *trial, const struct drawing_tiling *t, struct drawing_grid *g);

#endif
