/* The faces of a network: arcs between the nodes where more than two edges meet, and what lies to either side of them.
 * For this folder alone. */
#ifndef LIFTING_FACES_H
#define LIFTING_FACES_H

#include "lifting/network.h"

#define FACES_OUTER UINT32_MAX /* what lies outside of connected lines */

/* Edges in a row. A closed one without a node where more meet begins anywhere. */
struct faces_arc {
    uint32_t node[2];           /* where it begins and ends */
    uint32_t first_edge, count; /* in the edges of all arcs */
    double length_mm;
    uint32_t face[2]; /* to its left, to its right; a face or FACES_OUTER */
};

/* Half of an arc: 2 × arc as it runs, + 1 backwards. Halves that leave a node, counter-clockwise. */
struct faces_spokes {
    uint32_t first, count;
};

struct faces {
    const struct network *network;
    const struct faces_arc *arcs;
    size_t arc_count;
    const uint32_t *edges;
    const struct faces_spokes *spokes; /* for each node; none where only two edges meet */
    const uint32_t *halves;            /* of all spokes */
    const uint32_t *place;             /* for each half, where it stands in them; NETWORK_NONE: at no spokes */
    const double *areas;               /* of the faces, mm² */
    size_t count;
};

/* Lives in `a` and in what the network lives in. */
struct faces faces_find(struct arena *a, const struct network *n);

static inline uint32_t faces_start(const struct faces *f, uint32_t half)
{
    return f->arcs[half / 2].node[half % 2];
}

static inline uint32_t faces_end(const struct faces *f, uint32_t half)
{
    return f->arcs[half / 2].node[1 - half % 2];
}

static inline uint32_t faces_left(const struct faces *f, uint32_t half)
{
    return f->arcs[half / 2].face[half % 2];
}

/* The edge of a half that is number `i` from where it begins. */
static inline uint32_t faces_edge(const struct faces *f, uint32_t half, uint32_t i)
{
    const struct faces_arc *arc = &f->arcs[half / 2];
    return f->edges[arc->first_edge + (half % 2 ? arc->count - 1 - i : i)];
}

/* The half next to a half around the node that both leave: by = 1 counter-clockwise, by = -1 clockwise. */
uint32_t faces_turn(const struct faces *f, uint32_t half, int by);

/* The other end of an edge. */
static inline uint32_t faces_over(const struct network *n, uint32_t edge, uint32_t node)
{
    return n->edges[edge].node[n->edges[edge].node[0] == node];
}

/* Twice the area that a half sweeps about a point, mm². */
double faces_swept(const struct faces *f, uint32_t half, vec2 about);

#endif
