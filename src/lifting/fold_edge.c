#include "lifting/arrows.h"
#include "lifting/finding.h"
#include "lifting/straight.h"

/* Common practice of pattern sheets, no source. */
#define BAR_LEAST_MM 5
#define ARM_MOST_MM 45
#define ARM_LEAST_MM 1.5
#define ARMS_ALIKE 0.5
#define JOINT_MM 0.7
#define SQUARE 0.95   /* sine of the angle between bar and arm */
#define ALONG 0.985   /* cosine of 10 degrees */
#define TO_EDGE_MM 12 /* from the tips of a bracket */
#define HEAD_MM 4     /* from a tip to a corner of its head */
#define EDGE_LEAST_MM 8
#define WORDS_MM 15 /* from an edge, and so many heights of the letters more */
#define WORDS_SIZES 4
#define SAME_MM 0.1
#define SURE 1.0 /* so much worth is enough */

/* A bar with two arms that point to an edge. */
struct lifting_bracket {
    vec2 tips[2], bar[2];
    size_t strokes[3], count;
};

static vec2 way_of(vec2 a, vec2 b)
{
    return vec2_unit(vec2_sub(b, a));
}

static bool is_square(vec2 a, vec2 b, vec2 c)
{
    return fabs(vec2_cross(way_of(a, b), way_of(b, c))) >= SQUARE;
}

/* Tips beside an edge that runs along the bar, nearer to it than the bar. */
static bool points_to_edge(const struct lifting_finding *m, int of_size, const struct lifting_bracket *b)
{
    int size = lifting_outline_for(m, of_size);
    vec2 along = way_of(b->bar[0], b->bar[1]);
    struct lifting_place place;
    for (int k = 0; k < 2; k++) {
        if (size == LIFTING_NONE || !lifting_near_find(m->near[size], b->tips[k], TO_EDGE_MM, &place) ||
            fabs(vec2_dot(place.way, along)) < ALONG)
            return false;
        vec2 arm = vec2_sub(b->tips[k], b->bar[k]), on = vec2_sub(place.at, b->bar[k]);
        if (vec2_dot(arm, on) <= 0)
            return false;
    }
    return true;
}

static bool has_form(const struct lifting_bracket *b)
{
    double bar = vec2_length(vec2_sub(b->bar[1], b->bar[0]));
    double one = vec2_length(vec2_sub(b->tips[0], b->bar[0])), two = vec2_length(vec2_sub(b->tips[1], b->bar[1]));
    return bar >= BAR_LEAST_MM && one >= ARM_LEAST_MM && two >= ARM_LEAST_MM && fmax(one, two) <= ARM_MOST_MM &&
           fabs(one - two) <= ARMS_ALIKE * fmax(one, two) && is_square(b->tips[0], b->bar[0], b->bar[1]) &&
           is_square(b->bar[0], b->bar[1], b->tips[1]) &&
           vec2_dot(vec2_sub(b->tips[0], b->bar[0]), vec2_sub(b->tips[1], b->bar[1])) > 0;
}

/* Drawn in one line. */
static bool one_line(const struct lifting_stroke *s, size_t index, struct lifting_bracket *b)
{
    if (s->taken || s->path.closed || s->corner_count != 4)
        return false;
    *b = (struct lifting_bracket){ { s->corners[0], s->corners[3] }, { s->corners[1], s->corners[2] }, { index }, 1 };
    return has_form(b);
}

static bool find_arm(const struct lifting_finding *m, const struct lifting_spots *ends,
                     const struct lifting_stroke *bar, size_t end, struct lifting_bracket *b)
{
    const struct lifting_spot *spot;
    vec2 at = bar->corners[end];
    for (size_t cursor = 0; (spot = lifting_next_spot(ends, at, JOINT_MM, &cursor));) {
        const struct lifting_stroke *s = &m->strokes[spot->of];
        bool first = vec2_length(vec2_sub(s->corners[0], at)) <= JOINT_MM;
        vec2 tip = s->corners[first ? 1 : 0];
        if (s == bar || s->taken || s->length_mm > ARM_MOST_MM || !is_square(bar->corners[1 - end], at, tip))
            continue;
        b->tips[end] = tip;
        b->strokes[b->count++] = spot->of;
        return true;
    }
    return false;
}

/* Drawn in three. */
static bool three_lines(const struct lifting_finding *m, const struct lifting_spots *ends, size_t index,
                        struct lifting_bracket *b)
{
    const struct lifting_stroke *bar = &m->strokes[index];
    if (bar->taken || !lifting_is_straight(bar) || bar->length_mm < BAR_LEAST_MM)
        return false;
    *b = (struct lifting_bracket){ .bar = { bar->corners[0], bar->corners[1] }, .strokes = { index }, .count = 1 };
    return find_arm(m, ends, bar, 0, b) && find_arm(m, ends, bar, 1, b) && has_form(b);
}

static bool told_by_words(const struct lifting_finding *m)
{
    bool told = m->words->on_fold;
    for (size_t i = 0; i < m->saying_count; i++)
        told = told || m->sayings[i].said == LIFTING_SAID_FOLD;
    return told;
}

/* Small things at the tips. How many tips have some. */
static size_t heads_at_tips(struct lifting_finding *m, const struct lifting_heads *heads,
                            const struct lifting_bracket *b, bool take)
{
    size_t found = 0;
    for (int k = 0; k < 2; k++) {
        const struct lifting_spot *spot;
        bool any = false;
        for (size_t cursor = 0; (spot = lifting_next_spot(&heads->corners, b->tips[k], HEAD_MM, &cursor));) {
            struct lifting_stroke *s = &m->strokes[spot->of];
            bool part = spot->of == b->strokes[0] || spot->of == b->strokes[1] || spot->of == b->strokes[2];
            if (s->taken || part || s->corner_count > 4)
                continue;
            any = true;
            s->taken = take;
        }
        found += any;
    }
    return found;
}

/* Without a word of the fold only a bracket with heads is one: a pocket's place may look alike. */
void lifting_find_brackets(struct lifting_finding *m)
{
    struct lifting_heads heads = lifting_gather_heads(m);
    struct lifting_spots ends = lifting_ends_of_straights(m);
    bool told = told_by_words(m);
    size_t cap = 0;
    for (size_t i = 0; i < m->stroke_count; i++) {
        struct lifting_bracket b;
        if ((!one_line(&m->strokes[i], i, &b) && !three_lines(m, &ends, i, &b)) ||
            !points_to_edge(m, m->strokes[i].size, &b) || (!told && heads_at_tips(m, &heads, &b, false) < 2))
            continue;
        for (size_t k = 0; k < b.count; k++)
            m->strokes[b.strokes[k]].taken = true;
        heads_at_tips(m, &heads, &b, true);
        m->brackets = base_arena_grow(m->a, m->brackets, &cap, m->bracket_count + 1, sizeof *m->brackets);
        m->brackets[m->bracket_count++] = b;
    }
}

/* A straight edge of an outline, and how much speaks for it. */
struct edge {
    vec2 a, b;
    double length, worth;
};

static double told_by_bracket(const struct lifting_finding *m, const struct edge *e)
{
    for (size_t i = 0; i < m->bracket_count; i++) {
        const struct lifting_bracket *b = &m->brackets[i];
        if (fabs(vec2_dot(way_of(e->a, e->b), way_of(b->bar[0], b->bar[1]))) >= ALONG &&
            lifting_off_line(b->tips[0], e->a, e->b) <= TO_EDGE_MM &&
            lifting_off_line(b->tips[1], e->a, e->b) <= TO_EDGE_MM)
            return 4 * SURE;
    }
    return 0;
}

static double told_by_saying(const struct lifting_saying *w, const struct edge *e)
{
    double away = lifting_off_line(w->middle, e->a, e->b), most = WORDS_MM + WORDS_SIZES * w->size_mm;
    bool along = fabs(vec2_dot(way_of(e->a, e->b), w->along)) >= ALONG;
    if (w->said != LIFTING_SAID_FOLD || away > most)
        return 0;
    return (along && !w->counts ? 2 * SURE : SURE / 2) * (1 - away / (2 * most));
}

static double worth_of(const struct lifting_finding *m, const struct edge *e)
{
    double worth = told_by_bracket(m, e);
    for (size_t i = 0; i < m->saying_count; i++)
        worth = fmax(worth, told_by_saying(&m->sayings[i], e));
    return worth;
}

/* Without a sign: the longest edge, rather along the grain. */
static double fallback_of(const struct lifting_finding *m, const struct edge *e)
{
    bool along = fabs(vec2_dot(way_of(e->a, e->b), m->grain)) >= 0.9986; /* cosine of 3 degrees */
    return e->length * (along ? 1e-3 : 1e-6);
}

static bool best_edge(const struct lifting_finding *m, struct geometry_path p, struct edge *best)
{
    struct edge e = { .worth = 0 };
    bool found = false;
    for (size_t cursor = 0; lifting_next_edge(p, &cursor, &e.a, &e.b);) {
        e.length = vec2_length(vec2_sub(e.b, e.a));
        if (e.length < EDGE_LEAST_MM)
            continue;
        e.worth = worth_of(m, &e);
        double total = 1e6 * e.worth + fallback_of(m, &e);
        if (!found || total > 1e6 * best->worth + fallback_of(m, best)) {
            *best = e;
            found = true;
        }
    }
    return found;
}

static bool same_edge(const struct edge *a, const struct edge *b)
{
    return vec2_length(vec2_sub(a->a, b->a)) <= SAME_MM && vec2_length(vec2_sub(a->b, b->b)) <= SAME_MM;
}

static void put_edges(struct lifting_finding *m, const struct edge *edges, const bool *found, size_t count)
{
    size_t first = 0;
    bool same = true;
    while (first < count && !found[first])
        first++;
    for (size_t k = first; k < count; k++)
        same = same && (!m->near[k] || (found[k] && same_edge(&edges[first], &edges[k])));
    for (size_t k = first; k < count && (k == first || !same); k++) {
        if (!found[k])
            continue;
        bool sure = edges[k].worth >= SURE;
        lifting_put_mark(m, LIFTING_FOLD, same ? LIFTING_NONE : (int)k, (const vec2[]){ edges[k].a, edges[k].b }, 2)
            ->sure = sure;
        if (!sure)
            m->doubts |= LIFTING_DOUBT_FOLD;
    }
    if (first == count)
        m->doubts |= LIFTING_DOUBT_FOLD;
}

/* Cloth is folded along its grain. */
static void take_grain(struct lifting_finding *m, const struct edge *e)
{
    vec2 way = way_of(e->a, e->b);
    m->grain = way.y < -1e-9 || (fabs(way.y) <= 1e-9 && way.x < 0) ? vec2_scale(way, -1) : way;
    m->grain_sure = e->worth >= SURE;
}

void lifting_find_fold(struct lifting_finding *m)
{
    size_t count = m->division->size_count;
    struct edge *edges = base_arena_alloc(m->a, count, sizeof *edges);
    bool *found = base_arena_alloc(m->a, count, sizeof *found);
    if (!told_by_words(m) && !m->bracket_count)
        return;
    for (size_t k = 0; k < count; k++)
        found[k] = m->near[k] && best_edge(m, m->shape->outlines[k].path.path, &edges[k]);
    put_edges(m, edges, found, count);
    for (size_t k = 0; k < count && !m->grain_sure; k++)
        if (found[k])
            take_grain(m, &edges[k]);
}
