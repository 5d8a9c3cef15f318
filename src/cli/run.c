#include "cli/run.h"

#include "app/sentence.h"
#include "base/file.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const struct err_kind missing = { "use.missing", ERR_FAULT, "{0} is needed here" };

void cli_say(const struct cli_run *run, const char *format, ...)
{
    if (run->json)
        return;
    va_list args;
    va_start(args, format);
    vprintf(format, args);
    va_end(args);
    putchar('\n');
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

int cli_save_text(struct cli_run *run, const char *path, const char *text)
{
    return base_file_save(path, text, strlen(text), run->errs) ? CLI_OK : CLI_FAULT;
}
