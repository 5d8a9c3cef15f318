#include "lifting/points.h"

#include <assert.h>

struct points_table points_table_make(struct arena *a, size_t most)
{
    struct points_table t = { .points = base_arena_alloc(a, most, sizeof(struct network_point)),
                              .cap = most,
                              .slot_count = 16 };
    while (t.slot_count < 2 * most)
        t.slot_count *= 2;
    t.slots = base_arena_alloc(a, t.slot_count, sizeof *t.slots);
    return t;
}

/* Fibonacci hashing: the odd number next to 2^64 over the golden ratio (Knuth, The Art of Computer Programming 3, 6.4).
 */
static size_t slot_of(const struct points_table *t, struct network_point p)
{
    uint64_t key = ((uint64_t)(uint32_t)p.x << 32 | (uint32_t)p.y) * UINT64_C(0x9E3779B97F4A7C15);
    size_t slot = (size_t)(key ^ key >> 29) & (t->slot_count - 1);
    while (t->slots[slot]) {
        struct network_point there = t->points[t->slots[slot] - 1];
        if (there.x == p.x && there.y == p.y)
            break;
        slot = (slot + 1) & (t->slot_count - 1);
    }
    return slot;
}

uint32_t points_find(const struct points_table *t, struct network_point p)
{
    uint32_t number = t->slots[slot_of(t, p)];
    return number ? number - 1 : NETWORK_NONE;
}

uint32_t points_add(struct points_table *t, struct network_point p)
{
    size_t slot = slot_of(t, p);
    if (!t->slots[slot]) {
        assert(t->count < t->cap);
        t->points[t->count++] = p;
        t->slots[slot] = (uint32_t)t->count;
    }
    return t->slots[slot] - 1;
}
