#include "packing/overlap_map.h"

#include <string.h>

static void add_band(struct overlap_map *map, double y, size_t count)
{
    map->bands = base_arena_grow(map->arena, map->bands, &map->band_cap, map->band_count + 1, sizeof *map->bands);
    map->bands[map->band_count++] = (struct map_band){ y, map->rows, count };
    map->rows += count;
}

/* Rows a step apart from a range's start on, and its end; each place of a lattice. */
static void set_bands(struct overlap_map *map, const struct task_shape *s, double step)
{
    map->rows = map->band_count = 0;
    map->row_step = step;
    for (size_t i = 0; i < s->across_count; i++) {
        const struct packing_range *r = &s->across[i];
        double span = r->last - r->first;
        if (r->step > 0) {
            for (double k = 0; k <= floor(span / r->step + 0.5); k++)
                add_band(map, r->first + k * r->step, 1);
            continue;
        }
        add_band(map, r->first, (size_t)(span / step) + 1);
        if (span > 0)
            add_band(map, r->last, 1);
    }
}

static void set_columns(struct overlap_map *map, const struct task_shape *s, double step, double length)
{
    map->x = s->along.first;
    map->step = s->along.step > 0 ? s->along.step : step;
    double span = task_last_along(s, length) - map->x;
    double count = s->along.step > 0 ? floor(span / map->step + 0.5) : ceil(span / map->step - 1e-6);
    map->columns = span >= 0 ? (size_t)count + 1 : 0;
}

/* Rounds a number of either sign; floor is a call, and this is asked often. */
static int nearest(double v)
{
    const int up = 1 << 20;
    return v > -up && v < up ? (int)(v + 0.5 + up) - up : v > 0 ? up : -up;
}

/* Towards minus infinity. */
static int divide(int a, int by)
{
    return a >= 0 ? a / by : -((by - 1 - a) / by);
}

/* Column 0 and row 0 of the table's block fall on these of the map's band; they may lie outside. */
static bool cut_to_map(struct map_part *p, struct overlap_map *map, const struct map_band *band,
                       const struct depth_rough *rough, int column, int row)
{
    int top = row > 0 ? row : 0, end = row + rough->rows;
    end = end < (int)band->count ? end : (int)band->count;
    int skip = column < -MAP_LANES ? (-column / MAP_LANES) * MAP_LANES : 0; /* whole lanes left of the map */
    int left = column + skip, last = (int)map->columns - left;
    int columns = rough->columns - skip < last ? rough->columns - skip : last;
    if (top >= end || columns <= 0)
        return false;
    p->rows = (size_t)(end - top);
    p->lanes = (size_t)(columns + MAP_LANES - 1) / MAP_LANES;
    p->cost += (long)(band->first + (size_t)top) * (long)map->stride + (long)map->margin + left;
    p->depth += (long)(top - row) * (long)rough->columns + skip;
    return true;
}

/* `at`: of the item that stays, in steps. */
static void add_to_bands(struct overlap_map *map, const struct depth_rough *rough, vec2 at, float weight)
{
    double per_unit = DEPTH_PHASES / map->row_step;
    int column = nearest((map->x - at.x) * per_unit - rough->left), across = divide(column, DEPTH_PHASES);
    for (size_t b = 0; b < map->band_count; b++) {
        const struct map_band *band = &map->bands[b];
        int row = nearest((band->y - at.y) * per_unit - rough->low), up = divide(row, DEPTH_PHASES);
        size_t place = depth_rough_place(rough, column - across * DEPTH_PHASES, row - up * DEPTH_PHASES);
        struct map_part p = { map->cost, rough->points + place, map->stride, (size_t)rough->columns, 0,
                              0,         weight * rough->unit };
        if (!cut_to_map(&p, map, band, rough, -across, -up))
            continue;
        map->parts[map->part_count++] = p;
        map->work += p.rows * (p.lanes * MAP_LANES + 4);
    }
}

/* On a lattice of stripes every column is looked up. */
static void add_to_stripes(struct overlap_map *map, const struct map_band *band, const struct depth_table *t, vec2 at,
                           float weight)
{
    for (size_t r = 0; r < band->count; r++) {
        int row = nearest((band->y + (double)r * map->row_step - at.y - t->origin.y) * t->per_unit);
        float *cost = map->cost + (band->first + r) * map->stride + map->margin;
        for (size_t c = 0; c < map->columns && row >= 0 && row < t->rows; c++) {
            int column = nearest((map->x + (double)c * map->step - at.x - t->origin.x) * t->per_unit);
            if (column >= 0 && column < t->columns)
                cost[c] += weight * t->rough.unit * (float)t->rough.points[depth_rough_place(&t->rough, column, row)];
        }
    }
    map->work += 4 * band->count * map->columns;
}

static void clear(struct overlap_map *map, const struct trial *t)
{
    map->margin = 2 * MAP_LANES;
    map->stride = map->margin + map->columns + 2 * MAP_LANES;
    size_t cells = map->rows * map->stride;
    map->cost = base_arena_grow(map->arena, map->cost, &map->cap, cells, sizeof *map->cost);
    memset(map->cost, 0, cells * sizeof *map->cost);
    map->parts = base_arena_grow(map->arena, map->parts, &map->part_cap, t->all * map->band_count, sizeof *map->parts);
    map->part_count = 0;
    map->work += cells / 4 + t->all;
}

/* Nothing is cheap outside. */
static void close_rows(struct overlap_map *map)
{
    for (size_t row = 0; row < map->rows && map->columns; row++) {
        float *cost = map->cost + row * map->stride + map->margin;
        cost[-1] = INFINITY;
        for (size_t c = map->columns; c <= (map->columns + MAP_LANES - 1) / MAP_LANES * MAP_LANES; c++)
            cost[c] = INFINITY;
    }
}

void overlap_map_fill(struct overlap_map *map, const struct trial *t, size_t item, int shape, double length)
{
    const struct task_shape *s = &t->task->shapes[shape];
    double step = t->tables->step * DEPTH_PHASES;
    set_bands(map, s, step);
    set_columns(map, s, step, length);
    clear(map, t);
    const struct depth_rough *rough = tables_rough(t->tables, shape);
    for (size_t k = 0; k < t->all && map->columns; k++) {
        if (k == item || t->at[k].shape == PACKING_NONE || !rough[t->at[k].shape].points)
            continue;
        float weight = t->weight[item * t->all + k];
        if (!(s->along.step > 0))
            add_to_bands(map, &rough[t->at[k].shape], t->at[k].shift, weight);
        for (size_t b = 0; b < map->band_count && s->along.step > 0; b++)
            add_to_stripes(map, &map->bands[b], tables_find(t->tables, t->at[k].shape, shape), t->at[k].shift, weight);
    }
    map_lanes_add(map->parts, map->part_count);
    close_rows(map);
}

double overlap_map_y(const struct overlap_map *map, size_t row)
{
    size_t b = 0;
    while (row >= map->bands[b].first + map->bands[b].count)
        b++;
    return map->bands[b].y + (double)(row - map->bands[b].first) * map->row_step;
}

static bool is_beside(const struct overlap_map *map, const struct overlap_place *p, int shape, vec2 shift)
{
    double near = 2.5 * map->row_step;
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
        const float *cost = overlap_map_row(map, row);
        float below = count == most ? list[count - 1].cost : INFINITY;
        for (size_t c = 0; (c = map_lanes_next(cost, c, map->columns, below)) < map->columns; c++) {
            struct packing_place place = { shape, overlap_map_shift(map, row, c) };
            count = take(map, list, count, most, (struct overlap_place){ place, cost[c] });
            below = count == most ? list[count - 1].cost : INFINITY;
        }
    }
    return count;
}
