#include "cli/run.h"

#include "base/text.h"
#include "sheet/form.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct err_kind missing = { "use.missing", ERR_FAULT, BASE_TR("{0} is needed here") };

void cli_say(const struct cli_run *run, const char *format, ...)
{
    if (run->json)
        return;
    va_list args;
    va_start(args, format);
    const char *text = base_arena_vprint(run->a, format, args);
    va_end(args);
    puts(base_text_plain(run->a, text));
}

bool cli_wrong(struct cli_run *run, const char *sentence, const char *word)
{
    struct err_kind *kind = base_arena_alloc(run->a, 1, sizeof *kind);
    *kind = (struct err_kind){ "use.wrong", ERR_FAULT, sentence };
    base_err(run->errs, kind, base_err_in_file(NULL), ERR_TEXT(word));
    return false;
}

const char *cli_need(struct cli_run *run, enum cli_option o)
{
    if (!run->args.value[o])
        base_err(run->errs, &missing, base_err_in_file(NULL), ERR_TEXT(cli_option_usage(run->a, o)));
    return run->args.value[o];
}

bool cli_frame_size(struct cli_run *run, int *width, int *height)
{
    const char *text = run->args.value[OPT_FRAME];
    int w = 0, h = 0, end = 0;
    if (!text)
        return true;
    bool read = sscanf(text, "%5dx%5d%n", &w, &h, &end) == 2 && !text[end];
    if (!read || w < 100 || h < 100 || w > CALIBRATION_MOST_PX || h > CALIBRATION_MOST_PX)
        return cli_wrong(run, "--frame needs the projector's pixels, such as 1920x1080, not “{0}”", text);
    *width = w;
    *height = h;
    return true;
}

enum units_length cli_person_unit(const struct cli_run *run, const struct job *job)
{
    if (run->unit_is_told)
        return run->unit;
    return job_unit(job);
}

const char *cli_operand_name(struct cli_run *run)
{
    const char *slash = strrchr(run->args.operand, '/'), *name = slash ? slash + 1 : run->args.operand;
    const char *dot = strrchr(name, '.');
    return dot && dot > name ? base_arena_copy_bytes(run->a, name, (size_t)(dot - name)) : name;
}

bool cli_ends_in(const char *path, const char *ending)
{
    const char *dot = strrchr(path, '.');
    return dot && base_text_distance(dot, ending, 1) == 0;
}

bool cli_sigma(struct cli_run *run, double *sigma_mm)
{
    const char *text = run->args.value[OPT_SIGMA];
    double mm;
    if (!text)
        return true;
    if (!units_parse_length(text, UNITS_MM, &mm) || mm < 0.05 || mm > 10)
        return cli_wrong(run, "--sigma needs a length between 0.05 and 10 mm, not “{0}”", text);
    *sigma_mm = mm;
    return true;
}

bool cli_parse_pair(struct arena *a, const char *text, enum units_length unit, double *first_mm, double *second_mm)
{
    const char *comma = strchr(text, ',');
    double first, second;
    if (!comma || strchr(comma + 1, ',') ||
        !units_parse_length(base_arena_copy_bytes(a, text, (size_t)(comma - text)), unit, &first) ||
        !units_parse_length(comma + 1, unit, &second))
        return false;
    *first_mm = first;
    *second_mm = second;
    return true;
}

bool cli_read_password(struct cli_run *run, const char **password)
{
    char line[SHEET_PASSWORD_MOST + 2];
    *password = NULL;
    if (!run->args.value[OPT_PASSWORD_STDIN])
        return true;
    if (!fgets(line, sizeof line, stdin))
        return cli_wrong(run, "--password-stdin: nothing came from standard input{0}", "");
    size_t length = strcspn(line, "\r\n");
    if (length > SHEET_PASSWORD_MOST)
        return cli_wrong(run, "--password-stdin: no password is as long as that{0}", "");
    *password = base_arena_copy_bytes(run->a, line, length);
    return true;
}

bool cli_read_dpi(struct cli_run *run, double *dpi)
{
    const char *text = run->args.value[OPT_DPI];
    char *end = NULL;
    *dpi = text ? strtod(text, &end) : 0;
    if (text && (end == text || *end || !(*dpi >= SHEET_DPI_LEAST && *dpi <= SHEET_DPI_MOST)))
        return cli_wrong(run, "--dpi needs a number from 10 to 10000, not “{0}”", text);
    return true;
}

void cli_pass_on(struct cli_run *run, const struct err_list *from)
{
    for (int i = 0; i < from->count; i++)
        base_err_add(run->errs, from->items[i].kind, from->items[i].place, from->items[i].args);
}
