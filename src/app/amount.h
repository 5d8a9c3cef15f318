/* Numbers inside sentences, with her language's decimal mark. In `a`. */
#ifndef APP_AMOUNT_H
#define APP_AMOUNT_H

#include "base/arena.h"

/* With at most so many decimals: "1.25", "3". */
const char *app_decimal(struct arena *a, double value, int decimals);

/* With exactly so many, for columns: "1.60". */
const char *app_fixed(struct arena *a, double value, int decimals);

/* With so many figures that count: of 3, "12.5", "0.0125". */
const char *app_figures(struct arena *a, double value, int figures);

/* "0.4 mm", whatever her unit: of what is far smaller than cloth. */
const char *app_mm(struct arena *a, double mm);

/* Why what she typed is no length: that it can be read in two ways (units/typed.h), else `why`, which
 * may be NULL. */
const char *app_no_length(struct arena *a, const char *typed, const char *why);

#endif
