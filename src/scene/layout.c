#include "scene/layout.h"

#include "scene/hatch.h"
#include "scene/label.h"
#include "scene/parts.h"

#include <math.h>
#include <string.h>

#define TOOTH_MM 8.0
#define TOOTH_STEP_MM 50.0
#define MARK_LONG_MM 30.0 /* all of it in the waste, which is clear for 15 mm about a mark (spans/spans.h) */
#define MARK_ACROSS_MM 20.0
#define CRUTCH_MM 8.0
#define MARK_CLEAR_MM 3.0  /* between a mark and a cut line */
#define LEAST_MARK 0.4     /* of a mark, where there is no room for a larger one */
#define LINE_MARK_MM 60.0  /* of a point that is nudged onto a line, along and across that */
#define LETTER_MM 20.0     /* cap height on a mark's tag */
#define TAG_HIGH 1.5       /* of the letter */
#define TAG_AIR 0.45       /* of the letter, beside it */
#define TAG_CUT 0.3        /* of the letter: its corners at the string side */
#define TAG_AT_MM 12.0     /* from a mark's middle to its tag's corner, right and away */
#define TAG_BESIDE_MM 8.0  /* farther off where it stands at the end of one of the mark's bars */
#define LED_FROM 0.1       /* of the way from a mark to its tag: where a line to it begins */
#define TAG_REACH_MM 250.0 /* how far from its mark a tag may reach */
#define TAG_CLEAR_MM 3.0   /* between a tag and what is drawn */
#define LED_CLEAR_MM 1.0   /* between a line to a tag and cut lines */
#define OWN_MARK 1.3       /* of how far a tag is from its mark: so far at least from others */
#define HAND_MM 30.0       /* radius of the ring around the mark that is nudged */
#define TICK_MM 34.0
#define NAME_BELOW 2.2   /* of the cap height, from a tick to its name */
#define NAME_AIR_MM 4.0  /* between them at least */
#define UPRIGHT 0.3      /* cosine by which a line that counts as upright leans: cloth never lies that far askew */
#define LABEL_OFF 1.4    /* of the cap height, from a line to the middle of its label */
#define LABEL_BESIDE 0.7 /* likewise, to either side of that middle */
#define TAPE_BAR_MM 20.0
#define HATCH_MM 10.0
#define FLAW_HATCH_MM 15.0
#define LED_IN_MM 8.0  /* within its cut line: where a leader to a piece's name ends */
#define BEYOND_MM 50.0 /* a piece this far outside the light is not drawn */

enum {
    RING_CORNERS = 24,
    NAME_PLACES = 9,   /* across and up a piece, in search of room for its name */
    LABEL_PLACES = 15, /* along a line */
    LABEL_WAYS = 2 * LABEL_PLACES + 2
};

static struct table_path path_of(const struct scene_canvas *c, const vec2 *points, size_t count, bool closed)
{
    struct table_path path = { { base_arena_alloc(c->a, count, sizeof *points), count, closed } };
    memcpy(path.path.points, points, count * sizeof *points);
    return path;
}

static void stroke(const struct scene_canvas *c, const vec2 *points, size_t count, enum scene_line line)
{
    const struct scene_look *look = &c->view->look;
    paint_table_stroke(&c->out->table, path_of(c, points, count, false), scene_pen(look, line), scene_ink(look, line));
}

/* A line through `at` reaching half its length both ways. */
static void bar(const struct scene_canvas *c, vec2 at, vec2 direction, double length, enum scene_line line)
{
    vec2 half = vec2_scale(direction, length / 2);
    stroke(c, (const vec2[]){ vec2_sub(at, half), vec2_add(at, half) }, 2, line);
}

/* --- what is drawn already --------------------------------------------------------------------------------------- */

/* The list's paths from `first` on that come into a box: letters and tags keep clear of them. */
static struct scene_obstacles drawn_in(const struct scene_canvas *c, size_t first, struct geometry_box box)
{
    const struct paint_items *drawn = &c->out->table.in;
    struct geometry_path *paths = base_arena_alloc(c->a, drawn->path_count - first, sizeof *paths);
    size_t count = 0;
    for (size_t i = first; i < drawn->path_count; i++)
        if (geometry_boxes_meet(geometry_path_box(drawn->paths[i]), box))
            paths[count++] = drawn->paths[i];
    return (struct scene_obstacles){ paths, count };
}

static struct geometry_box box_about(vec2 p, vec2 q, double mm)
{
    return (struct geometry_box){ { fmin(p.x, q.x) - mm, fmin(p.y, q.y) - mm },
                                  { fmax(p.x, q.x) + mm, fmax(p.y, q.y) + mm } };
}

bool scene_is_uncrossed(const struct scene_canvas *c, vec2 from, vec2 along, double length, double beside,
                        const struct scene_obstacles *paths)
{
    struct scene_lane lane = { from, along, beside, beside, 0 };
    struct scene_gap *gaps;
    size_t count = scene_lane_gaps(c->a, &lane, paths, 0, length, &gaps);
    return count == 1 && gaps[0].to - gaps[0].from >= length - 1e-6;
}

/* --- the cloth's edges ------------------------------------------------------------------------------------------- */

static void draw_teeth(const struct scene_canvas *c, vec2 from, vec2 to)
{
    vec2 along = vec2_unit(vec2_sub(to, from)), in = vec2_scale(vec2_right(along), -TOOTH_MM);
    double length = vec2_length(vec2_sub(to, from));
    for (double at = TOOTH_STEP_MM / 2; at < length; at += TOOTH_STEP_MM) {
        vec2 foot = vec2_add(from, vec2_scale(along, at));
        stroke(c, (const vec2[]){ foot, vec2_add(foot, in) }, 2, SCENE_CLOTH_EDGE);
    }
}

/* Read from below or from the right, as letters along a line are (ISO 129). */
static vec2 reading(const struct scene_canvas *c, vec2 along)
{
    double right = vec2_dot(along, scene_side_right(c->view->side));
    bool turned = fabs(right) > UPRIGHT ? right < 0 : vec2_dot(along, scene_side_away(c->view->side)) < 0;
    return turned ? vec2_scale(along, -1) : along;
}

/* Whether words that wide stand in the light about a place. */
static bool are_words_lit(const struct scene_canvas *c, vec2 at, vec2 right, double width, double cap)
{
    bool lit = true;
    for (int corner = 0; corner < 4; corner++) {
        vec2 along = vec2_scale(right, (corner % 2 ? 0.5 : -0.5) * width);
        vec2 up = vec2_scale(vec2_right(right), (corner > 1 ? 0.5 : -0.5) * cap);
        lit = lit && scene_is_lit(c, vec2_add(at, vec2_add(along, up)));
    }
    return lit;
}

/* A place for words beside a line, above it as they are read, or below it; the last two beyond its ends. */
static vec2 beside_at(vec2 from, vec2 to, vec2 up, double cap, double width, int way)
{
    static const double shares[LABEL_PLACES] = { 0.3,  0.7, 0.5, 0.15, 0.85, 0.4,  0.6, 0.25,
                                                 0.75, 0.2, 0.8, 0.1,  0.9,  0.35, 0.65 };
    vec2 off = vec2_scale(up, (way % 2 ? -LABEL_OFF : LABEL_OFF) * cap);
    vec2 beyond = vec2_scale(vec2_unit(vec2_sub(to, from)), width / 2 + LABEL_OFF * cap);
    if (way >= 2 * LABEL_PLACES)
        return way % 2 ? vec2_add(to, beyond) : vec2_sub(from, beyond);
    return vec2_add(vec2_lerp(from, to, shares[way / 2]), off);
}

static bool holds_any(const struct scene_obstacles *outlines, vec2 at)
{
    for (size_t i = 0; i < outlines->count; i++)
        if (geometry_path_holds(outlines->paths[i], at))
            return true;
    return false;
}

/* Words that are tried beside a line, and how well they stand there. */
struct beside {
    vec2 at, right;
    double cap;
    enum { BESIDE_DARK, BESIDE_LIT, BESIDE_OFF_KEPT, BESIDE_CLEAR } good;
};

static struct beside try_beside(const struct scene_canvas *c, vec2 at, vec2 right, double width, double cap,
                                const struct scene_obstacles *drawn)
{
    struct beside is = { at, right, cap, BESIDE_DARK };
    vec2 start = vec2_sub(at, vec2_scale(right, width / 2));
    if (!are_words_lit(c, at, right, width, cap))
        return is;
    is.good = scene_is_uncrossed(c, start, right, width, LABEL_BESIDE * cap, drawn)      ? BESIDE_CLEAR
              : scene_is_uncrossed(c, start, right, width, LABEL_BESIDE * cap, &c->kept) ? BESIDE_OFF_KEPT
                                                                                         : BESIDE_LIT;
    return is;
}

/* Words beside a line where the light is and nothing else is drawn, its middle, where points are nudged, not first; of
 * one shorter than its words beyond its ends, in no piece; smaller before they stand over anything; else off marks, and
 * in the light at least. */
static void write_beside(const struct scene_canvas *c, const char *text, vec2 from, vec2 to, size_t first,
                         const struct scene_obstacles *pieces)
{
    double most = scene_cap_height(&c->view->look), widest = scene_words_width(c, text, most);
    vec2 right = reading(c, vec2_unit(vec2_sub(to, from))), up = vec2_scale(vec2_right(right), -1);
    struct geometry_box box = box_about(from, to, widest + 2 * LABEL_OFF * most);
    struct scene_obstacles drawn = scene_joined(c->a, drawn_in(c, first, box), c->kept, box);
    struct beside best = { beside_at(from, to, up, most, widest, 0), right, most, BESIDE_DARK };
    for (int way = 0; way < LABEL_WAYS * SCENE_NAME_SIZES && best.good < BESIDE_CLEAR; way++) {
        double size = scene_name_sizes[way / LABEL_WAYS], cap = most * size, width = widest * size;
        vec2 at = beside_at(from, to, up, cap, width, way % LABEL_WAYS);
        if (way % LABEL_WAYS >= 2 * LABEL_PLACES && holds_any(pieces, at))
            continue;
        struct beside tried = try_beside(c, at, right, width, cap, &drawn);
        if (tried.good > best.good)
            best = tried;
    }
    scene_table_words(c, text, (struct table_pt){ best.at.x, best.at.y }, right, best.cap);
}

static void draw_line(const struct scene_canvas *c, const struct scene_layout_line *line)
{
    static const enum scene_line kinds[] = { [SCENE_EDGE_FOLD] = SCENE_FOLD,
                                             [SCENE_EDGE_TORN] = SCENE_CLOTH_EDGE,
                                             [SCENE_EDGE_PART] = SCENE_MATCH,
                                             [SCENE_EDGE_TAPE] = SCENE_SQUARE,
                                             [SCENE_EDGE_GRAIN] = SCENE_GRAIN };
    vec2 ends[2] = { { line->ends[0].x, line->ends[0].y }, { line->ends[1].x, line->ends[1].y } };
    vec2 across = vec2_right(vec2_unit(vec2_sub(ends[1], ends[0])));
    if (line->kind == SCENE_EDGE_GRAIN)
        scene_draw_grain(c, ends);
    else
        stroke(c, ends, 2, kinds[line->kind]);
    if (line->kind == SCENE_EDGE_TORN)
        draw_teeth(c, ends[0], ends[1]);
    for (int i = 0; i < 2 && line->kind == SCENE_EDGE_TAPE; i++)
        bar(c, ends[i], across, TAPE_BAR_MM, SCENE_SQUARE);
}

static void label_line(const struct scene_canvas *c, const struct scene_layout_line *line, size_t first,
                       const struct scene_obstacles *pieces)
{
    const vec2 from = { line->ends[0].x, line->ends[0].y }, to = { line->ends[1].x, line->ends[1].y };
    if (line->label)
        write_beside(c, line->label, from, to, first, pieces);
}

/* --- marks ------------------------------------------------------------------------------------------------------- */

/* A tag of that width on one side of its mark: its corner there, and where it reaches from that, as she stands. */
struct tag {
    vec2 corner, right, away; /* unit vectors, from the mark outwards */
    double wide, high;
    double letter; /* its cap height */
    bool clear;    /* it covers nothing that is drawn */
    bool led;      /* so far off that a line leads to it */
};

enum {
    TAG_SIDES = 8,
    TAG_FAR = 8, /* near, and ever farther; each in ever smaller sizes */
    TAG_LED = 2, /* from there on a line leads to it */
    TAG_WAYS = TAG_FAR * SCENE_NAME_SIZES * TAG_SIDES
};

/* `wide`: of the letters, when they are LETTER_MM high. At the corners of the mark, then beside, beyond and before it.
 */
static struct tag tag_at(const struct scene_canvas *c, vec2 mark, double wide, int way)
{
    static const int sides[TAG_SIDES][2] = { { 1, 1 }, { 1, -1 }, { -1, 1 }, { -1, -1 },
                                             { 1, 0 }, { -1, 0 }, { 0, 1 },  { 0, -1 } };
    const int *side = sides[way % TAG_SIDES];
    int hand = c->view->left_handed ? -1 : 1;
    double size = scene_name_sizes[way / TAG_SIDES % SCENE_NAME_SIZES];
    struct tag tag = { .right = vec2_scale(scene_side_right(c->view->side), hand * (side[0] ? side[0] : 1)),
                       .away = vec2_scale(scene_side_away(c->view->side), side[1] ? side[1] : 1),
                       .wide = (wide + 2 * TAG_AIR * LETTER_MM) * size,
                       .high = TAG_HIGH * LETTER_MM * size,
                       .letter = LETTER_MM * size };
    int farther = way / (TAG_SIDES * SCENE_NAME_SIZES);
    double off = TAG_AT_MM * (1 + 1.4 * farther), beside = side[0] && side[1] ? off : off + TAG_BESIDE_MM;
    tag.led = farther >= TAG_LED;
    tag.corner = vec2_add(mark, vec2_scale(tag.right, side[0] ? beside : -tag.wide / 2));
    tag.corner = vec2_add(tag.corner, vec2_scale(tag.away, side[1] ? beside : -tag.high / 2));
    return tag;
}

static vec2 in_tag(const struct tag *tag, double across, double up)
{
    return vec2_add(tag->corner, vec2_add(vec2_scale(tag->right, across), vec2_scale(tag->away, up)));
}

static bool is_in_light(const struct scene_canvas *c, const struct tag *tag)
{
    vec2 to = in_tag(tag, tag->wide, tag->high);
    return scene_is_lit(c, tag->corner) && scene_is_lit(c, to);
}

static bool is_tag_uncrossed(const struct scene_canvas *c, const struct tag *tag, const struct scene_obstacles *paths)
{
    vec2 from = in_tag(tag, -TAG_CLEAR_MM, tag->high / 2);
    return scene_is_uncrossed(c, from, tag->right, tag->wide + 2 * TAG_CLEAR_MM, tag->high / 2 + TAG_CLEAR_MM, paths);
}

/* Whether it lies wholly in one of them. */
static bool is_within_any(const struct tag *tag, const struct scene_obstacles *outlines)
{
    return holds_any(outlines, in_tag(tag, tag->wide / 2, tag->high / 2));
}

/* What tags mind. */
struct tag_room {
    struct scene_obstacles drawn;  /* near its mark: never crossed */
    struct scene_obstacles taken;  /* pieces whose letters are still to come, and other tags: never in them */
    struct scene_obstacles pieces; /* in none of them where it may be in the waste */
};

/* How well a tag stands: in the light, on no cut line, on nothing that is drawn and nearest to its own mark, its leader
 * across no cut line, and in no piece. */
enum standing { TAG_DARK, TAG_LIT, TAG_OFF_CUTS, TAG_LED_ACROSS, TAG_CLEAR, TAG_IN_WASTE };

/* How far a mark is from a tag. */
static double off_tag(const struct tag *tag, vec2 mark)
{
    vec2 way = vec2_sub(mark, tag->corner);
    double across = vec2_dot(way, tag->right), up = vec2_dot(way, tag->away);
    return vec2_length((vec2){ fmax(fmax(-across, across - tag->wide), 0), fmax(fmax(-up, up - tag->high), 0) });
}

/* Whether it is taken for no other mark's. */
static bool is_its_own(const struct scene_canvas *c, const struct tag *tag, vec2 mark)
{
    const struct scene_layout *layout = c->view->layout;
    double off = off_tag(tag, mark);
    for (size_t i = 0; i < layout->mark_count; i++) {
        vec2 other = { layout->marks[i].at.x, layout->marks[i].at.y };
        if (vec2_length(vec2_sub(other, mark)) > 0 && off_tag(tag, other) < OWN_MARK * off)
            return false;
    }
    return true;
}

/* The ends of the line that leads to a tag that stands far off: to its side that the mark faces, or its cut corner. */
static void lead(const struct tag *tag, vec2 mark, vec2 ends[2])
{
    double corner = TAG_CUT * tag->letter / 2;
    vec2 way = vec2_sub(mark, tag->corner);
    double across = fmax(vec2_dot(way, tag->right), 0), up = fmax(vec2_dot(way, tag->away), 0);
    ends[1] = across > 0 || up > 0 ? in_tag(tag, across, up) : in_tag(tag, corner, corner);
    ends[0] = vec2_lerp(mark, ends[1], LED_FROM);
}

static bool is_lead_uncrossed(const struct scene_canvas *c, const struct tag *tag, vec2 mark,
                              const struct scene_obstacles *paths)
{
    vec2 ends[2];
    lead(tag, mark, ends);
    vec2 way = vec2_sub(ends[1], ends[0]);
    return scene_is_uncrossed(c, ends[0], vec2_unit(way), vec2_length(way), LED_CLEAR_MM, paths);
}

static enum standing standing_of(const struct scene_canvas *c, const struct tag *tag, vec2 mark,
                                 const struct tag_room *room)
{
    if (!is_in_light(c, tag))
        return TAG_DARK;
    if (!is_tag_uncrossed(c, tag, &room->pieces))
        return TAG_LIT;
    if (!is_tag_uncrossed(c, tag, &room->drawn) || is_within_any(tag, &room->taken) || !is_its_own(c, tag, mark))
        return TAG_OFF_CUTS;
    if (tag->led && !is_lead_uncrossed(c, tag, mark, &room->pieces))
        return TAG_LED_ACROSS;
    return is_within_any(tag, &room->pieces) ? TAG_CLEAR : TAG_IN_WASTE;
}

/* On the side of its mark where it stands best, as near as may be. */
static struct tag tag_with_room(const struct scene_canvas *c, vec2 mark, double wide, const struct tag_room *room)
{
    struct tag best = tag_at(c, mark, wide, 0);
    enum standing good = TAG_DARK;
    for (int way = 0; way < TAG_WAYS && good < TAG_IN_WASTE; way++) {
        struct tag tag = tag_at(c, mark, wide, way);
        enum standing is = standing_of(c, &tag, mark, room);
        tag.clear = is >= TAG_LED_ACROSS;
        if (is <= good)
            continue;
        good = is;
        best = tag;
    }
    return best;
}

/* Without a band even where words have one: that would run into cut lines. */
static void write_bare(const struct scene_canvas *c, const char *name, vec2 middle, double cap, struct paint_ink ink)
{
    struct scene_view view = *c->view;
    struct scene_canvas bare = *c;
    view.band = false;
    bare.view = &view;
    scene_table_words_in(&bare, name, (struct table_pt){ middle.x, middle.y }, scene_side_right(view.side), cap, ink);
}

/* An unlit letter on a lit tag, its cut corners toward the mark, turned to her; where a tag would cover what is to be
 * cut, a lit letter alone. */
static struct geometry_path draw_tag(const struct scene_canvas *c, const char *name, vec2 mark,
                                     const struct tag_room *room)
{
    struct tag tag = tag_with_room(c, mark, scene_words_width(c, name, LETTER_MM), room);
    double wide = tag.wide, cut = TAG_CUT * tag.letter;
    const vec2 at[] = { { 0, cut },         { cut, 0 },        { wide, 0 },
                        { wide, tag.high }, { cut, tag.high }, { 0, tag.high - cut } };
    vec2 points[6], middle = in_tag(&tag, wide / 2, tag.high / 2);
    for (int i = 0; i < 6; i++)
        points[i] = in_tag(&tag, at[i].x, at[i].y);
    struct table_path shape = path_of(c, points, 6, true);
    struct paint_ink lit = scene_ink(&c->view->look, SCENE_SPAN_MARK), unlit = { 0, 0 };
    if (tag.clear)
        paint_table_fill(&c->out->table, &shape, 1, lit);
    if (tag.clear && tag.led) {
        vec2 ends[2];
        lead(&tag, mark, ends);
        stroke(c, ends, 2, SCENE_LEADER);
    }
    write_bare(c, name, middle, tag.letter, tag.clear ? unlit : lit);
    return shape.path;
}

static void draw_ring(const struct scene_canvas *c, vec2 at)
{
    vec2 ring[RING_CORNERS];
    for (int i = 0; i < RING_CORNERS; i++) {
        double sine, cosine;
        geometry_sincos(360.0 * i / RING_CORNERS, &sine, &cosine);
        ring[i] = vec2_add(at, (vec2){ HAND_MM * cosine, HAND_MM * sine });
    }
    const struct scene_look *look = &c->view->look;
    paint_table_stroke(&c->out->table, path_of(c, ring, RING_CORNERS, true), scene_pen(look, SCENE_SPAN_MARK),
                       scene_ink(look, SCENE_SPAN_MARK));
}

/* How far the nearest of these outlines is. */
static double nearest_mm(vec2 at, const struct scene_obstacles *outlines)
{
    double nearest = INFINITY, along;
    for (size_t i = 0; i < outlines->count; i++)
        nearest = fmin(nearest, geometry_path_distance(outlines->paths[i], at, &along));
    return nearest;
}

/* A bar along the cloth and one across it, with crutches at their ends; smaller where the waste is narrow, so that it
 * lies on no cut line. */
static void draw_span_mark(const struct scene_canvas *c, const struct scene_layout_mark *m, vec2 at,
                           const struct scene_obstacles *outlines)
{
    double room = (nearest_mm(at, outlines) - MARK_CLEAR_MM) / (MARK_LONG_MM / 2),
           size = fmax(LEAST_MARK, fmin(room, 1));
    double half = size * MARK_LONG_MM / 2, aside = size * MARK_ACROSS_MM / 2, crutch = size * CRUTCH_MM;
    vec2 across = vec2_right(m->along);
    bar(c, at, m->along, 2 * half, SCENE_SPAN_MARK);
    bar(c, at, across, 2 * aside, SCENE_SPAN_MARK);
    for (int way = -1; way <= 1; way += 2) {
        bar(c, vec2_add(at, vec2_scale(m->along, way * half)), across, crutch, SCENE_SPAN_MARK);
        bar(c, vec2_add(at, vec2_scale(across, way * aside)), m->along, crutch, SCENE_SPAN_MARK);
    }
}

static void draw_line_mark(const struct scene_canvas *c, const struct scene_layout_mark *m, vec2 at)
{
    bar(c, at, vec2_right(m->along), LINE_MARK_MM, SCENE_SPAN_MARK);
    bar(c, at, m->along, LINE_MARK_MM, SCENE_SPAN_MARK);
}

static void draw_marks(const struct scene_canvas *c, const struct scene_obstacles *outlines)
{
    const struct scene_layout *layout = c->view->layout;
    for (size_t i = 0; i < layout->mark_count; i++) {
        const struct scene_layout_mark *m = &layout->marks[i];
        if (m->kind == SCENE_MARK_CHALK)
            draw_span_mark(c, m, (vec2){ m->at.x, m->at.y }, outlines);
        else
            draw_line_mark(c, m, (vec2){ m->at.x, m->at.y });
    }
}

static struct scene_obstacles stickers_of(const struct scene_canvas *c)
{
    return (struct scene_obstacles){ c->kept.paths, (size_t)c->view->sticker_count };
}

/* Clear of what the list has from `first` on, with the tags of marks before; then the ring about the one in hand. */
static void name_marks(const struct scene_canvas *c, struct tag_room *room, struct geometry_path *taken, size_t first)
{
    const struct scene_layout *layout = c->view->layout;
    for (size_t i = 0; i < layout->mark_count; i++) {
        vec2 at = { layout->marks[i].at.x, layout->marks[i].at.y };
        struct geometry_box box = box_about(at, at, TAG_REACH_MM);
        room->drawn = scene_joined(c->a, drawn_in(c, first, box), stickers_of(c), box);
        taken[room->taken.count] = draw_tag(c, layout->marks[i].name, at, room);
        room->taken.count++;
    }
    for (size_t i = 0; i < layout->mark_count; i++)
        if (layout->marks[i].in_hand)
            draw_ring(c, (vec2){ layout->marks[i].at.x, layout->marks[i].at.y });
}

/* --- pieces ------------------------------------------------------------------------------------------------------ */

static struct geometry_path outline_of(const struct scene_canvas *c, const struct scene_laid *laid)
{
    struct geometry_path out = geometry_path_copy(c->a, laid->piece.piece->cut.path);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = geometry_move(&laid->to_table, out.points[i]);
    return out;
}

/* A name, and a tick where one goes with it: as a block about its middle. */
struct named {
    const char *text;
    vec2 right, up;
    double cap, wide, high; /* of the block, from end to end */
    vec2 name_off, tick_off;
};

enum { NAME_WAYS = SCENE_NAME_SIZES * 2 /* facing her, along the piece */ };

/* A tick above its name, or before it where the name runs along a narrow piece. */
static struct named named_in(const struct scene_canvas *c, const struct scene_laid *laid, int way, bool in_row)
{
    const char *text = laid->piece.piece->label;
    double cap = scene_cap_height(&c->view->look) * scene_name_share(c, way / 2),
           wide = scene_words_width(c, text, cap);
    vec2 right = way % 2 ? scene_side_away(c->view->side) : scene_side_right(c->view->side);
    struct named n = { text, right, vec2_scale(vec2_right(right), -1), cap, wide, 2 * cap, { 0, 0 }, { 0, 0 } };
    if (laid->state != SCENE_IS_CUT)
        return n;
    if (in_row) {
        n.wide = wide + cap + TICK_MM;
        n.high = fmax(n.high, TICK_MM);
        n.name_off = vec2_scale(right, (n.wide - wide) / 2);
        n.tick_off = vec2_scale(right, (TICK_MM - n.wide) / 2);
    } else {
        double below = fmax(NAME_BELOW * cap, (TICK_MM + cap) / 2 + NAME_AIR_MM);
        n.wide = fmax(wide, TICK_MM);
        n.high = below + TICK_MM;
        n.name_off = vec2_scale(n.up, -below);
    }
    return n;
}

/* Whether the block has room about a place: in the light, in the piece and clear of its outline. */
static bool has_name_room(const struct scene_canvas *c, struct geometry_path outline, const struct named *n, vec2 at)
{
    vec2 half = vec2_scale(n->right, n->wide / 2), middle = vec2_lerp(n->name_off, n->tick_off, 0.5);
    middle = vec2_add(at, vec2_scale(n->up, vec2_dot(middle, n->up)));
    vec2 from = vec2_sub(middle, half);
    struct scene_obstacles all =
        scene_joined(c->a, (struct scene_obstacles){ &outline, 1 }, c->kept, geometry_path_box(outline));
    return geometry_path_holds(outline, middle) && scene_is_uncrossed(c, from, n->right, n->wide, n->high / 2, &all) &&
           scene_is_lit(c, from) && scene_is_lit(c, vec2_add(middle, half));
}

/* What of an outline's box is in the light. */
static struct geometry_box lit_box(const struct scene_canvas *c, struct geometry_path outline)
{
    struct geometry_box box = geometry_path_box(outline), light = scene_usable_light(c->view);
    return (struct geometry_box){ { fmax(box.min.x, light.min.x), fmax(box.min.y, light.min.y) },
                                  { fmin(box.max.x, light.max.x), fmin(box.max.y, light.max.y) } };
}

/* Where the block stands: where the pattern has its label, or as near to the middle of what of the piece is in the
 * light as it has room. */
static bool find_name_room(const struct scene_canvas *c, const struct scene_laid *laid, struct geometry_path outline,
                           const struct named *n, vec2 *at)
{
    struct piece_pt wish = laid->piece.piece->label_at;
    double best = INFINITY;
    *at = geometry_move(&laid->to_table, (vec2){ wish.x, wish.y });
    if (has_name_room(c, outline, n, *at))
        return true;
    struct geometry_box lit = lit_box(c, outline);
    vec2 min = lit.min, max = lit.max, middle = vec2_lerp(min, max, 0.5);
    for (int i = 0; i < NAME_PLACES * NAME_PLACES; i++) {
        int column = i % NAME_PLACES, row = i / NAME_PLACES;
        vec2 share = { (column + 0.5) / NAME_PLACES, (row + 0.5) / NAME_PLACES };
        vec2 tried = { min.x + share.x * (max.x - min.x), min.y + share.y * (max.y - min.y) };
        double off = vec2_length(vec2_sub(tried, middle));
        if (off >= best || !has_name_room(c, outline, n, tried))
            continue;
        best = off;
        *at = tried;
    }
    return best < INFINITY;
}

/* Smaller and along the piece before it would stand over the outline; a tick alone where its name has no room. */
static bool name_place(const struct scene_canvas *c, const struct scene_laid *laid, struct geometry_path outline,
                       struct named *n, vec2 *at)
{
    struct piece_pt label_at = laid->piece.piece->label_at;
    *at = geometry_move(&laid->to_table, (vec2){ label_at.x, label_at.y });
    int rows = laid->state == SCENE_IS_CUT ? 2 : 1;
    for (int way = 0; way < NAME_WAYS; way++)
        for (int row = 0; row < rows; row++) {
            *n = named_in(c, laid, way, row == 1);
            if (find_name_room(c, laid, outline, n, at))
                return true;
        }
    *n = named_in(c, laid, 0, false);
    n->text = "";
    return scene_is_lit(c, *at) && geometry_path_holds(outline, *at);
}

static void draw_tick(const struct scene_canvas *c, vec2 at)
{
    vec2 right = scene_side_right(c->view->side), away = scene_side_away(c->view->side);
    const vec2 tick[] = { { -0.5, -0.05 }, { -0.15, -0.4 }, { 0.5, 0.4 } };
    vec2 points[3];
    for (int i = 0; i < 3; i++)
        points[i] =
            vec2_add(at, vec2_add(vec2_scale(right, TICK_MM * tick[i].x), vec2_scale(away, TICK_MM * tick[i].y)));
    stroke(c, points, 3, SCENE_TICK);
}

/* One that is not cut now: its cut line and its name, and a tick when it is cut. False: its name found no room in a
 * line. */
static bool draw_outline(const struct scene_canvas *c, const struct scene_laid *laid, struct geometry_path outline)
{
    const struct scene_look *look = &c->view->look;
    bool is_cut = laid->state == SCENE_IS_CUT;
    enum scene_line line = is_cut ? SCENE_CUT_BEFORE : SCENE_CUT_LATER;
    paint_table_stroke(&c->out->table, (struct table_path){ outline }, scene_pen(look, line), scene_ink(look, line));
    struct named n;
    vec2 at;
    if (!name_place(c, laid, outline, &n, &at))
        return false;
    if (is_cut)
        draw_tick(c, vec2_add(at, n.tick_off));
    at = vec2_add(at, n.name_off);
    scene_table_words_in(c, n.text, (struct table_pt){ at.x, at.y }, n.right, n.cap,
                         scene_ink(look, is_cut ? SCENE_TICK : SCENE_CUT_LATER));
    return *n.text != 0;
}

static struct geometry_box light_box(const struct scene_canvas *c)
{
    return geometry_path_box(geometry_map_frame(c->a, c->view->map, 4).path);
}

static bool is_label_lit(const struct scene_canvas *c, const struct scene_label *label)
{
    struct geometry_path box = scene_label_box(c, label);
    bool lit = true;
    for (size_t i = 0; i < box.count; i++)
        lit = lit && scene_is_lit(c, box.points[i]);
    return lit;
}

/* A name that has no room in a line: broken in its piece, else beside it with a leader; last, clear of the list's paths
 * from `first` on. */
static void name_broken(const struct scene_canvas *c, const struct scene_laid *laid,
                        const struct scene_obstacles *pieces, size_t nth, size_t first)
{
    struct geometry_path outline = pieces->paths[nth];
    struct geometry_box box = geometry_path_box(outline), lit = lit_box(c, outline);
    struct scene_label_room room = { .texts = { laid->piece.piece->label },
                                     .seam = outline,
                                     .pricked = scene_joined(c->a, drawn_in(c, first, box), c->kept, box),
                                     .wish = vec2_lerp(lit.min, lit.max, 0.5) };
    struct paint_ink ink = scene_ink(&c->view->look, SCENE_CUT_LATER);
    struct scene_label label;
    if (scene_label_clear(c, &room, &label) && is_label_lit(c, &label)) {
        scene_label_write_in(c, &label, ink);
        return;
    }
    double in = geometry_path_area(outline) > 0 ? LED_IN_MM : -LED_IN_MM;
    room.seam = geometry_path_beside(c->a, outline, in);
    const struct scene_obstacles drawn = { c->out->table.in.paths + first, c->out->table.in.path_count - first };
    const struct scene_obstacles all = scene_joined(c->a, c->kept, drawn, light_box(c));
    if (!scene_label_beside(c, &room, outline, &all, pieces, true, &label))
        return;
    scene_label_lead(c, &label, &room, outline);
    scene_label_write_in(c, &label, ink);
}

/* Whether any of its corners is in the light: less of a piece need not be named. */
static bool is_seen(const struct scene_canvas *c, struct geometry_path outline)
{
    for (size_t i = 0; i < outline.count; i++)
        if (scene_is_lit(c, outline.points[i]))
            return true;
    return false;
}

/* Those whose names found no room in a line. */
static void name_others(const struct scene_canvas *c, const bool *nameless, const struct geometry_path *outlines,
                        size_t first)
{
    const struct scene_layout *layout = c->view->layout;
    const struct scene_obstacles all = { outlines, layout->laid_count };
    for (size_t i = 0; i < layout->laid_count; i++)
        if (nameless[i] && is_seen(c, outlines[i]))
            name_broken(c, &layout->laid[i], &all, i, first);
}

/* Whether any of it may be seen. */
static bool is_near_light(struct geometry_box light, struct geometry_path outline)
{
    struct geometry_box box = geometry_path_box(outline);
    return box.max.x > light.min.x - BEYOND_MM && box.min.x < light.max.x + BEYOND_MM &&
           box.max.y > light.min.y - BEYOND_MM && box.min.y < light.max.y + BEYOND_MM;
}

/* Those to be cut in full, over the others; what has room for its letters is lettered. */
static struct scene_placed *draw_to_cut(const struct scene_canvas *c)
{
    const struct scene_layout *layout = c->view->layout;
    struct scene_placed *placed = base_arena_alloc(c->a, layout->laid_count, sizeof *placed);
    for (size_t i = 0; i < layout->laid_count; i++) {
        const struct scene_laid *laid = &layout->laid[i];
        placed[i] = (struct scene_placed){ .piece = &laid->piece, .mover = &laid->to_table, .lettered = true };
        if (laid->state == SCENE_TO_CUT)
            scene_draw_piece(c, &placed[i]);
    }
    return placed;
}

/* The letters of the others last, clear of the list's paths from `first` on; what must be told has the choice of
 * places.
 */
static void letter_beside(const struct scene_canvas *c, const struct scene_placed *placed,
                          const struct geometry_path *outlines, size_t first)
{
    const struct scene_obstacles all = { outlines, c->view->layout->laid_count };
    for (int told = 1; told >= 0; told--)
        for (size_t i = 0; i < c->view->layout->laid_count; i++)
            if (!placed[i].lettered && placed[i].piece->must_tell == told)
                scene_letter_beside(c, &placed[i], first, &all);
}

/* A dotted outline, hatched one way only, its word beyond it. */
static void draw_flaw(const struct scene_canvas *c, struct geometry_path outline)
{
    const struct scene_look *look = &c->view->look;
    vec2 *ends;
    size_t count =
        scene_hatch(c->a, &(struct scene_obstacles){ &outline, 1 }, scene_hatch_ways[0], FLAW_HATCH_MM, &ends);
    for (size_t i = 0; i < 2 * count; i += 2)
        stroke(c, &ends[i], 2, SCENE_FLAW);
    paint_table_stroke(&c->out->table, (struct table_path){ outline }, scene_pen(look, SCENE_FLAW),
                       scene_ink(look, SCENE_FLAW));
}

static void label_flaw(const struct scene_canvas *c, struct geometry_path outline, size_t first,
                       const struct scene_obstacles *pieces)
{
    struct geometry_box box = geometry_path_box(outline);
    vec2 away = scene_side_away(c->view->side), right = scene_side_right(c->view->side);
    vec2 half = vec2_scale(vec2_sub(box.max, box.min), 0.5), middle = vec2_lerp(box.min, box.max, 0.5);
    vec2 far = vec2_add(middle, vec2_scale(away, fabs(vec2_dot(half, away))));
    vec2 aside = vec2_scale(right, fabs(vec2_dot(half, right)));
    write_beside(c, c->view->layout->flaw_label, vec2_sub(far, aside), vec2_add(far, aside), first, pieces);
}

/* Marks and lines with what they are called, clear of all that is drawn from `first` on. */
static void name_all(const struct scene_canvas *c, const struct scene_placed *placed,
                     const struct geometry_path *outlines, struct geometry_box light, size_t first)
{
    const struct scene_layout *layout = c->view->layout;
    const struct scene_obstacles all = { outlines, layout->laid_count };
    struct scene_obstacles stickers = stickers_of(c);
    struct geometry_path *taken =
        base_arena_alloc(c->a, layout->laid_count + layout->mark_count + stickers.count, sizeof *taken); /* tags, too */
    struct tag_room room = { .taken = { taken, 0 }, .pieces = all };
    for (size_t i = 0; i < layout->laid_count; i++)
        if (!placed[i].lettered)
            taken[room.taken.count++] = outlines[i];
    for (size_t i = 0; i < stickers.count; i++)
        taken[room.taken.count++] = stickers.paths[i];
    draw_marks(c, &all);
    for (size_t i = 0; i < layout->line_count; i++)
        label_line(c, &layout->lines[i], first, &all);
    for (size_t i = 0; i < layout->flaw_count; i++)
        if (is_near_light(light, layout->flaws[i].path))
            label_flaw(c, layout->flaws[i].path, first, &all);
    name_marks(c, &room, taken, first);
}

/* The cloth's edges, and a point of each mark. */
static struct scene_obstacles lines_of(const struct scene_canvas *c)
{
    const struct scene_layout *layout = c->view->layout;
    struct geometry_path *paths = base_arena_alloc(c->a, layout->line_count + layout->mark_count, sizeof *paths);
    size_t count = 0;
    for (size_t i = 0; i < layout->line_count; i++) {
        const struct scene_layout_line *line = &layout->lines[i];
        const vec2 ends[] = { { line->ends[0].x, line->ends[0].y }, { line->ends[1].x, line->ends[1].y } };
        if (line->kind == SCENE_EDGE_FOLD || line->kind == SCENE_EDGE_TORN)
            paths[count++] = path_of(c, ends, 2, false).path;
    }
    for (size_t i = 0; i < layout->mark_count; i++) {
        const vec2 at = { layout->marks[i].at.x, layout->marks[i].at.y };
        paths[count++] = path_of(c, &at, 1, false).path;
    }
    return (struct scene_obstacles){ paths, count };
}

/* Beside stickers: chalk marks, and lines that pieces are cut as far as. */
static void keep_words_off(struct scene_canvas *c)
{
    const struct scene_layout *layout = c->view->layout;
    size_t count = c->kept.count;
    struct geometry_path *kept = base_arena_alloc(c->a, count + layout->mark_count + layout->line_count, sizeof *kept);
    if (count)
        memcpy(kept, c->kept.paths, count * sizeof *kept);
    for (size_t i = 0; i < layout->mark_count; i++) {
        vec2 at = { layout->marks[i].at.x, layout->marks[i].at.y };
        struct geometry_box box = box_about(at, at, MARK_LONG_MM / 2);
        const vec2 corners[] = { box.min, { box.max.x, box.min.y }, box.max, { box.min.x, box.max.y } };
        kept[count++] = path_of(c, corners, 4, true).path;
    }
    for (size_t i = 0; i < layout->line_count; i++) {
        const struct scene_layout_line *line = &layout->lines[i];
        const vec2 ends[] = { { line->ends[0].x, line->ends[0].y }, { line->ends[1].x, line->ends[1].y } };
        if (line->kind == SCENE_EDGE_PART)
            kept[count++] = path_of(c, ends, 2, false).path;
    }
    c->kept = (struct scene_obstacles){ kept, count };
}

/* Of one longer than the light it is no news that it reaches out. */
static void keep_in_light(struct scene_canvas *c, const struct geometry_path *outlines)
{
    const struct scene_layout *layout = c->view->layout;
    struct geometry_path *whole = base_arena_alloc(c->a, layout->laid_count, sizeof *whole);
    const char **labels = base_arena_alloc(c->a, layout->laid_count, sizeof *labels);
    size_t count = 0;
    for (size_t i = 0; i < layout->laid_count; i++) {
        if (layout->laid[i].state != SCENE_TO_CUT || layout->laid[i].parted)
            continue;
        labels[count] = layout->laid[i].piece.piece->label;
        whole[count++] = outlines[i];
    }
    scene_keep_in_light(c, &(struct scene_to_cut){ { whole, count }, labels, lines_of(c) });
}

/* With the amount beside what they share, on the far side. */
static void draw_overlap(const struct scene_canvas *c, const struct scene_layout_overlap *overlap,
                         const struct geometry_path *outlines)
{
    struct geometry_path paths[2] = { outlines[overlap->laid[0]], outlines[overlap->laid[1]] };
    struct geometry_box box = geometry_box_empty();
    for (int way = 0; way < 2; way++) {
        vec2 *ends;
        size_t count = scene_hatch(c->a, &(struct scene_obstacles){ paths, 2 }, scene_hatch_ways[way], HATCH_MM, &ends);
        for (size_t i = 0; i < 2 * count; i += 2)
            stroke(c, &ends[i], 2, SCENE_OVERLAP);
        if (count)
            box = geometry_box_join(box, geometry_path_box((struct geometry_path){ ends, 2 * count, false }));
    }
    if (box.min.x > box.max.x)
        return;
    vec2 away = scene_side_away(c->view->side), half = vec2_scale(vec2_sub(box.max, box.min), 0.5);
    double cap = scene_cap_height(&c->view->look), up = fabs(vec2_dot(half, away)) + cap;
    vec2 at = vec2_add(vec2_lerp(box.min, box.max, 0.5), vec2_scale(away, up));
    scene_table_words(c, overlap->amount, (struct table_pt){ at.x, at.y }, scene_side_right(c->view->side), cap);
}

void scene_draw_layout(struct scene_canvas *c)
{
    const struct scene_layout *layout = c->view->layout;
    struct geometry_path *outlines = base_arena_alloc(c->a, layout->laid_count, sizeof *outlines);
    bool *nameless = base_arena_alloc(c->a, layout->laid_count, sizeof *nameless);
    struct geometry_box light = light_box(c);
    size_t first = c->out->table.in.path_count;
    for (size_t i = 0; i < layout->laid_count; i++)
        outlines[i] = outline_of(c, &layout->laid[i]);
    keep_in_light(c, outlines);
    keep_words_off(c);
    for (size_t i = 0; i < layout->laid_count; i++)
        nameless[i] = layout->laid[i].state != SCENE_TO_CUT && is_near_light(light, outlines[i]) &&
                      !draw_outline(c, &layout->laid[i], outlines[i]) && layout->laid[i].state == SCENE_TO_COME;
    for (size_t i = 0; i < layout->overlap_count; i++)
        draw_overlap(c, &layout->overlaps[i], outlines);
    for (size_t i = 0; i < layout->flaw_count; i++)
        if (is_near_light(light, layout->flaws[i].path))
            draw_flaw(c, layout->flaws[i].path);
    for (size_t i = 0; i < layout->line_count; i++)
        draw_line(c, &layout->lines[i]);
    const struct scene_placed *placed = draw_to_cut(c);
    name_all(c, placed, outlines, light, first);
    letter_beside(c, placed, outlines, first);
    name_others(c, nameless, outlines, first);
}
