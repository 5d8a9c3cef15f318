/* Lengths of cloth, and cloths, in a few words. All texts live in `a`. */
#ifndef APP_LAY_WORDS_H
#define APP_LAY_WORDS_H

#include "lay/lay.h"
#include "units/length.h"

/* How much cloth is needed, never less than it is: "1.63 m", in inches to an eighth "64 1/4 in". */
const char *app_lay_length(struct arena *a, double mm, enum units_length unit);

/* How much is left over, never more than it is. */
const char *app_lay_left(struct arena *a, double mm, enum units_length unit);

/* How far something lies off or apart: to the millimetre, below one to a tenth. */
const char *app_lay_off(struct arena *a, double mm);

/* As a shop cuts it: "1.70 m", "1 7/8 yd". */
const char *app_lay_to_buy(struct arena *a, double mm, enum units_length unit);

/* "Buy 1.70 m, because it shrinks by 5 %."; the reason only of cloth that does. */
const char *app_lay_buy(struct arena *a, const struct cloth *cloth, double mm, enum units_length unit);

/* "the near edge", "the fold", "the near fold": what is measured from across the cloth, as it stands behind “from”. */
const char *app_lay_near_edge(const struct lay_task *task);

/* "Fabric, 150 cm wide, folded lengthwise", with its name where it has one. */
const char *app_lay_cloth(struct arena *a, const struct lay_task *task, enum units_length unit);

#endif
