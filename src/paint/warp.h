/* Inside paint: polygons on the table into the projector's pixels. */
#ifndef PAINT_WARP_H
#define PAINT_WARP_H

#include "base/arena.h"
#include "geometry/inverse.h"
#include "geometry/map.h"
#include "geometry/path.h"

struct paint_warp {
    const struct geometry_map *map; /* NULL: what is drawn is in px already */
    struct geometry_inverse inverse;
    struct geometry_path region; /* what can be seen, mm: convex, counter-clockwise, a little beyond the frame */
    struct geometry_box around;  /* in px, within the region's picture */
    double straight_px;          /* edges as short as this bend too little to matter */
};

/* The map is valid and outlives the warp; the region lives in `a`. */
struct paint_warp paint_warp_create(struct arena *a, const struct geometry_map *map);

/* For what is in px already. */
struct paint_warp paint_warp_none(struct arena *a, int width_px, int height_px);

/* Places in px (u, v), as geometry_inverse_px. */
void paint_warp_places(const struct paint_warp *warp, size_t count, const double *x, const double *y, double *u,
                       double *v);

/* Whether a polygon with these corners in px has nothing to be cut off. */
bool paint_warp_holds(const struct paint_warp *warp, size_t count, const double *u, const double *v);

/* Places of a path in px that grows; emptied by setting path.count to 0. */
struct paint_bent {
    struct arena *arena;
    struct geometry_path path;
    size_t cap;
};

/* Adds what lies between the ends of an edge (in its space and in px) so that it keeps within 0.05 px of its bend. */
void paint_warp_edge(struct paint_bent *out, const struct paint_warp *warp, const vec2 at[2], const vec2 px[2]);

/* The part of a closed polygon that can be seen, in px: edges bend with the lens and keep within 0.05 px of their true
 * place. Empty when nothing is left. Lives in `a`. */
struct geometry_path paint_warp_polygon(struct arena *a, const struct paint_warp *warp, struct geometry_path polygon);

#endif
