#include "app/cloth_words.h"

#include <math.h>

#define CM_MM 10.0
#define EIGHTH_IN_MM (UNITS_MM_PER_IN / 8)
#define EIGHTH_YD_MM (36 * UNITS_MM_PER_IN / 8)
#define ROUNDING 1e-9 /* of a mark: what reckoning may add to a length that is one */

static const char *on_marks(struct arena *a, double marks, enum units_length unit)
{
    char text[UNITS_TEXT];
    if (unit == UNITS_IN)
        return base_arena_copy_text(a, units_print_length(text, marks * EIGHTH_IN_MM, unit));
    return base_arena_print(a, "%.2f m", marks * CM_MM / 1000);
}

static double mark_mm(enum units_length unit)
{
    return unit == UNITS_IN ? EIGHTH_IN_MM : CM_MM;
}

const char *app_cloth_needed(struct arena *a, double mm, enum units_length unit)
{
    return on_marks(a, ceil(mm / mark_mm(unit) - ROUNDING), unit);
}

const char *app_cloth_left(struct arena *a, double mm, enum units_length unit)
{
    return on_marks(a, floor(mm / mark_mm(unit) + ROUNDING), unit);
}

const char *app_cloth_to_buy(struct arena *a, double mm, enum units_length unit)
{
    static const char *const eighths[] = { "", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8" };
    if (unit != UNITS_IN)
        return base_arena_print(a, "%.2f m", mm / 1000);
    int count = (int)floor(mm / EIGHTH_YD_MM + 0.5), whole = count / 8;
    const char *rest = eighths[count % 8];
    return whole ? base_arena_print(a, "%d%s%s yd", whole, *rest ? " " : "", rest) : base_arena_print(a, "%s yd", rest);
}

const char *app_cloth_because(struct arena *a, const struct cloth *cloth)
{
    if (cloth->is_washed || cloth->shrink_warp <= 0)
        return "";
    return base_arena_print(a, ", because it shrinks by %g %%", round(1000 * cloth->shrink_warp) / 10);
}
