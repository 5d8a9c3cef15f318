#include "calibration/move.h"

/* The move of a place is linear in it, so the moved map's first two rows are sums of the old three. */
struct geometry_map calibration_move_map(const struct geometry_map *map, struct calibration_move move)
{
    struct geometry_map moved = *map;
    double c = cos(move.turn_rad), s = sin(move.turn_rad), side = move.flip ? -1 : 1;
    const double bottom[3] = { map->term[GEOMETRY_H20], map->term[GEOMETRY_H21], 1 };
    for (int i = 0; i < 3; i++) {
        double x = side * map->term[GEOMETRY_H00 + i], y = map->term[GEOMETRY_H10 + i];
        moved.term[GEOMETRY_H00 + i] = c * x - s * y + move.shift_mm.x * bottom[i];
        moved.term[GEOMETRY_H10 + i] = s * x + c * y + move.shift_mm.y * bottom[i];
    }
    return moved;
}

struct calibration_move calibration_move_fitting(const vec2 *from, const vec2 *to, size_t count)
{
    struct calibration_move move = { .flip = false };
    vec2 middle = { 0, 0 }, there = { 0, 0 };
    for (size_t i = 0; i < count; i++) {
        middle = vec2_add(middle, vec2_scale(from[i], 1.0 / (double)count));
        there = vec2_add(there, vec2_scale(to[i], 1.0 / (double)count));
    }
    double along = 0, across = 0;
    for (size_t i = 0; i < count; i++) {
        vec2 f = vec2_sub(from[i], middle), t = vec2_sub(to[i], there);
        along += vec2_dot(f, t);
        across += vec2_cross(f, t);
    }
    if (along != 0 || across != 0)
        move.turn_rad = atan2(across, along);
    double c = cos(move.turn_rad), s = sin(move.turn_rad);
    move.shift_mm = vec2_sub(there, (vec2){ c * middle.x - s * middle.y, s * middle.x + c * middle.y });
    return move;
}
