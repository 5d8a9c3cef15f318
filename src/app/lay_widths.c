#include "app/lay_widths.h"

#include "app/torn.h"
#include "base/text.h"

#include <math.h>

#define SAME_MM 1.0

struct on_width {
    struct arena *a;
    const struct tearing_plan *torn;
    double width_mm;
    const struct lay_effort *effort;
    enum units_length unit;
};

static bool fits(const struct on_width *on, const struct lay_task *task, struct lay_figures *out)
{
    if (on->torn)
        return app_torn_on_width(on->a, on->torn, task, on->width_mm, on->effort, out);
    return lay_on_width(on->a, task, on->width_mm, on->effort, out, on->unit);
}

struct app_lay_width app_lay_on_width(struct arena *a, const struct lay_task *task, const struct tearing_plan *torn,
                                      double width_mm, const struct lay_effort *effort, enum units_length unit)
{
    const struct on_width on = { a, torn, width_mm, effort, unit };
    const struct draft_piece *too_wide = lay_too_wide_on(task, width_mm);
    struct app_lay_width row = { .width_mm = width_mm,
                                 .too_wide = too_wide ? base_text_one_line(a, too_wide->label) : NULL };
    struct cloth opened = *task->cloth;
    struct lay_task single = *task;
    opened.spread = CLOTH_SINGLE;
    single.cloth = &opened;
    row.fits = fits(&on, task, &row.figures);
    row.opened = !row.fits && task->cloth->spread != CLOTH_SINGLE;
    if (row.opened)
        row.fits = fits(&on, &single, &row.figures);
    return row;
}

size_t app_lay_other_widths(const struct lay_task *task, const struct tearing_plan *torn, enum units_length unit,
                            double mm[APP_LAY_WIDTHS])
{
    const double *widths;
    size_t all = cloth_common_widths(unit, task->material == PATTERN_INTERFACING, &widths), count = 0;
    double here = torn ? torn->task->cloth->width_mm : task->cloth->width_mm;
    for (size_t i = 0; i < all && count < APP_LAY_WIDTHS && !task->cloth->outline.path.count; i++)
        if (fabs(widths[i] - here) >= SAME_MM)
            mm[count++] = widths[i];
    return count;
}
