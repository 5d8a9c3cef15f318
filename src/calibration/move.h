/* A map laid elsewhere on the table: turned, shifted, or turned over, its picture keeping size and shape. What
 * distances alone leave open is this. */
#ifndef CALIBRATION_MOVE_H
#define CALIBRATION_MOVE_H

#include "geometry/map.h"
#include "geometry/vec2.h"

struct calibration_move {
    bool flip; /* x becomes -x, before all else */
    double turn_rad;
    vec2 shift_mm; /* after the turn */
};

struct geometry_map calibration_move_map(const struct geometry_map *map, struct calibration_move move);

/* The move that takes `from` to `to` as near as may be, by least squares of the distances, without a flip; of one pair
 * a shift, of none nothing. */
struct calibration_move calibration_move_fitting(const vec2 *from, const vec2 *to, size_t count);

#endif
