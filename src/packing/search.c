/* The search: tables, a first lay, then rounds of two workers that share the best they find. */
#include "packing/first.h"
#include "packing/worker.h"

/* Whatever the number of threads. */
enum { WORKERS = 2 };

/* Rounds between which the workers go their own ways. The fewer items, the sooner both would be in the same dead end,
 * and the more it is worth to have two: of 15 items that is forty rounds, from 48 on the least. Found by trying. */
enum { LEAST_SHARE_ROUNDS = 4, SHARE_ROUNDS_PAIRS = 9000 };

/* A worker's work in a round: about a tenth of a second for a large problem, and so much for each item of a small one.
 */
enum { ROUND_WORK = 50000000, ITEM_WORK = 1000000 };

struct packing_search {
    struct arena *arena;
    struct arena *lay_arena; /* the best lay's */
    struct task *task;
    struct tables tables;
    struct trial best;
    struct packing_lay lay;
    struct worker workers[WORKERS];
    struct arena *worker_arenas[WORKERS];
    struct base_pool *pool;
    const atomic_bool *stop;
    size_t rounds, without_gain;
};

static void tell_best(struct packing_search *s)
{
    const struct trial *t = &s->best;
    struct packing_lay lay = { .item_count = s->task->item_count, .length = trial_end(t) };

    base_arena_reset(s->lay_arena);
    lay.places = base_arena_alloc(s->lay_arena, lay.item_count, sizeof *lay.places);
    double area = 0;
    for (size_t i = 0; i < lay.item_count; i++) {
        lay.places[i] = t->at[i];
        if (t->at[i].shape == PACKING_NONE)
            lay.left_out++;
        else
            area += s->task->shapes[t->at[i].shape].area;
    }
    lay.density = lay.length > 0 ? area / (s->task->width * lay.length) : 0;
    s->lay = lay;
}

struct packing_search *packing_begin(const struct packing_problem *problem, uint64_t seed, struct base_pool *pool)
{
    struct arena *arena = base_arena_create();
    struct packing_search *s = base_arena_alloc(arena, 1, sizeof *s);
    s->arena = arena;
    s->lay_arena = base_arena_create();
    s->pool = pool;
    s->task = task_of(arena, problem);
    s->tables = tables_of(arena, s->task, pool);
    s->best = trial_of(arena, s->task, &s->tables);
    struct seeker seeker = seeker_of(arena, &s->best);
    first_lay(arena, &s->best, &seeker);
    for (size_t i = 0; i < WORKERS; i++) {
        s->worker_arenas[i] = base_arena_create();
        s->workers[i] = worker_of(s->worker_arenas[i], &s->best, seed * WORKERS + i);
    }
    tell_best(s);
    return s;
}

void packing_use_pool(struct packing_search *s, struct base_pool *pool)
{
    s->pool = pool;
}

void packing_end(struct packing_search *s)
{
    if (!s)
        return;
    for (size_t i = 0; i < WORKERS; i++)
        base_arena_destroy(s->worker_arenas[i]);
    tables_finish(&s->tables);
    base_arena_destroy(s->lay_arena);
    base_arena_destroy(s->arena);
}

static void run_worker(void *user, size_t part, int thread)
{
    (void)thread;
    struct packing_search *s = user;
    struct worker *w = &s->workers[part];
    size_t most = s->task->item_count * ITEM_WORK;
    most = most < ROUND_WORK ? most : ROUND_WORK;
    for (w->work = 0; w->work < most && !(s->stop && *s->stop);)
        worker_step(w);
}

static size_t share_rounds(const struct task *t)
{
    size_t rounds = SHARE_ROUNDS_PAIRS / (t->item_count * t->item_count);
    return rounds > LEAST_SHARE_ROUNDS ? rounds : LEAST_SHARE_ROUNDS;
}

static void share_best(struct packing_search *s)
{
    for (size_t i = 0; i < WORKERS; i++)
        if (worker_is_better(&s->best, &s->workers[i].best))
            worker_take(&s->workers[i], &s->best);
}

bool packing_round(struct packing_search *s, const atomic_bool *stop)
{
    s->stop = stop;
    if (!packing_can_gain(s))
        return false;
    base_pool_run(s->pool, WORKERS, run_worker, s);
    s->rounds++;
    size_t best = 0;
    for (size_t i = 1; i < WORKERS; i++)
        if (worker_is_better(&s->workers[i].best, &s->workers[best].best))
            best = i;
    bool gain = worker_is_better(&s->workers[best].best, &s->best);
    s->without_gain = gain ? 0 : s->without_gain + 1;
    if (gain) {
        trial_copy(&s->best, &s->workers[best].best);
        tell_best(s);
    }
    if (s->rounds % share_rounds(s->task) == 0)
        share_best(s);
    return gain;
}

const struct packing_lay *packing_best(const struct packing_search *s)
{
    return &s->lay;
}

size_t packing_rounds(const struct packing_search *s)
{
    return s->rounds;
}

size_t packing_rounds_without_gain(const struct packing_search *s)
{
    return s->without_gain;
}

bool packing_can_gain(const struct packing_search *s)
{
    if (s->lay.left_out == 0 && s->lay.length <= worker_bound(s->task))
        return false;
    for (size_t i = 0; i < s->task->item_count; i++)
        if (trial_is_free(&s->best, i))
            return true;
    return false;
}
