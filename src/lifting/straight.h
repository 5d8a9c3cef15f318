/* Straight edges of an outline. Inside lifting alone. */
#ifndef LIFTING_STRAIGHT_H
#define LIFTING_STRAIGHT_H

#include "geometry/path.h"

/* Goes around a closed path from one straight edge to the next, from *cursor (0 at first) on. False at the end. Curves
 * come as many short ones. */
bool lifting_next_edge(struct geometry_path p, size_t *cursor, vec2 *from, vec2 *to);

#endif
