#include "bench/lengths.h"

#include "app/amount.h"

#include <math.h>
#include <string.h>

/* The text with each "/" as U+2044. */
static const char *set_fractions(struct arena *a, const char *text)
{
    const char *stroke = strchr(text, '/');
    if (!stroke)
        return base_arena_copy_text(a, text);
    return base_arena_print(a, "%.*s\342\201\204%s", (int)(stroke - text), text, set_fractions(a, stroke + 1));
}

const char *bench_length(struct arena *a, double mm, enum units_length unit)
{
    char text[UNITS_TEXT];
    return set_fractions(a, units_print_length(text, units_to_sixteenth(mm, unit), unit));
}

const char *bench_number(struct arena *a, double mm, enum units_length unit)
{
    const char *text = bench_length(a, mm, unit), *end = strrchr(text, ' ');
    return end ? base_arena_copy_bytes(a, text, (size_t)(end - text)) : text;
}

const char *bench_length_about(struct arena *a, double mm, enum units_length unit)
{
    double step = unit == UNITS_IN ? units_mm_per(UNITS_IN) / 8 : 5;
    return bench_length(a, step * floor(mm / step + 0.5), unit);
}

const char *bench_two_ways(struct arena *a, const char *typed, const char *mend)
{
    const char *ways = app_no_length(a, typed, NULL);
    return ways ? base_arena_print(a, "%s.", ways) : mend;
}
