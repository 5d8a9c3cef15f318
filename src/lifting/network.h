/* Lines as a plane network: parted where they meet or cross, gaps at their ends closed, what lies on each other once.
 * It is built on a grid so fine that nothing of it shows, with whole numbers, so that every question has one exact
 * answer. For this folder alone. */
#ifndef LIFTING_NETWORK_H
#define LIFTING_NETWORK_H

#include "base/arena.h"
#include "geometry/path.h"

#include <stdbool.h>
#include <stdint.h>

/* Of the grid. Points move by at most a thousandth of a millimetre (POINTS_NEAR). Products of two differences stay
 * within 63 bits up to NETWORK_REACH_MM. */
#define NETWORK_PER_MM 4096.0
#define NETWORK_REACH_MM 1e5

#define NETWORK_NO_LINE UINT32_MAX /* what closes a gap is no drawn line */
#define NETWORK_ADDED UINT32_MAX   /* a point that no line was drawn with */
#define NETWORK_NONE UINT32_MAX

/* Steps of work that one network may take, and all networks of a sheet together: a sheet of 200 000 segments takes a
 * hundredth of it, lines that all cross each other are given up after a second. */
#define NETWORK_WORK_MOST 100000000
#define NETWORK_WORK_OF_SHEET 400000000

struct network_point {
    int32_t x, y;
};

struct network_line {
    struct geometry_path path;
    uint32_t id; /* the caller's */
};

/* A line on its way through the network. A closed one ends with its first point. */
struct network_course {
    uint32_t line; /* in the lines, or NETWORK_NO_LINE */
    bool closed;
    double gap_mm; /* that it closes; 0: drawn */
    struct network_point *points;
    uint32_t *from; /* for each point which one of the line it is, or NETWORK_ADDED */
    uint8_t *pass;  /* in which it was added; 0: drawn */
    size_t count;   /* at least 2; no two in a row are equal */
};

struct network_node {
    struct network_point on_grid;
    vec2 at; /* as it was drawn */
};

struct network_edge {
    uint32_t node[2];
    uint32_t first_use;
};

/* A side of a course that runs along an edge. */
struct network_use {
    uint32_t course, side, next;
};

struct network {
    const struct network_course *courses;
    size_t course_count;
    const struct network_node *nodes;
    size_t node_count;
    const struct network_edge *edges; /* none that leads nowhere: every one's ends have others */
    size_t edge_count;
    const struct network_use *uses;
};

/* Lines beyond NETWORK_REACH_MM are left out. Lives in `a`. False, with nothing built, when it takes more than *work
 * steps; *work is what is left of them. */
bool network_build(struct arena *a, const struct network_line *lines, size_t count, double gap_mm, size_t *work,
                   struct network *out);

/* How wide a gap an edge closes, mm; 0: a line is drawn along it. */
double network_gap(const struct network *n, uint32_t edge);

/* Whether a line runs on from one edge to the other through the node that they share. */
bool network_runs_on(const struct network *n, uint32_t from, uint32_t to);

/* Whether a line that runs along the edge was drawn with that node: else others only meet it there. */
bool network_is_drawn(const struct network *n, uint32_t edge, uint32_t node);

#endif
