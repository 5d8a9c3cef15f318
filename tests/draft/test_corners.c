/* How allowances end at the corners of drafted pieces. Expected lines are worked out by hand from the stitching line;
 * what a hem folded back is for is common practice, no source. */
#include "draft/draft.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

#define ROUNDING_MM 1e-6
#define FOLDED_MM 0.05 /* by which a folded hem may miss the cut line that it lies on */

static const struct pattern *pattern_of(struct room *room, const char *piece)
{
    const char *text = base_arena_print(room->a,
                                        "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'mm',"
                                        "  'sizes': ['S'], 'chart': { 'hip': [900] }, 'main_measurement': 'hip',"
                                        "  'pieces': [ { 'name': 'p', %s } ],"
                                        "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }",
                                        piece);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "pattern.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

static struct draft_piece draft_one(struct room *room, const char *piece)
{
    struct draft draft;
    bool ok = make_at_size(room->a, pattern_of(room, piece), 0, PATTERN_NONE, PATTERN_NONE, &draft, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    assert_int_equal(draft.piece_count, 1);
    return draft.pieces[0];
}

static bool has_point(struct geometry_path path, double x, double y)
{
    for (size_t i = 0; i < path.count; i++)
        if (hypot(path.points[i].x - x, path.points[i].y - y) <= ROUNDING_MM)
            return true;
    return false;
}

static void assert_point(struct geometry_path path, double x, double y)
{
    if (has_point(path, x, y))
        return;
    for (size_t i = 0; i < path.count; i++)
        print_message("  %.6f %.6f\n", path.points[i].x, path.points[i].y);
    fail_msg("no point at %.6f %.6f", x, y);
}

/* ---- Hems ---- */

/* A panel 300 wide at its hem, whose sides stand `lean` mm in (out, below zero) at 400 mm of height: a hem of 40 mm,
 * all else 15. Written counter-clockwise, or clockwise. */
static const char *panel(struct room *room, double lean, bool clockwise, const char *hem, const char *more)
{
    const char *points = base_arena_print(
        room->a, "'points': { 'a': [0, 0], 'b': [300, 0], 'c': [%.17g, 400], 'd': [%.17g, 400] }, 'allowance': 15",
        300 - lean, lean);
    return clockwise
               ? base_arena_print(room->a,
                                  "%s, 'outline': [ { 'name': 'hem', 'path': ['b', 'a'], 'allowance': 40%s },"
                                  "  { 'name': 'left', 'path': ['a', 'd'] }, { 'name': 'top', 'path': ['d', 'c'] },"
                                  "  { 'name': 'right', 'path': ['c', 'b'] } ]%s",
                                  points, hem, more)
               : base_arena_print(room->a,
                                  "%s, 'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40%s },"
                                  "  { 'name': 'right', 'path': ['b', 'c'] }, { 'name': 'top', 'path': ['c', 'd'] },"
                                  "  { 'name': 'left', 'path': ['d', 'a'] } ]%s",
                                  points, hem, more);
}

static const double leans[] = { 0, 10, 50, 150, -10, -50, -100 };

enum { LEANS = sizeof leans / sizeof leans[0] };

/* Where the right side's cut line lies at a height: 400 (x - 300) + lean y = 15 hypot(400, lean). */
static double cut_of_side(double lean, double y)
{
    return 300 + (15 * hypot(400, lean) - lean * y) / 400;
}

/* Folded up along y = 0, every place of the hem's ends lies on the sides' cut lines. */
static void assert_lies_flat(const struct draft_piece *d, double lean)
{
    struct geometry_path cut = d->cut.path;
    int seen = 0;
    for (size_t i = 0; i < cut.count; i++)
        for (int part = 0; part <= 200; part++) {
            vec2 p = vec2_lerp(cut.points[i], cut.points[(i + 1) % cut.count], part / 200.0);
            if (p.y < -39.999 || p.y > -1e-9)
                continue;
            double x = p.x > 150 ? p.x : 300 - p.x;
            double off = fabs(x - cut_of_side(lean, -p.y)) * 400 / hypot(400, lean);
            if (off > FOLDED_MM)
                fail_msg("lean %g: %.4f mm off at %.3f %.3f", lean, off, p.x, p.y);
            seen++;
        }
    assert_true(seen > 30); /* of straight sides 40 mm of 455, twice; of others whole stretches */
}

static void a_hem_folded_back_lies_on_the_cut_lines_of_its_sides(void **state)
{
    struct room *room = *state;
    for (size_t i = 0; i < LEANS; i++)
        for (int clockwise = 0; clockwise < 2; clockwise++) {
            struct draft_piece d = draft_one(room, panel(room, leans[i], clockwise, ", 'ends': 'folded back'", ""));
            assert_lies_flat(&d, leans[i]);
            assert_point(d.cut.path, cut_of_side(leans[i], 40), -40);
            assert_point(d.cut.path, 300 - cut_of_side(leans[i], 40), -40);
        }
}

static void a_squared_hem_goes_straight_down_from_the_sides_seam(void **state)
{
    struct room *room = *state;
    for (size_t i = 0; i < LEANS; i++) {
        struct draft_piece d = draft_one(room, panel(room, leans[i], false, ", 'ends': 'square'", ""));
        double x = cut_of_side(leans[i], 0);
        assert_point(d.cut.path, x, -40);
        assert_point(d.cut.path, 300 - x, -40);
        if (leans[i] != 0)
            assert_point(d.cut.path, x, 0);
    }
}

/* The left side is a mitre: its cut line runs on to y = -40. */
static void each_end_of_an_edge_has_its_own_word(void **state)
{
    struct room *room = *state;
    for (int clockwise = 0; clockwise < 2; clockwise++) {
        const char *ends = clockwise ? ", 'ends': ['folded back', 'mitre']" : ", 'ends': ['mitre', 'folded back']";
        struct draft_piece d = draft_one(room, panel(room, 50, clockwise, ends, ""));
        assert_point(d.cut.path, cut_of_side(50, 40), -40);
        assert_point(d.cut.path, 300 - cut_of_side(50, -40), -40);
        assert_false(has_point(d.cut.path, 300 - cut_of_side(50, 0), 0));
    }
}

/* Across the diagonal at 15 mm from the corner (200, 0): x - y = 200 + 15 root 2. */
static void a_clipped_corner_is_cut_across_at_the_allowance(void **state)
{
    struct draft_piece d = draft_one(*state, "'rectangle': { 'width': 200, 'height': 300 }, 'allowance': 15,"
                                             "'ends': { 'right': ['clipped', 'mitre'], 'bottom': 'clipped' }");
    double across = 15 * sqrt(2);
    assert_point(d.cut.path, 200 + across - 15, -15);
    assert_point(d.cut.path, 215, 15 - across);
    assert_point(d.cut.path, 15 - across, -15);
    assert_point(d.cut.path, 215, 315);
    assert_int_equal(d.cut.path.count, 6);
}

/* On the fold at x = 0 the hem, folded back at both its ends, keeps to the fold's line; opened out it is folded back on
 * both halves. */
static void at_the_fold_a_hem_keeps_to_its_line(void **state)
{
    struct room *room = *state;
    struct draft_piece d =
        draft_one(room, "'points': { 'a': [0, -20], 'b': [300, 0], 'c': [250, 400], 'd': [0, 400] }, 'allowance': 15,"
                        "'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40, 'ends': 'folded back' },"
                        "  { 'name': 'side', 'path': ['b', 'c'] }, { 'name': 'top', 'path': ['c', 'd'] },"
                        "  { 'name': 'centre', 'path': ['d', 'a'] } ], 'fold': 'centre'");
    assert_true(d.has_fold);
    /* The hem falls by 20 over 300: its cut line lies 40 hypot(20, 300) / 300 below it, measured upright. */
    assert_point(d.cut.path, 0, -20 - 40 * hypot(20, 300) / 300);
    struct draft_piece whole = draft_unfold(room->a, &d);
    assert_near(geometry_path_area(whole.cut.path), 2 * geometry_path_area(d.cut.path), 1e-6);
    size_t images = 0;
    for (size_t i = 0; i < whole.cut.path.count; i++)
        images += has_point(whole.cut.path, -whole.cut.path.points[i].x, whole.cut.path.points[i].y);
    assert_int_equal(images, whole.cut.path.count);
}

/* ---- Notches ---- */

static void assert_notch(const struct draft_piece *d, size_t notch, double x, double y, double to_x, double to_y)
{
    const struct draft_notch_place *n = &d->notches[notch].places[0];
    assert_near(n->at.x, x, ROUNDING_MM);
    assert_near(n->at.y, y, ROUNDING_MM);
    assert_near(n->on_seam.x, to_x, ROUNDING_MM);
    assert_near(n->on_seam.y, to_y, ROUNDING_MM);
    double way = hypot(to_x - x, to_y - y);
    assert_near(n->inward.x, (to_x - x) / way, ROUNDING_MM);
    assert_near(n->inward.y, (to_y - y) / way, ROUNDING_MM);
}

/* Sides that lean out by 100 over 400: square to the side at its foot lies the hem's own turn-up, so the notch stands
 * where the side's cut line ends, on the hem's stitching line led on. Where they lean in, square to the side is its
 * own allowance. The hem's own notch is square to the hem, in the allowance. */
static void notches_at_a_folded_or_squared_hem_point_at_its_corner(void **state)
{
    struct room *room = *state;
    static const char *const marks = ", 'notches': [ { 'edge': 'right', '%s': 0 }, { 'edge': 'hem', '%s': 0 } ]";
    static const char *const words[] = { ", 'ends': 'folded back'", ", 'ends': 'square'" };
    for (int word = 0; word < 2; word++)
        for (int clockwise = 0; clockwise < 2; clockwise++) {
            const char *side = clockwise ? "from_end" : "at", *hem = clockwise ? "at" : "from_end";
            const char *notches = base_arena_print(room->a, marks, side, hem);
            struct draft_piece d = draft_one(room, panel(room, -100, clockwise, words[word], notches));
            assert_notch(&d, 0, cut_of_side(-100, 0), 0, 300, 0);
            assert_notch(&d, 1, 300, -40, 300, 0);
            d = draft_one(room, panel(room, 50, clockwise, words[word], notches));
            double length = hypot(400, 50);
            assert_notch(&d, 0, 300 + 15 * 400 / length, 15 * 50 / length, 300, 0);
        }
}

/* Sides at 45°: straight down from the hem's corner the turn-up's end is met after 15 root 2 mm of the hem's 40, so
 * that the notch stands where the side's cut line ends. */
static void a_notch_in_a_narrowing_turn_up_points_along_the_hem(void **state)
{
    struct draft_piece d =
        draft_one(*state, "'points': { 'a': [0, 0], 'b': [300, 0], 'c': [200, 100], 'd': [100, 100] }, 'allowance': 15,"
                          "'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40, 'ends': 'folded back' },"
                          "  { 'name': 'rest', 'path': ['b', 'c', 'd', 'a'] } ],"
                          "'notches': [ { 'edge': 'hem', 'from_end': 0 }, { 'edge': 'hem', 'at': 0 } ]");
    assert_notch(&d, 0, 300 + 15 * sqrt(2), 0, 300, 0);
    assert_notch(&d, 1, -15 * sqrt(2), 0, 0, 0);
}

static void a_notch_at_a_clipped_corner_points_at_it(void **state)
{
    struct draft_piece d =
        draft_one(*state, "'points': { 'a': [0, 0], 'b': [300, 0], 'c': [150, 100] }, 'allowance': 15,"
                          "'outline': [ { 'name': 'base', 'path': ['a', 'b'], 'ends': ['mitre', 'clipped'] },"
                          "  { 'name': 'right', 'path': ['b', 'c'] }, { 'name': 'left', 'path': ['c', 'a'] } ],"
                          "'notches': [ { 'edge': 'base', 'from_end': 0 } ]");
    const struct draft_notch_place *n = &d.notches[0].places[0];
    assert_true(geometry_path_holds(d.cut.path, (vec2){ (n->at.x + 300) / 2, n->at.y / 2 }));
    assert_near(n->on_seam.x, 300, ROUNDING_MM);
    assert_near(n->inward.x * (300 - n->at.x) + n->inward.y * (0 - n->at.y), hypot(n->at.x - 300, n->at.y),
                ROUNDING_MM);
}

/* A side 10 mm long at 60° to the hem: its cut line begins 8.66 mm up where the hem is folded back, past all its
 * quarters, and is cut all the same. */
static void a_short_edge_beside_a_folded_hem_is_not_told_to_be_swallowed(void **state)
{
    struct draft_piece d = draft_one(
        *state, "'points': { 'a': [0, 0], 'b': [300, 0], 'c': [305, 8.660254], 'd': [305, 400], 'e': [0, 400] },"
                "'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40, 'ends': ['mitre', 'folded back'] },"
                "  { 'name': 'short', 'path': ['b', 'c'] }, { 'name': 'rest', 'path': ['c', 'd', 'e', 'a'] } ],"
                "'allowance': 15");
    assert_point(d.cut.path, 300 + 15 / sqrt(0.75), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_hem_folded_back_lies_on_the_cut_lines_of_its_sides),
        room_test(a_squared_hem_goes_straight_down_from_the_sides_seam),
        room_test(each_end_of_an_edge_has_its_own_word),
        room_test(a_clipped_corner_is_cut_across_at_the_allowance),
        room_test(at_the_fold_a_hem_keeps_to_its_line),
        room_test(notches_at_a_folded_or_squared_hem_point_at_its_corner),
        room_test(a_notch_in_a_narrowing_turn_up_points_along_the_hem),
        room_test(a_notch_at_a_clipped_corner_points_at_it),
        room_test(a_short_edge_beside_a_folded_hem_is_not_told_to_be_swallowed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
