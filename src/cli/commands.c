#include "app/arrange.h"
#include "app/check.h"
#include "app/lift.h"
#include "app/sentence.h"
#include "app/size_report.h"
#include "app/walk.h"
#include "base/file.h"
#include "base/words.h"
#include "cli/run.h"
#include "input/key.h"
#include "pattern/read.h"
#include "screen/window.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* What a command takes. */
#define OPTIONS(...) ((const enum cli_option[]){ __VA_ARGS__, CLI_OPTIONS })
#define EVERY OPT_UNIT, OPT_JSON, OPT_HELP

/* What is cut for whom. */
#define CHOICES OPT_BODY, OPT_VIEW, OPT_SIZE, OPT_CUP, OPT_MADE_TO, OPT_BLEND, OPT_ALTER, OPT_TRIAL

static int run_check(struct cli_run *run)
{
    const char *report;
    bool ok = app_check(run->a, run->args.operand, run->args.value[OPT_BODY], &report, run->json, run->errs);
    if (run->json)
        json_out_text(run->json, "report", report);
    const char *end = base_tr("Nothing to mend.");
    size_t notes = (size_t)run->errs->count;
    if (ok && notes)
        end = base_arena_print(
            run->a, base_tr_count(notes, "No fault, but %zu note to look at.", "No fault, but %zu notes to look at."),
            notes);
    if (ok || *report)
        cli_say(run, "%s%s", report, ok ? end : "");
    return ok ? CLI_OK : CLI_FAULT;
}

static void say_keys(struct cli_run *run, const char *title, const char *name, const struct scene_help_line *lines,
                     size_t count)
{
    struct json_out *list = run->json ? json_out_list(run->json, name) : NULL;
    cli_say(run, "%s", title);
    for (size_t i = 0; i < count; i++) {
        cli_say(run, "  %-40s %s", lines[i].key, lines[i].what);
        if (list) {
            struct json_out *row = json_out_object(list, NULL);
            json_out_text(row, "key", lines[i].key);
            json_out_text(row, "what", lines[i].what);
        }
    }
}

/* Keys of presenters, controllers and foot switches, and the key that each does the work of. */
static void say_stand_ins(struct cli_run *run)
{
    size_t count;
    const struct input_stand_in *rows = input_stand_ins(&count);
    struct scene_help_line *lines = base_arena_alloc(run->a, count, sizeof *lines);
    for (size_t i = 0; i < count; i++) {
        char key[INPUT_KEY_TEXT], does[INPUT_KEY_TEXT];
        lines[i].key = base_arena_copy_text(run->a, input_key_name(key, rows[i].key, rows[i].mods));
        lines[i].what = base_arena_print(run->a, base_tr("as %s"), input_key_name(does, rows[i].does, 0));
    }
    say_keys(run, base_tr("By presenter, game controller and foot switch"), "others", lines, count);
}

/* The names that begin with these pages (app/key_map.h), and the key that each has. */
static void say_names_of(struct cli_run *run, const struct app_key_map *map, unsigned of, const char *title,
                         const char *list)
{
    size_t all, count = 0;
    const struct app_key_name *names = app_key_names(&all);
    struct scene_help_line *lines = base_arena_alloc(run->a, all, sizeof *lines);
    for (size_t i = 0; i < all; i++) {
        char name[INPUT_KEY_TEXT];
        int key = names[i].key, mods = names[i].mods;
        if (!(names[i].of & of) || (names[i].of & (of - 1)))
            continue;
        app_key_map_shown(map, of, &key, &mods);
        lines[count].key = base_arena_copy_text(run->a, input_key_name(name, key, mods));
        lines[count++].what = names[i].name;
    }
    say_keys(run, title, list, lines, count);
}

/* The names by which keys are given to actions. */
static void say_names(struct cli_run *run, const struct app_key_map *map)
{
    say_names_of(run, map, APP_KEYS_CUT,
                 base_tr("At the table, by name: chalklight settings keys \"NAME = KEY\" gives another key"), "names");
    say_names_of(run, map, APP_KEYS_SET_UP, base_tr("While setting up the table, besides"), "names_setting_up");
    say_names_of(run, map, APP_KEYS_ARRANGE, base_tr("While arranging the layout, besides"), "names_arranging");
}

static int run_keys(struct cli_run *run)
{
    const struct scene_help_line *lines;
    const char *title, *name;
    const struct app_key_map *map = cli_given_keys(run);
    size_t count = app_help_lines(run->a, map, &lines);
    say_keys(run, base_tr("While cutting"), "cutting", lines, count);
    count = app_layout_help_lines(run->a, map, &lines);
    say_keys(run, base_tr("While cutting a layout, besides"), "cutting_layout", lines, count);
    for (int list = 0; list < APP_WALK_KEY_LISTS; list++) {
        count = app_walk_help_lines(run->a, map, list, &title, &name, &lines);
        say_keys(run, title, name, lines, count);
    }
    for (int list = 0; list < APP_LIFT_KEY_LISTS; list++) {
        count = app_lift_help_lines(run->a, list, &title, &name, &lines);
        say_keys(run, title, name, lines, count);
    }
    count = app_arrange_help_lines(run->a, map, &lines);
    say_keys(run, base_tr("Arranging the layout"), "arranging", lines, count);
    say_stand_ins(run);
    say_names(run, map);
    return CLI_OK;
}

static const struct command_row {
    const char *name, *operand, *help; /* in brackets: may be left out */
    const enum cli_option *options;    /* ended by CLI_OPTIONS */
    cli_command *run;
} command_rows[] = {
    { "bench", "[FILE]", BASE_TR("the whole job, from measuring to the last piece, in a window; also without the word"),
      OPTIONS(EVERY), cli_run_bench },
    { "size", "PATTERN", BASE_TR("which size and cup group to cut, and why"),
      OPTIONS(EVERY, OPT_BODY, OPT_SIZE, OPT_CUP, OPT_MADE_TO, OPT_BLEND, OPT_ALTER), cli_run_size },
    { "draft", "PATTERN", BASE_TR("the pieces as a file at true scale, SVG or DXF; of a JOB, too"),
      OPTIONS(EVERY, CHOICES, OPT_OUT, OPT_REPLACE), cli_run_draft },
    { "crosses", NULL, BASE_TR("numbered crosses to set up the table by"),
      OPTIONS(EVERY, OPT_OUT, OPT_REPLACE, OPT_FRAME, OPT_READINGS, OPT_SIGMA, OPT_DISPLAY), cli_run_crosses },
    { "setup", "TABLE", BASE_TR("set up the table by keys, one cross at a time"),
      OPTIONS(EVERY, OPT_MAT, OPT_READINGS, OPT_SIGMA, OPT_DISPLAY), cli_run_setup },
    { "calibrate", "READINGS", BASE_TR("set up the table from what was read of the crosses"),
      OPTIONS(EVERY, OPT_OUT, OPT_REPLACE, OPT_FOLLOW_TAPE, OPT_LAY, OPT_TURN_OVER), cli_run_calibrate },
    { "lens", "TABLE", BASE_TR("tell where the lens is, and what that means for thick cloth"),
      OPTIONS(EVERY, OPT_HEIGHT, OPT_FOOT, OPT_BOARD, OPT_THICKNESS), cli_run_lens },
    { "job", "PATTERN", BASE_TR("begin a job: one view for one person"),
      OPTIONS(EVERY, CHOICES, OPT_TABLE, OPT_OUT, OPT_REPLACE, OPT_CLOTH, OPT_LAYERS, OPT_MAT_GOES, OPT_MAT_COMES),
      cli_run_job },
    { "alter", "JOB", BASE_TR("what is altered of a job; more of it, or less"),
      OPTIONS(EVERY, OPT_ALTER, OPT_DROP, OPT_TRIAL, OPT_FINAL), cli_run_alter },
    { "list", "PATTERN", BASE_TR("the cutting list: what to cut from what, and how large; of a JOB, too"),
      OPTIONS(EVERY, CHOICES, OPT_FRACTION, OPT_CSV, OPT_OUT, OPT_REPLACE), cli_run_list },
    { "lay", "JOB", BASE_TR("arrange the pieces on their cloth with little waste; of a PATTERN, too"),
      OPTIONS(EVERY, CHOICES, OPT_FOR, OPT_ON, OPT_WIDTH, OPT_SPREAD, OPT_ROUNDS, OPT_SECONDS, OPT_SEED, OPT_LET_GO,
              OPT_TRY, OPT_WIDTHS, OPT_OUT, OPT_REPLACE),
      cli_run_lay },
    { "tear", "JOB", BASE_TR("rectangles torn off their cloth: a tearing plan; of a PATTERN, too"),
      OPTIONS(EVERY, CHOICES, OPT_FOR, OPT_ON, OPT_WIDTH, OPT_OFF_SQUARE, OPT_MARGIN, OPT_ALONG, OPT_TEAR_ACROSS,
              OPT_TEAR_KEEP, OPT_TEAR_DROP, OPT_LEAVE_RESTS, OPT_OUT, OPT_REPLACE),
      cli_run_tear },
    { "sheet", "FILE",
      BASE_TR("what is drawn on a PDF, SVG or scan: layers, scale, pages, pieces; a pattern of its pieces"),
      OPTIONS(EVERY, OPT_SHEET_LAYERS, OPT_PASSWORD_STDIN, OPT_DPI, OPT_SIDE_IS, OPT_AS_DRAWN, OPT_ACROSS,
              OPT_DOWN_FIRST, OPT_OUT, OPT_REPLACE, OPT_OUTLINE, OPT_ALLOWANCE, OPT_CHART, OPT_NAME),
      cli_run_sheet },
    { "lift", "FILE", BASE_TR("take a PDF, SVG or scan to pieces on the table, by keys, full screen"),
      OPTIONS(EVERY, OPT_TABLE, OPT_OUT, OPT_SHEET_LAYERS, OPT_PASSWORD_STDIN, OPT_DISPLAY), cli_run_lift },
    { "arrange", "JOB",
      BASE_TR("arrange its layout on the table, by keys, full screen: better ones come while you watch"),
      OPTIONS(EVERY, OPT_DISPLAY, OPT_OUT, OPT_FRAME, OPT_SIDE), cli_run_arrange },
    { "cut", "[JOB]",
      BASE_TR("draw the pieces on the cloth, full screen; without a JOB of the last one, or of the demo"),
      OPTIONS(EVERY, OPT_DISPLAY, OPT_NOTES, OPT_OUT), cli_run_cut },
    { "frame", "JOB", BASE_TR("the frame that the projector would show, as a PNG picture"),
      OPTIONS(EVERY, OPT_OUT, OPT_PIECE, OPT_ALL, OPT_MIRROR, OPT_ROTATE, OPT_PAN, OPT_WEIGHT, OPT_SQUARE,
              OPT_LONG_LINES, OPT_RULINGS, OPT_SECTION, OPT_SIDE, OPT_CHALK, OPT_FRAME),
      cli_run_frame },
    { "check", "FILE", BASE_TR("proof-read any of our files; a pattern for a body, too"), OPTIONS(EVERY, OPT_BODY),
      run_check },
    { "demo", NULL, BASE_TR("cut a pinafore on a sample table"), OPTIONS(EVERY, OPT_DISPLAY, OPT_NOTES, OPT_OUT),
      cli_run_demo },
    { "settings", "[NAME [VALUE]]",
      BASE_TR("what is remembered of you and your machine; one of them; set it, or \"default\""), OPTIONS(EVERY),
      cli_run_settings },
    { "keys", NULL, BASE_TR("the keys while cutting, setting up, arranging and taking a sheet to pieces"),
      OPTIONS(EVERY), run_keys },
};

enum { COMMANDS = sizeof command_rows / sizeof command_rows[0] };

static void print_overview(FILE *to)
{
    fprintf(to, "%s\n\n%s\n", base_tr("Chalklight lays a garment out in light: pieces at true scale on your cloth."),
            base_tr("chalklight COMMAND …"));
    for (size_t i = 0; i < COMMANDS; i++)
        fprintf(to, "  %-9s %-14s %s\n", command_rows[i].name, command_rows[i].operand ? command_rows[i].operand : "",
                base_tr(command_rows[i].help));
    fprintf(to, "\n%s\n",
            base_tr("chalklight COMMAND --help says more. A bright light hangs above the table: do not look into the "
                    "lens."));
}

static void print_help(struct arena *a, const struct command_row *command)
{
    printf(base_tr("chalklight %s%s%s [OPTIONS]: %s"), command->name, command->operand ? " " : "",
           command->operand ? command->operand : "", base_tr(command->help));
    putchar('\n');
    for (int o = 0; o < CLI_OPTIONS; o++)
        if (cli_is_allowed(command->options, (enum cli_option)o))
            printf("  %-18s %s\n", cli_option_usage(a, (enum cli_option)o), cli_option_help((enum cli_option)o));
}

static const struct command_row *find_command(const char *name)
{
    for (size_t i = 0; i < COMMANDS; i++)
        if (strcmp(command_rows[i].name, name) == 0)
            return &command_rows[i];
    return NULL;
}

/* The file that faults without one of their own speak of, and those that name no file but a job's copy of it. */
static const char *file_of(const struct cli_run *run, const struct err *e)
{
    const char *own = e->place.file, *read = run->operand_is_read ? run->args.operand : NULL;
    bool is_job = own && read && strncmp(own, read, strlen(read)) == 0;
    return own && !is_job ? own : read;
}

/* Every sentence in one unit: --unit, else that of the file it is about. */
static enum units_length *units_of_faults(struct cli_run *run)
{
    enum units_length *units = base_arena_alloc(run->a, (size_t)run->errs->count, sizeof *units);
    const char *before = NULL;
    for (int i = 0; i < run->errs->count; i++) {
        const char *file = run->args.value[OPT_UNIT] ? NULL : file_of(run, &run->errs->items[i]);
        units[i] = file && before && strcmp(file, before) == 0 ? units[i - 1]
                   : file                                      ? cli_file_unit(run, file)
                                                               : run->unit;
        before = file;
    }
    return units;
}

/* Faults on standard error, and as a member of the JSON result where that is wanted. */
static void tell_faults(struct cli_run *run)
{
    struct json_out *list = run->json ? json_out_list(run->json, "complaints") : NULL;
    cli_pass_on(run, run->settings_told);
    const enum units_length *units = units_of_faults(run);
    for (int i = 0; i < run->errs->count; i++) {
        const struct err *e = &run->errs->items[i];
        if (list)
            app_sentence_json(list, run->a, e, units[i]);
        fprintf(stderr, e->kind->severity == ERR_WARNING ? base_tr("chalklight: note: %s") : "chalklight: %s",
                app_sentence(run->a, e, units[i]));
        fputc('\n', stderr);
    }
    if (run->errs->dropped)
        fprintf(stderr, "chalklight: %s\n", base_arena_print(run->a, base_tr("and %d more"), run->errs->dropped));
}

/* Started from a menu nobody reads standard error: what ended it is told in a window. */
static void tell_without_terminal(struct cli_run *run)
{
    bool seen = isatty(STDIN_FILENO) || isatty(STDOUT_FILENO) || isatty(STDERR_FILENO);
    for (int i = 0; !seen && i < run->errs->count; i++)
        if (run->errs->items[i].kind->severity == ERR_FAULT)
            seen = screen_tell("Chalklight", app_sentence(run->a, &run->errs->items[i], run->unit));
}

static int run_command(struct cli_run *run, const struct command_row *command)
{
    const char *unit = run->args.value[OPT_UNIT];
    if (run->args.value[OPT_HELP]) {
        print_help(run->a, command);
        return CLI_OK;
    }
    if (unit && !units_from_name(unit, &run->unit)) {
        cli_wrong(run, "--unit is mm, cm or in, not “{0}”", unit);
        return CLI_WRONG_USE;
    }
    if (command->operand && *command->operand != '[' && !run->args.operand) {
        cli_wrong(run, "which {0}? Its name goes behind the command", command->operand);
        return CLI_WRONG_USE;
    }
    cli_open_settings(run);
    return command->run(run);
}

static int operands_of(const struct command_row *command)
{
    if (!command->operand)
        return 0;
    return strchr(command->operand, ' ') ? 2 : 1;
}

static int run_words(struct cli_run *run, const struct command_row *command, int argc, char **argv)
{
    bool read = cli_read_options(argc, argv, command->options, operands_of(command), &run->args, run->errs);
    if (run->args.value[OPT_JSON])
        run->json = json_out_create();
    int code = read ? run_command(run, command) : CLI_WRONG_USE;
    if (run->json)
        json_out_bool(run->json, "ok", code == CLI_OK);
    tell_faults(run);
    if (run->json)
        fputs(json_out_print(run->a, run->json), stdout);
    if (code == CLI_WRONG_USE)
        fprintf(stderr, "%s\n",
                base_arena_print(run->a, base_tr("chalklight %s --help says how it is used"), command->name));
    json_out_destroy(run->json);
    return code;
}

static void stop_out_of_memory(void)
{
    fputs("chalklight: this machine has no memory left for that\n", stderr); /* no more can be asked of gettext */
    exit(CLI_FAULT);
}

/* What a person means who says nothing, or only a file: the bench, where there is a display to show it on. */
static bool is_for_bench(int argc, char **argv)
{
    if (argc > 2 || (argc == 2 && (argv[1][0] == '-' || find_command(argv[1]) || !base_file_exists(argv[1]))))
        return false;
    bool there = screen_is_there();
    if (there)
        screen_leave();
    return there;
}

int cli_main(int argc, char **argv)
{
    base_on_out_of_memory(stop_out_of_memory);
    const char *desktop_language = base_words_of_desktop();
    cli_speak(SETTINGS_LANGUAGE_AS_DESKTOP, desktop_language);
    bool bench = is_for_bench(argc, argv);
    const char *word = bench ? "bench" : argc > 1 ? argv[1] : "--help";
    const struct command_row *command = find_command(word);
    if (!command && strcmp(word, "--version") == 0) {
        puts("chalklight " CHALK_VERSION);
        return CLI_OK;
    }
    if (!command && strcmp(word, "--help") == 0) {
        print_overview(argc > 1 ? stdout : stderr);
        return argc > 1 ? CLI_OK : CLI_WRONG_USE;
    }
    if (!command) {
        fprintf(stderr, base_tr("chalklight: there is no command “%s”"), word);
        fputs("\n\n", stderr);
        print_overview(stderr);
        return CLI_WRONG_USE;
    }
    struct cli_run run = { .a = base_arena_create(),
                           .errs = base_err_list_create(),
                           .settings_told = base_err_list_create(),
                           .operand_is_read = command->run != cli_run_setup && command->run != cli_run_settings,
                           .unit = UNITS_CM,
                           .desktop_language = desktop_language };
    int first = bench ? 1 : 2; /* of the words behind the command's name */
    int code = run_words(&run, command, argc - first, argv + first);
    if (bench && code != CLI_OK)
        tell_without_terminal(&run);
    if (fflush(stdout) != 0 || ferror(stdout)) {
        fprintf(stderr, "chalklight: %s\n", base_tr("the result could not be written out"));
        code = CLI_FAULT;
    }
    base_err_list_destroy(run.settings_told);
    base_err_list_destroy(run.errs);
    base_arena_destroy(run.a);
    return code;
}
