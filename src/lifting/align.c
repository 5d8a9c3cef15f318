/* Two rings of corners laid beside each other by dynamic programming (the alignment of sequences of Needleman and
 * Wunsch, 1970), from a corner of one that is likely to be a certain one of the other. Bounds are our own, no source.
 */
#include "lifting/align.h"

#include <assert.h>
#include <math.h>

#define NEAR_MM 2.0     /* corners move so far from size to size */
#define NEAR_SHARE 0.03 /* besides so much of the piece */
#define DIRECTION 0.35  /* directions differ by so much */
#define LONELY 1.0      /* what a corner without a partner costs, a place on a curve */
#define LONELIEST 12.0  /* and a sharp corner */
#define LONELY_PLACED 0.2
#define GOOD 1.0 /* what a corner with its like costs at most, on average: no other way need be tried */

enum { TRIES = 3 };

enum move { TOGETHER, LEAVE_A, LEAVE_B };

struct align {
    const struct lifting_corners *a, *b;
    const bool *placed;
    double near_mm;
    vec2 scale, from_a, from_b; /* b's box onto a's */
    double *cost;               /* the best so far, of each pair of places */
    unsigned char *move;
    int *partner;
};

static double squared(vec2 v, double unit)
{
    return vec2_dot(v, v) / (unit * unit);
}

/* How unlike two corners are. */
static double unlike(const struct align *al, size_t i, size_t j)
{
    const struct lifting_corner *p = &al->a->items[i], *q = &al->b->items[j];
    vec2 off = vec2_sub(q->at, al->from_b);
    vec2 at = vec2_add(al->from_a, (vec2){ off.x * al->scale.x, off.y * al->scale.y });
    return squared(vec2_sub(at, p->at), al->near_mm) + squared(vec2_sub(p->come, q->come), DIRECTION) +
           squared(vec2_sub(p->go, q->go), DIRECTION);
}

static double lonely(const struct lifting_corner *c)
{
    double turn = c->turn / DIRECTION;
    return fmin(LONELIEST, LONELY + turn * turn);
}

static double lonely_a(const struct align *al, size_t i)
{
    return al->placed && al->placed[i] ? LONELY_PLACED : lonely(&al->a->items[i]);
}

/* The cheapest way on from each place to the end, when a's corner i0 is b's j0. */
static double align_from(struct align *al, size_t i0, size_t j0)
{
    size_t n = al->a->count, m = al->b->count; /* places 1 to n, 1 to m: past the first pair, before the next */
    for (size_t r = n; r >= 1; r--)
        for (size_t c = m; c >= 1; c--) {
            size_t at = (r - 1) * m + c - 1;
            size_t i = (i0 + r) % n, j = (j0 + c) % m;
            double best = r == n && c == m ? 0 : INFINITY;
            enum move move = TOGETHER;
            if (r < n && lonely_a(al, i) + al->cost[at + m] < best) {
                best = lonely_a(al, i) + al->cost[at + m];
                move = LEAVE_A;
            }
            if (c < m && lonely(&al->b->items[j]) + al->cost[at + 1] < best) {
                best = lonely(&al->b->items[j]) + al->cost[at + 1];
                move = LEAVE_B;
            }
            if (r < n && c < m) {
                double together = unlike(al, i, j) + al->cost[at + m + 1];
                if (together <= best) {
                    best = together;
                    move = TOGETHER;
                }
            }
            al->cost[at] = best;
            al->move[at] = (unsigned char)move;
        }
    return unlike(al, i0, j0) + al->cost[0];
}

static void take(struct align *al, size_t i0, size_t j0)
{
    size_t n = al->a->count, m = al->b->count, r = 1, c = 1;
    assert(n > 0 && m > 0);
    for (size_t i = 0; i < n; i++)
        al->partner[i] = LIFTING_NONE;
    al->partner[i0] = (int)j0;
    while (r < n || c < m) {
        enum move move = (enum move)al->move[(r - 1) * m + c - 1];
        if (move == TOGETHER)
            al->partner[(i0 + r) % n] = (int)((j0 + c) % m);
        r += move != LEAVE_B;
        c += move != LEAVE_A;
    }
}

/* The corner of a's that is the hardest to leave without a partner, `but` the one that was tried. */
static size_t plainest(const struct align *al, size_t but)
{
    size_t best = but == 0 && al->a->count > 1 ? 1 : 0;
    for (size_t i = 0; i < al->a->count; i++)
        if (i != but && lonely_a(al, i) > lonely_a(al, best))
            best = i;
    return best;
}

/* The like of a corner that comes next in likelihood after one that costs so much; m where there is none. */
static size_t next_like(const struct align *al, size_t i, double after, double *cost)
{
    size_t best = al->b->count;
    *cost = INFINITY;
    for (size_t j = 0; j < al->b->count; j++) {
        double now = unlike(al, i, j);
        if (now > after && now < *cost) {
            *cost = now;
            best = j;
        }
    }
    return best;
}

struct found {
    double cost;
    size_t i, j;
};

static void try_from(struct align *al, size_t i, struct found *best)
{
    double like = -1;
    for (int k = 0; k < TRIES; k++) {
        size_t j = next_like(al, i, like, &like);
        if (j == al->b->count)
            return;
        double cost = align_from(al, i, j);
        if (cost < best->cost)
            *best = (struct found){ cost, i, j };
        if (best->cost <= GOOD * (double)al->a->count)
            return;
    }
}

static double ratio(double a, double b)
{
    return a > 0 && b > 0 ? a / b : 1;
}

void lifting_align(const struct lifting_corners *a, const bool *placed, const struct lifting_corners *b, int *partner)
{
    struct arena *work = base_arena_create();
    vec2 size_a = vec2_sub(a->box.max, a->box.min), size_b = vec2_sub(b->box.max, b->box.min);
    struct align al = { .a = a,
                        .b = b,
                        .placed = placed,
                        .near_mm = NEAR_MM + NEAR_SHARE * vec2_length(size_a),
                        .scale = { ratio(size_a.x, size_b.x), ratio(size_a.y, size_b.y) },
                        .from_a = a->box.min,
                        .from_b = b->box.min,
                        .cost = base_arena_alloc(work, a->count * b->count, sizeof(double)),
                        .move = base_arena_alloc(work, a->count * b->count, 1),
                        .partner = partner };
    struct found best = { INFINITY, 0, 0 };
    size_t first = plainest(&al, a->count);
    try_from(&al, first, &best);
    if (best.cost > GOOD * (double)a->count && a->count > 1)
        try_from(&al, plainest(&al, first), &best);
    align_from(&al, best.i, best.j);
    take(&al, best.i, best.j);
    base_arena_destroy(work);
}
