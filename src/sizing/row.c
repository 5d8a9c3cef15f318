#include "sizing/row.h"

#include "pattern/pattern.h"

#include <math.h>

/* For rounding alone: far below what a tape shows. */
#define ROUNDING 1e-9

static double distance(struct pattern_value row, size_t size, double mm)
{
    return fabs(row.mm[size] - mm);
}

static bool equally_near(struct pattern_value row, size_t one, size_t two, double mm)
{
    return fabs(distance(row, one, mm) - distance(row, two, mm)) <= SIZING_TIE_MM;
}

/* The size across the middle when the measurement lies close to the middle between two sizes; `otherwise` when not. */
static size_t across_the_middle(struct pattern_value row, double mm, size_t size, size_t otherwise)
{
    double position = sizing_row_position(row, mm);
    size_t lower = (size_t)floor(position);
    if (fabs(position - (double)lower - 0.5) > SIZING_MIDDLE_SHARE + ROUNDING)
        return otherwise;
    return row.mm[size] == row.mm[lower] ? lower + 1 : lower;
}

struct sizing_nearest sizing_row_nearest(struct pattern_value row, double mm)
{
    struct sizing_nearest n = { 0, 0, false };
    for (size_t i = 1; i < row.count; i++) {
        if (equally_near(row, i, n.size, mm))
            n = (struct sizing_nearest){ i, n.size, true };
        else if (distance(row, i, mm) < distance(row, n.size, mm))
            n = (struct sizing_nearest){ i, i, false };
    }
    n.other = across_the_middle(row, mm, n.size, n.other);
    n.tie = n.other != n.size && equally_near(row, n.other, n.size, mm);
    return n;
}

double sizing_row_position(struct pattern_value row, double mm)
{
    size_t last = row.count - 1;
    if (mm <= row.mm[0])
        return 0;
    for (size_t i = 0; i < last; i++)
        if (mm < row.mm[i + 1])
            return (double)i + (mm - row.mm[i]) / (row.mm[i + 1] - row.mm[i]);
    return (double)last;
}

double sizing_row_position_near(struct pattern_value row, double mm, double position)
{
    if (row.count < 2)
        return position;
    double low = sizing_row_position(row, mm), at_mm = pattern_value_at(row, low), high = low;
    for (size_t i = 0; i < row.count; i++)
        if (row.mm[i] == at_mm) {
            low = fmin(low, (double)i);
            high = fmax(high, (double)i);
        }
    return fmin(fmax(position, low), high);
}

double sizing_row_between(struct pattern_value row, struct sizing_nearest nearest, double mm)
{
    size_t lower = nearest.size < nearest.other ? nearest.size : nearest.other;
    double part = sizing_row_position(row, mm) - (double)lower;
    int tenths = (int)floor(10 * fmin(fmax(part, 0), 1) + 0.5 + ROUNDING);
    bool neighbours = nearest.size + nearest.other == 2 * lower + 1;
    return neighbours && tenths > 0 && tenths < 10 ? pattern_position_between(lower, 10 * tenths) : 0;
}

bool sizing_row_is_below(struct pattern_value row, double mm)
{
    double step = row.count > 1 ? row.mm[1] - row.mm[0] : 0;
    return mm < row.mm[0] - step / 2;
}

bool sizing_row_is_above(struct pattern_value row, double mm)
{
    size_t last = row.count - 1;
    double step = row.count > 1 ? row.mm[last] - row.mm[last - 1] : 0;
    return step > 0 ? mm >= row.mm[last] + step / 2 : mm > row.mm[last];
}
