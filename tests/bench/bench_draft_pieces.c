/* How fast whole patterns are drafted, in processor time, as medians.
 *
 * draft.demo_ms: the demo's largest view after one measurement has changed: size, cup group and pieces; nothing is
 * read. draft.fifty_sizes_ms: a generated pattern of 40 curved pieces with notches, in all its 50 sizes. */
#include "base/arena.h"
#include "base/buffer.h"
#include "bench/clock.h"
#include "bench/figure.h"
#include "draft/draft.h"
#include "job/job.h"
#include "pattern/read.h"
#include "sizing/body.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { DEMO_ROUNDS = 101, ROUNDS = 11, SIZES = 50, PIECES = 40 };

static double median(double *ms, size_t count)
{
    qsort(ms, count, sizeof ms[0], by_size);
    return ms[count / 2];
}

/* ---- The demo after a change ---- */

static int largest_view(const struct pattern *p)
{
    int view = 0;
    for (int v = 1; v < (int)p->view_count; v++)
        if (p->views[v].cut_count > p->views[view].cut_count)
            view = v;
    return view;
}

static bool draft_job(struct arena *a, struct job *job, struct err_list *errs)
{
    struct job_choices choices = { .pattern = "pattern" };
    struct sizing_choice choice;
    struct draft draft;
    if (!job_choose_size(a, &choices, job, &choice, errs))
        return false;
    struct draft_figure figure = job_figure(job);
    return draft_make(a, job->pattern, &figure, job->view, &draft, errs) && draft.piece_count > 0;
}

/* The first measurement goes up and down by a millimetre. */
static bool demo_figure(struct arena *a, struct err_list *errs)
{
    struct job job = { .pattern = pattern_read(a, ASSETS_FOLDER "/demo/pinafore.json", errs) };
    const struct sizing_body *guide = sizing_body_read(a, ASSETS_FOLDER "/demo/guide.json", errs);
    if (!job.pattern || !guide)
        return false;
    struct sizing_body body = *guide;
    struct sizing_measurement *measured = base_arena_alloc(a, body.count, sizeof *measured);
    memcpy(measured, guide->items, body.count * sizeof *measured);
    body.items = measured;
    job.body = &body;
    job.view = largest_view(job.pattern);
    struct arena *work = base_arena_create();
    double ms[DEMO_ROUNDS];
    bool ok = true;
    for (int i = 0; i < DEMO_ROUNDS; i++) {
        measured[0].mm += i % 2 ? -1 : 1;
        double start = cpu_ms();
        ok = draft_job(work, &job, errs) && ok;
        ms[i] = cpu_ms() - start;
        base_arena_reset(work);
    }
    base_arena_destroy(work);
    figure("draft.demo_ms", median(ms, DEMO_ROUNDS), "ms");
    return ok;
}

/* ---- Many pieces in many sizes ---- */

/* A length in each size. */
static void put_list(struct base_buffer *b, double first, double step)
{
    for (int size = 0; size < SIZES; size++)
        base_buffer_print(b, "%s%.2f", size ? ", " : "[", first + step * size);
    base_buffer_print(b, "]");
}

static void put_point(struct base_buffer *b, const char *name, double x, double y)
{
    base_buffer_print(b, "\"%s\": [", name);
    put_list(b, x, x / 100);
    base_buffer_print(b, ", ");
    put_list(b, y, y / 200);
    base_buffer_print(b, "]%s", strcmp(name, "g") == 0 ? "" : ", ");
}

/* A bodice's front with a bust dart's worth of curves: all its edges but shoulder and centre are cubics. */
static const struct {
    const char *name;
    double x, y;
} points[] = { { "a", 0, 0 },      { "a1", 80, -4 },  { "a2", 160, 2 },   { "b", 240, 12 },   { "b1", 236, 90 },
               { "b2", 228, 160 }, { "c", 250, 210 }, { "c1", 200, 215 }, { "c2", 185, 300 }, { "d", 200, 390 },
               { "e", 80, 420 },   { "e1", 78, 370 }, { "e2", 50, 335 },  { "f", 0, 330 },    { "g", 60, 200 } };

static void put_piece(struct base_buffer *b, int index)
{
    double scale = 0.6 + 0.02 * index;
    base_buffer_print(b, "%s{ \"name\": \"p%d\", \"allowance\": 15, \"points\": { ", index ? ",\n" : "", index);
    for (size_t i = 0; i < sizeof points / sizeof points[0]; i++)
        put_point(b, points[i].name, points[i].x * scale, points[i].y * scale);
    base_buffer_print(b, "}, \"outline\": ["
                         "{ \"name\": \"hem\", \"path\": [\"a\", [\"a1\", \"a2\", \"b\"]], \"allowance\": 30 },"
                         "{ \"name\": \"side\", \"path\": [\"b\", [\"b1\", \"b2\", \"c\"]] },"
                         "{ \"name\": \"armhole\", \"path\": [\"c\", [\"c1\", \"c2\", \"d\"]], \"allowance\": 10 },"
                         "{ \"name\": \"shoulder\", \"path\": [\"d\", \"e\"] },"
                         "{ \"name\": \"neck\", \"path\": [\"e\", [\"e1\", \"e2\", \"f\"]], \"allowance\": 6 },"
                         "{ \"name\": \"centre\", \"path\": [\"f\", \"a\"] } ], \"notches\": ["
                         "{ \"edge\": \"side\", \"at\": 40 }, { \"edge\": \"side\", \"from_end\": 30 },"
                         "{ \"edge\": \"armhole\", \"at\": 50, \"double\": true }, { \"edge\": \"hem\", \"at\": 60 },"
                         "{ \"edge\": \"neck\", \"at\": 30, \"shape\": \"v\" }, { \"edge\": \"centre\", \"at\": 90 } ],"
                         "\"drill_marks\": [\"g\"] }");
}

static const struct pattern *generated(struct arena *a, struct err_list *errs)
{
    struct base_buffer b = { .a = a };
    base_buffer_print(&b, "{ \"chalklight\": \"pattern\", \"version\": 2, \"outline\": \"stitching line\","
                          "\"name\": \"Many\", \"unit\": \"mm\", \"main_measurement\": \"hip\", \"sizes\": [");
    for (int size = 0; size < SIZES; size++)
        base_buffer_print(&b, "%s\"%d\"", size ? ", " : "", size);
    base_buffer_print(&b, "], \"chart\": { \"hip\": ");
    put_list(&b, 800, 10);
    base_buffer_print(&b, " }, \"pieces\": [");
    for (int i = 0; i < PIECES; i++)
        put_piece(&b, i);
    base_buffer_print(&b, "], \"views\": [ { \"name\": \"A\", \"cut\": [ { \"piece\": \"p0\", \"count\": 1 } ] } ] }");
    const struct pattern *p = pattern_parse(a, "generated", b.data, b.count, errs);
    return p;
}

static bool draft_sizes(struct arena *a, const struct pattern *p, struct err_list *errs)
{
    bool ok = true;
    for (int size = 0; size < SIZES; size++) {
        struct draft_figure figure = draft_figure_at(size, PATTERN_NONE);
        struct draft draft;
        ok = draft_make(a, p, &figure, PATTERN_NONE, &draft, errs) && draft.piece_count == PIECES && ok;
        base_arena_reset(a);
    }
    return ok;
}

static bool fifty_sizes_figure(struct arena *a, struct err_list *errs)
{
    const struct pattern *p = generated(a, errs);
    struct arena *work = base_arena_create();
    double ms[ROUNDS];
    bool ok = p != NULL;
    for (int i = 0; ok && i < ROUNDS; i++) {
        double start = cpu_ms();
        ok = draft_sizes(work, p, errs);
        ms[i] = cpu_ms() - start;
    }
    base_arena_destroy(work);
    if (ok)
        figure("draft.fifty_sizes_ms", median(ms, ROUNDS), "ms");
    return ok;
}

int main(void)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    bool ok = demo_figure(a, errs);
    ok = fifty_sizes_figure(a, errs) && ok;
    for (int i = 0; i < errs->count; i++)
        fprintf(stderr, "told: %s\n", errs->items[i].kind->code);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
