/* Steps in a thread of their own. Every wait is for a word of the other thread, none for time to pass. What a question
 * adds up to is known beforehand: 1 + 2 + … + n = n (n + 1) / 2. */
#include "base/background.h"
#include "support/cmocka_all.h"

#include <semaphore.h>
#include <sys/resource.h>

/* Steps that are let through one by one, or as many as there are. */
struct question {
    sem_t *may;     /* posted once for each step that may be made; NULL: all may */
    sem_t *begun;   /* posted when a step begins; NULL: nobody asks */
    int until_stop; /* a step of that number goes on until it is told to stop; 0: none does */
    int news_every; /* an answer is news after so many steps */
    int last;       /* there are no more steps than that */
    atomic_int ended;
    int steps;
    long sum;
    int was_stopped;
};

struct answer {
    long sum;
    int steps, nice;
};

static void note_priority(void *user, size_t part, int worker)
{
    (void)part;
    int *nice = user;
    nice[worker] = getpriority(PRIO_PROCESS, 0);
}

static enum base_background_news add_next(void *user, const struct base_background_turn *turn)
{
    struct question *q = user;
    if (q->begun)
        sem_post(q->begun);
    if (q->may)
        sem_wait(q->may);
    q->steps++;
    while (q->steps == q->until_stop && !*turn->stop)
        continue;
    q->was_stopped += *turn->stop;
    q->sum += q->steps;
    *(struct answer *)turn->answer = (struct answer){ q->sum, q->steps, getpriority(PRIO_PROCESS, 0) };
    if (q->steps >= q->last)
        return BASE_LAST_NEWS;
    return turn->first || q->steps % q->news_every == 0 ? BASE_NEWS : BASE_NO_NEWS;
}

static void end(void *user)
{
    struct question *q = user;
    q->ended++;
}

static void wake(void *user)
{
    sem_post(user);
}

/* Two threads that add up. */
static struct base_background *begin(sem_t *woken)
{
    sem_init(woken, 0, 0);
    const struct base_background_work work = { add_next, end, wake, woken, sizeof(struct answer), 2 };
    struct base_background *b = base_background_create(&work);
    assert_non_null(b);
    return b;
}

/* The last answer, and how many words of answers came until then. */
static struct answer last_answer(struct base_background *b, sem_t *woken, int last, int *answers)
{
    struct answer answer = { 0 };
    for (*answers = 0; answer.steps < last; *answers += 1) {
        sem_wait(woken);
        base_background_take(b, &answer);
    }
    return answer;
}

static void a_question_is_worked_off_at_low_priority(void **state)
{
    (void)state;
    sem_t woken;
    struct question q = { .news_every = 10, .last = 100 };
    struct base_background *b = begin(&woken);
    int answers, own = getpriority(PRIO_PROCESS, 0);
    base_background_ask(b, &q);
    struct answer answer = last_answer(b, &woken, 100, &answers);
    assert_int_equal(answer.sum, 5050);
    assert_in_range(answers, 1, 11); /* the first step's and every tenth's */
    assert_int_equal(answer.nice, 19);
    assert_int_equal(getpriority(PRIO_PROCESS, 0), own); /* nobody else's */
    assert_false(base_background_take(b, &answer));
    base_background_destroy(b);
    assert_int_equal(q.ended, 0);
    sem_destroy(&woken);
}

static void a_pool_of_low_priority_lowers_its_own_threads_only(void **state)
{
    (void)state;
    struct base_pool *pool = base_pool_create_low(3);
    int nice[3] = { -1, -1, -1 };
    for (int i = 0; i < 200; i++)
        base_pool_run(pool, 6, note_priority, nice);
    base_pool_destroy(pool);
    assert_int_equal(nice[0], getpriority(PRIO_PROCESS, 0));
    for (int i = 1; i < 3; i++)
        assert_true(nice[i] == -1 || nice[i] == 19); /* -1: others took all parts */
}

/* The step of the first question is under way when the second is asked: what comes of it is never seen. */
static void an_answer_to_an_older_question_is_dropped(void **state)
{
    (void)state;
    sem_t woken, may, begun;
    sem_init(&may, 0, 0);
    sem_init(&begun, 0, 0);
    struct question older = { .may = &may, .begun = &begun, .news_every = 1, .last = 3 };
    struct question newer = { .news_every = 1, .last = 1, .steps = 0, .sum = 1000 };
    struct base_background *b = begin(&woken);
    struct answer answer;
    base_background_ask(b, &older);
    sem_wait(&begun);
    base_background_ask(b, &newer);
    sem_post(&may);
    sem_wait(&woken);
    assert_true(base_background_take(b, &answer));
    assert_int_equal(answer.sum, 1001);
    /* Asked again, the first goes on from where it was, and its first step answers. */
    base_background_ask(b, &older);
    sem_post(&may);
    sem_wait(&woken);
    assert_true(base_background_take(b, &answer));
    assert_int_equal(answer.sum, 1 + 2);
    sem_post(&may);
    base_background_destroy(b);
    sem_destroy(&woken);
    sem_destroy(&may);
    sem_destroy(&begun);
}

static void a_dropped_question_is_stopped_and_ended(void **state)
{
    (void)state;
    sem_t woken, begun;
    sem_init(&begun, 0, 0);
    struct question q = { .begun = &begun, .until_stop = 1, .news_every = 1, .last = 9 };
    struct question idle = { .news_every = 1, .last = 9 };
    struct question next = { .news_every = 1, .last = 1 };
    struct base_background *b = begin(&woken);
    struct answer answer;
    base_background_ask(b, &q);
    sem_wait(&begun);
    base_background_drop(b, &q);
    base_background_drop(b, &idle); /* was never asked: ends at once */
    assert_int_equal(idle.ended, 1);
    base_background_ask(b, &next);
    sem_wait(&woken);
    assert_true(base_background_take(b, &answer));
    assert_int_equal(answer.sum, 1);
    assert_int_equal(q.ended, 1);
    assert_int_equal(q.steps, 1);
    assert_int_equal(q.was_stopped, 1);
    base_background_destroy(b);
    sem_destroy(&woken);
    sem_destroy(&begun);
}

/* The step under way is finished and its answer kept; none is begun until the same question is asked again. */
static void a_rest_ends_no_step(void **state)
{
    (void)state;
    sem_t woken, may, begun;
    sem_init(&may, 0, 0);
    sem_init(&begun, 0, 0);
    struct question q = { .may = &may, .begun = &begun, .news_every = 1, .last = 2 };
    struct base_background *b = begin(&woken);
    struct answer answer;
    base_background_ask(b, &q);
    sem_wait(&begun);
    base_background_ask(b, NULL);
    sem_post(&may);
    sem_wait(&woken);
    assert_true(base_background_take(b, &answer));
    assert_int_equal(answer.sum, 1);
    assert_int_equal(q.was_stopped, 0);
    assert_int_equal(sem_trywait(&begun), -1);
    base_background_ask(b, &q);
    sem_post(&may);
    sem_wait(&woken);
    assert_true(base_background_take(b, &answer));
    assert_int_equal(answer.sum, 1 + 2);
    base_background_destroy(b);
    sem_destroy(&woken);
    sem_destroy(&may);
    sem_destroy(&begun);
}

static void it_ends_while_a_step_is_under_way(void **state)
{
    (void)state;
    sem_t woken, begun;
    sem_init(&begun, 0, 0);
    for (int i = 0; i < 20; i++) {
        struct question q = { .begun = &begun, .until_stop = 1, .news_every = 1, .last = 9 };
        struct base_background *b = begin(&woken);
        base_background_ask(b, &q);
        sem_wait(&begun);
        base_background_destroy(b);
        assert_int_equal(q.was_stopped, 1);
        sem_destroy(&woken);
    }
    base_background_destroy(NULL);
    sem_destroy(&begun);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_question_is_worked_off_at_low_priority),
        cmocka_unit_test(a_pool_of_low_priority_lowers_its_own_threads_only),
        cmocka_unit_test(an_answer_to_an_older_question_is_dropped),
        cmocka_unit_test(a_dropped_question_is_stopped_and_ended),
        cmocka_unit_test(a_rest_ends_no_step),
        cmocka_unit_test(it_ends_while_a_step_is_under_way),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
