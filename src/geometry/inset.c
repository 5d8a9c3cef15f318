#include "geometry/inset.h"

#include "geometry/offset_work.h"

#include <assert.h>
#include <math.h>

/* Corners that turn by 20° and more may trim the curves that end there; the chords of a curve flattened to a hundredth
 * of a millimetre turn by less down to a radius of 0.7 mm. */
#define CORNER_COSINE 0.94

/* Where the moved sides end at a corner: one point, or two with a side between them. */
struct ends {
    vec2 before, after;
};

static vec2 moved(const struct offset_side *s, vec2 p)
{
    return vec2_sub(p, vec2_scale(s->out, s->dist));
}

static struct ends one_point(vec2 p)
{
    return (struct ends){ p, p };
}

/* ---- Corners that their two sides decide ---- */

static bool is_step(const struct offset_corner *c)
{
    return c->cosine > 0 && !c->meets_near && c->before->dist != c->after->dist;
}

/* A reflex corner so sharp that the sides would meet past the limit of a mitre, which lies within the piece. */
static bool is_cut_off(const struct offset_corner *c, struct ends *ends)
{
    double limit = GEOMETRY_MITRE_LIMIT * fmax(c->before->dist, c->after->dist);
    vec2 bisector = vec2_unit(vec2_sub(c->before->along, c->after->along));
    if (c->sine > 0 || c->cosine >= 0 || -vec2_dot(c->meet, bisector) <= limit)
        return false;
    double run = vec2_dot(c->before->along, bisector), rise = -vec2_dot(c->before->out, bisector);
    double past_before = (limit - c->before->dist * rise) / run, past_after = (limit - c->after->dist * rise) / run;
    ends->before = vec2_add(moved(c->before, c->before->b), vec2_scale(c->before->along, past_before));
    ends->after = vec2_sub(moved(c->after, c->after->a), vec2_scale(c->after->along, past_after));
    return true;
}

static struct ends ends_at(const struct offset_outline *o, size_t i)
{
    struct offset_corner c = offset_corner_at(o, i);
    struct ends ends;
    if (c.before->dist == 0 && c.after->dist == 0)
        return one_point(c.after->a);
    if (is_step(&c))
        return (struct ends){ moved(c.before, c.after->a), moved(c.after, c.after->a) };
    if (is_cut_off(&c, &ends))
        return ends;
    return one_point(vec2_sub(c.after->a, c.meet));
}

/* ---- Corners that trim curves ---- */

/* Where the moved lines of two sides meet; false when they run beside each other or away. */
static bool lines_meet(const struct offset_side *s, const struct offset_side *t, vec2 *at)
{
    vec2 from = moved(s, s->a), to = moved(t, t->b);
    double sine = vec2_cross(s->along, t->along);
    if (sine < 1e-9)
        return false;
    *at = vec2_add(from, vec2_scale(s->along, vec2_cross(vec2_sub(to, from), t->along) / sine));
    return true;
}

/* Lets the sides before and after a convex corner meet past those that lie wholly behind the other. */
static void trim(const struct offset_outline *o, const struct ends *plain, size_t corner, struct ends *ends)
{
    size_t i = offset_previous(o, corner), j = corner;
    for (size_t tried = 0; tried < o->count; tried++) {
        const struct offset_side *before = &o->sides[i], *after = &o->sides[j];
        vec2 at;
        if (!lines_meet(before, after, &at))
            return;
        if (vec2_dot(vec2_sub(at, plain[i].after), before->along) < 0)
            i = offset_previous(o, i);
        else if (vec2_dot(vec2_sub(plain[offset_next(o, j)].before, at), after->along) < 0)
            j = offset_next(o, j);
        else {
            for (size_t k = offset_next(o, i); k != j; k = offset_next(o, k))
                ends[k] = one_point(at);
            ends[j] = one_point(at);
            return;
        }
    }
}

static bool is_convex_corner(const struct offset_outline *o, size_t i)
{
    const struct offset_side *before = &o->sides[offset_previous(o, i)], *after = &o->sides[i];
    return vec2_dot(before->along, after->along) < CORNER_COSINE && vec2_cross(before->along, after->along) > 0;
}

/* ---- The ring ---- */

/* Whether every side still runs its own way or is gone. One that seems to run back by rounding is gone, too. */
static bool all_run_on(const struct offset_outline *o, struct ends *ends)
{
    for (size_t i = 0; i < o->count; i++) {
        struct ends *next = &ends[offset_next(o, i)];
        double run = vec2_dot(vec2_sub(next->before, ends[i].after), o->sides[i].along);
        if (!(run > -OFFSET_NEAR_MM))
            return false;
        bool is_one = ends[i].before.x == ends[i].after.x && ends[i].before.y == ends[i].after.y;
        if (run < 0 && is_one)
            ends[i] = one_point(next->before);
    }
    return true;
}

static void put(struct geometry_path *path, vec2 p)
{
    path->points[path->count++] = p;
}

/* The points side by side; those of sides of no length, and of input sides too short to count, several times. */
static struct geometry_path ring_of(struct arena *a, size_t in_count, const struct offset_outline *o,
                                    const struct ends *ends, size_t *starts)
{
    struct geometry_path ring = { base_arena_alloc(a, in_count + o->count, sizeof(vec2)), 0, true };
    size_t next = 0; /* of the sides that count */
    for (size_t i = 0; i < in_count; i++) {
        const struct ends *at = &ends[next < o->count ? next : 0];
        starts[i] = ring.count;
        put(&ring, at->after);
        if (next == o->count || o->from[next] != i)
            continue;
        next++;
        at = &ends[next < o->count ? next : 0];
        if (at->before.x != at->after.x || at->before.y != at->after.y)
            put(&ring, at->before);
    }
    return ring;
}

static bool is_sound(struct arena *work, struct geometry_path ring)
{
    vec2 where;
    struct geometry_path once = offset_cleaned(geometry_path_copy(work, ring));
    return once.count >= 3 && geometry_path_area(once) > 0 && !geometry_path_crosses_itself(once, &where);
}

static bool move_sides(struct arena *work, const struct offset_outline *o, struct ends *ends)
{
    struct ends *plain = base_arena_alloc(work, o->count, sizeof *plain);
    for (size_t i = 0; i < o->count; i++)
        plain[i] = ends[i] = ends_at(o, i);
    for (size_t i = 0; i < o->count; i++)
        if (is_convex_corner(o, i))
            trim(o, plain, i, ends);
    return all_run_on(o, ends);
}

bool geometry_inset(struct arena *a, struct geometry_path in, const double *dist_mm, struct geometry_path *out,
                    size_t *starts)
{
    vec2 crossing;
    *out = (struct geometry_path){ NULL, 0, true };
    if (in.count < 3 || geometry_path_area(in) == 0 || geometry_path_crosses_itself(in, &crossing))
        return false;
    assert(in.closed && geometry_path_area(in) > 0);
    struct arena *work = base_arena_create();
    struct offset_outline o = offset_sides(work, in, dist_mm, NULL);
    struct ends *ends = base_arena_alloc(work, o.count, sizeof *ends);
    if (o.count >= 3 && move_sides(work, &o, ends)) {
        struct geometry_path ring = ring_of(a, in.count, &o, ends, starts);
        if (is_sound(work, ring))
            *out = ring;
    }
    base_arena_destroy(work);
    return out->count > 0;
}
