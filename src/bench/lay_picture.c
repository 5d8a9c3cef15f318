#include "bench/lay_picture.h"
#include "app/lay_words.h"
#include "app/torn.h"
#include "base/text.h"
#include "base/words.h"
#include "scene/hatch.h"

#include <math.h>
#include <string.h>

static const double rule_height = 22, words_height = 18; /* u */
static const double spare_share = 0.06, least_shown_mm = 400;

/* Cloth mm to u: x to the right, y upwards from the near edge. */
struct sight {
    struct form_picture *p;
    const struct app_arrange_look *look;
    double scale, left, bottom, shown_mm;
    bool is_turned;      /* a quarter clockwise: its length, which shown_mm is, runs downwards */
    bool is_tried;       /* nothing is drawn: only what has no room for its name is asked for */
    const char *numbers; /* pieces without room for their names: "3: Front facing · 8: Torch pocket" */
};

static struct bench_pt seen(const struct sight *s, double x, double y)
{
    if (s->is_turned)
        return (struct bench_pt){ s->left + s->scale * y, s->bottom - s->scale * (s->shown_mm - x) };
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

/* A mark each 10 cm or 1/4 yd, a number at each half; none where the edge's word stands, so far from the right. */
static void draw_rule(const struct sight *s, enum units_length unit, double word_width)
{
    double step = unit == UNITS_IN ? 914.4 / 4 : 100;
    int each = unit == UNITS_IN ? 2 : 5;
    double y = s->bottom - s->scale * s->look->lay->task->spread.width_mm, end = seen(s, s->shown_mm, 0).x - word_width;
    for (int i = 0; i * step <= s->shown_mm; i++) {
        double x = seen(s, i * step, 0).x;
        bool numbered = i % each == 0;
        form_line(s->p, (struct bench_pt){ x, y - (numbered ? 9 : 5) }, (struct bench_pt){ x, y }, 1, FORM_LINE);
        const char *text = rule_text(s->p->a, i * step, unit);
        if (numbered && x + 4 + form_width(s->p->type, FORM_SMALL, text) < end)
            form_text(s->p, (struct bench_pt){ x + 4, y - 8 }, FORM_LEFT, FORM_SMALL, FORM_INK_2, 0, text);
    }
}

/* What its long edge is; of a scrap nothing is known. */
static const char *edge_word(const struct lay_task *task, bool fold)
{
    if (fold)
        return base_tr_in("edge of the cloth", "fold");
    return task->cloth->outline.path.count ? NULL : base_tr_in("edge of the cloth", "selvedge");
}

/* What lies where the rule begins; a scrap has no cut end. */
static const char *end_word(const struct lay_task *task)
{
    return task->cloth->outline.path.count ? NULL : base_tr_in("edge of the cloth", "cut end");
}

/* Under the near edge: what lies at its ends, and between them what a dashed line is. */
static void draw_words(const struct sight *s, bool fused)
{
    static const double drop = 15, apart = 16;
    const struct lay_task *task = s->look->lay->task;
    struct bench_pt left = { s->left, s->bottom + drop }, right = { seen(s, s->shown_mm, 0).x, left.y };
    const char *end = end_word(task), *near = edge_word(task, task->spread.bands[0].fold_at_from);
    if (end)
        form_text(s->p, left, FORM_LEFT, FORM_SMALL, FORM_INK_2, 0, end);
    if (near)
        form_text(s->p, right, FORM_RIGHT, FORM_SMALL, FORM_INK_2, 0, near);
    if (!fused)
        return;
    left.x += end ? form_width(s->p->type, FORM_SMALL, end) + apart : 0;
    form_text(s->p, left, FORM_LEFT, FORM_SMALL, FORM_INK_2, 0, base_tr("dashed: the block that is fused first"));
}

/* Returns the room that it takes. */
static double draw_far_word(const struct sight *s)
{
    static const double rise = 8, apart = 12;
    const struct lay_task *task = s->look->lay->task;
    const char *word = edge_word(task, task->spread.bands[task->spread.band_count - 1].fold_at_to);
    if (!word)
        return 0;
    struct bench_pt at = seen(s, s->shown_mm, task->spread.width_mm);
    form_text(s->p, (struct bench_pt){ at.x, at.y - rise }, FORM_RIGHT, FORM_SMALL, FORM_INK_2, 0, word);
    return form_width(s->p->type, FORM_SMALL, word) + apart;
}

/* Returns whether there is a block. */
static bool draw_block(const struct sight *s)
{
    struct geometry_path block = lay_block_outline(s->p->a, s->look->lay).path;
    for (size_t i = 0; i < block.count; i++) {
        vec2 from = block.points[i], to = block.points[(i + 1) % block.count];
        form_dash_line(s->p, seen(s, from.x, from.y), seen(s, to.x, to.y), 2, 6, 5, FORM_BLUE);
    }
    return block.count > 0;
}

/* A fold is a whole line, any other edge a dotted one. */
static void draw_edge(const struct sight *s, double y_mm, bool fold)
{
    struct bench_pt from = seen(s, 0, y_mm), to = seen(s, s->shown_mm, y_mm);
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

static void draw_cloth(const struct sight *s)
{
    const struct cloth_spread *spread = &s->look->lay->task->spread;
    struct bench_pt top = seen(s, 0, spread->width_mm);
    double needed = s->scale * s->look->lay->length_mm, high = s->scale * spread->width_mm;
    form_fill_box(s->p, (struct bench_box){ top.x, top.y, s->scale * s->shown_mm, high }, FORM_SELVEDGE);
    form_fill_box(s->p, (struct bench_box){ top.x, top.y, needed, high }, FORM_CLOTH);
    for (size_t i = 0; i < spread->blocked_count; i++)
        draw_blocked(s, spread->blocked[i].path);
    for (int i = 0; i < spread->band_count; i++) {
        draw_edge(s, spread->bands[i].from_mm, spread->bands[i].fold_at_from);
        draw_edge(s, spread->bands[i].to_mm, spread->bands[i].fold_at_to);
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
    if (2 * half_width > box.max.x - box.min.x || 2 * half_height > box.max.y - box.min.y)
        return false;
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

/* The blank that is nearest to a name's middle; NULL: it has none. */
static const char *middle_blank(const char *name)
{
    double middle = (double)strlen(name) / 2;
    const char *best = strchr(name, ' ');
    for (const char *blank = best; blank; blank = strchr(blank + 1, ' '))
        if (fabs((double)(blank - name) - middle) < fabs((double)(best - name) - middle))
            best = blank;
    return best;
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
    double half_height = over + form_drop(style) + clear;
    if (!find_text_place(outline, (s->is_turned ? half_height : half_width) / s->scale,
                         (s->is_turned ? half_width : half_height) / s->scale, &middle))
        return false;
    struct bench_pt at = seen(s, middle.x, middle.y);
    for (int i = 0; i < count && !s->is_tried; i++)
        form_text(s->p, (struct bench_pt){ at.x, at.y - over + i * form_line_step(style) + form_drop(style) },
                  FORM_MIDDLE, style, FORM_INK, 0, lines[i]);
    return true;
}

/* "2 × Tie": with how often it is cut where it lies. */
static const char *name_of(const struct sight *s, size_t item)
{
    const struct lay_task *task = s->look->lay->task;
    const char *name = lay_item_name(s->p->a, task, item);
    int copies = task->items[item].copies;
    return copies > 1 ? base_arena_print(s->p->a, "%d × %s", copies, name) : name;
}

/* Inside, in one line or two; false: there is no room for it. */
static bool draw_words_inside(const struct sight *s, struct geometry_path outline, enum form_style style,
                              const char *text)
{
    if (draw_lines(s, outline, style, &text, 1))
        return true;
    const char *blank = middle_blank(text);
    if (!blank)
        return false;
    const char *const lines[] = { base_arena_copy_bytes(s->p->a, text, (size_t)(blank - text)), blank + 1 };
    return draw_lines(s, outline, style, lines, 2);
}

/* Its name inside; or, where there is no room for it, its number, which the lines below the picture explain. */
static void draw_name(struct sight *s, size_t item, struct geometry_path outline, bool bold)
{
    const char *name = name_of(s, item);
    enum form_style style = bold ? FORM_NOTE_STRONG : FORM_SMALL;
    if (s->look->cut[item] &&
        draw_words_inside(s, outline, style, base_arena_print(s->p->a, base_tr("%s · cut"), name)))
        return;
    if (draw_words_inside(s, outline, style, name))
        return;
    const char *number = base_arena_print(s->p->a, "%zu", item + 1);
    /* To: “7: Strap 1”, below the picture */
    const char *explained = base_arena_print(s->p->a, base_tr("%s: %s"), number, name);
    s->numbers = base_arena_print(s->p->a, "%s%s%s", s->numbers, *s->numbers ? " · " : "", explained);
    vec2 middle = geometry_path_centre(outline);
    struct bench_pt at = seen(s, middle.x, middle.y);
    if (!draw_lines(s, outline, FORM_SMALL, &number, 1) && !s->is_tried)
        form_text(s->p, (struct bench_pt){ at.x, at.y + form_drop(FORM_SMALL) }, FORM_MIDDLE, FORM_SMALL, FORM_INK, 0,
                  number);
}

static struct geometry_path outline_of(const struct sight *s, size_t item)
{
    const struct lay *lay = s->look->lay;
    return lay_outline(s->p->a, lay->task, item, &lay->places[item]).path;
}

static void draw_item(struct sight *s, size_t item)
{
    const struct lay *lay = s->look->lay;
    if (!lay->places[item].is_laid)
        return;
    struct geometry_path outline = outline_of(s, item);
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

static void draw_items(struct sight *s)
{
    for (size_t i = 0; i < s->look->lay->task->item_count; i++)
        if (i != s->look->in_hand)
            draw_item(s, i);
    if (s->look->in_hand < s->look->lay->task->item_count)
        draw_item(s, s->look->in_hand); /* over its neighbours */
}

/* How the layout is seen where it may be so high: all of it, and as much more cloth as there is room for. */
static struct sight sight_in(struct form_picture *p, struct bench_box box, const struct app_arrange_look *look,
                             double high)
{
    const struct lay *lay = look->lay;
    double shown = fmax(least_shown_mm, lay->length_mm * (1 + spare_share)), width = lay->task->spread.width_mm;
    double scale = fmin(box.width / shown, high / width);
    return (struct sight){ p,     look,  scale, box.x, box.y + rule_height + scale * width, box.width / scale,
                           false, false, "" };
}

/* What of them has room in about six lines. */
static const char *few_numbers(const struct sight *s, double width)
{
    return form_cut_text(s->p, FORM_SMALL, 5.6 * width, s->numbers);
}

/* Lines below the picture that explain numbers, where it may be so high. */
static size_t number_lines(struct form_picture *p, struct bench_box box, const struct app_arrange_look *look,
                           double high)
{
    struct sight s = sight_in(p, box, look, high);
    s.is_tried = true;
    for (size_t i = 0; i < look->lay->task->item_count; i++)
        if (look->lay->places[i].is_laid)
            draw_name(&s, i, outline_of(&s, i), i == look->in_hand);
    return form_paragraph_lines(p, FORM_SMALL, box.width, few_numbers(&s, box.width));
}

double bench_draw_lay(struct form_picture *p, struct bench_box box, const struct app_arrange_look *look,
                      enum units_length unit)
{
    double step = form_line_step(FORM_SMALL), high = box.height - rule_height - words_height;
    size_t lines = number_lines(p, box, look, high);
    struct sight s = sight_in(p, box, look, high - (double)lines * step);
    draw_cloth(&s);
    draw_rule(&s, unit, draw_far_word(&s));
    draw_items(&s);
    draw_words(&s, draw_block(&s));
    draw_overlaps(&s);
    if (lines)
        form_paragraph(p, (struct bench_pt){ box.x, s.bottom + words_height + step - 4 }, FORM_SMALL, FORM_INK,
                       box.width, few_numbers(&s, box.width));
    return s.bottom - box.y + words_height + (double)lines * step;
}

/* --- what strips leave ---------------------------------------------------------------------------------------------
 */

/* What of its cloth a rest is, in mm along and across it. */
static vec2 size_of(const struct tearing_rest *rest)
{
    const struct cloth_spread *spread = &rest->lay->task->spread;
    return (vec2){ fmax(spread->most_length_mm, rest->lay->length_mm), spread->width_mm };
}

/* The same as it is drawn, its longer side across the page. */
static vec2 drawn_size(const struct tearing_rest *rest)
{
    vec2 size = size_of(rest);
    return (vec2){ fmax(size.x, size.y), fmin(size.x, size.y) };
}

static void draw_rest(struct form_picture *p, struct bench_box box, const struct tearing_rest *rest, double scale)
{
    size_t count = rest->lay->task->item_count;
    struct app_arrange_look look = { .lay = rest->lay,
                                     .in_hand = count,
                                     .cut = base_arena_alloc(p->a, count + 1, sizeof(bool)) };
    vec2 size = size_of(rest), drawn = vec2_scale(drawn_size(rest), scale);
    double top = box.y + 2 * form_line_step(FORM_SMALL);
    struct sight s = { p, &look, scale, box.x, top + drawn.y, size.x, size.y > size.x, false, "" };
    struct bench_box cloth = { box.x, top, drawn.x, drawn.y };
    form_fill_box(p, cloth, FORM_CLOTH);
    form_dash_box(p, cloth, 1.2, FORM_LINE);
    draw_items(&s);
    const char *lines[] = { base_text_capital(p->a, app_torn_rest_name(p->a, rest)),
                            *s.numbers ? s.numbers : app_torn_rest_pieces(p->a, rest) };
    for (int i = 0; i < 2; i++)
        form_text(p, (struct bench_pt){ box.x, top - 6 - (1 - i) * form_line_step(FORM_SMALL) }, FORM_LEFT, FORM_SMALL,
                  i ? FORM_INK_2 : FORM_INK, box.width, form_cut_text(p, FORM_SMALL, box.width, lines[i]));
}

void bench_draw_rests(struct form_picture *p, struct bench_box box, const struct tearing_rest *rests, size_t count)
{
    enum { MOST_BESIDE = 3 };
    static const double apart = 18;
    size_t columns = count < MOST_BESIDE ? count : MOST_BESIDE, rows = (count + columns - 1) / columns;
    double width = (box.width - (double)(columns - 1) * apart) / (double)columns, height = box.height / (double)rows;
    double scale = INFINITY, room = height - 2 * form_line_step(FORM_SMALL);
    for (size_t i = 0; i < count; i++) {
        vec2 size = drawn_size(&rests[i]);
        scale = fmin(scale, fmin(width / size.x, room / size.y));
    }
    for (size_t i = 0; i < count; i++) {
        size_t row = i / columns, column = i % columns;
        double x = box.x + (double)column * (width + apart), y = box.y + (double)row * height;
        draw_rest(p, (struct bench_box){ x, y, width, height }, &rests[i], scale);
    }
}
