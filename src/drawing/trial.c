#include "drawing/trial.h"

#define OTHERS_COUNT 0.25
#define EQUAL_SHARE 0.02 /* steps that are as good as each other */
enum { TRIED_MOST = 300 };

struct drawing_trial {
    const struct drawing_tiling *t;
    struct drawing_steps steps[DRAWING_AXES];
    double near_mm;
    size_t *runs_out; /* of each tile: lines at its sides */
    /* By axis and step: of each tile, at its low and its high end. */
    struct drawing_crossings *at[DRAWING_AXES][DRAWING_STEPS_MOST][DRAWING_ENDS];
};

static void cross_all(struct drawing_trial *trial, int axis, size_t k)
{
    const struct drawing_tiling *t = trial->t;
    double step = trial->steps[axis].step[k];
    double at[] = { drawing_cut_of_second(t, axis, step), drawing_cut_of_first(t, axis, step) };
    for (int end = 0; end < DRAWING_ENDS; end++) {
        trial->at[axis][k][end] = base_arena_alloc(t->a, t->count, sizeof *trial->at[axis][k][end]);
        for (size_t i = 0; i < t->count; i++)
            trial->at[axis][k][end][i] = drawing_cross(t->a, t, i, axis, end, at[end]);
    }
}

static void count_runs_out(struct drawing_trial *trial)
{
    struct arena *a = base_arena_create();
    trial->runs_out = base_arena_alloc(trial->t->a, trial->t->count, sizeof *trial->runs_out);
    for (size_t i = 0; i < trial->t->count; i++)
        for (int axis = 0; axis < DRAWING_AXES; axis++) {
            trial->runs_out[i] += drawing_cross(a, trial->t, i, axis, 0, trial->t->low[axis]).count;
            trial->runs_out[i] += drawing_cross(a, trial->t, i, axis, 1, trial->t->high[axis]).count;
        }
    base_arena_destroy(a);
}

struct drawing_trial *drawing_start_trial(const struct drawing_tiling *t, const struct drawing_twins *twins,
                                          double near_mm)
{
    struct drawing_trial *trial = base_arena_alloc(t->a, 1, sizeof *trial);
    trial->t = t;
    trial->near_mm = near_mm;
    drawing_find_steps(t, twins, near_mm, trial->steps);
    count_runs_out(trial);
    for (int axis = 0; axis < DRAWING_AXES; axis++)
        for (size_t k = 0; k < trial->steps[axis].count; k++)
            cross_all(trial, axis, k);
    return trial;
}

size_t drawing_runs_out(const struct drawing_trial *trial, size_t tile)
{
    return trial->runs_out[tile];
}

struct counted {
    size_t matched, open, loose;
    double worth;
};

/* One axis of a grid with one of the steps. */
static struct counted count_axis(const struct drawing_trial *trial, const struct drawing_grid *g, int axis, size_t k)
{
    struct counted c = { 0, 0, 0, 0 };
    size_t count = trial->t->count < TRIED_MOST ? trial->t->count : TRIED_MOST;
    for (size_t p = 0; p < count; p++) {
        if (g->cells[p].column == DRAWING_NONE)
            continue;
        size_t q = drawing_tile_beside(g, p, axis, true);
        const struct drawing_crossings *out = &trial->at[axis][k][1][p];
        c.loose += out->count + trial->at[axis][k][0][p].count;
        if (q >= count)
            continue;
        const struct drawing_crossings *in = &trial->at[axis][k][0][q];
        size_t matched = drawing_match_crossings(out, in, 0, trial->near_mm, NULL);
        c.matched += matched;
        c.loose -= out->count + in->count;
        c.open += out->count + in->count - 2 * matched;
    }
    c.worth = (double)c.matched - OTHERS_COUNT * (double)(c.open + c.loose);
    return c;
}

/* The step with which most lines go on; of those as good as each other the first. */
static struct counted best_of_axis(const struct drawing_trial *trial, struct drawing_grid *g, int axis)
{
    struct counted best = { 0, 0, 0, 0 };
    for (size_t k = 0; k < trial->steps[axis].count; k++) {
        struct counted c = count_axis(trial, g, axis, k);
        if (k && c.worth <= best.worth + EQUAL_SHARE * fabs(best.worth) + 0.5)
            continue;
        best = c;
        g->step[axis] = trial->steps[axis].step[k];
    }
    return best;
}

double drawing_try(struct drawing_trial *trial, struct drawing_grid *g)
{
    struct counted sum = { 0, 0, 0, 0 };
    for (int axis = 0; axis < DRAWING_AXES; axis++) {
        struct counted c = best_of_axis(trial, g, axis);
        sum.matched += c.matched;
        sum.open += c.open;
        sum.loose += c.loose;
        sum.worth += c.worth;
    }
    /* Lines of pages that are left out go on nowhere. */
    for (size_t i = 0; i < trial->t->count; i++)
        if (g->cells[i].column == DRAWING_NONE) {
            sum.loose += trial->runs_out[i];
            sum.worth -= OTHERS_COUNT * (double)trial->runs_out[i];
        }
    g->matched = sum.matched;
    g->open = sum.open;
    g->loose = sum.loose;
    return sum.worth;
}

size_t drawing_try_pair(const struct drawing_trial *trial, size_t p, size_t q, int axis, size_t *runs_out)
{
    size_t best = 0;
    *runs_out = 0;
    for (size_t k = 0; k < trial->steps[axis].count; k++) {
        const struct drawing_crossings *out = &trial->at[axis][k][1][p], *in = &trial->at[axis][k][0][q];
        size_t matched = drawing_match_crossings(out, in, 0, trial->near_mm, NULL);
        if (k == 0 || matched > best) {
            best = matched;
            *runs_out = out->count + in->count - matched;
        }
    }
    return best;
}
