/* What a drawn side may be meant as. */
#ifndef DRAWING_MEANT_H
#define DRAWING_MEANT_H

#include <stdbool.h>
#include <stddef.h>

/* How a scale comes about, the likeliest first: not at all, by a whole number of percent that somebody typed, or
 * because a page was fitted to a paper. */
enum drawing_scale_rank { DRAWING_SCALE_TRUE, DRAWING_SCALE_WHOLE, DRAWING_SCALE_ANY };

/* Of drawn / true. */
enum drawing_scale_rank drawing_scale_rank(double share);

/* Whether a file could be saved at that scale without anybody noticing: 90 % to 110 %, and a little. */
bool drawing_is_near(double share);

/* Whether a side is a whole number of centimetres or half inches. */
bool drawing_is_plain(double side_mm);

/* The round sides, mm, that a square of this size may be meant as, the likelier first. Returns how many. */
size_t drawing_likely_sides(double drawn_mm, double sides_mm[2]);

/* Brings the likelier of two sides to the front. False when neither is. */
bool drawing_likelier_first(double drawn_mm, double sides_mm[2]);

#endif
