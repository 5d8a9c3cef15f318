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

/* ---- Points that are one ---- */

enum { CELL_BITS = 3, CELL = 1 << CELL_BITS, FIRST_SLOTS = 1 << 12 };

struct points_snap points_snap_make(struct arena *a)
{
    struct points_snap s = { .a = a, .slot_count = FIRST_SLOTS };
    s.slots = base_arena_alloc(a, s.slot_count, sizeof *s.slots);
    return s;
}

static uint32_t *slot_of_cell(struct points_snap *s, int32_t x, int32_t y)
{
    uint64_t key = ((uint64_t)(uint32_t)x << 32 | (uint32_t)y) * UINT64_C(0x9E3779B97F4A7C15);
    return &s->slots[(size_t)(key ^ key >> 29) & (s->slot_count - 1)];
}

/* Cells by floor: negative ones too. */
static int32_t cell_of(int32_t v)
{
    return v >= 0 ? v / CELL : -((-v + CELL - 1) / CELL);
}

static void link_point(struct points_snap *s, uint32_t i)
{
    uint32_t *slot = slot_of_cell(s, cell_of(s->points[i].x), cell_of(s->points[i].y));
    s->next[i] = *slot;
    *slot = i + 1;
}

static void make_room(struct points_snap *s)
{
    s->points = base_arena_grow(s->a, s->points, &s->cap, s->count + 1, sizeof *s->points);
    s->next = base_arena_grow(s->a, s->next, &s->next_cap, s->count + 1, sizeof *s->next);
    if (s->count < s->slot_count)
        return;
    s->slot_count *= 4;
    s->slots = base_arena_alloc(s->a, s->slot_count, sizeof *s->slots);
    for (uint32_t i = 0; i < s->count; i++)
        link_point(s, i);
}

static bool is_near(struct network_point a, struct network_point b)
{
    int64_t dx = (int64_t)a.x - b.x, dy = (int64_t)a.y - b.y;
    return dx * dx + dy * dy <= POINTS_NEAR * POINTS_NEAR;
}

/* The first that came, of those in one cell. */
static uint32_t near_in_cell(struct points_snap *s, int32_t x, int32_t y, struct network_point p, uint32_t best)
{
    for (uint32_t i = *slot_of_cell(s, x, y); i; i = s->next[i - 1])
        if (i - 1 < best && is_near(s->points[i - 1], p))
            best = i - 1;
    return best;
}

struct network_point points_snapped(struct points_snap *s, struct network_point p)
{
    uint32_t best = NETWORK_NONE;
    for (int32_t x = cell_of(p.x - POINTS_NEAR); x <= cell_of(p.x + POINTS_NEAR); x++)
        for (int32_t y = cell_of(p.y - POINTS_NEAR); y <= cell_of(p.y + POINTS_NEAR); y++)
            best = near_in_cell(s, x, y, p, best);
    if (best != NETWORK_NONE)
        return s->points[best];
    make_room(s);
    s->points[s->count] = p;
    link_point(s, (uint32_t)s->count++);
    return p;
}
