/* A quick proof that a closed path is simple, for this folder alone. */
#ifndef GEOMETRY_SIMPLE_H
#define GEOMETRY_SIMPLE_H

#include "geometry/path.h"

#include <stdbool.h>

/* True only if the closed path neither crosses nor touches itself. False is no answer: it may be simple all the same,
 * where sides come nearer to each other than rounding can tell apart, where a point is there twice in a row or where it
 * goes back and forth too often for this to be quick. */
bool geometry_is_surely_simple(struct geometry_path p);

#endif
