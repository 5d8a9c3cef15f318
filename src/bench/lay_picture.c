#include "bench/lay_picture.h"
#include "base/words.h"

#include <math.h>

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
    if (unit == UNITS_IN)
        return base_arena_print(a, base_tr("%s yd"), units_print_decimal(number, mm / 914.4, 2));
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

/* Its name inside, or nothing where there is no room for it. */
static void draw_name(const struct sight *s, size_t item, struct geometry_path outline, bool bold)
{
    const char *name = lay_item_name(s->p->a, s->look->lay->task, item);
    if (s->look->cut[item])
        name = base_arena_print(s->p->a, base_tr("%s · cut"), name);
    enum form_style style = bold ? FORM_NOTE_STRONG : FORM_SMALL;
    struct geometry_box box = geometry_path_box(outline);
    vec2 middle = geometry_path_centre(outline);
    double width = s->scale * (box.max.x - box.min.x) - 6, high = s->scale * (box.max.y - box.min.y);
    if (form_width(s->p->type, style, name) > width || high < form_style(style)->size_u ||
        !geometry_path_holds(outline, middle))
        return;
    struct bench_pt at = seen(s, middle.x, middle.y);
    form_text(s->p, (struct bench_pt){ at.x, at.y + form_drop(style) }, FORM_MIDDLE, style, FORM_INK, width, name);
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
    return rule_height + high;
}
