#include "lifting/network.h"
#include "lifting/crossings.h"
#include "lifting/gaps.h"
#include "lifting/points.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Parting a side moves its parts by some steps of the grid, so that it may then touch another: it is looked again.
 * Two or three times are enough for drawings; what is left after these is a few steps. */
enum { PASSES_MOST = 8 };

struct building {
    struct arena *a;
    struct network_course *courses;
    size_t count, cap;
    struct crossings_end *ends;
    size_t end_count;
    struct points_snap snap;
};

/* ---- Lines on the grid ---- */

static bool is_within_reach(struct geometry_path p)
{
    for (size_t i = 0; i < p.count; i++)
        if (!(fabs(p.points[i].x) <= NETWORK_REACH_MM && fabs(p.points[i].y) <= NETWORK_REACH_MM))
            return false;
    return true;
}

static struct network_point on_grid(vec2 p)
{
    return (struct network_point){ (int32_t)floor(p.x * NETWORK_PER_MM + 0.5),
                                   (int32_t)floor(p.y * NETWORK_PER_MM + 0.5) };
}

static bool same(struct network_point a, struct network_point b)
{
    return a.x == b.x && a.y == b.y;
}

static void add_course(struct building *b, struct network_course c)
{
    b->courses = base_arena_grow(b->a, b->courses, &b->cap, b->count + 1, sizeof *b->courses);
    b->courses[b->count++] = c;
}

static struct network_course course_of(struct building *b, struct geometry_path p, uint32_t line)
{
    struct arena *a = b->a;
    size_t most = p.count + p.closed;
    struct network_course c = { .line = line, .closed = p.closed };
    c.points = base_arena_alloc(a, most, sizeof *c.points);
    c.from = base_arena_alloc(a, most, sizeof *c.from);
    c.pass = base_arena_alloc(a, most, sizeof *c.pass);
    for (size_t i = 0; i < most; i++) {
        struct network_point at = points_snapped(&b->snap, on_grid(p.points[i % p.count]));
        if (c.count && same(at, c.points[c.count - 1]))
            continue;
        c.points[c.count] = at;
        c.from[c.count++] = (uint32_t)(i % p.count);
    }
    return c;
}

/* An open line that comes back to where it began is closed. */
static void lay_lines(struct building *b, const struct network_line *lines, size_t count)
{
    for (uint32_t i = 0; i < count; i++) {
        if (!is_within_reach(lines[i].path))
            continue;
        struct network_course c = course_of(b, lines[i].path, i);
        if (c.count < 2)
            continue;
        c.closed = same(c.points[0], c.points[c.count - 1]);
        add_course(b, c);
    }
}

static void find_ends(struct building *b)
{
    b->ends = base_arena_alloc(b->a, 2 * b->count, sizeof *b->ends);
    for (uint32_t i = 0; i < b->count; i++) {
        const struct network_course *c = &b->courses[i];
        if (c->closed)
            continue;
        b->ends[b->end_count++] = (struct crossings_end){ i, false, c->points[0] };
        b->ends[b->end_count++] = (struct crossings_end){ i, true, c->points[c->count - 1] };
    }
}

/* ---- Parting ---- */

struct cut {
    uint32_t course, side;
    double along2; /* square of how far along the side */
    struct network_point at;
};

static int in_order(const void *a, const void *b)
{
    const struct cut *p = a, *q = b;
    if (p->course != q->course)
        return p->course < q->course ? -1 : 1;
    if (p->side != q->side)
        return p->side < q->side ? -1 : 1;
    return p->along2 < q->along2 ? -1 : p->along2 > q->along2;
}

static void put(struct network_course *c, struct network_point at, uint32_t from, uint8_t pass)
{
    if (c->count && same(c->points[c->count - 1], at)) {
        if (c->from[c->count - 1] == NETWORK_ADDED)
            c->from[c->count - 1] = from;
        return;
    }
    c->points[c->count] = at;
    c->from[c->count] = from;
    c->pass[c->count++] = pass;
}

static struct network_course parted(struct arena *a, const struct network_course *c, const struct cut *cuts,
                                    size_t cut_count, uint8_t pass)
{
    struct network_course out = *c;
    out.points = base_arena_alloc(a, c->count + cut_count, sizeof *out.points);
    out.from = base_arena_alloc(a, c->count + cut_count, sizeof *out.from);
    out.pass = base_arena_alloc(a, c->count + cut_count, sizeof *out.pass);
    out.count = 0;
    for (size_t i = 0, k = 0; i < c->count; i++) {
        put(&out, c->points[i], c->from[i], c->pass[i]);
        for (; k < cut_count && cuts[k].side == i; k++)
            put(&out, cuts[k].at, NETWORK_ADDED, pass);
    }
    return out;
}

static void part_courses(struct building *b, const struct crossings *found, uint8_t pass)
{
    struct cut *cuts = base_arena_alloc(b->a, found->split_count, sizeof *cuts);
    assert(b->courses || found->split_count == 0);
    for (size_t i = 0; i < found->split_count; i++) {
        const struct crossings_split *s = &found->splits[i];
        struct network_point from = b->courses[s->course].points[s->side];
        struct network_point at = points_snapped(&b->snap, s->at);
        double dx = (double)at.x - from.x, dy = (double)at.y - from.y;
        cuts[i] = (struct cut){ s->course, s->side, dx * dx + dy * dy, at };
    }
    if (found->split_count)
        qsort(cuts, found->split_count, sizeof *cuts, in_order);
    for (size_t i = 0, k; i < found->split_count; i = k) {
        for (k = i; k < found->split_count && cuts[k].course == cuts[i].course; k++)
            continue;
        b->courses[cuts[i].course] = parted(b->a, &b->courses[cuts[i].course], cuts + i, k - i, pass);
    }
}

static void add_bridge(struct building *b, const struct network_course *bridge)
{
    struct network_course c = *bridge;
    c.count = 0;
    for (size_t i = 0; i < bridge->count; i++)
        put(&c, points_snapped(&b->snap, bridge->points[i]), NETWORK_ADDED, 1);
    if (c.count > 1)
        add_course(b, c);
}

static bool part_all(struct building *b, double gap, size_t *work)
{
    struct crossings found;
    find_ends(b);
    if (!crossings_find(b->a, b->courses, b->count, b->ends, b->end_count, gap, 0, work, &found))
        return false;
    part_courses(b, &found, 1);
    const struct network_course *bridges;
    size_t bridge_count = gaps_close(b->a, b->courses, b->count, b->ends, b->end_count, &found, gap, &bridges);
    for (size_t i = 0; i < bridge_count; i++)
        add_bridge(b, &bridges[i]);
    for (uint8_t pass = 1; pass < PASSES_MOST && (found.split_count > 0 || bridge_count > 0); pass++) {
        bridge_count = 0;
        if (!crossings_find(b->a, b->courses, b->count, NULL, 0, gap, pass, work, &found))
            return false;
        part_courses(b, &found, (uint8_t)(pass + 1));
    }
    return true;
}

/* ---- Nodes and edges ---- */

struct joining {
    struct network_node *nodes;
    struct network_edge *edges;
    size_t edge_count;
    struct network_use *uses;
    size_t use_count;
    uint32_t *slots; /* edges by their ends; numbers + 1 */
    size_t slot_count;
};

static uint32_t edge_between(struct joining *j, uint32_t a, uint32_t b)
{
    uint32_t low = a < b ? a : b, high = a < b ? b : a;
    uint64_t key = ((uint64_t)low << 32 | high) * UINT64_C(0x9E3779B97F4A7C15);
    size_t slot = (size_t)(key ^ key >> 29) & (j->slot_count - 1);
    for (; j->slots[slot]; slot = (slot + 1) & (j->slot_count - 1)) {
        const struct network_edge *e = &j->edges[j->slots[slot] - 1];
        if (e->node[0] == low && e->node[1] == high)
            return j->slots[slot] - 1;
    }
    j->edges[j->edge_count] = (struct network_edge){ { low, high }, NETWORK_NONE };
    j->slots[slot] = (uint32_t)++j->edge_count;
    return j->slots[slot] - 1;
}

static size_t sides_of(const struct building *b)
{
    size_t sides = 0;
    for (size_t i = 0; i < b->count; i++)
        sides += b->courses[i].count - 1;
    return sides;
}

static void join_course(struct joining *j, struct points_table *table, const struct building *b, uint32_t index,
                        const struct network_line *lines)
{
    const struct network_course *c = &b->courses[index];
    uint32_t before = NETWORK_NONE;
    for (uint32_t i = 0; i < c->count; i++) {
        size_t known = table->count;
        uint32_t node = points_add(table, c->points[i]);
        if (node == known)
            j->nodes[node] =
                (struct network_node){ c->points[i],
                                       { c->points[i].x / NETWORK_PER_MM, c->points[i].y / NETWORK_PER_MM } };
        if (c->from[i] != NETWORK_ADDED)
            j->nodes[node].at = lines[c->line].path.points[c->from[i]];
        if (i > 0) {
            struct network_edge *e = &j->edges[edge_between(j, before, node)];
            j->uses[j->use_count] = (struct network_use){ index, i - 1, e->first_use };
            e->first_use = (uint32_t)j->use_count++;
        }
        before = node;
    }
}

/* Leaves out edges that lead nowhere, one after the other from their loose ends. */
static size_t prune(struct arena *a, struct network_edge *edges, size_t edge_count, size_t node_count)
{
    /* The sum of the numbers of a node's edges is the number of the one that is left of them. */
    uint32_t *degree = base_arena_alloc(a, node_count, sizeof *degree),
             *sum = base_arena_alloc(a, node_count, sizeof *sum);
    bool *gone = base_arena_alloc(a, edge_count, sizeof *gone);
    for (uint32_t e = 0; e < edge_count; e++)
        for (int k = 0; k < 2; k++) {
            degree[edges[e].node[k]]++;
            sum[edges[e].node[k]] += e;
        }
    for (uint32_t n = 0; n < node_count; n++)
        for (uint32_t at = n; degree[at] == 1;) {
            uint32_t e = sum[at], other = edges[e].node[edges[e].node[0] == at];
            gone[e] = true;
            degree[at] = 0;
            degree[other]--;
            sum[other] -= e;
            at = other;
        }
    size_t left = 0;
    for (size_t e = 0; e < edge_count; e++)
        if (!gone[e])
            edges[left++] = edges[e];
    return left;
}

static void join_all(struct building *b, const struct network_line *lines, struct network *out)
{
    size_t sides = sides_of(b);
    struct points_table table = points_table_make(b->a, sides + b->count);
    struct joining j = { .slot_count = 16 };
    while (j.slot_count < 2 * sides)
        j.slot_count *= 2;
    j.nodes = base_arena_alloc(b->a, sides + b->count, sizeof *j.nodes);
    j.edges = base_arena_alloc(b->a, sides, sizeof *j.edges);
    j.uses = base_arena_alloc(b->a, sides, sizeof *j.uses);
    j.slots = base_arena_alloc(b->a, j.slot_count, sizeof *j.slots);
    for (uint32_t i = 0; i < b->count; i++)
        join_course(&j, &table, b, i, lines);
    *out = (struct network){ b->courses, b->count, j.nodes, table.count, j.edges, 0, j.uses };
    out->edge_count = prune(b->a, j.edges, j.edge_count, table.count);
}

bool network_build(struct arena *a, const struct network_line *lines, size_t count, double gap_mm, size_t *work,
                   struct network *out)
{
    struct building b = { .a = a, .snap = points_snap_make(a) };
    *out = (struct network){ 0 };
    lay_lines(&b, lines, count);
    if (!part_all(&b, gap_mm * NETWORK_PER_MM, work))
        return false;
    join_all(&b, lines, out);
    return true;
}

/* ---- What runs along an edge ---- */

double network_gap(const struct network *n, uint32_t edge)
{
    double gap_mm = 0;
    for (uint32_t u = n->edges[edge].first_use; u != NETWORK_NONE; u = n->uses[u].next) {
        const struct network_course *c = &n->courses[n->uses[u].course];
        if (c->line != NETWORK_NO_LINE)
            return 0;
        gap_mm = fmax(gap_mm, c->gap_mm);
    }
    return gap_mm;
}

/* Whether two sides of a course follow each other. */
static bool follow(const struct network_course *c, uint32_t a, uint32_t b)
{
    uint32_t low = a < b ? a : b, high = a < b ? b : a;
    return high == low + 1 || (c->closed && low == 0 && high + 2 == c->count);
}

bool network_runs_on(const struct network *n, uint32_t from, uint32_t to)
{
    for (uint32_t u = n->edges[from].first_use; u != NETWORK_NONE; u = n->uses[u].next)
        for (uint32_t v = n->edges[to].first_use; v != NETWORK_NONE; v = n->uses[v].next) {
            const struct network_course *c = &n->courses[n->uses[u].course];
            if (n->uses[u].course == n->uses[v].course && c->line != NETWORK_NO_LINE &&
                follow(c, n->uses[u].side, n->uses[v].side))
                return true;
        }
    return false;
}

bool network_is_drawn(const struct network *n, uint32_t edge, uint32_t node)
{
    for (uint32_t u = n->edges[edge].first_use; u != NETWORK_NONE; u = n->uses[u].next) {
        const struct network_course *c = &n->courses[n->uses[u].course];
        uint32_t side = n->uses[u].side, point = same(c->points[side], n->nodes[node].on_grid) ? side : side + 1;
        if (c->from[point] != NETWORK_ADDED)
            return true;
    }
    return false;
}
