/* Points of the grid, for this folder alone: a table that gives each its number, and one that makes points which all
 * but coincide one. */
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

/* Points so near to each other, in steps of the grid, are one: what was drawn to one place and rounded apart. */
#define POINTS_NEAR 3

struct points_snap {
    struct arena *a;
    struct network_point *points;
    uint32_t *next; /* of the same slot; numbers + 1 */
    size_t count, cap, next_cap;
    uint32_t *slots; /* by cells of the grid; numbers + 1 */
    size_t slot_count;
};

struct points_snap points_snap_make(struct arena *a);

/* The first point that came near to this one, or the point itself. */
struct network_point points_snapped(struct points_snap *s, struct network_point p);

#endif
