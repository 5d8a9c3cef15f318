/* Outlines by hand. */
#ifndef TESTS_PACKING_OUTLINES_H
#define TESTS_PACKING_OUTLINES_H

#include "geometry/path.h"

#define OUTLINE(...)                                                                                                   \
    ((struct geometry_path){ (vec2[]){ __VA_ARGS__ }, sizeof((vec2[]){ __VA_ARGS__ }) / sizeof(vec2), true })

#define UNIT_SQUARE OUTLINE({ 0, 0 }, { 1, 0 }, { 1, 1 }, { 0, 1 })

/* Three unit squares about a corner; the notch is at the upper right. */
#define ELL OUTLINE({ 0, 0 }, { 2, 0 }, { 2, 1 }, { 1, 1 }, { 1, 2 }, { 0, 2 })

#endif
