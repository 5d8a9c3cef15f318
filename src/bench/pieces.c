#include "bench/pieces.h"
#include "base/words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SHOWN = 3 };

/* Drafts for a look: what is wrong with a piece is told where it is worked on. */
static bool draft_for(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure, int view,
                      struct draft *out)
{
    struct err_list *ignored = base_err_list_create();
    bool good = draft_make(a, pattern, figure, view, out, ignored);
    base_err_list_destroy(ignored);
    return good;
}

/* Where a piece stands in a picture: piece mm to u, y turned over. */
struct stand {
    double scale;
    struct bench_pt origin; /* of piece (0, 0) */
};

static void draw_outline(struct form_picture *p, const struct stand *s, struct geometry_path path, double width,
                         enum form_colour colour, bool filled)
{
    struct bench_pt *points = base_arena_alloc(p->a, path.count, sizeof *points);
    for (size_t i = 0; i < path.count; i++)
        points[i] =
            (struct bench_pt){ s->origin.x + s->scale * path.points[i].x, s->origin.y - s->scale * path.points[i].y };
    if (filled)
        form_fill(p, points, path.count, FORM_CLOTH);
    form_stroke(p, points, path.count, true, width, colour);
}

static double width_of(struct geometry_box b)
{
    return b.max.x - b.min.x;
}

static double height_of(struct geometry_box b)
{
    return b.max.y - b.min.y;
}

/* --- a view at a glance ------------------------------------------------------------------------------------------ */

/* Pieces on shelves of equal width, largest first, as large as they all fit. */
static bool shelve(const struct draft_piece *const *pieces, size_t count, double width, double height, double scale,
                   struct stand *out)
{
    static const double gap = 4;
    double x = 0, y = 0, shelf = 0;
    for (size_t i = 0; i < count; i++) {
        struct geometry_box b = geometry_path_box(pieces[i]->seam.path);
        double w = scale * width_of(b), h = scale * height_of(b);
        if (x > 0 && x + w > width) {
            x = 0;
            y += shelf + gap;
            shelf = 0;
        }
        shelf = fmax(shelf, h);
        if (w > width || y + shelf > height)
            return false;
        out[i] = (struct stand){ scale, { x - scale * b.min.x, y + scale * b.max.y } };
        x += w + gap;
    }
    return true;
}

static int compare(double left, double right)
{
    return left > right ? -1 : left < right;
}

static int by_height(const void *a, const void *b)
{
    const struct draft_piece *const *left = a, *const *right = b;
    return compare(height_of(geometry_path_box((*left)->seam.path)), height_of(geometry_path_box((*right)->seam.path)));
}

static int by_area(const void *a, const void *b)
{
    const struct draft_piece *const *left = a, *const *right = b;
    return compare(geometry_path_area((*left)->seam.path), geometry_path_area((*right)->seam.path));
}

/* The largest first, by that. */
static const struct draft_piece *const *pieces_of(struct arena *a, const struct draft *draft,
                                                  int (*by)(const void *, const void *))
{
    const size_t one = sizeof(const struct draft_piece *); /* NOLINT(bugprone-sizeof-expression): pointers */
    const struct draft_piece **pieces = base_arena_alloc(a, draft->piece_count, one);
    for (size_t i = 0; i < draft->piece_count; i++)
        pieces[i] = &draft->pieces[i];
    if (draft->piece_count)
        qsort(pieces, draft->piece_count, one, by);
    return pieces;
}

static struct draft_figure figure_of(const struct job *job)
{
    if (job_is_finished(job))
        return job_figure(job);
    double middle = floor((double)(job->pattern->size_count - 1) / 2);
    return draft_figure_at(job->position >= 0 ? job->position : middle, job->cup_group != PATTERN_NONE  ? job->cup_group
                                                                        : job->pattern->cup_group_count ? 0
                                                                                                        : PATTERN_NONE);
}

void bench_draw_view(struct form_picture *p, struct bench_box box, const struct job *job, int view, bool bold)
{
    struct draft_figure figure = figure_of(job);
    struct draft draft;
    if (!draft_for(p->a, job->pattern, &figure, view, &draft) || !draft.piece_count)
        return;
    const struct draft_piece *const *pieces = pieces_of(p->a, &draft, by_height);
    struct stand *stands = base_arena_alloc(p->a, draft.piece_count, sizeof *stands);
    double scale = 1;
    while (scale > 0.002 && !shelve(pieces, draft.piece_count, box.width, box.height, scale, stands))
        scale *= 0.95;
    for (size_t i = 0; i < draft.piece_count; i++) {
        stands[i].origin.x += box.x;
        stands[i].origin.y += box.y;
        draw_outline(p, &stands[i], pieces[i]->seam.path, bold ? 1.4 : 1, bold ? FORM_INK : FORM_INK_2, true);
    }
}

/* --- the nest ---------------------------------------------------------------------------------------------------- */

static const struct draft_piece *find_piece(const struct draft *draft, int index)
{
    for (size_t i = 0; i < draft->piece_count; i++)
        if (draft->pieces[i].index == index)
            return &draft->pieces[i];
    return NULL;
}

struct nest {
    struct form_picture *p;
    const struct bench_nest *of;
    struct draft own;                        /* as the job has it */
    const struct draft_piece *chosen[SHOWN]; /* of that */
    struct geometry_box boxes[SHOWN];        /* of all sizes */
    int shown;
};

void bench_nest_forget(struct bench_nest *nest)
{
    base_arena_reset(nest->a);
    *nest = (struct bench_nest){ .a = nest->a };
}

/* What she chooses is not among them: it changes with every key. */
static void draft_sizes(struct bench_nest *nest, const struct job *job, int cup_group)
{
    if (nest->count && nest->pattern == job->pattern && nest->view == job->view && nest->cup_group == cup_group)
        return;
    bench_nest_forget(nest);
    nest->pattern = job->pattern;
    nest->view = job->view;
    nest->cup_group = cup_group;
    nest->sizes = base_arena_alloc(nest->a, job->pattern->size_count, sizeof *nest->sizes);
    for (size_t i = 0; i < job->pattern->size_count; i++) {
        struct draft_figure figure = draft_figure_at((double)i, cup_group);
        nest->count += draft_for(nest->a, job->pattern, &figure, job->view, &nest->sizes[nest->count]);
    }
}

/* The largest pieces as the job has them, and the room that all sizes of them take. */
static void choose_pieces(struct nest *nest)
{
    const struct draft *own = &nest->own;
    const struct draft_piece *const *pieces = pieces_of(nest->p->a, own, by_area);
    nest->shown = own->piece_count < SHOWN ? (int)own->piece_count : SHOWN;
    for (int k = 0; k < nest->shown; k++) {
        nest->chosen[k] = pieces[k];
        nest->boxes[k] = geometry_path_box(pieces[k]->seam.path);
        for (size_t i = 0; i < nest->of->count; i++) {
            const struct draft_piece *piece = find_piece(&nest->of->sizes[i], pieces[k]->index);
            if (piece)
                nest->boxes[k] = geometry_box_join(nest->boxes[k], geometry_path_box(piece->seam.path));
        }
    }
}

static void draw_piece(const struct nest *nest, int k, const struct stand *stand)
{
    for (size_t i = 0; i < nest->of->count; i++) {
        const struct draft_piece *piece = find_piece(&nest->of->sizes[i], nest->chosen[k]->index);
        if (piece)
            draw_outline(nest->p, stand, piece->seam.path, 0.8, FORM_LINE, false);
    }
    draw_outline(nest->p, stand, nest->chosen[k]->seam.path, 2.4, FORM_BLUE, false);
}

/* Its name below it. */
static void draw_piece_name(const struct nest *nest, int k, struct bench_pt below, double room)
{
    static const double under = 17;
    form_text_fit(nest->p, (struct bench_pt){ below.x, below.y + under }, FORM_LEFT, FORM_NOTE_STRONG, FORM_SMALL,
                  FORM_INK, room, nest->chosen[k]->label);
}

/* "20 cm" or "8 in", whichever is nearest to a fifth of the picture. */
static void draw_bar(struct form_picture *p, struct bench_pt at, double scale, double width, enum units_length unit)
{
    static const double cm[] = { 50, 100, 200, 500, 1000 }, in[] = { 50.8, 101.6, 203.2, 508, 1016 };
    const double *lengths = unit == UNITS_IN ? in : cm;
    double mm = lengths[0];
    for (int i = 1; i < 5; i++)
        if (scale * lengths[i] <= 0.3 * width)
            mm = lengths[i];
    double end = at.x + scale * mm;
    const struct bench_pt bar[] = { { at.x, at.y - 5 }, { at.x, at.y }, { end, at.y }, { end, at.y - 5 } };
    char text[UNITS_TEXT];
    form_stroke(p, bar, 4, false, 1.6, FORM_INK);
    form_text(p, (struct bench_pt){ end + 8, at.y + 2 }, FORM_LEFT, FORM_SMALL, FORM_INK_2, width - (end - at.x) - 8,
              base_arena_print(p->a, base_tr("%s · not true to scale here"), units_print_length(text, mm, unit)));
}

void bench_draw_nest(struct form_picture *p, struct bench_box box, struct bench_nest *sizes, const struct job *job,
                     enum units_length unit)
{
    static const double margin = 18, foot = 54, gap = 24;
    struct draft_figure own = figure_of(job);
    struct nest nest = { .p = p, .of = sizes };
    form_fill_box(p, box, FORM_SELVEDGE);
    if (!draft_for(p->a, job->pattern, &own, job->view, &nest.own))
        return;
    draft_sizes(sizes, job, own.cup_group);
    choose_pieces(&nest);
    double wide = 0, high = 0;
    for (int k = 0; k < nest.shown; k++) {
        wide += width_of(nest.boxes[k]);
        high = fmax(high, height_of(nest.boxes[k]));
    }
    double room = box.width - 2 * margin - gap * (nest.shown - 1);
    double scale = fmin(room / wide, (box.height - margin - foot) / high);
    double x = box.x + margin, low = box.y + box.height - foot;
    for (int k = nest.shown - 1; k >= 0; k--) {
        struct stand stand = { scale, { x - scale * nest.boxes[k].min.x, low + scale * nest.boxes[k].min.y } };
        draw_piece(&nest, k, &stand);
        draw_piece_name(&nest, k, (struct bench_pt){ x, low },
                        k ? scale * width_of(nest.boxes[k]) + gap - 6 : box.x + box.width - 6 - x);
        x += scale * width_of(nest.boxes[k]) + gap;
    }
    draw_bar(p, (struct bench_pt){ box.x + margin, box.y + box.height - 10 }, scale, box.width - 2 * margin, unit);
}

bool bench_draft(struct arena *a, const struct job *job, struct draft *out)
{
    struct draft_figure figure = job_figure(job);
    return draft_for(a, job->pattern, &figure, job->view, out);
}

const char *bench_piece_label(const struct job *job, const char *name)
{
    for (size_t i = 0; i < job->pattern->piece_count; i++)
        if (strcmp(job->pattern->pieces[i].name, name) == 0)
            return job->pattern->pieces[i].label;
    return name;
}

/* --- one piece --------------------------------------------------------------------------------------------------- */

static struct bench_pt stood(const struct stand *s, struct piece_pt at)
{
    return (struct bench_pt){ s->origin.x + s->scale * at.x, s->origin.y - s->scale * at.y };
}

/* A straight line with dashes. */
static void dash(struct form_picture *p, struct bench_pt from, struct bench_pt to, enum form_colour colour)
{
    static const double on = 9, off = 5;
    double long_u = sqrt((to.x - from.x) * (to.x - from.x) + (to.y - from.y) * (to.y - from.y));
    for (double at = 0; at < long_u; at += on + off) {
        double a = at / long_u, b = fmin(1, (at + on) / long_u);
        const struct bench_pt ends[] = { { from.x + a * (to.x - from.x), from.y + a * (to.y - from.y) },
                                         { from.x + b * (to.x - from.x), from.y + b * (to.y - from.y) } };
        form_stroke(p, ends, 2, false, 1.2, colour);
    }
}

/* Heads at both ends, along its middle part. */
static void draw_grain(struct form_picture *p, const struct stand *s, const struct draft_piece *piece)
{
    static const double head = 8, wide = 4;
    struct bench_pt a = stood(s, piece->grain[0]), b = stood(s, piece->grain[1]);
    double dx = b.x - a.x, dy = b.y - a.y, length = sqrt(dx * dx + dy * dy);
    if (length < 4 * head)
        return;
    dx /= length;
    dy /= length;
    const struct bench_pt ends[] = { { a.x + 0.2 * dx * length, a.y + 0.2 * dy * length },
                                     { b.x - 0.2 * dx * length, b.y - 0.2 * dy * length } };
    form_stroke(p, ends, 2, false, 1.6, FORM_INK);
    for (int end = 0; end < 2; end++) {
        double in = end ? -head : head;
        struct bench_pt tip = ends[end], foot = { tip.x + in * dx, tip.y + in * dy };
        const struct bench_pt points[] = { tip,
                                           { foot.x - wide * dy, foot.y + wide * dx },
                                           { foot.x + wide * dy, foot.y - wide * dx } };
        form_fill(p, points, 3, FORM_INK);
    }
}

static void draw_notch(struct form_picture *p, const struct stand *s, const struct draft_notch *notch)
{
    for (size_t i = 0; i < notch->place_count; i++)
        form_dot(p, stood(s, notch->places[i].at), 3.5, FORM_BLUE);
}

static void draw_marks(struct form_picture *p, const struct stand *s, const struct draft_piece *piece)
{
    for (size_t i = 0; i < piece->notch_count; i++)
        draw_notch(p, s, &piece->notches[i]);
    for (size_t i = 0; i < piece->drill_mark_count; i++)
        form_ring(p, stood(s, piece->drill_marks[i]), 4, 1.6, FORM_BLUE);
    if (piece->has_fold)
        dash(p, stood(s, piece->fold[0]), stood(s, piece->fold[1]), FORM_INK_2);
    draw_grain(p, s, piece);
}

void bench_draw_piece(struct form_picture *p, struct bench_box box, const struct draft_piece *piece)
{
    static const double margin = 24, foot = 34;
    struct geometry_box b = geometry_path_box(piece->cut.path);
    double scale = fmin((box.width - 2 * margin) / width_of(b), (box.height - margin - foot) / height_of(b));
    double left = box.x + (box.width - scale * width_of(b)) / 2;
    double top = box.y + margin / 2 + (box.height - foot - scale * height_of(b)) / 2;
    struct stand stand = { scale, { left - scale * b.min.x, top + scale * b.max.y } };
    form_fill_box(p, box, FORM_SELVEDGE);
    draw_outline(p, &stand, piece->cut.path, 2.4, FORM_INK, true);
    draw_outline(p, &stand, piece->seam.path, 1, FORM_INK_2, false);
    draw_marks(p, &stand, piece);
    form_text(p, (struct bench_pt){ box.x + margin / 2, box.y + box.height - 10 }, FORM_LEFT, FORM_SMALL, FORM_INK_2,
              box.width - margin, base_tr("not true to scale here"));
}
