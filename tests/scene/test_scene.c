/* What the draw list says of one frame, read against places worked out by hand: a projector whose pixels are one
 * millimetre, a piece of whole numbers, and the look's own widths and dashes (after ISO 128's whole, dashed and
 * long-short lines; the sizes are this program's choice, no source). */
#include "paint/frame.h"
#include "scene/reading.h"
#include "table/rig.h"
#include "text/run.h"

#include <string.h>

#define DEG_PER_RAD 57.29577951308232
#define TWO_ROWS_MM (3.6 * CAP_MM + 12.1) /* what it takes where its words have no room in one row */
#define STRIP_MM (2.5 * CAP_MM + 12)      /* what the strip takes of the light at the person's side */

#define MAIN_CHALK 0xffffff /* white with mint: the first pair */
#define SECOND_CHALK 0x86ffb4

enum { MOTIONS = 4 };

/* --- the frame -------------------------------------------------------------------------------------------------- */

/* The middle of what the strip leaves of the light. */
static vec2 middle_of_light(enum scene_side side)
{
    return vec2_scale(aways[side], STRIP_MM / 2);
}

/* --- the piece -------------------------------------------------------------------------------------------------- */

static vec2 seam_at[] = { { 0, 0 }, { 300, 0 }, { 200, 250 }, { 0, 300 } };
static vec2 seam_open[] = { { 0, 0 }, { 300, 0 }, { 200, 250 }, { 0, 300 } };
static vec2 cut_at[] = { { 0, -40 }, { 330, -40 }, { 210, 270 }, { 0, 320 } };
static vec2 cut_open[] = { { 0, -40 }, { 330, -40 }, { 210, 270 }, { 0, 320 } };

static const vec2 piece_middle = { 165, 140 }; /* of the cut outline's box */

/* On the fold along x = 0, the piece lying to the right of it; the fold runs down, as the outline does there. */
static const struct draft_piece piece = {
    .name = "yoke",
    .label = "Yoke",
    .seam = { { seam_at, 4, true } },
    .cut = { { cut_at, 4, true } },
    .seam_line = { { seam_open, 4, false } },
    .cut_line = { { cut_open, 4, false } },
    .has_fold = true,
    .fold = { { 0, 320 }, { 0, -40 } },
    .grain = { { 130, 30 }, { 130, 230 } },
    .label_at = { 130, 120 },
};

static const struct geometry_motion motions[MOTIONS] = {
    { false, 0, { 0, 0 } }, { true, 0, { 12, -7 } }, { false, 25, { -20, 4 } }, { true, -140, { 3, 5 } }
};

/* Where a place of the piece lies: turned over about its middle first, then turned, then shifted. */
static vec2 laid(vec2 p, enum scene_side side, struct geometry_motion m)
{
    double x = (m.mirror ? -1 : 1) * (p.x - piece_middle.x), y = p.y - piece_middle.y;
    double c = cos(m.turn_deg / DEG_PER_RAD), s = sin(m.turn_deg / DEG_PER_RAD);
    return vec2_add((vec2){ c * x - s * y, s * x + c * y }, vec2_add(m.shift, middle_of_light(side)));
}

/* A frame of that piece. */
static struct scene_view view_of(struct here *h, const struct geometry_map *map, const struct scene_piece *pieces,
                                 enum scene_side side, struct geometry_motion motion)
{
    return (struct scene_view){ .map = map,
                                .font = h->font,
                                .look = { 1, 3, &scene_chalks[0] },
                                .side = side,
                                .mode = SCENE_PIECES,
                                .pieces = pieces,
                                .piece_count = 1,
                                .motion = motion,
                                .square_mm = 100,
                                .test_unit = UNITS_MM,
                                .strip_left = "Cut on the middle",
                                .strip_right = "1 of 9" };
}

/* Without a font the piece has no letters, and nothing makes way for them. */
static struct paint_scene bare_scene(struct here *h, const struct draft_piece *bare, struct geometry_motion motion)
{
    const struct scene_piece pieces[] = { { .piece = bare } };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, pieces, SCENE_NEAR, motion);
    view.font = NULL;
    return scene_make(h->a, &view);
}

static struct paint_scene piece_scene(struct here *h, enum scene_side side, struct geometry_motion motion)
{
    static const struct scene_piece pieces[] = { { .piece = &piece, .lines = { "Cut 1 on the fold", "Size 5" } } };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, pieces, side, motion);
    return scene_make(h->a, &view);
}

/* --- reading the list ------------------------------------------------------------------------------------------- */

/* Whether the path runs through the places in their order, forwards or backwards. */
static bool runs_through(struct geometry_path path, const vec2 *places, size_t count)
{
    bool forwards = path.count == count, backwards = path.count == count;
    for (size_t i = 0; i < count && (forwards || backwards); i++) {
        forwards = forwards && is_at(path.points[i], places[i]);
        backwards = backwards && is_at(path.points[i], places[count - 1 - i]);
    }
    return forwards || backwards;
}

struct line_kind {
    double width, dash[PAINT_DASHES];
    uint32_t chalk;
    double level;
};

/* A pixel of 1 mm carries these as they are. */
static const struct line_kind cut_kind = { 3, { 0 }, MAIN_CHALK, 1 },
                              seam_kind = { 1.5, { 12, 6, 12, 6 }, SECOND_CHALK, 0.8 },
                              fold_kind = { 2, { 36, 6, 9, 6 }, SECOND_CHALK, 1 },
                              thin_kind = { 1.5, { 0 }, SECOND_CHALK, 1 }, square_kind = { 1.5, { 0 }, MAIN_CHALK, 1 },
                              ruling_kind = { 1.5, { 0 }, SECOND_CHALK, 0.5 };

static bool is_kind(const struct paint_item *item, const struct line_kind *kind)
{
    bool same = item->kind == PAINT_STROKE && item->pen.width == kind->width && item->ink.chalk == kind->chalk &&
                item->ink.level == kind->level;
    for (int i = 0; i < PAINT_DASHES; i++)
        same = same && item->pen.dash[i] == kind->dash[i];
    return same;
}

static size_t count_of(const struct paint_items *in, const struct line_kind *kind)
{
    size_t count = 0;
    for (size_t i = 0; i < in->count; i++)
        count += is_kind(&in->items[i], kind);
    return count;
}

/* How many lines of a kind run through just these places. */
static size_t lines_through(const struct paint_items *in, const struct line_kind *kind, const vec2 *places,
                            size_t count)
{
    size_t found = 0;
    for (size_t i = 0; i < in->count; i++)
        found += is_kind(&in->items[i], kind) && runs_through(in->paths[in->items[i].first_path], places, count);
    return found;
}

/* How many filled triangles of the second chalk have a corner there and the two others as far from it to either side
 * of the way `back`: heads of an arrow whose tip it is. */
static size_t heads_at(const struct paint_items *in, vec2 tip, vec2 back, double length, double wide)
{
    vec2 foot = vec2_add(tip, vec2_scale(back, length)), side = vec2_scale(vec2_right(back), wide / 2);
    size_t found = 0;
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        if (in->items[i].kind != PAINT_FILL || path.count != 3 || in->items[i].ink.chalk != SECOND_CHALK)
            continue;
        for (size_t c = 0; c < 3; c++) {
            vec2 next = path.points[(c + 1) % 3], last = path.points[(c + 2) % 3];
            vec2 left = vec2_sub(foot, side), right = vec2_add(foot, side);
            found += is_at(path.points[c], tip) &&
                     ((is_at(next, left) && is_at(last, right)) || (is_at(next, right) && is_at(last, left)));
        }
    }
    return found;
}

/* --- a piece's lines -------------------------------------------------------------------------------------------- */

static void lay_all(const vec2 *places, size_t count, enum scene_side side, struct geometry_motion m, vec2 *out)
{
    for (size_t i = 0; i < count; i++)
        out[i] = laid(places[i], side, m);
}

static void cut_line_stitching_line_and_fold_lie_where_the_piece_is_laid(void **state)
{
    struct here *h = *state;
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++)
        for (int m = 0; m < MOTIONS; m++) {
            struct paint_items in = piece_scene(h, side, motions[m]).table.in;
            vec2 cut[4], seam[4], fold[2];
            lay_all(cut_at, 4, side, motions[m], cut);
            lay_all(seam_at, 4, side, motions[m], seam);
            lay_all((const vec2[]){ { 0, 320 }, { 0, -40 } }, 2, side, motions[m], fold);
            assert_int_equal(lines_through(&in, &cut_kind, cut, 4), 1);
            assert_int_equal(lines_through(&in, &seam_kind, seam, 4), 1);
            assert_int_equal(count_of(&in, &seam_kind), 1);
            assert_int_equal(lines_through(&in, &fold_kind, fold, 2), 1);
        }
}

/* Both tips are the ends of the grain; the shaft lies between them, half a head short. */
static void the_grain_arrow_lies_on_the_grain_with_a_head_at_either_end(void **state)
{
    struct here *h = *state;
    for (int m = 0; m < MOTIONS; m++) {
        struct paint_items in = bare_scene(h, &piece, motions[m]).table.in;
        vec2 end[2], shaft[2];
        lay_all((const vec2[]){ { 130, 30 }, { 130, 230 } }, 2, SCENE_NEAR, motions[m], end);
        lay_all((const vec2[]){ { 130, 30 + 7 }, { 130, 230 - 7 } }, 2, SCENE_NEAR, motions[m], shaft);
        vec2 along = vec2_unit(vec2_sub(end[1], end[0]));
        assert_int_equal(lines_through(&in, &thin_kind, shaft, 2), 1);
        assert_int_equal(heads_at(&in, end[0], along, 14, 10), 1);
        assert_int_equal(heads_at(&in, end[1], vec2_scale(along, -1), 14, 10), 1);
    }
}

/* A double lengthen line, 3 to either side of y = 100, comes to the fold; the stitching line falls from 300 at the fold
 * by 1 in 4, to 293.25 at the bar and its air of 3. Half a head and that air, 8, are kept clear of both, and the bar,
 * which would be 180 long, takes what is left. */
static void the_folds_bar_keeps_clear_of_lines_that_come_to_the_fold(void **state)
{
    struct here *h = *state;
    static struct draft_line across = { .kind = PATTERN_LINE_LENGTHEN, .ends = { { 0, 100 }, { 260, 100 } } };
    struct draft_piece lengthened = piece;
    lengthened.lines = &across;
    lengthened.line_count = 1;
    struct paint_items in = bare_scene(h, &lengthened, motions[0]).table.in;
    const double low = 100 + 3 + 8, high = 300 - 27 / 4.0 - 8;
    vec2 bar[4];
    lay_all((const vec2[]){ { 4, high }, { 24, high }, { 24, low }, { 4, low } }, 4, SCENE_NEAR, motions[0], bar);
    assert_int_equal(lines_through(&in, &thin_kind, bar, 4), 1);
}

/* A waistband's end on the fold: 70 mm, of which 40 lie between the stitching lines; 8 clear of either leave 24. */
static void the_bar_of_a_short_fold_stays_between_the_stitching_lines(void **state)
{
    struct here *h = *state;
    static vec2 seam[] = { { 0, 0 }, { 40, 0 }, { 40, 200 }, { 0, 200 } };
    static vec2 open_seam[] = { { 40, 0 }, { 40, 200 }, { 0, 200 }, { 0, 0 } };
    static vec2 cut[] = { { -15, 0 }, { 55, 0 }, { 55, 215 }, { -15, 215 } };
    static vec2 open_cut[] = { { 55, 0 }, { 55, 215 }, { -15, 215 }, { -15, 0 } };
    static const struct draft_piece band = { .name = "band",
                                             .label = "Band",
                                             .seam = { { seam, 4, true } },
                                             .cut = { { cut, 4, true } },
                                             .seam_line = { { open_seam, 4, false } },
                                             .cut_line = { { open_cut, 4, false } },
                                             .has_fold = true,
                                             .fold = { { -15, 0 }, { 55, 0 } },
                                             .grain = { { 20, 30 }, { 20, 170 } },
                                             .label_at = { 20, 100 } };
    struct paint_items in = bare_scene(h, &band, motions[0]).table.in;
    vec2 middle = middle_of_light(SCENE_NEAR), bar[4];
    static const vec2 places[] = { { 8, 4 }, { 8, 24 }, { 32, 24 }, { 32, 4 } };
    for (int i = 0; i < 4; i++)
        bar[i] = vec2_add(vec2_sub(places[i], (vec2){ 20, 215 / 2.0 }), middle);
    assert_int_equal(lines_through(&in, &thin_kind, bar, 4), 1);
}

/* The fold's 360 mm have their middle at y = 140; the bar takes half of them, 24 mm inside the piece, and its bent ends
 * point at the fold from inside, 4 mm short of it. */
static void the_folds_bar_is_inside_the_piece_and_points_at_the_fold(void **state)
{
    struct here *h = *state;
    for (int m = 0; m < MOTIONS; m++) {
        struct paint_items in = piece_scene(h, SCENE_NEAR, motions[m]).table.in;
        vec2 bar[4], head[2][3];
        lay_all((const vec2[]){ { 4, 230 }, { 24, 230 }, { 24, 50 }, { 4, 50 } }, 4, SCENE_NEAR, motions[m], bar);
        lay_all((const vec2[]){ { 15, 235 }, { 4, 230 }, { 15, 225 } }, 3, SCENE_NEAR, motions[m], head[0]);
        lay_all((const vec2[]){ { 15, 55 }, { 4, 50 }, { 15, 45 } }, 3, SCENE_NEAR, motions[m], head[1]);
        assert_int_equal(lines_through(&in, &thin_kind, bar, 4), 1);
        for (int i = 0; i < 2; i++)
            assert_int_equal(lines_through(&in, &thin_kind, head[i], 3), 1);
    }
}

/* --- words ------------------------------------------------------------------------------------------------------ */

/* Name, count and size, one below the other near the label's place, reading along her right however the piece lies. */
static void a_pieces_words_face_her_on_every_side_and_are_never_mirrored(void **state)
{
    struct here *h = *state;
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++)
        for (int m = 0; m < MOTIONS; m++) {
            struct paint_items in = piece_scene(h, side, motions[m]).table.in;
            vec2 right = rights[side], away = aways[side], at = laid((vec2){ 130, 120 }, side, motions[m]);
            struct found_words name = find_words(h, &in, "YOKE", NAME_MM, right);
            struct found_words cut = find_words(h, &in, "CUT 1 ON THE FOLD", CAP_MM, right);
            struct found_words size = find_words(h, &in, "SIZE 5", CAP_MM, right);
            if (name.count != 1 || cut.count != 1 || size.count != 1)
                fail_msg("from the %s side, placed by %d: the words are not there, or not the right way round",
                         scene_side_name(side), m);
            assert_true(vec2_dot(name.middle, away) > vec2_dot(cut.middle, away) + CAP_MM);
            assert_true(vec2_dot(cut.middle, away) > vec2_dot(size.middle, away) + CAP_MM);
            assert_near(vec2_dot(vec2_sub(name.middle, cut.middle), right), 0, EXACT_MM);
            assert_near(vec2_dot(vec2_sub(size.middle, cut.middle), right), 0, EXACT_MM);
            assert_true(vec2_length(vec2_sub(cut.middle, at)) < 70); /* where they are wished, or near it */
            assert_near(name.level, 1, 0);
        }
}

/* The one arrow that runs along a direction of the piece, as its two tips: a shaft half a head short of either. */
static bool find_arrow(const struct paint_items *in, vec2 along, vec2 tips[2])
{
    size_t found = 0;
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        if (!is_kind(&in->items[i], &thin_kind) || path.count != 2)
            continue;
        vec2 way = vec2_unit(vec2_sub(path.points[1], path.points[0]));
        if (fabs(vec2_cross(way, along)) > EXACT_MM)
            continue;
        tips[0] = vec2_sub(path.points[0], vec2_scale(way, 7));
        tips[1] = vec2_add(path.points[1], vec2_scale(way, 7));
        found += heads_at(in, tips[0], way, 14, 10) == 1 && heads_at(in, tips[1], vec2_scale(way, -1), 14, 10) == 1;
    }
    return found == 1;
}

/* The words stand on the middle of the grain, where they are wished; the arrow lies beside them, as long as it can be
 * there, within the stitching line and along the grain all the same. */
static void the_grain_arrow_makes_way_for_the_words(void **state)
{
    struct here *h = *state;
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++)
        for (int m = 0; m < MOTIONS; m++) {
            struct paint_items in = piece_scene(h, side, motions[m]).table.in;
            vec2 right = rights[side], away = aways[side], tips[2] = { { 0, 0 }, { 0, 0 } }, seam[4];
            vec2 along =
                vec2_unit(vec2_sub(laid((vec2){ 0, 1 }, side, motions[m]), laid((vec2){ 0, 0 }, side, motions[m])));
            assert_true(find_arrow(&in, along, tips));
            assert_true(vec2_length(vec2_sub(tips[1], tips[0])) >= 50);
            lay_all(seam_at, 4, side, motions[m], seam);
            struct geometry_path outline = { seam, 4, true };
            assert_true(geometry_path_holds(outline, tips[0]) && geometry_path_holds(outline, tips[1]));
            struct found_words words[] = { find_words(h, &in, "YOKE", NAME_MM, right),
                                           find_words(h, &in, "CUT 1 ON THE FOLD", CAP_MM, right),
                                           find_words(h, &in, "SIZE 5", CAP_MM, right) };
            for (int w = 0; w < 3; w++)
                assert_false(runs_over(box_seen(&in, &words[w], right, away), tips[0], tips[1], right, away));
        }
}

/* A dart's leg runs through the place where the words would best stand: they make way, and stay within the stitching
 * line and beside the fold's bar. */
static void words_stand_clear_of_marks(void **state)
{
    struct here *h = *state;
    static struct draft_line dart = { .kind = PATTERN_LINE_DART, .ends = { { 60, 150 }, { 200, 110 } } };
    struct draft_piece marked = piece;
    marked.lines = &dart;
    marked.line_count = 1;
    const struct scene_piece pieces[] = { { .piece = &marked, .lines = { "Cut 2", NULL } } };
    const vec2 ways[][2] = { { { 60, 150 }, { 200, 110 } }, { { 24, 230 }, { 24, 50 } },  { { 0, 0 }, { 300, 0 } },
                             { { 300, 0 }, { 200, 250 } },  { { 200, 250 }, { 0, 300 } }, { { 0, 300 }, { 0, 0 } } };
    struct geometry_map map = map_of(&hangings[0]);
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++)
        for (int m = 0; m < MOTIONS; m++) {
            struct scene_view view = view_of(h, &map, pieces, side, motions[m]);
            struct paint_items in = scene_make(h->a, &view).table.in;
            struct found_words name = find_words(h, &in, "YOKE", NAME_MM, rights[side]);
            struct found_words cut = find_words(h, &in, "CUT 2", CAP_MM, rights[side]);
            assert_int_equal(name.count, 1);
            assert_int_equal(cut.count, 1);
            struct geometry_box box = geometry_box_join(box_seen(&in, &name, rights[side], aways[side]),
                                                        box_seen(&in, &cut, rights[side], aways[side]));
            for (size_t w = 0; w < sizeof ways / sizeof ways[0]; w++)
                assert_false(runs_over(box, laid(ways[w][0], side, motions[m]), laid(ways[w][1], side, motions[m]),
                                       rights[side], aways[side]));
        }
}

/* How many straight strokes lead from one place to another, either way. */
static size_t strokes_between(const struct paint_items *in, vec2 from, vec2 to)
{
    size_t found = 0;
    for (size_t i = 0; i < in->path_count; i++) {
        const struct geometry_path *path = &in->paths[i];
        found += path->count == 2 && ((is_at(path->points[0], from) && is_at(path->points[1], to)) ||
                                      (is_at(path->points[0], to) && is_at(path->points[1], from)));
    }
    return found;
}

/* A hole from (60, 120) to (80, 120) has bars of 6 at its ends; a button at (70, 180) two strokes of 10 across and up.
 */
static void buttons_are_crosses_and_buttonholes_end_in_bars(void **state)
{
    struct here *h = *state;
    static struct draft_line hole = { .kind = PATTERN_LINE_BUTTONHOLE, .ends = { { 60, 120 }, { 80, 120 } } };
    static struct piece_pt button = { 70, 180 };
    static const vec2 strokes[][2] = { { { 60, 120 }, { 80, 120 } },
                                       { { 60, 117 }, { 60, 123 } },
                                       { { 80, 117 }, { 80, 123 } },
                                       { { 65, 175 }, { 75, 185 } },
                                       { { 65, 185 }, { 75, 175 } } };
    struct draft_piece marked = piece;
    marked.lines = &hole;
    marked.line_count = 1;
    marked.buttons = &button;
    marked.button_count = 1;
    const struct scene_piece pieces[] = { { .piece = &marked } };
    struct geometry_map map = map_of(&hangings[0]);
    for (int m = 0; m < MOTIONS; m++) {
        struct scene_view view = view_of(h, &map, pieces, SCENE_NEAR, motions[m]);
        struct paint_items in = scene_make(h->a, &view).table.in;
        for (size_t i = 0; i < sizeof strokes / sizeof strokes[0]; i++)
            assert_int_equal(strokes_between(&in, laid(strokes[i][0], SCENE_NEAR, motions[m]),
                                             laid(strokes[i][1], SCENE_NEAR, motions[m])),
                             1);
    }
}

/* A hem's fold: its label runs along it, off it by less than a capital, within the piece and clear of the stitching
 * line, whichever way round the piece lies. On a line whose both sides are taken they stand over it on dark ground. */
static void a_lines_label_runs_along_it(void **state)
{
    struct here *h = *state;
    static struct draft_line lines[] = {
        { .kind = PATTERN_LINE_FOLD, .ends = { { 40, 60 }, { 270, 60 } }, .label = "Hem" },
        { .kind = PATTERN_LINE_FOLD, .ends = { { 270, 45 }, { 40, 45 } } },
        { .kind = PATTERN_LINE_FOLD, .ends = { { 40, 75 }, { 270, 75 } } },
    };
    struct geometry_map map = map_of(&hangings[0]);
    for (size_t count = 1; count <= 3; count++)
        for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++)
            for (int m = 0; m < MOTIONS; m++) {
                struct draft_piece marked = piece;
                marked.lines = lines;
                marked.line_count = count;
                const struct scene_piece pieces[] = { { .piece = &marked, .lines = { "Cut 2", NULL } } };
                struct scene_view view = view_of(h, &map, pieces, side, motions[m]);
                struct paint_items in = scene_make(h->a, &view).table.in;
                vec2 from = laid((vec2){ 40, 60 }, side, motions[m]), to = laid((vec2){ 270, 60 }, side, motions[m]);
                vec2 right = vec2_unit(vec2_sub(to, from));
                double lean = vec2_dot(right, rights[side]);
                if (fabs(lean) > 1e-6 ? lean < 0 : vec2_dot(right, aways[side]) < 0)
                    right = vec2_scale(right, -1);
                struct found_words hem = find_words(h, &in, "HEM", CAP_MM, right);
                assert_int_equal(hem.count, 1);
                double off = fabs(vec2_cross(right, vec2_sub(hem.middle, from)));
                if (count < 3)
                    assert_near(off, CAP_MM / 2 + 6, EXACT_MM);
                else
                    assert_near(off, 0, EXACT_MM);
                vec2 other = laid((vec2){ 40, 45 }, side, motions[m]);
                if (count == 2) /* on the side that is free */
                    assert_true(fabs(vec2_cross(right, vec2_sub(hem.middle, other))) > CAP_MM);
                assert_int_equal(find_words(h, &in, "YOKE", NAME_MM, rights[side]).count, 1);
            }
}

/* Longer than its line, which is 20 long, a label stands by its middle all the same. */
static void a_long_label_reaches_past_its_line(void **state)
{
    struct here *h = *state;
    static struct draft_line pleat = { .kind = PATTERN_LINE_FOLD,
                                       .ends = { { 120, 30 }, { 140, 30 } },
                                       .label = "Pleat to left" };
    struct draft_piece marked = piece;
    marked.lines = &pleat;
    marked.line_count = 1;
    const struct scene_piece pieces[] = { { .piece = &marked } };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, pieces, SCENE_NEAR, motions[0]);
    struct paint_items in = scene_make(h->a, &view).table.in;
    struct found_words words = find_words(h, &in, "PLEAT TO LEFT", CAP_MM, rights[SCENE_NEAR]);
    vec2 middle = laid((vec2){ 130, 30 + 6 + CAP_MM / 2 }, SCENE_NEAR, motions[0]);
    assert_int_equal(words.count, 1);
    assert_true(is_at(words.middle, middle));
}

/* ISO 129: read from below or from the right. */
static void words_run_up_along_a_piece_too_narrow_for_them(void **state)
{
    struct here *h = *state;
    static vec2 strap[] = { { 0, 0 }, { 60, 0 }, { 60, 420 }, { 0, 420 } };
    static const struct draft_piece narrow = { .name = "strap",
                                               .label = "Shoulder strap",
                                               .seam = { { strap, 4, true } },
                                               .cut = { { strap, 4, true } },
                                               .seam_line = { { strap, 4, true } },
                                               .cut_line = { { strap, 4, true } },
                                               .grain = { { 30, 60 }, { 30, 360 } },
                                               .label_at = { 30, 210 } };
    static const struct scene_piece pieces[] = { { .piece = &narrow, .lines = { "Cut 2", NULL } } };
    struct geometry_map map = map_of(&hangings[0]);
    for (int m = 0; m < 2; m++) {
        const struct geometry_motion over = { m == 1, 0, { 0, 0 } };
        for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
            struct scene_view view = view_of(h, &map, pieces, side, over);
            struct paint_items in = scene_make(h->a, &view).table.in;
            bool upright = side == SCENE_NEAR || side == SCENE_FAR; /* from the ends of the table it lies flat */
            vec2 right = upright ? aways[side] : rights[side];
            assert_int_equal(find_words(h, &in, "SHOULDER STRAP", upright ? CAP_MM : NAME_MM, right).count, 1);
            assert_int_equal(find_words(h, &in, "CUT 2", CAP_MM, right).count, 1);
        }
    }
}

/* Too narrow for its words and too short: they stand beside it in the light, facing her, a thin line leads from them
 * into the piece, and nothing of it is covered. */
static void words_stand_beside_a_piece_that_has_no_room_for_them(void **state)
{
    struct here *h = *state;
    static vec2 seam[] = { { 0, 0 }, { 40, 0 }, { 40, 150 }, { 0, 150 } };
    static vec2 cut[] = { { -15, -15 }, { 55, -15 }, { 55, 165 }, { -15, 165 } };
    static const struct draft_piece loop = { .name = "loop",
                                             .label = "Belt loop",
                                             .seam = { { seam, 4, true } },
                                             .cut = { { cut, 4, true } },
                                             .seam_line = { { seam, 4, true } },
                                             .cut_line = { { cut, 4, true } },
                                             .has_fold = true,
                                             .fold = { { -15, -15 }, { 55, -15 } },
                                             .grain = { { 20, 25 }, { 20, 125 } },
                                             .label_at = { 20, 75 } };
    static const struct scene_piece pieces[] = { { .piece = &loop, .lines = { "Cut 2, interf.", "Size 5" } } };
    static const struct line_kind leader_kind = { 1.5, { 0 }, MAIN_CHALK, 0.5 };
    struct geometry_map map = map_of(&hangings[0]);
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
        struct scene_view view = view_of(h, &map, pieces, side, (struct geometry_motion){ false, 0, { 0, 0 } });
        struct paint_items in = scene_make(h->a, &view).table.in;
        const struct {
            const char *text;
            double cap;
        } rows[] = { { "BELT LOOP", NAME_MM }, { "CUT 2, INTERF.", CAP_MM }, { "SIZE 5", CAP_MM } };
        vec2 middle = middle_of_light(side);
        for (int i = 0; i < 3; i++) {
            struct found_words words = find_words(h, &in, rows[i].text, rows[i].cap, rights[side]);
            assert_int_equal(words.count, 1);
            struct geometry_box box = box_seen(&in, &words, (vec2){ 1, 0 }, (vec2){ 0, 1 });
            assert_true(box.min.y > middle.y - 90); /* below the fold there is no cloth */
            assert_true(box.max.x < middle.x - 35 || box.min.x > middle.x + 35 || box.max.y < middle.y - 90 ||
                        box.min.y > middle.y + 90);
            assert_true(box.min.x > -WIDTH / 2.0 && box.max.x < WIDTH / 2.0 && box.min.y > -HEIGHT / 2.0 &&
                        box.max.y < HEIGHT / 2.0);
        }
        size_t leaders = 0;
        for (size_t i = 0; i < in.count; i++) {
            if (!is_kind(&in.items[i], &leader_kind))
                continue;
            const vec2 *leader = in.paths[in.items[i].first_path].points;
            vec2 end = vec2_sub(leader[1], middle);
            assert_true(vec2_length(vec2_sub(leader[1], leader[0])) < 10 + 7 + 1); /* the air, the way in, a step */
            leaders += fabs(end.x) < 35 && fabs(end.y) < 90;
        }
        assert_int_equal(leaders, 1);
    }
}

/* The strip: what to do now at her left, what is left at her right, within its depth of her edge of the light. */
static void the_strip_stands_at_her_edge_and_reads_her_way(void **state)
{
    struct here *h = *state;
    static const struct scene_piece pieces[] = { { .piece = &piece } };
    for (size_t hung = 0; hung < HANGINGS; hung++)
        for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
            struct geometry_map map = map_of(&hangings[hung]);
            struct scene_view view = view_of(h, &map, pieces, side, motions[1]);
            struct paint_scene scene = scene_make(h->a, &view);
            struct paint_items in = on_table(h, &scene, &hangings[hung]);
            vec2 right = rights[side], away = aways[side];
            struct found_words left = find_words(h, &in, "CUT ON THE MIDDLE", CAP_MM, right);
            struct found_words rest = find_words(h, &in, "1 OF 9", CAP_MM, right);
            if (left.count != 1 || rest.count != 1)
                fail_msg("%s, from the %s side: no strip", hangings[hung].name, scene_side_name(side));
            double edge = -(away.y != 0 ? HEIGHT : WIDTH) / 2.0, width = right.x != 0 ? WIDTH : HEIGHT;
            assert_true(vec2_dot(left.middle, away) > edge && vec2_dot(left.middle, away) < edge + STRIP_MM);
            assert_true(vec2_dot(left.middle, right) < 0 && vec2_dot(rest.middle, right) > 0);
            assert_near(vec2_dot(left.middle, right) - text_run_width(h->font, "CUT ON THE MIDDLE", CAP_MM) / 2,
                        -width / 2 + 12, EXACT_MM);
            assert_near(vec2_dot(rest.middle, right) + text_run_width(h->font, "1 OF 9", CAP_MM) / 2, width / 2 - 12,
                        EXACT_MM);
            assert_near(left.level, 1, 0);
        }
}

/* More than there is room for: letters keep their height, and what is told last at the right goes. */
static void a_strip_drops_words_rather_than_shrink(void **state)
{
    struct here *h = *state;
    static const struct scene_piece pieces[] = { { .piece = &piece } };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, pieces, SCENE_NEAR, motions[1]);
    view.strip_right =
        "Done · W: it has moved · 12 left here, 24 in all · N: the other cloth · F1: all of the keys that "
        "there are on this page and what they do · and so on, further than any strip is long";
    struct paint_scene scene = scene_make(h->a, &view);
    struct paint_items in = on_table(h, &scene, &hangings[0]);
    assert_int_equal(find_words(h, &in, "CUT ON THE MIDDLE", CAP_MM, rights[SCENE_NEAR]).count, 1);
}

/* Words in a second row, never in smaller letters: the lower row stands half a capital and less above the inset. */
static void a_long_strip_takes_another_row(void **state)
{
    struct here *h = *state;
    static const struct scene_piece pieces[] = { { .piece = &piece } };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, pieces, SCENE_NEAR, motions[0]);
    view.strip_left = "Fabric: lay the fold along the line “fold” and the cut end along “cut end”";
    view.strip_right = "Enter: it lies there · F: bring the light to the cloth";
    struct paint_scene scene = scene_make(h->a, &view);
    struct paint_items in = on_table(h, &scene, &hangings[0]);
    struct found_words left =
        find_words(h, &in, "FABRIC: LAY THE FOLD ALONG THE LINE “FOLD” AND THE CUT END ALONG “CUT END”", CAP_MM,
                   rights[SCENE_NEAR]);
    struct found_words right =
        find_words(h, &in, "ENTER: IT LIES THERE · F: BRING THE LIGHT TO THE CLOTH", CAP_MM, rights[SCENE_NEAR]);
    assert_int_equal(left.count, 1);
    assert_int_equal(right.count, 1);
    assert_true(left.middle.y > right.middle.y + CAP_MM);
    assert_true(right.middle.y - CAP_MM / 2 >= -HEIGHT / 2.0 + 12);
}

/* A notice that is longer than the light is wide stands in two rows, in letters of their full height. */
static void a_long_notice_takes_another_row(void **state)
{
    struct here *h = *state;
    static const struct scene_piece pieces[] = { { .piece = &piece } };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, pieces, SCENE_NEAR, motions[0]);
    static const char first[] = "AAAAAAAAAAAAAAA BBBBBBBBBBBBBBB CCCCCCCCCCCCCCCCCCCCCCCCCCCCCCC DDDDDDDD";
    static const char second[] = "EEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEEE";
    double wide = text_run_width(h->font, first, CAP_MM), rest = text_run_width(h->font, second, CAP_MM);
    assert_true(wide < WIDTH - 2 * CAP_MM && wide + rest > WIDTH);
    view.notice = base_arena_print(h->a, "%s %s", first, second);
    struct paint_scene scene = scene_make(h->a, &view);
    struct paint_items in = on_table(h, &scene, &hangings[0]);
    struct found_words upper = find_words(h, &in, first, CAP_MM, rights[SCENE_NEAR]);
    struct found_words lower = find_words(h, &in, second, CAP_MM, rights[SCENE_NEAR]);
    assert_int_equal(upper.count, 1);
    assert_int_equal(lower.count, 1);
    assert_true(lower.middle.y + CAP_MM < upper.middle.y && upper.middle.y + CAP_MM / 2 < HEIGHT / 2.0);
}

/* --- the notice of a table that is not hers --------------------------------------------------------------------- */

static const char notice[] = "SAMPLE TABLE, NOT YOURS: FOR LOOKING, NOT FOR CUTTING";

/* A demo's app on a table of the plain frame. */
static struct app *app_on(struct here *h, bool sample)
{
    struct calibration_table table = { .name = "plain", .made = "", .sample = sample, .unit = UNITS_MM };
    table.map = map_of(&hangings[0]);
    struct app *app = rig_app(h->a, &table, h->font, h->errs);
    assert_non_null(app);
    return app;
}

/* Unlit letters on a band that is lit from side to side across the far edge, over everything else. */
static bool notice_is_drawn(struct here *h, struct app *app)
{
    struct paint_scene scene = app_scene(app, h->a);
    struct paint_items in = on_table(h, &scene, &hangings[0]);
    struct found_words words = find_words(h, &in, notice, CAP_MM, rights[SCENE_NEAR]);
    if (words.count != 1 || words.level != 0 || words.item + 1 != in.count)
        return false;
    const struct paint_item *band = &in.items[words.item - 1];
    struct geometry_box box = geometry_path_box(in.paths[band->first_path]);
    return band->kind == PAINT_FILL && band->ink.level == 1 && box.min.x <= -WIDTH / 2.0 && box.max.x >= WIDTH / 2.0 &&
           box.max.y >= HEIGHT / 2.0 && box.min.y < words.middle.y - CAP_MM / 2 &&
           words.middle.y + CAP_MM / 2 < box.max.y;
}

static void a_sample_table_says_so_over_pieces_square_and_frame(void **state)
{
    static const enum scene_mode modes[] = { SCENE_PIECES, SCENE_TEST_SQUARE, SCENE_TEST_FRAME, SCENE_HELP };
    struct here *h = *state;
    struct app *app = app_on(h, true);
    for (size_t i = 0; i < sizeof modes / sizeof modes[0]; i++) {
        app_set_mode(app, modes[i]);
        if (!notice_is_drawn(h, app))
            fail_msg("mode %d has no notice", (int)modes[i]);
    }
}

static void a_measured_table_has_no_notice(void **state)
{
    struct here *h = *state;
    struct paint_scene scene = app_scene(app_on(h, false), h->a);
    struct paint_items in = on_table(h, &scene, &hangings[0]);
    assert_true(in.count > 0); /* the strip: nothing on the page stands above it */
    for (size_t i = 0; i < in.count; i++)
        for (size_t c = 0; c < in.items[i].paths; c++)
            assert_true(geometry_path_box(in.paths[in.items[i].first_path + c]).max.y < -HEIGHT / 2.0 + TWO_ROWS_MM);
}

/* Share of the frame's far rows that is lit. */
static double lit_share(struct here *h, struct app *app, int rows)
{
    struct paint_image image = rig_paint(h->a, app);
    long lit = 0;
    for (int y = 0; y < rows; y++)
        for (int x = 0; x < image.width; x++)
            lit += (image.pixels[(size_t)y * (size_t)image.stride + (size_t)x] & 0xff00) > 0x8000;
    return (double)lit / ((double)rows * image.width);
}

static void a_sample_tables_far_edge_is_light_and_a_measured_ones_dark(void **state)
{
    struct here *h = *state;
    int rows = (int)(2.2 * CAP_MM); /* the band's depth */
    assert_true(lit_share(h, app_on(h, true), rows) > 0.7);
    assert_true(lit_share(h, app_on(h, false), rows) < 0.1);
}

/* --- rulings and test figures ----------------------------------------------------------------------------------- */

/* Every line of a mat from its near left corner, `step` apart, and not one more. */
static void check_rulings(struct here *h, const struct calibration_mat *mat, double step, int across, int up)
{
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, NULL, SCENE_NEAR, motions[0]);
    view.mat = mat;
    view.rulings = true;
    view.piece_count = 0;
    struct paint_items in = scene_make(h->a, &view).table.in;
    for (int i = 0; i < across; i++)
        assert_int_equal(
            lines_through(&in, &ruling_kind, (const vec2[]){ { i * step, 0 }, { i * step, mat->height_mm } }, 2), 1);
    for (int i = 0; i < up; i++)
        assert_int_equal(
            lines_through(&in, &ruling_kind, (const vec2[]){ { 0, i * step }, { mat->width_mm, i * step } }, 2), 1);
    assert_int_equal(count_of(&in, &ruling_kind), across + up);
}

static void rulings_lie_on_the_mats_own(void **state)
{
    struct here *h = *state;
    const struct calibration_mat cm = {
        .name = "cm", .unit = UNITS_CM, .width_mm = 900, .height_mm = 600, .ruling_mm = 10
    };
    const struct calibration_mat in = {
        .name = "in", .unit = UNITS_IN, .width_mm = 24 * 25.4, .height_mm = 18 * 25.4, .ruling_mm = 25.4
    };
    check_rulings(h, &cm, 50, 19, 13);   /* each 5 cm */
    check_rulings(h, &in, 50.8, 13, 10); /* each 2 in: finer would light the whole mat */
}

/* Along the near edge a number stands below its line, at the left edge beside it. */
static void a_rulings_number_is_that_of_its_line(void **state)
{
    struct here *h = *state;
    const struct calibration_mat mat = {
        .name = "cm", .unit = UNITS_CM, .width_mm = 900, .height_mm = 600, .ruling_mm = 10
    };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, NULL, SCENE_NEAR, motions[0]);
    view.mat = &mat;
    view.rulings = true;
    view.piece_count = 0;
    struct paint_items in = scene_make(h->a, &view).table.in;
    struct found_words far_right = find_words(h, &in, "80 CM", CAP_MM, rights[SCENE_NEAR]);
    assert_int_equal(far_right.count, 1);
    assert_near(far_right.middle.x, 800, EXACT_MM);
    assert_true(far_right.middle.y < 0 && far_right.middle.y > -2 * CAP_MM);
    struct found_words both = find_words(h, &in, "30 CM", CAP_MM, rights[SCENE_NEAR]); /* the last is the upright one */
    assert_int_equal(both.count, 2);
    assert_near(both.middle.y, 300, EXACT_MM);
    assert_true(both.middle.x < 0);
}

static void the_test_square_has_its_side_about_the_middle_of_the_light(void **state)
{
    struct here *h = *state;
    static const struct {
        double side;
        enum units_length unit;
        const char *words;
    } rows[] = { { 100, UNITS_MM, "100 MM" }, { 101.6, UNITS_IN, "4 IN" } };
    struct geometry_map map = map_of(&hangings[0]);
    for (size_t i = 0; i < 2; i++)
        for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
            struct scene_view view = view_of(h, &map, NULL, side, motions[3]);
            view.mode = SCENE_TEST_SQUARE;
            view.square_mm = rows[i].side;
            view.test_unit = rows[i].unit;
            struct paint_items in = scene_make(h->a, &view).table.in;
            vec2 m = middle_of_light(side);
            double half = rows[i].side / 2;
            const vec2 corner[] = { { m.x - half, m.y - half },
                                    { m.x + half, m.y - half },
                                    { m.x + half, m.y + half },
                                    { m.x - half, m.y + half } };
            assert_int_equal(lines_through(&in, &square_kind, corner, 4), 1);
            assert_int_equal(find_words(h, &in, rows[i].words, CAP_MM, rights[side]).count, 1);
        }
}

static const struct geometry_path *largest_of_kind(const struct paint_items *in, const struct line_kind *kind)
{
    const struct geometry_path *largest = NULL;
    for (size_t i = 0; i < in->count; i++) {
        const struct geometry_path *path = &in->paths[in->items[i].first_path];
        if (is_kind(&in->items[i], kind) && path->count == 4 &&
            (!largest || geometry_path_length(*path) > geometry_path_length(*largest)))
            largest = path;
    }
    return largest;
}

/* The four corners of the least box around words, along the way they read. */
static void box_of_words(struct here *h, const char *capitals, const struct found_words *words, vec2 right,
                         vec2 corner[4])
{
    vec2 along = vec2_scale(right, text_run_outline(h->a, h->font, capitals, CAP_MM).width / 2);
    vec2 up = vec2_scale(vec2_right(right), -CAP_MM / 2);
    for (int i = 0; i < 4; i++)
        corner[i] = vec2_add(words->middle,
                             vec2_add(vec2_scale(along, i == 1 || i == 2 ? 1 : -1), vec2_scale(up, i >= 2 ? 1 : -1)));
}

/* The least distance from the line through two places to a corner of the box, or zero where it runs between them. */
static double clear_of(vec2 from, vec2 to, const vec2 corner[4])
{
    vec2 across = vec2_right(vec2_unit(vec2_sub(to, from)));
    double least = INFINITY, sides = 0;
    for (int i = 0; i < 4; i++) {
        double off = vec2_dot(vec2_sub(corner[i], from), across);
        least = fmin(least, fabs(off));
        sides += off > 0 ? 1 : -1;
    }
    return fabs(sides) == 4 ? least : 0;
}

/* Whether her words may be turned so: their right is her right, or, of an upright line, away from her. */
static bool she_reads(vec2 right, enum scene_side side)
{
    double level = vec2_dot(right, rights[side]);
    return level > EXACT_MM || (level > -EXACT_MM && vec2_dot(right, aways[side]) > 0);
}

/* The length stands once along each of the six lines, within a cap height and a half of it and clear of all six. */
static void check_length(struct here *h, const struct paint_items *in, const vec2 line[6][2], int which,
                         enum scene_side side, const char *words)
{
    vec2 way = vec2_sub(line[which][1], line[which][0]), right = vec2_unit(way), corner[4];
    if (!she_reads(right, side))
        right = vec2_scale(right, -1);
    bool found = false;
    struct paint_items rest = *in;
    while (!found) { /* of the two sides of one length, each has its own */
        struct found_words at = find_words(h, &rest, words, CAP_MM, right);
        if (!at.count)
            break;
        box_of_words(h, words, &at, right, corner);
        found = clear_of(line[which][0], line[which][1], corner) > 0 &&
                clear_of(line[which][0], line[which][1], corner) < CAP_MM;
        for (int i = 0; i < 6; i++)
            if (clear_of(line[i][0], line[i][1], corner) < CAP_MM / 4)
                fail_msg("%s is on a line", words);
        rest.count = at.item; /* the last one was found: on with those before it */
    }
    if (!found)
        fail_msg("line %d of the frame does not say %s", which, words);
}

/* Whole 50 mm each way, most of the light and none beyond it, with both diagonals; each length is written on its line.
 */
static void the_test_frame_is_round_wide_and_says_its_lengths(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
        struct scene_view view = view_of(h, &map, NULL, side, motions[0]);
        view.mode = SCENE_TEST_FRAME;
        struct paint_items in = scene_make(h->a, &view).table.in;
        const struct geometry_path *frame = largest_of_kind(&in, &square_kind);
        assert_non_null(frame);
        vec2 *c = frame->points;
        double width = c[1].x - c[0].x, height = c[3].y - c[0].y;
        bool level = side == SCENE_NEAR || side == SCENE_FAR;
        assert_true(width > (level ? 0.9 : 0.8) * WIDTH && width < WIDTH - (level ? 0 : STRIP_MM));
        assert_true(height > 0.75 * HEIGHT && height < HEIGHT - (level ? STRIP_MM : 0));
        assert_near(remainder(width, 50), 0, EXACT_MM);
        assert_near(remainder(height, 50), 0, EXACT_MM);
        assert_true(is_at(vec2_lerp(c[0], c[2], 0.5), middle_of_light(side)));
        const vec2 line[6][2] = { { c[0], c[1] }, { c[1], c[2] }, { c[2], c[3] },
                                  { c[3], c[0] }, { c[0], c[2] }, { c[1], c[3] } };
        for (int i = 4; i < 6; i++)
            assert_int_equal(lines_through(&in, &square_kind, line[i], 2), 1);
        for (int i = 0; i < 6; i++) {
            double mm = vec2_length(vec2_sub(line[i][1], line[i][0]));
            check_length(h, &in, line, i, side, base_arena_print(h->a, "%g MM", round(mm * 10) / 10));
        }
    }
}

/* The diagonal of 38 by 18 in, by hand: sqrt(38² + 18²) = 42.048 in, nearest 42 1/16 (42.0625). */
static void the_test_frame_in_inches_says_what_a_tape_has(void **state)
{
    struct here *h = *state;
    static const char *const words[6] = { "38 IN", "18 IN", "38 IN", "18 IN", "42 1/16 IN", "42 1/16 IN" };
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_view view = view_of(h, &map, NULL, SCENE_NEAR, motions[0]);
    view.mode = SCENE_TEST_FRAME;
    view.test_unit = UNITS_IN;
    struct paint_items in = scene_make(h->a, &view).table.in;
    const struct geometry_path *frame = largest_of_kind(&in, &square_kind);
    assert_non_null(frame);
    const vec2 *c = frame->points;
    assert_near(c[1].x - c[0].x, 38 * 25.4, EXACT_MM);
    assert_near(c[3].y - c[0].y, 18 * 25.4, EXACT_MM);
    const vec2 line[6][2] = { { c[0], c[1] }, { c[1], c[2] }, { c[2], c[3] },
                              { c[3], c[0] }, { c[0], c[2] }, { c[1], c[3] } };
    for (int i = 0; i < 6; i++)
        check_length(h, &in, line, i, SCENE_NEAR, words[i]);
}

/* --- notches ---------------------------------------------------------------------------------------------------- */

enum { FINE = 4 }; /* pixels a millimetre in the picture; the look stays that of one */

/* Light, 0 to 1, of a painted place; the picture is hung upright. */
static double light_at(const struct paint_image *image, vec2 at)
{
    int column = (int)floor((at.x + WIDTH / 2.0) * FINE), row = (int)floor((HEIGHT / 2.0 - at.y) * FINE);
    return paint_decode((uint8_t)(image->pixels[(size_t)row * image->stride + (size_t)column] & 0xff));
}

/* Square into the edge y = -40 of the cut outline, 3 mm deep; a V 6 mm wide. */
static const struct draft_notch slit = { .depth_mm = 3,
                                         .place_count = 1,
                                         .places = { { { 150, -40 }, { 150, 0 }, { 0, 1 }, { { 0, 0 } } } } };
static const struct draft_notch v_notch = {
    .shape = PATTERN_V,
    .depth_mm = 3,
    .place_count = 1,
    .places = { { { 150, -40 }, { 150, 0 }, { 0, 1 }, { { 147, -40 }, { 153, -40 } } } }
};

static struct paint_image notched_picture(struct here *h, const struct draft_notch *notches, double weight_mm,
                                          bool outer_edge)
{
    struct draft_piece notched = piece;
    struct geometry_map map = map_of(&hangings[0]);
    notched.notches = notches;
    notched.notch_count = 1;
    map.width_px *= FINE;
    map.height_px *= FINE;
    const struct scene_piece pieces[] = { { .piece = &notched } };
    struct scene_view view = view_of(h, &map, pieces, SCENE_NEAR, motions[0]);
    view.font = NULL;
    view.look.weight_mm = weight_mm;
    view.cut_outer_edge = outer_edge;
    struct paint_scene scene = scene_make(h->a, &view);
    struct paint_image image = paint_image_create(h->a, map.width_px, map.height_px);
    paint_frame(h->a, &scene, &map, &image);
    return image;
}

/* However wide the cut line is and whichever of its edges is cut: dark for 3 mm from the cut line in, light about. */
static void a_snip_shows_dark_at_its_true_depth_in_the_light(void **state)
{
    struct here *h = *state;
    static const double weights[] = { 1.5, 3, 6, 10 };
    for (size_t i = 0; i < sizeof weights / sizeof weights[0]; i++)
        for (int outer_edge = 0; outer_edge < 2; outer_edge++) {
            struct paint_image image = notched_picture(h, &slit, weights[i], outer_edge);
            vec2 at = laid((vec2){ 150, -40 }, SCENE_NEAR, motions[0]);
            for (double in = 0.5; in < 2.6; in += 0.5) {
                assert_true(light_at(&image, vec2_add(at, (vec2){ 0, in })) < 0.1);
                assert_true(light_at(&image, vec2_add(at, (vec2){ -1.5, in })) > 0.9);
                assert_true(light_at(&image, vec2_add(at, (vec2){ 1.5, in })) > 0.9);
            }
            assert_true(light_at(&image, vec2_add(at, (vec2){ 0, 3.5 })) > 0.9);
            assert_true(light_at(&image, vec2_add(at, (vec2){ 0, -7 })) > 0.9); /* the triangle outside */
        }
}

/* Dark down both its sides, half way between its mouth and its tip 1.5 mm to either side; light inside and about it. */
static void both_sides_of_a_v_show_dark(void **state)
{
    struct here *h = *state;
    for (int outer_edge = 0; outer_edge < 2; outer_edge++) {
        struct paint_image image = notched_picture(h, &v_notch, 3, outer_edge);
        vec2 at = laid((vec2){ 150, -40 }, SCENE_NEAR, motions[0]);
        for (int side = -1; side <= 1; side += 2) {
            assert_true(light_at(&image, vec2_add(at, (vec2){ side * 1.5, 1.5 })) < 0.1);
            assert_true(light_at(&image, vec2_add(at, (vec2){ side * 2.25, 0.75 })) < 0.1);
            assert_true(light_at(&image, vec2_add(at, (vec2){ side * 3.0, 2.0 })) > 0.9);
        }
        assert_true(light_at(&image, vec2_add(at, (vec2){ 0, 0.5 })) > 0.9);
        assert_true(light_at(&image, vec2_add(at, (vec2){ 0, 5 })) > 0.9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        scene_test(cut_line_stitching_line_and_fold_lie_where_the_piece_is_laid),
        scene_test(the_grain_arrow_lies_on_the_grain_with_a_head_at_either_end),
        scene_test(the_grain_arrow_makes_way_for_the_words),
        scene_test(the_folds_bar_is_inside_the_piece_and_points_at_the_fold),
        scene_test(the_folds_bar_keeps_clear_of_lines_that_come_to_the_fold),
        scene_test(the_bar_of_a_short_fold_stays_between_the_stitching_lines),
        scene_test(a_pieces_words_face_her_on_every_side_and_are_never_mirrored),
        scene_test(words_stand_clear_of_marks),
        scene_test(a_lines_label_runs_along_it),
        scene_test(a_long_label_reaches_past_its_line),
        scene_test(buttons_are_crosses_and_buttonholes_end_in_bars),
        scene_test(words_run_up_along_a_piece_too_narrow_for_them),
        scene_test(words_stand_beside_a_piece_that_has_no_room_for_them),
        scene_test(a_strip_drops_words_rather_than_shrink),
        scene_test(a_long_strip_takes_another_row),
        scene_test(a_long_notice_takes_another_row),
        scene_test(the_strip_stands_at_her_edge_and_reads_her_way),
        scene_test(a_sample_table_says_so_over_pieces_square_and_frame),
        scene_test(a_measured_table_has_no_notice),
        scene_test(a_sample_tables_far_edge_is_light_and_a_measured_ones_dark),
        scene_test(rulings_lie_on_the_mats_own),
        scene_test(a_rulings_number_is_that_of_its_line),
        scene_test(the_test_square_has_its_side_about_the_middle_of_the_light),
        scene_test(the_test_frame_is_round_wide_and_says_its_lengths),
        scene_test(the_test_frame_in_inches_says_what_a_tape_has),
        scene_test(a_snip_shows_dark_at_its_true_depth_in_the_light),
        scene_test(both_sides_of_a_v_show_dark),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
