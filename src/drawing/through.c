#include "drawing/through.h"

#define STRAIGHT_MM 0.02
#define SIDE_MM 0.5 /* from side to side within that; and a line nearer to the side that it runs along is a frame */

/* The columns and rows of the pages that have a shape. */
struct spread {
    int least[DRAWING_AXES], most[DRAWING_AXES];
    bool any;
};

static double part(vec2 v, int axis)
{
    return axis ? v.y : v.x;
}

static int lane_of(const struct drawing_cell *c, int axis)
{
    return axis ? c->row : c->column;
}

static void widen(struct spread *s, const struct drawing_cell *cell)
{
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        int lane = lane_of(cell, axis);
        s->least[axis] = s->any && s->least[axis] < lane ? s->least[axis] : lane;
        s->most[axis] = s->any && s->most[axis] > lane ? s->most[axis] : lane;
    }
    s->any = true;
}

/* Of each shape. */
static struct spread *spreads(const struct drawing_tiling *t, const struct drawing_grid *g)
{
    struct spread *all = base_arena_alloc(t->a, t->lines.count, sizeof *all);
    for (size_t k = 0; k < t->count; k++) {
        const struct drawing_page *page = &t->d->pages[t->tiles[k].page];
        for (size_t i = page->first_line; g->cells[k].column != DRAWING_NONE && i < page->first_line + page->line_count;
             i++)
            if (t->furniture[i])
                widen(&all[t->lines.of[i]], &g->cells[k]);
    }
    return all;
}

/* The axis along which it runs from side to side, within what is seen; -1: none. */
static int runs_through(const struct drawing_tiling *t, const struct drawing_tile *tile,
                        const struct drawing_line *line)
{
    struct geometry_box box = geometry_path_box(line->path.path);
    const vec2 min = { box.min.x * t->scale.across - tile->origin.x, box.min.y * t->scale.up - tile->origin.y };
    const vec2 max = { box.max.x * t->scale.across - tile->origin.x, box.max.y * t->scale.up - tile->origin.y };
    for (int axis = 0; !line->path.path.closed && axis < DRAWING_AXES; axis++) {
        bool straight = part(max, !axis) - part(min, !axis) <= STRAIGHT_MM;
        bool from_side = part(min, axis) <= t->low[axis] + SIDE_MM && part(max, axis) >= t->high[axis] - SIDE_MM;
        bool within = part(min, !axis) > t->low[!axis] + SIDE_MM && part(max, !axis) < t->high[!axis] - SIDE_MM;
        if (straight && from_side && within)
            return axis;
    }
    return -1;
}

void drawing_take_back_lines(struct drawing_tiling *t, const struct drawing_grid *g)
{
    struct spread *all = spreads(t, g);
    for (size_t k = 0; k < t->count; k++) {
        struct drawing_tile *tile = &t->tiles[k];
        const struct drawing_page *page = &t->d->pages[tile->page];
        for (size_t i = page->first_line; i < page->first_line + page->line_count; i++) {
            if (!t->furniture[i] || !all[t->lines.of[i]].any)
                continue;
            int axis = runs_through(t, tile, &t->d->lines[i]);
            const struct spread *s = &all[t->lines.of[i]];
            if (axis < 0 || s->least[!axis] != s->most[!axis])
                continue;
            t->furniture[i] = false;
            tile->line_count++;
        }
    }
}
