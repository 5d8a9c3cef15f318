#include "drawing/meant.h"
#include "drawing/squares.h"
#include "units/length.h"

#include <math.h>

#define NEAR_SHARE 0.105
#define PLAIN_MM 1e-6

/* A hundredth of a point, as most producers round, on a square of 5 cm. */
#define WHOLE_SHARE 0.00007

/* Common practice, no source. */
static const double round_sides_mm[] = { UNITS_MM_PER_IN, 50, 2 * UNITS_MM_PER_IN, 100, 4 * UNITS_MM_PER_IN };

enum { ROUND_SIDES = sizeof round_sides_mm / sizeof round_sides_mm[0] };

enum drawing_scale_rank drawing_scale_rank(double share)
{
    if (fabs(share - 1) <= DRAWING_TRUE_SHARE)
        return DRAWING_SCALE_TRUE;
    double whole = round(100 * share) / 100;
    return whole > 0 && fabs(share - whole) <= WHOLE_SHARE ? DRAWING_SCALE_WHOLE : DRAWING_SCALE_ANY;
}

bool drawing_is_near(double share)
{
    return fabs(share - 1) <= NEAR_SHARE;
}

static bool is_multiple(double mm, double step_mm)
{
    return fabs(mm - round(mm / step_mm) * step_mm) <= PLAIN_MM;
}

bool drawing_is_plain(double side_mm)
{
    return is_multiple(side_mm, 10) || is_multiple(side_mm, UNITS_MM_PER_IN / 2);
}

bool drawing_likelier_first(double drawn_mm, double sides_mm[2])
{
    double one = drawn_mm / sides_mm[0], other = drawn_mm / sides_mm[1];
    enum drawing_scale_rank one_rank = drawing_scale_rank(one), other_rank = drawing_scale_rank(other);
    if (other_rank < one_rank || (other_rank == one_rank && fabs(other - 1) < fabs(one - 1))) {
        double first = sides_mm[0];
        sides_mm[0] = sides_mm[1];
        sides_mm[1] = first;
    }
    return one_rank != other_rank;
}

size_t drawing_likely_sides(double drawn_mm, double sides_mm[2])
{
    size_t count = 0;
    for (size_t i = 0; i < ROUND_SIDES && count < 2; i++)
        if (drawing_is_near(drawn_mm / round_sides_mm[i]))
            sides_mm[count++] = round_sides_mm[i];
    if (count == 2)
        drawing_likelier_first(drawn_mm, sides_mm);
    return count;
}
