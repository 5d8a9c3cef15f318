/* Random set-ups of a projector over a table, from a fixed seed: what was truly so, and what was read of it. */
#ifndef TESTS_CALIBRATION_SETUPS_H
#define TESTS_CALIBRATION_SETUPS_H

#include "calibration/readings.h"
#include "geometry/map.h"

#include <stdint.h>

struct dice {
    uint64_t state;
};

/* Even on 0 to 1 (splitmix64: Steele, Lea, Flood 2014). */
static inline double even(struct dice *d)
{
    uint64_t z = d->state += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

/* Normal with mean 0 and spread 1 (Box and Muller 1958). */
static inline double normal(struct dice *d)
{
    double u = 1 - even(d);
    return sqrt(-2 * log(u)) * cos(2 * 3.14159265358979323846 * even(d));
}

/* A picture 0.8 to 2.1 m wide, turned any way, with keystone, and a lens of the size that the weak pseudo-readings
 * expect. */
static inline struct geometry_map true_map(struct dice *d)
{
    double half = 450 + 750 * even(d), turn = 2 * 3.14159265358979323846 * even(d);
    return (struct geometry_map){ 1920,
                                  1080,
                                  { half * cos(turn), -half * sin(turn), 400 + 300 * even(d), half * sin(turn),
                                    half * cos(turn), 300 + 300 * even(d), 0.3 * (even(d) - 0.5), 0.3 * (even(d) - 0.5),
                                    0.005 * normal(d), 0.0025 * normal(d), 0.0025 * normal(d) } };
}

/* columns x rows crosses, five hundredths in from the frame's edges, read with normal errors of `noise_mm`. In `a`. */
static inline struct calibration_readings read_grid(struct arena *a, struct dice *d, const struct geometry_map *map,
                                                    int columns, int rows, double noise_mm)
{
    struct calibration_readings r = {
        .name = "grid", .unit = UNITS_IN, .width_px = map->width_px, .height_px = map->height_px, .sigma_mm = 0.3
    };
    r.items = base_arena_alloc(a, (size_t)(columns * rows), sizeof *r.items);
    for (int j = 0; j < rows; j++)
        for (int i = 0; i < columns; i++) {
            struct px_pt px = { map->width_px * (0.05 + 0.9 * i / (columns - 1)),
                                map->height_px * (0.05 + 0.9 * j / (rows - 1)) };
            struct table_pt at = geometry_map_to_table(map, px);
            at.x += noise_mm * normal(d);
            at.y += noise_mm * normal(d);
            r.items[r.count] = calibration_position((int)r.count + 1, px, at);
            r.count++;
        }
    return r;
}

#endif
