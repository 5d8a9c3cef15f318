/* Lengths of cloth in words. All texts live in `a`. */
#ifndef APP_CLOTH_WORDS_H
#define APP_CLOTH_WORDS_H

#include "cloth/cloth.h"

/* "1.63 m", "64 1/4 in": what is needed, never less than it is. */
const char *app_cloth_needed(struct arena *a, double mm, enum units_length unit);

/* What is left over or at hand, never more than it is. */
const char *app_cloth_left(struct arena *a, double mm, enum units_length unit);

/* As a shop cuts it: "1.70 m", "1 7/8 yd". */
const char *app_cloth_to_buy(struct arena *a, double mm, enum units_length unit);

/* ", because it shrinks by 5 %"; "" of cloth that does not. */
const char *app_cloth_because(struct arena *a, const struct cloth *cloth);

#endif
