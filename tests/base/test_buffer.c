#include "base/buffer.h"
#include "support/room.h"

static void a_text_grows_by_what_is_printed(void **state)
{
    struct base_buffer b = { .a = *state };
    assert_string_equal(base_buffer_text(&b), "");
    base_buffer_print(&b, "%s", "");
    assert_string_equal(base_buffer_text(&b), "");
    base_buffer_print(&b, "%d mm", 12);
    base_buffer_print(&b, ", %.2f", 0.5);
    assert_string_equal(base_buffer_text(&b), "12 mm, 0.50");
    assert_int_equal(b.count, 11);
}

/* Longer than any first room: a thousand lines of four bytes. */
static void nothing_is_lost_while_it_grows(void **state)
{
    struct base_buffer b = { .a = *state };
    for (int i = 0; i < 1000; i++)
        base_buffer_print(&b, "%03d\n", i);
    assert_int_equal(b.count, 4000);
    for (int i = 0; i < 1000; i++) {
        char want[16];
        snprintf(want, sizeof want, "%03d\n", i);
        assert_memory_equal(base_buffer_text(&b) + 4 * i, want, 4);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_text_grows_by_what_is_printed),
        room_arena_test(nothing_is_lost_while_it_grows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
