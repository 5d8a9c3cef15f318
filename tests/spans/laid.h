/* Outlines on cloth, for tests of spans. */
#ifndef TESTS_SPANS_LAID_H
#define TESTS_SPANS_LAID_H

#include "spans/spans.h"

#include <stdint.h>

/* Cloth of that size with room for `most` outlines, none there yet; in `a`. */
struct spans_cloth laid_cloth(struct arena *a, double length_mm, double width_mm, size_t most);

/* One more outline: of points, or a rectangle; in `a`. */
void laid_add(struct arena *a, struct spans_cloth *cloth, const vec2 *points, size_t count);
void laid_add_box(struct arena *a, struct spans_cloth *cloth, double x, double y, double length, double width);

/* Five rectangles with 50 mm and more between, 2750 mm long: three spans of a light that reaches 1000. */
struct spans_cloth laid_three_spans(struct arena *a);

/* Rectangles and triangles thrown on 3600 x 800 mm one after the other, where none lies yet. */
struct spans_cloth laid_random(struct arena *a, uint64_t *seed);

/* Rectangles in rows along 2600 x 800 mm, no more than a seam's width apart: next to no waste. */
struct spans_cloth laid_close(struct arena *a, uint64_t *seed);

#endif
