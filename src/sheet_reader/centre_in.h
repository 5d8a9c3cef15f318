/* What centre_net.c and centre.c share: lines one dot wide as a net of ways between joints. */
#ifndef SHEET_READER_CENTRE_IN_H
#define SHEET_READER_CENTRE_IN_H

#include "base/arena.h"
#include "sheet_reader/thin.h"

#define NO_JOINT SIZE_MAX

struct dot {
    double x, y; /* in dots from the upper left of the picture */
};

/* Dots where lines meet, in the order of the map, with the joint they belong to. */
struct joint_dot {
    uint32_t at;
    size_t joint;
};

struct joint {
    double x, y; /* the middle of its dots */
    size_t count;
    size_t into; /* the joint that it is part of; itself: none */
};

/* From one end or joint to the next. */
struct way {
    const uint32_t *dots;
    size_t count;
    bool closed, used;
    bool left_out; /* no line of its own */
};

/* End 2 i is the first dot of way i, end 2 i + 1 its last. */
struct end {
    size_t joint, mate; /* NO_JOINT: none */
    double dx, dy;      /* outwards, length 1 */
};

struct net {
    struct thin_map *map;
    struct arena *a;
    struct joint_dot *joint_dots;
    size_t joint_dot_count, joint_dot_cap;
    struct joint *joints;
    size_t joint_count, joint_cap;
    struct way *ways;
    size_t way_count, way_cap;
    struct end *ends;
};

/* Finds the ways and what is joined to what, in n->a. */
void centre_net_find(struct net *n);

/* Where a dot of the map lies. */
struct dot centre_dot(const struct net *n, uint32_t at);

/* How wide the ink is at a dot: the least of what is dark across, along and aslant. */
double centre_width(const struct net *n, size_t at);

double centre_length(double x, double y);

#endif
