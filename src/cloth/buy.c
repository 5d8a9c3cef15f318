/* What to buy, and in which widths it is sold. */
#include "cloth/cloth.h"

#include <math.h>

#define STEP_MM 100.0              /* shops cut by 10 cm … */
#define STEP_IN_MM (36 * 25.4 / 8) /* … or by 1/8 yd (common practice) */
#define ROUNDING 1e-9              /* of a step: what reckoning may add to a length that is a step */

double cloth_to_buy(const struct cloth *cloth, double need_mm, enum units_length unit)
{
    double unwashed = cloth_before_washing(cloth, need_mm);
    double step = unit == UNITS_IN ? STEP_IN_MM : STEP_MM;
    return ceil(unwashed / step - ROUNDING) * step;
}

double cloth_width_for(const struct cloth *cloth, double usable_mm)
{
    double washed = usable_mm + 2 * cloth->selvedge_mm, step = cloth->unit == UNITS_IN ? UNITS_MM_PER_IN / 8 : 1;
    double left = cloth->width_mm > 0 ? cloth_washed_width(cloth) / cloth->width_mm : 1 - cloth->shrink_weft;
    return ceil(washed / left / step - ROUNDING) * step;
}

/* Usual listings of shops; tests/cloth names where they were seen. */
size_t cloth_common_widths(enum units_length unit, bool interfacing, const double **mm)
{
    static const double metric[] = { 900, 1100, 1400, 1500 };
    static const double inches[] = { 36 * 25.4, 45 * 25.4, 54 * 25.4, 60 * 25.4 };
    static const double metric_interfacing[] = { 500, 900 };
    static const double inches_interfacing[] = { 20 * 25.4, 36 * 25.4, 45 * 25.4 };
    static const struct {
        const double *mm;
        size_t count;
    } rows[2][2] = { { { metric, 4 }, { metric_interfacing, 2 } }, { { inches, 4 }, { inches_interfacing, 3 } } };
    *mm = rows[unit == UNITS_IN][interfacing].mm;
    return rows[unit == UNITS_IN][interfacing].count;
}
