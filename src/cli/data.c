/* Where the files that come with the program are: seen from its own folder, wherever that was put. */
#include "base/file.h"
#include "base/program.h"
#include "cli/run.h"

#include <stdlib.h>
#include <time.h>

#define SAMPLE_READINGS "calibration/sample-readings.json"

const char *cli_data_path(struct cli_run *run, const char *name)
{
    const char *places[] = { getenv("CHALKLIGHT_DATA"), base_program_path(run->a, CHALK_DATA_FROM_PROGRAM),
                             CHALK_INSTALL_DATA };
    const char *path = name;
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        if (!places[i] || !*places[i])
            continue;
        path = base_arena_print(run->a, "%s/%s", places[i], name);
        if (base_file_exists(path))
            return path;
    }
    return path;
}

const char *cli_today(struct arena *a)
{
    time_t now = time(NULL);
    struct tm day;
    char text[sizeof "2026-11-25"];
    if (now == (time_t)-1 || !localtime_r(&now, &day) || !strftime(text, sizeof text, "%Y-%m-%d", &day))
        return "";
    return base_arena_copy_text(a, text);
}

bool cli_sample_table(struct cli_run *run, int width, int height, struct calibration_table *out)
{
    const char *path = cli_data_path(run, SAMPLE_READINGS);
    struct calibration_readings readings;
    struct calibration_solution solution;
    if (!calibration_readings_read(run->a, path, &readings, run->errs) ||
        !calibration_solve(run->a, path, &readings, CALIBRATION_LENS_WEAK, &solution, run->errs))
        return false;
    *out = calibration_table_of(run->a, &readings, &solution, cli_today(run->a));
    out->sample = true;
    if (width > 0)
        calibration_table_reframe(out, width, height);
    return true;
}
