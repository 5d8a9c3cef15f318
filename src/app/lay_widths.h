/* What the same pieces take on cloth of other widths, as shops have it. */
#ifndef APP_LAY_WIDTHS_H
#define APP_LAY_WIDTHS_H

#include "lay/lay.h"
#include "tearing/tearing.h"

enum { APP_LAY_WIDTH_ROUNDS = 6 }; /* how long a layout on another width is searched for */

/* The same pieces on cloth of another width. */
struct app_lay_width {
    double width_mm; /* as bought */
    bool fits;
    const char *too_wide;       /* the label of a piece that has no room on it; NULL: all have by themselves */
    bool opened;                /* in a single layer, since spread as the cloth is here it does not fit */
    struct lay_figures figures; /* of all that is torn and laid */
};

/* Of a task, behind what is torn first (NULL: nothing is). Spread alike, or where that does not do in a single layer;
 * texts live in `a`. */
struct app_lay_width app_lay_on_width(struct arena *a, const struct lay_task *task, const struct tearing_plan *torn,
                                      double width_mm, const struct lay_effort *effort, enum units_length unit);

/* Common widths of its material other than the cloth's own, at most as many as there is room for; none of a scrap,
 * which is not bought. Returns how many. */
enum { APP_LAY_WIDTHS = 6 };
size_t app_lay_other_widths(const struct lay_task *task, const struct tearing_plan *torn, enum units_length unit,
                            double mm[APP_LAY_WIDTHS]);

#endif
