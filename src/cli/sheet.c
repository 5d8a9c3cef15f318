/* A drawn sheet on the command line: what is on it, and a pattern of its pieces. */
#include "app/sheet_report.h"
#include "base/text.h"
#include "base/words.h"
#include "cli/run.h"
#include "export/drawing_svg.h"
#include "lifting/write.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const struct err_kind ask_size = {
    "use.ask_side", ERR_FAULT,
    BASE_TR("has a test square of {0} × {1}, but nothing says what it is meant as. Measured on paper it is the side "
            "that is "
            "printed in it: give that with --side-is, such as --side-is \"4 in\"; or --as-drawn")
};
static const struct err_kind disagree = {
    "use.squares_disagree", ERR_FAULT,
    BASE_TR("has test squares that say different things of its scale. Give the true side of the one of {0} × {1} with "
            "--side-is; or --as-drawn")
};

/* --------------------------------------------------------------------------------------------- what the options say */

static bool read_choices(struct cli_run *run, struct app_import_choices *c)
{
    const char *across = run->args.value[OPT_ACROSS], *side = run->args.value[OPT_SIDE_IS];
    char *end = NULL;
    long columns = across ? strtol(across, &end, 10) : 0;
    if (across && (end == across || *end || columns < 1 || columns > SHEET_PAGES_MOST))
        return cli_wrong(run, "--across needs a whole number from 1 on, not “{0}”", across);
    c->pages.columns = (int)columns;
    c->pages.by_columns = run->args.value[OPT_DOWN_FIRST] != NULL;
    if (run->args.value[OPT_AS_DRAWN])
        c->scale = APP_IMPORT_AS_DRAWN;
    if (side && c->scale == APP_IMPORT_AS_DRAWN)
        return cli_wrong(run, "--side-is and {0} exclude each other", "--as-drawn");
    if (side && (!units_parse_length(side, run->unit, &c->side_mm) || c->side_mm < 1))
        return cli_wrong(run, "--side-is needs a length, such as \"4 in\", not “{0}”", side);
    if (side)
        c->scale = APP_IMPORT_BY_SQUARE;
    return true;
}

/* Options that say something of a pattern say nothing where none is written. */
static bool has_no_pattern_options(struct cli_run *run)
{
    static const struct {
        enum cli_option option;
        const char *name;
    } rows[] = {
        { OPT_CHART, "--chart" },
        { OPT_OUTLINE, "--outline" },
        { OPT_ALLOWANCE, "--allowance" },
        { OPT_NAME, "--name" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (run->args.value[rows[i].option])
            return cli_wrong(run, "{0} is for a pattern of the pieces: give its name, that ends in .json, by --out",
                             rows[i].name);
    return true;
}

/* What a pattern cannot be written without. */
static bool read_wish(struct cli_run *run, struct lifting_wish *wish)
{
    const char *outline = run->args.value[OPT_OUTLINE], *allowance = run->args.value[OPT_ALLOWANCE];
    const char *out = run->args.value[OPT_OUT];
    if ((!out || cli_ends_in(out, ".svg")) && !has_no_pattern_options(run))
        return false;
    if (!out || cli_ends_in(out, ".svg"))
        return true;
    if (!cli_ends_in(out, ".json"))
        return cli_wrong(
            run,
            "--out needs a name that ends in .json for a pattern of the pieces or in .svg for the sheet as "
            "it is, joined and at true scale, not “{0}”",
            out);
    if (!outline || (strcmp(outline, "cutting") != 0 && strcmp(outline, "stitching") != 0))
        return cli_wrong(run,
                         "is the seam allowance within the outlines? The pattern's instructions say so. Give --outline "
                         "cutting if it is, --outline stitching if it has to be added{0}",
                         "");
    wish->cutting_line = strcmp(outline, "cutting") == 0;
    if (!allowance)
        return cli_wrong(run, "how wide is the seam allowance? Give {0}, \"0\" for none", "--allowance");
    if (!units_parse_length(allowance, run->unit, &wish->allowance_mm) || wish->allowance_mm < 0 ||
        wish->allowance_mm > 200)
        return cli_wrong(run, "--allowance needs a length up to 200 mm, not “{0}”", allowance);
    return true;
}

/* ---------------------------------------------------------------------------------------------------------- reading */

static bool read_chart(struct cli_run *run, struct lifting_wish *wish)
{
    const char *path = run->args.value[OPT_CHART];
    wish->chart = path ? lifting_chart_read(run->a, path, run->errs) : NULL;
    return wish->chart || !path;
}

/* On a terminal, how far it is; nothing is said of what is read at once. */
static bool show_progress(void *with, unsigned percent)
{
    unsigned *ticks = with;
    if (++*ticks >= 10) {
        fputc('\r', stderr);
        fprintf(stderr, base_tr("Reading the drawing: %u %% "), percent);
    }
    return true;
}

static struct app_import *read_sheet(struct cli_run *run, const char *password, double dpi)
{
    unsigned ticks = 0;
    struct sheet_how how = { .password = password, .dpi = dpi, .with = &ticks };
    if (isatty(STDERR_FILENO))
        how.go_on = show_progress;
    struct app_import *im = app_import_read(run->args.operand, &how, run->errs);
    if (ticks >= 10)
        fputs("\r                                    \r", stderr);
    return im;
}

/* Nothing is made of lengths that nobody knows to be true. */
static bool is_scale_known(struct cli_run *run, const struct app_import *im)
{
    const struct drawing_truth *t = &im->truth;
    bool ask = t->kind == DRAWING_ASK_SIZE || t->kind == DRAWING_DISAGREE;
    if (!ask || im->choices.scale != APP_IMPORT_AS_FOUND)
        return true;
    base_err(run->errs, t->kind == DRAWING_ASK_SIZE ? &ask_size : &disagree, base_err_in_file(run->args.operand),
             ERR_MM(t->square->width_mm), ERR_MM(t->square->height_mm));
    return false;
}

static int save_pattern(struct cli_run *run, const struct app_import *im, const struct lifting_wish *wish)
{
    const char *out = run->args.value[OPT_OUT];
    const char *text = lifting_write(run->a, &im->lifting, wish, run->errs);
    int code = text ? cli_save_text(run, out, text) : CLI_FAULT;
    if (code == CLI_OK)
        cli_say(run,
                base_tr_count(im->lifting.piece_count,
                              "A pattern of %zu piece: %s. “chalklight check %s” proof-reads it.",
                              "A pattern of %zu pieces: %s. “chalklight check %s” proof-reads it."),
                im->lifting.piece_count, out, base_text_typed(run->a, out));
    return code;
}

static int save_drawing(struct cli_run *run, const struct app_import *im)
{
    const char *out = run->args.value[OPT_OUT];
    int code = cli_save_text(run, out, export_drawing_svg(run->a, &im->chosen, 0, cli_operand_name(run)));
    if (code == CLI_OK)
        cli_say(run, base_tr("The sheet at true scale, layer by layer: %s"), out);
    return code;
}

static int save(struct cli_run *run, const struct app_import *im, const struct lifting_wish *wish)
{
    if (!is_scale_known(run, im))
        return CLI_FAULT;
    return cli_ends_in(run->args.value[OPT_OUT], ".svg") ? save_drawing(run, im) : save_pattern(run, im, wish);
}

static int show(struct cli_run *run, struct app_import *im, const struct lifting_wish *wish)
{
    const char *layers = run->args.value[OPT_SHEET_LAYERS];
    if (layers && !app_import_use_layers(im, layers, run->errs))
        return CLI_FAULT;
    app_import_make(im, APP_IMPORT_PIECES);
    cli_pass_on(run, im->told);
    if (run->json)
        app_sheet_json(run->json, run->a, im);
    cli_say(run, "%s", app_sheet_report(run->a, im, run->unit));
    return run->args.value[OPT_OUT] ? save(run, im, wish) : CLI_OK;
}

static bool is_room_across(struct cli_run *run, const struct app_import *im)
{
    if (im->choices.pages.columns <= (int)im->flat.page_count)
        return true;
    const char *said = base_arena_print(run->a, base_tr("%d: there are only %zu pages"), im->choices.pages.columns,
                                        im->flat.page_count);
    if (im->flat.page_count == 1)
        said = base_arena_print(run->a, base_tr("%d: there is only one page"), im->choices.pages.columns);
    return cli_wrong(run, "--across {0}", said);
}

int cli_run_sheet(struct cli_run *run)
{
    struct app_import_choices choices = { 0 };
    struct lifting_wish wish = { .name = run->args.value[OPT_NAME], .unit = run->unit };
    const char *password;
    double dpi;
    if (!read_choices(run, &choices) || !read_wish(run, &wish) || !cli_read_password(run, &password) ||
        !cli_read_dpi(run, &dpi))
        return CLI_WRONG_USE;
    if (!wish.name)
        wish.name = cli_operand_name(run);
    if (!read_chart(run, &wish))
        return CLI_FAULT;
    struct app_import *im = read_sheet(run, password, dpi);
    if (!im)
        return CLI_FAULT;
    im->choices = choices;
    int code = is_room_across(run, im) ? show(run, im, &wish) : CLI_WRONG_USE;
    app_import_destroy(im);
    return code;
}
