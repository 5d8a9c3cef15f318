/* The loops over a map's rows, a lane of columns at a time. They give the same bits on any processor. */
#ifndef PACKING_MAP_LANES_H
#define PACKING_MAP_LANES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { MAP_LANES = 8 };

/* A part of a table and the part of a map that it is added to. */
struct map_part {
    float *cost;
    const uint8_t *depth;
    size_t stride, depth_stride; /* from row to row */
    size_t rows, lanes;          /* lanes: columns / MAP_LANES */
    float weight;
};

/* Adds the parts one after the other. */
void map_lanes_add(const struct map_part *parts, size_t count);

/* The first column, from one on, that costs less than `most` and no more than those on either side; when there is none,
 * `columns` or more. The row goes on for two lanes after its last column, and has one column before its first. */
size_t map_lanes_next(const float *cost, size_t from, size_t columns, float most);

#endif
