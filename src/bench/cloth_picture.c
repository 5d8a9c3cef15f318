#include "bench/cloth_picture.h"

#include "base/words.h"
#include "bench/pieces.h"
#include "job/places.h"

#include <math.h>

static const double air_left = 40, air_right = 30, air_above = 40, air_below = 40, apart = 4; /* u */
static const double head = 6, patch_high = 20;

/* Cloth mm to u: x to the right, away upwards from the near edge. */
struct sight {
    struct form_picture *p;
    const struct bench_lying *lying;
    uint32_t rgb;                           /* of the cloth */
    double scale, left, bottom, right, top; /* of what is seen of the cloth */
};

/* --- how it lies ------------------------------------------------------------------------------------------------- */

/* Items and places, where pieces can be drafted and laid on it. */
static void add_layout(struct arena *a, const struct job *job, struct bench_lying *out, struct err_list *untold)
{
    struct draft *draft = base_arena_alloc(a, 1, sizeof *draft);
    const struct job_cloth *cloth = &job->cloths[0];
    struct lay_task task;
    if (!job_is_finished(job) || !bench_draft(a, job, draft) ||
        !lay_task_make(a, draft, NULL, &cloth->cloth, cloth->material, &task, untold))
        return;
    out->task = task;
    job_places(a, job, &out->task, &out->places, NULL);
}

bool bench_lying_of(struct arena *a, const struct job *job, struct bench_lying *out)
{
    *out = (struct bench_lying){ .places = NULL };
    if (!job->cloth_count)
        return false;
    struct err_list *untold = base_err_list_create();
    const struct cloth *cloth = &job->cloths[0].cloth;
    bool spreads = cloth_spread(a, cloth, &out->task.spread, untold);
    out->task.cloth = cloth;
    if (spreads)
        add_layout(a, job, out, untold);
    base_err_list_destroy(untold);
    return spreads;
}

bool bench_fold_is_near(const struct bench_lying *lying)
{
    return lying->task.spread.bands[0].fold_at_from;
}

bool bench_fold_is_far(const struct bench_lying *lying)
{
    return lying->task.spread.bands[lying->task.spread.band_count - 1].fold_at_to;
}

double bench_width_lying(const struct bench_lying *lying)
{
    int selvedges = !bench_fold_is_near(lying) + !bench_fold_is_far(lying);
    return lying->task.spread.width_mm + selvedges * lying->task.cloth->selvedge_mm;
}

/* --- drawing it -------------------------------------------------------------------------------------------------- */

static double length_laid(const struct bench_lying *lying)
{
    struct arena *scratch = base_arena_create();
    double length = 0;
    if (lying->places)
        length = lay_of(scratch, &lying->task, lying->places).length_mm;
    base_arena_destroy(scratch);
    return length;
}

/* All pieces are seen, and all of its width; cloth goes on to the right as far as there is some. */
static struct sight sight_of(struct form_picture *p, struct bench_box box, const struct bench_lying *lying)
{
    const struct cloth_spread *spread = &lying->task.spread;
    double wide = box.width - air_left, high = box.height - air_above - air_below;
    double scale = fmin(high / spread->width_mm, (wide - air_right) / fmax(length_laid(lying), spread->width_mm));
    double up = (high - scale * spread->width_mm) / 2, left = box.x + air_left;
    double right =
        spread->most_length_mm > 0 ? fmin(box.x + box.width, left + scale * spread->most_length_mm) : box.x + box.width;
    return (struct sight){ .p = p,
                           .lying = lying,
                           .rgb = cloth_rgb(lying->task.cloth->colour, form_rgb(FORM_CLOTH, p->night)),
                           .scale = scale,
                           .left = left,
                           .bottom = box.y + box.height - air_below - up,
                           .right = right,
                           .top = box.y + air_above + up };
}

static struct bench_pt seen(const struct sight *s, vec2 at)
{
    return (struct bench_pt){ s->left + s->scale * at.x, s->bottom - s->scale * at.y };
}

/* The one of two that is seen better on it. */
static enum form_colour on_cloth(const struct sight *s)
{
    double ink = form_contrast(form_rgb(FORM_INK, s->p->night), s->rgb);
    return ink >= form_contrast(form_rgb(FORM_ON_INK, s->p->night), s->rgb) ? FORM_INK : FORM_ON_INK;
}

static void draw_outline(const struct sight *s, struct geometry_path path)
{
    struct bench_pt *points = base_arena_alloc(s->p->a, path.count, sizeof *points);
    for (size_t i = 0; i < path.count; i++)
        points[i] = seen(s, path.points[i]);
    form_stroke(s->p, points, path.count, true, 1, on_cloth(s));
}

static void draw_pieces(const struct sight *s)
{
    const struct lay_task *task = &s->lying->task;
    for (size_t i = 0; s->lying->places && i < task->item_count; i++)
        if (s->lying->places[i].is_laid)
            draw_outline(s, lay_outline(s->p->a, task, i, &s->lying->places[i]).path);
}

/* Edges within it: of what is folded over. */
static void draw_bands(const struct sight *s)
{
    const struct cloth_spread *spread = &s->lying->task.spread;
    for (int i = 0; i + 1 < spread->band_count; i++) {
        double y = seen(s, (vec2){ 0, spread->bands[i].to_mm }).y;
        form_dash_line(s->p, (struct bench_pt){ s->left, y }, (struct bench_pt){ s->right, y }, 1.5, 2, 4, on_cloth(s));
    }
}

static void draw_far_edge(const struct sight *s)
{
    struct bench_pt from = { s->left, s->top }, to = { s->right, s->top };
    if (bench_fold_is_far(s->lying))
        form_line(s->p, from, to, 3, FORM_INK);
    else
        form_dash_line(s->p, from, to, 2, 2, 4, FORM_LINE);
}

/* A fold's line is whole, a selvedge's in dashes; beside the cloth, as light on cloth of its colour would be lost. */
static void draw_lines(const struct sight *s)
{
    struct bench_pt from = { s->left - air_left / 2, s->bottom + apart }, to = { s->right, s->bottom + apart };
    if (bench_fold_is_near(s->lying))
        form_line(s->p, from, to, 3, FORM_BLUE);
    else
        form_dash_line(s->p, from, to, 3, 12, 6, FORM_BLUE);
    form_line(s->p, (struct bench_pt){ s->left - apart, s->top - air_above / 3 },
              (struct bench_pt){ s->left - apart, s->bottom + air_below / 3 }, 3, FORM_BLUE);
}

static void draw_head(const struct sight *s, struct bench_pt at, double way)
{
    struct bench_pt points[] = { { at.x - head / 1.5, at.y + way * head },
                                 at,
                                 { at.x + head / 1.5, at.y + way * head } };
    form_stroke(s->p, points, 3, false, 1.6, on_cloth(s));
}

static void draw_tape(const struct sight *s, double x, const char *across)
{
    struct bench_pt far = { x, s->top + 3 }, near = { x, s->bottom - 1 };
    double width = form_width(s->p->type, FORM_NOTE_STRONG, across) + 10, y = (far.y + near.y) / 2;
    form_line(s->p, far, near, 1.6, on_cloth(s));
    draw_head(s, far, 1);
    draw_head(s, near, -1);
    form_fill_box(s->p, (struct bench_box){ x - width / 2, y - patch_high / 2, width, patch_high }, FORM_WELL);
    form_text(s->p, (struct bench_pt){ x, y + form_drop(FORM_NOTE_STRONG) }, FORM_MIDDLE, FORM_NOTE_STRONG, FORM_INK,
              width, across);
}

static const char *edge_name(bool fold)
{
    return fold ? base_tr_in("edge of the cloth", "fold") : base_tr_in("edge of the cloth", "selvedge");
}

static void draw_names(const struct sight *s)
{
    double middle = (s->left + s->right) / 2;
    form_text(s->p, (struct bench_pt){ s->left + 4, s->top - 8 }, FORM_LEFT, FORM_SMALL, FORM_INK, middle - s->left,
              base_tr_in("edge of the cloth", "cut end"));
    form_text(s->p, (struct bench_pt){ middle, s->top - 8 }, FORM_MIDDLE, FORM_SMALL, FORM_INK, 0,
              edge_name(bench_fold_is_far(s->lying)));
    form_text(s->p, (struct bench_pt){ middle, s->bottom + apart + 18 }, FORM_MIDDLE, FORM_SMALL, FORM_INK, 0,
              edge_name(bench_fold_is_near(s->lying)));
}

/* A scrap is laid over its outline, along no edge. */
static void draw_scrap(const struct sight *s)
{
    struct geometry_path path = s->lying->task.cloth->outline.path;
    struct geometry_box box = geometry_path_box(path);
    struct bench_pt *points = base_arena_alloc(s->p->a, path.count, sizeof *points);
    for (size_t i = 0; i < path.count; i++)
        points[i] = seen(s, vec2_sub(path.points[i], box.min));
    form_fill(s->p, points, path.count, FORM_CLOTH);
    form_stroke(s->p, points, path.count, true, 2, FORM_BLUE);
}

static void draw_length(const struct sight *s, const char *across)
{
    double inset = fmin(70, (s->right - s->left) / 5);
    form_fill_own(s->p, (struct bench_box){ s->left, s->top, s->right - s->left, s->bottom - s->top }, s->rgb);
    draw_bands(s);
    draw_pieces(s);
    draw_far_edge(s);
    draw_lines(s);
    draw_names(s);
    draw_tape(s, s->left + inset, across);
    draw_tape(s, s->right - inset, across);
}

void bench_draw_cloth(struct form_picture *p, struct bench_box box, const struct bench_lying *lying, const char *across)
{
    struct sight s = sight_of(p, box, lying);
    form_fill_box(p, box, FORM_WELL);
    if (lying->task.cloth->outline.path.count) {
        s.rgb = form_rgb(FORM_CLOTH, p->night);
        draw_scrap(&s);
        draw_pieces(&s);
    } else {
        draw_length(&s, across);
    }
    form_frame_box(p, box, 1, FORM_HAIR);
}
