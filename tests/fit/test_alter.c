/* A pattern altered for one person: lengthened, spread for a fuller bust, taken in, blended. Expected values are worked
 * out by hand from the trade's rules named beside each check (common practice, no source, unless said). */
#include "fit/girth.h"
#include "fit/mismatch.h"
#include "fit/seam.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

#define MM 1e-6

/* A back, a front with slashes, and a facing that is drafted from the front's side. Grain is up. */
static const char pattern_text[] =
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'cm', 'sizes': ['1', '2', '3'],\n"
    "  'chart': { 'bust': [80, 90, 100], 'waist': [60, 70, 80], 'back length': [40, 41, 42] },\n"
    "  'main_measurement': 'bust', 'measurements': ['low bust', 'under bust'],\n"
    "  'girths': { 'bust': [ { 'piece': 'front', 'level': 'under', 'times': 2 } ],\n"
    "    'low bust': [ { 'piece': 'front', 'level': 'low', 'times': 2 } ],\n"
    "    'under bust': [ { 'piece': 'front', 'level': 'mid', 'times': 2 } ] },\n"
    "  'pieces': [\n"
    "  { 'name': 'front', 'allowance': 1.5, 'fold': 'centre', 'points': {\n"
    "      'neck': [0, 40], 'arm': [10, 40], 'hinge': [16, 30], 'under': ['bust / 4', 25],\n"
    "      'up': ['bust / 4', 22], 'low': ['bust / 4', 20], 'tip': [14, 21], 'apex': [10, 21],\n"
    "      'side': ['waist / 4 + 3', 0], 'out': [11.5, 0], 'in': [8.5, 0], 'dart tip': [10, 15], 'centre': [0, 0],\n"
    "      'long in': [0, 10], 'long out': [12, 10], 'mid': [0, 17] },\n"
    "    'outline': [ { 'name': 'neckline', 'path': ['neck', 'arm'] },\n"
    "      { 'name': 'armhole', 'path': ['arm', 'hinge', 'under'] },\n"
    "      { 'name': 'side', 'path': ['under', 'up', 'low', 'side'] },\n"
    "      { 'name': 'waist', 'path': ['side', 'out', 'in', 'centre'] },\n"
    "      { 'name': 'centre', 'path': ['centre', 'neck'] } ],\n"
    "    'levels': { 'bust': ['under'], 'waist': ['side', 'centre'] },\n"
    "    'notches': [ { 'edge': 'side', 'from_end': 5 } ],\n"
    "    'darts': [ { 'edge': 'side', 'legs': ['up', 'low'], 'apex': 'tip' },\n"
    "               { 'edge': 'waist', 'legs': ['out', 'in'], 'apex': 'dart tip' } ],\n"
    "    'lines': [ { 'kind': 'lengthen', 'name': 'body', 'from': 'long in', 'to': 'long out' } ],\n"
    "    'bust_spread': { 'apex': 'apex', 'hinge': 'hinge', 'side': ['up', 'low'], 'waist': ['out', 'in'] } },\n"
    "  { 'name': 'back', 'allowance': 1.5, 'points': { 'neck': [0, 38], 'arm': [10, 38], 'under': ['bust / 4', 23],\n"
    "      'side': ['waist / 4 + 3', 0], 'centre': [0, 0], 'long in': [0, 10], 'long out': [5, 10] },\n"
    "    'outline': [ { 'name': 'neckline', 'path': ['neck', 'arm'] }, { 'name': 'armhole', 'path': ['arm', 'under'] "
    "},\n"
    "      { 'name': 'side', 'path': ['under', 'side'] }, { 'name': 'waist', 'path': ['side', 'centre'] },\n"
    "      { 'name': 'centre', 'path': ['centre', 'neck'] } ],\n"
    "    'levels': { 'bust': ['under'], 'waist': ['side', 'centre'] },\n"
    "    'notches': [ { 'edge': 'side', 'from_end': 5 } ],\n"
    "    'lines': [ { 'kind': 'lengthen', 'name': 'body', 'from': 'long in', 'to': 'long out' } ] },\n"
    "  { 'name': 'strip', 'rectangle': { 'width': 3, 'height': 'length(back.side)' }, 'trial': false },\n"
    "  { 'name': 'band', 'rectangle': { 'width': 4, 'height': 30 }, 'levels': { 'waist': ['far left', 'far right'] } } "
    "],\n"
    "  'seams': [ { 'name': 'side', 'join': [['front.side'], ['back.side']] },\n"
    "    { 'name': 'waist', 'join': [['front.waist'], ['back.waist']] },\n"
    "    { 'name': 'band end', 'join': [['band.top'], ['band.bottom']] } ],\n"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'front', 'count': 1 }, { 'piece': 'back', 'pairs': 1 },\n"
    "    { 'piece': 'strip', 'count': 2 }, { 'piece': 'back', 'count': 1, 'cloth': 'lining' } ] } ] }";

enum { BUST, WAIST, BACK_LENGTH };

static const struct pattern *read_pattern(struct room *room)
{
    const char *json = room_json(room, pattern_text);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

/* Size 2, altered at two places or twice at one. */
static const struct draft_sized *altered_twice(struct room *room, struct draft_alteration first,
                                               struct draft_alteration second)
{
    struct draft_alteration *kept = base_arena_alloc(room->a, 2, sizeof *kept);
    struct draft_figure figure = draft_figure_at(1, PATTERN_NONE);
    kept[0] = first;
    kept[1] = second;
    figure.alterations = kept;
    figure.alteration_count = 2;
    return draft_size(room->a, read_pattern(room), &figure, room->errs);
}

/* Size 2, altered once. */
static const struct draft_sized *altered(struct room *room, struct draft_alteration alteration)
{
    struct draft_alteration *kept = base_arena_alloc(room->a, 1, sizeof *kept);
    struct draft_figure figure = draft_figure_at(1, PATTERN_NONE);
    *kept = alteration;
    figure.alterations = kept;
    figure.alteration_count = 1;
    return draft_size(room->a, read_pattern(room), &figure, room->errs);
}

static const struct draft_sized *as_written(struct room *room)
{
    return size_at(room->a, read_pattern(room), 1, PATTERN_NONE, room->errs);
}

static vec2 place(const struct draft_sized *sized, const char *piece, const char *point)
{
    int index = pattern_find_piece(sized->pattern, piece);
    assert_true(sized->pieces[index].is_sound);
    return sized->pieces[index].points[pattern_find_point(&sized->pattern->pieces[index], point)];
}

static double distance(const struct draft_sized *sized, const char *piece, const char *one, const char *other)
{
    return vec2_length(vec2_sub(place(sized, piece, one), place(sized, piece, other)));
}

static double length(const struct draft_sized *sized, const char *piece, const char *edge)
{
    int index = pattern_find_piece(sized->pattern, piece);
    return geometry_path_length(
        sized->pieces[index].edge_paths[pattern_find_edge(&sized->pattern->pieces[index], edge)]);
}

static double notch(const struct draft_sized *sized, const char *piece)
{
    return sized->pieces[pattern_find_piece(sized->pattern, piece)].notch_mm[0];
}

static struct fit_seam side_seam(struct room *room, const struct draft_sized *sized)
{
    return fit_seam_measure(room->a, sized, &sized->pattern->seams[0]);
}

/* Cut at the line, spread, and all joined pieces by as much; what is drafted from a seam follows it. */
static void a_line_lengthens_all_pieces_that_have_it(void **state)
{
    struct room *room = *state;
    const struct draft_sized *was = as_written(room);
    const struct draft_sized *now =
        altered(room, (struct draft_alteration){ DRAFT_LENGTHEN, "body", PATTERN_NONE, 20 });
    room_nothing_told(room);
    static const char *const pieces[] = { "front", "back" };
    for (int i = 0; i < 2; i++) {
        assert_near(place(now, pieces[i], "side").y, -20, MM);
        assert_near(place(now, pieces[i], "side").x, place(was, pieces[i], "side").x, MM);
        assert_near(place(now, pieces[i], "under").y, place(was, pieces[i], "under").y, MM);
        /* the notch stands 5 cm from the waist, below the line, and goes with it */
        assert_near(length(now, pieces[i], "side") - notch(now, pieces[i]), 50, 0.1);
    }
    assert_near(place(now, "front", "dart tip").y, 150, MM); /* above the line */
    assert_near(place(now, "strip", "far left").y, length(now, "back", "side"), MM);
    assert_true(length(now, "back", "side") > length(was, "back", "side") + 19.8);
    assert_true(side_seam(room, now).worst_mm < 1);
}

static void no_more_can_be_taken_out_than_there_is(void **state)
{
    struct room *room = *state;
    altered(room, (struct draft_alteration){ DRAFT_LENGTHEN, "body", PATTERN_NONE, -120 });
    assert_true(base_err_list_has(room->errs, "draft.no_room"));
}

/* Half of the extra on either front (common practice: check-values, full bust): the seams keep their lengths, the dart
 * at the waist opens by it, and darts' legs stay equal. */
static void a_fuller_bust_opens_the_darts_and_keeps_the_seams(void **state)
{
    struct room *room = *state;
    const struct draft_sized *was = as_written(room);
    const struct draft_sized *now = altered(room, (struct draft_alteration){ DRAFT_BUST, NULL, PATTERN_NONE, 40 });
    room_nothing_told(room);
    double drop = place(now, "front", "side").y;
    assert_near(place(now, "front", "side").x, place(was, "front", "side").x + 20, MM);
    assert_near(place(now, "front", "centre").y, drop, MM);
    assert_near(place(now, "front", "in").y, drop, MM);
    assert_near(distance(now, "front", "out", "in"), 30 + 20, MM);
    assert_true(distance(now, "front", "up", "low") > distance(was, "front", "up", "low") + 5);
    assert_near(distance(now, "front", "under", "hinge"), distance(was, "front", "under", "hinge"), MM);
    assert_near(distance(now, "front", "up", "under"), distance(was, "front", "up", "under"), MM);
    assert_near(distance(now, "front", "low", "side"), distance(was, "front", "low", "side"), MM);
    assert_near(distance(now, "front", "up", "tip"), distance(now, "front", "low", "tip"), MM);
    assert_near(distance(now, "front", "out", "dart tip"), distance(now, "front", "in", "dart tip"), MM);
    /* The hinge lies (60, 90) mm from the apex, so the apex comes down to sqrt(60² + 90² - 40²) below it. */
    assert_near(drop, 90 - sqrt(60 * 60 + 90 * 90 - 40 * 40), MM);
    assert_near(side_seam(room, now).off_mm, side_seam(room, was).off_mm, 0.01);
    assert_near(place(now, "back", "side").x, place(was, "back", "side").x, 0);
}

/* The front's half is bust / 4 = 225 wide; with 40 more in all it is spread by 20, over the apex at 21 and where the
 * slash to the side ends at 20. Below, at 17, the side leans in by 1 in 10 and comes down with the apex by 10.5 (the
 * slash of (-6, -9) turned to (-4, -10.05)). */
static void a_girth_over_a_spread_has_what_it_is_spread(void **state)
{
    struct room *room = *state;
    const struct draft_alteration fuller = { DRAFT_BUST, NULL, PATTERN_NONE, 40 };
    const struct draft_sized *was = as_written(room), *now = altered(room, fuller);
    room_nothing_told(room);
    assert_near(fit_girth_mm(was, "bust"), 2 * 225, MM);
    assert_near(fit_girth_mm(now, "bust"), 2 * 245, MM);
    assert_near(fit_girth_mm(was, "low bust"), 2 * 225, MM);
    assert_near(fit_girth_mm(now, "low bust"), 2 * 245, MM);
    assert_near(fit_girth_mm(was, "under bust"), 2 * 222, MM);
    assert_near(fit_girth_mm(now, "under bust"), 2 * (222 + 20 + 1.05), 0.01);
}

static void a_bust_fuller_than_the_slash_reaches_is_told(void **state)
{
    struct room *room = *state;
    altered(room, (struct draft_alteration){ DRAFT_BUST, NULL, PATTERN_NONE, 500 });
    assert_true(base_err_list_has(room->errs, "draft.too_full"));
}

static void a_seam_is_taken_in_at_a_level_on_both_pieces(void **state)
{
    struct room *room = *state;
    const struct draft_sized *was = as_written(room);
    const struct draft_sized *now = altered(room, (struct draft_alteration){ DRAFT_TAKE_IN, "side", WAIST, 6 });
    room_nothing_told(room);
    static const char *const pieces[] = { "front", "back" };
    for (int i = 0; i < 2; i++) {
        assert_near(place(now, pieces[i], "side").x, place(was, pieces[i], "side").x - 6, MM);
        assert_near(place(now, pieces[i], "under").x, place(was, pieces[i], "under").x, MM);
        assert_near(place(now, pieces[i], "centre").x, 0, MM);
    }
}

/* Hand-worked: 10 mm and 5 mm are 15 mm. */
static void what_is_taken_in_at_one_place_adds_up(void **state)
{
    struct room *room = *state;
    const struct draft_alteration first = { DRAFT_TAKE_IN, "side", WAIST, 10 };
    const struct draft_alteration second = { DRAFT_TAKE_IN, "side", WAIST, 5 };
    const struct draft_sized *was = as_written(room), *now = altered_twice(room, first, second);
    room_nothing_told(room);
    assert_near(place(now, "back", "side").x, place(was, "back", "side").x - 15, MM);
    assert_near(place(now, "front", "side").x, place(was, "front", "side").x - 15, MM);
}

/* The back's side ends where its waist begins: in by 10 mm along the one, up by 20 along the other. */
static void a_corner_of_two_seams_is_moved_by_both(void **state)
{
    struct room *room = *state;
    const struct draft_alteration first = { DRAFT_TAKE_IN, "side", WAIST, 10 };
    const struct draft_alteration second = { DRAFT_TAKE_IN, "waist", WAIST, 20 };
    const struct draft_sized *was = as_written(room), *now = altered_twice(room, first, second);
    room_nothing_told(room);
    assert_near(place(now, "back", "side").x, place(was, "back", "side").x - 10, MM);
    assert_near(place(now, "back", "side").y, place(was, "back", "side").y + 20, MM);
    assert_near(place(now, "back", "centre").y, place(was, "back", "centre").y + 20, MM);
}

/* Twice by 20 mm is once by 40, everywhere. */
static void two_spreads_are_one_of_both(void **state)
{
    struct room *room = *state;
    const struct draft_alteration half = { DRAFT_BUST, NULL, PATTERN_NONE, 20 };
    const struct draft_sized *twice = altered_twice(room, half, half);
    const struct draft_sized *once = altered(room, (struct draft_alteration){ DRAFT_BUST, NULL, PATTERN_NONE, 40 });
    static const char *const points[] = { "neck", "under", "up", "low", "tip", "side", "out", "in", "dart tip" };
    room_nothing_told(room);
    for (size_t i = 0; i < sizeof points / sizeof points[0]; i++)
        assert_near(vec2_length(vec2_sub(place(twice, "front", points[i]), place(once, "front", points[i]))), 0, MM);
}

/* There are 100 mm below the line: 60 and 50 are too much, each alone is not; 20 longer and 60 shorter is 40 shorter. */
static void shortened_twice_has_to_find_room_for_both(void **state)
{
    struct room *room = *state;
    const struct draft_alteration longer = { DRAFT_LENGTHEN, "body", PATTERN_NONE, 20 };
    const struct draft_alteration shorter = { DRAFT_LENGTHEN, "body", PATTERN_NONE, -60 };
    const struct draft_alteration also = { DRAFT_LENGTHEN, "body", PATTERN_NONE, -50 };
    const struct draft_sized *now = altered_twice(room, longer, shorter);
    room_nothing_told(room);
    assert_near(place(now, "back", "side").y, 40, MM);
    altered_twice(room, shorter, also);
    assert_true(base_err_list_has(room->errs, "draft.no_room"));
}

/* The grain of a rectangle runs along its height: its end is moved along it, and the band stays as wide. */
static void the_end_of_a_band_is_taken_in_along_its_grain(void **state)
{
    const struct draft_sized *now = altered(*state, (struct draft_alteration){ DRAFT_TAKE_IN, "band end", WAIST, 6 });
    assert_near(place(now, "band", "far left").y, 294, MM);
    assert_near(place(now, "band", "far right").y, 294, MM);
    assert_near(place(now, "band", "far right").x, 40, MM);
}

static void a_level_without_a_point_is_told(void **state)
{
    struct room *room = *state;
    altered(room, (struct draft_alteration){ DRAFT_TAKE_IN, "side", BACK_LENGTH, 6 });
    assert_true(base_err_list_has(room->errs, "draft.no_level"));
}

static void an_edge_gets_the_allowance_that_is_wanted(void **state)
{
    const struct draft_sized *now =
        altered(*state, (struct draft_alteration){ DRAFT_ALLOWANCE, "back.waist", PATTERN_NONE, 40 });
    const struct pattern_piece *back = &now->pattern->pieces[1];
    assert_near(now->pieces[1].allowance_mm[pattern_find_edge(back, "waist")], 40, 0);
    assert_near(now->pieces[1].allowance_mm[pattern_find_edge(back, "side")], 15, 0);
}

/* Bust of size 1, waist of size 3: every point by its level, and what lies between them between. */
static void a_blend_follows_each_level(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_pattern(room);
    static const double positions[] = { 0, 2, 1 };
    struct draft_figure figure = draft_figure_at(1, PATTERN_NONE);
    figure.level_position = positions;
    const struct draft_sized *sized = draft_size(room->a, p, &figure, room->errs);
    room_nothing_told(room);
    static const char *const pieces[] = { "front", "back" };
    for (int i = 0; i < 2; i++) {
        assert_near(place(sized, pieces[i], "under").x, 200, MM);
        assert_near(place(sized, pieces[i], "side").x, 230, MM);
    }
    /* 50 of the 251 mm (50 and 201) that lead from the one to the other at size 2: position 2 x 50 / 251 of bust / 4.
     */
    double way = 50 + sqrt(20 * 20 + 200 * 200);
    assert_near(place(sized, "front", "low").x, 200 + 25 * 2 * 50 / way, 0.01);
    assert_true(side_seam(room, sized).worst_mm < 1);
}

static void a_trial_garment_has_wide_allowances_and_main_pieces_alone(void **state)
{
    struct room *room = *state;
    const struct pattern *p = read_pattern(room);
    struct draft_figure figure = draft_figure_at(1, PATTERN_NONE);
    struct draft draft;
    figure.trial = true;
    assert_true(draft_make(room->a, p, &figure, 0, &draft, room->errs));
    room_nothing_told(room);
    assert_int_equal(draft.cut_count, 2);
    assert_int_equal(draft.piece_count, 2);
    for (int e = 0; e < (int)p->pieces[0].edge_count; e++)
        assert_near(draft.sized->pieces[0].allowance_mm[e], e == p->pieces[0].fold ? 0 : 25.4, 0);
}

/* The back's line by another name: only the front grows by the 20 mm. */
static void a_seam_that_cannot_follow_is_told_by_name_and_mm(void **state)
{
    struct room *room = *state;
    char *json = base_arena_copy_text(room->a, room_json(room, pattern_text));
    char *name = strstr(strstr(json, "\"back\", \"allowance\""), "\"body\"");
    memcpy(name, "\"neck\"", strlen("\"neck\""));
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    struct draft_alteration alteration = { DRAFT_LENGTHEN, "body", PATTERN_NONE, 20 };
    struct draft_figure figure = draft_figure_at(1, PATTERN_NONE);
    figure.alterations = &alteration;
    figure.alteration_count = 1;
    const struct draft_sized *sized_one = draft_size(room->a, p, &figure, room->errs);
    room_nothing_told(room);
    fit_tell_mismatches(sized_one, NULL, room->errs);
    const struct err *told = room_only_told(room, "fit.mismatch");
    assert_string_equal(told->args[0].text, "side");
    assert_near(told->args[1].number, 20, 0.3);
    assert_string_equal(told->args[2].text, "longer");
    room_forget(room);
    fit_tell_mismatches(size_at(room->a, p, 1, PATTERN_NONE, room->errs), NULL, room->errs);
    room_nothing_told(room);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_line_lengthens_all_pieces_that_have_it),
        room_test(no_more_can_be_taken_out_than_there_is),
        room_test(a_fuller_bust_opens_the_darts_and_keeps_the_seams),
        room_test(a_girth_over_a_spread_has_what_it_is_spread),
        room_test(a_bust_fuller_than_the_slash_reaches_is_told),
        room_test(a_seam_is_taken_in_at_a_level_on_both_pieces),
        room_test(what_is_taken_in_at_one_place_adds_up),
        room_test(a_corner_of_two_seams_is_moved_by_both),
        room_test(two_spreads_are_one_of_both),
        room_test(shortened_twice_has_to_find_room_for_both),
        room_test(the_end_of_a_band_is_taken_in_along_its_grain),
        room_test(a_level_without_a_point_is_told),
        room_test(an_edge_gets_the_allowance_that_is_wanted),
        room_test(a_blend_follows_each_level),
        room_test(a_seam_that_cannot_follow_is_told_by_name_and_mm),
        room_test(a_trial_garment_has_wide_allowances_and_main_pieces_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
