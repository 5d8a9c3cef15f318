#include "spans/marks.h"

#include <math.h>

enum { DIRECTIONS = 8, EXTREMES = 2 * DIRECTIONS, MOST_BEFORE = 32, MOST = EXTREMES + MOST_BEFORE };

/* A new mark is a way to go with the chalk, and one more to be told from the others: it is worth that only where
 * without it places may be off by so much more. Our own choice. */
#define NEW_MARK 1.25

/* Marks to choose from. */
struct choice {
    struct cloth_pt at[MOST];
    int count, before; /* so many of them are on the cloth, and come first */
};

static double apart(struct cloth_pt p, struct cloth_pt q)
{
    return vec2_length((vec2){ p.x - q.x, p.y - q.y });
}

/* Whether it lies between its neighbours of the same row: never farther than both of them. */
static bool is_between(const struct spans_waste *w, size_t i)
{
    if (i == 0 || i + 1 >= w->count)
        return false;
    const struct cloth_pt *p = &w->places[i];
    return p[-1].y == p->y && p[1].y == p->y && p[-1].x < p->x && p->x < p[1].x;
}

/* The places farthest in each of the directions, if there are any. */
static void add_farthest(const struct spans_waste *w, struct choice *c)
{
    double most[EXTREMES];
    vec2 ways[EXTREMES];
    for (int d = 0; d < EXTREMES; d++) {
        geometry_sincos(180.0 / DIRECTIONS * d, &ways[d].y, &ways[d].x);
        most[d] = -INFINITY;
    }
    for (size_t i = 0; i < w->count; i++) {
        if (is_between(w, i))
            continue;
        for (int d = 0; d < EXTREMES; d++) {
            double at = w->places[i].x * ways[d].x + w->places[i].y * ways[d].y;
            if (at <= most[d])
                continue;
            most[d] = at;
            c->at[c->before + d] = w->places[i];
        }
    }
    c->count = most[0] > -INFINITY ? c->before + EXTREMES : c->before;
}

static struct choice choice_of(const struct spans_waste *w)
{
    struct choice c = { .before = 0 };
    for (size_t i = 0; i < w->chalked_count && c.before < MOST_BEFORE; i++)
        c.at[c.before++] = w->chalked[i];
    add_farthest(w, &c);
    return c;
}

/* Of a place that lies so far from the middle of two marks: their mean shift, and the turn that their distance tells.
 */
static double off_by(struct cloth_pt p, struct cloth_pt q, struct geometry_box told)
{
    vec2 middle = { (p.x + q.x) / 2, (p.y + q.y) / 2 };
    double x = fmax(told.max.x - middle.x, middle.x - told.min.x);
    double y = fmax(told.max.y - middle.y, middle.y - told.min.y);
    double between = apart(p, q);
    return sqrt(0.5 + 2 * (x * x + y * y) / (between * between));
}

/* One more beside others. */
static bool is_new(const struct spans_waste *w, const struct choice *c, int i)
{
    return w->is_chalked && i >= c->before;
}

struct spans_pair spans_marks_choose(const struct spans_waste *waste, struct geometry_box told)
{
    struct choice c = choice_of(waste);
    struct spans_pair best = { .count = c.count > 0, .off = INFINITY, .cost = INFINITY };
    if (c.count)
        best.at[0] = c.at[0];
    for (int i = 0; i < c.count; i++)
        for (int j = i + 1; j < c.count; j++) {
            double dear = (is_new(waste, &c, i) ? NEW_MARK : 1) * (is_new(waste, &c, j) ? NEW_MARK : 1);
            double off = off_by(c.at[i], c.at[j], told), cost = dear * off;
            if (apart(c.at[i], c.at[j]) >= SPANS_APART_MM && cost < best.cost)
                best = (struct spans_pair){ { c.at[i], c.at[j] }, 2, off, cost };
        }
    return best;
}
