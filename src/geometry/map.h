/* Where a projector's pixel falls on the table, and back: a lens term followed by a projective map.
 *
 *   x = (u - W/2) / rho, y = (v - H/2) / rho, rho half the frame's diagonal in pixels
 *   r² = x² + y²;  x' = x (1 + k1 r²) + p1 r² + 2 x (p1 x + p2 y);  y' = y (1 + k1 r²) + p2 r² + 2 y (p1 x + p2 y)
 *   D = h20 x' + h21 y' + 1;  X = (h00 x' + h01 y' + h02) / D;  Y = (h10 x' + h11 y' + h12) / D  (mm)
 *
 * Radial and decentring terms: D. C. Brown, Decentering Distortion of Lenses, 1966. */
#ifndef GEOMETRY_MAP_H
#define GEOMETRY_MAP_H

#include "geometry/space.h"

#include <stdbool.h>

/* The terms, by their place in geometry_map.term. */
enum {
    GEOMETRY_H00, /* mm, h00 to h12 */
    GEOMETRY_H01,
    GEOMETRY_H02,
    GEOMETRY_H10,
    GEOMETRY_H11,
    GEOMETRY_H12,
    GEOMETRY_H20, /* no unit, as all that follow */
    GEOMETRY_H21,
    GEOMETRY_K1, /* radial */
    GEOMETRY_P1, /* decentring */
    GEOMETRY_P2,
    GEOMETRY_MAP_TERMS
};

struct geometry_map {
    int width_px, height_px; /* the projector's frame, both above 0 */
    double term[GEOMETRY_MAP_TERMS];
};

/* Local scale: how table mm change with pixels. */
struct geometry_jacobian {
    double xu, xv, yu, yv; /* dX/du, dX/dv, dY/du, dY/dv in mm per px */
};

/* A map is valid when its terms are finite and neither its horizon (D = 0) nor a fold of the lens (Jacobian determinant
 * changing sign or vanishing) comes within the frame and a fifth of its size around it, or near: there D >= 0.05 and
 * the determinant is at least a thousandth of its median. A mirrored map is valid; the determinant of one that does not
 * mirror is negative, as pixel y runs down and table y up. */
bool geometry_map_is_valid(const struct geometry_map *map);

/* Table place of a pixel place; the map is valid and the place within the frame and a fifth around it. Of other maps
 * and places (a solve on its way tries some) the answer may be meaningless or not finite, here and in the two
 * derivatives. */
struct table_pt geometry_map_to_table(const struct geometry_map *map, struct px_pt px);

/* Pixel place of a table place, within 1e-9 px (Newton on the lens term). False when the place lies behind the
 * horizon or outside the frame by more than a fifth of its size, where the lens terms mean nothing. */
bool geometry_map_to_px(const struct geometry_map *map, struct table_pt at, struct px_pt *px);

struct geometry_jacobian geometry_map_jacobian(const struct geometry_map *map, struct px_pt px);

/* Derivatives of X and Y by the eleven terms at a pixel, for the solve. */
void geometry_map_term_gradient(const struct geometry_map *map, struct px_pt px, double dx[GEOMETRY_MAP_TERMS],
                                double dy[GEOMETRY_MAP_TERMS]);

/* A projective change of the table's plane: (x, y, 1) in mm goes to m (x, y, 1), row by row. */
struct geometry_change {
    double m[3][3];
};

/* The map followed by a change. The answer may be no valid map; one whose frame's centre goes out of sight is not
 * finite. */
struct geometry_map geometry_map_changed(const struct geometry_map *map, const struct geometry_change *change);

/* Largest table length of one pixel step in any direction, over a grid of places of the frame. */
double geometry_map_mm_per_px(const struct geometry_map *map);

/* The frame's outline on the table: its four sides, each in `steps` pieces, counter-clockwise seen from above when the
 * map does not mirror. Lives in `a`. */
struct table_path geometry_map_frame(struct arena *a, const struct geometry_map *map, int steps);

#endif
