#include "packing/first.h"

#include <stdlib.h>

struct ranked {
    size_t item;
    double area;
};

static int compare_ranked(const void *a, const void *b)
{
    const struct ranked *p = a, *q = b;
    if (p->area != q->area)
        return p->area > q->area ? -1 : 1;
    return (p->item > q->item) - (p->item < q->item);
}

static struct ranked *rank_items(struct arena *a, const struct task *t)
{
    struct ranked *ranked = base_arena_alloc(a, t->item_count, sizeof *ranked);
    for (size_t i = 0; i < t->item_count; i++)
        ranked[i] = (struct ranked){ i, task_area(t, i) };
    qsort(ranked, t->item_count, sizeof *ranked, compare_ranked);
    return ranked;
}

/* Where everything that lies there ends, what is blocked too. */
static double end_of_all(const struct trial *t)
{
    double end = trial_end(t);
    for (size_t i = t->task->item_count; i < t->all; i++)
        end = fmax(end, task_end(&t->task->shapes[t->at[i].shape], t->at[i].shift.x));
    return end;
}

/* The most length that any of the item's shapes takes, lattice included. */
static double room_for(const struct task *t, size_t item)
{
    double most = 0;
    for (size_t k = 0; k < t->items[item].as_count; k++) {
        const struct task_shape *s = &t->shapes[t->items[item].as[k]];
        most = fmax(most, s->box.max.x - s->box.min.x + s->along.step + fmax(s->along.first + s->box.min.x, 0));
    }
    return most;
}

static void lay_one(struct trial *t, struct seeker *s, size_t item)
{
    double length = end_of_all(t) + room_for(t->task, item) + DEPTH_PHASES * t->tables->step;
    if (t->task->most_length > 0 && length > t->task->most_length)
        length = t->task->most_length;
    trial_put(t, item, seek_first(s, t, item, length));
}

void first_lay(struct arena *scratch, struct trial *t, struct seeker *s)
{
    struct ranked *ranked = rank_items(scratch, t->task);
    trial_measure(t);
    for (size_t i = 0; i < t->task->item_count; i++)
        if (trial_is_free(t, ranked[i].item))
            lay_one(t, s, ranked[i].item);
    t->length = trial_end(t);
}
