#include "packing/attempt.h"

#include "packing/random.h"

/* Smaller than this share of the mean item an item is not swapped: it finds its place anyway. */
#define SMALL 0.5

/* In a window items whose areas differ by less than this may be laid in either order. */
#define ALIKE 1.3

static bool is_laid_free(const struct trial *t, size_t item)
{
    return trial_is_free(t, item) && t->at[item].shape != PACKING_NONE;
}

static vec2 middle_of(const struct trial *t, size_t item)
{
    const struct task_shape *s = &t->task->shapes[t->at[item].shape];
    return vec2_add(t->at[item].shift, vec2_lerp(s->box.min, s->box.max, 0.5));
}

void attempt_shrink(struct attempt *a, double by)
{
    struct trial *t = a->trial;
    double cut = random_share(a->random) * t->length;
    for (size_t i = 0; i < t->task->item_count; i++) {
        if (!is_laid_free(t, i))
            continue;
        const struct task_shape *s = &t->task->shapes[t->at[i].shape];
        double x = t->at[i].shift.x - (middle_of(t, i).x > cut ? by : 0);
        t->at[i].shift.x = task_nearest_along(s, t->length, x);
    }
    trial_measure(t);
}

/* Lays an item with the middle of its box there, or as near as it may. */
static void put_middle(struct trial *t, size_t item, vec2 middle)
{
    const struct task_shape *s = &t->task->shapes[t->at[item].shape];
    vec2 shift = vec2_sub(middle, vec2_lerp(s->box.min, s->box.max, 0.5));
    vec2 allowed = { task_nearest_along(s, t->length, shift.x), task_nearest_across(s, shift.y) };
    trial_put(t, item, (struct packing_place){ t->at[item].shape, allowed });
}

static double mean_area(const struct trial *t)
{
    double sum = 0;
    for (size_t i = 0; i < t->task->item_count; i++)
        sum += task_area(t->task, i);
    return sum / (double)t->task->item_count;
}

void attempt_swap(struct attempt *a)
{
    struct trial *t = a->trial;
    size_t count = t->task->item_count;
    double least = SMALL * mean_area(t);
    for (int tries = 0; tries < 40; tries++) {
        size_t i = random_below(a->random, count), k = random_below(a->random, count);
        if (!is_laid_free(t, i) || !is_laid_free(t, k) || t->at[i].shape == t->at[k].shape)
            continue;
        if (task_area(t->task, i) < least || task_area(t->task, k) < least)
            continue;
        vec2 middle = middle_of(t, i);
        put_middle(t, i, middle_of(t, k));
        put_middle(t, k, middle);
        return;
    }
}

static void lift(struct attempt *a, size_t item)
{
    a->kept[item] = a->trial->at[item];
    trial_put(a->trial, item, (struct packing_place){ .shape = PACKING_NONE });
}

/* The cheapest place, or where it was lifted from when there is none. */
static void lay_again(struct attempt *a, size_t item)
{
    double cost;
    struct packing_place place = seek_cheapest(a->seeker, a->trial, item, &cost);
    trial_put(a->trial, item, place.shape == PACKING_NONE ? a->kept[item] : place);
}

/* Items in the window, in random order. */
static size_t list_window(struct attempt *a, double share)
{
    const struct trial *t = a->trial;
    double from = random_share(a->random) * (1 - share) * t->length, to = from + share * t->length;
    size_t count = 0;
    for (size_t i = 0; i < t->task->item_count; i++)
        if (is_laid_free(t, i) && middle_of(t, i).x >= from && middle_of(t, i).x <= to)
            a->order[count++] = i;
    random_shuffle(a->random, a->order, count);
    return count;
}

static size_t large_one(const struct attempt *a, size_t from, size_t count)
{
    size_t best = from;
    for (size_t k = from + 1; k < count; k++)
        if (task_area(a->trial->task, a->order[k]) > ALIKE * task_area(a->trial->task, a->order[best]))
            best = k;
    return best;
}

void attempt_window(struct attempt *a, double share)
{
    size_t count = list_window(a, share);
    for (size_t k = 0; k < count; k++)
        lift(a, a->order[k]);
    for (size_t k = 0; k < count; k++) {
        size_t best = large_one(a, k, count), item = a->order[best];
        a->order[best] = a->order[k];
        lay_again(a, item);
    }
}

/* A random item that is laid and smaller, or -1. */
static long smaller_one(struct attempt *a, size_t item)
{
    const struct trial *t = a->trial;
    size_t count = 0;
    for (size_t i = 0; i < t->task->item_count; i++)
        if (is_laid_free(t, i) && task_area(t->task, i) < task_area(t->task, item))
            a->order[count++] = i;
    return count ? (long)a->order[random_below(a->random, count)] : -1;
}

void attempt_add(struct attempt *a)
{
    struct trial *t = a->trial;
    size_t count = 0;
    for (size_t i = 0; i < t->task->item_count; i++)
        if (t->at[i].shape == PACKING_NONE)
            a->order[count++] = i;
    if (!count)
        return;
    size_t item = a->order[random_below(a->random, count)];
    long out = random_below(a->random, 2) ? smaller_one(a, item) : -1;
    if (out >= 0)
        lift(a, (size_t)out);
    a->kept[item] = t->at[item];
    lay_again(a, item);
}
