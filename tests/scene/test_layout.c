/* A layout on its cloth in the draw list, against places worked out by hand: a projector whose pixels are one
 * millimetre, a rectangle as the piece. Widths and dashes are the look's own (after ISO 128; sizes are this program's
 * choice, no source). */
#include "scene/label.h"
#include "scene/layout.h"
#include "scene/reading.h"

#include <string.h>

static vec2 corners[] = { { 0, 0 }, { 200, 0 }, { 200, 150 }, { 0, 150 } };
static vec2 inner[] = { { 10, 10 }, { 190, 10 }, { 190, 140 }, { 10, 140 } };

static const struct draft_piece pocket = {
    .name = "pocket",
    .label = "Pocket",
    .seam = { { inner, 4, true } },
    .cut = { { corners, 4, true } },
    .seam_line = { { inner, 4, true } },
    .cut_line = { { corners, 4, true } },
    .grain = { { 100, 30 }, { 100, 120 } },
    .label_at = { 100, 75 },
};

/* Laid with its grain along the table, as on cloth. */
static struct scene_laid laid_at(enum scene_laid_state state, vec2 shift)
{
    return (struct scene_laid){ .piece = { .piece = &pocket, .lines = { "One layer", NULL } },
                                .to_table = geometry_mover_of((struct geometry_motion){ false, -90, shift }),
                                .state = state };
}

static struct paint_scene scene_of(struct here *h, const struct geometry_map *map, const struct scene_layout *layout,
                                   enum scene_side side)
{
    struct scene_view view = { .map = map,
                               .font = h->font,
                               .look = { 1, 3, &scene_chalks[0] },
                               .side = side,
                               .mode = SCENE_PIECES,
                               .layout = layout,
                               .square_mm = 100,
                               .strip_left = "Cut",
                               .outside = "move the cloth",
                               .strip_right = "1 left" };
    return scene_make(h->a, &view);
}

/* The stroke through the piece's corner at the shift. */
static const struct paint_item *outline_at(const struct paint_items *in, vec2 shift)
{
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        if (in->items[i].kind == PAINT_STROKE && path.count == 4 && path.closed && is_at(path.points[0], shift))
            return &in->items[i];
    }
    return NULL;
}

static void pieces_differ_by_what_is_done_with_them(void **state)
{
    static const struct {
        enum scene_laid_state state;
        double width, dash, level;
    } rows[] = { { SCENE_TO_CUT, 3, 0, 1 }, { SCENE_TO_COME, 1.5, 0, 0.6 }, { SCENE_IS_CUT, 1.5, 30, 0.35 } };
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct scene_laid laid = laid_at(rows[i].state, (vec2){ -50, 100 });
        struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
        struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
        const struct paint_item *line = outline_at(&in, (vec2){ -50, 100 });
        assert_non_null(line);
        assert_near(line->pen.width, rows[i].width, 1e-9);
        assert_near(line->pen.dash[0], rows[i].dash, 1e-9);
        assert_near(line->ink.level, rows[i].level, 1e-9);
    }
}

/* Each is named; how often and in what size only what is cut now. */
static void only_what_is_cut_now_is_more_than_named(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (enum scene_laid_state s = SCENE_TO_COME; s <= SCENE_IS_CUT; s++) {
        struct scene_laid laid = laid_at(s, (vec2){ -50, 100 });
        struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
        struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
        bool now = s == SCENE_TO_CUT;
        size_t names = find_words(h, &in, "POCKET", CAP_MM, rights[SCENE_NEAR]).count +
                       find_words(h, &in, "POCKET", NAME_MM, rights[SCENE_NEAR]).count;
        assert_int_equal(names, 1);
        assert_int_equal(find_words(h, &in, "ONE LAYER", CAP_MM, rights[SCENE_NEAR]).count, now);
    }
}

static void names_turn_to_her_side(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_laid laid = laid_at(SCENE_TO_COME, (vec2){ -50, 100 });
    struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
        struct paint_items in = scene_of(h, &map, &layout, side).table.in;
        assert_int_equal(find_words(h, &in, "POCKET", CAP_MM, rights[side]).count, 1);
    }
}

/* How many strokes of two points run from one place to another, either way round. */
static int strokes_between(const struct paint_items *in, vec2 p, vec2 q)
{
    int count = 0;
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        if (in->items[i].kind != PAINT_STROKE || path.count != 2)
            continue;
        count += (is_at(path.points[0], p) && is_at(path.points[1], q)) ||
                 (is_at(path.points[0], q) && is_at(path.points[1], p));
    }
    return count;
}

/* Filled triangles whose tip points along a direction; the lines of three points that do. */
static int pointing(const struct paint_items *in, enum paint_kind kind, vec2 way)
{
    int count = 0;
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        if (in->items[i].kind != kind || path.count != 3)
            continue;
        int tip = kind == PAINT_STROKE; /* in the middle of a chevron, first of a head */
        vec2 foot = vec2_lerp(path.points[tip ? 0 : 1], path.points[2], 0.5);
        count += vec2_dot(vec2_unit(vec2_sub(path.points[tip], foot)), way) > 0.999;
    }
    return count;
}

/* On plain cloth both ends have a head; with a nap the piece's upper end alone, which lies along the table here, and
 * three chevrons at the other point the same way. */
static void a_nap_is_seen_on_the_grain(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (int one_way = 0; one_way < 2; one_way++)
        for (int turned = 0; turned < 2; turned++) {
            struct scene_laid laid = laid_at(SCENE_TO_CUT, (vec2){ -50, 100 });
            laid.to_table = geometry_mover_of(
                (struct geometry_motion){ false, turned ? 90 : -90, { turned ? 100 : -50, turned ? -100 : 100 } });
            struct scene_layout layout = { .laid = &laid, .laid_count = 1, .one_way = one_way };
            struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
            vec2 up = { turned ? -1 : 1, 0 }, down = { -up.x, 0 };
            assert_int_equal(pointing(&in, PAINT_FILL, up), 1);
            assert_int_equal(pointing(&in, PAINT_FILL, down), !one_way);
            assert_int_equal(pointing(&in, PAINT_STROKE, up), one_way ? 3 : 0);
            assert_int_equal(pointing(&in, PAINT_STROKE, down), 0);
        }
}

/* Two squares of 200 by 150 that share 100 by 150: hatched both ways, at 45 degrees 10 apart (hand-worked: 250 / 1.4142
 * across, 17 or 18 strokes each way), none of it outside. */
static void what_pieces_share_is_hatched(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_laid laid[2] = { laid_at(SCENE_TO_COME, (vec2){ -50, 100 }),
                                  laid_at(SCENE_TO_COME, (vec2){ -50, 0 }) };
    const struct scene_layout_overlap over = { { 0, 1 }, "over by 100 mm" };
    struct scene_layout layout = { .laid = laid, .laid_count = 2, .overlaps = &over, .overlap_count = 1 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    int ways[2] = { 0, 0 };
    for (size_t i = 0; i < in.count; i++) {
        struct geometry_path path = in.paths[in.items[i].first_path];
        vec2 run = path.count == 2 ? vec2_sub(path.points[1], path.points[0]) : (vec2){ 0, 0 };
        if (in.items[i].kind != PAINT_STROKE || fabs(fabs(run.x) - fabs(run.y)) > 1e-6 || vec2_length(run) < 1)
            continue;
        ways[run.x * run.y < 0]++;
        for (int k = 0; k < 2; k++) {
            assert_true(path.points[k].x > -51 && path.points[k].x < 101);
            assert_true(path.points[k].y > -101 && path.points[k].y < 1);
        }
    }
    assert_in_range(ways[0], 16, 18);
    assert_in_range(ways[1], 16, 18);
    assert_int_equal(find_words(h, &in, "OVER BY 100 MM", CAP_MM, rights[SCENE_NEAR]).count, 1);
}

/* 30 along the cloth, 20 across, about its place: within the 15 mm of waste about it. The letter is unlit, 20 high. */
static void a_span_mark_lies_along_the_cloth(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    const struct scene_layout_mark mark = { SCENE_MARK_CHALK, "A", { 100, 50 }, { 0, 1 }, false };
    struct scene_layout layout = { .marks = &mark, .mark_count = 1 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    assert_int_equal(strokes_between(&in, (vec2){ 100, 35 }, (vec2){ 100, 65 }), 1);
    assert_int_equal(strokes_between(&in, (vec2){ 90, 50 }, (vec2){ 110, 50 }), 1);
    struct found_words letter = find_words(h, &in, "A", 20, rights[SCENE_NEAR]);
    assert_int_equal(letter.count, 1);
    assert_near(letter.level, 0, 0);
}

/* A piece lies right of the mark: the tag stands left of it, and over nothing. */
static void a_tag_stands_where_no_piece_lies(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    const struct scene_layout_mark mark = { SCENE_MARK_CHALK, "A", { -70, 20 }, { 1, 0 }, false };
    struct scene_laid laid = laid_at(SCENE_TO_COME, (vec2){ -50, 100 }); /* to (100, -100) */
    struct scene_layout layout = { .laid = &laid, .laid_count = 1, .marks = &mark, .mark_count = 1 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    struct found_words letter = find_words(h, &in, "A", 20, rights[SCENE_NEAR]);
    assert_int_equal(letter.count, 1);
    assert_true(letter.middle.x < -82);
}

static double from(struct found_words words, const struct scene_layout_mark *mark)
{
    return hypot(words.middle.x - mark->at.x, words.middle.y - mark->at.y);
}

/* Two marks stand close together, in a strip of waste between two pieces. */
static void a_tag_is_nearest_to_its_own_mark(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    const struct scene_layout_mark marks[] = { { SCENE_MARK_CHALK, "A", { 0, 20 }, { 1, 0 }, false },
                                               { SCENE_MARK_CHALK, "B", { 70, 20 }, { 1, 0 }, false } };
    const struct scene_laid laid[] = { laid_at(SCENE_TO_COME, (vec2){ -50, 240 }),
                                       laid_at(SCENE_TO_COME, (vec2){ -50, 0 }) }; /* waste from y = 0 to 40 */
    struct scene_layout layout = { .laid = laid, .laid_count = 2, .marks = marks, .mark_count = 2 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    for (int i = 0; i < 2; i++) {
        struct found_words letter = { 0 };
        for (int size = 0; size < SCENE_NAME_SIZES && !letter.count; size++)
            letter = find_words(h, &in, marks[i].name, 20 * scene_name_sizes[size], rights[SCENE_NEAR]);
        assert_int_equal(letter.count, 1);
        assert_true(from(letter, &marks[i]) < from(letter, &marks[!i]));
    }
}

/* How many fills take the light away there. */
static int dark_at(const struct paint_items *px, struct px_pt at)
{
    int count = 0;
    for (size_t i = 0; i < px->count; i++)
        count += px->items[i].kind == PAINT_FILL && px->items[i].ink.level == 0 &&
                 geometry_path_holds(px->paths[px->items[i].first_path], (vec2){ at.x, at.y });
    return count;
}

/* A mark on a check sticker lies over a corner of what is cut: no dark ground takes the cut line away. */
static void a_sticker_leaves_the_cut_line_alone(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_laid laid = laid_at(SCENE_TO_CUT, (vec2){ -50, 100 });
    struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
    struct px_pt sticker;
    assert_true(geometry_map_to_px(&map, (struct table_pt){ -50, 100 }, &sticker));
    struct scene_view view = { .map = &map,
                               .font = h->font,
                               .look = { 1, 3, &scene_chalks[0] },
                               .layout = &layout,
                               .stickers = &sticker,
                               .sticker_count = 1,
                               .sticker_in_hand = -1 };
    struct paint_scene scene = scene_make(h->a, &view);
    assert_int_equal(dark_at(&scene.px.in, sticker), 0);
    view.mode = SCENE_STICKERS; /* where nothing is cut it has one */
    scene = scene_make(h->a, &view);
    assert_int_equal(dark_at(&scene.px.in, sticker), 1);
}

/* A right hand with chalk lies right of the mark and near it, a left hand left: the tag is beyond, on that side. */
static void a_tag_stands_by_the_hand_that_chalks(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    const struct scene_layout_mark mark = { SCENE_MARK_CHALK, "A", { 20, 20 }, { 1, 0 }, false };
    struct scene_layout layout = { .marks = &mark, .mark_count = 1 };
    for (int left = 0; left < 2; left++) {
        struct scene_view view = {
            .map = &map, .font = h->font, .look = { 1, 3, &scene_chalks[0] }, .layout = &layout, .left_handed = left
        };
        struct paint_items in = scene_make(h->a, &view).table.in;
        struct found_words letter = find_words(h, &in, "A", 20, rights[SCENE_NEAR]);
        assert_int_equal(letter.count, 1);
        assert_true(letter.middle.y > 32);
        assert_true(left ? letter.middle.x < 8 : letter.middle.x > 32);
    }
}

/* Amid a piece that is to be cut, with its name and its grain about: an unlit letter on a tag all the same, clear of
 * the cut line at x = -50 and x = 100 (hand-worked) and lit behind, whatever band other words have. */
static void a_tag_amid_a_piece_lies_on_no_line(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    const struct scene_layout_mark mark = { SCENE_MARK_CHALK, "A", { 25, 0 }, { 1, 0 }, false };
    struct scene_laid laid = laid_at(SCENE_TO_CUT, (vec2){ -50, 100 }); /* to (100, -100) */
    struct scene_layout layout = { .laid = &laid, .laid_count = 1, .marks = &mark, .mark_count = 1 };
    struct scene_view view = {
        .map = &map, .font = h->font, .look = { 1, 3, &scene_chalks[0] }, .layout = &layout, .band = true
    };
    struct paint_items in = scene_make(h->a, &view).table.in;
    double caps[] = { 20, 17, 14 };
    struct found_words letter = { 0 };
    for (int i = 0; i < 3 && !letter.count; i++)
        letter = find_words(h, &in, "A", caps[i], rights[SCENE_NEAR]);
    assert_int_equal(letter.count, 1);
    assert_near(letter.level, 0, 0);
    assert_true(fabs(letter.middle.x + 50) > 15 && fabs(letter.middle.x - 100) > 15);
    assert_near(find_words(h, &in, "POCKET", NAME_MM, rights[SCENE_NEAR]).level, 0, 0); /* which has a band */
}

/* A mark 8 mm from a cut line, the least that sections leave: its bars end before the line. */
static void a_mark_in_narrow_waste_lies_on_no_line(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    const struct scene_layout_mark mark = { SCENE_MARK_CHALK, "A", { -58, 0 }, { 1, 0 }, false };
    struct scene_laid laid = laid_at(SCENE_TO_COME, (vec2){ -50, 100 });
    struct scene_layout layout = { .laid = &laid, .laid_count = 1, .marks = &mark, .mark_count = 1 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    int bars = 0;
    for (size_t i = 0; i < in.count; i++) {
        struct geometry_path path = in.paths[in.items[i].first_path];
        if (in.items[i].kind != PAINT_STROKE || path.closed || path.count != 2)
            continue;
        struct geometry_box box = geometry_path_box(path);
        bool is_bar = is_at(geometry_path_centre(path), (vec2){ -58, 0 });
        bars += is_bar;
        assert_true(!is_bar || box.max.x < -50);
    }
    assert_int_equal(bars, 2);
}

/* The one that is nudged is in a ring, the others are not. */
static void the_mark_in_hand_is_in_a_ring(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (int in_hand = 0; in_hand < 2; in_hand++) {
        const struct scene_layout_mark mark = { SCENE_MARK_LINE, "1", { 100, 50 }, { 1, 0 }, in_hand };
        struct scene_layout layout = { .marks = &mark, .mark_count = 1 };
        struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
        int rings = 0;
        for (size_t i = 0; i < in.count; i++) {
            struct geometry_path path = in.paths[in.items[i].first_path];
            if (in.items[i].kind == PAINT_STROKE && path.closed && path.count == 24)
                rings += is_at(geometry_path_centre(path), (vec2){ 100, 50 });
        }
        assert_int_equal(rings, in_hand);
    }
}

/* 8 long, every 50, toward the cloth at the line's left. */
static void an_edge_has_its_teeth_toward_the_cloth(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    const struct scene_layout_line line = { SCENE_EDGE_TORN, { { -100, -50 }, { 100, -50 } }, NULL };
    struct scene_layout layout = { .lines = &line, .line_count = 1 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    assert_int_equal(strokes_between(&in, (vec2){ -100, -50 }, (vec2){ 100, -50 }), 1);
    for (int i = 0; i < 4; i++)
        assert_int_equal(strokes_between(&in, (vec2){ -75 + 50.0 * i, -50 }, (vec2){ -75 + 50.0 * i, -42 }), 1);
}

/* Beside a line at the very end of the light words stand on its other side, whichever end it is. */
static void words_beside_a_line_stay_in_the_light(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (enum scene_side side = SCENE_NEAR; side <= SCENE_FAR; side += 2)
        for (int i = 0; i < 2; i++) {
            struct scene_view view = { .map = &map, .look = { 1, 3, &scene_chalks[0] }, .side = side };
            struct geometry_box lit = scene_usable_light(&view);
            double y = i ? lit.min.y + 2 : lit.max.y - 2;
            struct scene_layout_line line = { SCENE_EDGE_PART, { { -300, y }, { 300, y } }, "go on" };
            struct scene_layout layout = { .lines = &line, .line_count = 1 };
            struct paint_items in = scene_of(h, &map, &layout, side).table.in;
            struct found_words words = find_words(h, &in, "GO ON", CAP_MM, rights[side]);
            assert_int_equal(words.count, 1);
            assert_true(words.middle.y > lit.min.y + CAP_MM / 2 && words.middle.y < lit.max.y - CAP_MM / 2);
        }
}

/* What must be cut and is not wholly in the light is told by its name; of one that is longer than the light, it is no
 * news. */
static void a_piece_outside_the_light_is_told_unless_it_is_parted(void **state)
{
    static const char told[] = "POCKET LIES PARTLY OUTSIDE THE LIGHT: MOVE THE CLOTH · 1 LEFT";
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (int parted = 0; parted < 2; parted++) {
        struct scene_laid laid = laid_at(SCENE_TO_CUT, (vec2){ 400, 100 });
        laid.parted = parted;
        struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
        struct paint_scene scene = scene_of(h, &map, &layout, SCENE_NEAR);
        struct paint_items in = on_table(h, &scene, &hangings[0]);
        assert_int_equal(find_words(h, &in, told, CAP_MM, rights[SCENE_NEAR]).count, !parted);
    }
}

/* Where a second row would cover what is to be cut, it is said in fewer words, and less is told at the right, the way
 * to all keys last of all. The piece, 200 mm deep, begins 52 mm
 * and 65 mm above the light's edge, its line 1.5 mm lower; two rows reach 12 + 3.6 * 14.2 = 63.1 mm, one
 * 12 + 2.6 * 14.2 = 48.9 (hand-worked, from the look's sizes). At 64 mm the line would be clipped. */
static void a_strip_keeps_off_what_is_to_be_cut(void **state)
{
    static const char left[] = "A long sentence of what is to be done now, with words upon words of it, until no more";
    static const double up[] = { 52, 64, 65 };
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (int i = 0; i < 3; i++) {
        struct scene_laid laid = laid_at(SCENE_TO_CUT, (vec2){ -50, -HEIGHT / 2.0 + up[i] + 200 });
        struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
        struct scene_view view = { .map = &map,
                                   .font = h->font,
                                   .look = { 1, 3, &scene_chalks[0] },
                                   .layout = &layout,
                                   .strip_left = left,
                                   .strip_less = "A long sentence of what is to be done now",
                                   .strip_right = "Enter: it is done · with more and more words, all upon words "
                                                  "· F1: keys" };
        struct paint_scene scene = scene_make(h->a, &view);
        struct paint_items in = on_table(h, &scene, &hangings[0]);
        static const char *const words[] = { "A LONG SENTENCE OF WHAT IS TO BE DONE NOW",
                                             "ENTER: IT IS DONE · F1: KEYS" };
        for (int w = 0; w < 2; w++)
            assert_int_equal(find_words(h, &in, words[w], CAP_MM, rights[SCENE_NEAR]).count, i < 2);
    }
}

/* The piece, 200 mm across, under a notice at the far edge, which goes with the next key, is told nothing; 10 mm past
 * the light's edge it is (hand-worked). */
static void under_a_notice_is_not_outside_the_light(void **state)
{
    static const double over[] = { -5, 10 };
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (int i = 0; i < 2; i++) {
        struct scene_laid laid = laid_at(SCENE_TO_CUT, (vec2){ -50, HEIGHT / 2.0 + over[i] });
        struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
        struct scene_view view = { .map = &map,
                                   .font = h->font,
                                   .look = { 1, 3, &scene_chalks[0] },
                                   .layout = &layout,
                                   .notice = "Measure",
                                   .outside = "move the cloth",
                                   .strip_left = "Cut",
                                   .strip_right = "Enter" };
        struct paint_scene scene = scene_make(h->a, &view);
        struct paint_items in = on_table(h, &scene, &hangings[0]);
        static const char told[] = "POCKET LIES PARTLY OUTSIDE THE LIGHT: MOVE THE CLOTH · ENTER";
        assert_int_equal(find_words(h, &in, told, CAP_MM, rights[SCENE_NEAR]).count, i);
    }
}

/* Nor a line that cloth is laid along, nor a mark on it: both at 55 mm, where one row leaves them lit (as above). */
static void a_strip_keeps_off_lines_and_marks(void **state)
{
    static const char left[] = "A long sentence of what is to be done now, with words upon words of it, until no more";
    const double y = -HEIGHT / 2.0 + 55;
    const struct scene_layout_line line = { SCENE_EDGE_FOLD, { { -300, y }, { 300, y } }, "fold" };
    const struct scene_layout_mark mark = { .kind = SCENE_MARK_CHALK, .name = "A", .at = { 0, y }, .along = { 1, 0 } };
    const struct scene_layout layouts[] = { { .lines = &line, .line_count = 1 }, { .marks = &mark, .mark_count = 1 } };
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (int i = 0; i < 2; i++) {
        struct scene_view view = { .map = &map,
                                   .font = h->font,
                                   .look = { 1, 3, &scene_chalks[0] },
                                   .layout = &layouts[i],
                                   .strip_left = left,
                                   .strip_right = "Enter: it is done · F1: keys" };
        struct paint_scene scene = scene_make(h->a, &view);
        struct paint_items in = on_table(h, &scene, &hangings[0]);
        assert_int_equal(find_words(h, &in, "ENTER: IT IS DONE", CAP_MM, rights[SCENE_NEAR]).count, 1);
        assert_int_equal(find_words(h, &in, "ENTER: IT IS DONE · F1: KEYS", CAP_MM, rights[SCENE_NEAR]).count, 0);
    }
}

/* A mark in a narrow strip of waste beside a large piece: its tag goes to the other side rather than into the piece,
 * where it would cover the piece's name. */
static void a_tag_stands_in_no_piece(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    const struct scene_layout_mark mark = { SCENE_MARK_CHALK, "A", { -52, 30 }, { 1, 0 }, false };
    struct scene_laid laid = laid_at(SCENE_TO_COME, (vec2){ -50, 100 }); /* from -50 to 100, -100 to 100 */
    struct scene_layout layout = { .laid = &laid, .laid_count = 1, .marks = &mark, .mark_count = 1 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    struct found_words letter = find_words(h, &in, "A", 20, rights[SCENE_NEAR]);
    assert_int_equal(letter.count, 1);
    assert_true(letter.middle.x < -52);
    assert_near(letter.level, 0, 0);
}

/* A rectangle from one corner to the other, with a margin within. */
struct oblong {
    vec2 cut[4], seam[4];
    struct draft_piece piece;
    struct geometry_box box;
};

static void make_oblong(struct oblong *o, const char *label, struct geometry_box box, double margin)
{
    const vec2 min = box.min, max = box.max;
    const struct geometry_box in = { { min.x + margin, min.y + margin }, { max.x - margin, max.y - margin } };
    *o = (struct oblong){ .cut = { min, { max.x, min.y }, max, { min.x, max.y } },
                          .seam = { in.min, { in.max.x, in.min.y }, in.max, { in.min.x, in.max.y } },
                          .box = box };
    struct geometry_path cut = { o->cut, 4, true }, seam = { o->seam, 4, true };
    vec2 middle = vec2_lerp(min, max, 0.5);
    o->piece = (struct draft_piece){ .name = label,
                                     .label = label,
                                     .seam = { seam },
                                     .cut = { cut },
                                     .seam_line = { seam },
                                     .cut_line = { cut },
                                     .grain = { { middle.x, in.min.y + 5 }, { middle.x, in.max.y - 5 } },
                                     .label_at = { middle.x, middle.y } };
}

/* 140 mm of a piece are lit, and its label's place, 65 mm from the light's end; its name, wider than those, runs along
 * the piece, 200 mm long. */
static void a_name_is_not_cut_by_the_end_of_the_light(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct oblong back;
    make_oblong(&back, "Waistband back", (struct geometry_box){ { 360, -100 }, { 510, 100 } }, 10);
    struct scene_laid laid = { .piece = { .piece = &back.piece },
                               .to_table = geometry_mover_of((struct geometry_motion){ 0 }),
                               .state = SCENE_TO_COME };
    struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    assert_int_equal(find_words(h, &in, "WAISTBAND BACK", CAP_MM, rights[SCENE_NEAR]).count, 0);
    struct found_words found = find_words(h, &in, "WAISTBAND BACK", CAP_MM, aways[SCENE_NEAR]);
    assert_int_equal(found.count, 1);
    struct geometry_box box = box_seen(&in, &found, rights[SCENE_NEAR], aways[SCENE_NEAR]);
    assert_true(box.min.x >= 360 && box.min.y >= -100 && box.max.y <= 100);
    assert_true(box.max.x <= 500);
}

static struct paint_items scene_of_oblong(struct here *h, const struct oblong *of, struct scene_layout layout)
{
    struct geometry_map map = map_of(&hangings[0]);
    struct scene_laid laid = { .piece = { .piece = &of->piece },
                               .to_table = geometry_mover_of((struct geometry_motion){ 0 }),
                               .state = SCENE_TO_COME };
    layout.laid = &laid;
    layout.laid_count = 1;
    return scene_of(h, &map, &layout, SCENE_NEAR).table.in;
}

/* 70 mm are free for a name of three words that is longer than 150 mm: each has a line of its own, in the piece. */
static void a_name_longer_than_its_piece_is_broken(void **state)
{
    struct here *h = *state;
    struct oblong flap;
    make_oblong(&flap, "Torch pocket left", (struct geometry_box){ { -50, -40 }, { 50, 40 } }, 5);
    struct paint_items in = scene_of_oblong(h, &flap, (struct scene_layout){ 0 });
    struct found_words found = find_words(h, &in, "POCKET", CAP_MM, rights[SCENE_NEAR]);
    assert_int_equal(found.count, 1);
    assert_true(geometry_path_holds(flap.piece.cut.path, found.middle));
}

/* 16 mm hold no letters of the least size with air about them: the name stands beside the piece. */
static void a_piece_too_narrow_for_letters_is_named_beside(void **state)
{
    struct here *h = *state;
    struct oblong loop;
    make_oblong(&loop, "Loop for the belt", (struct geometry_box){ { -8, -60 }, { 8, 60 } }, 5);
    struct paint_items in = scene_of_oblong(h, &loop, (struct scene_layout){ 0 });
    struct found_words found = find_words(h, &in, "LOOP FOR THE BELT", NAME_MM, rights[SCENE_NEAR]);
    assert_int_equal(found.count, 1);
    struct geometry_box box = box_seen(&in, &found, rights[SCENE_NEAR], aways[SCENE_NEAR]);
    assert_true(box.max.x < -8 || box.min.x > 8 || box.max.y < -60 || box.min.y > 60);
}

/* A piece 80 mm wide is cut as far as a line across it, whose words are longer than that. */
static void words_longer_than_their_line_stand_beyond_it(void **state)
{
    struct here *h = *state;
    struct oblong tie;
    make_oblong(&tie, "Tie", (struct geometry_box){ { -40, -200 }, { 40, 200 } }, 5);
    struct scene_layout_line line = { SCENE_EDGE_PART, { { -40, 60 }, { 40, 60 } }, "go on from here" };
    struct paint_items in = scene_of_oblong(h, &tie, (struct scene_layout){ .lines = &line, .line_count = 1 });
    struct found_words found = find_words(h, &in, "GO ON FROM HERE", CAP_MM, rights[SCENE_NEAR]);
    assert_int_equal(found.count, 1);
    struct geometry_box box = box_seen(&in, &found, rights[SCENE_NEAR], aways[SCENE_NEAR]);
    assert_true(box.max.x < -40 || box.min.x > 40);
    assert_near(found.middle.y, 60, CAP_MM);
}

/* A piece without room for its words, a narrow one at either side of it, above it a lane between two others: the
 * shortest way out runs over a neighbour (67 mm: hand-worked, 15 margin, 15 gap, 30 wide, 10 air less 3), the one
 * through the lane (some 115 mm) over none. */
static void a_leader_takes_the_clear_way_though_it_is_longer(void **state)
{
    static const struct {
        const char *label;
        struct geometry_box box;
    } rows[] = { { "Loop for the belt", { { -24, -240 }, { 24, -60 } } },
                 { "A", { { -69, -240 }, { -39, -60 } } },
                 { "B", { { 39, -240 }, { 69, -60 } } },
                 { "C", { { -150, -50 }, { -20, 30 } } },
                 { "D", { { 20, -50 }, { 150, 30 } } } };
    enum { ROWS = sizeof rows / sizeof rows[0] };
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct oblong oblongs[ROWS];
    struct scene_laid laid[ROWS];
    for (int i = 0; i < ROWS; i++) {
        make_oblong(&oblongs[i], rows[i].label, rows[i].box, i ? 5 : 15);
        laid[i] = (struct scene_laid){ .piece = { .piece = &oblongs[i].piece, .lines = { "Cut 2", NULL } },
                                       .to_table = geometry_mover_of((struct geometry_motion){ 0 }),
                                       .state = i ? SCENE_TO_COME : SCENE_TO_CUT };
    }
    struct scene_layout layout = { .laid = laid, .laid_count = ROWS };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    int leaders = 0;
    for (size_t i = 0; i < in.count; i++) {
        const struct paint_item *item = &in.items[i];
        struct geometry_path path = in.paths[item->first_path];
        if (item->kind != PAINT_STROKE || path.count != 2 || item->pen.width != 1.5 || item->ink.level != 0.5)
            continue;
        leaders++;
        for (int k = 1; k < ROWS; k++)
            if (runs_over(oblongs[k].box, path.points[0], path.points[1], (vec2){ 1, 0 }, (vec2){ 0, 1 }))
                fail_msg("the leader runs over %s", rows[k].label);
    }
    assert_int_equal(leaders, 1);
}

/* All light lies in other pieces, and drill marks 26 mm apart leave the grain's arrow no room beside letters: they
 * stand over lines, where 48 mm are free above the marks, which reach 15 mm (6 of radius, 3 of air, 6 of tick), for two
 * lines of 1.45 capitals, 41 mm (hand-worked). */
static void letters_hide_no_drill_mark(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct oblong small, all;
    struct piece_pt marks[12];
    for (int i = 0; i < 12; i++)
        marks[i] = (struct piece_pt){ -55 + 22.0 * (i % 6), i < 6 ? -37 : -11 };
    make_oblong(&small, "Pocket", (struct geometry_box){ { -85, -67 }, { 85, 67 } }, 15);
    make_oblong(&all, "Skirt", (struct geometry_box){ { -490, -290 }, { 490, 290 } }, 5);
    small.piece.drill_marks = marks;
    small.piece.drill_mark_count = 12;
    struct geometry_mover there = geometry_mover_of((struct geometry_motion){ 0 });
    const struct scene_laid laid[] = {
        { .piece = { .piece = &all.piece, .lines = { "Cut 2", NULL } }, .to_table = there },
        { .piece = { .piece = &small.piece, .lines = { "Cut 2", NULL } }, .to_table = there, .state = SCENE_TO_CUT }
    };
    struct scene_layout layout = { .laid = laid, .laid_count = 2 };
    struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
    static const char *const words[] = { "POCKET", "CUT 2" };
    for (int w = 0; w < 2; w++) {
        struct found_words found = find_words(h, &in, words[w], CAP_MM, rights[SCENE_NEAR]);
        assert_int_equal(found.count, 1);
        struct geometry_box box = box_seen(&in, &found, rights[SCENE_NEAR], aways[SCENE_NEAR]);
        for (int i = 0; i < 12; i++)
            assert_true(box.min.y > marks[i].y + 15 || box.max.y < marks[i].y - 15);
    }
}

/* All light lies in another piece, and 90 mm are free for the words of 140 mm that tell which layer is kept: broken,
 * and over the stitching line, they stand on the piece all the same, as high as letters are at least. */
static void what_must_be_told_stands_on_a_small_piece(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    struct oblong small, all;
    make_oblong(&small, "Flap", (struct geometry_box){ { -60, -45 }, { 60, 45 } }, 15);
    make_oblong(&all, "Skirt", (struct geometry_box){ { -490, -290 }, { 490, 290 } }, 5);
    struct geometry_mover there = geometry_mover_of((struct geometry_motion){ 0 });
    const struct scene_laid laid[] = {
        { .piece = { .piece = &all.piece }, .to_table = there },
        { .piece = { .piece = &small.piece, .lines = { "Keep the upper", "Size 5" }, .must_tell = true },
          .to_table = there,
          .state = SCENE_TO_CUT }
    };
    struct scene_layout layout = { .laid = laid, .laid_count = 2 };
    for (int side = 0; side < SCENE_SIDES; side++) {
        struct paint_items in = scene_of(h, &map, &layout, (enum scene_side)side).table.in;
        static const double caps[] = { CAP_MM, 0.85 * CAP_MM, 12 };
        size_t count = 0;
        for (int i = 0; i < 3; i++)
            count += find_words(h, &in, "UPPER", caps[i], rights[side]).count +
                     find_words(h, &in, "UPPER", caps[i], aways[side]).count;
        assert_int_equal(count, 1);
    }
}

/* Its name is unlit on a lit ground; the others' are lit. */
static void the_piece_in_hand_looks_like_it(void **state)
{
    struct here *h = *state;
    struct geometry_map map = map_of(&hangings[0]);
    for (int in_hand = 0; in_hand < 2; in_hand++) {
        struct scene_laid laid = laid_at(SCENE_TO_CUT, (vec2){ 0, 0 });
        laid.piece.in_hand = in_hand;
        struct scene_layout layout = { .laid = &laid, .laid_count = 1 };
        struct paint_items in = scene_of(h, &map, &layout, SCENE_NEAR).table.in;
        struct found_words found = find_words(h, &in, "POCKET", NAME_MM, rights[SCENE_NEAR]);
        assert_int_equal(found.count, 1);
        assert_near(found.level, in_hand ? 0 : 1, EXACT_MM);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        scene_test(pieces_differ_by_what_is_done_with_them),
        scene_test(only_what_is_cut_now_is_more_than_named),
        scene_test(names_turn_to_her_side),
        scene_test(a_name_is_not_cut_by_the_end_of_the_light),
        scene_test(a_name_longer_than_its_piece_is_broken),
        scene_test(a_piece_too_narrow_for_letters_is_named_beside),
        scene_test(words_longer_than_their_line_stand_beyond_it),
        scene_test(a_nap_is_seen_on_the_grain),
        scene_test(what_pieces_share_is_hatched),
        scene_test(a_span_mark_lies_along_the_cloth),
        scene_test(a_tag_stands_where_no_piece_lies),
        scene_test(a_tag_is_nearest_to_its_own_mark),
        scene_test(a_sticker_leaves_the_cut_line_alone),
        scene_test(a_tag_stands_by_the_hand_that_chalks),
        scene_test(a_tag_amid_a_piece_lies_on_no_line),
        scene_test(a_mark_in_narrow_waste_lies_on_no_line),
        scene_test(the_mark_in_hand_is_in_a_ring),
        scene_test(an_edge_has_its_teeth_toward_the_cloth),
        scene_test(a_tag_stands_in_no_piece),
        scene_test(words_beside_a_line_stay_in_the_light),
        scene_test(a_piece_outside_the_light_is_told_unless_it_is_parted),
        scene_test(a_strip_keeps_off_what_is_to_be_cut),
        scene_test(under_a_notice_is_not_outside_the_light),
        scene_test(a_strip_keeps_off_lines_and_marks),
        scene_test(a_leader_takes_the_clear_way_though_it_is_longer),
        scene_test(letters_hide_no_drill_mark),
        scene_test(what_must_be_told_stands_on_a_small_piece),
        scene_test(the_piece_in_hand_looks_like_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
