#include "lifting/finding.h"

/* Darts: common practice of pattern sheets, no source. */
#define LEG_LEAST_MM 12
#define TOUCH_MM 1.0
#define APEX_MM 0.8
#define INSIDE_MM 4 /* of the apex */
#define LEGS_ALIKE 1.6
#define SHARP 0.34 /* cosine of 70 degrees */

static bool touches(const struct lifting_finding *m, int size, vec2 at, double reach)
{
    struct lifting_place place;
    if (size != LIFTING_NONE)
        return m->near[size] && lifting_near_find(m->near[size], at, reach, &place);
    for (size_t k = 0; k < m->division->size_count; k++)
        if (m->near[k] && lifting_near_find(m->near[k], at, reach, &place))
            return true;
    return false;
}

static bool is_dart(const struct lifting_finding *m, int size, vec2 a, vec2 apex, vec2 b)
{
    vec2 u = vec2_sub(a, apex), v = vec2_sub(b, apex);
    double lu = vec2_length(u), lv = vec2_length(v);
    return fmin(lu, lv) >= LEG_LEAST_MM && fmax(lu, lv) <= LEGS_ALIKE * fmin(lu, lv) &&
           vec2_dot(u, v) >= SHARP * lu * lv && vec2_length(vec2_sub(a, b)) > APEX_MM &&
           touches(m, size, a, TOUCH_MM) && touches(m, size, b, TOUCH_MM) && !touches(m, size, apex, INSIDE_MM);
}

/* The corner of an open line at which it turns back. */
static size_t sharpest(const struct lifting_stroke *s)
{
    size_t best = 0;
    double most = SHARP;
    for (size_t k = 1; k + 1 < s->corner_count; k++) {
        double turn = vec2_dot(vec2_unit(vec2_sub(s->corners[k - 1], s->corners[k])),
                               vec2_unit(vec2_sub(s->corners[k + 1], s->corners[k])));
        if (turn >= most) {
            most = turn;
            best = k;
        }
    }
    return best;
}

/* Lines from the apex to the mouth between the legs. */
static void take_middle(struct lifting_finding *m, const struct lifting_spots *ends, int size, vec2 a, vec2 apex,
                        vec2 b)
{
    const struct lifting_spot *spot;
    for (size_t cursor = 0; (spot = lifting_next_spot(ends, apex, APEX_MM, &cursor));) {
        struct lifting_stroke *s = &m->strokes[spot->of];
        bool starts = vec2_length(vec2_sub(s->corners[0], apex)) <= APEX_MM;
        vec2 way = vec2_sub(starts ? s->corners[1] : s->corners[0], apex);
        double left = vec2_cross(vec2_sub(a, apex), way), right = vec2_cross(vec2_sub(b, apex), way);
        if (!s->taken && (s->size == size || s->size == LIFTING_NONE) && left * right < 0)
            s->taken = true;
    }
}

static void put_dart(struct lifting_finding *m, const struct lifting_spots *ends, int size, vec2 a, vec2 apex, vec2 b)
{
    lifting_put_mark(m, LIFTING_DART, size, (const vec2[]){ a, apex, b }, 3);
    take_middle(m, ends, size, a, apex, b);
}

static void find_folded(struct lifting_finding *m, const struct lifting_spots *ends)
{
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_stroke *s = &m->strokes[i];
        size_t tip = s->taken || s->path.closed || s->corner_count < 3 ? 0 : sharpest(s);
        vec2 a = s->corners[0], b = s->corners[s->corner_count ? s->corner_count - 1 : 0];
        if (!tip || !is_dart(m, s->size, a, s->corners[tip], b))
            continue;
        s->taken = true;
        put_dart(m, ends, s->size, a, s->corners[tip], b);
    }
}

/* The other end of a straight line. */
static vec2 other_end(const struct lifting_stroke *s, vec2 end)
{
    return vec2_length(vec2_sub(s->corners[0], end)) <= vec2_length(vec2_sub(s->corners[1], end)) ? s->corners[1]
                                                                                                  : s->corners[0];
}

/* The leg with which one makes the widest dart: between them there may be a middle line. */
static void find_two_legged(struct lifting_finding *m, const struct lifting_spots *ends)
{
    for (size_t i = 0; i < ends->count; i++) {
        struct lifting_stroke *s = &m->strokes[ends->items[i].of], *best = NULL;
        vec2 apex = ends->items[i].at, foot = other_end(s, apex);
        const struct lifting_spot *spot;
        double widest = 0;
        for (size_t cursor = 0; !s->taken && (spot = lifting_next_spot(ends, apex, APEX_MM, &cursor));) {
            struct lifting_stroke *t = &m->strokes[spot->of];
            double wide = vec2_length(vec2_sub(other_end(t, apex), foot));
            if (t != s && !t->taken && t->size == s->size && wide > widest &&
                is_dart(m, s->size, foot, apex, other_end(t, apex))) {
                widest = wide;
                best = t;
            }
        }
        if (!best)
            continue;
        s->taken = best->taken = true;
        put_dart(m, ends, s->size, foot, apex, other_end(best, apex));
    }
}

void lifting_find_darts(struct lifting_finding *m)
{
    struct lifting_spots ends = lifting_ends_of_straights(m);
    find_folded(m, &ends);
    find_two_legged(m, &ends);
}
