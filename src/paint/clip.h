/* Polygons cut to a convex region, before a map could throw their far corners over its horizon. */
#ifndef PAINT_CLIP_H
#define PAINT_CLIP_H

#include "base/arena.h"
#include "geometry/path.h"

/* The part of a closed polygon inside a convex, counter-clockwise region (Sutherland and Hodgman 1974); an empty path
 * when nothing is left. The polygon itself when all of it is inside. */
struct geometry_path paint_clip(struct arena *a, struct geometry_path polygon, struct geometry_path region);

#endif
