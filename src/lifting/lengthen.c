#include "lifting/finding.h"

/* How far the words stand from their line; how alike and near to each other a pair of lines is. Common practice, no
 * source. */
#define NEAR_SIZES 4 /* heights of the letters */
#define NEAR_MM 6
#define ALONG 0.985 /* cosine of 10 degrees */
#define LEAST_MM 15
#define PAIR_MM 25
#define PAIR_ALIKE 0.25

static bool runs_along(const struct lifting_stroke *s, vec2 along)
{
    return !s->taken && lifting_is_straight(s) && s->length_mm >= LEAST_MM &&
           fabs(vec2_dot(vec2_unit(vec2_sub(s->corners[1], s->corners[0])), along)) >= ALONG;
}

static struct lifting_stroke *line_of(const struct lifting_finding *m, const struct lifting_saying *saying)
{
    struct lifting_stroke *best = NULL;
    double nearest = NEAR_MM + NEAR_SIZES * saying->size_mm;
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_stroke *s = &m->strokes[i];
        double away =
            runs_along(s, saying->along) ? lifting_off_line(saying->middle, s->corners[0], s->corners[1]) : nearest;
        if (away < nearest) {
            nearest = away;
            best = s;
        }
    }
    return best;
}

/* The other of two lines between which the paper is cut. */
static struct lifting_stroke *pair_of(const struct lifting_finding *m, const struct lifting_stroke *one)
{
    vec2 along = vec2_unit(vec2_sub(one->corners[1], one->corners[0])),
         middle = vec2_lerp(one->corners[0], one->corners[1], 0.5);
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_stroke *s = &m->strokes[i];
        if (s != one && s->size == one->size && runs_along(s, along) &&
            fabs(s->length_mm - one->length_mm) <= PAIR_ALIKE * one->length_mm &&
            lifting_off_line(middle, s->corners[0], s->corners[1]) <= PAIR_MM)
            return s;
    }
    return NULL;
}

/* The line halfway between two of any direction. */
static void middle_line(const struct lifting_stroke *a, const struct lifting_stroke *b, vec2 out[2])
{
    bool same = vec2_dot(vec2_sub(a->corners[1], a->corners[0]), vec2_sub(b->corners[1], b->corners[0])) > 0;
    out[0] = vec2_lerp(a->corners[0], b->corners[same ? 0 : 1], 0.5);
    out[1] = vec2_lerp(a->corners[1], b->corners[same ? 1 : 0], 0.5);
}

void lifting_find_lengthen(struct lifting_finding *m)
{
    for (size_t i = 0; i < m->saying_count; i++) {
        struct lifting_stroke *one = m->sayings[i].said == LIFTING_SAID_LENGTHEN ? line_of(m, &m->sayings[i]) : NULL;
        if (!one)
            continue;
        struct lifting_stroke *other = pair_of(m, one);
        vec2 line[2];
        middle_line(one, other ? other : one, line);
        one->taken = true;
        if (other)
            other->taken = true;
        lifting_put_mark(m, LIFTING_LENGTHEN, one->size, line, 2);
    }
}
