/* Girths over pieces whose widths follow from their corners. All hand-worked. */
#include "fit/girth.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

/* A rectangle of 300 × 200 (310 in size M) with a dart of 40 in its top, 100 deep; the same with the dart folded; a
 * trapezoid, 200 at its foot and 100 at its head, 100 high; a U, 100 wide with a gap of 40 from 30 up; a rectangle with
 * a dart lying in its right side, its middle at 100, and one whose lower leg is level there; and a square of 100 on its
 * corner, its grain along two sides. */
static const char pattern_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'mm', 'sizes': ['S', 'M'],"
    "  'chart': { 'hip': [900, 940] }, 'main_measurement': 'hip', 'measurements': ['wrist'],"
    "  'cup_groups': [ { 'name': 'A', 'bust': 900 }, { 'name': 'B', 'bust': 950 } ],"
    "  'girths': { 'hip': [ %s ] },"
    "  'pieces': ["
    "  { 'name': 'front', 'rectangle': { 'width': [300, 310], 'height': 200 }, 'points': { 'l': [130, 200],"
    "      'm': [170, 200], 'x': [150, 100], 'half': [0, 150], 'tenth': [20, 190], 'high': [0, 230] },"
    "    'curves': [ { 'name': 'tape', 'path': ['half', 'x', 'm'] } ],"
    "    'darts': [ { 'edge': 'top', 'legs': ['l', 'm'], 'apex': 'x' } ] },"
    "  { 'name': 'folded', 'rectangle': { 'width': 300, 'height': 200 }, 'points': { 'l': [130, 200], 'm': [170, 200],"
    "      'x': [150, 100], 'half': [0, 150] },"
    "    'darts': [ { 'edge': 'top', 'legs': ['l', 'm'], 'apex': 'x', 'fold': 'start' } ] },"
    "  { 'name': 'trapezoid', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [150, 100], 'd': [50, 100],"
    "      'half': [77, 50] }, 'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'd', 'a'] } ] },"
    "  { 'name': 'back', 'cup_group': 'A', 'rectangle': { 'width': 250, 'height': 200 } },"
    "  { 'name': 'back full', 'cup_group': 'B', 'rectangle': { 'width': 280, 'height': 200 } },"
    "  { 'name': 'u', 'points': { 'a': [0, 0], 'b': [100, 0], 'c': [100, 80], 'd': [70, 80], 'e': [70, 30],"
    "      'f': [30, 30], 'g': [30, 80], 'h': [0, 80], 'up': [0, 50] },"
    "    'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'a'] } ] },"
    "  { 'name': 'side', 'rectangle': { 'width': 300, 'height': 200 }, 'points': { 'l': [300, 90], 'm': [300, 110],"
    "      'x': [200, 100] }, 'darts': [ { 'edge': 'right', 'legs': ['l', 'm'], 'apex': 'x' } ] },"
    "  { 'name': 'level', 'rectangle': { 'width': 300, 'height': 200 }, 'points': { 'l': [300, 100], 'm': [300, 120],"
    "      'x': [200, 100] }, 'darts': [ { 'edge': 'right', 'legs': ['l', 'm'], 'apex': 'x' } ] },"
    "  { 'name': 'corner', 'points': { 'a': [0, 0], 'b': { 'from': 'a', 'angle': 37, 'at': 100 },"
    "      'c': { 'from': 'b', 'angle': 127, 'at': 100 }, 'd': { 'from': 'a', 'angle': 127, 'at': 100 },"
    "      'half': { 'from': 'b', 'towards': 'c', 'share': 0.5 } }, 'grain': ['a', 'd'],"
    "    'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'd', 'a'] } ] } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'count': 1 } ] } ] }";

static const struct pattern *with_parts(struct room *room, const char *parts)
{
    const char *hole = strstr(pattern_text, "%s");
    const char *json = room_json(room, base_arena_print(room->a, "%.*s%s%s", (int)(hole - pattern_text), pattern_text,
                                                        parts, hole + strlen("%s")));
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

static struct fit_girth measure(struct room *room, const char *parts, double position, int cup_group)
{
    const struct pattern *p = with_parts(room, parts);
    const struct draft_sized *sized = size_at(room->a, p, position, cup_group, room->errs);
    room_nothing_told(room);
    assert_true(fit_girth_can_be_measured(sized, &p->girths[0]));
    assert_near(fit_girth_mm(sized, "hip"), fit_girth_measure(room->a, sized, &p->girths[0]).mm, 0);
    return fit_girth_measure(room->a, sized, &p->girths[0]);
}

/* Half way down a dart its legs stand half its mouth apart, a tenth of the way nine tenths. */
static void a_level_line_is_as_long_as_the_cloth_on_it(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *piece, *level;
        double mm;
        size_t stretches;
        bool meets_mouth;
    } rows[] = {
        { "front", "near left", 300, 1, false },
        { "front", "x", 300, 1, false },
        { "front", "half", 300 - 20, 1, false },
        { "front", "tenth", 300 - 36, 1, false },
        { "front", "far right", 300 - 40, 1, false }, /* along the top itself */
        { "front", "high", 0, 0, false },
        { "folded", "half", 300 - 20, 1, false },
        { "folded", "l", 300 - 40, 1, false },
        { "trapezoid", "a", 200, 1, false },
        { "trapezoid", "half", 150, 1, false },
        { "trapezoid", "c", 100, 1, false },
        { "u", "a", 100, 1, false },
        { "u", "up", 60, 2, false },
        { "u", "e", 100, 1, false }, /* just below its gap it is whole */
        { "u", "g", 60, 2, false },
        { "side", "x", 200, 1, true }, /* the rest lies in the dart */
        { "side", "l", 300, 1, false },
        { "level", "x", 300, 1, false }, /* along its leg */
        { "corner", "half", 100, 1, false },
        { "corner", "c", 100, 1, false },
        { "corner", "b", 100, 1, false },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *part =
            base_arena_print(room->a, "{ 'piece': '%s', 'level': '%s', 'times': 1 }", rows[i].piece, rows[i].level);
        struct fit_girth m = measure(room, part, 0, 0);
        if (fabs(m.mm - rows[i].mm) > 1e-6 || m.parts[0].stretches != rows[i].stretches ||
            m.parts[0].meets_mouth != rows[i].meets_mouth)
            fail_msg("%s at %s: %g mm in %zu", rows[i].piece, rows[i].level, m.mm, m.parts[0].stretches);
    }
}

/* By hand: 2 × 280 and the back of the group; 5 more on either side of the fold half way to size M. */
static void a_girth_is_the_sum_of_its_parts_in_the_cup_group(void **state)
{
    struct room *room = *state;
    static const char parts[] = "{ 'piece': 'front', 'level': 'half', 'times': 2 },"
                                "{ 'piece': 'back', 'level': 'near left', 'times': 1 },"
                                "{ 'piece': 'back full', 'level': 'near left', 'times': 1 }";
    struct fit_girth m = measure(room, parts, 0, 0);
    assert_near(m.mm, 560 + 250, 1e-9);
    assert_true(m.parts[0].counts && m.parts[1].counts && !m.parts[2].counts);
    assert_near(measure(room, parts, 0, 1).mm, 560 + 280, 1e-9);
    assert_near(measure(room, parts, 0.5, 0).mm, 570 + 250, 1e-9);
}

/* The top without its dart's mouth, twice; a curve of 50√10 to the apex (150 across, 50 down) and a leg of 20√26. */
static void an_edge_counts_as_it_is_sewn(void **state)
{
    struct room *room = *state;
    assert_near(measure(room, "{ 'edge': 'front.top', 'times': 2 }", 0, 0).mm, 2 * 260, 1e-9);
    assert_near(measure(room, "{ 'edge': 'folded.top', 'times': 1 }", 0, 0).mm, 260, 1e-9);
    assert_near(measure(room, "{ 'edge': 'front.right', 'times': 3 }", 0, 0).mm, 600, 1e-9);
    assert_near(measure(room, "{ 'edge': 'front.tape', 'times': 1 }", 0, 0).mm, 50 * sqrt(10) + 20 * sqrt(26), 1e-9);
}

static void a_girth_of_other_cup_groups_alone_cannot_be_measured(void **state)
{
    struct room *room = *state;
    const struct pattern *p = with_parts(room, "{ 'piece': 'back', 'level': 'near left', 'times': 2 }");
    const struct draft_sized *in[] = { size_at(room->a, p, 0, 0, room->errs), size_at(room->a, p, 0, 1, room->errs) };
    assert_true(fit_girth_can_be_measured(in[0], &p->girths[0]));
    assert_false(fit_girth_can_be_measured(in[1], &p->girths[0]));
    assert_near(fit_girth_mm(in[1], "hip"), 0, 0);
    assert_near(fit_girth_mm(in[0], "wrist"), 0, 0); /* not measured at all */
}

/* A rectangle of 320 cut with allowances of 10 is sewn 300 wide, along its middle and along its top as sewn; where it
 * is cut there is no sewn cloth. */
static void a_piece_drawn_by_its_cutting_line_is_measured_where_it_is_sewn(void **state)
{
    struct room *room = *state;
    const char *json = room_json(
        room, "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'cutting line', 'name': 'P', 'unit': 'mm',"
              "  'sizes': ['S'], 'chart': { 'hip': [900], 'waist': [700], 'knee': [400] }, 'main_measurement': 'hip',"
              "  'girths': { 'hip': [ { 'piece': 'front', 'level': 'half', 'times': 1 } ],"
              "    'waist': [ { 'edge': 'front.top', 'times': 1 } ],"
              "    'knee': [ { 'piece': 'front', 'level': 'far left', 'times': 1 } ] },"
              "  'pieces': [ { 'name': 'front', 'rectangle': { 'width': 320, 'height': 200 }, 'allowance': 10,"
              "      'points': { 'half': [0, 100] } } ],"
              "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'count': 1 } ] } ] }");
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    const struct draft_sized *sized = size_at(room->a, p, 0, PATTERN_NONE, room->errs);
    assert_near(fit_girth_mm(sized, "hip"), 300, 1e-6);
    assert_near(fit_girth_mm(sized, "waist"), 300, 1e-6);
    assert_near(fit_girth_mm(sized, "knee"), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_level_line_is_as_long_as_the_cloth_on_it),
        room_test(a_girth_is_the_sum_of_its_parts_in_the_cup_group),
        room_test(an_edge_counts_as_it_is_sewn),
        room_test(a_piece_drawn_by_its_cutting_line_is_measured_where_it_is_sewn),
        room_test(a_girth_of_other_cup_groups_alone_cannot_be_measured),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
