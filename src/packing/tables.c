#include "packing/tables.h"

/* Points in all tables that are made, without those read backwards: a second's fifth of work and some 40 MB. */
#define MOST_POINTS 5e6

/* Steps over the square root of a middling shape's area: finer than that nothing is won. */
#define FINEST 28.

/* Of the square root of a middling shape's area: the depth that counts twice. */
#define BEND 0.3

/* A pair whose table is made; others are read off it. */
struct making {
    int a, b;
};

struct builder {
    const struct task *task;
    struct tables *tables;
    const bool *meet;
    double bend;
    struct making *pairs;
    size_t count;
    struct nofit *nofits; /* of each pair */
    struct arena **scratch;
};

static size_t pair_index(const struct builder *b, int p, int q)
{
    return (size_t)p * b->task->shape_count + (size_t)q;
}

static void meet_as(bool *meet, const struct task *t, size_t i, size_t k)
{
    for (size_t m = 0; m < t->items[i].as_count; m++)
        for (size_t n = 0; n < t->items[k].as_count; n++)
            meet[(size_t)t->items[i].as[m] * t->shape_count + (size_t)t->items[k].as[n]] = true;
}

/* Whether two different items can be these two shapes; what is blocked meets only items. */
static const bool *find_meetings(struct arena *a, const struct task *t)
{
    bool *meet = base_arena_alloc(a, t->shape_count * t->shape_count, sizeof *meet);
    for (size_t i = 0; i < task_all(t); i++)
        for (size_t k = 0; k < t->item_count; k++) {
            if (i == k)
                continue;
            meet_as(meet, t, i, k);
            if (i >= t->item_count)
                meet_as(meet, t, k, i);
        }
    return meet;
}

/* The four pairs that share a table: as it is, as it is with half turns and order changed, and the two read backwards.
 * -1 where there is no half turn. */
static void kin_of(const struct task *t, int a, int b, int kin[4][2])
{
    int ha = t->shapes[a].half_turn, hb = t->shapes[b].half_turn;
    bool turns = ha >= 0 && hb >= 0;
    kin[0][0] = a, kin[0][1] = b;
    kin[1][0] = turns ? hb : -1, kin[1][1] = turns ? ha : -1;
    kin[2][0] = b, kin[2][1] = a;
    kin[3][0] = turns ? ha : -1, kin[3][1] = turns ? hb : -1;
}

/* The first of kin is the one that is made. */
static bool is_made(const struct builder *b, int p, int q)
{
    int kin[4][2];
    kin_of(b->task, p, q, kin);
    bool wanted = false;
    for (int k = 0; k < 4; k++) {
        if (kin[k][0] < 0)
            continue;
        if (pair_index(b, kin[k][0], kin[k][1]) < pair_index(b, p, q))
            return false;
        wanted = wanted || b->meet[pair_index(b, kin[k][0], kin[k][1])];
    }
    return wanted;
}

static void list_pairs(struct arena *a, struct builder *b)
{
    int shapes = (int)b->task->shape_count;
    size_t cap = 0;
    for (int p = 0; p < shapes; p++)
        for (int q = 0; q < shapes; q++)
            if (is_made(b, p, q)) {
                b->pairs = base_arena_grow(a, b->pairs, &cap, b->count + 1, sizeof *b->pairs);
                b->pairs[b->count++] = (struct making){ p, q };
            }
}

static double points_at(const struct builder *b, double step)
{
    double points = 0;
    for (size_t i = 0; i < b->count; i++) {
        struct geometry_box p = b->task->shapes[b->pairs[i].a].box, q = b->task->shapes[b->pairs[i].b].box;
        struct geometry_box sum = { { 0, 0 },
                                    { p.max.x - p.min.x + q.max.x - q.min.x, p.max.y - p.min.y + q.max.y - q.min.y } };
        points += depth_table_size(sum, step);
    }
    return points;
}

static double middling_size(const struct task *t)
{
    double area = 0;
    for (size_t i = 0; i < t->item_count; i++)
        area += task_area(t, i) / (double)t->item_count;
    return sqrt(area);
}

static double choose_step(const struct builder *b)
{
    double step = middling_size(b->task) / FINEST;
    while (points_at(b, step) > MOST_POINTS)
        step *= 1.05;
    return step;
}

static void make_nofit(void *user, size_t part, int worker)
{
    struct builder *b = user;
    struct making pair = b->pairs[part];
    struct arena *out = b->tables->arenas[worker], *scratch = b->scratch[worker];
    b->nofits[part] = nofit_of(out, scratch, b->task->shapes[pair.a].outline, b->task->shapes[pair.b].outline);
    base_arena_reset(scratch);
}

/* Makes the table and gives it to all of its kin that meet. */
static void make_table(void *user, size_t part, int worker)
{
    struct builder *b = user;
    struct arena *out = b->tables->arenas[worker], *scratch = b->scratch[worker];
    const struct depth_table *straight = depth_table_of(out, scratch, &b->nofits[part], b->tables->step, b->bend);
    const struct depth_table *turned = NULL;
    int kin[4][2];
    kin_of(b->task, b->pairs[part].a, b->pairs[part].b, kin);
    for (int k = 0; k < 4; k++) {
        if (kin[k][0] < 0 || !b->meet[pair_index(b, kin[k][0], kin[k][1])])
            continue;
        if (k >= 2 && !turned)
            turned = depth_table_turned(out, scratch, straight);
        const struct depth_table **place = &b->tables->of[pair_index(b, kin[k][0], kin[k][1])];
        if (*place)
            continue;
        *place = k < 2 ? straight : turned;
        b->tables->rough[pair_index(b, kin[k][1], kin[k][0])] = (*place)->rough;
    }
    base_arena_reset(scratch);
}

static struct arena **arenas_of(struct arena *a, size_t count)
{
    struct arena **arenas = base_arena_alloc(a, count, sizeof(struct arena *));
    for (size_t i = 0; i < count; i++)
        arenas[i] = base_arena_create();
    return arenas;
}

struct tables tables_of(struct arena *a, const struct task *t, struct base_pool *pool)
{
    size_t threads = (size_t)base_pool_threads(pool);
    struct tables tables = { .shape_count = t->shape_count, .arena_count = threads };
    tables.of = base_arena_alloc(a, t->shape_count * t->shape_count, sizeof(struct depth_table *));
    tables.rough = base_arena_alloc(a, t->shape_count * t->shape_count, sizeof *tables.rough);
    tables.arenas = arenas_of(a, threads);
    struct arena *scratch = base_arena_create();
    struct builder b = { .task = t, .tables = &tables, .meet = find_meetings(scratch, t) };
    b.bend = BEND * middling_size(t);
    b.scratch = arenas_of(scratch, threads);
    list_pairs(scratch, &b);
    tables.step = choose_step(&b);
    b.nofits = base_arena_alloc(a, b.count, sizeof *b.nofits);
    base_pool_run(pool, b.count, make_nofit, &b);
    base_pool_run(pool, b.count, make_table, &b);
    for (size_t i = 0; i < threads; i++)
        base_arena_destroy(b.scratch[i]);
    base_arena_destroy(scratch);
    return tables;
}

void tables_finish(struct tables *t)
{
    for (size_t i = 0; i < t->arena_count; i++)
        base_arena_destroy(t->arenas[i]);
}
