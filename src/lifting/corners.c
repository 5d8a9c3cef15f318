#include "lifting/corners.h"

#include <math.h>

#define SHARP_TURN 0.5    /* 30°: chords of a curve turn by less, unless it is smaller than a pencil's point */
#define LEAST_TURN 0.035  /* 2°: less is no corner but on straight sides */
#define STANDS_OUT 3.0    /* a corner turns so many times what the curve about it does */
#define LEAST_SIDE_MM 5.0 /* a straight side that counts beside curves */
#define BEND_MM (2 * LIFTING_CHORD_MM) /* a curve would lie so far beyond a side that is straight */

enum { ABOUT = 2 }; /* how many points on either side tell what a curve does there */

double lifting_turn(vec2 come, vec2 go)
{
    double sine = vec2_cross(come, go);
    if (vec2_dot(come, go) >= 0)
        return sine;
    return sine >= 0 ? 2 - sine : -2 - sine;
}

static vec2 way(vec2 from, vec2 to)
{
    return vec2_unit(vec2_sub(to, from));
}

static double turn_at(const vec2 *points, size_t count, size_t i)
{
    if (i == 0 || i + 1 >= count)
        return 0;
    return fabs(lifting_turn(way(points[i - 1], points[i]), way(points[i], points[i + 1])));
}

double lifting_beyond_chord(const vec2 *points, size_t count, size_t i)
{
    double first = turn_at(points, count, i), second = turn_at(points, count, i + 1);
    bool is_end = i == 0 || i + 2 == count;
    double turn = is_end ? fmax(first, second) : fmin(first, second);
    double beyond = vec2_length(vec2_sub(points[i + 1], points[i])) * turn / 8;
    return beyond > LIFTING_CHORD_MM ? 0 : beyond;
}

/* ---- Without points on straight lines ---- */

/* The directions from a point in which a line passes all points so far. */
struct cone {
    vec2 from, left, right;
    double near_mm, reach_mm;
    bool open; /* any direction yet */
};

static void narrow(struct cone *c, vec2 p)
{
    vec2 to = vec2_sub(p, c->from);
    double reach = vec2_length(to);
    c->reach_mm = fmax(c->reach_mm, reach);
    if (reach <= c->near_mm)
        return;
    vec2 u = vec2_scale(to, 1 / reach);
    double sine = c->near_mm / reach, cosine = sqrt(1 - sine * sine);
    vec2 left = { u.x * cosine - u.y * sine, u.y * cosine + u.x * sine };
    vec2 right = { u.x * cosine + u.y * sine, u.y * cosine - u.x * sine };
    if (c->open || vec2_cross(c->left, left) < 0)
        c->left = left;
    if (c->open || vec2_cross(c->right, right) > 0)
        c->right = right;
    c->open = false;
}

/* Whether a line on to there passes all points on the way. */
static bool is_within(const struct cone *c, vec2 p)
{
    vec2 to = vec2_sub(p, c->from);
    if (c->open)
        return true;
    return vec2_length(to) >= c->reach_mm - c->near_mm && vec2_cross(c->left, to) <= 0 &&
           vec2_cross(c->right, to) >= 0 && vec2_dot(c->left, to) > 0;
}

static bool is_on_way(struct geometry_path p, size_t from, size_t at, size_t to, double near_mm)
{
    vec2 along = way(p.points[from], p.points[to]), off = vec2_sub(p.points[at], p.points[from]);
    return fabs(vec2_cross(along, off)) <= 2 * near_mm && vec2_dot(along, off) > 0;
}

static size_t drop_first(size_t *kept, size_t count)
{
    for (size_t i = 1; i < count; i++)
        kept[i - 1] = kept[i];
    return count - 1;
}

/* The points that are needed, by their numbers. */
static size_t needed_points(struct geometry_path p, double near_mm, size_t *kept)
{
    size_t count = 0;
    struct cone c = { .from = p.points[0], .near_mm = near_mm, .open = true };
    kept[count++] = 0;
    for (size_t i = 1; i < p.count; i++) {
        narrow(&c, p.points[i]);
        if (is_within(&c, p.points[(i + 1) % p.count]))
            continue;
        kept[count++] = i;
        c = (struct cone){ .from = p.points[i], .near_mm = near_mm, .open = true };
    }
    return count > 3 && is_on_way(p, kept[count - 1], 0, kept[1], near_mm) ? drop_first(kept, count) : count;
}

/* ---- Corners ---- */

/* An outline without points on straight lines. */
struct bends {
    size_t count;
    const size_t *number;  /* of each point in the outline */
    const vec2 *at;        /* the points */
    const vec2 *along;     /* of each side from its point, length 1 */
    const double *side_mm; /* likewise */
    const double *turn;    /* at each point */
    bool *is_corner;
};

static size_t step(const struct bends *b, size_t i, int by)
{
    return (i + b->count + (size_t)(by + (int)b->count)) % b->count;
}

/* How sharply the outline bends there, 1/mm. */
static double bend_at(const struct bends *b, size_t i)
{
    return fabs(b->turn[i]) / ((b->side_mm[step(b, i, -1)] + b->side_mm[i]) / 2);
}

/* What curves beyond that point do, corners left aside; `to` -1 or 1. */
static double bend_beyond(const struct bends *b, size_t i, int to)
{
    double most = 0;
    for (int k = 1; k <= ABOUT; k++) {
        size_t j = step(b, i, to * k);
        if (b->is_corner[j])
            break;
        most = fmax(most, bend_at(b, j));
    }
    return most;
}

static bool is_plain_corner(const struct bends *b, size_t i)
{
    double turn = fabs(b->turn[i]), side = fmin(b->side_mm[step(b, i, -1)], b->side_mm[i]);
    return turn > SHARP_TURN || side * turn / 8 > LIFTING_CHORD_MM;
}

/* Turns far more than what is about it. */
static bool stands_out(const struct bends *b, size_t i)
{
    double about = fmax(bend_beyond(b, i, -1), bend_beyond(b, i, 1));
    double usual = about * (b->side_mm[step(b, i, -1)] + b->side_mm[i]) / 2;
    return fabs(b->turn[i]) > fmax(LEAST_TURN, STANDS_OUT * usual);
}

/* Whether the side that leads from there, backwards or forwards, is straight where a curve goes on the other way. */
static bool ends_straight(const struct bends *b, size_t i, int to)
{
    double side = b->side_mm[to > 0 ? i : step(b, i, -1)];
    double bend = fmax(bend_at(b, i), bend_beyond(b, i, -to));
    return side >= LEAST_SIDE_MM && bend * side * side / 8 > BEND_MM;
}

static void mark_corners(struct bends *b, struct arena *work)
{
    bool *more = base_arena_alloc(work, b->count, sizeof *more);
    for (size_t i = 0; i < b->count; i++)
        b->is_corner[i] = is_plain_corner(b, i);
    for (size_t i = 0; i < b->count; i++)
        more[i] = b->is_corner[i] || stands_out(b, i);
    for (size_t i = 0; i < b->count; i++)
        b->is_corner[i] = more[i];
    for (size_t i = 0; i < b->count; i++)
        more[i] = b->is_corner[i] || ends_straight(b, i, -1) || ends_straight(b, i, 1);
    for (size_t i = 0; i < b->count; i++)
        b->is_corner[i] = more[i];
}

static struct bends bends_of(struct arena *work, struct geometry_path p, double near_mm)
{
    size_t *number = base_arena_alloc(work, p.count, sizeof *number);
    size_t count = needed_points(p, near_mm, number);
    vec2 *at = base_arena_alloc(work, count, sizeof *at), *along = base_arena_alloc(work, count, sizeof *along);
    double *side = base_arena_alloc(work, count, sizeof *side), *turn = base_arena_alloc(work, count, sizeof *turn);
    for (size_t i = 0; i < count; i++)
        at[i] = p.points[number[i]];
    for (size_t i = 0; i < count; i++) {
        vec2 on = vec2_sub(at[(i + 1) % count], at[i]);
        side[i] = vec2_length(on);
        along[i] = vec2_unit(on);
    }
    for (size_t i = 0; i < count; i++)
        turn[i] = lifting_turn(along[(i + count - 1) % count], along[i]);
    return (struct bends){ count, number, at, along, side, turn, base_arena_alloc(work, count, sizeof(bool)) };
}

size_t lifting_find_corners(struct arena *a, struct geometry_path outline, double near_mm, struct lifting_corner **out)
{
    struct arena *work = base_arena_create();
    struct bends b = bends_of(work, outline, near_mm);
    mark_corners(&b, work);
    *out = base_arena_alloc(a, b.count, sizeof **out);
    size_t count = 0, next = 0;
    double along = 0;
    for (size_t i = 0; i < outline.count && next < b.count; i++) {
        if (b.number[next] == i) {
            if (b.is_corner[next])
                (*out)[count++] = (struct lifting_corner){ along, b.at[next], b.along[step(&b, next, -1)],
                                                           b.along[next], b.turn[next] };
            next++;
        }
        along += vec2_length(vec2_sub(outline.points[(i + 1) % outline.count], outline.points[i]));
    }
    base_arena_destroy(work);
    return count;
}
