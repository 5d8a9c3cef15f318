/* The demo's view A on cloth of the usual widths, against a published chart of what a garment takes on each of them
 * (two sewing pages agree on it): on 35-36, 44-45, 52-54 and 58-60 in, yards. A lay need not follow it to the letter:
 * by equal area the chart itself is off by up to 3/8 yd. The row is taken whose 45 in figure is nearest to ours. The
 * first argument is the demo's pattern. */
#include "lay/lay.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

static const struct lay_effort few = { 4, NULL, NULL };

#define YARD_MM 914.4

static const char *demo;

static const double chart[][4] = {
    { 1.75, 1.375, 1.125, 1 },   { 2, 1.625, 1.375, 1.25 },    { 2.25, 1.75, 1.5, 1.375 },
    { 2.5, 2.125, 1.75, 1.625 }, { 2.875, 2.25, 1.875, 1.75 }, { 3.125, 2.5, 2, 1.875 },
    { 3.375, 2.75, 2.25, 2 },    { 3.75, 2.875, 2.375, 2.25 }, { 4.25, 3.125, 2.625, 2.375 },
    { 4.5, 3.375, 2.75, 2.625 }, { 4.75, 3.625, 2.875, 2.75 }, { 5, 3.875, 3.125, 2.875 },
};

static const double *nearest_row(double yards)
{
    const double *best = chart[0];
    for (size_t i = 1; i < sizeof chart / sizeof chart[0]; i++)
        if (fabs(chart[i][1] - yards) < fabs(best[1] - yards))
            best = chart[i];
    return best;
}

static void the_demo_takes_what_the_chart_says(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_read(room->a, demo, room->errs);
    const double *mm;
    struct draft draft;
    struct cloth cloth = cloth_plain(45 * 25.4);
    struct lay_task task;
    double yards[4];
    assert_non_null(p);
    assert_true(make_at_size(room->a, p, 2, 0, 0, &draft, room->errs));
    assert_true(lay_task_make(room->a, &draft, NULL, &cloth, PATTERN_FABRIC, &task, room->errs));
    assert_int_equal(cloth_common_widths(UNITS_IN, false, &mm), 4);
    for (int i = 0; i < 4; i++) {
        struct lay_figures f;
        assert_true(lay_on_width(room->a, &task, mm[i], &few, &f, UNITS_IN));
        yards[i] = f.length_mm / YARD_MM;
        print_message("%.0f in: %.2f yd, %.1f %% used\n", mm[i] / 25.4, yards[i], 100 * f.used);
        assert_true(f.to_buy_mm >= f.length_mm && f.to_buy_mm < f.length_mm + YARD_MM / 8);
    }
    const double *row = nearest_row(yards[1]);
    for (int i = 0; i < 4; i++)
        assert_near(yards[i], row[i], 0.375);
    assert_true(yards[0] > yards[1] && yards[1] > yards[2] && yards[2] > yards[3]);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = { room_test(the_demo_takes_what_the_chart_says) };
    if (argc < 2)
        return 1;
    demo = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
