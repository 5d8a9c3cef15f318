#include "calibration/start.h"

#include "cases.h"
#include "support/cmocka_all.h"

enum { NINE = sizeof nine / sizeof nine[0] };

static bool start_of(const vec2 *from, const vec2 *to, size_t count, double h[8])
{
    struct arena *scratch = base_arena_create();
    bool found = calibration_start(scratch, from, to, count, h);
    base_arena_destroy(scratch);
    return found;
}

static vec2 mapped(const double h[8], vec2 p)
{
    double d = h[6] * p.x + h[7] * p.y + 1;
    return (vec2){ (h[0] * p.x + h[1] * p.y + h[2]) / d, (h[3] * p.x + h[4] * p.y + h[5]) / d };
}

static void nine_pairs_start_where_the_published_method_starts(void **state)
{
    (void)state;
    vec2 from[NINE], to[NINE];
    for (int i = 0; i < NINE; i++) {
        from[i] = (vec2){ nine[i].px.x, nine[i].px.y };
        to[i] = (vec2){ nine[i].at.x, nine[i].at.y };
    }
    double h[8];
    assert_true(start_of(from, to, NINE, h));
    for (int i = 0; i < 8; i++)
        assert_near(h[i], nine_start[i], 1e-9 * fabs(nine_start[i]));
}

/* By hand: the near corners make h02 = h12 = h01 = h10 = 0, h00 = 2 (1 + g) and h11 = 2 (1 + g) with h20 = h21 = g; the
 * far corner asks 2 (1 + g) = 3 (1 + 2 g), so g = -1/4. */
static void four_pairs_are_met_exactly(void **state)
{
    (void)state;
    const vec2 from[4] = { { 0, 0 }, { 1, 0 }, { 1, 1 }, { 0, 1 } }, to[4] = { { 0, 0 }, { 2, 0 }, { 3, 3 }, { 0, 2 } };
    double h[8];
    assert_true(start_of(from, to, 4, h));
    const double wanted[8] = { 1.5, 0, 0, 0, 1.5, 0, -0.25, -0.25 };
    for (int i = 0; i < 8; i++)
        assert_near(h[i], wanted[i], 1e-14);
    for (int i = 0; i < 4; i++) {
        assert_near(mapped(h, from[i]).x, to[i].x, 1e-14);
        assert_near(mapped(h, from[i]).y, to[i].y, 1e-14);
    }
}

static void pairs_that_leave_the_map_open_are_refused(void **state)
{
    (void)state;
    double h[8];
    static const vec2 rows[][4] = {
        { { 0, 0 }, { 1, 0 }, { 2, 0 }, { 1, 1 } }, /* three in one line */
        { { 0, 0 }, { 1, 1 }, { 2, 2 }, { 3, 3 } }, /* all in one line */
        { { 0, 0 }, { 1, 0 }, { 1, 0 }, { 0, 1 } }, /* one twice */
        { { 5, 5 }, { 5, 5 }, { 5, 5 }, { 5, 5 } }, /* one place */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (start_of(rows[i], rows[i], 4, h))
            fail_msg("row %zu", i);
}

static void a_horizon_through_the_middle_is_refused(void **state)
{
    (void)state;
    /* (x, y) -> (1/x, y/x): the horizon is x = 0, where h22 would have to be 0. */
    static const vec2 from[5] = { { 1, 1 }, { 2, -1 }, { -1, 2 }, { -2, -1 }, { 3, 2 } };
    vec2 to[5];
    double h[8];
    for (int i = 0; i < 5; i++)
        to[i] = (vec2){ 1 / from[i].x, from[i].y / from[i].x };
    bool found = start_of(from, to, 5, h);
    /* Rounding may leave a h22 that is not quite 0: then the terms are huge, and the solve finds that the map folds. */
    if (found)
        assert_true(fabs(h[6]) > 1e9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nine_pairs_start_where_the_published_method_starts),
        cmocka_unit_test(four_pairs_are_met_exactly),
        cmocka_unit_test(pairs_that_leave_the_map_open_are_refused),
        cmocka_unit_test(a_horizon_through_the_middle_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
