/* What is cut on, told by options: cloth in layers, and a mat that goes or comes. */
#include "app/lens.h"
#include "base/words.h"
#include "cli/run.h"

#include <stdlib.h>

static bool thickness(struct cli_run *run, enum cli_option o, double *out_mm)
{
    const char *text = run->args.value[o];
    if (!text)
        return true;
    double mm;
    if (!units_parse_length(text, UNITS_MM, &mm) || mm < 0 || mm > CALIBRATION_MOST_CLOTH_MM)
        return cli_wrong(run, "{0} is not a thickness from 0 to 50 mm", text);
    *out_mm = mm;
    return true;
}

static bool layers(struct cli_run *run, int *out)
{
    const char *text = run->args.value[OPT_LAYERS];
    char *end = NULL;
    *out = run->args.value[OPT_CLOTH] ? 1 : 0;
    if (!text)
        return true;
    if (!run->args.value[OPT_CLOTH])
        return cli_wrong(run, "--layers {0} needs --cloth, the thickness of one, beside it", text);
    long n = strtol(text, &end, 10);
    if (end == text || *end || n < 1 || n > CALIBRATION_MOST_LAYERS)
        return cli_wrong(run, "--layers needs a whole number from 1 to 100, not “{0}”", text);
    *out = (int)n;
    return true;
}

bool cli_surface(struct cli_run *run, struct calibration_surface *out)
{
    const char *goes = run->args.value[OPT_MAT_GOES], *comes = run->args.value[OPT_MAT_COMES];
    struct calibration_surface s = { .mat = goes    ? CALIBRATION_MAT_GOES
                                            : comes ? CALIBRATION_MAT_COMES
                                                    : CALIBRATION_MAT_STAYS };
    if (goes && comes)
        return cli_wrong(run, "a mat either goes or comes: leave --mat-goes or {0} out", "--mat-comes");
    if (!thickness(run, OPT_CLOTH, &s.cloth_mm) || !layers(run, &s.layers) ||
        !thickness(run, goes ? OPT_MAT_GOES : OPT_MAT_COMES, &s.mat_mm))
        return false;
    if (!calibration_surface_is_valid(&s))
        return cli_wrong(run, "cloth and mat come to more than can be made up for, which is {0}", "100 mm");
    *out = s;
    return true;
}

void cli_say_surface(struct cli_run *run, const struct job *job)
{
    double raise = calibration_raise_mm(&job->surface);
    bool known = job->has_table && calibration_lens_is_known(&job->table.lens);
    const char *warning = job->has_table ? app_surface_warning(run->a, &job->table, &job->surface) : NULL;
    const char *told = app_surface_told(run->a, job->has_table ? &job->table : NULL, &job->surface);
    if (told)
        cli_say(run, "%s", told);
    if (run->json) {
        json_out_number(run->json, "surface_above_table_mm", raise);
        json_out_bool(run->json, "height_made_up_for", known || raise == 0);
        json_out_text(run->json, "height_warning", warning);
    }
}
