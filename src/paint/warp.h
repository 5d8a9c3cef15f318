/* Inside paint: polygons on the table into the projector's pixels. */
#ifndef PAINT_WARP_H
#define PAINT_WARP_H

#include "base/arena.h"
#include "geometry/map.h"

struct paint_warp {
    const struct geometry_map *map;
    struct geometry_path region; /* what can be seen, mm: convex, counter-clockwise, a little beyond the frame */
};

/* The map is valid and outlives the warp; the region lives in `a`. */
struct paint_warp paint_warp_create(struct arena *a, const struct geometry_map *map);

/* The part of a closed polygon (mm) that can be seen, in px: edges bend with the lens and keep within 0.05 px of their
 * true place. Empty when nothing is left. Lives in `a`. */
struct geometry_path paint_warp_polygon(struct arena *a, const struct paint_warp *warp, struct geometry_path polygon);

#endif
