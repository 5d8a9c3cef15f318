/* What the rulings of a mat call a place of the table, written without the code under test. */
#ifndef TESTS_CALIBRATION_RULINGS_H
#define TESTS_CALIBRATION_RULINGS_H

#include "calibration/model.h"

#include <math.h>

static inline struct table_pt rulings_at(const struct calibration_pose *pose, struct table_pt table)
{
    double x = table.x - pose->shift_mm.x, y = table.y - pose->shift_mm.y;
    double c = cos(pose->turn_rad), s = sin(pose->turn_rad);
    return (struct table_pt){ c * x + s * y, c * y - s * x };
}

#endif
