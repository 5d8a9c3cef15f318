#include "drawing/cut.h"
#include "drawing/tiling.h"

#define RIM_MM 5.0     /* a line that runs along a side of its page is longer */
#define ALONG_LEAST_MM 1.0
#define SLIVER_MM 0.02 /* shorter parts of longer lines are what rounding leaves */

struct cutting {
    struct arena *a;
    const struct drawing_part *line;
    const struct geometry_box *box;
    struct drawing_parts *out;
    struct geometry_path part; /* the one that grows */
    size_t cap;
};

static bool is_within(const struct geometry_box *box, vec2 p)
{
    return p.x >= box->min.x && p.x <= box->max.x && p.y >= box->min.y && p.y <= box->max.y;
}

/* At a side of the box within what ends may be apart. */
static bool is_at_side(const struct geometry_box *box, vec2 p)
{
    return fmin(fmin(p.x - box->min.x, box->max.x - p.x), fmin(p.y - box->min.y, box->max.y - p.y)) <= DRAWING_JOIN_MM;
}

static void add_part(struct arena *a, struct drawing_parts *out, struct drawing_part part)
{
    out->all = base_arena_grow(a, out->all, &out->cap, out->count + 1, sizeof *out->all);
    out->all[out->count++] = part;
}

static void add_point(struct cutting *c, vec2 p)
{
    c->part.points = base_arena_grow(c->a, c->part.points, &c->cap, c->part.count + 1, sizeof *c->part.points);
    c->part.points[c->part.count++] = p;
}

/* Along one side all the way. */
static bool lies_along(const struct geometry_box *box, struct geometry_path path)
{
    struct geometry_box p = geometry_path_box(path);
    double most = 3 * DRAWING_SNAP_MM;
    return p.max.x - box->min.x <= most || box->max.x - p.min.x <= most || p.max.y - box->min.y <= most ||
           box->max.y - p.min.y <= most;
}

static void end_part(struct cutting *c)
{
    double length = c->part.count > 1 ? geometry_path_length(c->part) : 0;
    if (c->part.points && length > SLIVER_MM) {
        struct drawing_part part = *c->line;
        part.path = c->part;
        part.open[0] = is_at_side(c->box, c->part.points[0]);
        part.open[1] = is_at_side(c->box, c->part.points[c->part.count - 1]);
        part.along = lies_along(c->box, part.path);
        part.is_rim = length <= RIM_MM && part.along;
        add_part(c->a, c->out, part);
    }
    c->part = (struct geometry_path){ NULL, 0, false };
    c->cap = 0;
}

static void take_side(struct cutting *c, vec2 p, vec2 q)
{
    vec2 from = p, to = q;
    if (!drawing_clip_bit(c->box, &from, &to) || (from.x == to.x && from.y == to.y)) {
        end_part(c);
        return;
    }
    if (c->part.count == 0 || from.x != p.x || from.y != p.y) {
        end_part(c);
        add_point(c, from);
    }
    add_point(c, to);
    if (to.x != q.x || to.y != q.y)
        end_part(c);
}

/* A point of a path that lies outside; its count when none does. */
static size_t first_outside(struct geometry_path path, const struct geometry_box *box)
{
    size_t i = 0;
    while (i < path.count && is_within(box, path.points[i]))
        i++;
    return i;
}

static void take_whole(struct arena *a, const struct drawing_part *line, const struct geometry_box *box,
                       struct drawing_parts *out)
{
    struct drawing_part part = *line;
    part.along = !part.path.closed && lies_along(box, part.path);
    part.open[0] = !part.path.closed && is_at_side(box, part.path.points[0]);
    part.open[1] = !part.path.closed && is_at_side(box, part.path.points[part.path.count - 1]);
    add_part(a, out, part);
}

static double snapped(double at, double low, double high)
{
    if (fabs(at - low) <= DRAWING_SNAP_MM)
        return low;
    return fabs(at - high) <= DRAWING_SNAP_MM ? high : at;
}

/* Onto a side that a straight bit runs along: pages lie a little off each other, and it could fall between two. */
static void snap_bit(vec2 *p, vec2 *q, const struct geometry_box *box)
{
    const double xs[] = { box->min.x, box->max.x }, ys[] = { box->min.y, box->max.y };
    bool upright = fabs(p->y - q->y) >= ALONG_LEAST_MM, level = fabs(p->x - q->x) >= ALONG_LEAST_MM;
    for (size_t k = 0; k < 2; k++) {
        if (upright && fabs(p->x - xs[k]) <= DRAWING_ALONG_MM && fabs(q->x - xs[k]) <= DRAWING_ALONG_MM)
            p->x = q->x = xs[k];
        if (level && fabs(p->y - ys[k]) <= DRAWING_ALONG_MM && fabs(q->y - ys[k]) <= DRAWING_ALONG_MM)
            p->y = q->y = ys[k];
    }
}

static void snap(struct geometry_path path, const struct geometry_box *box)
{
    for (size_t i = 0; i < path.count; i++) {
        path.points[i].x = snapped(path.points[i].x, box->min.x, box->max.x);
        path.points[i].y = snapped(path.points[i].y, box->min.y, box->max.y);
    }
    for (size_t i = path.closed ? 0 : 1; i < path.count; i++)
        snap_bit(&path.points[i ? i - 1 : path.count - 1], &path.points[i], box);
}

void drawing_cut(struct arena *a, const struct drawing_part *line, const struct geometry_box *box,
                 struct drawing_parts *out)
{
    struct geometry_path path = line->path;
    struct cutting c = { .a = a, .line = line, .box = box, .out = out };
    snap(path, box);
    size_t outside = first_outside(path, box);
    if (outside == path.count) {
        take_whole(a, line, box, out);
        return;
    }
    size_t start = path.closed ? outside : 0, sides = path.closed ? path.count : path.count - 1;
    for (size_t i = 0; i < sides; i++)
        take_side(&c, path.points[(start + i) % path.count], path.points[(start + i + 1) % path.count]);
    end_part(&c);
}
