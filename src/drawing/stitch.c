#include "drawing/cut.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define AHEAD_MM 0.3     /* a part's direction at its end is that to a place so far back */
#define CORNER_MM 0.03   /* ends so near go on with a corner, too */
#define TURN_LEAST 0.8   /* cosine: ends that go on point against each other */
#define OVER_LEAST 0.999 /* cosine: ends that point so alike are of lines over each other */
#define OVER_MM 0.1      /* a line along the side of a page lies so near its copy on the next */
#define STRAIGHT_MM 0.01 /* a point where parts were joined is left out when the line runs so near it without */

/* An end that may go on; 2 × part, + 1 for its end. */
struct end {
    vec2 at, out; /* and the way that it points, length 1 */
    size_t index;
    long column, row; /* of the square it lies in */
};

struct pair {
    size_t a, b; /* of the ends' list */
    double apart;
};

struct stitching {
    struct arena *a;
    const struct drawing_parts *parts;
    struct end *ends;
    size_t end_count;
    struct pair *pairs;
    size_t pair_count, pair_cap;
    size_t *partner; /* of 2 × part + end; SIZE_MAX: none */
};

static vec2 end_point(const struct drawing_part *part, size_t end)
{
    return part->path.points[end ? part->path.count - 1 : 0];
}

static vec2 end_direction(const struct drawing_part *part, size_t end)
{
    struct geometry_path p = part->path;
    vec2 at = end_point(part, end), back = at;
    for (size_t i = 1; i < p.count && vec2_length(vec2_sub(back, at)) < AHEAD_MM; i++)
        back = p.points[end ? p.count - 1 - i : i];
    return vec2_unit(vec2_sub(at, back));
}

static int by_square(const void *x, const void *y)
{
    const struct end *a = x, *b = y;
    if (a->column != b->column)
        return a->column < b->column ? -1 : 1;
    if (a->row != b->row)
        return a->row < b->row ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

static void find_ends(struct stitching *s)
{
    s->ends = base_arena_alloc(s->a, 2 * s->parts->count, sizeof *s->ends);
    for (size_t i = 0; i < s->parts->count; i++)
        for (size_t end = 0; end < 2; end++) {
            const struct drawing_part *part = &s->parts->all[i];
            if (!part->open[end])
                continue;
            vec2 at = end_point(part, end);
            s->ends[s->end_count++] =
                (struct end){ at, end_direction(part, end), 2 * i + end, (long)floor(at.x / DRAWING_JOIN_MM),
                              (long)floor(at.y / DRAWING_JOIN_MM) };
        }
    if (s->end_count)
        qsort(s->ends, s->end_count, sizeof *s->ends, by_square);
}

static bool goes_on(const struct stitching *s, const struct end *a, const struct end *b)
{
    const struct drawing_part *p = &s->parts->all[a->index / 2], *q = &s->parts->all[b->index / 2];
    double apart = vec2_length(vec2_sub(a->at, b->at));
    return p->look == q->look && p->place != q->place && vec2_dot(a->out, b->out) < OVER_LEAST &&
           (apart <= CORNER_MM || (apart <= DRAWING_JOIN_MM && vec2_dot(a->out, b->out) <= -TURN_LEAST));
}

/* The first end of a square or behind it. */
static size_t first_in(const struct stitching *s, long column, long row)
{
    size_t low = 0, high = s->end_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        const struct end *e = &s->ends[middle];
        if (e->column < column || (e->column == column && e->row < row))
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static void pair_with(struct stitching *s, size_t a, size_t b)
{
    if (b <= a || !goes_on(s, &s->ends[a], &s->ends[b]))
        return;
    s->pairs = base_arena_grow(s->a, s->pairs, &s->pair_cap, s->pair_count + 1, sizeof *s->pairs);
    s->pairs[s->pair_count++] = (struct pair){ a, b, vec2_length(vec2_sub(s->ends[a].at, s->ends[b].at)) };
}

enum { CROWD_MOST = 64 }; /* ends looked at in one square: more lie there only to tease */

static void find_pairs(struct stitching *s)
{
    for (size_t a = 0; a < s->end_count; a++)
        for (long column = s->ends[a].column - 1; column <= s->ends[a].column + 1; column++)
            for (long row = s->ends[a].row - 1; row <= s->ends[a].row + 1; row++) {
                size_t first = first_in(s, column, row), looked = 0;
                for (size_t b = first;
                     b < s->end_count && looked < CROWD_MOST && s->ends[b].column == column && s->ends[b].row == row;
                     b++, looked++)
                    pair_with(s, a, b);
            }
}

static int by_distance(const void *x, const void *y)
{
    const struct pair *a = x, *b = y;
    if (a->apart != b->apart)
        return a->apart < b->apart ? -1 : 1;
    if (a->a != b->a)
        return a->a < b->a ? -1 : 1;
    return (a->b > b->b) - (a->b < b->b);
}

/* The nearest first; each end goes on once. */
static void choose_partners(struct stitching *s)
{
    s->partner = base_arena_alloc(s->a, 2 * s->parts->count, sizeof *s->partner);
    memset(s->partner, 0xff, 2 * s->parts->count * sizeof *s->partner);
    if (s->pair_count)
        qsort(s->pairs, s->pair_count, sizeof *s->pairs, by_distance);
    for (size_t i = 0; i < s->pair_count; i++) {
        size_t a = s->ends[s->pairs[i].a].index, b = s->ends[s->pairs[i].b].index;
        if (s->partner[a] != SIZE_MAX || s->partner[b] != SIZE_MAX)
            continue;
        s->partner[a] = b;
        s->partner[b] = a;
    }
}

/* ---------------------------------------------------------------------------------------------------------------- rows
 */

/* Back along the row that a part is in: the end at which it begins, or that of the part itself when it is a ring. */
static size_t row_begin(const struct stitching *s, size_t part, bool *ring)
{
    size_t begin = 2 * part;
    *ring = false;
    while (s->partner[begin] != SIZE_MAX) {
        begin = s->partner[begin] ^ 1;
        if (begin == 2 * part) {
            *ring = true;
            break;
        }
    }
    return begin;
}

static double beside(vec2 p, vec2 from, vec2 to)
{
    vec2 along = vec2_unit(vec2_sub(to, from));
    return fabs(vec2_cross(along, vec2_sub(p, from)));
}

/* The last point of a path stands where two parts met. */
static void smooth_last(struct geometry_path *path, vec2 next)
{
    if (path->count >= 2 && beside(path->points[path->count - 1], path->points[path->count - 2], next) <= STRAIGHT_MM)
        path->count--;
}

/* Appends a part's points from the end `begin` on; where it meets the path the middle of both ends is taken. */
static void append(struct stitching *s, struct geometry_path *path, size_t *cap, size_t begin, bool meets)
{
    struct geometry_path p = s->parts->all[begin / 2].path;
    path->points = base_arena_grow(s->a, path->points, cap, path->count + p.count, sizeof *path->points);
    for (size_t i = 0; i < p.count; i++) {
        vec2 at = p.points[begin & 1 ? p.count - 1 - i : i];
        if (i == 0 && meets) {
            path->points[path->count - 1] = vec2_lerp(path->points[path->count - 1], at, 0.5);
            continue;
        }
        if (i == 1 && meets)
            smooth_last(path, at);
        path->points[path->count++] = at;
    }
}

/* The last point and the first are one. */
static void close_ring(struct geometry_path *path)
{
    path->closed = true;
    vec2 middle = vec2_lerp(path->points[path->count - 1], path->points[0], 0.5);
    path->count--;
    if (path->count > 3 && beside(middle, path->points[path->count - 1], path->points[1]) <= STRAIGHT_MM) {
        path->points++;
        path->count--;
    } else {
        path->points[0] = middle;
    }
}

/* Where an outline that was cut began is not at the side of a page. */
static bool ends_meet(const struct geometry_path *path)
{
    return vec2_length(vec2_sub(path->points[path->count - 1], path->points[0])) <= CORNER_MM;
}

static struct drawing_part joined(struct stitching *s, size_t part, bool *done)
{
    struct drawing_part out = s->parts->all[part];
    size_t cap = 0, first = part;
    bool ring, turned = false;
    size_t begin = row_begin(s, part, &ring);
    out.path = (struct geometry_path){ NULL, 0, false };
    for (size_t at = begin; at != SIZE_MAX && !done[at / 2]; at = s->partner[at ^ 1]) {
        append(s, &out.path, &cap, at, at != begin);
        done[at / 2] = true;
        turned = at / 2 == first ? (at & 1) != 0 : turned;
    }
    if (out.path.count > 3 && (ring || ends_meet(&out.path)))
        close_ring(&out.path);
    if (turned)
        geometry_path_reverse(out.path);
    return out;
}

/* ------------------------------------------------------------------------------------------- lines that two pages have
 */

enum { ALONG_MOST = 1000 }; /* lines along sides that are looked for on the page beside: more lie there only to tease */

static bool is_on_bit(vec2 p, vec2 from, vec2 to)
{
    double length = vec2_length(vec2_sub(to, from));
    vec2 by = vec2_sub(p, from), along = vec2_unit(vec2_sub(to, from));
    double at = vec2_dot(by, along);
    return length > 0 && at >= -OVER_MM && at <= length + OVER_MM && fabs(vec2_cross(along, by)) <= OVER_MM;
}

/* Whether a bit of the path holds the part's start, and one its end, and one its middle. */
static bool holds(struct geometry_path path, struct geometry_path part)
{
    vec2 first = part.points[0], last = part.points[part.count - 1];
    const vec2 at[] = { first, last, vec2_lerp(first, last, 0.5) };
    bool on[] = { false, false, false };
    size_t sides = path.closed ? path.count : path.count - 1;
    for (size_t i = 0; i < sides; i++)
        for (size_t k = 0; k < 3; k++)
            on[k] |= is_on_bit(at[k], path.points[i], path.points[(i + 1) % path.count]);
    return on[0] && on[1] && on[2];
}

static bool is_within(const struct geometry_box *in, const struct geometry_box *box)
{
    return in->min.x >= box->min.x - OVER_MM && in->max.x <= box->max.x + OVER_MM &&
           in->min.y >= box->min.y - OVER_MM && in->max.y <= box->max.y + OVER_MM;
}

/* Parts without those along a side of their page that another page has, too. */
static struct drawing_parts without_copies(struct arena *a, const struct drawing_parts *parts)
{
    struct drawing_parts out = { base_arena_alloc(a, parts->count, sizeof *out.all), 0, parts->count };
    struct geometry_box *boxes = base_arena_alloc(a, parts->count, sizeof *boxes);
    bool *copy = base_arena_alloc(a, parts->count, sizeof *copy);
    size_t looked = 0;
    for (size_t i = 0; i < parts->count; i++)
        boxes[i] = geometry_path_box(parts->all[i].path);
    for (size_t i = 0; i < parts->count; i++) {
        const struct drawing_part *p = &parts->all[i];
        bool look = p->along && !p->is_rim && looked++ < ALONG_MOST;
        for (size_t k = 0; look && !copy[i] && k < parts->count; k++) {
            const struct drawing_part *q = &parts->all[k];
            copy[i] = q->look == p->look && q->place != p->place && !copy[k] && is_within(&boxes[i], &boxes[k]) &&
                      holds(q->path, p->path);
        }
        if (!copy[i])
            out.all[out.count++] = *p;
    }
    return out;
}

struct drawing_parts drawing_stitch(struct arena *a, const struct drawing_parts *cut)
{
    struct drawing_parts all = without_copies(a, cut);
    const struct drawing_parts *parts = &all;
    struct stitching s = { .a = a, .parts = parts };
    struct drawing_parts out = { base_arena_alloc(a, parts->count, sizeof *out.all), 0, parts->count };
    bool *done = base_arena_alloc(a, parts->count, sizeof *done);
    find_ends(&s);
    find_pairs(&s);
    choose_partners(&s);
    for (size_t i = 0; i < parts->count; i++) {
        if (done[i])
            continue;
        bool alone = s.partner[2 * i] == SIZE_MAX && s.partner[2 * i + 1] == SIZE_MAX;
        if (!alone || !parts->all[i].is_rim)
            out.all[out.count++] = alone ? parts->all[i] : joined(&s, i, done);
        done[i] = true;
    }
    return out;
}
