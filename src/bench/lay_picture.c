#include "bench/lay_picture.h"
#include "app/lay_words.h"
#include "base/words.h"
#include "scene/hatch.h"

#include <math.h>
#include <string.h>

static const double rule_height = 22, spare_share = 0.06, least_shown_mm = 400;

/* Cloth mm to u: x to the right, y upwards from the near edge. */
struct sight {
    struct form_picture *p;
    const struct app_arrange_look *look;
    double scale, left, bottom, shown_mm;
};

static struct bench_pt seen(const struct sight *s, double x, double y)
{
    return (struct bench_pt){ s->left + s->scale * x, s->bottom - s->scale * y };
}

/* --- the cloth -----------------------------------------------------------------------------------------------------
 */

static const char *rule_text(struct arena *a, double mm, enum units_length unit)
{
    char number[UNITS_TEXT];
    int halves = (int)floor(2 * mm / 914.4 + 0.5);
    const char *yards = halves == 1  ? "1\342\201\2042"
                        : halves % 2 ? base_arena_print(a, "%d 1\342\201\2042", halves / 2)
                                     : base_arena_print(a, "%d", halves / 2);
    if (unit == UNITS_IN)
        return base_arena_print(a, base_tr("%s yd"), yards);
    return base_arena_print(a, "%s m", units_print_decimal(number, mm / 1000, 2));
}

/* A mark each 10 cm or 1/4 yd, a number at each half. */
static void draw_rule(const struct sight *s, double shown_mm, enum units_length unit)
{
    double step = unit == UNITS_IN ? 914.4 / 4 : 100;
    int each = unit == UNITS_IN ? 2 : 5;
    double y = s->bottom - s->scale * s->look->lay->task->spread.width_mm;
    for (int i = 0; i * step <= shown_mm; i++) {
        double x = seen(s, i * step, 0).x;
        bool numbered = i % each == 0;
        form_line(s->p, (struct bench_pt){ x, y - (numbered ? 9 : 5) }, (struct bench_pt){ x, y }, 1, FORM_LINE);
        if (numbered && (i + 1) * step <= shown_mm)
            form_text(s->p, (struct bench_pt){ x + 4, y - 8 }, FORM_LEFT, FORM_SMALL, FORM_INK_2, 0,
                      rule_text(s->p->a, i * step, unit));
    }
}

/* A fold is a whole line, any other edge a dotted one. */
static void draw_edge(const struct sight *s, double y_mm, double shown_mm, bool fold)
{
    struct bench_pt from = seen(s, 0, y_mm), to = seen(s, shown_mm, y_mm);
    if (fold)
        form_line(s->p, from, to, 3, FORM_INK);
    else
        form_dash_line(s->p, from, to, 2, 2, 4, FORM_LINE);
}

/* What is no cloth, round a scrap and at faults, as far as it is shown. */
static void draw_blocked(const struct sight *s, struct geometry_path path)
{
    struct bench_pt *points = base_arena_alloc(s->p->a, path.count, sizeof *points);
    double wide = s->look->lay->task->spread.width_mm;
    for (size_t i = 0; i < path.count; i++)
        points[i] = seen(s, fmin(fmax(path.points[i].x, 0), s->shown_mm), fmin(fmax(path.points[i].y, 0), wide));
    form_fill(s->p, points, path.count, FORM_SELVEDGE);
    form_stroke(s->p, points, path.count, true, 1.2, FORM_LINE);
}

static void draw_cloth(const struct sight *s, double shown_mm)
{
    const struct cloth_spread *spread = &s->look->lay->task->spread;
    struct bench_pt top = seen(s, 0, spread->width_mm);
    double needed = s->scale * s->look->lay->length_mm, high = s->scale * spread->width_mm;
    form_fill_box(s->p, (struct bench_box){ top.x, top.y, s->scale * shown_mm, high }, FORM_SELVEDGE);
    form_fill_box(s->p, (struct bench_box){ top.x, top.y, needed, high }, FORM_CLOTH);
    for (size_t i = 0; i < spread->blocked_count; i++)
        draw_blocked(s, spread->blocked[i].path);
    for (int i = 0; i < spread->band_count; i++) {
        draw_edge(s, spread->bands[i].from_mm, shown_mm, spread->bands[i].fold_at_from);
        draw_edge(s, spread->bands[i].to_mm, shown_mm, spread->bands[i].fold_at_to);
    }
    form_line(s->p, (struct bench_pt){ top.x + needed, top.y - 6 }, (struct bench_pt){ top.x + needed, s->bottom + 6 },
              1.5, FORM_INK);
}

/* --- the pieces ----------------------------------------------------------------------------------------------------
 */

static bool is_wrong(const struct app_arrange_look *look, size_t item)
{
    for (size_t i = 0; i < look->finding_count; i++)
        if (look->findings[i].item == (int)item || look->findings[i].other == (int)item)
            return true;
    return false;
}

/* Whether a text of that size, its middle there, lies within the outline. */
static bool holds_text(struct geometry_path outline, vec2 middle, double half_width, double half_height)
{
    static const double shares[] = { -1, 0, 1 };
    bool holds = true;
    for (int i = 0; i < 3; i++)
        holds = holds &&
                geometry_path_holds(outline, (vec2){ middle.x + shares[i] * half_width, middle.y - half_height }) &&
                geometry_path_holds(outline, (vec2){ middle.x + shares[i] * half_width, middle.y + half_height });
    return holds;
}

/* The place nearest to the piece's middle where such a text lies within it; false: there is none. */
static bool find_text_place(struct geometry_path outline, double half_width, double half_height, vec2 *out)
{
    enum { TRIES = 12 };
    struct geometry_box box = geometry_path_box(outline);
    vec2 middle = geometry_path_centre(outline);
    double best = INFINITY;
    for (int i = 0; i <= TRIES * TRIES; i++) {
        vec2 at = { box.min.x + (box.max.x - box.min.x) * (i % TRIES + 0.5) / TRIES,
                    box.min.y + (box.max.y - box.min.y) * ((double)i / TRIES) / TRIES };
        if (i == TRIES * TRIES)
            at = middle;
        double off = (at.x - middle.x) * (at.x - middle.x) + (at.y - middle.y) * (at.y - middle.y);
        if (off < best && holds_text(outline, at, half_width, half_height)) {
            best = off;
            *out = at;
        }
    }
    return best < INFINITY;
}

/* Two lines of a name, broken at its last blank; false: it has none. */
static bool break_name(struct arena *a, const char *name, const char *lines[2])
{
    const char *blank = strrchr(name, ' ');
    if (!blank)
        return false;
    lines[0] = base_arena_copy_bytes(a, name, (size_t)(blank - name));
    lines[1] = blank + 1;
    return true;
}

/* Below each other where the outline has room for them; false: it has none. */
static bool draw_lines(const struct sight *s, struct geometry_path outline, enum form_style style,
                       const char *const *lines, int count)
{
    static const double clear = 2;
    double half_width = 0, over = (count - 1) * form_line_step(style) / 2;
    for (int i = 0; i < count; i++)
        half_width = fmax(half_width, form_width(s->p->type, style, lines[i]) / 2 + clear);
    vec2 middle;
    if (!find_text_place(outline, half_width / s->scale, (over + form_drop(style) + clear) / s->scale, &middle))
        return false;
    struct bench_pt at = seen(s, middle.x, middle.y);
    for (int i = 0; i < count; i++)
        form_text(s->p, (struct bench_pt){ at.x, at.y - over + i * form_line_step(style) + form_drop(style) },
                  FORM_MIDDLE, style, FORM_INK, 0, lines[i]);
    return true;
}

/* Its name inside, in one line or two, or nothing where there is no room for it. */
static void draw_name(const struct sight *s, size_t item, struct geometry_path outline, bool bold)
{
    const char *name = lay_item_name(s->p->a, s->look->lay->task, item), *lines[2];
    if (s->look->cut[item])
        name = base_arena_print(s->p->a, base_tr("%s · cut"), name);
    enum form_style style = bold ? FORM_NOTE_STRONG : FORM_SMALL;
    if (!draw_lines(s, outline, style, &name, 1) && break_name(s->p->a, name, lines))
        draw_lines(s, outline, style, lines, 2);
}

static void draw_item(const struct sight *s, size_t item)
{
    const struct lay *lay = s->look->lay;
    if (!lay->places[item].is_laid)
        return;
    struct geometry_path outline = lay_outline(s->p->a, lay->task, item, &lay->places[item]).path;
    struct bench_pt *points = base_arena_alloc(s->p->a, outline.count, sizeof *points);
    for (size_t i = 0; i < outline.count; i++)
        points[i] = seen(s, outline.points[i].x, outline.points[i].y);
    bool here = item == s->look->in_hand, wrong = is_wrong(s->look, item);
    form_fill(s->p, points, outline.count, here ? FORM_WASH : s->look->cut[item] ? FORM_SELVEDGE : FORM_SHEET);
    form_stroke(s->p, points, outline.count, true, here || wrong ? 2.4 : 1.2,
                wrong  ? FORM_RED
                : here ? FORM_BLUE
                       : FORM_INK);
    draw_name(s, item, outline, here);
    if (lay->places[item].is_pinned) {
        vec2 middle = geometry_path_centre(outline);
        struct bench_pt at = seen(s, middle.x, middle.y);
        form_dot(s->p, (struct bench_pt){ at.x, at.y - 13 }, 3.5, FORM_BLUE);
    }
}

/* What two pieces share is hatched as on the table, with how much that is. */
static void draw_overlap(const struct sight *s, const struct lay_finding *f)
{
    static const double apart = 6, pad = 3, high = 16;
    const struct lay *lay = s->look->lay;
    const struct geometry_path both[] = {
        lay_outline(s->p->a, lay->task, (size_t)f->item, &lay->places[f->item]).path,
        lay_outline(s->p->a, lay->task, (size_t)f->other, &lay->places[f->other]).path,
    };
    const struct scene_obstacles shared = { both, 2 };
    vec2 *ends, sum = { 0, 0 };
    size_t count = scene_hatch(s->p->a, &shared, scene_hatch_ways[0], apart / s->scale, &ends);
    for (size_t i = 0; i < count; i++) {
        const struct bench_pt line[] = { seen(s, ends[2 * i].x, ends[2 * i].y),
                                         seen(s, ends[2 * i + 1].x, ends[2 * i + 1].y) };
        form_stroke(s->p, line, 2, false, 1, FORM_RED);
        sum.x += (line[0].x + line[1].x) / 2;
        sum.y += (line[0].y + line[1].y) / 2;
    }
    if (!count)
        return;
    const char *amount = app_lay_off(s->p->a, f->amount);
    double width = form_width(s->p->type, FORM_SMALL, amount) + 2 * pad;
    struct bench_pt at = { sum.x / (double)count, sum.y / (double)count };
    form_fill_box(s->p, (struct bench_box){ at.x - width / 2, at.y - high / 2, width, high }, FORM_SHEET);
    form_text(s->p, (struct bench_pt){ at.x, at.y + form_drop(FORM_SMALL) }, FORM_MIDDLE, FORM_SMALL, FORM_RED, 0,
              amount);
}

/* Of the piece in hand alone while there is one: the others stay red. */
static void draw_overlaps(const struct sight *s)
{
    bool any_in_hand = s->look->in_hand < s->look->lay->task->item_count;
    for (size_t i = 0; i < s->look->finding_count; i++) {
        const struct lay_finding *f = &s->look->findings[i];
        bool mine = f->item == (int)s->look->in_hand || f->other == (int)s->look->in_hand;
        if (f->fault == LAY_OVERLAP && (mine || !any_in_hand))
            draw_overlap(s, f);
    }
}

double bench_draw_lay(struct form_picture *p, struct bench_box box, const struct app_arrange_look *look,
                      enum units_length unit)
{
    const struct cloth_spread *spread = &look->lay->task->spread;
    double shown = fmax(least_shown_mm, look->lay->length_mm * (1 + spare_share));
    double scale = fmin(box.width / shown, (box.height - rule_height) / spread->width_mm);
    double high = scale * spread->width_mm;
    shown = box.width / scale; /* as much cloth as there is room for */
    struct sight s = { p, look, scale, box.x, box.y + rule_height + high, shown };
    draw_cloth(&s, shown);
    draw_rule(&s, shown, unit);
    for (size_t i = 0; i < look->lay->task->item_count; i++)
        if (i != look->in_hand)
            draw_item(&s, i);
    if (look->in_hand < look->lay->task->item_count)
        draw_item(&s, look->in_hand); /* over its neighbours */
    draw_overlaps(&s);
    return rule_height + high;
}
