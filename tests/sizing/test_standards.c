/* Published size charts and rules through the sizing. */
#include "pattern/read.h"
#include "sizing/choose.h"
#include "sizing/en_13402.h"
#include "support/room.h"

/* ASTM D5585-11e1, misses, inches, from the standard's own public page. */
enum { ASTM_SIZES = 12 };

static const char *const astm_sizes[ASTM_SIZES] = { "00", "0", "2", "4", "6", "8", "10", "12", "14", "16", "18", "20" };
static const double astm_bust[ASTM_SIZES] = { 31.125, 31.75, 33,     34.125, 35.25, 36.25,
                                              37.25,  38.75, 40.375, 42.125, 44,    46 };
static const double astm_waist[ASTM_SIZES] = { 25.375, 26.125, 26.875, 27.625, 28.5,  29.5,
                                               30.5,   32.25,  34,     36,     38.25, 40.5 }; /* straight */

#define ASTM_PATTERN                                                                                                   \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Misses', 'unit': 'in',"                                         \
    "  'sizes': ['00', '0', '2', '4', '6', '8', '10', '12', '14', '16', '18', '20'],"                                  \
    "  'chart': { 'bust': ['31 1/8', '31 3/4', 33, '34 1/8', '35 1/4', '36 1/4', '37 1/4', '38 3/4', '40 3/8',"        \
    "    '42 1/8', 44, 46],"                                                                                           \
    "    'waist': ['25 3/8', '26 1/8', '26 7/8', '27 5/8', '28 1/2', '29 1/2', '30 1/2', '32 1/4', 34, 36, '38 1/4',"  \
    "    '40 1/2'] }, " EN_REST

static const struct pattern *pattern_of(struct room *room, const char *text)
{
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "pattern.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

static struct sizing_choice choose(struct room *room, const struct pattern *p, const char *unit,
                                   const char *measurements)
{
    const char *json = room_json(room, base_arena_print(room->a,
                                                        "{ 'chalklight': 'body', 'version': 1, 'name': 'G',"
                                                        "  'unit': '%s', 'measurements': { %s } }",
                                                        unit, measurements));
    const struct sizing_body *body = sizing_body_parse(room->a, "g.json", json, strlen(json), room->errs);
    struct sizing_choice c;
    assert_true(sizing_choose(room->a, p, body, &c, room->errs));
    return c;
}

static struct sizing_choice choose_astm(struct room *room, const struct pattern *p, double bust, double waist)
{
    return choose(room, p, "in", base_arena_print(room->a, "'bust': %.17g, 'waist': %.17g", bust, waist));
}

/* The step grows from 5/8 in to 2 in; every size is its own. */
static void whoever_has_a_sizes_own_measurements_gets_that_size(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, ASTM_PATTERN);
    for (size_t i = 0; i < ASTM_SIZES; i++) {
        struct sizing_choice c = choose_astm(room, p, astm_bust[i], astm_waist[i]);
        assert_string_equal(p->sizes[c.size], astm_sizes[i]);
        assert_near(c.position, (double)i, 0);
        assert_null(c.other);
        assert_null(c.between);
        assert_int_equal(c.reasons[1].nearest, i);
        assert_near(c.reasons[1].chart_mm, astm_waist[i] * 25.4, 1e-9);
    }
    room_nothing_told(room);
}

/* Midway between two of the standard's busts the waist of the size in between is midway between its waists. */
static void midway_between_two_sizes_all_of_the_chart_is_midway(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, ASTM_PATTERN);
    for (size_t i = 0; i + 1 < ASTM_SIZES; i++) {
        double bust = (astm_bust[i] + astm_bust[i + 1]) / 2, waist = (astm_waist[i] + astm_waist[i + 1]) / 2;
        struct sizing_choice c = choose_astm(room, p, bust, waist);
        assert_true(c.tie);
        assert_int_equal(c.size, i + 1);
        assert_int_equal(c.other->size, i);
        assert_near(c.between->position, (double)i + 0.5, 0);
        assert_near(c.between->reasons[0].chart_mm, bust * 25.4, 1e-9);
        assert_near(c.between->reasons[1].chart_mm, waist * 25.4, 1e-9);
    }
}

/* By hand, a bust between size 12 (38 3/4) and 14 (40 3/8), the step 13/8 in: 39 3/8 lies 5/13 of the way, 0.38, to a
 * tenth 0.4, where the straight waist is 32 1/4 + 0.4 * 1 3/4 = 32.95 in. 39 lies 2/13 of the way: size 12 is clear. */
static void the_size_in_between_is_a_tenth_of_a_step(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, ASTM_PATTERN);
    struct sizing_choice c = choose_astm(room, p, 39.375, 32);
    assert_string_equal(pattern_size_text(room->a, p, c.between->position), "12 to 14 at 40%");
    assert_near(c.between->reasons[1].chart_mm, 32.95 * 25.4, 1e-9);
    assert_string_equal(p->sizes[c.size], "12");
    assert_null(choose_astm(room, p, 39, 32).between);
    assert_null(choose_astm(room, p, 31, 25).between); /* below the chart, but within half a step */
}

/* A class of EN 13402-3 reaches from its lower edge, that included, to its upper edge, that not; a millimetre is what a
 * tape shows. In the open sample of the R package its 600 women fall into the bust's classes in round numbers only so.
 */
static void every_row_of_the_standard_has_its_classes_edges(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, EN_PATTERN);
    for (int row = 0; row < EN_ROWS; row++)
        for (size_t i = 0; i < EN_CLASSES; i++) {
            double at[] = { en_rows[row].edge_cm[i], en_rows[row].centre_cm[i], en_rows[row].edge_cm[i + 1] - 0.1 };
            for (int k = 0; k < 3; k++) {
                const char *body = row == EN_BUST
                                       ? base_arena_print(room->a, "'bust': %.17g", at[k])
                                       : base_arena_print(room->a, "'%s': %.17g, 'bust': 92", en_rows[row].name, at[k]);
                struct sizing_choice c = choose(room, p, "cm", body);
                if (c.reasons[0].nearest != i || c.reasons[0].below || c.reasons[0].above)
                    fail_msg("%s %g cm: class %zu, not %zu", en_rows[row].name, at[k], c.reasons[0].nearest + 1, i + 1);
            }
        }
    room_nothing_told(room);
}

/* Upper bust 32, 34 and 36 in; five cup groups, each drawn for a bust that many inches fuller. */
static const struct pattern *cups(struct room *room, const double fuller[5])
{
    static const char *const letters[] = { "A", "B", "C", "D", "DD" };
    const char *groups = "";
    for (int g = 0; g < 5; g++)
        groups = base_arena_print(room->a, "%s%s{ 'name': '%s', 'bust': [%g, %g, %g] }", groups, g ? ", " : "",
                                  letters[g], 32 + fuller[g], 34 + fuller[g], 36 + fuller[g]);
    return pattern_of(room,
                      base_arena_print(room->a,
                                       "{ 'chalklight': 'pattern', 'version': 1, 'name': 'Cups', 'unit': 'in',"
                                       "  'sizes': ['10', '12', '14'], 'chart': { 'upper bust': [32, 34, 36] },"
                                       "  'main_measurement': 'upper bust', 'cup_groups': [%s],"
                                       "  'pieces': [ { 'name': 'p', 'rectangle': { 'width': 1, 'height': 1 } } ],"
                                       "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'p', 'count': 1 } ] } ] }",
                                       groups));
}

static const char *cup_of(struct room *room, const struct pattern *p, double upper, double full)
{
    const char *body = base_arena_print(room->a, "'upper bust': %.17g, 'bust': %.17g", upper, full);
    return p->cup_groups[choose(room, p, "in", body).cup_group].name;
}

/* Which cup an inch is differs: by one common rule a full bust 1, 2, 3, 4, 5 in over the upper bust is A, B, C, D, DD
 * (a sewing page, and common practice); by the other 0 to 1 in is A, 1 to 2 B, 2 to 3 C, 3 to 4 D, 4 to 5 DD (common
 * practice). Here the pattern says what each group is drawn for, and the nearest is taken: drawn for whole inches the
 * first rule comes out, drawn for the ranges' middles the second. */
static void either_rule_of_cups_comes_out_where_the_pattern_is_drawn_by_it(void **state)
{
    struct room *room = *state;
    static const double points[] = { 1, 2, 3, 4, 5 }, middles[] = { 0.5, 1.5, 2.5, 3.5, 4.5 };
    static const char *const letters[] = { "A", "B", "C", "D", "DD" };
    const struct pattern *by_point = cups(room, points), *by_range = cups(room, middles);
    for (int g = 0; g < 5; g++)
        for (double upper = 32; upper <= 36; upper += 2) {
            assert_string_equal(cup_of(room, by_point, upper, upper + points[g]), letters[g]);
            assert_string_equal(cup_of(room, by_range, upper, upper + g + 0.125), letters[g]);
            assert_string_equal(cup_of(room, by_range, upper, upper + g + 0.875), letters[g]);
        }
}

/* One person of a sewing page, full bust 36, upper bust 35, underbust 32 in: A by full less upper bust, where a bra's
 * letter, by full less underbust, would be D. The
 * size in between is that of her very upper bust. */
static void the_cup_is_not_the_bras(void **state)
{
    struct room *room = *state;
    static const double points[] = { 1, 2, 3, 4, 5 };
    const struct pattern *p = cups(room, points);
    struct sizing_choice c = choose(room, p, "in", "'upper bust': 35, 'bust': 36, 'underbust': 32");
    assert_near(c.between->position, 1.5, 0); /* 35 in, midway between 34 and 36 */
    assert_string_equal(p->cup_groups[c.between->cup_group].name, "A");
    room_only_told(room, "sizing.not_in_chart"); /* the underbust */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(whoever_has_a_sizes_own_measurements_gets_that_size),
        room_test(midway_between_two_sizes_all_of_the_chart_is_midway),
        room_test(the_size_in_between_is_a_tenth_of_a_step),
        room_test(every_row_of_the_standard_has_its_classes_edges),
        room_test(either_rule_of_cups_comes_out_where_the_pattern_is_drawn_by_it),
        room_test(the_cup_is_not_the_bras),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
