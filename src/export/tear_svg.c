#include "export/tear_svg.h"

#include "base/buffer.h"
#include "base/text.h"
#include "base/words.h"
#include "export/sheet.h"
#include "export/svg_parts.h"
#include "export/xml.h"
#include "tearing/rests.h"

#include <math.h>

#define WORD_MM 14.0
#define AWAY_MM 6.0 /* of a word from the edge it stands at */
#define TITLE_MM 18.0
#define NAME_MM 40.0   /* letters no larger: a plan is looked at as a whole … */
#define LEAST_MM 6.0   /* … and no smaller, where they go over the edge */
#define LINE_HIGH 1.25 /* of its size */
#define SEEN_MM 0.5    /* less is no waste to draw */

#define TEAR_LOOK "fill=\"none\" stroke=\"#c00\" stroke-width=\"2.5\""
#define CUT_LOOK "fill=\"#eee\" stroke=\"#000\" stroke-width=\"1.2\""
#define WASTE_LOOK "fill=\"#fbd9c8\" stroke=\"none\""
#define EDGE_LOOK "fill=\"#cfe0f5\" stroke=\"#06c\" stroke-width=\"0.5\""
#define CLOTH_LOOK "fill=\"#fff\" stroke=\"#06c\" stroke-width=\"1\""
#define WORD_LOOK "fill=\"#000\" stroke=\"none\""
#define MIDDLE_LOOK WORD_LOOK " text-anchor=\"middle\""
#define END_LOOK WORD_LOOK " text-anchor=\"end\""
#define FAULT_LOOK "fill=\"#bbb\" stroke=\"none\""

struct page {
    struct base_buffer out;
    const struct export_words *w;
    const struct tearing_plan *plan;
    double length, across, edge; /* of the cloth as it is shown: along it, its washed width, the selvedge taken off */
    double height;               /* of the page */
};

static const vec2 corner = { EXPORT_TEAR_MARGIN_MM, EXPORT_TEAR_MARGIN_MM };

static void put_path(struct page *s, const char *class, const char *look, struct geometry_path path)
{
    base_buffer_print(&s->out, "    ");
    export_svg_shape(&s->out, class, look, path, corner, s->height);
}

static void put_box(struct page *s, const char *class, const char *look, struct geometry_box b)
{
    vec2 corners[] = { b.min, { b.max.x, b.min.y }, b.max, { b.min.x, b.max.y } };
    put_path(s, class, look, (struct geometry_path){ corners, 4, true });
}

static void put_line(struct page *s, const char *class, const char *look, vec2 from, vec2 to)
{
    put_path(s, class, look, (struct geometry_path){ (vec2[]){ from, to }, 2, false });
}

static void put_words(struct page *s, const char *text, vec2 at, vec2 along, double size_mm, const char *look)
{
    base_buffer_print(&s->out, "    ");
    export_svg_words(&s->out, text, vec2_add(at, corner), along, size_mm, s->height, look);
}

static double room_mm(const char *text)
{
    return (double)base_text_letters(text) * EXPORT_LETTER_WIDE;
}

/* One or two lines in the middle of a rectangle, along its longer side, as large as it has room for. */
static void put_words_in(struct page *s, struct geometry_box b, const char *const *words, size_t count)
{
    double wide = b.max.x - b.min.x, high = b.max.y - b.min.y, longest = 0;
    bool lies = wide >= high;
    vec2 along = lies ? (vec2){ 1, 0 } : (vec2){ 0, 1 }, down = vec2_right(along);
    for (size_t i = 0; i < count; i++)
        longest = fmax(longest, room_mm(words[i]));
    double size =
        fmin(fmin(NAME_MM, 0.9 * fmax(wide, high) / longest), 0.9 * fmin(wide, high) / ((double)count * LINE_HIGH));
    size = fmax(size, LEAST_MM);
    vec2 middle = vec2_scale(vec2_add(b.min, b.max), 0.5);
    for (size_t i = 0; i < count; i++) {
        double below = ((double)i - (double)(count - 1) / 2) * LINE_HIGH * size + 0.35 * size;
        put_words(s, words[i], vec2_add(middle, vec2_scale(down, below)), along, size, MIDDLE_LOOK);
    }
}

/* --- the cloth --------------------------------------------------------------------------------------------------- */

static void put_selvedge(struct page *s, double y)
{
    struct geometry_box band = { { 0, y }, { s->length, y + s->edge } };
    put_box(s, "selvedge", EDGE_LOOK, band);
    put_words(s, base_tr("selvedge"), (vec2){ s->length - AWAY_MM, y + 0.2 * s->edge }, (vec2){ 1, 0 },
              fmin(WORD_MM, 0.8 * s->edge), END_LOOK);
}

/* From the end at its longer selvedge, which is drawn below, to where it is square. */
static void put_squaring(struct page *s)
{
    double off = s->plan->task->off_square_mm;
    vec2 corners[] = { { 0, 0 }, { off, 0 }, { off, s->across } };
    if (off > SEEN_MM)
        put_path(s, "waste", WASTE_LOOK, (struct geometry_path){ corners, 3, true });
    put_line(s, "tear", TEAR_LOOK, corners[1], corners[2]);
    put_words(s, base_tr("square the end here"), (vec2){ off - AWAY_MM, 0 }, (vec2){ 0, 1 }, WORD_MM, WORD_LOOK);
}

static void put_cloth(struct page *s)
{
    const struct tearing_task *task = s->plan->task;
    double off = task->off_square_mm;
    vec2 ends[] = { { 0, 0 }, { s->length, 0 }, { s->length, s->across }, { off, s->across } };
    base_buffer_print(&s->out, "  <g class=\"cloth\">\n");
    put_path(s, "spread", CLOTH_LOOK, (struct geometry_path){ ends, 4, true });
    if (s->edge > SEEN_MM) {
        put_selvedge(s, 0);
        put_selvedge(s, s->across - s->edge);
    }
    for (size_t i = 0; i < task->cloth->fault_count; i++) /* they are told without the selvedge */
        export_svg_shape(&s->out, "fault", FAULT_LOOK, task->cloth->faults[i].path,
                         vec2_add(corner, (vec2){ 0, s->edge }), s->height);
    put_squaring(s);
    base_buffer_print(&s->out, "  </g>\n");
}

/* --- the strips -------------------------------------------------------------------------------------------------- */

/* A stretch of a strip, from and to along its own length and from its first torn edge, on the cloth. */
static struct geometry_box on_cloth(const struct page *s, const struct tearing_strip *strip, double from, double to,
                                    double low, double high)
{
    const struct tearing_plan *p = s->plan;
    double end = p->task->off_square_mm, margin = p->task->margin_mm;
    if (!p->along)
        return (struct geometry_box){ { end + strip->from_mm + low, s->edge + from },
                                      { end + strip->from_mm + high, s->edge + to } };
    double begin = end + p->start_mm + margin;
    return (struct geometry_box){ { begin + from, s->edge + strip->from_mm + low },
                                  { begin + to, s->edge + strip->from_mm + high } };
}

static void put_spot(struct page *s, const struct tearing_strip *strip, const struct tearing_spot *spot)
{
    const struct tearing_plan *p = s->plan;
    const struct tearing_need *need = &p->needs[spot->kind];
    double low = p->task->margin_mm + spot->along_mm;
    double long_mm = p->along ? need->height_mm : need->width_mm, deep_mm = p->along ? need->width_mm : need->height_mm;
    struct geometry_box b = on_cloth(s, strip, spot->across_mm, spot->across_mm + long_mm, low, low + deep_mm);
    const char *name = base_text_one_line(s->w->a, need->piece->label);
    const char *words[] = { name, export_extent_text(s->w, (struct export_extent){ need->width_mm, need->height_mm }) };
    base_buffer_print(&s->out, "  <g class=\"piece\">\n    <title>%s</title>\n", export_xml_text(s->w->a, name));
    put_box(s, "cut", CUT_LOOK, b);
    put_words_in(s, b, words, 2);
    base_buffer_print(&s->out, "  </g>\n");
}

/* What is trimmed off both torn edges. */
static void put_trimmings(struct page *s, const struct tearing_strip *strip)
{
    double margin = s->plan->task->margin_mm, wide = strip->to_mm - strip->from_mm, length = s->plan->strip_length_mm;
    if (margin < SEEN_MM)
        return;
    put_box(s, "waste", WASTE_LOOK, on_cloth(s, strip, 0, length, 0, margin));
    put_box(s, "waste", WASTE_LOOK, on_cloth(s, strip, 0, length, wide - margin, wide));
}

/* Through both selvedges, or from torn end to torn end. */
static void put_tear_at(struct page *s, const struct tearing_strip *strip, double at)
{
    struct geometry_box end = on_cloth(s, strip, 0, s->plan->strip_length_mm, at, at);
    double margin = s->plan->task->margin_mm;
    vec2 over = s->plan->along ? (vec2){ margin, 0 } : (vec2){ 0, s->edge };
    put_line(s, "tear", TEAR_LOOK, vec2_sub(end.min, over), vec2_add(end.max, over));
}

/* Where a strip begins only if that is not where the one before ends: past a fault. */
static void put_tears(struct page *s, size_t index)
{
    const struct tearing_strip *strip = &s->plan->strips[index];
    double before = index ? strip[-1].to_mm : 0;
    if (strip->from_mm - before > SEEN_MM)
        put_tear_at(s, strip, 0);
    put_tear_at(s, strip, strip->to_mm - strip->from_mm);
}

/* Its number and where to tear, outside the cloth, up to that place. */
static void put_place(struct page *s, size_t index)
{
    const struct tearing_strip *strip = &s->plan->strips[index];
    double size = WORD_MM, wide = strip->to_mm - strip->from_mm;
    const char *at = export_length_text(s->w, export_mark(s->w, strip->to_mm));
    const char *words = base_arena_print(s->w->a, base_tr("%zu: tear at %s"), index + 1, at);
    if (size * room_mm(words) > wide)
        words = base_arena_print(s->w->a, "%zu: %s", index + 1, at);
    size = fmin(size, wide / room_mm(words));
    struct geometry_box b = on_cloth(s, strip, 0, 0, 0, wide);
    if (s->plan->along)
        put_words(s, words, (vec2){ s->length + AWAY_MM + size, b.max.y }, (vec2){ 0, 1 }, size, END_LOOK);
    else
        put_words(s, words, (vec2){ b.max.x, -AWAY_MM - size }, (vec2){ 1, 0 }, size, END_LOOK);
}

/* A rest of the plan, on the cloth. */
static struct geometry_box rest_on_cloth(const struct page *s, const struct tearing_rest *rest)
{
    vec2 off = { s->plan->task->off_square_mm, s->edge };
    return (struct geometry_box){ vec2_add(rest->at.min, off), vec2_add(rest->at.max, off) };
}

/* Whether something is cut of it. */
static bool is_used(const struct tearing_plan *p, const struct tearing_rest *left)
{
    for (size_t i = 0; p->rests && i < p->rests->count; i++) {
        vec2 at = p->rests->rests[i].at.min;
        if (at.x == left->at.min.x && at.y == left->at.min.y)
            return true;
    }
    return false;
}

static void put_left(struct page *s)
{
    const char *words[] = { base_tr("left over") };
    struct tearing_rest *left;
    size_t count = tearing_left(s->w->a, s->plan, &left);
    for (size_t i = 0; i < count; i++)
        if (tearing_is_worth_telling(&left[i]) && !is_used(s->plan, &left[i]))
            put_words_in(s, rest_on_cloth(s, &left[i]), words, 1);
}

/* A name in its outline, as on a layout drawn at true scale. */
static void put_name(struct page *s, const struct draft_piece *of, struct geometry_path outline, const char *name)
{
    vec2 middle = geometry_path_centre(outline);
    struct draft_piece piece = *of;
    piece.cut.path = outline;
    piece.label_at = (struct piece_pt){ middle.x, middle.y };
    const struct export_stroke line = { .kind = EXPORT_CUT, .path = outline };
    struct export_lettering at = export_lettering_place(&piece, &line, 1, &name, 1, EXPORT_ON_CLOTH);
    put_words(s, name, export_lettering_line(&at, 0), at.along, at.size_mm, WORD_LOOK);
}

/* What is cut of a rest, where it lies in it. */
static void put_rest(struct page *s, const struct tearing_rest *rest)
{
    vec2 from = rest_on_cloth(s, rest).min;
    for (size_t i = 0; i < rest->lay->task->item_count; i++) {
        struct geometry_path path = lay_outline(s->w->a, rest->lay->task, i, &rest->lay->places[i]).path;
        const char *name = base_text_one_line(s->w->a, lay_item_name(s->w->a, rest->lay->task, i));
        for (size_t k = 0; k < path.count; k++)
            path.points[k] = vec2_add(path.points[k], from);
        base_buffer_print(&s->out, "  <g class=\"piece\">\n    <title>%s</title>\n", export_xml_text(s->w->a, name));
        put_path(s, "cut", CUT_LOOK, path);
        put_name(s, rest->lay->task->items[i].piece, path, name);
        base_buffer_print(&s->out, "  </g>\n");
    }
}

/* Strips along are torn of one length that is torn off first. */
static void put_length(struct page *s)
{
    const struct tearing_plan *p = s->plan;
    double from = p->task->off_square_mm + p->start_mm, to = p->length_mm;
    if (p->start_mm > SEEN_MM)
        put_line(s, "tear", TEAR_LOOK, (vec2){ from, 0 }, (vec2){ from, s->across });
    put_line(s, "tear", TEAR_LOOK, (vec2){ to, 0 }, (vec2){ to, s->across });
}

static void put_strips(struct page *s)
{
    const struct tearing_plan *p = s->plan;
    base_buffer_print(&s->out, "  <g class=\"tears\">\n");
    for (size_t i = 0; i < p->strip_count; i++)
        put_trimmings(s, &p->strips[i]);
    for (size_t i = 0; i < p->strip_count; i++) {
        put_tears(s, i);
        put_place(s, i);
    }
    put_left(s);
    if (p->along)
        put_length(s);
    base_buffer_print(&s->out, "  </g>\n");
    for (size_t i = 0; i < p->strip_count; i++)
        for (size_t k = 0; k < p->strips[i].spot_count; k++)
            put_spot(s, &p->strips[i], &p->strips[i].spots[k]);
    for (size_t i = 0; p->rests && i < p->rests->count; i++)
        put_rest(s, &p->rests->rests[i]);
}

/* Smaller where a short plan has no room for it. */
static void put_title(struct page *s, const char *title)
{
    double size = fmin(TITLE_MM, (s->length + EXPORT_TEAR_MARGIN_MM) / room_mm(title));
    vec2 at = { 0, s->across + EXPORT_TEAR_MARGIN_MM - AWAY_MM };
    put_words(s, title, at, (vec2){ 1, 0 }, size, WORD_LOOK);
}

const char *export_tear_svg(const struct export_words *w, const struct tearing_plan *plan, const char *title)
{
    const struct cloth *cloth = plan->task->cloth;
    double frame = 2 * EXPORT_TEAR_MARGIN_MM;
    struct page s = { .out = { .a = w->a },
                      .w = w,
                      .plan = plan,
                      .length = fmax(plan->length_mm, cloth_washed_length(cloth)),
                      .across = cloth_washed_width(cloth),
                      .edge = (cloth_washed_width(cloth) - cloth_usable_width(cloth)) / 2 };
    s.height = s.across + frame + TITLE_MM;
    export_svg_begin(&s.out, s.length + frame, s.height, title);
    put_title(&s, title);
    put_cloth(&s);
    put_strips(&s);
    base_buffer_print(&s.out, "</svg>\n");
    return base_buffer_text(&s.out);
}
