#include "lifting/faces.h"

#include <stdlib.h>

struct finding {
    struct arena *a;
    const struct network *n;
    uint32_t *starts, *around; /* the edges at each node */
    struct faces_arc *arcs;
    size_t arc_count;
    uint32_t *edges;
    size_t edge_count;
    bool *used;
};

/* ---- Arcs ---- */

static void gather_edges(struct finding *f)
{
    const struct network *n = f->n;
    f->starts = base_arena_alloc(f->a, n->node_count + 2, sizeof *f->starts);
    f->around = base_arena_alloc(f->a, 2 * n->edge_count, sizeof *f->around);
    for (size_t e = 0; e < n->edge_count; e++)
        for (int k = 0; k < 2; k++)
            f->starts[n->edges[e].node[k] + 2]++;
    for (size_t i = 2; i < n->node_count + 2; i++)
        f->starts[i] += f->starts[i - 1];
    for (uint32_t e = 0; e < n->edge_count; e++)
        for (int k = 0; k < 2; k++)
            f->around[f->starts[n->edges[e].node[k] + 1]++] = e;
}

static uint32_t degree(const struct finding *f, uint32_t node)
{
    return f->starts[node + 1] - f->starts[node];
}

/* From a node along an edge until more than two meet, or back to where it began. */
static void walk(struct finding *f, uint32_t node, uint32_t edge)
{
    struct faces_arc arc = { .node = { node, node }, .first_edge = (uint32_t)f->edge_count };
    for (;;) {
        uint32_t to = faces_over(f->n, edge, node);
        f->used[edge] = true;
        f->edges[f->edge_count++] = edge;
        arc.length_mm += vec2_length(vec2_sub(f->n->nodes[to].at, f->n->nodes[node].at));
        node = to;
        if (node == arc.node[0] || degree(f, node) != 2)
            break;
        const uint32_t *both = f->around + f->starts[node];
        edge = both[both[0] == edge];
    }
    arc.node[1] = node;
    arc.count = (uint32_t)f->edge_count - arc.first_edge;
    f->arcs[f->arc_count++] = arc;
}

static void make_arcs(struct finding *f)
{
    const struct network *n = f->n;
    f->arcs = base_arena_alloc(f->a, n->edge_count, sizeof *f->arcs);
    f->edges = base_arena_alloc(f->a, n->edge_count, sizeof *f->edges);
    f->used = base_arena_alloc(f->a, n->edge_count, sizeof *f->used);
    for (uint32_t node = 0; node < n->node_count; node++)
        for (uint32_t k = f->starts[node]; degree(f, node) > 2 && k < f->starts[node + 1]; k++)
            if (!f->used[f->around[k]])
                walk(f, node, f->around[k]);
    for (uint32_t e = 0; e < n->edge_count; e++)
        if (!f->used[e])
            walk(f, n->edges[e].node[0], e);
}

/* ---- Spokes ---- */

struct spoke {
    uint32_t half;
    int64_t x, y;
};

static bool is_lower(const struct spoke *s)
{
    return s->y < 0 || (s->y == 0 && s->x < 0);
}

/* Counter-clockwise from the direction along x. */
static int by_direction(const void *a, const void *b)
{
    const struct spoke *p = a, *q = b;
    if (is_lower(p) != is_lower(q))
        return is_lower(p) ? 1 : -1;
    int64_t turn = p->x * q->y - p->y * q->x;
    if (turn != 0)
        return turn > 0 ? -1 : 1;
    return p->half < q->half ? -1 : p->half > q->half;
}

static struct spoke spoke_of(const struct faces *out, uint32_t half)
{
    const struct network *n = out->network;
    uint32_t node = faces_start(out, half), to = faces_over(n, faces_edge(out, half, 0), node);
    struct network_point a = n->nodes[node].on_grid, b = n->nodes[to].on_grid;
    return (struct spoke){ half, (int64_t)b.x - a.x, (int64_t)b.y - a.y };
}

static void make_spokes(struct finding *f, struct faces *out)
{
    size_t node_count = f->n->node_count;
    struct faces_spokes *spokes = base_arena_alloc(f->a, node_count, sizeof *spokes);
    uint32_t *halves = base_arena_alloc(f->a, 2 * f->arc_count, sizeof *halves);
    uint32_t *place = base_arena_alloc(f->a, 2 * f->arc_count, sizeof *place);
    struct spoke *all = base_arena_alloc(f->a, 2 * f->arc_count, sizeof *all);
    uint32_t sum = 0;
    for (uint32_t i = 0; i < node_count; i++) {
        spokes[i].first = sum;
        sum += degree(f, i) > 2 ? degree(f, i) : 0;
    }
    for (uint32_t h = 0; h < 2 * f->arc_count; h++) {
        place[h] = NETWORK_NONE;
        struct faces_spokes *s = &spokes[faces_start(out, h)];
        if (degree(f, faces_start(out, h)) > 2)
            all[s->first + s->count++] = spoke_of(out, h);
    }
    for (size_t i = 0; i < node_count; i++)
        if (spokes[i].count)
            qsort(all + spokes[i].first, spokes[i].count, sizeof *all, by_direction);
    for (uint32_t i = 0; i < sum; i++) {
        halves[i] = all[i].half;
        place[all[i].half] = i;
    }
    out->spokes = spokes;
    out->halves = halves;
    out->place = place;
}

uint32_t faces_turn(const struct faces *f, uint32_t half, int by)
{
    const struct faces_spokes *s = &f->spokes[faces_start(f, half)];
    if (f->place[half] == NETWORK_NONE)
        return half;
    uint32_t at = f->place[half] - s->first;
    return f->halves[s->first + (by > 0 ? (at + 1) % s->count : (at + s->count - 1) % s->count)];
}

/* ---- Faces ---- */

double faces_swept(const struct faces *f, uint32_t half, vec2 about)
{
    const struct network *n = f->network;
    uint32_t node = faces_start(f, half);
    vec2 at = vec2_sub(n->nodes[node].at, about);
    double twice = 0;
    for (uint32_t i = 0; i < f->arcs[half / 2].count; i++) {
        node = faces_over(n, faces_edge(f, half, i), node);
        vec2 to = vec2_sub(n->nodes[node].at, about);
        twice += vec2_cross(at, to);
        at = to;
    }
    return twice;
}

/* On along the face to the left: at the node, the first half clockwise from the way back. */
static uint32_t next_half(const struct faces *f, uint32_t half)
{
    return f->place[half ^ 1] == NETWORK_NONE ? half : faces_turn(f, half ^ 1, -1);
}

static void trace(struct finding *f, struct faces *out)
{
    double *areas = base_arena_alloc(f->a, 2 * f->arc_count, sizeof *areas);
    bool *seen = base_arena_alloc(f->a, 2 * f->arc_count, sizeof *seen);
    for (uint32_t first = 0; first < 2 * f->arc_count; first++) {
        if (seen[first])
            continue;
        vec2 about = f->n->nodes[faces_start(out, first)].at;
        double twice = 0;
        for (uint32_t h = first; !seen[h]; h = next_half(out, h)) {
            seen[h] = true;
            twice += faces_swept(out, h, about);
        }
        uint32_t face = twice > 0 ? (uint32_t)out->count++ : FACES_OUTER;
        if (twice > 0)
            areas[face] = twice / 2;
        uint32_t h = first;
        do {
            f->arcs[h / 2].face[h % 2] = face;
            h = next_half(out, h);
        } while (h != first);
    }
    out->areas = areas;
}

struct faces faces_find(struct arena *a, const struct network *n)
{
    struct finding f = { .a = a, .n = n };
    gather_edges(&f);
    make_arcs(&f);
    struct faces out = { .network = n, .arcs = f.arcs, .arc_count = f.arc_count, .edges = f.edges };
    make_spokes(&f, &out);
    trace(&f, &out);
    return out;
}
