#include "packing/worker.h"

#include "packing/random.h"

/* All found by trying, on open sets and random ones. */
#define FIRST_STEP 0.08
#define LEAST_STEP 0.002
#define FAILED_STEP 0.75 /* of the step that failed */
#define WINDOW 0.25      /* of the strip */

/* Failures before tries are stirred, at most. */
enum { STIR_AFTER = 3 };

/* So many items to each failure that goes before stirring: a try of few items mostly ends where the one before did. */
enum { STIR_ITEMS = 16 };

static double length_bound(const struct task *t, size_t item)
{
    if (t->pinned[item].shape != PACKING_NONE)
        return task_end(&t->shapes[t->pinned[item].shape], t->pinned[item].shift.x);
    double shortest = INFINITY;
    for (size_t k = 0; k < t->items[item].as_count; k++) {
        const struct task_shape *s = &t->shapes[t->items[item].as[k]];
        if (s->across_count)
            shortest = fmin(shortest, task_end(s, s->along.first));
    }
    return shortest;
}

double worker_bound(const struct task *t)
{
    double area = 0, longest = 0;
    for (size_t i = 0; i < t->item_count; i++) {
        longest = fmax(longest, length_bound(t, i));
        area += task_area(t, i);
    }
    return fmax(area / t->width, longest) * (1 + 1e-8);
}

static double left_out(const struct trial *t)
{
    double area = 0;
    for (size_t i = 0; i < t->task->item_count; i++)
        area += t->at[i].shape == PACKING_NONE ? task_area(t->task, i) : 0;
    return area;
}

bool worker_is_better(const struct trial *a, const struct trial *b)
{
    double out_a = left_out(a), out_b = left_out(b);
    return out_a != out_b ? out_a < out_b : a->length < b->length;
}

static struct attempt attempt_of(struct worker *w)
{
    return (struct attempt){ &w->parting.now, &w->seeker, &w->random, w->order, w->kept };
}

static double next_length(const struct worker *w)
{
    double gap = w->best.length - worker_bound(w->best.task);
    return w->best.length - gap * w->step;
}

static size_t stir_after(const struct task *t)
{
    size_t failures = t->item_count / STIR_ITEMS;
    return failures < 1 ? 1 : failures < STIR_AFTER ? failures : STIR_AFTER;
}

/* Two items change places, or a window is laid anew; of many items as often nothing. */
static void stir(struct worker *w)
{
    struct attempt a = attempt_of(w);
    size_t way = random_below(&w->random, stir_after(w->best.task) < STIR_AFTER ? 2 : 3);
    if (way == 0)
        attempt_swap(&a);
    else if (way == 1)
        attempt_window(&a, WINDOW);
}

/* One item more into the most length. */
static void begin_adding(struct worker *w)
{
    struct attempt a = attempt_of(w);
    w->parting.now.length = w->best.task->most_length;
    attempt_add(&a);
}

/* From the best lay, after some failures stirred. */
static void begin_again(struct worker *w)
{
    struct attempt a = attempt_of(w);
    struct trial *t = &w->parting.now;
    trial_copy(t, &w->best);
    trial_reset_weights(t);
    if (left_out(t) > 0) {
        begin_adding(w);
    } else {
        t->length = next_length(w);
        attempt_shrink(&a, w->best.length - t->length);
    }
    if (w->failures >= stir_after(w->best.task))
        stir(w);
    parting_begin(&w->parting);
}

static void succeed(struct worker *w)
{
    struct trial *t = &w->parting.now;
    t->length = trial_end(t);
    w->failures = worker_is_better(t, &w->best) ? 0 : w->failures + 1;
    if (w->failures == 0)
        trial_copy(&w->best, t);
    begin_again(w);
}

static void fail(struct worker *w)
{
    w->failures++;
    if (left_out(&w->best) == 0)
        w->step = fmax(w->step * FAILED_STEP, LEAST_STEP);
    begin_again(w);
}

void worker_step(struct worker *w)
{
    enum parting_state state = parting_sweep(&w->parting, &w->seeker, &w->random);
    if (state == PARTING_DONE)
        succeed(w);
    else if (state == PARTING_STUCK)
        fail(w);
    size_t all = w->parting.now.all;
    w->work += seek_work(&w->seeker) + all * all;
    w->seeker.map.work = w->seeker.refining.work = 0;
}

struct worker worker_of(struct arena *a, const struct trial *first, uint64_t seed)
{
    struct worker w = { .random = seed, .seeker = seeker_of(a, first), .step = FIRST_STEP };
    w.order = base_arena_alloc(a, first->task->item_count, sizeof *w.order);
    w.kept = base_arena_alloc(a, first->task->item_count, sizeof *w.kept);
    w.parting = parting_of(a, first);
    w.best = trial_of(a, first->task, first->tables);
    trial_copy(&w.best, first);
    begin_again(&w);
    return w;
}

void worker_take(struct worker *w, const struct trial *better)
{
    trial_copy(&w->best, better);
    w->failures = 0;
    begin_again(w);
}
