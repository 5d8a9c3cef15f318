/* A day in a sentence, against the calendar's own words (common practice, no source). */
#include "bench/day.h"
#include "support/cmocka_all.h"
#include "support/room.h"

static void a_day_is_written_out_and_what_follows_it_stays(void **state)
{
    struct arena *a = *state;
    assert_string_equal(bench_day(a, "2026-11-30"), "30 November 2026");
    assert_string_equal(bench_day(a, "2026-05-03 18:05"), "3 May 2026 18:05");
    assert_string_equal(bench_day_short(a, "2026-09-01"), "1 Sep 2026");
}

static void what_is_no_day_stays_as_it_is(void **state)
{
    struct arena *a = *state;
    static const char *const others[] = { "", "yesterday", "2026-13-01", "2026-1", "26-11-30" };
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        assert_string_equal(bench_day(a, others[i]), others[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = { room_arena_test(a_day_is_written_out_and_what_follows_it_stays),
                                        room_arena_test(what_is_no_day_stays_as_it_is) };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
