/* Patterns drawn by their cutting line: the same piece given by its stitching line, and by the cutting line that comes
 * of it, drafts to the same lines and marks. The rest is hand-worked. */
#include "draft/draft.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

#define SAME_MM 0.02
#define ROUNDING_MM 1e-6

static const struct pattern *parse(struct room *room, const char *head, const char *pieces)
{
    const char *text = base_arena_print(room->a,
                                        "{ 'chalklight': 'pattern', %s, 'name': 'P', 'unit': 'mm',"
                                        "  'sizes': ['S'], 'chart': { 'hip': [900] }, 'main_measurement': 'hip',"
                                        "  'pieces': [ %s ],"
                                        "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }",
                                        head, pieces);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "pattern.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

#define STITCHING "'version': 2, 'outline': 'stitching line'"
#define CUTTING "'version': 2, 'outline': 'cutting line'"

static struct draft draft_for(struct room *room, const struct pattern *p, bool trial)
{
    struct draft_figure figure = draft_figure_at(0, PATTERN_NONE);
    struct draft draft;
    figure.trial = trial;
    bool ok = draft_make(room->a, p, &figure, PATTERN_NONE, &draft, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    return draft;
}

/* ---- A front, by both its lines ---- */

static const struct {
    const char *name;
    double allowance_mm;
} edges[] = { { "hem", 40 }, { "side", 15 }, { "armhole", 10 }, { "shoulder", 15 }, { "neck", 6 }, { "centre", 0 } };

enum { EDGES = sizeof edges / sizeof edges[0] };

#define MARKS                                                                                                          \
    "'notches': [ { 'edge': 'side', 'at': 70 }, { 'edge': 'armhole', 'at': 61.5, 'double': true },"                    \
    "  { 'edge': 'neck', 'from_end': 33, 'shape': 'v' }, { 'edge': 'side', 'at': 0 }, { 'edge': 'shoulder', 'at': 0 "  \
    "} ]"

#define FRONT                                                                                                          \
    "{ 'name': 'p', 'points': { 'a': [0, 0], 'b': [240, 0], 'c': [220, 300], 'c1': [170, 310], 'c2': [185, 380],"      \
    "    'd': [190, 430], 'e': [90, 455], 'e1': [80, 400], 'e2': [60, 370], 'f': [0, 370],"                            \
    "    'm': [100, 0], 'l': [120, 0], 'x': [110, 100] },"                                                             \
    "  'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40 },"                                           \
    "    { 'name': 'side', 'path': ['b', 'c'], 'allowance': 15 },"                                                     \
    "    { 'name': 'armhole', 'path': ['c', ['c1', 'c2', 'd']], 'allowance': 10 },"                                    \
    "    { 'name': 'shoulder', 'path': ['d', 'e'], 'allowance': 15 },"                                                 \
    "    { 'name': 'neck', 'path': ['e', ['e1', 'e2', 'f']], 'allowance': 6 },"                                        \
    "    { 'name': 'centre', 'path': ['f', 'a'] } ], 'fold': 'centre',"                                                \
    "  'darts': [ { 'edge': 'hem', 'legs': ['m', 'l'], 'apex': 'x' } ], " MARKS " }"

/* The point of the cut line where the cut lines of the edges on both hands of an outline's point meet. */
static size_t cut_corner(const struct draft_piece *d, size_t edge)
{
    struct geometry_path seam = d->seam.path, cut = d->cut.path;
    size_t i = d->edges[edge].first, n = seam.count;
    vec2 p = seam.points[i], before = vec2_right(vec2_unit(vec2_sub(p, seam.points[(i + n - 1) % n])));
    vec2 after = vec2_right(vec2_unit(vec2_sub(seam.points[(i + 1) % n], p)));
    double a = edges[(edge + EDGES - 1) % EDGES].allowance_mm, b = edges[edge].allowance_mm;
    double turn = vec2_cross(before, after);
    vec2 at = { p.x + (a * after.y - b * before.y) / turn, p.y + (b * before.x - a * after.x) / turn };
    for (size_t k = 0; k < cut.count; k++)
        if (vec2_length(vec2_sub(cut.points[k], at)) < ROUNDING_MM)
            return k;
    fail_msg("no corner of the cut line before edge %s", edges[edge].name);
    return 0;
}

/* The way of an edge along the cut line as names of points; backwards from its end. */
static const char *path_of(struct room *room, size_t from, size_t to, size_t count, bool backwards)
{
    const char *path = base_arena_print(room->a, "'p%zu'", from);
    for (size_t k = from; k != to;) {
        k = (k + 1) % count;
        path = backwards ? base_arena_print(room->a, "'p%zu', %s", k, path)
                         : base_arena_print(room->a, "%s, 'p%zu'", path, k);
    }
    return path;
}

/* The dart's legs are drawn from the cutting line, 40 below: 14 to either side of the apex. */
static const char *by_cutting_line(struct room *room, const struct draft_piece *d, bool clockwise, const char *marks)
{
    struct geometry_path cut = d->cut.path;
    const char *points = "'m': [96, -40], 'l': [124, -40], 'x': [110, 100]", *outline = "";
    for (size_t i = 0; i < cut.count; i++)
        points = base_arena_print(room->a, "%s, 'p%zu': [%.17g, %.17g]", points, i, cut.points[i].x, cut.points[i].y);
    for (size_t i = 0; i < EDGES; i++) {
        size_t e = clockwise ? EDGES - 1 - i : i;
        const char *path = path_of(room, cut_corner(d, e), cut_corner(d, (e + 1) % EDGES), cut.count, clockwise);
        outline = base_arena_print(room->a, "%s%s{ 'name': '%s', 'path': [%s], 'allowance': %g }", outline,
                                   i ? ", " : "", edges[e].name, path, edges[e].allowance_mm);
    }
    return base_arena_print(room->a,
                            "{ 'name': 'p', 'points': { %s }, 'outline': [ %s ], 'fold': 'centre',"
                            "  'darts': [ { 'edge': 'hem', 'legs': ['m', 'l'], 'apex': 'x' } ]%s }",
                            points, outline, marks);
}

static void assert_lies_on(struct geometry_path path, struct geometry_path line)
{
    double along;
    for (size_t i = 0; i < path.count; i++)
        if (geometry_path_distance(line, path.points[i], &along) > SAME_MM)
            fail_msg("%.4f %.4f is %.4f mm off", path.points[i].x, path.points[i].y,
                     geometry_path_distance(line, path.points[i], &along));
}

static void assert_same_line(struct geometry_path one, struct geometry_path other)
{
    assert_lies_on(one, other);
    assert_lies_on(other, one);
}

static void assert_same_place(struct piece_pt one, struct piece_pt other)
{
    if (hypot(one.x - other.x, one.y - other.y) > SAME_MM)
        fail_msg("%.4f %.4f instead of %.4f %.4f", one.x, one.y, other.x, other.y);
}

static void assert_same_marks(const struct draft_piece *one, const struct draft_piece *other)
{
    assert_int_equal(one->notch_count, other->notch_count);
    for (size_t i = 0; i < one->notch_count; i++) {
        assert_int_equal(one->notches[i].place_count, other->notches[i].place_count);
        assert_near(one->notches[i].depth_mm, other->notches[i].depth_mm, SAME_MM);
        for (size_t p = 0; p < one->notches[i].place_count; p++) {
            assert_same_place(one->notches[i].places[p].at, other->notches[i].places[p].at);
            assert_same_place(one->notches[i].places[p].on_seam, other->notches[i].places[p].on_seam);
        }
    }
    assert_int_equal(one->line_count, other->line_count);
    for (size_t i = 0; i < one->line_count; i++) {
        assert_same_place(one->lines[i].ends[0], other->lines[i].ends[0]);
        assert_same_place(one->lines[i].ends[1], other->lines[i].ends[1]);
    }
}

static void both_lines_of_a_piece_draft_to_the_same(void **state)
{
    struct room *room = *state;
    for (int trial = 0; trial < 2; trial++) {
        const struct pattern *p = parse(room, STITCHING, FRONT);
        struct draft_piece d = draft_for(room, p, false).pieces[0];
        const struct pattern *by_cut = parse(room, CUTTING, by_cutting_line(room, &d, false, ", " MARKS));
        struct draft_piece want = draft_for(room, p, trial).pieces[0];
        struct draft_piece got = draft_for(room, by_cut, trial).pieces[0];
        assert_same_line(got.seam.path, want.seam.path);
        assert_same_line(got.cut.path, want.cut.path);
        assert_same_marks(&got, &want);
        for (size_t e = 0; e < EDGES; e++)
            assert_near(got.edges[e].length_mm, want.edges[e].length_mm, SAME_MM);
        assert_same_place(got.fold[0], want.fold[0]);
        assert_same_place(got.fold[1], want.fold[1]);
    }
}

static void a_cutting_line_may_be_written_clockwise(void **state)
{
    struct room *room = *state;
    struct draft_piece d = draft_for(room, parse(room, STITCHING, FRONT), false).pieces[0];
    const char *notch = ", 'notches': [ { 'edge': 'side', 'from_end': 70 } ]";
    struct draft_piece got =
        draft_for(room, parse(room, CUTTING, by_cutting_line(room, &d, true, notch)), false).pieces[0];
    assert_same_line(got.seam.path, d.seam.path);
    assert_same_line(got.cut.path, d.cut.path);
    assert_same_place(got.notches[0].places[0].at, d.notches[0].places[0].at);
    for (size_t e = 0; e < EDGES; e++)
        assert_near(got.edges[EDGES - 1 - e].length_mm, d.edges[e].length_mm, SAME_MM);
}

/* ---- What means which line ---- */

/* A square cut 230 wide is sewn 200 wide; a band for it, cut 30 longer than that, is sewn to it. A point 50 mm along
 * its lower edge is 50 mm along the line as it is drawn. */
static void lengths_are_sewn_and_points_are_drawn(void **state)
{
    struct room *room = *state;
    const struct pattern *p =
        parse(room, CUTTING,
              "{ 'name': 'p', 'rectangle': { 'width': 230, 'height': 100 }, 'allowance': 15,"
              "  'points': { 'q': { 'on': 'bottom', 'at': 50 } }, 'drill_marks': ['q'] },"
              "{ 'name': 'band', 'rectangle': { 'width': 'length(p.bottom) + 30', 'height': 70 }, 'allowance': [15] }");
    struct draft draft = draft_for(room, p, false);
    assert_near(draft.pieces[0].edges[0].length_mm, 200, ROUNDING_MM);
    assert_near(draft.pieces[1].edges[0].length_mm, 200, ROUNDING_MM);
    assert_near(draft.pieces[1].edges[1].length_mm, 40, ROUNDING_MM);
    assert_near(draft.pieces[0].drill_marks[0].x, 50, ROUNDING_MM);
    assert_near(geometry_path_area(draft.pieces[0].seam.path), 200 * 70, ROUNDING_MM);
    assert_near(geometry_path_area(draft.pieces[0].cut.path), 230 * 100, ROUNDING_MM);
}

static void in_version_1_the_outline_is_the_stitching_line(void **state)
{
    struct room *room = *state;
    static const char piece[] = "{ 'name': 'p', 'rectangle': { 'width': 200, 'height': 70 }, 'allowance': 15 }";
    struct draft old = draft_for(room, parse(room, "'version': 1", piece), false);
    struct draft now = draft_for(room, parse(room, STITCHING, piece), false);
    assert_near(geometry_path_area(old.pieces[0].cut.path), 230 * 100, ROUNDING_MM);
    assert_near(geometry_path_area(now.pieces[0].cut.path), 230 * 100, ROUNDING_MM);
    assert_near(geometry_path_area(now.pieces[0].seam.path), 200 * 70, ROUNDING_MM);
}

static void a_hem_folded_back_is_cut_within_the_corners_as_drawn(void **state)
{
    struct room *room = *state;
    /* Cut 230 wide at y = -40; sides that lean in by 45°: the stitching line's corner, 40 up, is 40 and 15 root 2 in.
     */
    const struct pattern *p =
        parse(room, CUTTING,
              "{ 'name': 'p', 'points': { 'a': [0, -40], 'b': [400, -40], 'c': [300, 60],"
              "    'd': [100, 60] }, 'allowance': 15,"
              "  'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40,"
              "      'ends': 'folded back' }, { 'name': 'rest', 'path': ['b', 'c', 'd', 'a'] } ] }");
    struct draft_piece d = draft_for(room, p, false).pieces[0];
    assert_near(d.edges[0].length_mm, 400 - 2 * (40 + 15 * sqrt(2)), ROUNDING_MM);
    /* 40 up the side's cut line is at 320, so that is where its mirror image ends. */
    double along;
    assert_near(geometry_path_distance(d.cut.path, (vec2){ 320, -40 }, &along), 0, ROUNDING_MM);
    assert_true(geometry_path_distance(d.cut.path, (vec2){ 400, -40 }, &along) > 30);
}

#define SHARP                                                                                                          \
    "{ 'name': 'p', 'allowance': 15, 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [100, 800] },"                       \
    "  'outline': [ { 'name': 'base', 'path': ['a', 'b'] },"                                                           \
    "    { 'name': 'right', 'path': ['b', 'c'] }, { 'name': 'left', 'path': ['c', 'a'] } ] }"

/* It is cut on the line that is drawn, whatever a line grown from the stitching line would be: the tip, too. */
static void a_tip_is_cut_as_it_is_drawn(void **state)
{
    struct room *room = *state;
    struct draft_piece d = draft_for(room, parse(room, CUTTING, SHARP), false).pieces[0];
    assert_int_equal(d.cut.path.count, 3);
    assert_near(geometry_path_area(d.cut.path), 80000, ROUNDING_MM); /* 200 × 800 / 2 */
    assert_true(geometry_path_area(d.seam.path) < 80000 - 15 * (200 + 2 * 806) / 2.0);
}

/* A tip of 2 atan(1/8), 14°: its cut line would run on to 15 hypot(1, 8) = 121 mm from the stitching line's corner, and
 * is cut off square at four allowances, 60 mm: the tip is 61 short. So a trial's own allowances, too, begin at a line
 * that is not quite what was meant. */
static void a_tip_too_sharp_to_grow_from_is_warned_of(void **state)
{
    struct room *room = *state;
    const struct pattern *p = parse(room, CUTTING, SHARP);
    struct draft_figure figure = draft_figure_at(0, PATTERN_NONE);
    struct draft draft;
    figure.trial = true;
    assert_true(draft_make(room->a, p, &figure, PATTERN_NONE, &draft, room->errs));
    const struct err *e = room_only_told(room, "draft.not_as_drawn");
    assert_near(e->args[2].number, 15 * hypot(1, 8) - 60, 0.01);
}

/* A belt 29 mm wide has no room for allowances of 15 mm on both sides. */
static void what_is_too_narrow_for_its_allowances_is_cut_all_the_same(void **state)
{
    struct room *room = *state;
    const struct pattern *p =
        parse(room, CUTTING, "{ 'name': 'p', 'rectangle': { 'width': 29, 'height': 300 }, 'allowance': 15 }");
    struct draft draft;
    assert_true(make_at_size(room->a, p, 0, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    room_only_told(room, "draft.not_sewn");
    assert_near(geometry_path_area(draft.pieces[0].cut.path), 29 * 300, ROUNDING_MM);
    struct draft_figure figure = draft_figure_at(0, PATTERN_NONE);
    figure.trial = true; /* other allowances have no line to be added to */
    room_forget(room);
    assert_false(draft_make(room->a, p, &figure, PATTERN_NONE, &draft, room->errs));
    room_only_told(room, "draft.no_inset");
}

/* ---- What cannot be ---- */

static void what_cannot_be_is_told_once(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *code, *pieces;
    } rows[] = {
        { "draft.no_inset",
          "{ 'name': 'p', 'allowance': 5, 'points': { 'a': [0, 0], 'b': [90, 90], 'c': [0, 90], 'd': [90, 0] },"
          "  'outline': [ { 'name': 'e', 'path': ['a', 'b', 'c', 'd', 'a'] } ] }" },
        { "draft.cycle",
          "{ 'name': 'p', 'allowance': 5, 'points': { 'a': [0, 0], 'b': [90, 0], 'c': [0, 'length(e)'] },"
          "  'outline': [ { 'name': 'e', 'path': ['a', 'b'] }, { 'name': 'f', 'path': ['b', 'c', 'a'] } ] }" },
        { "draft.cycle",
          "{ 'name': 'p', 'rectangle': { 'width': 90, 'height': 90 }, 'allowance': 'length(top) / 9' }" },
        { "draft.dart_off", "{ 'name': 'p', 'rectangle': { 'width': 90, 'height': 90 }, 'allowance': 15,"
                            "  'points': { 'm': [300, 0], 'l': [320, 0], 'x': [40, 40] },"
                            "  'darts': [ { 'edge': 'bottom', 'legs': ['m', 'l'], 'apex': 'x' } ] }" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct draft draft;
        const struct pattern *p = parse(room, CUTTING, rows[i].pieces);
        assert_false(make_at_size(room->a, p, 0, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
        room_only_told(room, rows[i].code);
        room_forget(room);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(both_lines_of_a_piece_draft_to_the_same),
        room_test(a_cutting_line_may_be_written_clockwise),
        room_test(lengths_are_sewn_and_points_are_drawn),
        room_test(in_version_1_the_outline_is_the_stitching_line),
        room_test(a_hem_folded_back_is_cut_within_the_corners_as_drawn),
        room_test(a_tip_is_cut_as_it_is_drawn),
        room_test(a_tip_too_sharp_to_grow_from_is_warned_of),
        room_test(what_is_too_narrow_for_its_allowances_is_cut_all_the_same),
        room_test(what_cannot_be_is_told_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
