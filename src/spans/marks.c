#include "spans/marks.h"

#include <math.h>

enum { DIRECTIONS = 8, EXTREMES = 2 * DIRECTIONS };

struct choice {
    const struct cloth_pt *places;
    size_t count;
    double from_mm, to_mm;
};

static bool is_there(const struct choice *c, size_t i)
{
    return c->places[i].x >= c->from_mm && c->places[i].x <= c->to_mm;
}

static double apart(struct cloth_pt p, struct cloth_pt q)
{
    return vec2_length((vec2){ p.x - q.x, p.y - q.y });
}

/* Whether it lies between its neighbours of the same row: never farther than both of them. */
static bool is_between(const struct choice *c, size_t i)
{
    if (i == 0 || i + 1 >= c->count || !is_there(c, i - 1) || !is_there(c, i + 1))
        return false;
    const struct cloth_pt *p = &c->places[i];
    return p[-1].y == p->y && p[1].y == p->y && p[-1].x < p->x && p->x < p[1].x;
}

/* The places farthest in each of the directions; false when there is none at all. */
static bool farthest_of_all(const struct choice *c, struct cloth_pt ends[EXTREMES])
{
    double most[EXTREMES];
    vec2 ways[EXTREMES];
    for (int d = 0; d < EXTREMES; d++) {
        geometry_sincos(180.0 / DIRECTIONS * d, &ways[d].y, &ways[d].x);
        most[d] = -INFINITY;
    }
    for (size_t i = 0; i < c->count; i++) {
        if (!is_there(c, i) || is_between(c, i))
            continue;
        for (int d = 0; d < EXTREMES; d++) {
            double at = c->places[i].x * ways[d].x + c->places[i].y * ways[d].y;
            if (at <= most[d])
                continue;
            most[d] = at;
            ends[d] = c->places[i];
        }
    }
    return most[0] > -INFINITY;
}

/* The two that lie farthest apart are extremes of the direction from one to the other; the nearest of the directions
 * looked at is off it by at most 1/4 of 45°, and so loses at most 1 - cos 11.25° of their distance: 2 %. */
static bool farthest_pair(const struct choice *c, struct cloth_pt out[2])
{
    struct cloth_pt ends[EXTREMES];
    if (!farthest_of_all(c, ends))
        return false;
    double most = -1;
    for (int i = 0; i < DIRECTIONS; i++)
        if (apart(ends[i], ends[i + DIRECTIONS]) > most) {
            most = apart(ends[i], ends[i + DIRECTIONS]);
            out[0] = ends[i];
            out[1] = ends[i + DIRECTIONS];
        }
    return true;
}

static double nearest_of(const struct cloth_pt *chosen, int count, struct cloth_pt at)
{
    double nearest = INFINITY;
    for (int i = 0; i < count; i++)
        nearest = fmin(nearest, apart(chosen[i], at));
    return nearest;
}

/* One more, as far from all that were chosen as can be; false when all places lie too near. */
static bool add_farthest(const struct choice *c, struct cloth_pt *chosen, int count)
{
    double most = 0;
    for (size_t i = 0; i < c->count; i++) {
        double nearest = is_there(c, i) ? nearest_of(chosen, count, c->places[i]) : 0;
        if (nearest <= most)
            continue;
        most = nearest;
        chosen[count] = c->places[i];
    }
    return most >= SPANS_APART_MM;
}

int spans_marks_choose(const struct cloth_pt *places, size_t count, double from_mm, double to_mm, int most,
                       struct cloth_pt *out)
{
    struct choice c = { places, count, from_mm, to_mm };
    struct cloth_pt pair[2];
    if (!farthest_pair(&c, pair))
        return 0;
    out[0] = pair[0];
    if (apart(pair[0], pair[1]) < SPANS_APART_MM)
        return 1;
    out[1] = pair[1];
    int chosen = 2;
    while (chosen < most && add_farthest(&c, out, chosen))
        chosen++;
    return chosen;
}
