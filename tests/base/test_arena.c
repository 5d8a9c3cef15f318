#include "base/arena.h"
#include "support/cmocka_all.h"

#include <stdint.h>
#include <string.h>

static void memory_is_zeroed_and_aligned(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    for (size_t n = 1; n < 300; n += 7) {
        unsigned char *p = base_arena_alloc(a, n, 1);
        assert_int_equal((uintptr_t)p % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < n; i++)
            assert_int_equal(p[i], 0);
        memset(p, 0xff, n);
    }
    base_arena_destroy(a);
}

static void blocks_larger_than_a_page_of_the_arena_work(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    char *small = base_arena_copy_text(a, "kept");
    double *large = base_arena_alloc(a, 100000, sizeof(double));
    large[99999] = 7;
    assert_string_equal(small, "kept");
    base_arena_destroy(a);
}

static void an_arena_knows_how_much_it_holds(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    assert_int_equal(base_arena_bytes(a), 0);
    base_arena_alloc(a, 1000, 1);
    size_t first = base_arena_bytes(a);
    assert_true(first >= 1000);
    base_arena_alloc(a, 3, 1000 * 1000);
    assert_true(base_arena_bytes(a) >= first + 3000 * 1000);
    base_arena_reset(a);
    assert_true(base_arena_bytes(a) >= 3000 * 1000); /* the newest block stays */
    base_arena_alloc(a, 1, 1000);
    assert_true(base_arena_bytes(a) < 2 * 3000 * 1000);
    base_arena_destroy(a);
}

static void growing_keeps_what_was_there(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    size_t cap = 0;
    int *numbers = NULL;
    for (int i = 0; i < 1000; i++) {
        numbers = base_arena_grow(a, numbers, &cap, (size_t)i + 1, sizeof *numbers);
        numbers[i] = i;
    }
    for (int i = 0; i < 1000; i++)
        assert_int_equal(numbers[i], i);
    base_arena_destroy(a);
}

static void memory_after_a_reset_is_zeroed_again(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    /* The usual block, and then a larger one, of which less and more is used than before. */
    const size_t sizes[] = { 1000, 500, 2000, 200000, 100, 150000, 200000, 300000, 300000 };
    for (size_t round = 0; round < sizeof sizes / sizeof sizes[0]; round++) {
        unsigned char *p = base_arena_alloc(a, sizes[round], 1);
        for (size_t i = 0; i < sizes[round]; i++)
            assert_int_equal(p[i], 0);
        memset(p, 0xaa, sizes[round]);
        base_arena_reset(a);
    }
    base_arena_destroy(a);
}

static void printing_gives_the_whole_text(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    assert_string_equal(base_arena_print(a, "%s %d", "cross", 14), "cross 14");
    base_arena_destroy(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(memory_is_zeroed_and_aligned),
        cmocka_unit_test(blocks_larger_than_a_page_of_the_arena_work),
        cmocka_unit_test(an_arena_knows_how_much_it_holds),
        cmocka_unit_test(growing_keeps_what_was_there),
        cmocka_unit_test(memory_after_a_reset_is_zeroed_again),
        cmocka_unit_test(printing_gives_the_whole_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
