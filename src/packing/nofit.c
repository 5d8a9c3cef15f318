#include "packing/nofit.h"

#include <assert.h>
#include <stdlib.h>

/* Where an edge is parted. */
struct parting {
    unsigned edge;
    double at; /* 0 to 1 along it */
};

struct partings {
    struct arena *arena;
    struct parting *data;
    size_t count, cap;
};

/* An edge's reach along x, for a sweep. */
struct reach {
    double first, last;
    unsigned edge;
};

vec2 nofit_on_edge(const struct convolution_edge *e, vec2 at)
{
    vec2 along = vec2_sub(e->to, e->from);
    double square = vec2_dot(along, along);
    double t = square > 0 ? vec2_dot(vec2_sub(at, e->from), along) / square : 0;
    if (t >= 1)
        return e->to;
    return t > 0 ? vec2_add(e->from, vec2_scale(along, t)) : e->from;
}

static void part(struct partings *p, unsigned edge, double at)
{
    if (!(at > 0 && at < 1))
        return;
    p->data = base_arena_grow(p->arena, p->data, &p->cap, p->count + 1, sizeof *p->data);
    p->data[p->count++] = (struct parting){ edge, at };
}

static void part_at_point(struct partings *p, const struct convolution *c, unsigned edge, vec2 at)
{
    vec2 along = vec2_sub(c->edges[edge].to, c->edges[edge].from);
    part(p, edge, vec2_dot(vec2_sub(at, c->edges[edge].from), along) / vec2_dot(along, along));
}

/* Two edges in one line part each other where they end. */
static void part_in_line(struct partings *p, const struct convolution *c, unsigned i, unsigned k, double eps)
{
    const struct convolution_edge *e = &c->edges[i], *f = &c->edges[k];
    vec2 along = vec2_unit(vec2_sub(e->to, e->from));
    if (fabs(vec2_cross(along, vec2_sub(f->from, e->from))) > eps)
        return;
    part_at_point(p, c, i, f->from);
    part_at_point(p, c, i, f->to);
    part_at_point(p, c, k, e->from);
    part_at_point(p, c, k, e->to);
}

static void part_where_they_meet(struct partings *p, const struct convolution *c, unsigned i, unsigned k, double eps)
{
    const struct convolution_edge *e = &c->edges[i], *f = &c->edges[k];
    vec2 r = vec2_sub(e->to, e->from), s = vec2_sub(f->to, f->from), between = vec2_sub(f->from, e->from);
    double sine = vec2_cross(r, s), lengths = vec2_length(r) * vec2_length(s);
    if (fabs(sine) <= 1e-11 * lengths) {
        part_in_line(p, c, i, k, eps);
        return;
    }
    double at = vec2_cross(between, s) / sine, on = vec2_cross(between, r) / sine;
    double slack = 1e-9;
    if (at < -slack || at > 1 + slack || on < -slack || on > 1 + slack)
        return;
    part(p, i, at);
    part(p, k, on);
}

static int compare_reaches(const void *a, const void *b)
{
    const struct reach *p = a, *q = b;
    if (p->first != q->first)
        return p->first < q->first ? -1 : 1;
    return (p->edge > q->edge) - (p->edge < q->edge);
}

static int compare_partings(const void *a, const void *b)
{
    const struct parting *p = a, *q = b;
    if (p->edge != q->edge)
        return p->edge < q->edge ? -1 : 1;
    return (p->at > q->at) - (p->at < q->at);
}

static struct reach *reaches_of(struct arena *a, const struct convolution *c)
{
    struct reach *reaches = base_arena_alloc(a, c->count, sizeof *reaches);
    for (size_t i = 0; i < c->count; i++) {
        const struct convolution_edge *e = &c->edges[i];
        reaches[i] = (struct reach){ fmin(e->from.x, e->to.x), fmax(e->from.x, e->to.x), (unsigned)i };
    }
    qsort(reaches, c->count, sizeof *reaches, compare_reaches);
    return reaches;
}

static bool apart_in_y(const struct convolution_edge *e, const struct convolution_edge *f, double eps)
{
    return fmax(e->from.y, e->to.y) < fmin(f->from.y, f->to.y) - eps ||
           fmax(f->from.y, f->to.y) < fmin(e->from.y, e->to.y) - eps;
}

static struct partings find_partings(struct arena *scratch, const struct convolution *c, double eps)
{
    struct partings p = { .arena = scratch };
    struct reach *reaches = reaches_of(scratch, c);
    for (size_t i = 0; i < c->count; i++)
        for (size_t k = i + 1; k < c->count && reaches[k].first <= reaches[i].last + eps; k++) {
            unsigned e = reaches[i].edge, f = reaches[k].edge;
            if (!apart_in_y(&c->edges[e], &c->edges[f], eps))
                part_where_they_meet(&p, c, e, f, eps);
        }
    if (p.count)
        qsort(p.data, p.count, sizeof *p.data, compare_partings);
    return p;
}

struct keeping {
    struct arena *out;
    struct nofit *n;
    size_t cap;
    double eps;
};

/* Keeps a part of an edge when the region lies on one side of it and not on the other. */
static void keep_if_boundary(struct keeping *k, vec2 from, vec2 to)
{
    vec2 along = vec2_sub(to, from);
    if (vec2_length(along) <= 2 * k->eps)
        return;
    vec2 right = vec2_scale(vec2_right(vec2_unit(along)), k->eps), middle = vec2_lerp(from, to, 0.5);
    bool on_right = convolution_winding(&k->n->convolution, vec2_add(middle, right)) > 0;
    bool on_left = convolution_winding(&k->n->convolution, vec2_sub(middle, right)) > 0;
    if (on_left == on_right)
        return;
    struct nofit *n = k->n;
    n->edges = base_arena_grow(k->out, n->edges, &k->cap, n->count + 1, sizeof *n->edges);
    n->edges[n->count++] = on_left ? (struct convolution_edge){ from, to } : (struct convolution_edge){ to, from };
}

static void take_boundary(struct arena *out, struct arena *scratch, struct nofit *n, double eps)
{
    const struct convolution *c = &n->convolution;
    struct partings p = find_partings(scratch, c, eps);
    struct keeping keeping = { out, n, 0, eps };
    size_t next = 0;
    for (unsigned i = 0; i < c->count; i++) {
        vec2 from = c->edges[i].from;
        for (; next < p.count && p.data[next].edge == i; next++) {
            vec2 to = vec2_lerp(c->edges[i].from, c->edges[i].to, p.data[next].at);
            keep_if_boundary(&keeping, from, to);
            from = to;
        }
        keep_if_boundary(&keeping, from, c->edges[i].to);
    }
}

struct nofit nofit_of(struct arena *out, struct arena *scratch, struct geometry_path a, struct geometry_path b)
{
    struct nofit n = { .convolution = convolution_of(out, scratch, a, b) };
    struct geometry_box box = n.convolution.box;
    n.touch = NOFIT_TOUCH * fmax(box.max.x - box.min.x, box.max.y - box.min.y);
    if (n.convolution.convex) {
        n.edges = n.convolution.edges;
        n.count = n.convolution.count;
    } else {
        take_boundary(out, scratch, &n, n.touch / 8);
    }
    return n;
}

static bool box_holds(struct geometry_box box, vec2 at)
{
    return at.x > box.min.x && at.x < box.max.x && at.y > box.min.y && at.y < box.max.y;
}

double nofit_depth(const struct nofit *n, vec2 at, vec2 *nearest)
{
    vec2 best = at;
    double least = 0;
    if (box_holds(n->convolution.box, at) && convolution_winding(&n->convolution, at) > 0) {
        least = INFINITY;
        for (size_t i = 0; i < n->count; i++) {
            vec2 on = nofit_on_edge(&n->edges[i], at);
            double square = vec2_dot(vec2_sub(on, at), vec2_sub(on, at));
            if (square < least) {
                least = square;
                best = on;
            }
        }
        least = isfinite(least) ? sqrt(least) : 0;
    }
    if (nearest)
        *nearest = best;
    return least > n->touch ? least : 0;
}

static int compare_numbers(const void *a, const void *b)
{
    double p = *(const double *)a, q = *(const double *)b;
    return (p > q) - (p < q);
}

/* Where along the ray, from 0 to most, edges are met; both ends are among them. */
static size_t ray_meets(double *out, const struct nofit *n, vec2 at, vec2 direction, double most)
{
    size_t count = 0;
    out[count++] = 0;
    out[count++] = most;
    for (size_t i = 0; i < n->count; i++) {
        const struct convolution_edge *e = &n->edges[i];
        double from = vec2_cross(direction, vec2_sub(e->from, at)), to = vec2_cross(direction, vec2_sub(e->to, at));
        if ((from > n->touch && to > n->touch) || (from < -n->touch && to < -n->touch))
            continue;
        double share = from != to ? from / (from - to) : 0;
        vec2 meet = vec2_lerp(e->from, e->to, fmin(fmax(share, 0), 1));
        double along = vec2_dot(vec2_sub(meet, at), direction);
        if (along > 0 && along < most)
            out[count++] = along;
    }
    qsort(out, count, sizeof *out, compare_numbers);
    return count;
}

double nofit_ray(struct arena *scratch, const struct nofit *n, vec2 at, vec2 direction, double most)
{
    double *meets = base_arena_alloc(scratch, n->count + 2, sizeof *meets);
    size_t count = ray_meets(meets, n, at, direction, most);
    for (size_t i = 0; i + 1 < count; i++) {
        vec2 middle = vec2_add(at, vec2_scale(direction, (meets[i] + meets[i + 1]) / 2));
        if (nofit_depth(n, middle, NULL) > 0)
            return meets[i];
    }
    return most;
}
