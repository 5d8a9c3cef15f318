#include "geometry/offset_work.h"

#include <math.h>

/* Tips are found in two rounds. In the first every corner whose two sides decide it alone gets its own; those at which
 * a longer run of cut line is trimmed follow in the second, when the ends of the sides of that run are known. */

/* A mirrored cut line that runs into the hem at less than this sine is too flat to end it. */
#define FLAT_SINE 0.05

/* ---- Corners that their two sides decide ---- */

/* Whether the square end of either strip at a reflex corner lies in the other strip, so that it does not show beside
 * the mitre. Between equal allowances it may lie in the next one's as well: what is nearer to any of their sides than
 * that allowance is inside. */
static bool square_ends_are_covered(const struct offset_outline *o, size_t i, const struct offset_corner *c)
{
    const struct offset_side *before = c->before, *after = c->after;
    if (c->cosine > 0 && before->dist * -c->sine <= after->length && after->dist * -c->sine <= before->length)
        return true;
    double dist = before->dist;
    return after->dist == dist && o->sides[offset_next(o, i)].dist == dist &&
           o->sides[offset_previous(o, offset_previous(o, i))].dist == dist;
}

/* Whether a reflex corner is a mitre, and no step. */
static bool reflex_meets(const struct offset_outline *o, size_t i, const struct offset_corner *c)
{
    if (!c->meets_near || !square_ends_are_covered(o, i, c))
        return false;
    if (c->past_before > 0)
        return -c->past_after <= c->after->length - OFFSET_OVERLAP_MM;
    if (c->past_after > 0)
        return -c->past_before <= c->before->length - OFFSET_OVERLAP_MM;
    return true;
}

/* A step in or nearly in line: along the wider side's square end to where the narrower side's grown line meets it. */
static bool step_of(const struct offset_corner *c, struct offset_tip *tip)
{
    bool before_is_wide = c->before->dist > c->after->dist;
    const struct offset_side *wide = before_is_wide ? c->before : c->after;
    double narrow = before_is_wide ? c->after->dist : c->before->dist;
    if (!(c->cosine > 0 && narrow <= wide->dist * c->cosine))
        return false;
    vec2 far_end = vec2_add(c->after->a, vec2_scale(wide->out, wide->dist));
    vec2 near_end = vec2_add(c->after->a, vec2_scale(wide->out, narrow / c->cosine));
    tip->from = before_is_wide ? far_end : near_end;
    tip->to = before_is_wide ? near_end : far_end;
    return true;
}

static void meet_at(struct offset_tip *tip, vec2 p)
{
    tip->from = tip->to = p;
    tip->is_clear = true;
}

/* In a curve, the most of all corners by far, with little arithmetic: equal allowances and an obtuse angle, where the
 * bisector's meeting is half the sum of the outs over the cosine, squared, of half the turn. */
static bool is_in_a_curve(const struct offset_outline *o, size_t i, struct offset_tip *tip)
{
    const struct offset_side *before = &o->sides[tip->before], *after = &o->sides[i];
    double cosine = vec2_dot(before->along, after->along), sine = vec2_cross(before->along, after->along);
    double dist = before->dist;
    if (dist != after->dist || cosine <= 0.5 || o->corners[i].kind != GEOMETRY_CORNER_MITRE)
        return false;
    if (sine < 0 && (dist * -sine > after->length || dist * -sine > before->length))
        return false;
    meet_at(tip, vec2_add(after->a, vec2_scale(vec2_add(before->out, after->out), dist / (1 + cosine))));
    return true;
}

/* A step at a reflex corner: the narrower side is long enough to come out of the wider one's strip, and its own square
 * end lies in that. */
static bool reflex_step(const struct offset_corner *c, struct offset_tip *tip)
{
    bool before_is_wide = c->before->dist > c->after->dist;
    const struct offset_side *wide = before_is_wide ? c->before : c->after;
    const struct offset_side *narrow = before_is_wide ? c->after : c->before;
    bool fits = narrow->dist * -c->sine <= fmin(wide->length, narrow->length * c->cosine);
    return (c->past_before > 0 || c->past_after > 0) && fits && step_of(c, tip);
}

static void tip_of_reflex(const struct offset_outline *o, size_t i, const struct offset_corner *c,
                          struct offset_tip *tip)
{
    if (reflex_meets(o, i, c))
        meet_at(tip, vec2_add(c->after->a, c->meet));
    else
        tip->is_clear = reflex_step(c, tip);
}

static void tip_of_mitre(const struct offset_outline *o, size_t i, const struct offset_corner *c,
                         struct offset_tip *tip)
{
    if (c->before->dist == 0 && c->after->dist == 0)
        meet_at(tip, c->after->a);
    else if (c->sine < 0 && !c->is_straight)
        tip_of_reflex(o, i, c, tip);
    else if (offset_cuts_off(c, &tip->from, &tip->to))
        tip->is_clear = true;
    else if (offset_meets_in_reach(c))
        meet_at(tip, vec2_add(c->after->a, c->meet));
    else
        tip->is_clear = !offset_trims_run(c) && step_of(c, tip);
}

/* ---- Runs ---- */

struct run_end {
    bool found, is_clear;
    size_t side;
    vec2 at;
};

/* Where a side's grown line ends at its far corner: at that corner's tip or, as long as that is not one point, square.
 */
static vec2 far_end_of(const struct offset_outline *o, size_t side, bool backwards)
{
    const struct offset_side *s = &o->sides[side];
    const struct offset_tip *tip = &o->tips[backwards ? side : offset_next(o, side)];
    bool one_point = tip->is_clear && !tip->shape && tip->from.x == tip->to.x && tip->from.y == tip->to.y;
    return one_point ? tip->from : vec2_add(backwards ? s->a : s->b, vec2_scale(s->out, s->dist));
}

/* The point of a side's grown line on l, given its far end below l, if the line leads there. */
static bool crosses(const struct offset_side *s, bool backwards, vec2 far, struct offset_line l, vec2 *at)
{
    vec2 away = vec2_scale(s->along, backwards ? -1 : 1);
    double fall = -vec2_dot(away, l.normal), below = -offset_above(l, far);
    if (fall <= 0 || below < 0)
        return false;
    *at = vec2_sub(far, vec2_scale(away, below / fall));
    return true;
}

/* Whether the bevel at a side's far corner, if one is there, lies below l. */
static bool bevel_is_below(const struct offset_outline *o, size_t side, bool backwards, struct offset_line l)
{
    const struct offset_tip *tip = &o->tips[backwards ? side : offset_next(o, side)];
    return !tip->is_clear || (offset_above(l, tip->from) <= 0 && offset_above(l, tip->to) <= 0);
}

/* Follows the cut line of equally wide sides from a corner until it has come below l, as far as the limit of a mitre or
 * the next corner with a rule of its own. A side that itself passes the line ends the run: there the outline has come
 * round to somewhere else. */
static struct run_end run_meets(const struct offset_outline *o, size_t corner, bool backwards, struct offset_line l)
{
    struct run_end end = { .is_clear = true };
    size_t first = backwards ? offset_previous(o, corner) : corner;
    double dist = o->sides[first].dist, left = GEOMETRY_MITRE_LIMIT * dist;
    bool more = true;
    for (size_t i = first; more; i = backwards ? offset_previous(o, i) : offset_next(o, i)) {
        const struct offset_side *s = &o->sides[i];
        vec2 far = far_end_of(o, i, backwards);
        if (s->dist != dist || fmax(offset_above(l, s->a), offset_above(l, s->b)) > OFFSET_STRAIGHT_MM)
            break;
        if (end.found)
            end.is_clear = end.is_clear && offset_above(l, far) <= 0 && bevel_is_below(o, i, backwards, l);
        else if (crosses(s, backwards, far, l, &end.at)) {
            end.found = true;
            end.is_clear = bevel_is_below(o, i, backwards, l);
            end.side = i;
        }
        left -= s->length;
        more = left > 0 && !offset_run_ends(o, i, backwards);
    }
    return end;
}

static void trim(const struct offset_outline *o, size_t i, const struct offset_corner *c, struct offset_tip *tip)
{
    bool before_is_wide = c->before->dist > c->after->dist;
    struct run_end end = run_meets(o, i, before_is_wide, offset_trimming_line(c));
    tip->is_clear = end.found && end.is_clear;
    tip->from = tip->to = end.at;
    if (end.found)
        *(before_is_wide ? &tip->before : &tip->after) = end.side;
}

/* ---- Shapes ---- */

/* A corner as its hem sees it. */
struct hem {
    size_t corner;
    bool is_before, folds_back;
    const struct offset_side *side;
    vec2 at, past;                  /* the corner, and the direction past it along the hem's stitching line */
    double most;                    /* how far from the corner anything may lie */
    vec2 points[OFFSET_SHAPE_MOST]; /* from Q to the hem's cut line */
    int count;
};

static bool hem_at(const struct offset_outline *o, size_t i, struct hem *hem)
{
    enum geometry_corner_kind kind = o->corners[i].kind;
    bool before = kind == GEOMETRY_CORNER_SQUARE_BEFORE || kind == GEOMETRY_CORNER_FOLD_BACK_BEFORE;
    bool after = kind == GEOMETRY_CORNER_SQUARE_AFTER || kind == GEOMETRY_CORNER_FOLD_BACK_AFTER;
    const struct offset_side *b = &o->sides[offset_previous(o, i)], *a = &o->sides[i];
    if ((!before && !after) || (before ? b : a)->dist == 0 || vec2_cross(b->along, a->along) < FLAT_SINE)
        return false;
    *hem = (struct hem){ .corner = i, .is_before = before, .side = before ? b : a, .at = a->a };
    hem->folds_back = kind == GEOMETRY_CORNER_FOLD_BACK_BEFORE || kind == GEOMETRY_CORNER_FOLD_BACK_AFTER;
    hem->past = vec2_scale(hem->side->along, before ? 1 : -1);
    hem->most = GEOMETRY_MITRE_LIMIT * fmax(a->dist, b->dist);
    return true;
}

static double depth_of(const struct hem *hem, vec2 p)
{
    return vec2_dot(vec2_sub(p, hem->at), hem->side->out);
}

static vec2 mirrored(const struct hem *hem, vec2 p)
{
    return vec2_sub(p, vec2_scale(hem->side->out, 2 * depth_of(hem, p)));
}

/* Leads the last stretch on, or shortens it, to the depth of the hem; false when it runs too flat. */
static bool end_at_depth(struct hem *hem, vec2 from, vec2 direction)
{
    double rise = vec2_dot(direction, hem->side->out), left = hem->side->dist - depth_of(hem, from);
    if (rise < FLAT_SINE)
        return false;
    hem->points[hem->count++] = vec2_add(from, vec2_scale(direction, left / rise));
    return true;
}

/* The mirror image of the other side's cut line from Q on, to the depth of the hem. Where that cut line ends earlier,
 * its last stretch is led on. */
static bool fold_back(const struct offset_outline *o, struct hem *hem, size_t side)
{
    bool backwards = !hem->is_before;
    double dist = o->sides[side].dist;
    for (;; side = backwards ? offset_previous(o, side) : offset_next(o, side)) {
        const struct offset_side *s = &o->sides[side];
        const struct offset_side *next = &o->sides[backwards ? offset_previous(o, side) : offset_next(o, side)];
        vec2 away = vec2_scale(s->along, backwards ? -1 : 1), from = hem->points[hem->count - 1];
        vec2 direction = vec2_sub(away, vec2_scale(hem->side->out, 2 * vec2_dot(away, hem->side->out)));
        vec2 end = mirrored(hem, far_end_of(o, side, backwards));
        bool last = depth_of(hem, end) >= hem->side->dist || next->dist != dist ||
                    vec2_dot(next->along, s->along) < 0.5 || hem->count + 3 > OFFSET_SHAPE_MOST;
        if (last)
            return end_at_depth(hem, from, direction);
        if (vec2_dot(vec2_sub(end, from), direction) > OFFSET_NEAR_MM)
            hem->points[hem->count++] = end;
    }
}

static bool is_within_reach(const struct hem *hem)
{
    double q = vec2_length(vec2_sub(hem->points[0], hem->at));
    double end = vec2_length(vec2_sub(hem->points[hem->count - 1], hem->at));
    return q <= hem->most && end <= hem->most;
}

static struct offset_line last_stretch(const struct hem *hem)
{
    vec2 a = hem->points[hem->count - 2], b = hem->points[hem->count - 1];
    vec2 normal = vec2_right(vec2_unit(vec2_sub(b, a)));
    return (struct offset_line){ a, vec2_scale(normal, vec2_dot(normal, hem->past) < 0 ? -1 : 1) };
}

static const struct offset_shape *shape_of(struct arena *a, const struct hem *hem, struct offset_line stitch)
{
    struct offset_shape *shape = base_arena_alloc(a, 1, sizeof *shape);
    *shape = (struct offset_shape){ .hem_before = hem->is_before, .stitch = stitch, .count = hem->count };
    for (int i = 0; i < hem->count; i++)
        shape->points[i] = hem->points[hem->is_before ? hem->count - 1 - i : i];
    return shape;
}

/* The tip of a corner with a hem; false when it is to be mitred. */
static bool shape_tip(struct arena *a, const struct offset_outline *o, struct hem *hem, struct offset_tip *tip)
{
    struct offset_line stitch = { hem->at, hem->side->out };
    struct run_end q = run_meets(o, hem->corner, !hem->is_before, stitch);
    if (!q.found)
        return false;
    bool at_corner = vec2_length(vec2_sub(q.at, hem->at)) < OFFSET_NEAR_MM;
    hem->points[hem->count++] = at_corner ? hem->at : q.at;
    if (!(hem->folds_back ? fold_back(o, hem, q.side) : end_at_depth(hem, q.at, hem->side->out)))
        return false;
    struct run_end end = { true, true, hem->is_before ? tip->before : tip->after, hem->points[hem->count - 1] };
    if (vec2_dot(vec2_sub(end.at, hem->at), hem->past) < 0)
        end = run_meets(o, hem->corner, hem->is_before, last_stretch(hem));
    hem->points[hem->count - 1] = end.at;
    if (!end.found || !is_within_reach(hem))
        return false;
    tip->shape = shape_of(a, hem, stitch);
    tip->from = tip->shape->points[0];
    tip->to = tip->shape->points[hem->count - 1];
    tip->before = hem->is_before ? end.side : q.side;
    tip->after = hem->is_before ? q.side : end.side;
    tip->is_clear = q.is_clear && end.is_clear;
    return true;
}

/* ---- Square ends that show ---- */

/* Whether the strips of a reflex mitre, which the union ends square, reach past what the far corner of the neighbour
 * has left of its strip. Within a run both lose the same. */
static bool square_end_shows(const struct offset_outline *o, size_t i)
{
    const struct offset_tip *tip = &o->tips[i], *previous = &o->tips[offset_previous(o, i)];
    const struct offset_tip *next = &o->tips[offset_next(o, i)];
    const struct offset_side *before = &o->sides[offset_previous(o, i)], *after = &o->sides[i];
    bool within_run = before->dist == after->dist && o->corners[i].kind == GEOMETRY_CORNER_MITRE;
    if (within_run || vec2_cross(before->along, after->along) >= 0)
        return false;
    vec2 end = vec2_add(before->b, vec2_scale(before->out, before->dist));
    vec2 start = vec2_add(after->a, vec2_scale(after->out, after->dist));
    bool end_shows = vec2_dot(vec2_sub(tip->from, end), before->along) < 0 &&
                     vec2_cross(vec2_sub(next->from, after->b), vec2_sub(end, after->b)) > 0;
    bool start_shows = vec2_dot(vec2_sub(tip->to, start), after->along) > 0 &&
                       vec2_cross(vec2_sub(previous->to, before->a), vec2_sub(start, before->a)) < 0;
    return end_shows || start_shows;
}

/* Whether the edge between the strips on either side of a corner has a square end beyond it that belongs to a reflex
 * corner within the run before or after: what is left of the strips there does not cover it. */
static bool run_shows(const struct offset_outline *o, size_t corner, bool backwards)
{
    const struct offset_tip *tip = &o->tips[corner];
    size_t i = backwards ? offset_previous(o, corner) : corner; /* a side */
    vec2 at = o->sides[corner].a, edge = vec2_sub(backwards ? tip->from : tip->to, at);
    double dist = o->sides[i].dist, left = dist;
    for (left -= o->sides[i].length; left > 0; left -= o->sides[i].length) {
        size_t next = backwards ? offset_previous(o, i) : offset_next(o, i);
        const struct offset_side *near = &o->sides[i], *far = &o->sides[next];
        vec2 end = vec2_add(backwards ? near->a : near->b, vec2_scale(far->out, dist));
        double turn = vec2_cross(far->along, near->along) * (backwards ? 1 : -1);
        double beyond = vec2_cross(edge, vec2_sub(end, at)) * (backwards ? 1 : -1);
        if (far->dist != dist)
            return false;
        if (turn < 0 && beyond > 0)
            return true;
        i = next;
    }
    return false;
}

static bool is_trimmed(const struct offset_outline *o, size_t i)
{
    return o->tips[i].before != offset_previous(o, i) || o->tips[i].after != i;
}

void offset_find_tips(struct arena *a, struct offset_outline *o)
{
    o->tips = base_arena_alloc(a, o->count, sizeof *o->tips);
    bool *alone = base_arena_alloc(a, o->count, sizeof *alone); /* not in a curve */
    for (size_t i = 0; i < o->count; i++) {
        struct offset_tip *tip = &o->tips[i];
        tip->before = offset_previous(o, i);
        tip->after = i;
        if (is_in_a_curve(o, i, tip))
            continue;
        struct offset_corner c = offset_corner_at(o, i);
        tip_of_mitre(o, i, &c, tip);
        alone[i] = true;
    }
    for (size_t i = 0; i < o->count; i++) {
        struct hem hem;
        if (!alone[i] || (hem_at(o, i, &hem) && shape_tip(a, o, &hem, &o->tips[i])))
            continue;
        struct offset_corner c = offset_corner_at(o, i);
        if (!o->tips[i].is_clear && offset_trims_run(&c) && !(c.before->dist == 0 && c.after->dist == 0))
            trim(o, i, &c, &o->tips[i]);
    }
    for (size_t i = 0; i < o->count; i++)
        if (alone[i] && !is_trimmed(o, i) &&
            (square_end_shows(o, i) || run_shows(o, i, true) || run_shows(o, i, false)))
            o->tips[i].is_clear = false;
}
