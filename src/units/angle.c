#include "units/angle.h"

#include "units/number.h"

#include <stddef.h>

#define FARTHEST_DEG 36000.0

/* The unit, all that is left; none is degrees too. */
static bool is_unit(const char *at)
{
    static const char *const names[] = { "", "°", "deg", "degree", "degrees", "Grad" };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (units_is_rest(at, names[i]))
            return true;
    return false;
}

bool units_parse_degrees(const char *text, double *out_deg)
{
    double amount;
    if (!units_fits(text))
        return false;
    units_skip_space(&text);
    double sign = units_read_sign(&text);
    if (!units_read_decimal(&text, &amount) || !is_unit(text) || amount > FARTHEST_DEG)
        return false;
    *out_deg = sign * amount;
    return true;
}
