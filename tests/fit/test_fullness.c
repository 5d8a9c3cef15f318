#include "fit/fullness.h"
#include "fit/seam.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

/* A skirt panel on the fold gathered to half a band, at the ratios in use for gathers (1.5 light, 2 standard, 2.5 full:
 * common practice); a strap folded lengthwise; a sleeve cap eased between two notches alone; a cuff that nothing of the
 * view is sewn to. */
static const char pattern_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['S', 'M'],"
    "  'chart': { 'hip': [90, 94] }, 'main_measurement': 'hip',"
    "  'pieces': [ { 'name': 'panel', 'rectangle': { 'width': [105, 112], 'height': 50 }, 'fold': 'left' },"
    "    { 'name': 'band', 'rectangle': { 'width': [70, 70], 'height': 8 } },"
    "    { 'name': 'strap', 'rectangle': { 'width': 8, 'height': 40 }, 'points': { 'n': [4, 0], 'f': [4, 40] },"
    "      'lines': [ { 'kind': 'fold', 'from': 'n', 'to': 'f' } ] },"
    "    { 'name': 'end', 'rectangle': { 'width': 4, 'height': 4 } },"
    "    { 'name': 'cap', 'rectangle': { 'width': 42, 'height': 10 },"
    "      'notches': [ { 'edge': 'bottom', 'at': 10 }, { 'edge': 'bottom', 'at': 32 } ] },"
    "    { 'name': 'hole', 'rectangle': { 'width': 40, 'height': 10 },"
    "      'notches': [ { 'edge': 'bottom', 'at': 10 }, { 'edge': 'bottom', 'at': 30 } ] },"
    "    { 'name': 'cuff', 'rectangle': { 'width': 21, 'height': 10 } } ],"
    "  'seams': [ { 'name': 'waist', 'join': [ ['panel.top'], ['band.bottom'] ], 'ratio': 1.5 },"
    "    { 'name': 'hem band', 'join': [ ['band.top'], ['panel.bottom'] ], 'ratio': 0.5 },"
    "    { 'name': 'strap end', 'join': [ ['strap.bottom'], ['end.top'] ], 'ratio': 2 },"
    "    { 'name': 'gathered end', 'join': [ ['strap.left'], ['end.top', 'end.left', 'end.right', 'end.bottom', "
    "'end.bottom'] ], 'ratio': 2 },"
    "    { 'name': 'set in', 'join': [ ['hole.bottom'], ['cap.bottom'] ], 'intervals': [0, -2, 0] },"
    "    { 'name': 'sides', 'join': [ ['cap.left', 'cap.left'], ['hole.left', 'hole.left'] ], 'difference': 0.05 },"
    "    { 'name': 'cuff', 'join': [ ['cap.top'], ['cuff.top'] ], 'ratio': 2 } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'panel', 'count': 1 }, { 'piece': 'band', 'count': 1 },"
    "    { 'piece': 'strap', 'count': 1 }, { 'piece': 'end', 'count': 1 }, { 'piece': 'cap', 'count': 1 },"
    "    { 'piece': 'hole', 'count': 1 } ] } ] }";

struct seen {
    const struct pattern *pattern;
    const struct fit_fullness *items;
    size_t count;
};

static struct seen look(struct room *room, size_t piece, double position)
{
    struct seen seen;
    struct draft draft;
    const char *json = room_json(room, pattern_text);
    seen.pattern = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_true(make_at_size(room->a, seen.pattern, position, PATTERN_NONE, 0, &draft, room->errs));
    seen.count = fit_fullness_of(room->a, seen.pattern, &draft, piece, &seen.items);
    return seen;
}

/* From the lengths above: 70 cm gathered 1.5 times are 105; in size M the panel is 112 (1.6 times), which is measured,
 * not what is meant. Half the panel is drawn. The band's seam with the panel's bottom, ratio 0.5, makes the second side
 * the fuller one. */
static void a_panel_is_gathered_to_its_band(void **state)
{
    struct room *room = *state;
    static const double from_mm[] = { 1050, 1120 };
    for (int size = 0; size < 2; size++) {
        struct seen seen = look(room, 0, size);
        assert_int_equal(seen.count, 2);
        assert_int_equal(seen.items[0].kind, FIT_GATHERED);
        assert_int_equal(seen.items[0].seam, 0);
        assert_int_equal(seen.items[0].edge, pattern_find_edge(&seen.pattern->pieces[0], "top"));
        assert_near(seen.items[0].from_mm, from_mm[size], 1e-9);
        assert_near(seen.items[0].to_mm, 700, 1e-9);
        assert_true(seen.items[0].is_half);
        assert_false(seen.items[0].with_others);
        assert_int_equal(seen.items[1].edge, pattern_find_edge(&seen.pattern->pieces[0], "bottom"));
        assert_near(seen.items[1].from_mm, from_mm[size], 1e-9);
    }
    assert_int_equal(look(room, 1, 0).count, 0); /* the band is the shorter one in both seams */
}

/* Flat is finished times ratio (hand-worked, 70 cm; the ratios are common practice: 1.5 light, 2 standard, 2.5 full, 3
 * very full; a tenth is ease); and 20 in at 2.5 are 50 in, a worked example of a sewing page. */
static void flat_is_finished_times_the_ratio(void **state)
{
    struct room *room = *state;
    static const struct {
        double finished_mm, flat_mm, ratio;
        enum fit_fullness_kind kind;
    } rows[] = {
        { 700, 770, 1.1, FIT_EASED },     { 700, 1050, 1.5, FIT_GATHERED }, { 700, 1400, 2, FIT_GATHERED },
        { 700, 1750, 2.5, FIT_GATHERED }, { 700, 2100, 3, FIT_GATHERED },   { 508, 1270, 2.5, FIT_GATHERED },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *text = room_json(
            room, base_arena_print(room->a,
                                   "{ 'chalklight': 'pattern', 'version': 1, 'name': 'G', 'unit': 'mm', 'sizes': ['S'],"
                                   "  'chart': { 'hip': [900] }, 'main_measurement': 'hip', 'pieces': ["
                                   "  { 'name': 'flat', 'rectangle': { 'width': %g, 'height': 400 } },"
                                   "  { 'name': 'band', 'rectangle': { 'width': %g, 'height': 40 } } ],"
                                   "  'seams': [ { 'name': 's', 'join': [ ['flat.top'], ['band.bottom'] ],"
                                   "    'ratio': %g } ], 'views': [ { 'name': 'A', 'cut': ["
                                   "  { 'piece': 'flat', 'count': 1 }, { 'piece': 'band', 'count': 1 } ] } ] }",
                                   rows[i].flat_mm, rows[i].finished_mm, rows[i].ratio));
        const struct pattern *p = pattern_parse(room->a, "g", text, strlen(text), room->errs);
        struct draft draft;
        const struct fit_fullness *found;
        assert_true(p && make_at_size(room->a, p, 0, PATTERN_NONE, 0, &draft, room->errs));
        assert_int_equal(fit_fullness_of(room->a, p, &draft, 0, &found), 1);
        assert_int_equal(found->kind, rows[i].kind);
        assert_near(found->from_mm, rows[i].flat_mm, 1e-9);
        assert_near(found->to_mm, rows[i].finished_mm, 1e-9);
        assert_false(found->is_half);
        assert_near(fit_seam_measure(room->a, draft.sized, &p->seams[found->seam]).off_mm, 0, 1e-9);
    }
}

/* Both are twice as long as what they are sewn to; only the first has a fold line in its middle. 40 cm to 5 x 4 cm. */
static void what_a_fold_line_halves_is_folded_and_not_gathered(void **state)
{
    struct seen seen = look(*state, 2, 0);
    assert_int_equal(seen.count, 2);
    assert_int_equal(seen.items[0].kind, FIT_FOLDED);
    assert_near(seen.items[0].from_mm, 80, 1e-9);
    assert_near(seen.items[0].to_mm, 40, 1e-9);
    assert_int_equal(seen.items[1].kind, FIT_GATHERED);
    assert_near(seen.items[1].from_mm, 400, 1e-9);
    assert_near(seen.items[1].to_mm, 200, 1e-9);
    assert_false(seen.items[1].is_half);
}

/* Between the notches 22 cm against 20: a tenth more. Half a millimetre on the sides is no ease, and what is sewn to a
 * piece of another view is left out. */
static void ease_is_told_where_it_lies(void **state)
{
    struct seen seen = look(*state, 4, 0);
    assert_int_equal(seen.count, 1);
    assert_int_equal(seen.items[0].kind, FIT_EASED);
    assert_int_equal(seen.items[0].interval, 1);
    assert_int_equal(seen.items[0].interval_count, 3);
    assert_near(seen.items[0].from_mm, 220, 1e-9);
    assert_near(seen.items[0].to_mm, 200, 1e-9);
    assert_int_equal(look(*state, 5, 0).count, 0);
}

/* Hand-worked: two panels on the fold are four halves of 40 cm; the seam has all of them, 160 cm to 80 all the way round,
 * and nothing else beside them. */
static void a_seam_of_all_its_halves_is_whole(void **state)
{
    struct room *room = *state;
    const char *text = room_json(
        room, "{ 'chalklight': 'pattern', 'version': 1, 'name': 'G', 'unit': 'cm', 'sizes': ['S'],"
              "  'chart': { 'hip': [90] }, 'main_measurement': 'hip', 'pieces': ["
              "  { 'name': 'panel', 'rectangle': { 'width': 40, 'height': 40 }, 'fold': 'left' },"
              "  { 'name': 'band', 'rectangle': { 'width': 80, 'height': 4 } } ],"
              "  'seams': [ { 'name': 's', 'join': [ ['panel.top', 'panel.top backwards', 'panel.top',"
              "    'panel.top backwards'], ['band.bottom'] ], 'ratio': 2 } ], 'views': [ { 'name': 'A', 'cut': ["
              "  { 'piece': 'panel', 'count': 2 }, { 'piece': 'band', 'count': 1 } ] } ] }");
    const struct pattern *p = pattern_parse(room->a, "g", text, strlen(text), room->errs);
    struct draft draft;
    const struct fit_fullness *found;
    assert_true(p && make_at_size(room->a, p, 0, PATTERN_NONE, 0, &draft, room->errs));
    assert_int_equal(fit_fullness_of(room->a, p, &draft, 0, &found), 1);
    assert_near(found->from_mm, 1600, 1e-9);
    assert_near(found->to_mm, 800, 1e-9);
    assert_false(found->is_half);
    assert_false(found->with_others);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_panel_is_gathered_to_its_band),
        room_test(flat_is_finished_times_the_ratio),
        room_test(what_a_fold_line_halves_is_folded_and_not_gathered),
        room_test(ease_is_told_where_it_lies),
        room_test(a_seam_of_all_its_halves_is_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
