#include "packing/worker.h"

#include "packing/random.h"

/* All found by trying, on open sets and random ones. */
#define FIRST_SHRINK 0.08
#define LEAST_SHRINK 0.002
#define FAILED_SHRINK 0.75 /* of the shrink that failed */
#define WEIGHT_RAISE 1.15  /* of every pair that overlaps, and up to WEIGHT_MORE more for the deepest */
#define WEIGHT_MORE 0.6
#define WEIGHT_DECAY 0.92 /* of every pair that does not */
#define LESS_OVERLAP 0.98 /* of the least: a gain that is worth going on */
#define WINDOW 0.25       /* of the strip */
enum { MOST_STALLED = 100, STIR_AFTER = 3 };

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

static void stir(struct attempt *a)
{
    size_t way = random_below(a->random, 3);
    if (way == 0)
        attempt_swap(a);
    else if (way == 1)
        attempt_window(a, WINDOW);
}

static void begin_attempt(struct worker *w)
{
    struct trial *t = &w->now;
    struct attempt a = { t, &w->seeker, &w->random, w->order, w->kept };
    trial_copy(t, &w->best);
    trial_reset_weights(t);
    if (left_out(t) > 0) {
        t->length = t->task->most_length;
        attempt_add(&a);
    } else {
        t->length = w->best.length - (w->best.length - worker_bound(t->task)) * w->shrink;
        attempt_shrink(&a, w->best.length - t->length);
    }
    if (w->failures >= STIR_AFTER)
        stir(&a);
    w->least_overlap = trial_overlap(t);
    w->stalled = 0;
}

static size_t list_overlapping(struct worker *w)
{
    size_t count = 0;
    for (size_t i = 0; i < w->now.task->item_count; i++)
        if (trial_is_free(&w->now, i) && trial_item_overlap(&w->now, i) > 0)
            w->order[count++] = i;
    random_shuffle(&w->random, w->order, count);
    return count;
}

static void sweep(struct worker *w)
{
    size_t count = list_overlapping(w);
    for (size_t k = 0; k < count; k++) {
        size_t item = w->order[k];
        double here = trial_item_cost(&w->now, item), cost;
        if (!(here > 0))
            continue;
        struct packing_place place = seek_cheapest(&w->seeker, &w->now, item, &cost);
        if (cost < here)
            trial_put(&w->now, item, place);
    }
}

static void raise_weights(struct trial *t)
{
    double most = 0;
    for (size_t i = 0; i < t->all * t->all; i++)
        most = t->depth[i] > most ? t->depth[i] : most;
    for (size_t i = 0; i < t->all * t->all && most > 0; i++) {
        double weight = (double)t->weight[i];
        if (t->depth[i] > 0)
            weight *= WEIGHT_RAISE + WEIGHT_MORE * t->depth[i] / most;
        else
            weight = weight * WEIGHT_DECAY > 1 ? weight * WEIGHT_DECAY : 1;
        t->weight[i] = (float)weight;
    }
}

static void succeed(struct worker *w)
{
    w->now.length = trial_end(&w->now);
    w->failures = worker_is_better(&w->now, &w->best) ? 0 : w->failures + 1;
    if (w->failures == 0)
        trial_copy(&w->best, &w->now);
    begin_attempt(w);
}

static void fail(struct worker *w)
{
    w->failures++;
    w->shrink = fmax(w->shrink * FAILED_SHRINK, LEAST_SHRINK);
    begin_attempt(w);
}

static void go_on(struct worker *w, double overlap)
{
    w->stalled = overlap < w->least_overlap * LESS_OVERLAP ? 0 : w->stalled + 1;
    w->least_overlap = fmin(overlap, w->least_overlap);
    raise_weights(&w->now);
    if (w->stalled > MOST_STALLED)
        fail(w);
}

void worker_step(struct worker *w)
{
    sweep(w);
    double overlap = trial_overlap(&w->now);
    if (overlap == 0)
        succeed(w);
    else
        go_on(w, overlap);
    w->work += seek_work(&w->seeker) + w->now.all * w->now.all;
    w->seeker.map.work = w->seeker.refining.work = 0;
}

struct worker worker_of(struct arena *a, const struct trial *first, uint64_t seed)
{
    struct worker w = { .random = seed, .seeker = seeker_of(a, first), .shrink = FIRST_SHRINK };
    w.order = base_arena_alloc(a, first->task->item_count, sizeof *w.order);
    w.kept = base_arena_alloc(a, first->task->item_count, sizeof *w.kept);
    w.now = trial_of(a, first->task, first->tables);
    w.best = trial_of(a, first->task, first->tables);
    trial_copy(&w.best, first);
    begin_attempt(&w);
    return w;
}

void worker_take(struct worker *w, const struct trial *better)
{
    trial_copy(&w->best, better);
    w->failures = 0;
    if (!worker_is_better(&w->now, better))
        begin_attempt(w);
}
