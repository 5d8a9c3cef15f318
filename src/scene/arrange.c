#include "scene/arrange.h"

#include "scene/hatch.h"
#include "scene/parts.h"

#include <math.h>

#define TITLE 1.35 /* of the cap height, as all that follows */
#define TITLE_STEP 2.3
#define LINE_STEP 1.8
#define EDGE_ROOM 2.4  /* above the cloth, for what its far edge is and where the lay ends */
#define RULER_ROOM 3.7 /* below it, for the ruler and its figures */
#define RULER_GAP 0.5
#define TICK 0.35
#define LONG_TICK 0.7
#define FIGURE_APART 4.0
#define NAME_ROOM 0.75 /* to either side of a name's middle */
#define NAME_END 0.4
#define TAG_END 0.3
#define PIN_RADIUS 0.35
#define HEAD_LONG 0.7
#define HEAD_WIDE 0.3 /* to either side */
#define ARROW_MOST 7.0
#define ARROW_LEAST 2.2
#define MARGIN_MM 20.0
#define LENGTH_SHARE 1.03 /* of what the pieces take: so much cloth is shown, where its length is not told */
#define LEAST_LENGTH_MM 200.0
#define LEAST_NAME_PX 7.0
#define IN_HAND_PX 4.0
#define DIM 0.6      /* a piece's light, as of pieces to come */
#define BLOCKED 0.35 /* of what may not be cut, as of what is not measured */
#define HATCH_PX 6.0 /* on the table 10 mm, where it is true to scale; a small overlap has to show, too */
#define BLOCKED_HATCH_PX 20.0

enum { NAME_LANES = 15, PIN_CORNERS = 16, MOST_TAKEN = 32 };

/* From the cloth's mm to the page, px across and up. */
struct small {
    const struct scene_canvas *c;
    double cap, left, near, scale;
    double length_mm;                      /* of cloth that is shown */
    struct geometry_box taken[MOST_TAKEN]; /* by letters that nothing may be written over */
    size_t taken_count;
};

static vec2 place_of(const struct small *s, double x, double y)
{
    return (vec2){ s->left + x * s->scale, s->near + y * s->scale };
}

static struct geometry_path path_of(const struct small *s, struct geometry_path cloth)
{
    struct geometry_path out = geometry_path_copy(s->c->a, cloth);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = place_of(s, out.points[i].x, out.points[i].y);
    return out;
}

/* A path of the page in the frame's pixels. */
static struct px_path px_of(const struct scene_canvas *c, struct geometry_path page)
{
    struct px_path out = { geometry_path_copy(c->a, page) };
    for (size_t i = 0; i < page.count; i++) {
        struct px_pt px = scene_page_px(&c->page, page.points[i].x, page.points[i].y);
        out.path.points[i] = (vec2){ px.x, px.y };
    }
    return out;
}

static struct paint_ink dimmed(const struct small *s, double level)
{
    return (struct paint_ink){ s->c->view->look.chalks->main, level };
}

/* A kind of line as wide and as dashed in the light as it is on the table. */
static struct paint_pen pen_of(const struct small *s, enum scene_line line)
{
    struct paint_pen pen = scene_pen(&s->c->view->look, line);
    double scale = s->c->page.px_per_mm;
    pen.width = fmax(pen.width * scale, SCENE_LEAST_STROKE_PX);
    for (int i = 0; i < PAINT_DASHES; i++)
        pen.dash[i] *= scale;
    return pen;
}

/* --- hatching ---------------------------------------------------------------------------------------------------- */

/* Strokes along a direction wherever all outlines are, so far from each other; the box about them. */
static struct geometry_box hatch(const struct small *s, const struct scene_obstacles *outlines, vec2 along,
                                 double apart, struct paint_ink ink)
{
    struct geometry_box box = geometry_box_empty();
    vec2 *ends;
    size_t count = scene_hatch(s->c->a, outlines, along, apart, &ends);
    for (size_t i = 0; i < 2 * count; i += 2) {
        scene_page_line(s->c, ends[i], ends[i + 1], (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX }, ink);
        box = geometry_box_join(box, geometry_path_box((struct geometry_path){ &ends[i], 2, false }));
    }
    return box;
}

static bool is_taken(const struct small *s, struct geometry_box box)
{
    bool taken = s->taken_count == MOST_TAKEN;
    for (size_t i = 0; i < s->taken_count; i++)
        taken = taken || (box.min.x < s->taken[i].max.x && box.max.x > s->taken[i].min.x &&
                          box.min.y < s->taken[i].max.y && box.max.y > s->taken[i].min.y);
    return taken;
}

/* Letters on dark ground below what they are about, or else above it; within the page, and nowhere where others stand
 * in the way: the worst amounts come first. */
static void write_amount(struct small *s, const char *amount, struct geometry_box about)
{
    double half = scene_words_width(s->c, amount, s->cap) / 2 + TAG_END * s->cap, deep = 2 * NAME_ROOM * s->cap;
    double across = fmin(fmax((about.min.x + about.max.x) / 2, half), s->c->page.width - half);
    const double ups[] = { about.min.y - deep, about.max.y };
    for (size_t i = 0; i < sizeof ups / sizeof ups[0]; i++) {
        struct geometry_box box = { { across - half, ups[i] }, { across + half, ups[i] + deep } };
        if (box.min.y < s->near || is_taken(s, box))
            continue;
        scene_page_box(s->c, box.min.x, box.min.y, box.max.x, box.max.y, dimmed(s, 0));
        scene_page_words(s->c, amount, SCENE_MIDDLE, across, ups[i] + deep / 2 - s->cap / 2, s->cap, dimmed(s, 1));
        s->taken[s->taken_count++] = box;
        return;
    }
}

static void draw_overlap(struct small *s, const struct scene_arrange_overlap *overlap)
{
    struct geometry_path paths[2] = { path_of(s, overlap->over[0].path), path_of(s, overlap->over[1].path) };
    struct scene_obstacles both = { paths, 2 };
    if (!paths[0].count || !paths[1].count)
        return;
    struct geometry_box box = hatch(s, &both, scene_hatch_ways[0], HATCH_PX, dimmed(s, 1));
    box = geometry_box_join(box, hatch(s, &both, scene_hatch_ways[1], HATCH_PX, dimmed(s, 1)));
    if (overlap->amount && box.min.x <= box.max.x)
        write_amount(s, overlap->amount, box);
}

/* --- the cloth --------------------------------------------------------------------------------------------------- */

static void draw_line(const struct small *s, vec2 from, vec2 to, enum scene_line line)
{
    scene_page_line(s->c, from, to, pen_of(s, line), scene_ink(&s->c->view->look, line));
}

static void draw_level(const struct small *s, double y, enum scene_line line)
{
    draw_line(s, place_of(s, 0, y), place_of(s, s->length_mm, y), line);
}

static void draw_upright(const struct small *s, double x, double width_mm, enum scene_line line)
{
    draw_line(s, place_of(s, x, 0), place_of(s, x, width_mm), line);
}

/* Its long edges, and where the layers change; a fold is drawn as one. */
static void draw_bands(const struct small *s, const struct cloth_spread *spread)
{
    for (int i = 0; i < spread->band_count; i++) {
        const struct cloth_band *band = &spread->bands[i];
        bool last = i + 1 == spread->band_count;
        draw_level(s, band->from_mm, band->fold_at_from ? SCENE_FOLD : i == 0 ? SCENE_SQUARE : SCENE_RULE);
        if (last || band->fold_at_to)
            draw_level(s, band->to_mm, band->fold_at_to ? SCENE_FOLD : SCENE_SQUARE);
    }
}

static void draw_blocked(const struct small *s, struct geometry_path blocked)
{
    struct geometry_path path = path_of(s, blocked);
    struct scene_obstacles one = { &path, 1 };
    paint_px_stroke(&s->c->out->px, px_of(s->c, path), (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX },
                    dimmed(s, BLOCKED));
    if (path.count)
        hatch(s, &one, scene_hatch_ways[0], BLOCKED_HATCH_PX, dimmed(s, BLOCKED));
}

/* As what is set on a piece. */
static void draw_block(const struct small *s, struct geometry_path block)
{
    if (block.count)
        paint_px_stroke(&s->c->out->px, px_of(s->c, path_of(s, block)), pen_of(s, SCENE_DART),
                        scene_ink(&s->c->view->look, SCENE_DART));
}

/* What its edges are and how much the lay needs stand beyond the far edge; what the near one is, below the ruler. */
static void write_edges(const struct small *s, const struct scene_arrange *ar)
{
    double width = ar->spread->width_mm, cap = 0.8 * s->cap;
    vec2 far = place_of(s, 0, width), near = place_of(s, 0, 0), needs = place_of(s, ar->needs_mm, width);
    double needs_wide = scene_words_width(s->c, ar->needs, s->cap),
           edge_wide = scene_words_width(s->c, ar->far_edge, cap);
    double at = fmax(needs.x, far.x + edge_wide + s->cap + needs_wide);
    scene_page_words(s->c, ar->far_edge, SCENE_START, far.x, far.y + 0.5 * s->cap, cap, dimmed(s, DIM));
    scene_page_words(s->c, ar->needs, SCENE_END, at, far.y + 0.5 * s->cap, s->cap, dimmed(s, 1));
    scene_page_words(s->c, ar->near_edge, SCENE_START, near.x, near.y - RULER_ROOM * s->cap, cap, dimmed(s, DIM));
}

static void draw_cloth(const struct small *s, const struct scene_arrange *ar)
{
    const struct cloth_spread *spread = ar->spread;
    bool across = spread->layers_long > 1; /* folded crosswise: its far end is the fold */
    draw_bands(s, spread);
    draw_upright(s, 0, spread->width_mm, SCENE_SQUARE);
    if (spread->most_length_mm > 0)
        draw_upright(s, spread->most_length_mm, spread->width_mm, across ? SCENE_FOLD : SCENE_SQUARE);
    if (ar->needs_mm > 0)
        draw_upright(s, ar->needs_mm, spread->width_mm,
                     across && !(spread->most_length_mm > 0) ? SCENE_FOLD : SCENE_LEADER);
    write_edges(s, ar);
}

/* --- the ruler --------------------------------------------------------------------------------------------------- */

/* How far its ticks, and its figures, lie apart: as fine as the figures have room. In inches by quarters of a yard. */
static const struct ruler_step {
    enum units_length unit;
    double tick, figure;
} ruler_steps[] = {
    { UNITS_CM, 1, 10 },     { UNITS_CM, 5, 20 }, { UNITS_CM, 10, 50 }, { UNITS_CM, 10, 100 }, { UNITS_CM, 50, 500 },
    { UNITS_CM, 500, 1000 }, { UNITS_IN, 1, 9 },  { UNITS_IN, 3, 18 },  { UNITS_IN, 9, 36 },   { UNITS_IN, 36, 360 },
};

static struct ruler_step ruler_step_of(const struct small *s, enum units_length unit)
{
    enum units_length shown = unit == UNITS_IN ? UNITS_IN : UNITS_CM;
    struct ruler_step step = { shown, 100, 1000 };
    for (size_t i = sizeof ruler_steps / sizeof ruler_steps[0]; i-- > 0;)
        if (ruler_steps[i].unit == shown &&
            ruler_steps[i].figure * units_mm_per(shown) * s->scale >= FIGURE_APART * s->cap)
            step = ruler_steps[i];
    return step;
}

static void draw_ruler(const struct small *s, enum units_length unit)
{
    struct ruler_step step = ruler_step_of(s, unit);
    double mm = units_mm_per(step.unit), up = s->near - RULER_GAP * s->cap, cap = 0.8 * s->cap;
    size_t ticks = (size_t)floor(s->length_mm / (step.tick * mm)), long_every = (size_t)(step.figure / step.tick);
    char number[UNITS_TEXT];
    for (size_t i = 0; i <= ticks; i++) {
        vec2 at = { s->left + (double)i * step.tick * mm * s->scale, up };
        bool figure = i % long_every == 0;
        vec2 end = { at.x, up - (figure ? LONG_TICK : TICK) * s->cap };
        scene_page_line(s->c, at, end, (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX }, dimmed(s, DIM));
        if (figure)
            scene_page_words(s->c,
                             base_arena_print(s->c->a, "%s%s%s", units_print_decimal(number, (double)i * step.tick, 2),
                                              i ? "" : " ", i ? "" : units_shown_name(step.unit)),
                             i ? SCENE_MIDDLE : SCENE_START, at.x, end.y - 0.3 * s->cap - cap, cap, dimmed(s, DIM));
    }
}

/* --- names and grain --------------------------------------------------------------------------------------------- */

/* A place for something long and narrow in an outline: its middle, and how long it may be. */
struct room {
    vec2 middle, along;
    double length;
};

/* The longest straight room along a direction that is so wide to either side and clear of what is in the way; of two
 * as long the one nearer to the middle. The outline is among the obstacles, as the first. */
static struct room find_room(const struct small *s, const struct scene_obstacles *obstacles, vec2 along, double beside,
                             double enough)
{
    struct geometry_path outline = obstacles->paths[0];
    struct geometry_box box = geometry_path_box(outline);
    vec2 middle = geometry_path_centre(outline), across = vec2_right(along);
    double reach = vec2_length(vec2_sub(box.max, box.min));
    struct room best = { .along = along };
    for (int lane = 0; lane < NAME_LANES; lane++) { /* from the middle outwards, to either side in turn */
        int steps = (lane + 1) / 2;
        double off = (lane % 2 ? steps : -steps) * reach / NAME_LANES;
        struct scene_lane l = { vec2_add(middle, vec2_scale(across, off)), along, beside, beside, 0 };
        struct scene_gap *gaps;
        size_t count = scene_lane_gaps(s->c->a, &l, obstacles, -reach, reach, &gaps);
        for (size_t i = 0; i < count; i++) {
            vec2 at = vec2_add(l.at, vec2_scale(along, (gaps[i].from + gaps[i].to) / 2));
            double length = gaps[i].to - gaps[i].from;
            bool free = length > best.length && best.length < enough;
            for (size_t k = 0; free && k < obstacles->count; k++)
                free = geometry_path_holds(obstacles->paths[k], at) == (k == 0);
            if (free)
                best = (struct room){ at, along, length };
        }
    }
    return best;
}

/* A rectangle about a room's middle, in the page. */
static struct geometry_path box_of(const struct small *s, const struct room *room, double length, double height)
{
    vec2 half = vec2_scale(room->along, length / 2), up = vec2_scale(vec2_right(room->along), -height / 2);
    struct geometry_path box = { base_arena_alloc(s->c->a, 4, sizeof(vec2)), 4, true };
    box.points[0] = vec2_sub(vec2_sub(room->middle, half), up);
    box.points[1] = vec2_sub(vec2_add(room->middle, half), up);
    box.points[2] = vec2_add(vec2_add(room->middle, half), up);
    box.points[3] = vec2_add(vec2_sub(room->middle, half), up);
    return box;
}

static void fill_page(const struct small *s, struct geometry_path path, struct paint_ink ink)
{
    struct px_path px = px_of(s->c, path);
    paint_px_fill(&s->c->out->px, &px, 1, ink);
}

static void draw_pin(const struct small *s, vec2 at, double cap, struct paint_ink ink)
{
    struct geometry_path disc = { base_arena_alloc(s->c->a, PIN_CORNERS, sizeof(vec2)), PIN_CORNERS, true };
    for (int i = 0; i < PIN_CORNERS; i++) {
        double sine, cosine;
        geometry_sincos(360.0 * i / PIN_CORNERS, &sine, &cosine);
        disc.points[i] = vec2_add(at, vec2_scale((vec2){ cosine, sine }, PIN_RADIUS * cap));
    }
    fill_page(s, disc, ink);
}

/* How long a piece's name is with its pin, and air at both ends. */
static double name_long(const struct small *s, const struct scene_arrange_piece *piece, double cap)
{
    return scene_words_width(s->c, piece->name, cap) + (piece->held ? 4 * PIN_RADIUS * cap : 0) + 2 * NAME_END * cap;
}

static void write_name(const struct small *s, const struct scene_arrange_piece *piece, const struct room *room,
                       double cap)
{
    double length = name_long(s, piece, cap);
    struct paint_ink ink = dimmed(s, piece->in_hand ? 0 : 1);
    vec2 up = vec2_scale(vec2_right(room->along), -1);
    vec2 at = vec2_sub(room->middle, vec2_scale(room->along, length / 2 - NAME_END * cap));
    if (piece->in_hand)
        fill_page(s, box_of(s, room, length, 2 * NAME_ROOM * cap), dimmed(s, 1));
    if (piece->held) {
        draw_pin(s, vec2_add(at, vec2_scale(room->along, PIN_RADIUS * cap)), cap, ink);
        at = vec2_add(at, vec2_scale(room->along, 4 * PIN_RADIUS * cap));
    }
    scene_page_words_along(s->c, piece->name, vec2_sub(at, vec2_scale(up, cap / 2)), room->along, cap, ink);
}

/* As large as other letters where it has room so, else smaller; across the piece where it has none along it. Where the
 * name stands; empty: nowhere. */
static struct geometry_path name_piece(const struct small *s, const struct scene_arrange_piece *piece,
                                       const struct scene_obstacles *in_way)
{
    static const double shares[] = { 1, 0.8, 0.65, 0.5, 0.4 };
    static const vec2 directions[] = { { 1, 0 }, { 0, 1 } };
    for (size_t i = 0; i < 2 * sizeof shares / sizeof shares[0]; i++) {
        double cap = fmax(shares[i / 2] * s->cap, LEAST_NAME_PX), length = name_long(s, piece, cap);
        struct room room = find_room(s, in_way, directions[i % 2], NAME_ROOM * cap, length);
        if (room.length < length)
            continue;
        write_name(s, piece, &room, cap);
        return box_of(s, &room, length, 2 * NAME_ROOM * cap);
    }
    return (struct geometry_path){ NULL, 0, true };
}

static void draw_head(const struct small *s, vec2 tip, vec2 along, struct paint_ink ink)
{
    struct geometry_path head = { base_arena_alloc(s->c->a, 3, sizeof(vec2)), 3, true };
    vec2 foot = vec2_sub(tip, vec2_scale(along, HEAD_LONG * s->cap));
    vec2 aside = vec2_scale(vec2_right(along), HEAD_WIDE * s->cap);
    head.points[0] = tip;
    head.points[1] = vec2_sub(foot, aside);
    head.points[2] = vec2_add(foot, aside);
    fill_page(s, head, ink);
}

static void draw_grain(const struct small *s, const struct scene_arrange_piece *piece,
                       const struct scene_obstacles *in_way)
{
    struct paint_ink ink = scene_ink(&s->c->view->look, SCENE_GRAIN);
    struct room room = find_room(s, in_way, piece->grain, 1.5 * HEAD_WIDE * s->cap, ARROW_MOST * s->cap);
    double length = fmin(0.8 * room.length, ARROW_MOST * s->cap);
    if (length < ARROW_LEAST * s->cap)
        return;
    vec2 half = vec2_scale(piece->grain, length / 2);
    vec2 tail = vec2_sub(room.middle, half), head = vec2_add(room.middle, half);
    scene_page_line(s->c, tail, head, pen_of(s, SCENE_GRAIN), ink);
    draw_head(s, head, piece->grain, ink);
    if (!piece->one_way)
        draw_head(s, tail, vec2_scale(piece->grain, -1), ink);
}

/* What is cut is as what may not be cut: there is no cloth any more. */
static struct paint_pen outline_pen(const struct small *s, const struct scene_arrange_piece *piece)
{
    struct paint_pen pen = { .width = SCENE_LEAST_STROKE_PX };
    if (piece->cut)
        pen = pen_of(s, SCENE_CUT_BEFORE);
    if (piece->in_hand)
        pen.width = IN_HAND_PX;
    return pen;
}

static void draw_piece(struct small *s, const struct scene_arrange_piece *piece)
{
    struct geometry_path paths[2] = { path_of(s, piece->outline.path) };
    struct scene_obstacles in_way = { paths, 1 };
    if (paths[0].count < 3)
        return;
    if (piece->cut)
        hatch(s, &in_way, scene_hatch_ways[0], BLOCKED_HATCH_PX, dimmed(s, BLOCKED));
    paint_px_stroke(&s->c->out->px, px_of(s->c, paths[0]), outline_pen(s, piece), dimmed(s, piece->in_hand ? 1 : DIM));
    paths[1] = name_piece(s, piece, &in_way);
    in_way.count += paths[1].count > 0;
    if (piece->in_hand && paths[1].count)
        s->taken[s->taken_count++] = geometry_path_box(paths[1]);
    draw_grain(s, piece, &in_way);
}

/* The one in hand lies over all. */
static void draw_pieces(struct small *s, const struct scene_arrange *ar)
{
    for (int in_hand = 0; in_hand < 2; in_hand++)
        for (size_t i = 0; i < ar->piece_count; i++)
            if (ar->pieces[i].in_hand == (in_hand != 0))
                draw_piece(s, &ar->pieces[i]);
}

/* --- the page ---------------------------------------------------------------------------------------------------- */

/* A line of words, smaller where it would be too long. */
static void write_line(const struct small *s, const char *text, double up, double cap)
{
    double width = scene_words_width(s->c, text, cap), room = s->c->page.width - 2 * s->left;
    scene_page_words(s->c, text, SCENE_START, s->left, up, cap * (width > room ? room / width : 1), dimmed(s, 1));
}

/* From the far edge of the page down to `top`. */
static double write_head(const struct small *s, const struct scene_arrange *ar, double top)
{
    top -= TITLE_STEP * s->cap;
    write_line(s, ar->title, top, TITLE * s->cap);
    for (const char *const *line = ar->lines; line && *line; line++) {
        top -= LINE_STEP * s->cap;
        write_line(s, *line, top, s->cap);
    }
    return top;
}

/* How much cloth is shown: what there is, or else what the pieces take and a little more, and all that a hand has moved
 * beyond that. */
static double length_shown(const struct scene_arrange *ar)
{
    double most = ar->spread->most_length_mm, length = fmax(fmax(ar->needs_mm, most), LEAST_LENGTH_MM);
    for (size_t i = 0; i < ar->piece_count; i++)
        length = fmax(length, geometry_path_box(ar->pieces[i].outline.path).max.x);
    return most > 0 && length == most ? length : LENGTH_SHARE * length;
}

static void fit_picture(struct small *s, const struct scene_arrange *ar, double top)
{
    double foot = s->c->strip.top_px + (RULER_ROOM + 0.6) * s->cap, room = s->c->page.width - 2 * s->left;
    double high = fmax(top - EDGE_ROOM * s->cap - foot, 1);
    s->length_mm = length_shown(ar);
    s->scale = fmin(room / s->length_mm, high / ar->spread->width_mm);
    s->near = foot + (high - s->scale * ar->spread->width_mm) / 2;
    s->left += (room - s->scale * s->length_mm) / 2;
}

struct paint_scene scene_arrange(struct arena *a, const struct scene_view *view, const struct scene_arrange *ar)
{
    struct paint_scene scene = paint_scene_create(a);
    struct scene_canvas c = scene_canvas_of(a, view, scene_page_of(view->map, view->side), &scene);
    struct small s = { .c = &c, .cap = scene_page_cap(&c), .left = MARGIN_MM * c.page.px_per_mm };
    double top = write_head(&s, ar, c.page.height - scene_notice_depth(&c));
    fit_picture(&s, ar, top);
    for (size_t i = 0; i < ar->spread->blocked_count; i++)
        draw_blocked(&s, ar->spread->blocked[i].path);
    draw_block(&s, ar->block.path);
    draw_pieces(&s, ar);
    draw_cloth(&s, ar); /* over the pieces: a fold shows along those that lie on it */
    draw_ruler(&s, ar->unit);
    for (size_t i = 0; i < ar->overlap_count; i++)
        draw_overlap(&s, &ar->overlaps[i]);
    scene_draw_strip(&c);
    scene_draw_notice(&c);
    return scene;
}
