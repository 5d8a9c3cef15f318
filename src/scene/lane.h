/* Straight lanes across a piece, and where on them nothing is in the way: room for an arrow. All in table mm. */
#ifndef SCENE_LANE_H
#define SCENE_LANE_H

#include "geometry/path.h"

/* A strip along the unit vector `along`, reaching `left` and `right` of the line through `at`; an arrow on it keeps
 * `ahead` clear of what lies before its ends. */
struct scene_lane {
    vec2 at, along;
    double left, right, ahead;
};

/* From one place on the lane to another, measured along it from its `at`. */
struct scene_gap {
    double from, to;
};

/* What nothing may be drawn over. */
struct scene_obstacles {
    const struct geometry_path *paths;
    size_t count;
};

/* The gaps of a lane between `from` and `to` in order, in `a`; returns how many. */
size_t scene_lane_gaps(struct arena *a, const struct scene_lane *lane, const struct scene_obstacles *obstacles,
                       double from, double to, struct scene_gap **gaps);

/* Of an odd number of places across something the i-th from its middle outwards, as a share of the way across: the
 * nearest come first, and farther ones need not be looked at any more. */
double scene_outwards(int i, int places);

enum { SCENE_LANES = 31 };

/* The place for a grain arrow: as wished where that is clear, else parallel to it within the closed outline `seam`,
 * shorter if need be, and not within the outline `letters` (no points: none). The obstacles hold both outlines too.
 * `lanes`: how many across the piece are tried; usually SCENE_LANES.
 * False when there is no clear place for an arrow that is worth looking at. */
bool scene_grain_place(struct arena *a, struct geometry_path seam, struct geometry_path letters,
                       const struct scene_obstacles *obstacles, const vec2 wish[2], int lanes, vec2 ends[2]);

#endif
