#include "cli/own_table.h"

#include "app/walk.h"
#include "base/xdg.h"
#include "calibration/readings.h"

#include <sys/stat.h>

/* Whether `path` was written after `other`, or that one is not there. */
static bool is_newer(const char *path, const char *other)
{
    struct stat one, two;
    return stat(path, &one) == 0 && (stat(other, &two) != 0 || one.st_mtime > two.st_mtime);
}

/* One that was read on two places of the mat counts once. */
static int crosses_read(const struct calibration_readings *readings)
{
    bool read[APP_WALK_CROSSES + 1] = { false };
    int count = 0;
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *one = &readings->items[i];
        if (one->kind == CALIBRATION_DISTANCE || one->cross < 1 || one->cross > APP_WALK_CROSSES)
            continue;
        count += !read[one->cross];
        read[one->cross] = true;
    }
    return count;
}

const char *cli_own_table(struct arena *a)
{
    return base_xdg_path(a, BASE_XDG_DATA, "table.json");
}

void cli_own_table_begun(struct bench_lamp *lamp)
{
    struct arena *a = base_arena_create();
    const char *table = cli_own_table(a);
    const char *path = table ? base_arena_print(a, "%s.readings", table) : NULL;
    struct calibration_readings readings;
    struct err_list *ignored = base_err_list_create();
    if (path && is_newer(path, table) && calibration_readings_read(a, path, &readings, ignored)) {
        lamp->read = crosses_read(&readings);
        lamp->of = APP_WALK_CROSSES - (int)readings.beside_count;
    }
    base_err_list_destroy(ignored);
    base_arena_destroy(a);
}
