#include "packing/map_lanes.h"

#include "support/cmocka_all.h"

#include <math.h>

enum { ROW = MAP_LANES * 4 };

/* 3 + 0.5 x 2 = 4 and so on, hand-worked; the column after the part's last lane keeps what it had. */
static void parts_are_added_by_their_weights(void **state)
{
    (void)state;
    float cost[2 * ROW] = { 3, 0, 1 };
    uint8_t near[2 * MAP_LANES] = { 2, 4, 255 }, far[MAP_LANES] = { [7] = 3 };
    near[MAP_LANES] = 6;
    cost[MAP_LANES] = 9;
    struct map_part parts[2] = {
        { .cost = cost,
          .depth = near,
          .stride = ROW,
          .depth_stride = MAP_LANES,
          .rows = 2,
          .lanes = 1,
          .weight = 0.5F },
        { .cost = cost, .depth = far, .stride = ROW, .depth_stride = MAP_LANES, .rows = 1, .lanes = 1, .weight = 2 },
    };
    map_lanes_add(parts, 2);
    const struct {
        int at;
        float want;
    } rows[] = { { 0, 4 }, { 1, 2 }, { 2, 128.5F }, { 7, 6 }, { MAP_LANES, 9 }, { ROW, 3 }, { ROW + 1, 0 } };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_true(cost[rows[i].at] == rows[i].want);
}

/* Of 5 2 3 1 1 4 0 the columns 1, 3, 4 and 6 are no dearer than those on either side. */
static void the_next_cheap_column_has_none_cheaper_beside_it(void **state)
{
    (void)state;
    float row[1 + ROW] = { INFINITY, 5, 2, 3, 1, 1, 4, 0, INFINITY };
    const float *cost = row + 1;
    const struct {
        size_t from;
        float most;
        size_t want;
    } rows[] = { { 0, 10, 1 }, { 2, 10, 3 }, { 4, 10, 4 }, { 5, 10, 6 }, { 0, 2, 3 }, { 0, 0.5F, 6 } };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_int_equal(map_lanes_next(cost, rows[i].from, 7, rows[i].most), rows[i].want);
    assert_true(map_lanes_next(cost, 0, 7, 0) >= 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parts_are_added_by_their_weights),
        cmocka_unit_test(the_next_cheap_column_has_none_cheaper_beside_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
