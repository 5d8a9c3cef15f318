#include "bench/day.h"

#include "base/words.h"

#include <stdio.h>

static const char *const months[] = { BASE_TR("January"), BASE_TR("February"), BASE_TR("March"),
                                      BASE_TR("April"),   BASE_TR("May"),      BASE_TR("June"),
                                      BASE_TR("July"),    BASE_TR("August"),   BASE_TR("September"),
                                      BASE_TR("October"), BASE_TR("November"), BASE_TR("December") };

static const char *const short_months[] = { BASE_TR_IN("short month", "Jan"), BASE_TR_IN("short month", "Feb"),
                                            BASE_TR_IN("short month", "Mar"), BASE_TR_IN("short month", "Apr"),
                                            BASE_TR_IN("short month", "May"), BASE_TR_IN("short month", "Jun"),
                                            BASE_TR_IN("short month", "Jul"), BASE_TR_IN("short month", "Aug"),
                                            BASE_TR_IN("short month", "Sep"), BASE_TR_IN("short month", "Oct"),
                                            BASE_TR_IN("short month", "Nov"), BASE_TR_IN("short month", "Dec") };

struct day {
    int year, month, day;
    const char *rest; /* what follows it */
};

static bool read_day(const char *iso, struct day *out)
{
    int bytes = 0;
    bool good = sscanf(iso, "%4d-%2d-%2d%n", &out->year, &out->month, &out->day, &bytes) == 3 && bytes == 10 &&
                out->month >= 1 && out->month <= 12;
    out->rest = iso + bytes;
    return good;
}

const char *bench_day(struct arena *a, const char *iso)
{
    struct day d;
    if (!read_day(iso, &d))
        return iso;
    /* To: day, month and year: 30 November 2026 */
    return base_arena_print(a, base_tr("%d %s %d%s"), d.day, base_tr(months[d.month - 1]), d.year, d.rest);
}

const char *bench_day_short(struct arena *a, const char *iso)
{
    struct day d;
    if (!read_day(iso, &d))
        return iso;
    /* To: day, month and year: 30 November 2026 */
    return base_arena_print(a, base_tr("%d %s %d%s"), d.day, base_tr_in("short month", short_months[d.month - 1]),
                            d.year, d.rest);
}
