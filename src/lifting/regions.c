#include "lifting/regions.h"

#include <stdlib.h>

/* Of two faces with lines between them, are both a piece, or is it one with a line in it? Where such a line ends,
 * either the outline runs on past it, drawn as one line: then it is an inner line. Or the line itself runs on as the
 * outline of one of both: then it is an edge. Where neither is so, because every edge is drawn by itself, what is
 * written in the faces and how straight they go on tells more. */

/* A straight edge is at most half of the way around a face, and little more where it bends; a dart, or a pocket set to
 * an edge, lies in its piece with more. */
#define WITHIN_SHARE 0.6

/* Lines go on straight when they turn by less than 10 degrees: cos 10°. */
#define STRAIGHT_COSINE 0.985
#define DIRECTION_LEAST_MM 0.5 /* what directions are taken over: gaps and their bridges are shorter */

#define LETTERED_LEAST_MM2 100.0 /* a face with less has no room for a name */

enum { ROUNDS_MOST = 16 };

struct merging {
    struct arena *a;
    const struct faces *f;
    const struct regions_asked *asked;
    uint32_t *above;        /* a face of the same group; itself: the first of it */
    double *areas, *around; /* of groups, by their first face */
    double *shared;         /* for each arc, the length of all between its two groups */
    double *lengths;        /* of the courses */
    bool *lettered;         /* faces; NULL: not looked yet */
};

bool regions_is_large(double area_mm2, double length_mm)
{
    return area_mm2 >= REGIONS_AREA_LEAST_MM2 && 2 * area_mm2 >= REGIONS_WIDTH_LEAST_MM * length_mm;
}

/* ---- Groups ---- */

static uint32_t group_of(const struct merging *m, uint32_t face)
{
    if (face == FACES_OUTER)
        return FACES_OUTER;
    while (m->above[face] != face) {
        m->above[face] = m->above[m->above[face]];
        face = m->above[face];
    }
    return face;
}

static uint32_t left_of(const struct merging *m, uint32_t half)
{
    return group_of(m, faces_left(m->f, half));
}

/* Whether a half still parts two groups. */
static bool is_live(const struct merging *m, uint32_t half)
{
    return left_of(m, half) != left_of(m, half ^ 1);
}

static bool is_large(const struct merging *m, uint32_t group)
{
    return regions_is_large(m->areas[group], m->around[group]);
}

/* The arcs between two groups, by both. */
struct between {
    uint32_t low, high, arc;
};

static int by_groups(const void *a, const void *b)
{
    const struct between *p = a, *q = b;
    if (p->low != q->low)
        return p->low < q->low ? -1 : 1;
    if (p->high != q->high)
        return p->high < q->high ? -1 : 1;
    return p->arc < q->arc ? -1 : p->arc > q->arc;
}

static void share_out(struct merging *m, struct between *rows, size_t count)
{
    if (count)
        qsort(rows, count, sizeof *rows, by_groups);
    for (size_t i = 0, k; i < count; i = k) {
        double sum = 0;
        for (k = i; k < count && rows[k].low == rows[i].low && rows[k].high == rows[i].high; k++)
            sum += m->f->arcs[rows[k].arc].length_mm;
        for (size_t l = i; l < k; l++)
            m->shared[rows[l].arc] = sum;
    }
}

static void measure(struct merging *m, struct between *rows)
{
    size_t count = 0;
    for (size_t i = 0; i < m->f->count; i++)
        m->areas[i] = m->around[i] = 0;
    for (uint32_t i = 0; i < m->f->count; i++)
        m->areas[group_of(m, i)] += m->f->areas[i];
    for (uint32_t i = 0; i < m->f->arc_count; i++) {
        uint32_t left = left_of(m, 2 * i), right = left_of(m, 2 * i + 1);
        if (left == right)
            continue;
        if (left != FACES_OUTER)
            m->around[left] += m->f->arcs[i].length_mm;
        if (right != FACES_OUTER)
            m->around[right] += m->f->arcs[i].length_mm;
        if (left != FACES_OUTER && right != FACES_OUTER)
            rows[count++] = (struct between){ left < right ? left : right, left < right ? right : left, i };
    }
    share_out(m, rows, count);
}

/* ---- Where a line ends ---- */

enum says { SAYS_NOTHING, SAYS_INNER, SAYS_EDGE };

/* The next half around that is live, or the half itself. */
static uint32_t next_live(const struct merging *m, uint32_t half, int by)
{
    uint32_t h = faces_turn(m->f, half, by);
    while (h != half && !is_live(m, h))
        h = faces_turn(m->f, h, by);
    return h;
}

static bool runs_on(const struct merging *m, uint32_t from, uint32_t to)
{
    return network_runs_on(m->f->network, faces_edge(m->f, from, 0), faces_edge(m->f, to, 0));
}

/* Whether it runs straight through, across the outline to something beyond. */
static bool runs_beyond(const struct merging *m, uint32_t half, uint32_t left, uint32_t right)
{
    for (uint32_t h = next_live(m, left, 1); h != right && h != half; h = next_live(m, h, 1))
        if (runs_on(m, half, h))
            return true;
    return false;
}

/* The longest line that is drawn along a half where it begins. */
static double longest_along(const struct merging *m, uint32_t half)
{
    const struct network *n = m->f->network;
    double longest = 0;
    for (uint32_t u = n->edges[faces_edge(m->f, half, 0)].first_use; u != NETWORK_NONE; u = n->uses[u].next) {
        double length = m->lengths[n->uses[u].course];
        longest = length > longest ? length : longest;
    }
    return longest;
}

/* What the node says that a half leaves. Where two lines cross, only what is too small for a piece can be told: notches
 * and letters are shorter than the outlines that they cross. */
static enum says said_at(const struct merging *m, uint32_t half, bool large)
{
    uint32_t left = next_live(m, half, 1), right = next_live(m, half, -1);
    if (left == right || left == half)
        return SAYS_NOTHING;
    if (runs_beyond(m, half, left, right)) {
        if (large || !runs_on(m, left, right))
            return SAYS_NOTHING;
        return longest_along(m, half) < longest_along(m, left) ? SAYS_INNER : SAYS_EDGE;
    }
    if (runs_on(m, left, right))
        return SAYS_INNER;
    return runs_on(m, half, left) || runs_on(m, half, right) ? SAYS_EDGE : SAYS_NOTHING;
}

static vec2 direction(const struct merging *m, uint32_t half)
{
    const struct network *n = m->f->network;
    uint32_t node = faces_start(m->f, half);
    vec2 from = n->nodes[node].at, by = { 0, 0 };
    for (uint32_t i = 0; i < m->f->arcs[half / 2].count && vec2_length(by) < DIRECTION_LEAST_MM; i++) {
        node = faces_over(n, faces_edge(m->f, half, i), node);
        by = vec2_sub(n->nodes[node].at, from);
    }
    return vec2_unit(by);
}

static bool go_straight(const struct merging *m, uint32_t a, uint32_t b)
{
    return vec2_dot(direction(m, a), direction(m, b)) < -STRAIGHT_COSINE;
}

/* Whether the outline goes straight on past the half, and whether the half goes on straight as the outline. */
static bool is_passed(const struct merging *m, uint32_t half)
{
    uint32_t left = next_live(m, half, 1), right = next_live(m, half, -1);
    return left != right && left != half && go_straight(m, left, right);
}

static bool goes_on(const struct merging *m, uint32_t half)
{
    uint32_t left = next_live(m, half, 1), right = next_live(m, half, -1);
    return left == half || left == right || go_straight(m, half, left) || go_straight(m, half, right);
}

/* ---- What is written ---- */

static struct geometry_path face_path(const struct merging *m, uint32_t first)
{
    const struct faces *f = m->f;
    struct geometry_path p = { NULL, 0, true };
    size_t cap = 0;
    uint32_t h = first;
    do {
        uint32_t node = faces_start(f, h);
        p.points = base_arena_grow(m->a, p.points, &cap, p.count + f->arcs[h / 2].count, sizeof *p.points);
        for (uint32_t i = 0; i < f->arcs[h / 2].count; i++) {
            p.points[p.count++] = f->network->nodes[node].at;
            node = faces_over(f->network, faces_edge(f, h, i), node);
        }
        h = f->place[h ^ 1] == NETWORK_NONE ? h : faces_turn(f, h ^ 1, -1);
    } while (h != first);
    return p;
}

static bool any_within(struct geometry_path p, const struct regions_asked *asked)
{
    struct geometry_box box = geometry_path_box(p);
    for (size_t i = 0; i < asked->letter_count; i++) {
        vec2 at = asked->letters[i];
        if (at.x >= box.min.x && at.x <= box.max.x && at.y >= box.min.y && at.y <= box.max.y &&
            geometry_path_holds(p, at))
            return true;
    }
    return false;
}

static void look_for_letters(struct merging *m)
{
    bool *looked = base_arena_alloc(m->a, m->f->count, sizeof *looked);
    m->lettered = base_arena_alloc(m->a, m->f->count, sizeof *m->lettered);
    for (uint32_t h = 0; h < 2 * m->f->arc_count; h++) {
        uint32_t face = faces_left(m->f, h);
        if (face == FACES_OUTER || looked[face])
            continue;
        looked[face] = true;
        if (m->f->areas[face] >= LETTERED_LEAST_MM2)
            m->lettered[face] = any_within(face_path(m, h), m->asked);
    }
}

static bool is_lettered(struct merging *m, uint32_t group)
{
    if (!m->lettered)
        look_for_letters(m);
    for (uint32_t i = 0; i < m->f->count; i++)
        if (m->lettered[i] && group_of(m, i) == group)
            return true;
    return false;
}

/* ---- Merging ---- */

/* How a half is drawn where it begins: the dash of its first line, and whether it is of one size. */
struct look {
    bool drawn, sized;
    uint32_t dash;
};

static struct look look_of(const struct merging *m, uint32_t half)
{
    const struct network *n = m->f->network;
    struct look look = { false, true, 0 };
    for (uint32_t u = n->edges[faces_edge(m->f, half, 0)].first_use; u != NETWORK_NONE; u = n->uses[u].next) {
        uint32_t line = n->courses[n->uses[u].course].line;
        if (line == NETWORK_NO_LINE)
            continue;
        look.sized = look.sized && m->asked->sized[line];
        look.dash = m->asked->dash_of_line[line];
        look.drawn = true;
    }
    return look;
}

/* Whether what crosses it, and goes on beyond, is all of the one kind and it of the other: of one size or of all. */
static bool crosses(const struct merging *m, uint32_t half, bool own_sized)
{
    uint32_t left = next_live(m, half, 1), right = next_live(m, half, -1);
    struct look a = look_of(m, left), b = look_of(m, right);
    return left != right && left != half && a.drawn && b.drawn && look_of(m, half).sized == own_sized &&
           a.sized != own_sized && b.sized != own_sized && runs_beyond(m, half, left, right);
}

static bool is_dashed_otherwise(const struct merging *m, uint32_t half)
{
    struct look own = look_of(m, half);
    struct look left = look_of(m, next_live(m, half, 1)), right = look_of(m, next_live(m, half, -1));
    return own.drawn && left.drawn && right.drawn && left.dash == right.dash && left.dash != own.dash;
}

/* Of all that is not told by how lines run: frames and rulings of all sizes cross the outlines of one; inner lines are
 * dashed otherwise at both ends; of two pieces both have a name; and an outline goes straight on past inner lines. */
static bool is_inner_by_look(struct merging *m, uint32_t half, uint32_t left, uint32_t right)
{
    if (crosses(m, half, true) || crosses(m, half ^ 1, true))
        return false;
    if (crosses(m, half, false) || crosses(m, half ^ 1, false))
        return true;
    if (is_dashed_otherwise(m, half) && is_dashed_otherwise(m, half ^ 1))
        return true;
    bool left_lettered = is_lettered(m, left), right_lettered = is_lettered(m, right);
    if (left_lettered != right_lettered)
        return true;
    return !left_lettered && is_passed(m, half) && is_passed(m, half ^ 1);
}

/* Whether the arc is an inner line. */
static bool is_inner(struct merging *m, uint32_t arc)
{
    uint32_t half = 2 * arc, left = left_of(m, half), right = left_of(m, half + 1);
    double least = m->around[left] < m->around[right] ? m->around[left] : m->around[right];
    if (m->shared[arc] > WITHIN_SHARE * least)
        return true;
    bool large = is_large(m, left) && is_large(m, right);
    enum says first = said_at(m, half, large), last = said_at(m, half + 1, large);
    if (first == SAYS_INNER || last == SAYS_INNER)
        return true;
    if (first == SAYS_EDGE || last == SAYS_EDGE)
        return false;
    if (large)
        return is_inner_by_look(m, half, left, right);
    return is_passed(m, half) || is_passed(m, half + 1) || !goes_on(m, half) || !goes_on(m, half + 1);
}

/* What the two share is no longer around them. */
static void unite(struct merging *m, uint32_t low, uint32_t high, double shared)
{
    m->above[high] = low;
    m->areas[low] += m->areas[high];
    m->around[low] += m->around[high] - 2 * shared;
}

static bool merge_round(struct merging *m)
{
    bool any = false;
    for (uint32_t i = 0; i < m->f->arc_count; i++) {
        uint32_t left = left_of(m, 2 * i), right = left_of(m, 2 * i + 1);
        if (left == right || left == FACES_OUTER || right == FACES_OUTER || !is_inner(m, i))
            continue;
        unite(m, left < right ? left : right, left < right ? right : left, m->shared[i]);
        any = true;
    }
    return any;
}

static void measure_courses(struct merging *m)
{
    const struct network *n = m->f->network;
    m->lengths = base_arena_alloc(m->a, n->course_count, sizeof *m->lengths);
    for (size_t e = 0; e < n->edge_count; e++) {
        const struct network_node *a = &n->nodes[n->edges[e].node[0]], *b = &n->nodes[n->edges[e].node[1]];
        double length = vec2_length(vec2_sub(b->at, a->at));
        for (uint32_t u = n->edges[e].first_use; u != NETWORK_NONE; u = n->uses[u].next)
            m->lengths[n->uses[u].course] += length;
    }
}

static void merge(struct merging *m)
{
    size_t count = m->f->count;
    m->above = base_arena_alloc(m->a, count, sizeof *m->above);
    m->areas = base_arena_alloc(m->a, count, sizeof *m->areas);
    m->around = base_arena_alloc(m->a, count, sizeof *m->around);
    m->shared = base_arena_alloc(m->a, m->f->arc_count, sizeof *m->shared);
    struct between *rows = base_arena_alloc(m->a, m->f->arc_count, sizeof *rows);
    for (uint32_t i = 0; i < count; i++)
        m->above[i] = i;
    measure_courses(m);
    int rounds = 0;
    do {
        measure(m, rows);
    } while (merge_round(m) && ++rounds < ROUNDS_MOST);
    measure(m, rows);
}

/* ---- Outlines ---- */

static uint32_t next_along(const struct merging *m, uint32_t half)
{
    return m->f->place[half ^ 1] == NETWORK_NONE ? half : next_live(m, half ^ 1, -1);
}

static double area_of(const struct merging *m, const uint32_t *halves, size_t count)
{
    double twice = 0;
    vec2 about = m->f->network->nodes[faces_start(m->f, halves[0])].at;
    for (size_t i = 0; i < count; i++)
        twice += faces_swept(m->f, halves[i], about);
    return twice / 2;
}

struct loop {
    const uint32_t *halves;
    size_t count;
    double area;
};

/* A ring may come by a node twice, where a hole touches it: its largest part that does not. */
static struct loop largest_loop(const struct merging *m, uint32_t first, uint32_t *at_node, uint32_t *stack,
                                uint32_t *kept)
{
    struct loop best = { kept, 0, 0 };
    size_t depth = 0;
    uint32_t h = first;
    at_node[faces_start(m->f, first)] = 1;
    do {
        stack[depth++] = h;
        uint32_t node = faces_end(m->f, h);
        if (at_node[node]) {
            size_t from = at_node[node] - 1;
            double area = area_of(m, stack + from, depth - from);
            if (area > best.area) {
                best.count = depth - from;
                best.area = area;
                for (size_t i = from; i < depth; i++)
                    kept[i - from] = stack[i];
            }
            for (size_t i = from + 1; i < depth; i++)
                at_node[faces_start(m->f, stack[i])] = 0;
            depth = from;
        } else {
            at_node[node] = (uint32_t)depth + 1;
        }
        h = next_along(m, h);
    } while (h != first);
    at_node[faces_start(m->f, first)] = 0;
    return best;
}

static void list_edges(const struct merging *m, const struct loop *loop, struct regions_ring *ring)
{
    size_t count = 0;
    for (size_t i = 0; i < loop->count; i++)
        count += m->f->arcs[loop->halves[i] / 2].count;
    uint32_t *edges = base_arena_alloc(m->a, count, sizeof *edges);
    for (size_t i = 0; i < loop->count; i++)
        for (uint32_t k = 0; k < m->f->arcs[loop->halves[i] / 2].count; k++)
            edges[ring->edge_count++] = faces_edge(m->f, loop->halves[i], k);
    ring->edges = edges;
}

/* Points nearer than this are one: lines that were drawn to one point, but rounded apart. */
#define ONE_POINT_MM 0.002

static void put(struct geometry_path *p, vec2 at)
{
    if (p->count == 0 || vec2_length(vec2_sub(at, p->points[p->count - 1])) > ONE_POINT_MM)
        p->points[p->count++] = at;
}

/* The nodes of a ring but those at which a drawn line is only met by another. */
static struct regions_ring ring_of(const struct merging *m, const struct loop *loop)
{
    const struct network *n = m->f->network;
    struct regions_ring ring = { .path = { NULL, 0, true }, .area_mm2 = loop->area };
    list_edges(m, loop, &ring);
    ring.path.points = base_arena_alloc(m->a, ring.edge_count, sizeof(vec2));
    uint32_t node = faces_start(m->f, loop->halves[0]), before = ring.edges[ring.edge_count - 1];
    for (size_t i = 0; i < ring.edge_count; i++) {
        uint32_t edge = ring.edges[i], to = faces_over(n, edge, node);
        double gap_mm = network_gap(n, edge);
        ring.length_mm += vec2_length(vec2_sub(n->nodes[to].at, n->nodes[node].at));
        ring.gap_mm = gap_mm > ring.gap_mm ? gap_mm : ring.gap_mm;
        if (network_is_drawn(n, before, node) || network_is_drawn(n, edge, node) || !network_runs_on(n, before, edge))
            put(&ring.path, n->nodes[node].at);
        before = edge;
        node = to;
    }
    if (ring.path.count > 1 &&
        vec2_length(vec2_sub(ring.path.points[0], ring.path.points[ring.path.count - 1])) <= ONE_POINT_MM)
        ring.path.count--;
    return ring;
}

size_t regions_find(struct arena *a, const struct faces *f, const struct regions_asked *asked,
                    const struct regions_ring **out)
{
    struct merging m = { .a = a, .f = f, .asked = asked };
    struct regions_ring *rings = NULL;
    size_t count = 0, cap = 0, halves = 2 * f->arc_count;
    merge(&m);
    bool *seen = base_arena_alloc(a, halves, sizeof *seen);
    uint32_t *at_node = base_arena_alloc(a, f->network->node_count, sizeof *at_node);
    uint32_t *stack = base_arena_alloc(a, halves, sizeof *stack), *kept = base_arena_alloc(a, halves, sizeof *kept);
    for (uint32_t h = 0; h < halves; h++) {
        uint32_t group = left_of(&m, h);
        if (seen[h] || group == FACES_OUTER || !is_live(&m, h) || !is_large(&m, group))
            continue;
        for (uint32_t k = h; !seen[k]; k = next_along(&m, k))
            seen[k] = true;
        struct loop loop = largest_loop(&m, h, at_node, stack, kept);
        if (loop.area <= 0)
            continue;
        struct regions_ring ring = ring_of(&m, &loop);
        if (!regions_is_large(ring.area_mm2, ring.length_mm))
            continue;
        rings = base_arena_grow(a, rings, &cap, count + 1, sizeof *rings);
        rings[count++] = ring;
    }
    *out = rings;
    return count;
}
