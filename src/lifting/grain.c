#include "lifting/arrows.h"
#include "lifting/finding.h"

/* Common practice of pattern sheets, no source. */
#define LEAST_MM 6
#define NEAR_SIZES 4
#define NEAR_MM 6
#define ALONG 0.985       /* cosine of 10 degrees */
#define OFF_EDGE_MM 1.0   /* a line on the outline is no grain line */
#define MIDDLE_SHARE 0.15 /* of the piece: a line without head or words that may be one is near its middle */
#define LONG_SHARE 0.25
#define SLIM 0.25 /* width to length of an arrow drawn as an outline */
#define OUTLINED_LEAST 7

/* A straight part of a line that may be the grain. */
struct shaft {
    size_t stroke;
    vec2 a, b;
    bool said, of_fold, head_a, head_b;
};

struct shafts {
    struct shaft *items;
    size_t count;
};

/* The longest straight part. */
static void longest_part(const struct lifting_stroke *s, vec2 *a, vec2 *b)
{
    double longest = -1;
    for (size_t k = 0; k + 1 < s->corner_count; k++) {
        double length = vec2_length(vec2_sub(s->corners[k + 1], s->corners[k]));
        if (length > longest) {
            longest = length;
            *a = s->corners[k];
            *b = s->corners[k + 1];
        }
    }
}

/* An arrow drawn as a slim outline: its middle line. */
static bool outlined_arrow(const struct lifting_stroke *s, vec2 *a, vec2 *b)
{
    if (!s->path.closed || s->corner_count < OUTLINED_LEAST)
        return false;
    vec2 from = s->corners[0], to = from; /* there are corners, which gcc does not see */
    longest_part(s, &from, &to);
    vec2 way = vec2_unit(vec2_sub(to, from));
    double low = 0, high = 0, left = 0, right = 0;
    for (size_t k = 0; k < s->corner_count; k++) {
        vec2 step = vec2_sub(s->corners[k], from);
        low = fmin(low, vec2_dot(step, way));
        high = fmax(high, vec2_dot(step, way));
        left = fmax(left, vec2_cross(way, step));
        right = fmin(right, vec2_cross(way, step));
    }
    vec2 side = vec2_scale(vec2_right(way), -(left + right) / 2);
    *a = vec2_add(from, vec2_add(side, vec2_scale(way, low)));
    *b = vec2_add(from, vec2_add(side, vec2_scale(way, high)));
    return left - right <= SLIM * (high - low);
}

static bool is_on_edge(const struct lifting_finding *m, const struct lifting_stroke *s, vec2 a, vec2 b)
{
    struct lifting_place place;
    int size = lifting_outline_for(m, s->size);
    return size != LIFTING_NONE && lifting_near_find(m->near[size], vec2_lerp(a, b, 0.5), OFF_EDGE_MM, &place) &&
           fabs(vec2_dot(place.way, vec2_unit(vec2_sub(b, a)))) > ALONG;
}

static void gather(struct lifting_finding *m, const struct lifting_heads *heads, struct shafts *shafts)
{
    shafts->items = base_arena_alloc(m->a, m->stroke_count, sizeof *shafts->items);
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_stroke *s = &m->strokes[i];
        struct shaft shaft = { .stroke = i };
        if (s->taken || s->corner_count < 2)
            continue;
        bool outlined = outlined_arrow(s, &shaft.a, &shaft.b);
        if (!outlined && s->path.closed)
            continue;
        if (!outlined)
            longest_part(s, &shaft.a, &shaft.b);
        double length = vec2_length(vec2_sub(shaft.b, shaft.a));
        if (length < LEAST_MM || length < s->length_mm * (outlined ? 0.4 : 0.5) || is_on_edge(m, s, shaft.a, shaft.b))
            continue;
        shaft.head_a = outlined || lifting_head_at(m, heads, s, shaft.b, shaft.a, false);
        shaft.head_b = outlined || lifting_head_at(m, heads, s, shaft.a, shaft.b, false);
        shafts->items[shafts->count++] = shaft;
    }
}

/* The line that words for the grain or the fold stand at: the nearest, rather one that they run along. */
static void take_words(const struct lifting_finding *m, struct shafts *shafts)
{
    for (size_t i = 0; i < m->saying_count; i++) {
        const struct lifting_saying *w = &m->sayings[i];
        double least = NEAR_MM + NEAR_SIZES * w->size_mm;
        struct shaft *best = NULL;
        for (size_t k = 0; k < shafts->count && w->said != LIFTING_SAID_LENGTHEN; k++) {
            struct shaft *s = &shafts->items[k];
            bool along = fabs(vec2_dot(vec2_unit(vec2_sub(s->b, s->a)), w->along)) >= ALONG;
            bool bare = !s->head_a && !s->head_b;
            if (w->said == LIFTING_SAID_FOLD && (!along || w->counts))
                continue;
            double away =
                lifting_off_line(w->middle, s->a, s->b) + (along ? 0 : w->size_mm) + (bare ? 2 * w->size_mm : 0);
            if (away < least) {
                least = away;
                best = s;
            }
        }
        if (best && w->said == LIFTING_SAID_FOLD)
            best->of_fold = best->head_a || best->head_b;
        else if (best)
            best->said = true;
    }
}

static double worth_of(const struct shaft *s)
{
    return (s->said ? 3 : 0) + (s->head_a ? 2 : 0) + (s->head_b ? 2 : 0) + vec2_length(vec2_sub(s->b, s->a)) / 400;
}

static const struct shaft *best_of(const struct shafts *shafts)
{
    const struct shaft *best = NULL;
    for (size_t i = 0; i < shafts->count; i++) {
        const struct shaft *s = &shafts->items[i];
        if ((s->said || s->head_a || s->head_b) && (s->said || !s->of_fold) && (!best || worth_of(s) > worth_of(best)))
            best = s;
    }
    return best;
}

/* Without heads or words: a long straight line near the middle. */
static const struct shaft *likely_of(const struct lifting_finding *m, const struct shafts *shafts)
{
    int size = lifting_outline_for(m, LIFTING_NONE);
    if (size == LIFTING_NONE)
        return NULL;
    struct geometry_box box = geometry_path_box(m->shape->outlines[size].path.path);
    vec2 middle = vec2_lerp(box.min, box.max, 0.5);
    double reach = vec2_length(vec2_sub(box.max, box.min)), longest = LONG_SHARE * reach;
    const struct shaft *best = NULL;
    for (size_t i = 0; i < shafts->count; i++) {
        const struct shaft *s = &shafts->items[i];
        double length = vec2_length(vec2_sub(s->b, s->a));
        vec2 off = vec2_sub(vec2_lerp(s->a, s->b, 0.5), middle);
        if (lifting_is_straight(&m->strokes[s->stroke]) && !s->of_fold && length > longest &&
            vec2_length(off) <= MIDDLE_SHARE * reach) {
            longest = length;
            best = s;
        }
    }
    return best;
}

/* Towards its only head; else upwards, and to the right when it lies level. */
static vec2 direction_of(const struct shaft *s)
{
    vec2 way = vec2_unit(vec2_sub(s->b, s->a));
    bool back = s->head_a != s->head_b ? s->head_a : way.y < -1e-9 || (fabs(way.y) <= 1e-9 && way.x < 0);
    return back ? vec2_scale(way, -1) : way;
}

/* The same arrow in the layers of other sizes. */
static bool is_like(const struct shaft *s, const struct shaft *best)
{
    vec2 u = vec2_unit(vec2_sub(s->b, s->a)), v = vec2_unit(vec2_sub(best->b, best->a));
    return s->head_a == best->head_a && s->head_b == best->head_b && fabs(vec2_dot(u, v)) >= ALONG &&
           (s->head_a || s->head_b || s->said);
}

static void take(struct lifting_finding *m, const struct lifting_heads *heads, const struct shaft *s)
{
    struct lifting_stroke *stroke = &m->strokes[s->stroke];
    stroke->taken = true;
    lifting_head_at(m, heads, stroke, s->b, s->a, true);
    lifting_head_at(m, heads, stroke, s->a, s->b, true);
}

void lifting_find_grain(struct lifting_finding *m)
{
    struct lifting_heads heads = lifting_gather_heads(m);
    struct shafts shafts = { NULL, 0 };
    gather(m, &heads, &shafts);
    take_words(m, &shafts);
    const struct shaft *best = best_of(&shafts);
    m->grain_sure = best != NULL;
    best = best ? best : likely_of(m, &shafts);
    for (size_t i = 0; i < shafts.count; i++)
        if (shafts.items[i].of_fold && &shafts.items[i] != best)
            take(m, &heads, &shafts.items[i]);
    if (!best)
        return;
    int size = m->strokes[best->stroke].size;
    m->grain = direction_of(best);
    bool back = vec2_dot(m->grain, vec2_sub(best->b, best->a)) < 0;
    lifting_put_mark(m, LIFTING_GRAIN, size, (const vec2[]){ back ? best->b : best->a, back ? best->a : best->b }, 2)
        ->sure = m->grain_sure;
    take(m, &heads, best);
    for (size_t i = 0; i < shafts.count && size != LIFTING_NONE; i++)
        if (m->strokes[shafts.items[i].stroke].size != size && is_like(&shafts.items[i], best))
            take(m, &heads, &shafts.items[i]);
}
