/* Where the sides of courses meet each other, and which come near to a line's end. For this folder alone. */
#ifndef LIFTING_CROSSINGS_H
#define LIFTING_CROSSINGS_H

#include "lifting/network.h"

/* A point at which a side of a course is to be parted. */
struct crossings_split {
    uint32_t course, side;
    struct network_point at;
};

/* An end of an open course. */
struct crossings_end {
    uint32_t course;
    bool last;
    struct network_point at;
};

/* A side that comes within the gap to an end. */
struct crossings_near {
    uint32_t end, course;
    struct network_point a, b;
};

struct crossings {
    struct crossings_split *splits;
    size_t split_count, split_cap;
    struct crossings_near *nears;
    size_t near_count, near_cap;
};

/* All meetings of which one side has a point that was added in `pass` (0: all meetings). Lives in `a`. False when *work
 * does not suffice. */
bool crossings_find(struct arena *a, const struct network_course *courses, size_t count,
                    const struct crossings_end *ends, size_t end_count, double gap, unsigned pass, size_t *work,
                    struct crossings *out);

/* The square of the distance from a point to a side; *at is the place on it. All in steps of the grid. */
double crossings_distance2(struct network_point p, struct network_point a, struct network_point b, vec2 *at);

#endif
