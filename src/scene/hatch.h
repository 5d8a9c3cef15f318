/* Hatching: strokes all over what outlines share. */
#ifndef SCENE_HATCH_H
#define SCENE_HATCH_H

#include "scene/lane.h"

/* Strokes along the unit vector `along`, so far `apart`, wherever all of the closed outlines are: the ends of each, two
 * by two, in `a`. Returns how many strokes. `outlines` has one at least. */
size_t scene_hatch(struct arena *a, const struct scene_obstacles *outlines, vec2 along, double apart, vec2 **ends);

/* The two ways in which an overlap is hatched. */
extern const vec2 scene_hatch_ways[2];

#endif
