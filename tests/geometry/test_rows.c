#include "geometry/rows.h"
#include "support/cmocka_all.h"

static void rows_break_at_the_width_and_keep_the_gap(void **state)
{
    (void)state;
    /* Worked by hand: 100 + 32 + 150 = 282 fits 300, a third of 50 (364) does not. The first row is 80 high. */
    const struct geometry_box boxes[] = { { { 5, 5 }, { 105, 65 } },
                                          { { 0, 0 }, { 150, 80 } },
                                          { { -50, 0 }, { 0, 10 } } };
    vec2 shifts[3];
    struct geometry_box all = geometry_rows(boxes, 3, 300, 32, shifts);
    assert_near(shifts[0].x, -5, 0);
    assert_near(shifts[0].y, -65, 0);
    assert_near(shifts[1].x, 132, 0);
    assert_near(shifts[1].y, -80, 0);
    assert_near(shifts[2].x, 50, 0);
    assert_near(shifts[2].y, -122, 0); /* top at -112 = 80 + 32 below */
    assert_near(all.min.x, 0, 0);
    assert_near(all.max.x, 282, 0);
    assert_near(all.min.y, -122, 0);
    assert_near(all.max.y, 0, 0);
}

static void a_piece_wider_than_a_row_has_a_row_of_its_own(void **state)
{
    (void)state;
    const struct geometry_box boxes[] = { { { 0, 0 }, { 500, 10 } }, { { 0, 0 }, { 50, 10 } } };
    vec2 shifts[2];
    geometry_rows(boxes, 2, 300, 32, shifts);
    assert_near(shifts[0].x, 0, 0);
    assert_near(shifts[1].x, 0, 0);
    assert_near(shifts[1].y, -52, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_break_at_the_width_and_keep_the_gap),
        cmocka_unit_test(a_piece_wider_than_a_row_has_a_row_of_its_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
