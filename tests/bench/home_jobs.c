#include "bench/home_jobs.h"

#include "bench/clock.h"
#include "packing/random.h"
#include "pattern/read.h"
#include "support/at_size.h"

#include <stdio.h>

enum { PIECES = 15, CHORDS = 10, PATTERN_PIECES = 24 };

const struct home_job home_random_jobs[HOME_RANDOM_JOBS] = {
    { .name = "drawn 700", .width_mm = 700, .shortest_mm = 1620.55, .drawn = 700 },
    { .name = "drawn 701", .width_mm = 1400, .shortest_mm = 794.62, .drawn = 701 },
    { .name = "drawn 702", .width_mm = 900, .shortest_mm = 1347.10, .drawn = 702 },
    { .name = "drawn 703", .width_mm = 1100, .shortest_mm = 905.87, .drawn = 703 },
    { .name = "drawn 704", .width_mm = 560, .shortest_mm = 1895.45, .drawn = 704 },
    { .name = "drawn 705", .width_mm = 750, .shortest_mm = 1288.83, .drawn = 705 },
    { .name = "drawn 706", .width_mm = 1500, .shortest_mm = 766.89, .drawn = 706 },
    { .name = "drawn 707", .width_mm = 700, .shortest_mm = 1900.01, .drawn = 707 },
};

const struct home_job home_pattern_jobs[HOME_PATTERN_JOBS] = {
    { .name = "demo/pinafore.json",
      .width_mm = 1400,
      .shortest_mm = 1291.68,
      .view = 0,
      .size = 4,
      .spread = CLOTH_SINGLE },
    { .name = "demo/pinafore.json",
      .width_mm = 1500,
      .shortest_mm = 2892.43,
      .view = 1,
      .size = 6,
      .spread = CLOTH_FOLDED },
    { .name = "demo/pinafore.json",
      .width_mm = 1120,
      .shortest_mm = 1630.42,
      .view = 3,
      .size = 2,
      .spread = CLOTH_SINGLE,
      .one_way = true },
    { .name = "demo/skirt.json",
      .width_mm = 1400,
      .shortest_mm = 6161.28,
      .view = 0,
      .size = 5,
      .spread = CLOTH_FOLDED },
    { .name = "drafts/bodice-block.json",
      .width_mm = 1100,
      .shortest_mm = 1940.90,
      .view = 0,
      .size = 3,
      .spread = CLOTH_SINGLE },
    { .name = "drafts/bodice-block.json",
      .width_mm = 1400,
      .shortest_mm = 3809.71,
      .view = 0,
      .size = 7,
      .spread = CLOTH_FOLDED },
};

/* --- random pieces ------------------------------------------------------------------------------------------------ */

static double between(uint64_t *random, double least, double most)
{
    return least + random_share(random) * (most - least);
}

/* A side from where the outline ends, bulging to the right by a share of its length (below zero: hollow). */
static void add_side(struct geometry_path *p, vec2 from, vec2 to, double bulge)
{
    vec2 right = vec2_right(vec2_sub(to, from));
    size_t chords = fabs(bulge) > 0.01 ? CHORDS : 1;
    for (size_t i = 0; i < chords; i++) {
        double t = (double)i / (double)chords;
        p->points[p->count++] = vec2_add(vec2_lerp(from, to, t), vec2_scale(right, bulge * 4 * t * (1 - t)));
    }
}

/* Like a bodice, a sleeve or a skirt: hem, slanting side, a hollow as of an armhole, a shoulder, a hollow as of a neck.
 */
static struct geometry_path draw_piece(struct arena *a, uint64_t *random)
{
    double length = between(random, 150, 650), width = between(random, 80, 320);
    vec2 corners[5] = { { 0, 0 },
                        { length * 0.97, between(random, -20, 20) },
                        { length * between(random, 0.9, 1), width * between(random, 0.4, 0.7) },
                        { length * between(random, 0.6, 0.75), width },
                        { 0, width * between(random, 0.8, 1.1) } };
    double bulges[5] = { between(random, -0.02, 0.02), between(random, -0.2, 0.05), between(random, -0.2, 0.2),
                         between(random, -0.03, 0.03), between(random, -0.03, 0.06) };
    struct geometry_path p = { base_arena_alloc(a, 5 * CHORDS, sizeof(vec2)), 0, true };
    for (size_t i = 0; i < 5; i++)
        add_side(&p, corners[i], corners[(i + 1) % 5], bulges[i]);
    return p;
}

/* Each may be turned round. */
static struct packing_problem draw_job(struct arena *a, const struct home_job *job)
{
    uint64_t seed = job->drawn;
    struct packing_shape *shapes = base_arena_alloc(a, 2 * PIECES, sizeof *shapes);
    struct packing_item *items = base_arena_alloc(a, PIECES, sizeof *items);
    for (int i = 0; i < PIECES; i++) {
        struct geometry_path p = draw_piece(a, &seed), half = geometry_path_copy(a, p);
        for (size_t k = 0; k < half.count; k++)
            half.points[k] = vec2_scale(half.points[k], -1);
        shapes[2 * i] = (struct packing_shape){ .outline = p, .half_turn = 2 * i + 1 };
        shapes[2 * i + 1] = (struct packing_shape){ .outline = half, .half_turn = 2 * i };
        int *as = base_arena_alloc(a, 2, sizeof *as);
        as[0] = 2 * i;
        as[1] = 2 * i + 1;
        items[i] = (struct packing_item){ as, 2 };
    }
    return (struct packing_problem){
        .width = job->width_mm, .shapes = shapes, .shape_count = 2 * PIECES, .items = items, .item_count = PIECES
    };
}

/* --- a pattern's pieces ------------------------------------------------------------------------------------------- */

static bool make_task(struct arena *a, const struct home_job *job, const struct draft *draft, const struct cloth *cloth,
                      struct lay_task *out)
{
    struct err_list *errs = base_err_list_create();
    bool ok = lay_task_make(a, draft, NULL, cloth, PATTERN_FABRIC, out, errs);
    base_err_list_destroy(errs);
    if (!ok)
        fprintf(stderr, "%s cannot be laid on %g mm\n", job->name, job->width_mm);
    return ok;
}

/* The view's cutting list, so often round that there are so many pieces to be laid; what lies in pairs goes as a pair.
 */
static bool fill_list(struct arena *a, const struct home_job *job, struct draft *draft, const struct cloth *cloth,
                      struct lay_task *out)
{
    struct draft_cut *cuts = base_arena_alloc(a, draft->cut_count, sizeof *cuts);
    size_t fabric = 0;
    for (size_t i = 0; i < draft->cut_count; i++)
        if (draft->cuts[i].cloth == PATTERN_FABRIC)
            cuts[fabric++] = draft->cuts[i];
    draft->cuts = cuts;
    draft->cut_count = fabric;
    for (size_t i = 0;; i = (i + 1) % fabric) {
        if (!make_task(a, job, draft, cloth, out))
            return false;
        if (out->item_count >= PATTERN_PIECES)
            return true;
        cuts[i].count += cuts[i].hand == PATTERN_PAIRS || !draft->pieces[cuts[i].piece].has_fold ? 2 : 1;
    }
}

static bool make_job(struct arena *a, const struct home_job *job, struct lay_task *out)
{
    struct err_list *errs = base_err_list_create();
    struct draft *draft = base_arena_alloc(a, 1, sizeof *draft);
    struct cloth *cloth = base_arena_alloc(a, 1, sizeof *cloth);
    char path[1024];
    snprintf(path, sizeof path, "%s/%s", ASSETS_FOLDER, job->name);
    const struct pattern *p = pattern_read(a, path, errs);
    bool ok = p && make_at_size(a, p, job->size, PATTERN_NONE, job->view, draft, errs);
    base_err_list_destroy(errs);
    *cloth = (struct cloth){ .width_mm = job->width_mm, .spread = job->spread, .one_way = job->one_way };
    if (!ok)
        fprintf(stderr, "%s cannot be drafted\n", path);
    return ok && fill_list(a, job, draft, cloth, out);
}

/* --- searching ---------------------------------------------------------------------------------------------------- */

bool home_begin(struct arena *a, const struct home_job *job, uint64_t seed, struct base_pool *pool,
                struct home_search *out, double *begun_s)
{
    struct err_list *errs = base_err_list_create();
    struct lay_task *task = base_arena_alloc(a, 1, sizeof *task);
    bool ok = job->drawn || make_job(a, job, task);
    *out = (struct home_search){ NULL, NULL };
    struct packing_problem problem = job->drawn ? draw_job(a, job) : (struct packing_problem){ .width = 0 };
    *begun_s = process_cpu_s();
    if (job->drawn)
        out->packing = packing_begin(&problem, seed, pool);
    else if (ok)
        out->lay = lay_search_begin(task, NULL, seed, pool, NULL, errs);
    base_err_list_destroy(errs);
    return out->packing || out->lay;
}

void home_end(struct home_search *s)
{
    packing_end(s->packing);
    lay_search_end(s->lay);
}

void home_round(struct home_search *s)
{
    if (s->packing)
        packing_round(s->packing, NULL);
    else
        lay_search_round(s->lay, NULL);
}

bool home_can_gain(const struct home_search *s)
{
    return s->packing ? packing_can_gain(s->packing) : lay_search_can_gain(s->lay);
}

double home_length(const struct home_search *s)
{
    if (s->packing)
        return packing_best(s->packing)->length;
    struct arena *scratch = base_arena_create();
    double mm = lay_search_best(scratch, s->lay).length_mm;
    base_arena_destroy(scratch);
    return mm;
}
