/* Outlines made in a test: points, cubics in even steps of their parameter, and distances by arithmetic of its own. */
#ifndef TESTS_LIFTING_SHAPES_H
#define TESTS_LIFTING_SHAPES_H

#include "geometry/path.h"

/* A closed outline under construction. */
struct shape {
    struct arena *a;
    struct geometry_path path;
    size_t cap;
};

struct shape shape_begin(struct arena *a);
void shape_point(struct shape *s, double x, double y);

/* From the last point by a cubic, in so many steps; the end is added, too. */
void shape_cubic(struct shape *s, vec2 b, vec2 c, vec2 d, int steps);

/* An arc about a centre from one angle to another (degrees), both ends added. */
void shape_arc(struct shape *s, vec2 centre, double radius, double from, double to, int steps);

/* How many steps keep the chords of an arc so near to it. */
int shape_arc_steps(double radius, double degrees, double chord_mm);

/* A rectangle counter-clockwise, its first point at the corner of that number. */
struct geometry_path shape_rectangle(struct arena *a, double x, double y, double width, double height, int first);

/* How far the farthest point of one line lies from another, the sides of the first seen at `between` places each. */
double shape_farthest(struct geometry_path from, struct geometry_path to, int between);

/* A cubic seen at so many places, its ends among them. */
struct geometry_path shape_seen_cubic(struct arena *a, const vec2 p[4], int places);

#endif
