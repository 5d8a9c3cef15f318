/* What it would cost to lay an item anywhere: for one of its shapes, a grid over all allowed shifts with the sum of the
 * weighted depths of all other items, read off their depth tables' points nearest to each. */
#ifndef PACKING_OVERLAP_MAP_H
#define PACKING_OVERLAP_MAP_H

#include "packing/trial.h"

/* Memory for maps, used again for each. */
struct overlap_map {
    struct arena *arena;
    float *cost;
    size_t cap;
    double *y; /* of each row */
    size_t y_cap, rows, columns;
    double x, step; /* of the first column; from one to the next */
    size_t work;    /* sums made since it was set to 0 */
};

/* The map of `item` as `shape` in a strip of that length. Without columns when the shape is longer than the strip. */
void overlap_map_fill(struct overlap_map *map, const struct trial *t, size_t item, int shape, double length);

static inline vec2 overlap_map_shift(const struct overlap_map *map, size_t row, size_t column)
{
    return (vec2){ map->x + (double)column * map->step, map->y[row] };
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
