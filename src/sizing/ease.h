/* Ease: what the sewn garment measures beyond the body, against what the pattern means it to. */
#ifndef SIZING_EASE_H
#define SIZING_EASE_H

#include "sizing/choose.h"

/* Finished less body; below zero the garment is closer than the body. Only where the finished measurement is given. */
double sizing_ease_mm(const struct sizing_reason *reason);

/* By how much there is less ease than the pattern means, mm; 0 when there is not, by no more than a tape tells
 * (SIZING_TIE_MM), or when the pattern does not say what it means, or what the garment measures. */
double sizing_tighter_mm(const struct sizing_reason *reason);

/* Whether the garment is closer than the body where the pattern means it not to be. */
bool sizing_is_smaller_than_body(const struct sizing_reason *reason);

#endif
