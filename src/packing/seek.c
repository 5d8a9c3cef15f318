#include "packing/seek.h"

/* Places taken off the maps to be refined. */
enum { CANDIDATES = 4 };

/* Times what the best place costs so far: a candidate dearer than that on the map is not refined. */
#define HOPELESS 2.0

struct seeker seeker_of(struct arena *a, const struct trial *trial)
{
    struct seeker s = { .map = { .arena = a } };
    s.refining.others = base_arena_alloc(a, trial->all, sizeof *s.refining.others);
    return s;
}

size_t seek_work(const struct seeker *s)
{
    return s->map.work + 32 * s->refining.work;
}

static size_t list_candidates(struct seeker *s, const struct trial *t, size_t item, struct overlap_place *list)
{
    size_t count = 0;
    for (size_t k = 0; k < t->task->items[item].as_count; k++) {
        int shape = t->task->items[item].as[k];
        overlap_map_fill(&s->map, t, item, shape, t->length);
        count = overlap_map_cheapest(&s->map, shape, list, count, CANDIDATES);
    }
    return count;
}

/* Goes down from each candidate by large steps; the best of them, with its cost. */
static struct packing_place best_candidate(struct seeker *s, const struct trial *t, size_t item, double *cost)
{
    struct overlap_place list[CANDIDATES];
    struct packing_place best = { .shape = PACKING_NONE };
    struct refining *r = &s->refining;
    double step = t->tables->step;
    size_t count = list_candidates(s, t, item, list);
    for (size_t i = 0; i<count && * cost> 0; i++) {
        struct packing_place place = list[i].place;
        if ((double)list[i].cost > HOPELESS * (*cost + step))
            break;
        refine_begin(r, item, &place, t->length, 3 * DEPTH_PHASES * step);
        double there = refine_descend(r, &place.shift, refine_cost(r, place.shift), step, step * 0.9);
        if (there < *cost) {
            *cost = there;
            best = place;
        }
    }
    return best;
}

struct packing_place seek_cheapest(struct seeker *s, const struct trial *t, size_t item, double *cost)
{
    struct refining *r = &s->refining;
    double step = t->tables->step, here = trial_item_cost(t, item);
    r->trial = t;
    *cost = INFINITY;
    struct packing_place best = best_candidate(s, t, item, cost);
    if (best.shape == PACKING_NONE) {
        *cost = here;
        return t->at[item];
    }
    if (*cost > 0) {
        refine_begin(r, item, &best, t->length, 3 * DEPTH_PHASES * step);
        *cost = refine_descend(r, &best.shift, *cost, step / 2, step / 16);
        if (*cost > 0 && *cost < here + step)
            *cost = refine_meet(r, &best.shift, *cost, step);
    }
    return best;
}

/* --- the first lay --- */

/* The leftmost cell of a row that costs next to nothing, from a column on; -1 when there is none. */
static long first_cheap(const struct overlap_map *map, size_t row, size_t from, float most)
{
    const float *cost = overlap_map_row(map, row);
    for (size_t c = from; c < map->columns; c++)
        if (cost[c] <= most)
            return (long)c;
    return -1;
}

/* The next row in order of how far to the left it offers a cell. */
static size_t nearest_row(const long *first, size_t rows)
{
    size_t best = rows;
    for (size_t i = 0; i < rows; i++)
        if (first[i] >= 0 && (best == rows || first[i] < first[best]))
            best = i;
    return best;
}

/* How far the item can slide from a shift. */
static double slide(struct arena *scratch, const struct refining *r, vec2 shift, vec2 way, double most)
{
    for (size_t i = 0; i < r->other_count; i++)
        most = depth_table_ray(scratch, r->others[i].table, vec2_sub(shift, r->others[i].at), way, most);
    return most;
}

static double range_below(const struct task_shape *s, double y)
{
    for (size_t i = 0; i < s->across_count; i++)
        if (!(s->across[i].step > 0) && y >= s->across[i].first && y <= s->across[i].last)
            return y - s->across[i].first;
    return 0;
}

/* Against the strip's start, then down, as often as that moves it. */
static vec2 settle(const struct refining *r, vec2 shift)
{
    struct arena *scratch = base_arena_create();
    for (int i = 0; i < 4; i++) {
        double left = r->shape->along.step > 0 ? 0 : shift.x - r->shape->along.first;
        if (left > 0)
            shift.x -= slide(scratch, r, shift, (vec2){ -1, 0 }, left);
        double down = range_below(r->shape, shift.y);
        if (down > 0)
            shift.y -= slide(scratch, r, shift, (vec2){ 0, -1 }, down);
        base_arena_reset(scratch);
    }
    base_arena_destroy(scratch);
    return shift;
}

/* Makes a cell of the map an exact place without overlap. */
static bool make_free(struct seeker *s, const struct trial *t, size_t item, struct packing_place *place, double length)
{
    struct refining *r = &s->refining;
    double step = t->tables->step;
    refine_begin(r, item, place, length, length + t->task->width);
    double cost = refine_descend(r, &place->shift, refine_cost(r, place->shift), step, step / 8);
    if (cost > 0)
        cost = refine_meet(r, &place->shift, cost, 2 * step);
    if (cost == 0)
        place->shift = settle(r, place->shift);
    return cost == 0;
}

static struct packing_place first_as(struct seeker *s, const struct trial *t, size_t item, int shape, double length)
{
    struct overlap_map *map = &s->map;
    float most = (float)t->tables->step / 2;
    overlap_map_fill(map, t, item, shape, length);
    long *first = base_arena_alloc(map->arena, map->rows + 1, sizeof *first);
    for (size_t row = 0; row < map->rows; row++)
        first[row] = first_cheap(map, row, 0, most);
    for (size_t row; (row = nearest_row(first, map->rows)) < map->rows;) {
        struct packing_place place = { shape, overlap_map_shift(map, row, (size_t)first[row]) };
        if (make_free(s, t, item, &place, length))
            return place;
        first[row] = first_cheap(map, row, (size_t)first[row] + 1, most);
    }
    return (struct packing_place){ .shape = PACKING_NONE };
}

struct packing_place seek_first(struct seeker *s, const struct trial *t, size_t item, double length)
{
    struct packing_place best = { .shape = PACKING_NONE };
    double least = INFINITY;
    s->refining.trial = t;
    for (size_t k = 0; k < t->task->items[item].as_count; k++) {
        int shape = t->task->items[item].as[k];
        if (!t->task->shapes[shape].across_count)
            continue;
        struct packing_place place = first_as(s, t, item, shape, length);
        if (place.shape == PACKING_NONE)
            continue;
        double end = task_end(&t->task->shapes[shape], place.shift.x);
        if (end < least) {
            least = end;
            best = place;
        }
    }
    return best;
}
