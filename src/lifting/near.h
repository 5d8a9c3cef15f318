/* What of a closed outline is near a point, quickly. Inside lifting alone. */
#ifndef LIFTING_NEAR_H
#define LIFTING_NEAR_H

#include "geometry/path.h"

struct lifting_near;

/* A place on the outline. */
struct lifting_place {
    vec2 at, way; /* way: along it, length 1 */
    double away;  /* mm from what was asked about */
    double along; /* mm from its start */
};

/* In `a`; the path must have a point and live as long. */
struct lifting_near *lifting_near_of(struct arena *a, struct geometry_path outline);

/* The nearest place within `reach` mm; false when there is none. */
bool lifting_near_find(const struct lifting_near *n, vec2 at, double reach, struct lifting_place *out);

/* Where the line from one point to another first crosses the outline; `away` is from its start. False when it does not.
 */
bool lifting_near_cross(const struct lifting_near *n, vec2 from, vec2 to, struct lifting_place *out);

/* mm once around. */
double lifting_near_length(const struct lifting_near *n);

#endif
