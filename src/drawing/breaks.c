#include "drawing/breaks.h"

#define NEAR_MM 1.0       /* ends of a line that goes on lie so near, even where pages are a little off */
#define GOES_ON_SHARE 0.6 /* of the ends at a join: fewer are no join */
enum { ENDS_LEAST = 3 };  /* one or two may end there by chance */

struct breaking {
    const struct drawing_tiling *t;
    const struct drawing_grid *g;
    const vec2 *origins;
    struct drawing_break *all;
    size_t count, cap;
};

static void judge(struct breaking *b, size_t p, size_t q, size_t ends, size_t go_on)
{
    if (ends < ENDS_LEAST || (double)go_on >= GOES_ON_SHARE * (double)ends)
        return;
    int other = q == SIZE_MAX ? DRAWING_NONE : b->t->tiles[q].page;
    b->all = base_arena_grow(b->t->a, b->all, &b->cap, b->count + 1, sizeof *b->all);
    b->all[b->count++] = (struct drawing_break){ { b->t->tiles[p].page, other }, ends, go_on };
}

static void judge_join(struct breaking *b, struct arena *a, size_t p, size_t q, int axis)
{
    vec2 apart = vec2_sub(b->origins[q], b->origins[p]);
    double step = axis ? apart.y : apart.x, offset = axis ? apart.x : apart.y;
    struct drawing_crossings on_p = drawing_cross(a, b->t, p, axis, 1, drawing_cut_of_first(b->t, axis, step));
    struct drawing_crossings on_q = drawing_cross(a, b->t, q, axis, 0, drawing_cut_of_second(b->t, axis, step));
    size_t go_on = 2 * drawing_match_crossings(&on_p, &on_q, offset, NEAR_MM, NULL);
    judge(b, p, q, on_p.count + on_q.count, go_on);
}

/* A side where no page is. A hole within the grid is told as a missing page. */
static void judge_side(struct breaking *b, struct arena *a, size_t p, int axis, bool high)
{
    int lane = axis ? b->g->cells[p].row : b->g->cells[p].column, lanes = axis ? b->g->rows : b->g->columns;
    bool is_outer = (axis == 0) == high ? lane == lanes - 1 : lane == 0;
    double at = high ? b->t->high[axis] : b->t->low[axis];
    if (is_outer)
        judge(b, p, SIZE_MAX, drawing_cross(a, b->t, p, axis, high, at).count, 0);
}

size_t drawing_find_breaks(const struct drawing_tiling *t, const struct drawing_grid *g, const vec2 *origins,
                           const struct drawing_break **out)
{
    struct breaking b = { .t = t, .g = g, .origins = origins };
    struct arena *a = base_arena_create();
    for (size_t p = 0; p < t->count; p++)
        for (int axis = 0; g->cells[p].column != DRAWING_NONE && axis < DRAWING_AXES; axis++) {
            size_t q = drawing_tile_beside(g, p, axis, true);
            if (q != SIZE_MAX)
                judge_join(&b, a, p, q, axis);
            for (int high = 0; high < 2; high++)
                judge_side(&b, a, p, axis, high);
        }
    base_arena_destroy(a);
    *out = b.all;
    return b.count;
}
