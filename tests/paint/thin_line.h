/* Thin white lines a little out of upright, mixed in linear light as paint does it and, for comparison, in bytes. */
#ifndef TESTS_PAINT_THIN_LINE_H
#define TESTS_PAINT_THIN_LINE_H

#include "paint/image.h"

/* A line of that width in px from the picture's lower to its upper edge, that far to the right at the top. In `a`. */
struct paint_image thin_line_painted(struct arena *a, int width, int height, double line_px, double lean_px);

/* The same as it would look had the bytes been mixed instead of the light: a pixel half covered is 128, not 188. */
void thin_line_mix_in_bytes(struct paint_image *image);

/* Greatest less least light of any row, as a share of the mean; 0 for a line that is everywhere as bright. */
double thin_line_ripple(const struct paint_image *image);

#endif
