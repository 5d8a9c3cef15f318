#include "drawing/fit.h"

#include <gsl/gsl_linalg.h>

#define OFF_MOST_MM 3.0 /* how far a page may lie beside where it should */
#define OFF_BIN_MM 0.1
#define NEAR_MM 0.3       /* lines that go on meet so near, once pages lie about right */
#define LINE_MM 0.02      /* what lines of a clean file are off by: rounded numbers, chords */
#define PAGE_MM 0.5       /* what pages may be off by where nothing holds them */
#define EVEN_PAGE_MM 0.01 /* the same when all lie as evenly as the lines can tell */
#define EVEN_MM 0.03      /* root mean square over all lines: then they do */
#define ANCHOR_MM 100.0   /* how loosely the whole is held */
enum { OFF_BINS = 61, ROUNDS = 3 };

/* A line that goes on: n · (q's origin - p's origin) = apart. */
struct tie {
    size_t p, q;
    int axis;
    vec2 normal;
    double apart;
};

struct fitting {
    const struct drawing_tiling *t;
    const struct drawing_twins *twins;
    struct drawing_grid *g;
    vec2 *origins;
    struct tie *ties;
    size_t tie_count, tie_cap;
};

static double part(vec2 v, int axis)
{
    return axis ? v.y : v.x;
}

static vec2 of_axis(int axis, double along, double beside)
{
    return axis ? (vec2){ beside, along } : (vec2){ along, beside };
}

static void lay_evenly(struct fitting *f, const vec2 step[DRAWING_AXES])
{
    for (size_t i = 0; i < f->t->count; i++)
        f->origins[i] = vec2_add(vec2_scale(step[0], f->g->cells[i].column), vec2_scale(step[1], -f->g->cells[i].row));
}

/* ----------------------------------------------------------------------------------------------- lines that go on */

/* How far pages are off beside the axis: where most differences of lines' places lie. */
static double usual_offset(const struct drawing_crossings *p, const struct drawing_crossings *q, double offset)
{
    unsigned bins[OFF_BINS] = { 0 };
    for (size_t i = 0, first = 0; i < p->count; i++) {
        const struct drawing_crossing *c = &p->all[i];
        while (first < q->count && (q->all[first].look < c->look ||
                                    (q->all[first].look == c->look && q->all[first].at + offset < c->at - OFF_MOST_MM)))
            first++;
        for (size_t k = first; k < q->count && q->all[k].look == c->look; k++) {
            double bin = floor((c->at - q->all[k].at - offset + OFF_MOST_MM) / OFF_BIN_MM + 0.5);
            if (bin < 0)
                break;
            if (bin < OFF_BINS)
                bins[(size_t)bin]++;
        }
    }
    size_t best = OFF_BINS / 2;
    for (size_t b = 1; b + 1 < OFF_BINS; b++)
        if (bins[b - 1] + bins[b] + bins[b + 1] > bins[best - 1] + bins[best] + bins[best + 1])
            best = b;
    return offset + ((double)best * OFF_BIN_MM - OFF_MOST_MM);
}

static void add_tie(struct fitting *f, size_t p, size_t q, int axis, const struct drawing_crossing *on_p,
                    const struct drawing_crossing *on_q, const double cut[2])
{
    vec2 along = vec2_unit(of_axis(axis, on_p->dir[0] + on_q->dir[0], on_p->dir[1] + on_q->dir[1]));
    vec2 normal = vec2_right(along);
    vec2 by = vec2_sub(of_axis(axis, cut[0], on_p->at), of_axis(axis, cut[1], on_q->at));
    f->ties = base_arena_grow(f->t->a, f->ties, &f->tie_cap, f->tie_count + 1, sizeof *f->ties);
    f->ties[f->tie_count++] = (struct tie){ p, q, axis, normal, vec2_dot(normal, by) };
}

static void tie_pair(struct fitting *f, struct arena *a, size_t p, size_t q, int axis, bool first_round)
{
    vec2 apart = vec2_sub(f->origins[q], f->origins[p]);
    double step = part(apart, axis), offset = part(apart, !axis);
    double cut[] = { drawing_cut_of_first(f->t, axis, step), drawing_cut_of_second(f->t, axis, step) };
    struct drawing_crossings on_p = drawing_cross(a, f->t, p, axis, 1, cut[0]);
    struct drawing_crossings on_q = drawing_cross(a, f->t, q, axis, 0, cut[1]);
    if (on_p.count == 0 || on_q.count == 0)
        return;
    if (first_round)
        offset = usual_offset(&on_p, &on_q, offset);
    struct drawing_match *matches = base_arena_alloc(a, on_p.count, sizeof *matches);
    size_t count = drawing_match_crossings(&on_p, &on_q, offset, NEAR_MM, matches);
    for (size_t i = 0; i < count; i++)
        add_tie(f, p, q, axis, &on_p.all[matches[i].p], &on_q.all[matches[i].q], cut);
}

/* The axis along which the tiles are neighbours, `p` before `q`; -1: they are none. */
static int axis_of(const struct fitting *f, size_t p, size_t q)
{
    for (int axis = 0; axis < DRAWING_AXES; axis++)
        if (drawing_tile_beside(f->g, p, axis, true) == q)
            return axis;
    return -1;
}

/* Neighbours that have a line whole are held both ways. */
static void tie_twin(struct fitting *f, const struct drawing_twin *twin)
{
    vec2 wrong = vec2_sub(vec2_sub(f->origins[twin->q], f->origins[twin->p]), twin->apart);
    int there = axis_of(f, twin->p, twin->q), back = axis_of(f, twin->q, twin->p);
    if ((there < 0 && back < 0) || vec2_length(wrong) > OFF_MOST_MM)
        return;
    const vec2 normals[] = { { 1, 0 }, { 0, 1 } };
    for (size_t k = 0; k < 2; k++) {
        f->ties = base_arena_grow(f->t->a, f->ties, &f->tie_cap, f->tie_count + 1, sizeof *f->ties);
        struct tie tie = { twin->p, twin->q, there, normals[k], part(twin->apart, (int)k) };
        if (there < 0)
            tie = (struct tie){ twin->q, twin->p, back, normals[k], -part(twin->apart, (int)k) };
        f->ties[f->tie_count++] = tie;
    }
}

static void tie_all(struct fitting *f, bool first_round)
{
    struct arena *a = base_arena_create();
    f->tie_count = 0;
    for (size_t p = 0; p < f->t->count; p++)
        for (int axis = 0; axis < DRAWING_AXES; axis++) {
            size_t q = drawing_tile_beside(f->g, p, axis, true);
            if (q != SIZE_MAX)
                tie_pair(f, a, p, q, axis, first_round);
        }
    for (size_t i = 0; i < f->twins->count; i++)
        tie_twin(f, &f->twins->all[i]);
    base_arena_destroy(a);
}

static double off(const struct fitting *f, const struct tie *tie)
{
    return vec2_dot(tie->normal, vec2_sub(f->origins[tie->q], f->origins[tie->p])) - tie->apart;
}

static double misfit(const struct fitting *f)
{
    double sum = 0;
    for (size_t i = 0; i < f->tie_count; i++)
        sum += off(f, &f->ties[i]) * off(f, &f->ties[i]);
    return f->tie_count ? sqrt(sum / (double)f->tie_count) : 0;
}

/* -------------------------------------------------------------------------------------- one step for all neighbours */

/* The step that fits all ties of the axis, held near the one it has by PAGE_MM. */
static vec2 fit_step(const struct fitting *f, int axis, vec2 step)
{
    double held = LINE_MM * LINE_MM / (PAGE_MM * PAGE_MM), xx = held, xy = 0, yy = held;
    vec2 right = vec2_scale(step, held);
    for (size_t i = 0; i < f->tie_count; i++) {
        const struct tie *tie = &f->ties[i];
        if (tie->axis != axis)
            continue;
        xx += tie->normal.x * tie->normal.x;
        xy += tie->normal.x * tie->normal.y;
        yy += tie->normal.y * tie->normal.y;
        right = vec2_add(right, vec2_scale(tie->normal, tie->apart));
    }
    double det = xx * yy - xy * xy;
    return (vec2){ (right.x * yy - right.y * xy) / det, (right.y * xx - right.x * xy) / det };
}

/* ----------------------------------------------------------------------------------------- a shift for every page */

/* Tiles numbered along the shorter side of the grid, so that neighbours have numbers near each other. */
static size_t *number_tiles(const struct fitting *f, size_t *count)
{
    size_t *number = base_arena_alloc(f->t->a, f->t->count, sizeof *number);
    const struct drawing_grid *g = f->g;
    size_t columns = (size_t)g->columns, rows = (size_t)g->rows;
    *count = 0;
    for (size_t k = 0; k < columns * rows; k++) {
        size_t cell = columns <= rows ? k : k % rows * columns + k / rows;
        if (g->tiles[cell] != SIZE_MAX)
            number[g->tiles[cell]] = (*count)++;
    }
    return number;
}

struct normal_equations {
    gsl_matrix *band; /* row i, column k: the element of row i + k and column i */
    gsl_vector *right;
};

static void add_to(struct normal_equations *e, size_t row, size_t column, double value)
{
    size_t low = row < column ? row : column, high = row < column ? column : row;
    *gsl_matrix_ptr(e->band, low, high - low) += value;
}

/* Adds weight · (n · (q - p) - apart)². */
static void add_equation(struct normal_equations *e, size_t p, size_t q, vec2 n, double apart, double weight)
{
    const size_t at[] = { 2 * p, 2 * p + 1, 2 * q, 2 * q + 1 };
    const double factor[] = { -n.x, -n.y, n.x, n.y };
    for (size_t i = 0; i < 4; i++) {
        *gsl_vector_ptr(e->right, at[i]) += weight * factor[i] * apart;
        for (size_t k = 0; k <= i; k++)
            add_to(e, at[i], at[k], weight * factor[i] * factor[k]);
    }
}

static size_t band_width(const struct fitting *f, const size_t *number)
{
    size_t most = 0;
    for (size_t p = 0; p < f->t->count; p++)
        for (int axis = 0; axis < DRAWING_AXES; axis++) {
            size_t q = drawing_tile_beside(f->g, p, axis, true);
            if (q == SIZE_MAX)
                continue;
            size_t apart = number[p] > number[q] ? number[p] - number[q] : number[q] - number[p];
            most = apart > most ? apart : most;
        }
    return 2 * most + 2;
}

/* Neighbours want to lie one step apart, and all want to stay about where they are. */
static void add_wishes(struct fitting *f, struct normal_equations *e, const size_t *number, const vec2 step[],
                       double page_mm)
{
    double anchor = 1 / (ANCHOR_MM * ANCHOR_MM), weight = 1 / (page_mm * page_mm);
    for (size_t p = 0; p < f->t->count; p++) {
        if (f->g->cells[p].column == DRAWING_NONE)
            continue;
        for (size_t k = 0; k < 2; k++) {
            add_to(e, 2 * number[p] + k, 2 * number[p] + k, anchor);
            *gsl_vector_ptr(e->right, 2 * number[p] + k) += anchor * part(f->origins[p], (int)k);
        }
        for (int axis = 0; axis < DRAWING_AXES; axis++) {
            size_t q = drawing_tile_beside(f->g, p, axis, true);
            if (q == SIZE_MAX)
                continue;
            add_equation(e, number[p], number[q], (vec2){ 1, 0 }, step[axis].x, weight);
            add_equation(e, number[p], number[q], (vec2){ 0, 1 }, step[axis].y, weight);
        }
    }
}

static void solve(struct fitting *f, const vec2 step[DRAWING_AXES], double page_mm)
{
    size_t count, *number = number_tiles(f, &count);
    size_t width = band_width(f, number);
    width = width < 2 * count ? width : 2 * count;
    struct normal_equations e = { gsl_matrix_calloc(2 * count, width), gsl_vector_calloc(2 * count) };
    gsl_vector *x = gsl_vector_calloc(2 * count);
    add_wishes(f, &e, number, step, page_mm);
    for (size_t i = 0; i < f->tie_count; i++)
        add_equation(&e, number[f->ties[i].p], number[f->ties[i].q], f->ties[i].normal, f->ties[i].apart,
                     1 / (LINE_MM * LINE_MM));
    gsl_linalg_cholesky_band_decomp(e.band);
    gsl_linalg_cholesky_band_solve(e.band, e.right, x);
    for (size_t i = 0; i < f->t->count; i++)
        if (f->g->cells[i].column != DRAWING_NONE)
            f->origins[i] = (vec2){ gsl_vector_get(x, 2 * number[i]), gsl_vector_get(x, 2 * number[i] + 1) };
    gsl_vector_free(x);
    gsl_vector_free(e.right);
    gsl_matrix_free(e.band);
}

static struct drawing_fit told(const struct fitting *f)
{
    struct drawing_fit out = { f->origins, base_arena_alloc(f->t->a, f->t->count, sizeof *out.misfit_mm),
                               base_arena_alloc(f->t->a, f->t->count, sizeof *out.tied_by), misfit(f) };
    for (size_t i = 0; i < f->tie_count; i++) {
        const size_t ends[] = { f->ties[i].p, f->ties[i].q };
        for (size_t k = 0; k < 2; k++) {
            out.misfit_mm[ends[k]] += off(f, &f->ties[i]) * off(f, &f->ties[i]);
            out.tied_by[ends[k]]++;
        }
    }
    for (size_t i = 0; i < f->t->count; i++)
        if (out.tied_by[i])
            out.misfit_mm[i] = sqrt(out.misfit_mm[i] / (double)out.tied_by[i]);
    return out;
}

/* Lines that went on count with the move in, unless as many go on where the pages lie now. */
static void move(struct fitting *f, const vec2 *moved)
{
    struct fitting now = *f;
    for (size_t i = 0; i < f->t->count; i++)
        f->origins[i] = vec2_add(f->origins[i], moved[i]);
    now.ties = NULL;
    now.tie_cap = 0;
    tie_all(&now, false);
    if (now.tie_count >= f->tie_count)
        *f = now;
}

struct drawing_fit drawing_fit_grid(const struct drawing_tiling *t, const struct drawing_twins *twins,
                                    struct drawing_grid *g, const vec2 *moved)
{
    struct fitting f = { .t = t, .twins = twins, .g = g, .origins = base_arena_alloc(t->a, t->count, sizeof(vec2)) };
    vec2 step[DRAWING_AXES] = { { g->step[0], 0 }, { 0, g->step[1] } };
    for (int round = 0; round < ROUNDS; round++) {
        lay_evenly(&f, step);
        tie_all(&f, round == 0);
        for (int axis = 0; axis < DRAWING_AXES; axis++)
            step[axis] = fit_step(&f, axis, step[axis]);
    }
    lay_evenly(&f, step);
    tie_all(&f, true);
    double page_mm = misfit(&f) <= EVEN_MM ? EVEN_PAGE_MM : PAGE_MM;
    for (int round = 0; round < ROUNDS; round++) {
        solve(&f, step, page_mm);
        tie_all(&f, false);
    }
    for (int axis = 0; axis < DRAWING_AXES; axis++)
        g->step[axis] = part(step[axis], axis);
    if (moved)
        move(&f, moved);
    return told(&f);
}
