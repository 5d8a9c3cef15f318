/* A blend: every point follows the size position of its level of the body; a point without one lies between its
 * neighbours on the outline that have one, and its position between theirs by the way from one to the other. */
#include "draft/blend.h"

/* The points of an outline in order, with how far round it each lies. */
struct round {
    int *points;
    double *along;
    size_t count;
    double length;
};

static void go_to(struct round *r, const vec2 *at, int point)
{
    if (r->count && r->points[r->count - 1] == point)
        return;
    if (r->count)
        r->length += vec2_length(vec2_sub(at[point], at[r->points[r->count - 1]]));
    r->along[r->count] = r->length;
    r->points[r->count++] = point;
}

static size_t most_points(const struct pattern_piece *piece)
{
    size_t most = 1;
    for (size_t e = 0; e < piece->edge_count; e++)
        for (size_t s = 0; s < piece->edges[e].step_count; s++)
            most += 3 + piece->edges[e].steps[s].through_count;
    return most + piece->edge_count;
}

static void go_along_step(struct round *r, const vec2 *at, const struct pattern_step *step)
{
    if (step->kind == PATTERN_STEP_CUBIC)
        for (int i = 0; i < 2; i++)
            go_to(r, at, step->control[i]);
    for (size_t i = 0; i < step->through_count; i++)
        go_to(r, at, step->through[i]);
    go_to(r, at, step->end);
}

static struct round walk_round(struct arena *a, const struct pattern_piece *piece, const vec2 *at)
{
    size_t most = most_points(piece);
    struct round r = { base_arena_alloc(a, most, sizeof *r.points), base_arena_alloc(a, most, sizeof *r.along), 0, 0 };
    for (size_t e = 0; e < piece->edge_count; e++) {
        go_to(&r, at, piece->edges[e].start);
        for (size_t s = 0; s < piece->edges[e].step_count; s++)
            go_along_step(&r, at, &piece->edges[e].steps[s]);
    }
    r.count -= r.count > 1; /* the first point again */
    return r;
}

/* From a point to the next one, around the outline's end. */
static double way_to_next(const struct round *r, size_t i)
{
    return i + 1 < r->count ? r->along[i + 1] - r->along[i] : r->length - r->along[i];
}

/* The level of the nearest point that has one, ahead or back; *way is the distance to it. */
static int nearest_level(const struct round *r, const int *levels, size_t from, bool ahead, double *way)
{
    size_t i = from;
    *way = 0;
    for (size_t k = 0; k < r->count; k++) {
        if (levels[r->points[i]] != PATTERN_NONE)
            return levels[r->points[i]];
        size_t next = ahead ? (i + 1) % r->count : (i + r->count - 1) % r->count;
        *way += way_to_next(r, ahead ? i : next);
        i = next;
    }
    return PATTERN_NONE;
}

static double position_at(const struct round *r, const struct draft_figure *figure, const int *levels, size_t index)
{
    double back, ahead;
    int before = nearest_level(r, levels, index, false, &back), after = nearest_level(r, levels, index, true, &ahead);
    if (before == PATTERN_NONE)
        return figure->position;
    double from = figure->level_position[before], to = figure->level_position[after];
    return back + ahead > 0 ? from + (to - from) * (back / (back + ahead)) : from;
}

/* The place of the outline that is nearest to a point within it, and the position there. */
static double position_within(const struct round *r, const vec2 *at, const double *on_outline, int point)
{
    double least = INFINITY, position = on_outline[r->points[0]];
    for (size_t i = 0; i < r->count; i++) {
        int first = r->points[i], second = r->points[(i + 1) % r->count];
        vec2 from = at[first], run = vec2_sub(at[second], from);
        double length = vec2_length(run), on = vec2_dot(vec2_unit(run), vec2_sub(at[point], from));
        double share = length > 0 ? fmin(1, fmax(0, on / length)) : 0;
        double off = vec2_length(vec2_sub(at[point], vec2_add(from, vec2_scale(run, share))));
        if (off >= least)
            continue;
        least = off;
        position = on_outline[first] + share * (on_outline[second] - on_outline[first]);
    }
    return position;
}

const double *draft_blend_positions(struct arena *a, const struct pattern_piece *piece,
                                    const struct draft_figure *figure, const vec2 *at)
{
    if (!piece->levels || !figure->level_position)
        return NULL;
    double *position = base_arena_alloc(a, piece->point_count, sizeof *position);
    bool *done = base_arena_alloc(a, piece->point_count, sizeof *done);
    struct round r = walk_round(a, piece, at);
    for (size_t i = 0; i < r.count; i++) {
        position[r.points[i]] = position_at(&r, figure, piece->levels, i);
        done[r.points[i]] = true;
    }
    for (int p = 0; p < (int)piece->point_count; p++) {
        if (piece->levels[p] != PATTERN_NONE)
            position[p] = figure->level_position[piece->levels[p]];
        else if (!done[p])
            position[p] = position_within(&r, at, position, p);
    }
    return position;
}
