#include "app/amount.h"

#include "units/length.h"

#include <math.h>

const char *app_decimal(struct arena *a, double value, int decimals)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_decimal(text, value, decimals));
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
