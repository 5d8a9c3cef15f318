#include "pattern/read.h"
#include "sizing/choose.h"
#include "sizing/en_13402.h"
#include "support/room.h"

/* Sizes by upper bust in even steps of 4 cm, cup groups by full bust; a hip row with a step that is larger at the end.
 */
#define CUP_PATTERN                                                                                                    \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Cups', 'unit': 'cm', 'sizes': ['S', 'M', 'L'],"                 \
    "  'chart': { 'upper bust': [80, 84, 88], 'hip': [90, 94, 104] }, 'main_measurement': 'upper bust',"               \
    "  'cup_groups': [ { 'name': 'A-B', 'bust': [84, 88, 92] }, { 'name': 'C-D', 'bust': [89, 93, 97] } ],"            \
    "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"                                       \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"

static const struct pattern *pattern_of(struct room *room, const char *text)
{
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "pattern.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

static const struct sizing_body *body_of(struct room *room, const char *measurements)
{
    const char *json =
        room_json(room, base_arena_print(room->a,
                                         "{ 'chalklight': 'body', 'version': 1, 'name': 'G', 'unit': 'cm',\n"
                                         "  'measurements': { %s } }",
                                         measurements));
    const struct sizing_body *body = sizing_body_parse(room->a, "guide.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(body);
    return body;
}

static struct sizing_choice choose(struct room *room, const struct pattern *pattern, const char *measurements)
{
    struct sizing_choice choice;
    assert_true(sizing_choose(room->a, pattern, body_of(room, measurements), &choice, room->errs));
    return choice;
}

static struct sizing_choice choose_by_bust(struct room *room, const struct pattern *pattern, double cm)
{
    return choose(room, pattern, base_arena_print(room->a, "'bust': %.17g", cm));
}

/* The size named beside the chosen one, or the chosen one when it is clear. */
static int rival(const struct sizing_choice *c)
{
    return (int)(c->other ? c->other->size : c->size);
}

/* A tape's smallest step here is 1 mm: the last reading below an edge belongs to the class below, the edge itself to
 * the class above. */
static void the_size_is_the_standards_class_at_both_edges_of_every_class(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, EN_BUST_PATTERN);
    for (size_t i = 0; i < EN_CLASSES; i++) {
        struct sizing_choice lower = choose_by_bust(room, p, en_rows[EN_BUST].edge_cm[i]);
        struct sizing_choice centre = choose_by_bust(room, p, en_rows[EN_BUST].centre_cm[i]);
        struct sizing_choice last = choose_by_bust(room, p, en_rows[EN_BUST].edge_cm[i + 1] - 0.1);
        assert_int_equal(lower.size, i);
        assert_int_equal(rival(&lower), i ? i - 1 : 0); /* an edge is as near to the class below */
        assert_int_equal(lower.tie, i > 0);
        assert_int_equal(centre.size, i);
        assert_int_equal(rival(&centre), i);
        assert_near(centre.position, (double)i, 0);
        assert_int_equal(last.size, i);
        assert_int_equal(rival(&last), i + 1 < EN_CLASSES ? i + 1 : i); /* 1 mm from the middle */
        assert_false(lower.below || lower.above || last.below || last.above);
    }
    room_nothing_told(room);
}

static void outside_the_outermost_classes_the_end_size_is_taken_with_a_warning(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, EN_BUST_PATTERN);
    struct sizing_choice below = choose_by_bust(room, p, en_rows[EN_BUST].edge_cm[0] - 0.1);
    assert_int_equal(below.size, 0);
    assert_true(below.below && !below.above);
    const struct err *e = room_only_told(room, "sizing.outside");
    assert_int_equal(e->kind->severity, ERR_WARNING);
    assert_int_equal(e->place.line, 2);
    assert_string_equal(e->args[0].text, "bust");
    assert_near(e->args[1].number, 739, 1e-9);
    assert_near(e->args[2].number, 760, 0);
    assert_near(e->args[3].number, 1280, 0);
    room_forget(room);
    struct sizing_choice above = choose_by_bust(room, p, en_rows[EN_BUST].edge_cm[EN_CLASSES]);
    assert_int_equal(above.size, EN_CLASSES - 1);
    assert_true(above.above && !above.below);
    room_only_told(room, "sizing.outside");
}

/* By hand: 86.2 lies 2.2 and 1.8 from its neighbours, 85.98 lies 1.98 and 2.02, which no tape tells apart. */
static void a_tie_is_told_within_what_a_tape_can_tell_apart(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, EN_BUST_PATTERN);
    struct sizing_choice clear = choose_by_bust(room, p, 86.2), near = choose_by_bust(room, p, 85.98);
    assert_int_equal(clear.size, 3);
    assert_false(clear.tie);
    assert_int_equal(near.size, 3);
    assert_true(near.tie);
    assert_int_equal(rival(&near), 2);
}

/* A quarter of a step either side of the middle, that included: between two classes of EN 13402-3, 4 cm apart, from 1
 * cm below their common edge to 1 cm above; where they are 6 cm apart, 1.5 cm. A millimetre further one is clear. */
static void close_to_the_middle_both_neighbours_are_named(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, EN_BUST_PATTERN);
    for (size_t i = 0; i + 1 < EN_CLASSES; i++) {
        const double *centre = &en_rows[EN_BUST].centre_cm[i];
        double edge = en_rows[EN_BUST].edge_cm[i + 1], quarter = (centre[1] - centre[0]) / 4;
        struct sizing_choice low = choose_by_bust(room, p, edge - quarter);
        struct sizing_choice high = choose_by_bust(room, p, edge + quarter);
        struct sizing_choice clear_low = choose_by_bust(room, p, edge - quarter - 0.1);
        struct sizing_choice clear_high = choose_by_bust(room, p, edge + quarter + 0.1);
        assert_int_equal(low.size, i);
        assert_int_equal(rival(&low), i + 1);
        assert_int_equal(high.size, i + 1);
        assert_int_equal(rival(&high), i);
        assert_false(low.tie || high.tie);
        assert_null(clear_low.other);
        assert_null(clear_high.other);
        assert_null(low.other->other);
    }
}

/* What follows from the rival size is worked out too: upper bust 85.5 lies 1.5 from 84 and 2.5 from 88; a bust of 92 is
 * nearest to group C-D (93) in size M and to A-B (92) in size L. In between, 0.375 of the way, 0.4 to a tenth, A-B is
 * drawn for 89.6 and C-D for 94.6: 92 lies 2.4 and 2.6 from them. */
static void the_rival_size_has_a_cup_group_and_reasons_of_its_own(void **state)
{
    struct room *room = *state;
    struct sizing_choice c = choose(room, pattern_of(room, CUP_PATTERN), "'upper bust': 85.5, 'bust': 92");
    assert_int_equal(c.size, 1);
    assert_int_equal(c.cup_group, 1);
    assert_int_equal(rival(&c), 2);
    assert_int_equal(c.other->cup_group, 0);
    assert_int_equal(c.other->reason_count, 2);
    assert_near(c.other->reasons[0].chart_mm, 880, 0);
    assert_near(c.other->reasons[1].chart_mm, 920, 0);
    assert_near(c.between->position, 1.4, 1e-15);
    assert_int_equal(c.between->size, 1);
    assert_int_equal(c.between->cup_group, 0);
    assert_near(c.between->reasons[0].chart_mm, 856, 1e-9);
    assert_near(c.between->reasons[1].chart_mm, 896, 1e-9);
    assert_null(c.between->other);
    assert_null(c.between->between);
}

static void the_cup_group_is_the_nearest_by_full_bust_at_the_chosen_size(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, CUP_PATTERN);
    struct sizing_choice full = choose(room, p, "'upper bust': 84, 'bust': 92");
    assert_int_equal(full.size, 1);
    assert_int_equal(full.cup_group, 1);
    assert_int_equal(full.cup_tie, 1);
    assert_int_equal(full.bust.source, SIZING_MEASURED);
    assert_near(full.bust.mm, 920, 0);
    assert_near(full.cup_chart_mm, 930, 0);
    /* The same full bust a size up is the smaller group's. */
    struct sizing_choice small = choose(room, p, "'upper bust': 88, 'bust': 92");
    assert_int_equal(small.size, 2);
    assert_int_equal(small.cup_group, 0);
    assert_int_equal(small.cup_tie, 0);
    assert_near(small.cup_chart_mm, 920, 0);
}

static void a_full_bust_midway_between_two_cup_groups_is_a_tie(void **state)
{
    struct room *room = *state;
    struct sizing_choice c = choose(room, pattern_of(room, CUP_PATTERN), "'upper bust': 84, 'bust': 90.5");
    assert_int_equal(c.cup_group, 1);
    assert_int_equal(c.cup_tie, 0);
}

static void a_pattern_without_cup_groups_needs_no_bust(void **state)
{
    struct room *room = *state;
    struct sizing_choice c = choose_by_bust(room, pattern_of(room, EN_BUST_PATTERN), 92);
    assert_int_equal(c.cup_group, PATTERN_NONE);
    assert_int_equal(c.cup_tie, PATTERN_NONE);
}

static void measurements_that_are_needed_and_missing_are_told_together(void **state)
{
    struct room *room = *state;
    struct sizing_choice c;
    assert_false(sizing_choose(room->a, pattern_of(room, CUP_PATTERN), body_of(room, "'hip': 94"), &c, room->errs));
    assert_int_equal(room->errs->faults, 2);
    assert_true(base_err_list_has(room->errs, "sizing.no_main"));
    assert_string_equal(room->errs->items[0].place.path, "measurements"); /* of none that is there */
    assert_true(base_err_list_has(room->errs, "sizing.no_bust"));
}

/* The chart of CUP_PATTERN with a bust row, 5 cm fuller than the upper bust in S, 6 in M, 9 in L. */
#define FULL_PATTERN                                                                                                   \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Cups', 'unit': 'cm', 'sizes': ['S', 'M', 'L'],"                 \
    "  'chart': { 'upper bust': [80, 84, 88], 'bust': [85, 90, 97] }, 'main_measurement': 'upper bust',"               \
    "  'cup_groups': [ { 'name': 'A-B', 'bust': [84, 88, 92] }, { 'name': 'C-D', 'bust': [89, 93, 97] } ],"            \
    "  'finished': { 'bust': { 'A-B': [92, 96, 100], 'C-D': [97, 101, 105] } },"                                       \
    "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"                                       \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }"

/* By hand: upper bust 87 picks L, where the chart has 9 cm more: 96, nearest to C-D (97). */
static void a_missing_full_bust_is_estimated_by_the_charts_own_difference(void **state)
{
    struct room *room = *state;
    struct sizing_choice c = choose(room, pattern_of(room, FULL_PATTERN), "'upper bust': 87");
    assert_int_equal(c.size, 2);
    assert_int_equal(c.bust.source, SIZING_FROM_UPPER_BUST);
    assert_near(c.bust.mm, 960, 0);
    assert_int_equal(c.cup_group, 1);
    assert_false(c.cup_below || c.cup_above);
    const struct err *e = room_only_told(room, "sizing.bust_estimated");
    assert_int_equal(e->kind->severity, ERR_WARNING);
    assert_near(e->args[0].number, 960, 0);
    assert_string_equal(e->args[2].text, "C-D");
}

/* Where the chart has no bust the difference is 2 in, 50.8 mm: 84 cm gives 891 to the millimetre, nearest to A-B (880).
 */
static void without_a_bust_in_the_chart_two_inches_are_added_to_the_upper_bust(void **state)
{
    struct room *room = *state;
    struct sizing_choice c = choose(room, pattern_of(room, CUP_PATTERN), "'upper bust': 84");
    assert_near(c.bust.mm, 891, 0);
    assert_int_equal(c.cup_group, 0);
    room_only_told(room, "sizing.bust_estimated");
}

static void with_neither_bust_the_charts_bust_at_the_named_size_tells_the_group(void **state)
{
    struct room *room = *state;
    struct sizing_choice c;
    const struct pattern *p = pattern_of(room, FULL_PATTERN);
    assert_true(sizing_choose_named(room->a, p, body_of(room, "'waist': 70"), 2, PATTERN_NONE, &c, room->errs));
    assert_int_equal(c.bust.source, SIZING_FROM_CHART);
    assert_near(c.bust.mm, 970, 0);
    assert_int_equal(c.cup_group, 1);
    assert_true(base_err_list_has(room->errs, "sizing.bust_estimated"));
}

/* By hand: a bust of 88 lies 3/5 of the way from 85 to 90, where the chart has 5.6 cm less above: 82.4, nearest to M. A
 * bust beyond the chart keeps the end's difference: 98 less 9. */
static void a_missing_upper_bust_is_estimated_from_the_full_bust(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, FULL_PATTERN);
    struct sizing_choice c = choose(room, p, "'bust': 88");
    assert_int_equal(c.main.source, SIZING_FROM_BUST);
    assert_near(c.main.mm, 824, 0);
    assert_int_equal(c.size, 1);
    assert_int_equal(c.cup_group, 0);
    room_only_told(room, "sizing.upper_bust_estimated");
    room_forget(room);
    assert_near(choose(room, p, "'bust': 98").main.mm, 890, 0);
    room_forget(room);
    assert_near(choose(room, pattern_of(room, CUP_PATTERN), "'bust': 90").main.mm, 849, 0); /* 900 less 50.8 */
}

/* Groups of M: 88 and 93, 5 cm apart. Fuller than 93 by more than half of that, or smaller than 88 by more than all of
 * it (and half a millimetre for the tape), no group is for it. */
static void a_bust_beyond_every_cup_group_is_told_with_what_it_means(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *bust;
        bool below, above;
    } rows[] = { { "95.5", false, false }, { "95.6", false, true }, { "83", false, false }, { "82.9", true, false } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *text = base_arena_print(room->a, "'upper bust': 84, 'bust': %s", rows[i].bust);
        struct sizing_choice c = choose(room, pattern_of(room, CUP_PATTERN), text);
        assert_int_equal(c.cup_below, rows[i].below);
        assert_int_equal(c.cup_above, rows[i].above);
        assert_int_equal(base_err_list_has(room->errs, "sizing.cup_outside"), rows[i].below || rows[i].above);
        if (rows[i].above) {
            const struct err *e = &room->errs->items[0];
            assert_string_equal(e->args[1].text, "C-D");
            assert_near(e->args[3].number, 26, 1e-9);
        }
        room_forget(room);
    }
}

/* By hand: in M with group C-D the garment measures 101 cm. */
static void the_bust_is_compared_with_its_cup_group_and_the_garment(void **state)
{
    struct room *room = *state;
    struct sizing_choice c = choose(room, pattern_of(room, FULL_PATTERN), "'upper bust': 84, 'bust': 94.5");
    assert_int_equal(c.cup_group, 1);
    assert_string_equal(c.reasons[1].name, "bust");
    assert_near(c.reasons[1].chart_mm, 930, 0);
    assert_near(c.reasons[1].finished_mm, 1010, 0);
    assert_near(c.reasons[0].finished_mm, 0, 0); /* not given */
}

/* By hand on hip 90, 94, 104: 97 is 3/10 of the way from the second to the third. */
static void every_measurement_of_the_chart_gives_its_reason(void **state)
{
    struct room *room = *state;
    struct sizing_choice c = choose(room, pattern_of(room, CUP_PATTERN), "'hip': 97, 'upper bust': 86.5, 'bust': 90");
    assert_int_equal(c.size, 2);
    assert_int_equal(c.reason_count, 3);
    const struct sizing_reason *hip = &c.reasons[0], *upper = &c.reasons[1];
    assert_string_equal(hip->name, "hip");
    assert_near(hip->body_mm, 970, 0);
    assert_near(hip->chart_mm, 1040, 0);
    assert_near(hip->position, 1.3, 1e-12);
    assert_int_equal(hip->nearest, 1);
    assert_false(hip->below || hip->above);
    assert_near(upper->position, 1.625, 1e-12);
    assert_near(upper->chart_mm, 880, 0);
}

static void a_measurement_the_chart_lacks_is_told_and_not_used(void **state)
{
    struct room *room = *state;
    struct sizing_choice c = choose(room, pattern_of(room, EN_BUST_PATTERN), "'bust': 92,\n'inseam': 78");
    assert_int_equal(c.reason_count, 1);
    const struct err *e = room_only_told(room, "sizing.not_in_chart");
    assert_int_equal(e->kind->severity, ERR_WARNING);
    assert_int_equal(e->place.line, 3);
    assert_string_equal(e->args[0].text, "inseam");
}

static void a_name_that_is_nearly_another_is_told_with_that(void **state)
{
    struct room *room = *state;
    struct sizing_choice c;
    choose(room, pattern_of(room, CUP_PATTERN), "'upper bust': 84, 'bust': 88, 'Hip': 94, 'hips and seat': 1");
    assert_string_equal(room->errs->items[0].args[1].text, "; perhaps “hip”");
    assert_string_equal(room->errs->items[1].args[1].text, "");
    room_forget(room);
    assert_false(
        sizing_choose(room->a, pattern_of(room, CUP_PATTERN), body_of(room, "'Upper bust': 89"), &c, room->errs));
    assert_string_equal(room->errs->items[0].kind->code, "sizing.no_main");
    assert_string_equal(room->errs->items[0].args[1].text, "; or rename “Upper bust” if that is it");
}

/* Half steps of the hip row: 2 below 90, 5 above 104. */
static void other_measurements_outside_the_chart_are_told_too(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *hip;
        bool below, above;
        double position;
    } rows[] = {
        { "88", false, false, 0 }, { "87.9", true, false, 0 }, { "108.9", false, false, 2 }, { "109", false, true, 2 }
    };
    const struct pattern *p = pattern_of(room, CUP_PATTERN);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *text = base_arena_print(room->a, "'upper bust': 84, 'bust': 88, 'hip': %s", rows[i].hip);
        struct sizing_choice c = choose(room, p, text);
        const struct sizing_reason *hip = &c.reasons[2];
        assert_int_equal(hip->below, rows[i].below);
        assert_int_equal(hip->above, rows[i].above);
        assert_near(hip->position, rows[i].position, 0);
        assert_int_equal(base_err_list_has(room->errs, "sizing.outside"), rows[i].below || rows[i].above);
        room_forget(room);
    }
}

/* A length that is one figure in all sizes is there to lengthen by: no size is nearer to any body, and none is outside.
 */
static void a_row_that_is_the_same_in_all_sizes_picks_none(void **state)
{
    struct room *room = *state;
    const struct pattern *p =
        pattern_of(room, "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['S', 'M', 'L'],"
                         "  'chart': { 'bust': [80, 84, 88], 'waist to knee': [58, 58, 58] },"
                         "  'main_measurement': 'bust',"
                         "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"
                         "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }");
    static const char *const bodies[] = { "'bust': 80, 'waist to knee': 55", "'bust': 80, 'waist to knee': 58",
                                          "'bust': 80, 'waist to knee': 61" };
    for (int i = 0; i < 3; i++) {
        struct sizing_choice c = choose(room, p, bodies[i]);
        room_nothing_told(room);
        assert_int_equal(c.reason_count, 2);
        assert_int_equal(c.reasons[1].nearest, c.size);
        assert_int_equal(c.reasons[1].other, c.size);
        assert_false(c.reasons[1].below || c.reasons[1].above);
    }
}

static void sizes_that_share_a_measurement_are_a_tie_for_the_larger(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(
        room,
        "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Short and long', 'unit': 'cm',"
        "  'sizes': ['12 short', '12 long', '14'], 'chart': { 'waist': [70, 70, 76] }, 'main_measurement': 'waist',"
        "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"
        "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }");
    struct sizing_choice c = choose(room, p, "'waist': 71");
    assert_int_equal(c.size, 1);
    assert_true(c.tie);
    assert_int_equal(rival(&c), 0);
    assert_null(c.between); /* nothing lies between short and long */
    assert_near(c.reasons[0].position, 1 + 1.0 / 6, 1e-12);
}

static void a_named_size_needs_no_main_measurement(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, CUP_PATTERN);
    struct sizing_choice c;
    assert_true(sizing_choose_named(room->a, p, body_of(room, "'bust': 93"), 0, PATTERN_NONE, &c, room->errs));
    assert_int_equal(c.size, 0);
    assert_null(c.other);
    assert_int_equal(c.cup_group, 1); /* the nearest at that size: 93 to 84 and 89 */
    assert_near(c.cup_chart_mm, 890, 0);
}

static void a_named_cup_group_needs_no_full_bust(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, CUP_PATTERN);
    struct sizing_choice c;
    assert_true(sizing_choose_named(room->a, p, body_of(room, "'upper bust': 86"), PATTERN_NONE, 0, &c, room->errs));
    assert_int_equal(c.size, 2);
    assert_true(c.tie);
    assert_int_equal(rival(&c), 1);
    assert_int_equal(c.cup_group, 0);
    assert_int_equal(c.cup_tie, 0);
    assert_true(sizing_choose_named(room->a, p, body_of(room, "'hip': 94"), 1, 1, &c, room->errs));
    assert_int_equal(c.size, 1);
    assert_int_equal(c.reason_count, 1);
    room_nothing_told(room);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(the_size_is_the_standards_class_at_both_edges_of_every_class),
        room_test(outside_the_outermost_classes_the_end_size_is_taken_with_a_warning),
        room_test(a_tie_is_told_within_what_a_tape_can_tell_apart),
        room_test(close_to_the_middle_both_neighbours_are_named),
        room_test(the_rival_size_has_a_cup_group_and_reasons_of_its_own),
        room_test(a_missing_full_bust_is_estimated_by_the_charts_own_difference),
        room_test(without_a_bust_in_the_chart_two_inches_are_added_to_the_upper_bust),
        room_test(with_neither_bust_the_charts_bust_at_the_named_size_tells_the_group),
        room_test(a_missing_upper_bust_is_estimated_from_the_full_bust),
        room_test(a_bust_beyond_every_cup_group_is_told_with_what_it_means),
        room_test(the_bust_is_compared_with_its_cup_group_and_the_garment),
        room_test(the_cup_group_is_the_nearest_by_full_bust_at_the_chosen_size),
        room_test(a_full_bust_midway_between_two_cup_groups_is_a_tie),
        room_test(a_pattern_without_cup_groups_needs_no_bust),
        room_test(measurements_that_are_needed_and_missing_are_told_together),
        room_test(every_measurement_of_the_chart_gives_its_reason),
        room_test(a_measurement_the_chart_lacks_is_told_and_not_used),
        room_test(a_name_that_is_nearly_another_is_told_with_that),
        room_test(other_measurements_outside_the_chart_are_told_too),
        room_test(a_row_that_is_the_same_in_all_sizes_picks_none),
        room_test(sizes_that_share_a_measurement_are_a_tie_for_the_larger),
        room_test(a_named_size_needs_no_main_measurement),
        room_test(a_named_cup_group_needs_no_full_bust),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
