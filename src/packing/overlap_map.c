#include "packing/overlap_map.h"

#include <string.h>

static void add_row(struct overlap_map *map, double y)
{
    map->y = base_arena_grow(map->arena, map->y, &map->y_cap, map->rows + 1, sizeof *map->y);
    map->y[map->rows++] = y;
}

/* Both ends of a range are rows, and evenly spaced ones between. */
static void set_rows(struct overlap_map *map, const struct task_shape *s, double step)
{
    map->rows = 0;
    for (size_t i = 0; i < s->across_count; i++) {
        const struct packing_range *r = &s->across[i];
        double span = r->last - r->first;
        double count = r->step > 0 ? floor(span / r->step + 0.5) : ceil(span / step - 1e-9);
        for (double k = 0; k <= count; k++)
            add_row(map, count > 0 ? r->first + span * (k / count) : r->first);
    }
}

/* The last column may lie a part of a step beyond the strip: whoever takes a place from it moves it in. */
static void set_columns(struct overlap_map *map, const struct task_shape *s, double step, double length)
{
    map->x = s->along.first;
    map->step = s->along.step > 0 ? s->along.step : step;
    double span = task_last_along(s, length) - map->x;
    double count = s->along.step > 0 ? floor(span / map->step + 0.5) : ceil(span / map->step - 1e-6);
    map->columns = span >= 0 ? (size_t)count + 1 : 0;
}

/* Shifts of the map's columns are DEPTH_PHASES points apart: neighbours in one phase of the table. */
static void add_run(float *restrict cost, const float *restrict depth, size_t count, float weight)
{
    for (size_t i = 0; i < count; i++) {
        float d = depth[i] > 0 ? depth[i] : 0;
        cost[i] += weight * d;
    }
}

static void add_even_row(struct overlap_map *map, size_t row, const struct depth_table *t, int line, long start,
                         float weight)
{
    long first = t->first[line] - start, last = t->last[line] - start;
    first = first > 0 ? (first + DEPTH_PHASES - 1) / DEPTH_PHASES : 0;
    if (last < 0)
        return;
    last /= DEPTH_PHASES;
    last = last < (long)map->columns - 1 ? last : (long)map->columns - 1;
    if (first > last)
        return;
    size_t from = depth_table_index(t, (int)(start + first * DEPTH_PHASES), line);
    size_t count = (size_t)(last - first + 1);
    add_run(map->cost + row * map->columns + (size_t)first, t->depth + from, count, weight);
    map->work += count;
}

/* On a lattice of stripes every column is looked up. */
static void add_uneven_row(struct overlap_map *map, size_t row, const struct depth_table *t, int line, double start,
                           float weight)
{
    for (size_t c = 0; c < map->columns; c++) {
        double column = floor(start + (double)c * map->step * t->per_unit + 0.5);
        if (column < t->first[line] || column > t->last[line])
            continue;
        float d = t->depth[depth_table_index(t, (int)column, line)];
        map->cost[row * map->columns + c] += d > 0 ? weight * d : 0;
    }
    map->work += map->columns;
}

static void add_table(struct overlap_map *map, const struct depth_table *t, vec2 at, float weight, bool even)
{
    double start = (map->x - at.x - t->origin.x) * t->per_unit;
    for (size_t row = 0; row < map->rows; row++) {
        double line = floor((map->y[row] - at.y - t->origin.y) * t->per_unit + 0.5);
        if (line < 0 || line >= t->rows)
            continue;
        if (even)
            add_even_row(map, row, t, (int)line, (long)floor(start + 0.5), weight);
        else
            add_uneven_row(map, row, t, (int)line, start, weight);
    }
}

void overlap_map_fill(struct overlap_map *map, const struct trial *t, size_t item, int shape, double length)
{
    const struct task_shape *s = &t->task->shapes[shape];
    double step = t->tables->step * DEPTH_PHASES;
    set_rows(map, s, step);
    set_columns(map, s, step, length);
    size_t cells = map->rows * map->columns;
    map->cost = base_arena_grow(map->arena, map->cost, &map->cap, cells, sizeof *map->cost);
    memset(map->cost, 0, cells * sizeof *map->cost);
    map->work += cells / 4;
    for (size_t k = 0; k < t->all; k++) {
        if (k == item || t->at[k].shape == PACKING_NONE)
            continue;
        const struct depth_table *table = tables_find(t->tables, t->at[k].shape, shape);
        if (table)
            add_table(map, table, t->at[k].shift, t->weight[item * t->all + k], !(s->along.step > 0));
    }
}

static bool is_beside(const struct overlap_map *map, const struct overlap_place *p, int shape, vec2 shift)
{
    double near = 2.5 * map->step;
    return p->place.shape == shape && fabs(p->place.shift.x - shift.x) < near &&
           fabs(p->place.shift.y - shift.y) < near;
}

/* Takes the new place in unless a cheaper one is beside it; dearer ones beside it go. */
static size_t take(const struct overlap_map *map, struct overlap_place *list, size_t count, size_t most,
                   struct overlap_place new)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        bool beside = is_beside(map, &list[i], new.place.shape, new.place.shift);
        if (beside && list[i].cost <= new.cost)
            return count;
        if (!beside)
            list[kept++] = list[i];
    }
    size_t at = kept;
    while (at > 0 && list[at - 1].cost > new.cost)
        at--;
    if (at >= most)
        return kept;
    kept = kept < most ? kept + 1 : most;
    for (size_t i = kept - 1; i > at; i--)
        list[i] = list[i - 1];
    list[at] = new;
    return kept;
}

size_t overlap_map_cheapest(const struct overlap_map *map, int shape, struct overlap_place *list, size_t count,
                            size_t most)
{
    for (size_t row = 0; row < map->rows; row++) {
        const float *cost = map->cost + row * map->columns;
        for (size_t c = 0; c < map->columns; c++) {
            if (count == most && cost[c] >= list[count - 1].cost)
                continue;
            struct packing_place place = { shape, overlap_map_shift(map, row, c) };
            count = take(map, list, count, most, (struct overlap_place){ place, cost[c] });
        }
    }
    return count;
}
