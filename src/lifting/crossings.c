#include "lifting/crossings.h"
#include "lifting/points.h"

#include <math.h>
#include <stdlib.h>

/* Courses are cut into chains that run one way in x and in y, so that the box of any stretch of one is known from its
 * two ends, and two chains are compared by halves (monotone chains, see de Berg and others, Computational Geometry,
 * 2008, chapter 2). Chains whose boxes overlap are found by a sweep along x in strips across y. */

enum { STRIPS_MOST = 256, CHAINS_OF_STRIP = 32, STRIPS_OF_CHAIN = 8 };

/* Of points at which sides are parted: a sheet of 200 000 segments has some 10 000. */
enum { SPLITS_MOST = 1 << 21 };

struct chain {
    uint32_t course;
    uint32_t first, last;   /* points */
    uint32_t end;           /* in the ends, or NETWORK_NONE: then it is a chain */
    int64_t x0, y0, x1, y1; /* of the box, what counts as near included */
    bool fresh;
};

struct finding {
    struct arena *a;
    const struct network_course *courses;
    const struct crossings_end *ends;
    double gap;
    struct chain *chains;
    size_t chain_count, chain_cap;
    size_t *work;
    struct crossings *out;
};

/* ---- Chains ---- */

static int sign(int64_t v)
{
    return (v > 0) - (v < 0);
}

static void box_of(struct chain *c, struct network_point a, struct network_point b, int64_t more)
{
    c->x0 = (a.x < b.x ? a.x : b.x) - more;
    c->x1 = (a.x < b.x ? b.x : a.x) + more;
    c->y0 = (a.y < b.y ? a.y : b.y) - more;
    c->y1 = (a.y < b.y ? b.y : a.y) + more;
}

static void add_chain(struct finding *f, struct chain c)
{
    f->chains = base_arena_grow(f->a, f->chains, &f->chain_cap, f->chain_count + 1, sizeof *f->chains);
    f->chains[f->chain_count++] = c;
}

/* The last point of the chain that begins at `first`. */
static size_t chain_end(const struct network_course *c, size_t first)
{
    int across = 0, up = 0;
    size_t i = first;
    for (; i + 1 < c->count; i++) {
        int dx = sign((int64_t)c->points[i + 1].x - c->points[i].x),
            dy = sign((int64_t)c->points[i + 1].y - c->points[i].y);
        if (dx * across < 0 || dy * up < 0)
            break;
        across = across ? across : dx;
        up = up ? up : dy;
    }
    return i;
}

static void chains_of(struct finding *f, uint32_t index, unsigned pass)
{
    const struct network_course *c = &f->courses[index];
    for (size_t first = 0; first + 1 < c->count;) {
        size_t last = chain_end(c, first);
        struct chain chain = { .course = index, .first = (uint32_t)first, .last = (uint32_t)last, .end = NETWORK_NONE };
        for (size_t i = first; i <= last; i++)
            chain.fresh = chain.fresh || c->pass[i] >= pass;
        box_of(&chain, c->points[first], c->points[last], POINTS_NEAR);
        add_chain(f, chain);
        first = last;
    }
}

static int by_left(const void *a, const void *b)
{
    const struct chain *p = a, *q = b;
    if (p->x0 != q->x0)
        return p->x0 < q->x0 ? -1 : 1;
    if (p->course != q->course)
        return p->course < q->course ? -1 : 1;
    if (p->first != q->first)
        return p->first < q->first ? -1 : 1;
    return p->end < q->end ? -1 : p->end > q->end;
}

/* ---- Two sides ---- */

/* Twice the area of a, b, p: above 0 when p lies left of a to b. */
static int64_t side_of(struct network_point a, struct network_point b, struct network_point p)
{
    return ((int64_t)b.x - a.x) * ((int64_t)p.y - a.y) - ((int64_t)b.y - a.y) * ((int64_t)p.x - a.x);
}

static bool same(struct network_point a, struct network_point b)
{
    return a.x == b.x && a.y == b.y;
}

double crossings_distance2(struct network_point p, struct network_point a, struct network_point b, vec2 *at)
{
    vec2 from = { (double)a.x, (double)a.y };
    vec2 along = { (double)b.x - (double)a.x, (double)b.y - (double)a.y },
         to = { (double)p.x - (double)a.x, (double)p.y - (double)a.y };
    double length2 = vec2_dot(along, along), t = length2 > 0 ? vec2_dot(along, to) / length2 : 0;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    *at = vec2_add(from, vec2_scale(along, t));
    vec2 off = vec2_sub(to, vec2_scale(along, t));
    return vec2_dot(off, off);
}

static void split(struct finding *f, uint32_t course, size_t side, struct network_point at)
{
    struct crossings *out = f->out;
    if (out->split_count >= SPLITS_MOST) {
        *f->work = 0;
        return;
    }
    out->splits = base_arena_grow(f->a, out->splits, &out->split_cap, out->split_count + 1, sizeof *out->splits);
    out->splits[out->split_count++] = (struct crossings_split){ course, (uint32_t)side, at };
}

/* Parts a side at a point that is not its end but lies on it, as near as the grid can tell: both have moved by as much
 * as makes points one. */
static bool touch(struct finding *f, uint32_t course, size_t side, struct network_point p)
{
    struct network_point a = f->courses[course].points[side], b = f->courses[course].points[side + 1];
    double dx = (double)b.x - a.x, dy = (double)b.y - a.y, px = (double)p.x - a.x, py = (double)p.y - a.y;
    double dot = dx * px + dy * py, length2 = dx * dx + dy * dy, off = dx * py - dy * px;
    if (dot <= 0 || dot >= length2 || off * off > POINTS_NEAR * POINTS_NEAR * length2)
        return same(a, p) || same(b, p);
    split(f, course, side, p);
    return true;
}

/* Where two sides cross that do: between the points p and q, which lie on either side of the other side. */
static struct network_point crossing(struct network_point p, struct network_point q, int64_t at_p, int64_t at_q)
{
    double t = (double)at_p / ((double)at_p - (double)at_q);
    return (struct network_point){ (int32_t)floor(p.x + t * ((double)q.x - p.x) + 0.5),
                                   (int32_t)floor(p.y + t * ((double)q.y - p.y) + 0.5) };
}

static void meet(struct finding *f, uint32_t c, size_t i, uint32_t d, size_t j)
{
    struct network_point a = f->courses[c].points[i], b = f->courses[c].points[i + 1];
    struct network_point p = f->courses[d].points[j], q = f->courses[d].points[j + 1];
    bool touched = touch(f, c, i, p);
    touched = touch(f, c, i, q) || touched;
    touched = touch(f, d, j, a) || touched;
    touched = touch(f, d, j, b) || touched;
    if (touched)
        return;
    int64_t at_p = side_of(a, b, p), at_q = side_of(a, b, q);
    if (sign(at_p) * sign(at_q) >= 0 || sign(side_of(p, q, a)) * sign(side_of(p, q, b)) >= 0)
        return;
    struct network_point at = crossing(p, q, at_p, at_q);
    split(f, c, i, at);
    split(f, d, j, at);
}

/* ---- Two chains ---- */

static bool overlap(const struct chain *a, const struct chain *b)
{
    return a->x0 <= b->x1 && b->x0 <= a->x1 && a->y0 <= b->y1 && b->y0 <= a->y1;
}

static bool has_work(struct finding *f)
{
    if (*f->work == 0)
        return false;
    --*f->work;
    return true;
}

static struct chain part_of(const struct finding *f, const struct chain *c, uint32_t first, uint32_t last)
{
    struct chain part = { .course = c->course, .first = first, .last = last, .end = c->end };
    const struct network_point *points = f->courses[c->course].points;
    box_of(&part, points[first], points[last], POINTS_NEAR);
    return part;
}

/* By halves of the longer one. */
static void compare(struct finding *f, const struct chain *c, const struct chain *d)
{
    if (!has_work(f) || !overlap(c, d))
        return;
    uint32_t sides = c->last - c->first;
    if (sides < d->last - d->first) {
        compare(f, d, c);
        return;
    }
    if (sides == 1) {
        meet(f, c->course, c->first, d->course, d->first);
        return;
    }
    uint32_t middle = c->first + sides / 2;
    struct chain low = part_of(f, c, c->first, middle), high = part_of(f, c, middle, c->last);
    compare(f, &low, d);
    compare(f, &high, d);
}

/* Whether a side of its own course is only the end itself: less than four gaps from it, along the course. */
static bool is_own(const struct finding *f, const struct crossings_end *end, uint32_t side)
{
    const struct network_course *c = &f->courses[end->course];
    double way = 0;
    size_t i = end->last ? c->count - 2 : 0;
    while (i != side && way <= 4 * f->gap) {
        vec2 by = { (double)c->points[i + 1].x - c->points[i].x, (double)c->points[i + 1].y - c->points[i].y };
        way += vec2_length(by);
        i = end->last ? i - 1 : i + 1;
    }
    return way <= 4 * f->gap;
}

/* The sides of a chain that an end is near to. */
static void near_end(struct finding *f, const struct chain *probe, const struct chain *c)
{
    if (!has_work(f) || !overlap(probe, c))
        return;
    if (c->last - c->first > 1) {
        uint32_t middle = c->first + (c->last - c->first) / 2;
        struct chain low = part_of(f, c, c->first, middle), high = part_of(f, c, middle, c->last);
        near_end(f, probe, &low);
        near_end(f, probe, &high);
        return;
    }
    const struct crossings_end *end = &f->ends[probe->end];
    struct network_point a = f->courses[c->course].points[c->first], b = f->courses[c->course].points[c->last];
    vec2 at;
    if (crossings_distance2(end->at, a, b, &at) > f->gap * f->gap ||
        (c->course == end->course && is_own(f, end, c->first)))
        return;
    struct crossings *out = f->out;
    out->nears = base_arena_grow(f->a, out->nears, &out->near_cap, out->near_count + 1, sizeof *out->nears);
    out->nears[out->near_count++] = (struct crossings_near){ probe->end, c->course, a, b };
}

static void pair(struct finding *f, const struct chain *c, const struct chain *d)
{
    bool c_ends = c->end != NETWORK_NONE, d_ends = d->end != NETWORK_NONE;
    if (c_ends && d_ends)
        return;
    if (c_ends)
        near_end(f, c, d);
    else if (d_ends)
        near_end(f, d, c);
    else if (c->fresh || d->fresh)
        compare(f, c, d);
}

/* ---- The sweep ---- */

struct strips {
    int64_t low;
    double height;
    size_t count;
    uint32_t *starts, *chains;
};

static size_t strip_at(const struct strips *s, int64_t y)
{
    double at = floor((double)(y - s->low) / s->height);
    return at <= 0 ? 0 : at >= (double)s->count ? s->count - 1 : (size_t)at;
}

static size_t entries(const struct finding *f, const struct strips *s)
{
    size_t sum = 0;
    for (size_t i = 0; i < f->chain_count; i++)
        sum += strip_at(s, f->chains[i].y1) - strip_at(s, f->chains[i].y0) + 1;
    return sum;
}

/* As many strips as the chains are worth, but not so many that each lies in a lot of them. */
static struct strips make_strips(const struct finding *f)
{
    struct strips s = { .low = INT64_MAX, .count = f->chain_count / CHAINS_OF_STRIP + 1 };
    int64_t high = INT64_MIN;
    for (size_t i = 0; i < f->chain_count; i++) {
        s.low = f->chains[i].y0 < s.low ? f->chains[i].y0 : s.low;
        high = f->chains[i].y1 > high ? f->chains[i].y1 : high;
    }
    s.count = s.count < STRIPS_MOST ? s.count : STRIPS_MOST;
    for (;; s.count = (s.count + 1) / 2) {
        s.height = ((double)(high - s.low) + 1) / (double)s.count;
        if (s.count == 1 || entries(f, &s) <= STRIPS_OF_CHAIN * f->chain_count)
            return s;
    }
}

static void fill_strips(const struct finding *f, struct strips *s)
{
    s->starts = base_arena_alloc(f->a, s->count + 2, sizeof *s->starts);
    s->chains = base_arena_alloc(f->a, entries(f, s), sizeof *s->chains);
    for (size_t i = 0; i < f->chain_count; i++)
        for (size_t k = strip_at(s, f->chains[i].y0); k <= strip_at(s, f->chains[i].y1); k++)
            s->starts[k + 2]++;
    for (size_t k = 2; k < s->count + 2; k++)
        s->starts[k] += s->starts[k - 1];
    for (size_t i = 0; i < f->chain_count; i++)
        for (size_t k = strip_at(s, f->chains[i].y0); k <= strip_at(s, f->chains[i].y1); k++)
            s->chains[s->starts[k + 1]++] = (uint32_t)i;
}

/* Two chains meet in several strips; the one where the higher of their lower edges lies counts. */
static void sweep_strip(struct finding *f, const struct strips *s, size_t k)
{
    for (uint32_t i = s->starts[k]; i < s->starts[k + 1]; i++) {
        const struct chain *c = &f->chains[s->chains[i]];
        for (uint32_t j = i + 1; j < s->starts[k + 1]; j++) {
            const struct chain *d = &f->chains[s->chains[j]];
            if (d->x0 > c->x1 || !has_work(f))
                break;
            if (overlap(c, d) && strip_at(s, c->y0 > d->y0 ? c->y0 : d->y0) == k)
                pair(f, c, d);
        }
    }
}

bool crossings_find(struct arena *a, const struct network_course *courses, size_t count,
                    const struct crossings_end *ends, size_t end_count, double gap, unsigned pass, size_t *work,
                    struct crossings *out)
{
    struct finding f = { .a = a, .courses = courses, .ends = ends, .gap = gap, .work = work, .out = out };
    *out = (struct crossings){ 0 };
    for (uint32_t i = 0; i < count; i++)
        chains_of(&f, i, pass);
    for (uint32_t i = 0; i < end_count; i++) {
        struct chain probe = { .course = ends[i].course, .end = i };
        box_of(&probe, ends[i].at, ends[i].at, (int64_t)gap + 1);
        add_chain(&f, probe);
    }
    if (f.chain_count == 0)
        return true;
    qsort(f.chains, f.chain_count, sizeof *f.chains, by_left);
    struct strips s = make_strips(&f);
    fill_strips(&f, &s);
    for (size_t k = 0; k < s.count; k++)
        sweep_strip(&f, &s, k);
    return *work > 0;
}
