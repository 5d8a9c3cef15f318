#include "packing/parting.h"

#include "packing/random.h"

/* All found by trying, on open sets and random ones. */
#define WEIGHT_RAISE 1.15 /* of every pair that overlaps, and up to WEIGHT_MORE more for the most */
#define WEIGHT_MORE 0.6
/* Of every pair that does not. Of many items of one shape each meets the same cost anew with the next: weights have to
 * last until all of those are dear. */
#define WEIGHT_DECAY 0.97
#define LESS_OVERLAP 0.98 /* of the least: a gain that is worth going on */
enum { MOST_STALLED = 100 };

struct parting parting_of(struct arena *a, const struct trial *like)
{
    struct parting p = { .now = trial_of(a, like->task, like->tables), .least = trial_of(a, like->task, like->tables) };
    p.order = base_arena_alloc(a, like->task->item_count, sizeof *p.order);
    return p;
}

void parting_begin(struct parting *p)
{
    p->least_overlap = p->stuck_overlap = trial_overlap(&p->now);
    trial_copy(&p->least, &p->now);
    p->stalled = 0;
}

static size_t list_overlapping(struct parting *p, uint64_t *random)
{
    size_t count = 0;
    for (size_t i = 0; i < p->now.task->item_count; i++)
        if (trial_is_free(&p->now, i) && trial_item_overlap(&p->now, i) > 0)
            p->order[count++] = i;
    random_shuffle(random, p->order, count);
    return count;
}

static void move_all(struct parting *p, struct seeker *s, uint64_t *random)
{
    size_t count = list_overlapping(p, random);
    for (size_t k = 0; k < count; k++) {
        size_t item = p->order[k];
        double here = trial_item_cost(&p->now, item), cost;
        if (!(here > 0))
            continue;
        struct packing_place place = seek_cheapest(s, &p->now, item, &cost);
        if (cost < here)
            trial_put(&p->now, item, place);
    }
}

static void raise_weights(struct trial *t)
{
    double most = 0;
    for (size_t i = 0; i < t->all * t->all; i++)
        most = t->overlap[i] > most ? t->overlap[i] : most;
    for (size_t i = 0; i < t->all * t->all && most > 0; i++) {
        double weight = (double)t->weight[i];
        if (t->overlap[i] > 0)
            weight *= WEIGHT_RAISE + WEIGHT_MORE * t->overlap[i] / most;
        else
            weight = weight * WEIGHT_DECAY > 1 ? weight * WEIGHT_DECAY : 1;
        t->weight[i] = (float)weight;
    }
}

static enum parting_state go_back(struct parting *p)
{
    if (p->least_overlap >= p->stuck_overlap * LESS_OVERLAP)
        return PARTING_STUCK;
    p->stuck_overlap = p->least_overlap;
    p->stalled = 0;
    trial_copy(&p->now, &p->least);
    return PARTING_GOES_ON;
}

enum parting_state parting_sweep(struct parting *p, struct seeker *s, uint64_t *random)
{
    move_all(p, s, random);
    double overlap = trial_overlap(&p->now);
    if (overlap == 0)
        return PARTING_DONE;
    p->stalled = overlap < p->least_overlap * LESS_OVERLAP ? 0 : p->stalled + 1;
    if (overlap < p->least_overlap) {
        p->least_overlap = overlap;
        trial_copy(&p->least, &p->now);
    }
    raise_weights(&p->now);
    return p->stalled > MOST_STALLED ? go_back(p) : PARTING_GOES_ON;
}
