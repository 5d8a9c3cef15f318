/* Polylines and polygons: the questions every space asks of them. Outlines run counter-clockwise (y up). */
#ifndef GEOMETRY_PATH_H
#define GEOMETRY_PATH_H

#include "base/arena.h"
#include "geometry/vec2.h"

#include <stdbool.h>
#include <stddef.h>

/* A closed path does not repeat its first point at the end. */
struct geometry_path {
    vec2 *points;
    size_t count;
    bool closed;
};

struct geometry_box {
    vec2 min, max; /* min > max when nothing is in it */
};

struct geometry_box geometry_box_empty(void);
struct geometry_box geometry_box_join(struct geometry_box a, struct geometry_box b);
struct geometry_box geometry_path_box(struct geometry_path p);

/* Whether they share a place, an edge among it; an empty box meets none. */
bool geometry_boxes_meet(struct geometry_box a, struct geometry_box b);

/* Area of a closed path, positive counter-clockwise (shoelace formula). */
double geometry_path_area(struct geometry_path p);

/* Length, the closing side of a closed path included. */
double geometry_path_length(struct geometry_path p);

/* Centre of area of a closed path with at least one point; of a path without area, the middle of its box. */
vec2 geometry_path_centre(struct geometry_path p);

/* Whether the point lies inside the closed path (even-odd; points on the line may go either way). */
bool geometry_path_holds(struct geometry_path p, vec2 at);

/* Where the sides of a closed path meet the line through y along x, in order; `at` has room for as many as it has
 * points. A side has its lower end and not its upper one. Returns how many, an even number: between the first and the
 * second, the third and the fourth … is its inside. */
size_t geometry_path_crossings(struct geometry_path p, double y, double *at);

/* Whether a closed path crosses or touches itself; *where is then such a place. Running back on itself counts, two
 * equal points in a row do not; fewer than three points have nothing to cross. */
bool geometry_path_crosses_itself(struct geometry_path p, vec2 *where);

/* The place at `along` mm from the start of a path with at least one point, and the unit direction there: at a corner
 * that of the side ahead, at the end of the last side; null when the path has no length. Clamped to the path's ends. */
vec2 geometry_path_at(struct geometry_path p, double along, vec2 *direction);

/* How far `at` lies from a path with at least one point; *along is the distance from the path's start to its place
 * nearest to that. */
double geometry_path_distance(struct geometry_path p, vec2 at, double *along);

/* A path at a small distance to the left of an open or closed one (to the right below zero), corners mitred; in `a`.
 * For distances well under the smallest radius: it does not take out loops. */
struct geometry_path geometry_path_beside(struct arena *a, struct geometry_path p, double dist);

/* The part of a path with at least one point between two places along it, mm from its start, clamped to its ends; from
 * the later to the earlier it runs backwards. Open, at least two points, in `a`. */
struct geometry_path geometry_path_part(struct arena *a, struct geometry_path p, double from, double to);

/* The same path the other way round. In place. */
void geometry_path_reverse(struct geometry_path p);

/* A copy in `a`. */
struct geometry_path geometry_path_copy(struct arena *a, struct geometry_path p);

#endif
