/* Where an outline turns: its corners, and the ends of its straight sides. A curve that was drawn in chords has none on
 * the way. */
#ifndef LIFTING_CORNERS_H
#define LIFTING_CORNERS_H

#include "geometry/path.h"

/* Chords of a curve lie no farther from it than this, mm; what does is a corner. */
#define LIFTING_CHORD_MM 0.15

struct lifting_corner {
    double along_mm; /* from the outline's first point */
    vec2 at;
    vec2 come, go; /* directions on either side, length 1 */
    double turn;   /* to the left above zero; the sine up to a right angle, two less it beyond */
};

/* How far it turns from one direction of length 1 to another. */
double lifting_turn(vec2 come, vec2 go);

/* From this on a turn is a corner to everyone (20°). */
#define LIFTING_PLAIN_TURN 0.342

/* How far a curve that was drawn in chords lies beyond the middle of the side behind point i of an open path, mm: a
 * circle through points that turn so. A side at an end of the path is as its other end has it; one that turns too far
 * for a chord is none, 0. */
double lifting_beyond_chord(const vec2 *points, size_t count, size_t i);

/* Points this near to a line are on it, mm: rounding, and what a curve is flattened by. */
#define LIFTING_STRAIGHT_MM 0.0005

/* In their order along the closed outline, points so near to lines left aside; in `a`. How many: none of a circle. */
size_t lifting_find_corners(struct arena *a, struct geometry_path outline, double near_mm, struct lifting_corner **out);

#endif
