/* Lays that are known by hand, and what may not be held in place. */
#include "lay/laying.h"

static const struct lay_effort few = { 5, NULL, NULL };

/* Eight ties of 100 by 150 on cloth 400 wide: two rows of four, 300 long, without waste (hand-worked). */
static void rectangles_fill_the_cloth(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, "{ 'piece': 'tie', 'count': 8 }", laying_cloth(400, CLOTH_SINGLE));
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    assert_int_equal(lay.left_out, 0);
    assert_near(lay.length_mm, 300, 1e-3);
    assert_near(lay.used, 1, 1e-5);
    struct lay_figures f = lay_figures_of(&lay, UNITS_CM);
    assert_near(f.to_buy_mm, 300, 1e-6);
    assert_true(isnan(f.spare_mm));
}

/* With 10 mm between them four need 430 across; 2 x 150 + 10 along. */
static void a_gap_is_kept_between_pieces_but_not_at_edges(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(430, CLOTH_SINGLE);
    cloth.gap_mm = 10;
    struct laying *l = laying_soundly(room, "{ 'piece': 'tie', 'count': 8 }", cloth);
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    assert_near(lay.length_mm, 310, 1e-3);
}

/* The front lies on the fold, its half 200 wide of 250, 600 long. */
static void a_piece_lies_on_the_fold(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(500, CLOTH_FOLDED);
    cloth.gap_mm = 3;
    struct laying *l = laying_soundly(room, "{ 'piece': 'front', 'count': 1 }", cloth);
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    struct geometry_box box = geometry_path_box(lay_outline(room->a, &l->task, 0, &lay.places[0]).path);
    assert_near(box.min.y, 0, 0); /* exactly */
    assert_near(box.max.y, 200, 1e-9);
    assert_near(lay.length_mm, 600, 0.25);
    assert_near(lay.used, 2 * 105000 / (lay.length_mm * 500), 1e-9);
}

/* Both selvedges to the middle of cloth 800 wide: fronts on both folds, side by side, 600 long. */
static void two_folds_take_two_fronts(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, "{ 'piece': 'front', 'count': 2 }", laying_cloth(800, CLOTH_TO_MIDDLE));
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    assert_near(lay.length_mm, 600, 0.5);
    double folds[2];
    for (size_t i = 0; i < 2; i++) {
        struct geometry_box box = geometry_path_box(lay_outline(room->a, &l->task, i, &lay.places[i]).path);
        folds[i] = box.min.y < 1e-9 ? 0 : box.max.y;
    }
    assert_near(folds[0] + folds[1], 400, 1e-9); /* one on each */
}

/* On one-way cloth upper ends lie away from the cut end: the front is wide at its hem, which lies first. */
static void one_way_cloth_has_all_pieces_the_same_way_up(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(1200, CLOTH_SINGLE);
    cloth.one_way = true;
    struct laying *l = laying_soundly(room, "{ 'piece': 'front', 'count': 4 }", cloth);
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    for (size_t i = 0; i < 4; i++)
        assert_near(lay.places[i].motion.turn_deg, -90, 1e-9);
    cloth.one_way = false; /* head to tail three lie within 600, and the fourth beside them: 350 each and 400 at last */
    l = laying_soundly(room, "{ 'piece': 'front', 'count': 2 }", cloth);
    lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
}

/* A repeat of 70 along with its first line at 30; the tie's match line lies 50 above its lower end: the ends lie at
 * 30 - 50 + k 70, turned round at 30 + 50 - 150 + k 70, both the least at or past 0: 50, 0. */
static void stripes_match_at_match_lines(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_of(room,
                                 "{ 'name': 'tie', 'label': 'Tie', 'rectangle': { 'width': 100, 'height': 150 },"
                                 "  'points': { 'm': [0, 50], 'n': [100, 50] },"
                                 "  'lines': [ { 'kind': 'match', 'from': 'm', 'to': 'n' } ] }",
                                 "", "{ 'piece': 'tie', 'count': 3 }");
    struct cloth cloth = laying_cloth(150, CLOTH_SINGLE);
    cloth.repeat = (struct cloth_repeat){ .along_mm = 70, .line_along_mm = 30, .uneven = true };
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    /* one after the other, 150 long, in steps of 70: 50, 260, 470 */
    assert_near(lay.length_mm, 470 + 150, 1e-6);
    for (size_t i = 0; i < 3; i++) {
        double line = geometry_path_box(lay_outline(room->a, &l->task, i, &lay.places[i]).path).min.x + 50;
        assert_near(remainder(line - 30, 70), 0, 1e-6);
    }
    cloth.repeat.uneven = false;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    /* turned round from 0 to 150, as drawn from 190 to 340, turned round from 350 to 500 */
    assert_near(lay.length_mm, 500, 1e-6);
}

/* The cloth is short: what does not fit is left out and named. */
static void a_short_cloth_leaves_pieces_out(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(400, CLOTH_SINGLE);
    cloth.length_mm = 500;
    struct laying *l = laying_soundly(room, "{ 'piece': 'front', 'count': 1 }, { 'piece': 'tie', 'count': 4 }", cloth);
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    assert_int_equal(lay.left_out, 1); /* the front is 600 long */
    assert_false(lay.places[0].is_laid);
    assert_string_equal(lay_item_name(room->a, &l->task, 0), "Front");
    assert_near(lay_figures_of(&lay, UNITS_CM).spare_mm, 500 - 150, 1e-3);
    cloth.length_mm = 200; /* one row of four */
    l = laying_soundly(room, "{ 'piece': 'tie', 'count': 6 }", cloth);
    lay = laying_best_after(room, &l->task, NULL, 3);
    assert_int_equal(lay.left_out, 2);
}

static void what_is_held_stays_and_others_lie_around_it(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, "{ 'piece': 'tie', 'count': 8 }", laying_cloth(400, CLOTH_SINGLE));
    struct lay_place pins[8] = { [3] = { true, true, { .turn_deg = -90, .shift = { 10, 250 } } } };
    struct lay lay = laying_best_after(room, &l->task, pins, 3);
    laying_nothing_is_wrong(room, &lay);
    assert_int_equal(lay.left_out, 0);
    assert_true(lay.places[3].is_pinned);
    assert_near(lay.places[3].motion.shift.x, 10, 0);
    assert_near(lay.places[3].motion.shift.y, 250, 0);
    for (size_t i = 0; i < 8; i++)
        if (i != 3)
            pins[i] = (struct lay_place){ true, true, lay.places[i].motion };
    struct lay same = laying_best_after(room, &l->task, pins, 3); /* nothing is left to be moved */
    assert_near(same.length_mm, lay.length_mm, 0);
}

static void pins_that_are_not_possible_are_told(void **state)
{
    struct room *room = *state;
    struct cloth cloth = laying_cloth(900, CLOTH_FOLDED);
    cloth.one_way = true;
    struct laying *l = laying_soundly(room, "{ 'piece': 'front', 'count': 1 }, { 'piece': 'tie', 'count': 4 }", cloth);
    static const struct {
        struct lay_place first, second, third;
        const char *code;
        double amount;
    } rows[] = {
        { { 0 },
          { true, true, { .turn_deg = -90, .shift = { 0, 200 } } }, /* over each other by 30 across */
          { true, true, { .turn_deg = -90, .shift = { 0, 270 } } },
          "lay.pin_overlap",
          30 },
        { { 0 }, { true, true, { .turn_deg = -90, .shift = { -5, 300 } } }, { 0 }, "lay.pin_off_cloth", 5 },
        { { 0 }, { true, true, { .turn_deg = -90, .shift = { 0, 460 } } }, { 0 }, "lay.pin_off_cloth", 10 },
        { { 0 }, { true, true, { .turn_deg = 90, .shift = { 200, 100 } } }, { 0 }, "lay.pin_against_nap", 180 },
        { { true, true, { .mirror = true, .turn_deg = -90, .shift = { 0, 7 } } }, { 0 }, { 0 }, "lay.pin_off_fold", 7 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct lay_place pins[3] = { rows[i].first, rows[i].second, rows[i].third };
        assert_null(lay_search_begin(&l->task, pins, 1, NULL, NULL, room->errs));
        const struct err *told = room_only_told(room, rows[i].code);
        assert_near(told->args[i == 0 ? 2 : 1].number, rows[i].amount, 1e-6);
        room_forget(room);
    }
}

/* Held on the fold at 0, then the same cloth opened out: 200 of its 400 hang over the edge. */
static void what_was_held_on_the_fold_is_told_when_it_is_opened_out(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, "{ 'piece': 'front', 'count': 1 }", laying_cloth(900, CLOTH_SINGLE));
    const struct lay_place pin = { true, true, { .mirror = true, .turn_deg = -90, .shift = { 0, 0 } } };
    assert_null(lay_search_begin(&l->task, &pin, 1, NULL, NULL, room->errs));
    assert_string_equal(room_only_told(room, "lay.pin_opened")->args[0].text, "Front");
    room_forget(room);
}

/* Ties between a fault that takes 100 of 400 all along and the other edge: three in a row. */
static void nothing_lies_on_faults(void **state)
{
    struct room *room = *state;
    vec2 corners[] = { { 0, 100 }, { 1000, 100 }, { 1000, 200 }, { 0, 200 } };
    struct cloth_path fault = { { corners, 4, true } };
    struct cloth cloth = laying_cloth(400, CLOTH_SINGLE);
    cloth.length_mm = 1000;
    cloth.faults = &fault;
    cloth.fault_count = 1;
    struct laying *l = laying_soundly(room, "{ 'piece': 'tie', 'count': 6 }", cloth);
    struct lay lay = laying_best_after(room, &l->task, NULL, 3);
    laying_nothing_is_wrong(room, &lay);
    assert_near(lay.length_mm, 300, 1e-3);
}

static bool same_places(const struct lay *a, const struct lay *b)
{
    for (size_t i = 0; i < a->task->item_count; i++) {
        const struct geometry_motion *m = &a->places[i].motion, *n = &b->places[i].motion;
        if (m->mirror != n->mirror || m->turn_deg != n->turn_deg || m->shift.x != n->shift.x ||
            m->shift.y != n->shift.y)
            return false;
    }
    return true;
}

static void the_same_seed_gives_the_same_lay_at_any_number_of_threads(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room,
                                      "{ 'piece': 'front', 'count': 2 }, { 'piece': 'sleeve', 'pairs': 2 },"
                                      "{ 'piece': 'tie', 'count': 5 }, { 'piece': 'gusset', 'count': 4 }",
                                      laying_cloth(900, CLOTH_SINGLE));
    struct base_pool *pool = base_pool_create(2);
    struct lay lays[2];
    for (int i = 0; i < 2; i++) {
        struct lay_search *s = lay_search_begin(&l->task, NULL, 7, i ? pool : NULL, NULL, room->errs);
        for (int k = 0; k < 5; k++)
            lay_search_round(s, NULL);
        lays[i] = lay_search_best(room->a, s);
        lay_search_end(s);
    }
    base_pool_destroy(pool);
    laying_nothing_is_wrong(room, &lays[0]);
    assert_true(same_places(&lays[0], &lays[1]));
}

/* A right-angled triangle of 800 by 800, 320000 in all, and a tie of 100 by 150. A scrap is not bought. */
static void of_a_scrap_all_of_it_counts(void **state)
{
    struct room *room = *state;
    vec2 corners[] = { { 0, 0 }, { 800, 0 }, { 0, 800 } };
    struct cloth scrap = { .outline = { { corners, 3, true } } };
    struct laying *l = laying_soundly(room, "{ 'piece': 'tie', 'count': 1 }", scrap);
    struct lay lay = laying_best_after(room, &l->task, NULL, 1);
    assert_int_equal(lay.left_out, 0);
    assert_near(lay.used, 15000.0 / 320000, 1e-9);
    assert_true(isnan(lay_figures_of(&lay, UNITS_CM).to_buy_mm));
}

/* Six ties: on 300 wide two rows of three, on 600 one row, on 90 none. */
static void other_widths_take_other_lengths(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, "{ 'piece': 'tie', 'count': 6 }", laying_cloth(300, CLOTH_SINGLE));
    struct lay_figures f;
    assert_true(lay_on_width(room->a, &l->task, 300, &few, &f, UNITS_CM));
    assert_near(f.length_mm, 300, 1e-3);
    assert_true(lay_on_width(room->a, &l->task, 600, &few, &f, UNITS_CM));
    assert_near(f.length_mm, 150, 1e-3);
    assert_near(f.to_buy_mm, 200, 1e-6);
    assert_false(lay_on_width(room->a, &l->task, 90, &few, &f, UNITS_CM));
    assert_string_equal(lay_too_wide_on(&l->task, 90)->label, "Tie");
    assert_null(lay_too_wide_on(&l->task, 100));
    /* of 300 wide only 150 are there, half of them spoilt: two rows again */
    vec2 corners[] = { { 0, 0 }, { 150, 0 }, { 150, 150 }, { 0, 150 } };
    const struct cloth_path spoilt = { { corners, 4, true } };
    struct cloth cloth = laying_cloth(300, CLOTH_SINGLE);
    cloth.length_mm = 150;
    cloth.faults = &spoilt;
    cloth.fault_count = 1;
    assert_true(laying_make(room, l, cloth, PATTERN_FABRIC));
    assert_true(lay_on_enough(room->a, &l->task, &few, &f, UNITS_CM));
    assert_near(f.length_mm, 300, 1e-3);
}

/* Six ties of 100 by 150 on 350: no layout is shown to be the shortest (90,000 mm² need 257 mm, two rows 300), so a
 * search that is not stopped goes on for all its rounds. */
static void what_is_stopped_ends_with_what_it_has(void **state)
{
    struct room *room = *state;
    struct laying *l = laying_soundly(room, "{ 'piece': 'tie', 'count': 6 }", laying_cloth(300, CLOTH_SINGLE));
    const atomic_bool stop = true;
    const struct lay_effort stopped = { SIZE_MAX, NULL, &stop };
    struct lay_figures f;
    assert_true(lay_on_width(room->a, &l->task, 350, &stopped, &f, UNITS_CM));
    assert_true(f.length_mm >= 257);
    assert_true(lay_on_enough(room->a, &l->task, &stopped, &f, UNITS_CM));
    assert_true(f.length_mm >= 300 - 1e-3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(what_is_stopped_ends_with_what_it_has),
        room_test(rectangles_fill_the_cloth),
        room_test(a_gap_is_kept_between_pieces_but_not_at_edges),
        room_test(a_piece_lies_on_the_fold),
        room_test(two_folds_take_two_fronts),
        room_test(one_way_cloth_has_all_pieces_the_same_way_up),
        room_test(stripes_match_at_match_lines),
        room_test(a_short_cloth_leaves_pieces_out),
        room_test(what_is_held_stays_and_others_lie_around_it),
        room_test(pins_that_are_not_possible_are_told),
        room_test(what_was_held_on_the_fold_is_told_when_it_is_opened_out),
        room_test(nothing_lies_on_faults),
        room_test(the_same_seed_gives_the_same_lay_at_any_number_of_threads),
        room_test(of_a_scrap_all_of_it_counts),
        room_test(other_widths_take_other_lengths),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
