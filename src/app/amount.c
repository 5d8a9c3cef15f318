#include "app/amount.h"

#include "units/length.h"

const char *app_decimal(struct arena *a, double value, int decimals)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_decimal(text, value, decimals));
}

const char *app_mm(struct arena *a, double mm)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, mm, UNITS_MM));
}
