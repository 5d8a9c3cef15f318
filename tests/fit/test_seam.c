#include "fit/seam.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

/* Straight edges of round lengths: front side 400 and 410 and 440, back side 5 longer in the largest size, a band's top
 * of 250, a ruffle of 300. */
static const char pattern_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'mm', 'sizes': ['S', 'M', 'L'],"
    "  'chart': { 'hip': [900, 940, 980] }, 'main_measurement': 'hip',"
    "  'pieces': [ { 'name': 'front', 'rectangle': { 'width': 100, 'height': [400, 410, 440] }, 'allowance': 15 },"
    "    { 'name': 'back', 'rectangle': { 'width': 150, 'height': [400, 410, 445] } },"
    "    { 'name': 'band', 'rectangle': { 'width': 250, 'height': 40 } },"
    "    { 'name': 'ruffle', 'rectangle': { 'width': 300, 'height': 40 } } ],"
    "  'seams': [ { 'name': 'side', 'join': [ ['front.right'], ['back.left'] ] },"
    "    { 'name': 'eased', 'join': [ ['back.left'], ['front.right'] ], 'difference': '1/4 in' },"
    "    { 'name': 'band', 'join': [ ['front.top', 'back.top'], ['band.bottom'] ] },"
    "    { 'name': 'ruffle', 'join': [ ['ruffle.bottom', 'ruffle.bottom'], ['front.bottom', 'front.bottom'] ], "
    "'ratio': 2.5 } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'count': 1 } ] } ] }";

static struct fit_seam measure(struct room *room, int seam, double position)
{
    const char *json = room_json(room, pattern_text);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return fit_seam_measure(room->a, size_at(room->a, p, position, PATTERN_NONE, room->errs), &p->seams[seam]);
}

/* By hand from the lengths above; what a stitching line measures does not depend on its allowance. */
static void a_seam_is_off_by_what_its_sides_differ_from_what_is_meant(void **state)
{
    struct room *room = *state;
    static const struct {
        int seam;
        double position, first, second, off;
    } rows[] = {
        { 0, 0, 400, 400, 0 },                                      /* equal */
        { 0, 2, 440, 445, -5 },                                     /* the first side too short */
        { 0, 1.5, 425, 427.5, -2.5 }, { 1, 2, 445, 440, 5 - 6.35 }, /* 5 longer, where a quarter of an inch is meant */
        { 2, 1, 250, 250, 0 },                                      /* two edges on one side */
        { 3, 0, 600, 200, 100 },                                    /* each edge twice; 200 gathered 2.5 times is 500 */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct fit_seam m = measure(room, rows[i].seam, rows[i].position);
        assert_near(m.length_mm[0], rows[i].first, 1e-9);
        assert_near(m.length_mm[1], rows[i].second, 1e-9);
        assert_near(m.off_mm, rows[i].off, 1e-9);
    }
}

/* Two panels of 100 and 200 sewn to a band of 285: the joint of the panels meets the band's notch. The right panel has
 * a dart whose mouth, from 60 to 80 along its top, is sewn away, and a notch past it. That the dart is folded, so that
 * its mouth is cut longer, changes no length. */
static const char walked_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'mm', 'sizes': ['S'], 'chart': { 'hip': [900] },"
    "  'main_measurement': 'hip', 'pieces': ["
    "  { 'name': 'left', 'rectangle': { 'width': 100, 'height': 50 }, 'notches': [ { 'edge': 'top', 'at': 40 } ] },"
    "  { 'name': 'right', 'rectangle': { 'width': 200, 'height': 150 }, 'points': { 'm': [140, 150], 'l': [120, 150],"
    "      'x': [130, 40] }, 'darts': [ { 'edge': 'top', 'legs': ['l', 'm'], 'apex': 'x', 'fold': 'start' } ],"
    "    'notches': [ { 'edge': 'top', 'at': 150 } ] },"
    "  { 'name': 'band', 'rectangle': { 'width': 285, 'height': 50 }, 'notches': [ { 'edge': 'bottom', 'at': 61 },"
    "    { 'edge': 'bottom', 'at': 102 }, { 'edge': 'bottom', 'from_end': 133 } ] } ],"
    "  'seams': [ { 'name': 'walk', 'join': [ ['left.top backwards', '|', 'right.top backwards'], ['band.bottom'] ] %s "
    "},"
    "    { 'name': 'other end', 'join': [ ['right.top', '|', 'left.top'], ['band.bottom'] ], 'reversed': true },"
    "    { 'name': 'no mark', 'join': [ ['right.top', 'left.top'], ['band.bottom'] ], 'reversed': true } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'band', 'count': 1 } ] } ] }";

static const struct pattern *read_walked(struct room *room, const char *rule)
{
    char *text = base_arena_copy_text(room->a, walked_text), *hole = strstr(text, "%s");
    const char *json =
        room_json(room, base_arena_print(room->a, "%.*s%s%s", (int)(hole - text), text, rule, hole + strlen("%s")));
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

static struct fit_seam measure_walked(struct room *room, const char *rule, int seam)
{
    const struct pattern *p = read_walked(room, rule);
    return fit_seam_measure(room->a, size_at(room->a, p, 0, PATTERN_NONE, room->errs), &p->seams[seam]);
}

/* By hand. First side: 60 to the left's notch, 100 to the joint; from the right's start 200 - 150 = 50 to its notch,
 * and 130 from there (150 less the mouth of 20): 60, 40, 50, 130, in all 280. The band: 61, 41, 285 - 102 - 133 = 50,
 * 133. */
static void a_seam_is_walked_from_mark_to_mark_without_the_darts_mouths(void **state)
{
    struct room *room = *state;
    static const double first[] = { 60, 40, 50, 130 }, second[] = { 61, 41, 50, 133 };
    for (int seam = 0; seam < 2; seam++) {
        struct fit_seam m = measure_walked(room, "", seam);
        assert_true(m.marks_agree);
        assert_int_equal(m.interval_count, 4);
        for (int i = 0; i < 4; i++) {
            int at = seam ? 3 - i : i; /* the second seam begins at the other end */
            assert_near(m.intervals[i].length_mm[0], first[at], 1e-9);
            assert_near(m.intervals[i].length_mm[1], second[at], 1e-9);
            assert_near(m.intervals[i].off_mm, first[at] - second[at], 1e-9);
        }
        assert_near(m.length_mm[0], 280, 1e-9);
        assert_near(m.off_mm, -5, 1e-9);
        assert_near(m.worst_mm, 5, 1e-9);
        assert_int_equal(m.worst_interval, 4); /* the sum misses by more than any one of them */
    }
}

/* What is meant in each interval, by the rule; the misses are worked out from the lengths above. */
static void each_interval_has_its_share_of_what_is_meant(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *rule;
        double off[4], sum;
    } rows[] = {
        { ", 'intervals': [-1, -1, 0, -3]", { 0, 0, 0, 0 }, 0 },
        { ", 'intervals': [0, 0, 0, -5]", { -1, -1, 0, 2 }, 0 },
        { ", 'difference': -28.5", { -1 + 6.1, -1 + 4.1, 5, -3 + 13.3 }, 23.5 }, /* a tenth of the band's 285 */
        { ", 'ratio': 0.5", { 29.5, 19.5, 25, 63.5 }, 137.5 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct fit_seam m = measure_walked(room, rows[i].rule, 0);
        double worst = fabs(rows[i].sum);
        for (int k = 0; k < 4; k++) {
            assert_near(m.intervals[k].off_mm, rows[i].off[k], 1e-9);
            worst = fmax(worst, fabs(rows[i].off[k]));
        }
        assert_near(m.off_mm, rows[i].sum, 1e-9);
        assert_near(m.worst_mm, worst, 1e-9);
    }
}

/* The rules of the first row above, by formulas and by lists; 'hip' is 900 in the only size. Hand-worked. */
static void what_is_meant_may_be_a_list_or_a_formula(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *rule;
        double off;
    } rows[] = {
        { ", 'intervals': ['hip / 900 - 2', [-1], ['hip - 900'], '-3 mm']", 0 },
        { ", 'difference': '0 - length(band.bottom) / 10'", 23.5 },
        { ", 'difference': ['hip / -180']", 0 },
        { ", 'ratio': 'hip / 1800'", 137.5 },
        { ", 'ratio': ['0.5']", 137.5 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_near(measure_walked(room, rows[i].rule, 0).off_mm, rows[i].off, 1e-9);
    assert_near(measure_walked(room, rows[3].rule, 0).ratio, 0.5, 1e-12);
}

/* Which seam is meant to be what cannot be told; the others are measured. */
static void a_rule_without_an_answer_is_told_once(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *rule, *code;
    } rows[] = {
        { ", 'ratio': 'hip'", "draft.seam_ratio" },
        { ", 'ratio': 'hip - 900'", "draft.seam_ratio" },
        { ", 'difference': '1 / (hip - 900)'", "pattern.divides_by_zero" },
        { ", 'intervals': [0, 0, 0, '1 / (hip - 900)']", "pattern.divides_by_zero" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct pattern *p = read_walked(room, rows[i].rule);
        const struct draft_sized *sized = size_at(room->a, p, 0, PATTERN_NONE, room->errs);
        room_only_told(room, rows[i].code);
        assert_false(fit_seam_can_be_measured(sized, &p->seams[0]));
        assert_true(fit_seam_can_be_measured(sized, &p->seams[1]));
        room_forget(room);
    }
}

static void sides_with_different_numbers_of_marks_are_measured_whole(void **state)
{
    struct fit_seam m = measure_walked(*state, "", 2);
    assert_false(m.marks_agree);
    assert_int_equal(m.interval_count, 1);
    assert_near(m.intervals[0].off_mm, -5, 1e-9);
    assert_near(m.worst_mm, 5, 1e-9);
}

/* The band's middle notch, which meets the joint, may be double; its first meets the left panel's single one. */
static void a_double_notch_meets_a_double_one_or_a_joint(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *notch;
        size_t unlike;
    } rows[] = { { "'at': 61", 1 }, { "'at': 102", 0 }, { "'from_end': 133", 3 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char *text = base_arena_copy_text(room->a, walked_text), *at = strstr(text, rows[i].notch);
        size_t length = strlen(rows[i].notch);
        char *doubled =
            base_arena_print(room->a, "%.*s, 'double': true%s", (int)(at + (int)length - text), text, at + length);
        char *hole = strstr(doubled, "%s");
        memcpy(hole, "  ", 2);
        const char *json = room_json(room, doubled);
        const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
        room_nothing_told(room);
        struct fit_seam m = fit_seam_measure(room->a, size_at(room->a, p, 0, PATTERN_NONE, room->errs), &p->seams[0]);
        assert_int_equal(m.unlike_mark, rows[i].unlike);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_seam_is_walked_from_mark_to_mark_without_the_darts_mouths),
        room_test(what_is_meant_may_be_a_list_or_a_formula),
        room_test(a_rule_without_an_answer_is_told_once),
        room_test(each_interval_has_its_share_of_what_is_meant),
        room_test(a_double_notch_meets_a_double_one_or_a_joint),
        room_test(sides_with_different_numbers_of_marks_are_measured_whole),
        room_test(a_seam_is_off_by_what_its_sides_differ_from_what_is_meant),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
