/* Points of the grid by what they are called, for this folder alone: a table that gives each its number. */
#ifndef LIFTING_POINTS_H
#define LIFTING_POINTS_H

#include "lifting/network.h"

struct points_table {
    struct network_point *points; /* in the order they came */
    size_t count, cap;
    uint32_t *slots;   /* numbers + 1; 0: empty */
    size_t slot_count; /* a power of two */
};

struct points_table points_table_make(struct arena *a, size_t most);

/* The point's number, or NETWORK_NONE. */
uint32_t points_find(const struct points_table *t, struct network_point p);

/* The same; a new point is added. No more than `most` may be. */
uint32_t points_add(struct points_table *t, struct network_point p);

#endif
