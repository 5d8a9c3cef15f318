#include "base/pool.h"
#include "support/cmocka_all.h"

#include <string.h>

enum { PARTS = 1000 };

struct work {
    int done[PARTS]; /* how often each part was run */
    int by[PARTS];   /* by which worker */
    int running[BASE_POOL_MOST];
    int clashes[BASE_POOL_MOST]; /* a worker in two parts at once */
};

static void work_on(void *user, size_t part, int worker)
{
    struct work *w = user;
    w->clashes[worker] += w->running[worker]++;
    w->done[part]++;
    w->by[part] = worker;
    w->running[worker]--;
}

static void assert_all_done(const struct work *w, size_t parts, int times, int threads)
{
    for (size_t i = 0; i < PARTS; i++) {
        assert_int_equal(w->done[i], i < parts ? times : 0);
        assert_in_range(w->by[i], 0, threads - 1);
    }
    for (int i = 0; i < BASE_POOL_MOST; i++)
        assert_int_equal(w->clashes[i], 0);
}

static void every_part_is_run_once_at_any_number_of_threads(void **state)
{
    (void)state;
    for (int threads = 1; threads <= 4; threads++) {
        static struct work w;
        memset(&w, 0, sizeof w);
        struct base_pool *pool = base_pool_create(threads);
        base_pool_run(pool, PARTS, work_on, &w);
        assert_all_done(&w, PARTS, 1, base_pool_threads(pool));
        base_pool_destroy(pool);
    }
}

static void a_pool_takes_one_job_after_the_other(void **state)
{
    (void)state;
    static struct work w;
    memset(&w, 0, sizeof w);
    struct base_pool *pool = base_pool_create(3);
    for (int i = 0; i < 50; i++)
        base_pool_run(pool, 20, work_on, &w);
    base_pool_run(pool, 0, work_on, &w);
    assert_all_done(&w, 20, 50, base_pool_threads(pool));
    base_pool_destroy(pool);
}

static void without_a_pool_the_caller_does_it_all(void **state)
{
    (void)state;
    static struct work w;
    memset(&w, 0, sizeof w);
    base_pool_run(NULL, 7, work_on, &w);
    assert_all_done(&w, 7, 1, base_pool_threads(NULL));
    assert_int_equal(base_pool_threads(NULL), 1);
    base_pool_destroy(NULL);
}

static void a_pool_without_work_ends(void **state)
{
    (void)state;
    for (int i = 0; i < 20; i++)
        base_pool_destroy(base_pool_create(1 + i % 4));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_part_is_run_once_at_any_number_of_threads),
        cmocka_unit_test(a_pool_takes_one_job_after_the_other),
        cmocka_unit_test(without_a_pool_the_caller_does_it_all),
        cmocka_unit_test(a_pool_without_work_ends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
