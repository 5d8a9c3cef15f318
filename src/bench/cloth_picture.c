#include "bench/cloth_picture.h"

#include "base/words.h"
#include "bench/pieces.h"
#include "job/places.h"

#include <math.h>

static const double air = 40, air_ahead = 30, apart = 4, beside = 8; /* u */
static const double head = 6, patch_high = 20;

/* Cloth mm to u: along from its cut end, across from the edge it is laid by. */
struct sight {
    struct form_picture *p;
    const struct bench_lying *lying;
    uint32_t rgb; /* of the cloth */
    double scale;
    struct bench_pt corner;     /* of that end and edge */
    vec2 along, across;         /* in u, each 1 long */
    double length_mm, width_mm; /* of what is seen of the cloth */
};

/* --- how it lies ------------------------------------------------------------------------------------------------- */

/* Items and places, where pieces can be drafted and laid on it. */
static void add_layout(struct arena *a, const struct job *job, const struct job_cloth *cloth, struct bench_lying *out,
                       struct err_list *untold)
{
    struct draft *draft = base_arena_alloc(a, 1, sizeof *draft);
    struct lay_task task;
    if (!job_is_finished(job) || !bench_draft(a, job, draft) ||
        !lay_task_make(a, draft, NULL, &cloth->cloth, cloth->material, &task, untold))
        return;
    out->task = task;
    job_places(a, job, &out->task, &out->places, NULL);
}

bool bench_lying_of(struct arena *a, const struct job *job, size_t which, struct bench_lying *out)
{
    *out = (struct bench_lying){ .places = NULL };
    if (which >= job->cloth_count)
        return false;
    struct err_list *untold = base_err_list_create();
    const struct cloth *cloth = &job->cloths[which].cloth;
    bool spreads = cloth_spread(a, cloth, &out->task.spread, untold);
    out->task.cloth = cloth;
    if (spreads)
        add_layout(a, job, &job->cloths[which], out, untold);
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

double bench_length_laid(const struct bench_lying *lying)
{
    struct arena *scratch = base_arena_create();
    double length = lying->places ? lay_of(scratch, &lying->task, lying->places).length_mm : 0;
    base_arena_destroy(scratch);
    return length;
}

/* --- drawing it -------------------------------------------------------------------------------------------------- */

/* As she sees its length and its width run, down being y. */
static const vec2 ways_along[] = { { 1, 0 }, { 0, -1 }, { -1, 0 }, { 0, 1 } };
static const vec2 ways_across[] = { { 0, -1 }, { -1, 0 }, { 0, 1 }, { 1, 0 } };

static const char *edge_name(bool fold)
{
    return fold ? base_tr_in("edge of the cloth", "fold") : base_tr_in("edge of the cloth", "selvedge");
}

static const char *end_name(void)
{
    return base_tr_in("edge of the cloth", "cut end");
}

/* Room beside the cloth for an edge's name. */
static double room_for(const struct form_picture *p, vec2 way, const char *name)
{
    return way.x != 0 ? form_width(p->type, FORM_SMALL, name) + 2 * beside + apart : air;
}

/* All pieces are seen, and all of its width; cloth goes on ahead as far as there is some. */
static struct sight sight_of(struct form_picture *p, struct bench_box box, const struct bench_lying *lying)
{
    const struct cloth_spread *spread = &lying->task.spread;
    vec2 along = ways_along[lying->turn], across = ways_across[lying->turn];
    double near = room_for(p, across, edge_name(bench_fold_is_near(lying)));
    double far = room_for(p, across, edge_name(bench_fold_is_far(lying))), end = room_for(p, along, end_name());
    double wide = (along.x != 0 ? box.height : box.width) - near - far;
    double ahead = (along.x != 0 ? box.width : box.height) - end;
    double laid = fmax(bench_length_laid(lying), spread->width_mm);
    double scale = fmin(wide / spread->width_mm, (ahead - air_ahead) / laid);
    double from = end - (end + ahead) / 2, up = (near - far - scale * spread->width_mm) / 2;
    struct bench_pt middle = { box.x + box.width / 2, box.y + box.height / 2 };
    double most = spread->most_length_mm > 0 ? spread->most_length_mm : ahead / scale;
    return (struct sight){ .p = p,
                           .lying = lying,
                           .rgb = cloth_rgb(lying->task.cloth->colour, form_rgb(FORM_CLOTH, p->night)),
                           .scale = scale,
                           .corner = { middle.x + along.x * from + across.x * up,
                                       middle.y + along.y * from + across.y * up },
                           .along = along,
                           .across = across,
                           .length_mm = fmin(most, ahead / scale),
                           .width_mm = spread->width_mm };
}

/* A place of the cloth, and so many u further along and across. */
static struct bench_pt seen_off(const struct sight *s, vec2 at, double along, double across)
{
    double x = s->scale * at.x + along, y = s->scale * at.y + across;
    return (struct bench_pt){ s->corner.x + s->along.x * x + s->across.x * y,
                              s->corner.y + s->along.y * x + s->across.y * y };
}

static struct bench_pt seen(const struct sight *s, vec2 at)
{
    return seen_off(s, at, 0, 0);
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
        double y = spread->bands[i].to_mm;
        form_dash_line(s->p, seen(s, (vec2){ 0, y }), seen(s, (vec2){ s->length_mm, y }), 1.5, 2, 4, on_cloth(s));
    }
}

static void draw_far_edge(const struct sight *s)
{
    struct bench_pt from = seen(s, (vec2){ 0, s->width_mm }), to = seen(s, (vec2){ s->length_mm, s->width_mm });
    if (bench_fold_is_far(s->lying))
        form_line(s->p, from, to, 3, FORM_INK);
    else
        form_dash_line(s->p, from, to, 2, 2, 4, FORM_LINE);
}

/* A fold's line is whole, a selvedge's in dashes; beside the cloth, as light on cloth of its colour would be lost. */
static void draw_lines(const struct sight *s)
{
    struct bench_pt from = seen_off(s, (vec2){ 0, 0 }, -air / 2, -apart),
                    to = seen_off(s, (vec2){ s->length_mm, 0 }, 0, -apart);
    if (bench_fold_is_near(s->lying))
        form_line(s->p, from, to, 3, FORM_BLUE);
    else
        form_dash_line(s->p, from, to, 3, 12, 6, FORM_BLUE);
    form_line(s->p, seen_off(s, (vec2){ 0, s->width_mm }, -apart, air / 3),
              seen_off(s, (vec2){ 0, 0 }, -apart, -air / 3), 3, FORM_BLUE);
}

/* An arrow's head whose tip is there, at an edge across the cloth that way. */
static void draw_head(const struct sight *s, vec2 at, double way)
{
    double back = -way * head;
    struct bench_pt points[] = { seen_off(s, at, -head / 1.5, back), seen_off(s, at, 0, 0),
                                 seen_off(s, at, head / 1.5, back) };
    form_stroke(s->p, points, 3, false, 1.6, on_cloth(s));
}

static void draw_tape(const struct sight *s, double x, const char *across)
{
    vec2 near = { x, 1 / s->scale }, far = { x, s->width_mm - 3 / s->scale };
    struct bench_pt middle = seen(s, (vec2){ x, s->width_mm / 2 });
    double width = form_width(s->p->type, FORM_NOTE_STRONG, across) + 10;
    form_line(s->p, seen(s, near), seen(s, far), 1.6, on_cloth(s));
    draw_head(s, far, 1);
    draw_head(s, near, -1);
    form_fill_box(s->p, (struct bench_box){ middle.x - width / 2, middle.y - patch_high / 2, width, patch_high },
                  FORM_WELL);
    form_text(s->p, (struct bench_pt){ middle.x, middle.y + form_drop(FORM_NOTE_STRONG) }, FORM_MIDDLE,
              FORM_NOTE_STRONG, FORM_INK, width, across);
}

/* A name beside an edge, on the side that lies that way in u. */
static void draw_name(const struct sight *s, struct bench_pt at, vec2 way, const char *name)
{
    enum form_align align = way.x > 0 ? FORM_LEFT : way.x < 0 ? FORM_RIGHT : FORM_MIDDLE;
    double down = way.y > 0 ? 2 * form_drop(FORM_SMALL) : way.y < 0 ? 0 : form_drop(FORM_SMALL);
    form_text(s->p, (struct bench_pt){ at.x + way.x * beside, at.y + way.y * beside + down }, align, FORM_SMALL,
              FORM_INK, 0, name);
}

static void draw_names(const struct sight *s)
{
    double middle = s->length_mm / 2;
    draw_name(s, seen_off(s, (vec2){ 0, s->width_mm / 2 }, -apart, 0), vec2_scale(s->along, -1), end_name());
    draw_name(s, seen(s, (vec2){ middle, s->width_mm }), s->across, edge_name(bench_fold_is_far(s->lying)));
    draw_name(s, seen_off(s, (vec2){ middle, 0 }, 0, -apart), vec2_scale(s->across, -1),
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

/* Between two places of the cloth. */
static struct bench_box box_between(const struct sight *s, vec2 one, vec2 other)
{
    struct bench_pt p = seen(s, one), q = seen(s, other);
    return (struct bench_box){ fmin(p.x, q.x), fmin(p.y, q.y), fabs(p.x - q.x), fabs(p.y - q.y) };
}

static void draw_length(const struct sight *s, const char *across)
{
    double inset = fmin(70 / s->scale, s->length_mm / 5);
    form_fill_own(s->p, box_between(s, (vec2){ 0, 0 }, (vec2){ s->length_mm, s->width_mm }), s->rgb);
    draw_bands(s);
    draw_pieces(s);
    draw_far_edge(s);
    draw_lines(s);
    draw_names(s);
    draw_tape(s, inset, across);
    draw_tape(s, s->length_mm - inset, across);
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
