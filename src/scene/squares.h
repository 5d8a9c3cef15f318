/* Where lines run, in coarse squares: tells at once of most boxes on a line that they are. All in table mm. */
#ifndef SCENE_SQUARES_H
#define SCENE_SQUARES_H

#include "scene/lane.h"

struct scene_squares {
    struct geometry_box area;
    size_t columns, rows;
    unsigned *sums; /* of squares with a line, from the area's near left corner to each; one row and column more */
};

/* Of lists of lines within an area, in `a`. */
struct scene_squares scene_squares_of(struct arena *a, struct geometry_box area, const struct scene_obstacles *lists,
                                      size_t count);

/* True: a line runs through the box. False: perhaps. */
bool scene_squares_taken(const struct scene_squares *s, struct geometry_box box);

#endif
