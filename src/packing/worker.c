#include "packing/worker.h"

#include "packing/random.h"

double worker_bound(const struct task *t)
{
    double area = 0, longest = 0;
    for (size_t i = 0; i < t->item_count; i++) {
        const struct packing_item *item = &t->items[i];
        double shortest = INFINITY;
        for (size_t k = 0; k < item->as_count; k++) {
            const struct task_shape *s = &t->shapes[item->as[k]];
            if (s->across_count)
                shortest = fmin(shortest, task_end(s, s->along.first));
        }
        longest = fmax(longest, shortest);
        area += t->shapes[item->as[0]].area;
    }
    return fmax(area / t->width, longest) * (1 + 1e-8);
}

/* Shifts what lies beyond a cut back by the shrink. */
static void shrink_at(struct worker *w, double cut, double by)
{
    struct trial *t = &w->now;
    for (size_t i = 0; i < t->task->item_count; i++) {
        if (!trial_is_free(t, i) || t->at[i].shape == PACKING_NONE)
            continue;
        const struct task_shape *s = &t->task->shapes[t->at[i].shape];
        double middle = t->at[i].shift.x + (s->box.min.x + s->box.max.x) / 2;
        double x = t->at[i].shift.x - (middle > cut ? by : 0);
        t->at[i].shift.x = task_nearest_along(s, t->length, x);
    }
}

static void begin_attempt(struct worker *w)
{
    struct trial *t = &w->now;
    trial_copy(t, &w->best);
    double gap = w->best.length - worker_bound(t->task);
    t->length = w->best.length - gap * w->shrink;
    shrink_at(w, random_share(&w->random) * w->best.length, w->best.length - t->length);
    trial_measure(t);
    trial_reset_weights(t);
    trial_copy(&w->least, t);
    w->least_overlap = trial_overlap(t);
    w->stalled = w->strikes = 0;
}

static void shuffle(size_t *order, size_t count, uint64_t *random)
{
    for (size_t i = count; i > 1; i--) {
        size_t k = random_below(random, i), keep = order[i - 1];
        order[i - 1] = order[k];
        order[k] = keep;
    }
}

static size_t list_overlapping(struct worker *w)
{
    size_t count = 0;
    for (size_t i = 0; i < w->now.task->item_count; i++)
        if (trial_is_free(&w->now, i) && trial_item_overlap(&w->now, i) > 0)
            w->order[count++] = i;
    shuffle(w->order, count, &w->random);
    return count;
}

static void sweep(struct worker *w)
{
    size_t count = list_overlapping(w);
    for (size_t k = 0; k < count; k++) {
        size_t i = w->order[k];
        if (!(trial_item_overlap(&w->now, i) > 0))
            continue;
        double cost, before = trial_item_cost(&w->now, i);
        struct packing_place place = seek_cheapest(&w->seeker, &w->now, i, &cost);
        if (cost < before)
            trial_put(&w->now, i, place);
    }
}

static void raise_weights(struct worker *w)
{
    struct trial *t = &w->now;
    double most = 0;
    for (size_t i = 0; i < t->all * t->all; i++)
        most = t->depth[i] > most ? t->depth[i] : most;
    for (size_t i = 0; i < t->all * t->all && most > 0; i++) {
        double weight = (double)t->weight[i];
        if (t->depth[i] > 0)
            weight *= 1.15 + 0.6 * t->depth[i] / most;
        else
            weight = weight * 0.95 > 1 ? weight * 0.95 : 1;
        t->weight[i] = (float)weight;
    }
}

static void succeed(struct worker *w)
{
    w->now.length = trial_end(&w->now);
    trial_copy(&w->best, &w->now);
    w->failures = 0;
    begin_attempt(w);
}

static void fail(struct worker *w)
{
    w->failures++;
    w->shrink = fmax(w->shrink * 0.8, 0.002);
    begin_attempt(w);
}

void worker_step(struct worker *w)
{
    sweep(w);
    double overlap = trial_overlap(&w->now);
    if (overlap == 0) {
        succeed(w);
    } else {
        if (overlap < w->least_overlap) {
            w->stalled = overlap < w->least_overlap * 0.98 ? 0 : w->stalled + 1;
            w->least_overlap = overlap;
            trial_copy(&w->least, &w->now);
        } else {
            w->stalled++;
        }
        raise_weights(w);
        if (w->stalled > 100)
            fail(w);
    }
    w->work += seek_work(&w->seeker) + 100;
    w->seeker.map.work = w->seeker.refining.work = 0;
}

struct worker worker_of(struct arena *a, const struct trial *first, uint64_t seed)
{
    struct worker w = { .random = seed, .seeker = seeker_of(a, first), .shrink = 0.1 };
    w.order = base_arena_alloc(a, first->task->item_count, sizeof *w.order);
    w.now = trial_of(a, first->task, first->tables);
    w.least = trial_of(a, first->task, first->tables);
    w.best = trial_of(a, first->task, first->tables);
    worker_take(&w, first);
    return w;
}

void worker_take(struct worker *w, const struct trial *better)
{
    trial_copy(&w->best, better);
    w->failures = 0;
    begin_attempt(w);
}
