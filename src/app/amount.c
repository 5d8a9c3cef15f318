#include "app/amount.h"

#include "base/words.h"
#include "units/typed.h"

#include <math.h>
#include <string.h>

const char *app_decimal(struct arena *a, double value, int decimals)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_decimal(text, value, decimals));
}

const char *app_fixed(struct arena *a, double value, int decimals)
{
    char *text = base_arena_copy_text(a, base_arena_print(a, "%.*f", decimals, value)), *point = strchr(text, '.');
    if (point)
        *point = *base_tr_in("decimal mark", ".");
    return text;
}

const char *app_figures(struct arena *a, double value, int figures)
{
    int decimals = figures - 1;
    for (double most = 10; decimals > 0 && fabs(value) >= most; most *= 10)
        decimals--;
    for (double least = 1; decimals < 6 && fabs(value) < least && value != 0; least /= 10)
        decimals++;
    return app_decimal(a, value, decimals);
}

const char *app_mm(struct arena *a, double mm)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, mm, UNITS_MM));
}

const char *app_no_length(struct arena *a, const char *typed, const char *why)
{
    char small[UNITS_TEXT], large[UNITS_TEXT];
    if (!units_two_ways(typed, small, large))
        return why;
    return base_arena_print(a, base_tr("It can be read in two ways: write %s or %s"), small, large);
}
