/* What it would cost to lay an item anywhere: for one of its shapes, a grid over all allowed shifts with the sum of the
 * weighted overlaps of all other items, as they count, read off their depth tables' points nearest to each. */
#ifndef PACKING_OVERLAP_MAP_H
#define PACKING_OVERLAP_MAP_H

#include "packing/map_lanes.h"
#include "packing/trial.h"

/* Rows a step of the grid apart. */
struct map_band {
    double y; /* of the first */
    size_t first, count;
};

/* Memory for maps, used again for each. Rows have MAP_LANES columns and more before the first and after the last, so
 * that tables are added in whole lanes. */
struct overlap_map {
    struct arena *arena;
    float *cost;
    size_t cap;
    struct map_band *bands;
    size_t band_cap, band_count, rows, columns;
    struct map_part *parts; /* still to be added */
    size_t part_cap, part_count;
    size_t stride, margin;    /* of rows in `cost`; columns before the first */
    double x, step, row_step; /* of the first column; from one to the next */
    size_t work;              /* sums made since it was set to 0 */
};

/* The map of `item` as `shape` in a strip of that length. Without columns when the shape is longer than the strip. The
 * last column may lie a part of a step beyond the strip, and rows beyond their range: whoever takes a place from the
 * map moves it in. */
void overlap_map_fill(struct overlap_map *map, const struct trial *t, size_t item, int shape, double length);

double overlap_map_y(const struct overlap_map *map, size_t row);

static inline const float *overlap_map_row(const struct overlap_map *map, size_t row)
{
    return map->cost + row * map->stride + map->margin;
}

static inline vec2 overlap_map_shift(const struct overlap_map *map, size_t row, size_t column)
{
    return (vec2){ map->x + (double)column * map->step, overlap_map_y(map, row) };
}

/* Cheap places: the least of those not next to one that is cheaper yet. */
struct overlap_place {
    struct packing_place place;
    float cost;
};

/* Adds the map's cheapest places to a list of the `most` cheapest, in order; the new count. */
size_t overlap_map_cheapest(const struct overlap_map *map, int shape, struct overlap_place *list, size_t count,
                            size_t most);

#endif
