#include "lettering/turns.h"

#include <stdlib.h>

/* Own bounds, no source. */
#define LETTERS_APART 0.3 /* of one word, of the larger one's size */
#define LARGER 5.0        /* one of them than the other: a dot beside its letter */
#define LONG 2.2          /* a word: longer than high, to tell a direction */
#define LONGER 3.5        /* to tell one that others may follow */
#define ONE_WAY 0.9962    /* cosine of 5° */
#define FOLLOWS 0.9781    /* cosine of 12° */
#define NEAR_SIZES 12.0   /* a short word follows a long one so near */

enum { INKS_LEAST = 3, LEADERS_LEAST = 5, TRIALS_MOST = 20000000 };

/* Inks that stand close to each other. */
struct word {
    size_t count;
    vec2 sum, middle;
    double xx, xy, yy; /* second moments of the samples about the middle */
    vec2 way;
    double length, size, longer; /* standard deviations: along, and along over across */
    bool tells, leads;
    unsigned char turn;
};

struct turning {
    const struct lettering_ink *inks;
    size_t count;
    size_t *root; /* union of inks */
    struct word *words;
};

static size_t root_of(size_t *root, size_t i)
{
    while (root[i] != i)
        i = root[i] = root[root[i]];
    return i;
}

static bool boxes_near(const struct geometry_box *a, const struct geometry_box *b, double reach)
{
    return a->min.x - b->max.x <= reach && b->min.x - a->max.x <= reach && a->min.y - b->max.y <= reach &&
           b->min.y - a->max.y <= reach;
}

static bool samples_near(const struct lettering_ink *a, const struct lettering_ink *b, double reach)
{
    for (int i = 0; i < INK_SAMPLES; i++)
        for (int k = 0; k < INK_SAMPLES; k++) {
            vec2 d = vec2_sub(a->samples[i], b->samples[k]);
            if (vec2_dot(d, d) <= reach * reach)
                return true;
        }
    return false;
}

/* Inks come in the order of their boxes' left sides. */
static void join_words(struct turning *t)
{
    double widest = 0;
    for (size_t i = 0; i < t->count; i++) {
        t->root[i] = i;
        widest = fmax(widest, lettering_ink_size(&t->inks[i]));
    }
    for (size_t i = 0; i < t->count; i++) {
        const struct lettering_ink *a = &t->inks[i];
        double size = lettering_ink_size(a);
        for (size_t k = i + 1; k < t->count && t->inks[k].box.min.x <= a->box.max.x + LETTERS_APART * widest; k++) {
            const struct lettering_ink *b = &t->inks[k];
            double other = lettering_ink_size(b), reach = LETTERS_APART * fmax(size, other);
            if (fmax(size, other) <= LARGER * fmin(size, other) && boxes_near(&a->box, &b->box, reach) &&
                root_of(t->root, i) != root_of(t->root, k) && samples_near(a, b, reach))
                t->root[root_of(t->root, k)] = root_of(t->root, i);
        }
    }
}

static void add_moments(struct word *w, const struct lettering_ink *ink)
{
    for (int i = 0; i < INK_SAMPLES; i++) {
        vec2 d = vec2_sub(ink->samples[i], w->middle);
        w->xx += d.x * d.x;
        w->xy += d.x * d.y;
        w->yy += d.y * d.y;
    }
}

/* The axis along which the word is longest: the eigenvector of its second moments. */
static void settle_word(struct word *w)
{
    double half = (w->xx - w->yy) / 2, root = sqrt(half * half + w->xy * w->xy), mean = (w->xx + w->yy) / 2;
    vec2 axis = half > 0 ? (vec2){ half + root, w->xy } : (vec2){ w->xy, root - half };
    w->way = vec2_unit(axis);
    if (w->way.x < -0.0001 || (w->way.x < 0.0001 && w->way.y < 0))
        w->way = vec2_scale(w->way, -1);
    w->longer = mean - root > 0 ? sqrt((mean + root) / (mean - root)) : LONGER;
    w->length = sqrt((mean + root) / ((double)w->count * INK_SAMPLES));
    w->tells = w->count >= INKS_LEAST && w->longer >= LONG && root > 0;
    w->leads = w->tells && w->longer >= LONGER && w->count >= LEADERS_LEAST;
}

static void measure_words(struct turning *t)
{
    for (size_t i = 0; i < t->count; i++) {
        struct word *w = &t->words[root_of(t->root, i)];
        w->sum = vec2_add(w->sum, vec2_lerp(t->inks[i].box.min, t->inks[i].box.max, 0.5));
        w->size = fmax(w->size, lettering_ink_size(&t->inks[i]));
        w->count++;
    }
    for (size_t i = 0; i < t->count; i++)
        if (t->words[i].count)
            t->words[i].middle = vec2_scale(t->words[i].sum, 1 / (double)t->words[i].count);
    for (size_t i = 0; i < t->count; i++)
        add_moments(&t->words[root_of(t->root, i)], &t->inks[i]);
    for (size_t i = 0; i < t->count; i++)
        if (t->words[i].count)
            settle_word(&t->words[i]);
}

/* The turn nearest to a way, of either sense; its cosine. */
static double nearest_turn(const vec2 *turns, size_t count, vec2 way, unsigned char *turn)
{
    double best = -1;
    for (size_t k = 0; k < count; k++)
        if (fabs(vec2_dot(turns[k], way)) > best) {
            best = fabs(vec2_dot(turns[k], way));
            *turn = (unsigned char)k;
        }
    return best;
}

static int by_length(const void *pa, const void *pb)
{
    const struct word *const *a = pa, *const *b = pb;
    if ((*a)->length != (*b)->length)
        return (*a)->length > (*b)->length ? -1 : 1;
    return (*a > *b) - (*a < *b);
}

/* The longest words first: they tell best. The first turn is to the right, the second up. */
static size_t take_turns(struct arena *a, struct turning *t, vec2 turns[TURNS_MOST])
{
    struct word **order = base_arena_alloc(a, t->count, sizeof(void *));
    size_t words = 0, count = 2;
    turns[0] = (vec2){ 1, 0 };
    turns[1] = (vec2){ 0, 1 };
    for (size_t i = 0; i < t->count; i++)
        if (t->words[i].tells)
            order[words++] = &t->words[i];
    if (words)
        qsort(order, words, sizeof(void *), by_length);
    for (size_t i = 0; i < words; i++) {
        double near = nearest_turn(turns, count, order[i]->way, &order[i]->turn);
        if (near >= ONE_WAY || count == TURNS_MOST || (!order[i]->leads && near >= FOLLOWS))
            continue;
        order[i]->turn = (unsigned char)count;
        turns[count++] = order[i]->way;
    }
    return count;
}

/* Words that tell a direction, or those that others follow alone. */
static size_t list_words(const struct turning *t, bool leading, size_t *out)
{
    size_t count = 0;
    for (size_t i = 0; i < t->count; i++)
        if (leading ? t->words[i].leads : t->words[i].tells)
            out[count++] = i;
    return count;
}

/* The turn of the nearest of some words; `turn` where none is near. */
static unsigned char turn_beside(const struct turning *t, const size_t *telling, size_t count, const struct word *w,
                                 unsigned char turn)
{
    double best = INFINITY;
    for (size_t i = 0; i < count; i++) {
        const struct word *other = &t->words[telling[i]];
        double away = vec2_length(vec2_sub(other->middle, w->middle)) - 2 * other->length;
        if (away < best && away <= NEAR_SIZES * fmax(w->size, other->size)) {
            best = away;
            turn = other->turn;
        }
    }
    return turn;
}

size_t lettering_find_turns(struct arena *a, const struct lettering_ink *inks, size_t count, vec2 turns[TURNS_MOST],
                            unsigned char *turn_of)
{
    struct turning t = { inks, count, base_arena_alloc(a, count, sizeof(size_t)),
                         base_arena_alloc(a, count, sizeof(struct word)) };
    size_t *telling = base_arena_alloc(a, count, sizeof *telling), tells = 0;
    join_words(&t);
    measure_words(&t);
    size_t turn_count = take_turns(a, &t, turns);
    tells = list_words(&t, true, telling);
    for (size_t i = 0; i < count && tells * count <= TRIALS_MOST; i++)
        if (t.words[i].tells && !t.words[i].leads)
            t.words[i].turn = turn_beside(&t, telling, tells, &t.words[i], t.words[i].turn);
    tells = list_words(&t, false, telling);
    for (size_t i = 0; i < count && tells * count <= TRIALS_MOST; i++)
        if (t.words[i].count && !t.words[i].tells)
            t.words[i].turn = turn_beside(&t, telling, tells, &t.words[i], 0);
    for (size_t i = 0; i < count; i++)
        turn_of[i] = t.words[root_of(t.root, i)].turn;
    return turn_count;
}
