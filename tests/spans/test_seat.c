/* Where the cloth lies once it was slid: from marks and lines that were nudged, against hand-worked figures. */
#include "spans/spans.h"
#include "support/room.h"

#include <math.h>

#define DEGREE 0.017453292519943295

/* A cloth that lies turned and shifted, and what is found of it. */
struct lying {
    double turn_deg, x, y;
};

static struct table_pt lies_at(struct lying l, double x, double y)
{
    double s = sin(l.turn_deg * DEGREE), c = cos(l.turn_deg * DEGREE);
    return (struct table_pt){ c * x - s * y + l.x, s * x + c * y + l.y };
}

static struct spans_sighting mark(struct lying l, double x, double y, double sigma)
{
    return (struct spans_sighting){ SPANS_MARK, { x, y }, lies_at(l, x, y), sigma };
}

/* A place on a line along the cloth, found `off` mm from where it was looked for: along a line nobody can tell. */
static struct spans_sighting along(struct lying l, double x, double y, double off, double sigma)
{
    return (struct spans_sighting){ SPANS_ALONG_LINE, { x, y }, lies_at(l, x + off, y), sigma };
}

static struct spans_sighting across(struct lying l, double x, double y, double off, double sigma)
{
    return (struct spans_sighting){ SPANS_ACROSS_LINE, { x, y }, lies_at(l, x, y + off), sigma };
}

static struct spans_seat sit(struct room *room, const struct spans_sighting *s, size_t count)
{
    struct spans_seat seat;
    if (!spans_sit(s, count, &seat, room->errs)) {
        room_print_told(room);
        fail_msg("no seat");
    }
    return seat;
}

static void assert_lies(const struct spans_seat *seat, struct lying l)
{
    struct geometry_mover m = geometry_mover_of(seat->to_table);
    static const vec2 places[] = { { 0, 0 }, { 1500, 0 }, { 700, 1400 } };
    for (int i = 0; i < 3; i++) {
        vec2 got = geometry_move(&m, places[i]);
        struct table_pt want = lies_at(l, places[i].x, places[i].y);
        assert_near(got.x, want.x, 1e-8);
        assert_near(got.y, want.y, 1e-8);
    }
    assert_false(seat->to_table.mirror);
}

static void true_marks_give_the_true_place(void **state)
{
    static const struct lying lies[] = { { 0, 0, 0 }, { 0.5, 5, -3 }, { -88, 1000, 400 }, { 179.9, -30, 2000 } };
    for (size_t i = 0; i < sizeof lies / sizeof lies[0]; i++) {
        const struct spans_sighting s[] = { mark(lies[i], 900, 100, 0.7), mark(lies[i], 950, 700, 0.7),
                                            mark(lies[i], 880, 420, 0.3) };
        struct spans_seat two = sit(*state, s, 2), three = sit(*state, s, 3);
        assert_lies(&two, lies[i]);
        assert_lies(&three, lies[i]);
        assert_near(three.stretch, 0, 1e-10);
        assert_near(three.worst_off_mm, 0, 1e-8);
    }
    room_nothing_told(*state);
}

/* First placing: two places on the fold and one on the cut end, none of them where the light had looked for it. */
static void lines_alone_give_the_place(void **state)
{
    struct lying l = { 3, 120, 80 };
    const struct spans_sighting s[] = { along(l, 100, 0, 14, 0.5), along(l, 1200, 0, -9, 0.5),
                                        across(l, 0, 600, 20, 0.5) };
    struct spans_seat seat = sit(*state, s, 3);
    assert_lies(&seat, l);
    assert_true(isnan(seat.stretch));
}

static void one_mark_and_the_fold_give_the_place(void **state)
{
    struct lying l = { -0.4, -612, 3 };
    const struct spans_sighting s[] = { mark(l, 980, 350, 0.7), along(l, 800, 0, 6, 0.5), along(l, 1700, 0, 6, 0.5) };
    struct spans_seat seat = sit(*state, s, 3);
    assert_lies(&seat, l);
}

/* Hand-worked. Marks at y = 0 and 700, sigma 0.7 in each coordinate: their middle is known within 0.7 / sqrt 2 = 0.495,
 * the turn within 0.7 sqrt 2 / 700 = 1.41421e-3. At y = 1400, 1050 from the middle, a place is off along by
 * sqrt(0.495^2 + (1050 x 1.41421e-3)^2) = 1.56525, and 2.4477 times that is 3.8313: more than the 2 mm that two ticks
 * leave there when each is off by 0.7 the other way (0.7 + 2 x 0.7 = 2.1). */
static void ticks_700_mm_apart_leave_more_than_2_mm_at_1400(void **state)
{
    struct lying l = { 0, 0, 0 };
    const struct spans_sighting s[] = { mark(l, 0, 0, 0.7), mark(l, 0, 700, 0.7) };
    struct spans_seat seat = sit(*state, s, 2);
    assert_near(sqrt(seat.covariance[0][0]), 0.494975, 1e-6);
    assert_near(sqrt(seat.covariance[2][2]), 1.414214e-3, 1e-9);
    assert_near(spans_doubt(&seat, (struct cloth_pt){ 0, 350 }), 2.4477 * 0.494975, 1e-5);
    double doubt = spans_doubt(&seat, (struct cloth_pt){ 0, 1400 });
    assert_near(doubt, 3.8313, 1e-4);
    const struct spans_sighting off[] = { mark(l, 0, 0, 0.7), { SPANS_MARK, { 0, 700 }, { -0.7, 700 }, 0.7 } };
    struct spans_sighting worst[] = { off[0], off[1] };
    worst[0].table.x += 0.7;
    struct spans_seat turned = sit(*state, worst, 2);
    struct geometry_mover m = geometry_mover_of(turned.to_table);
    double left = fabs(geometry_move(&m, (vec2){ 0, 1400 }).x);
    assert_near(left, 2.1, 1e-4);
    assert_true(left < doubt);
}

/* Hand-worked. The turn from a fold seen at two places 1500 mm apart within 0.5 is known within 0.5 sqrt 2 / 1500 =
 * 4.714e-4, from two marks 300 mm apart within 0.7 sqrt 2 / 300 = 3.3e-3: together 1 / sqrt(1 / 4.714e-4^2 +
 * 1 / 3.3e-3^2) or, as the fold's places tell of the shift across too, a little better. */
static void the_turn_comes_from_the_longest_line(void **state)
{
    struct lying l = { 0.3, 10, 20 };
    const struct spans_sighting s[] = { mark(l, 750, 250, 0.7), mark(l, 750, 550, 0.7), along(l, 0, 0, 0, 0.5),
                                        along(l, 1500, 0, 0, 0.5) };
    struct spans_seat marks = sit(*state, s, 2), all = sit(*state, s, 4);
    assert_near(sqrt(marks.covariance[2][2]), 3.29983e-3, 1e-8);
    assert_true(sqrt(all.covariance[2][2]) < 4.714e-4);
    assert_true(sqrt(all.covariance[2][2]) > 4.6e-4);
}

/* Hand-worked. The fold seen at x = 800 and 1700 within 0.5, e1 and e2 off, turns by (e2 - e1) / 900; the cut end seen
 * at y = 600 within 0.5, e3 off. A place (x, 0) is off across by e1 + (x - 800) / 900 (e2 - e1), and along by e3 + 600
 * (e2 - e1) / 900, as the turn swings it about (0, 600). At x = 2600 across is -e1 + 2 e2 and along -2/3 e1 + 2/3 e2 +
 * e3: spreads of 0.25 x 5 = 1.25 and 0.25 x (8/9 + 1) = 0.472222, together 0.25 x (2/3 + 4/3) = 0.5. The larger root of
 * the two is 1.494542, its square root times 2.4477 is 2.99235. */
static void the_doubt_of_a_place_far_out_is_hand_worked(void **state)
{
    struct lying l = { 30, 5, 5 };
    const struct spans_sighting s[] = { along(l, 800, 0, 0, 0.5), along(l, 1700, 0, 0, 0.5),
                                        across(l, 0, 600, 0, 0.5) };
    struct spans_seat seat = sit(*state, s, 3);
    assert_near(spans_doubt(&seat, (struct cloth_pt){ 2600, 0 }), 2.99235, 1e-4);
}

/* ---- Stretch ---- */

/* Hand-worked: marks 700 mm apart are found 707 apart. Told as 1 %, 10 mm in a metre; the seat is that of the middle,
 * the turn is true, and lengths are not stretched. */
static void stretched_cloth_is_told_and_pieces_are_not_stretched(void **state)
{
    struct room *room = *state;
    const struct spans_sighting s[] = { { SPANS_MARK, { 0, 0 }, { 0, -3.5 }, 0.7 },
                                        { SPANS_MARK, { 0, 700 }, { 0, 703.5 }, 0.7 } };
    struct spans_seat seat = sit(room, s, 2);
    assert_near(seat.stretch, 0.01, 1e-12);
    assert_near(seat.stretch_sigma, 0.7 * sqrt(2) / 700, 1e-9);
    assert_near(room_only_told(room, "spans.stretched")->args[0].number, 10, 1e-9);
    struct lying l = { 0, 0, 0 };
    assert_lies(&seat, l);
}

/* Hand-worked: chi-square's 99.9 % of one degree of freedom is 10.828; sigma of the distance of two marks is 0.7 sqrt
 * 2; so it may be off by sqrt 10.828 x 0.7 sqrt 2 = 3.25754. */
static void what_chalk_may_do_is_no_stretch(void **state)
{
    struct room *room = *state;
    for (int over = 0; over < 2; over++) {
        const struct spans_sighting s[] = { { SPANS_MARK, { 0, 0 }, { 0, 0 }, 0.7 },
                                            { SPANS_MARK, { 0, 700 }, { 0, over ? 703.258 : 703.257 }, 0.7 } };
        room_nothing_told(room);
        sit(room, s, 2);
    }
    room_only_told(room, "spans.stretched");
}

static void cloth_pushed_together_is_told(void **state)
{
    struct room *room = *state;
    const struct spans_sighting s[] = { { SPANS_MARK, { 0, 0 }, { 0, 0 }, 0.5 },
                                        { SPANS_MARK, { 0, 700 }, { 0, 690 }, 0.5 } };
    sit(room, s, 2);
    room_only_told(room, "spans.pushed");
}

/* ---- What does not tell, or contradicts ---- */

static void too_few_or_too_near_tell_nothing(void **state)
{
    struct room *room = *state;
    struct lying l = { 20, 5, 6 };
    const struct spans_sighting one[] = { mark(l, 10, 20, 0.7) };
    const struct spans_sighting same[] = { mark(l, 10, 20, 0.7), mark(l, 10, 20, 0.7) };
    const struct spans_sighting near[] = { mark(l, 10, 20, 0.7), mark(l, 10, 50, 0.7) }; /* 0.7 sqrt 2 / 30: 1.9° */
    const struct spans_sighting fold[] = { along(l, 0, 0, 0, 0.5), along(l, 500, 0, 0, 0.5), along(l, 900, 0, 0, 0.5) };
    const struct {
        const struct spans_sighting *s;
        size_t count;
    } cases[] = { { NULL, 0 }, { one, 1 }, { same, 2 }, { near, 2 }, { fold, 3 } };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct spans_seat seat;
        assert_false(spans_sit(cases[i].s, cases[i].count, &seat, room->errs));
        room_only_told(room, "spans.not_told");
        room_forget(room);
    }
}

/* A square of marks, one of which is found 12 mm off: it is named. */
static void a_mark_mistaken_is_named(void **state)
{
    struct room *room = *state;
    struct lying l = { 1, 0, 0 };
    struct spans_sighting s[] = { mark(l, 0, 0, 0.7), mark(l, 700, 0, 0.7), mark(l, 700, 700, 0.7),
                                  mark(l, 0, 700, 0.7) };
    s[2].table.x += 12;
    struct spans_seat seat;
    assert_false(spans_sit(s, 4, &seat, room->errs));
    assert_int_equal(seat.worst, 2);
    assert_near(room_only_told(room, "spans.contradiction")->args[0].number, 3, 0);
}

/* Two marks found 100 mm too far apart are no stretch. */
static void another_mark_is_no_stretch(void **state)
{
    struct room *room = *state;
    const struct spans_sighting s[] = { { SPANS_MARK, { 0, 0 }, { 0, 0 }, 0.7 },
                                        { SPANS_MARK, { 0, 700 }, { 0, 800 }, 0.7 } };
    struct spans_seat seat;
    assert_false(spans_sit(s, 2, &seat, room->errs));
    room_only_told(room, "spans.contradiction");
}

/* Two marks 14 mm too near in 700 would be cloth in waves: 2 % is more than is taken for pushed together. */
static void cloth_in_waves_is_refused(void **state)
{
    struct room *room = *state;
    const struct spans_sighting s[] = { { SPANS_MARK, { 0, 0 }, { 0, 0 }, 0.7 },
                                        { SPANS_MARK, { 0, 700 }, { 0, 686 }, 0.7 } };
    struct spans_seat seat;
    assert_false(spans_sit(s, 2, &seat, room->errs));
    room_only_told(room, "spans.contradiction");
}

/* Chi-square's 99.9 % for 1 and 3 degrees of freedom, 10.828 and 16.266 (NIST/SEMATECH e-Handbook, 1.3.6.7.4): two
 * marks and a fold across from them, told apart by a hair on either side. Hand-worked: a square of marks whose one
 * diagonal is longer and the other shorter by 2 e has residuals e / sqrt 2 in each coordinate, no stretch and five
 * degrees of freedom: 4 e^2 / sigma^2 against 20.515, e = 2.26468 sigma. */
static void chalk_may_be_off_up_to_chi_square(void **state)
{
    struct room *room = *state;
    struct lying l = { 0, 0, 0 };
    for (int over = 0; over < 2; over++) {
        double e = (over ? 2.2648 : 2.2646) / sqrt(2);
        struct spans_sighting s[] = { mark(l, 0, 0, 1), mark(l, 700, 0, 1), mark(l, 700, 700, 1), mark(l, 0, 700, 1) };
        static const double out[4][2] = { { -1, -1 }, { -1, 1 }, { 1, 1 }, { 1, -1 } };
        for (int i = 0; i < 4; i++) {
            s[i].table.x += e * out[i][0];
            s[i].table.y += e * out[i][1];
        }
        struct spans_seat seat;
        assert_int_equal(spans_sit(s, 4, &seat, room->errs), !over);
    }
    room_only_told(room, "spans.contradiction");
}

/* A mark, the fold and the cut end, found where they are whatever the cloth was pushed by: along a line a point is
 * found so much elsewhere than it was looked for, and the cloth is not taken to lie turned end for end. */
static void cloth_pushed_a_metre_is_not_turned_end_for_end(void **state)
{
    for (int push = -1000; push <= 1000; push += 50)
        for (int turn = -40; turn <= 40; turn += 5)
            for (int end = 0; end < 2; end++) {
                struct lying l = { turn, push, 20 };
                const struct spans_sighting s[] = { mark(l, 600, 60, 0.8), along(l, 300, 0, -push, 0.5),
                                                    end ? across(l, 0, 400, -push / 2.0, 0.5)
                                                        : along(l, 1100, 0, -push, 0.5) };
                struct spans_seat seat = sit(*state, s, 3);
                assert_lies(&seat, l);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(true_marks_give_the_true_place),
        room_test(lines_alone_give_the_place),
        room_test(one_mark_and_the_fold_give_the_place),
        room_test(ticks_700_mm_apart_leave_more_than_2_mm_at_1400),
        room_test(the_turn_comes_from_the_longest_line),
        room_test(stretched_cloth_is_told_and_pieces_are_not_stretched),
        room_test(the_doubt_of_a_place_far_out_is_hand_worked),
        room_test(what_chalk_may_do_is_no_stretch),
        room_test(cloth_pushed_together_is_told),
        room_test(too_few_or_too_near_tell_nothing),
        room_test(a_mark_mistaken_is_named),
        room_test(another_mark_is_no_stretch),
        room_test(cloth_in_waves_is_refused),
        room_test(chalk_may_be_off_up_to_chi_square),
        room_test(cloth_pushed_a_metre_is_not_turned_end_for_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
