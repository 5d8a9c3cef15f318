/* Where the lens is: told by tape, or found from a second table on a board, and kept in the table. */
#include "app/lens.h"
#include "base/file.h"
#include "base/words.h"
#include "calibration/board.h"
#include "cli/run.h"

#include <string.h>

/* Bare numbers are in the unit named, else in the table's own. */
static enum units_length unit_of(const struct cli_run *run, const struct calibration_table *table)
{
    return run->unit_is_told ? run->unit : table->unit;
}

static bool by_tape(struct cli_run *run, struct calibration_table *table)
{
    const char *height = cli_need(run, OPT_HEIGHT), *foot = cli_need(run, OPT_FOOT);
    enum units_length unit = unit_of(run, table);
    struct calibration_lens_place lens;
    if (!height || !foot)
        return false;
    if (!units_parse_length(height, unit, &lens.height_mm))
        return cli_wrong(run, "--height needs a length, such as 180 cm, not “{0}”", height);
    if (!cli_parse_pair(run->a, foot, unit, &lens.foot.x, &lens.foot.y))
        return cli_wrong(run, "--foot needs two lengths with a comma between, such as 45 cm, -12 cm, not “{0}”", foot);
    if (!calibration_lens_is_valid(&lens))
        return cli_wrong(run, "a lens hangs 30 cm to 10 m above the table, over a spot within 10 m, not {0}",
                         base_arena_print(run->a, base_tr("%s over %s"), height, foot));
    table->lens = lens;
    return true;
}

static bool by_board(struct cli_run *run, struct calibration_table *table)
{
    const char *path = cli_need(run, OPT_BOARD), *thick = cli_need(run, OPT_THICKNESS);
    struct calibration_table board;
    struct calibration_found_lens found;
    double mm;
    if (!path || !thick)
        return false;
    if (!units_parse_length(thick, UNITS_MM, &mm) || mm < CALIBRATION_LEAST_BOARD_MM || mm > CALIBRATION_MOST_BOARD_MM)
        return cli_wrong(run, "--thickness needs the board's, from 5 to 100 mm, not “{0}”", thick);
    if (!calibration_table_read(run->a, path, &board, run->errs) ||
        !calibration_find_lens(path, table, &board, mm, &found, run->errs))
        return false;
    table->lens = found.lens;
    char height[UNITS_TEXT], foot[UNITS_TEXT];
    cli_say(run, base_tr("Found from the board: the height may be off by %s, the spot below the lens by %s."),
            units_print_length(height, found.height_doubt_mm, unit_of(run, table)),
            units_print_length(foot, found.foot_doubt_mm, unit_of(run, table)));
    if (run->json) {
        json_out_number(run->json, "height_may_be_off_by_mm", found.height_doubt_mm);
        json_out_number(run->json, "foot_may_be_off_by_mm", found.foot_doubt_mm);
    }
    return true;
}

/* The lens that the options tell goes into the table; false with a sentence. */
static bool set_lens(struct cli_run *run, struct calibration_table *table)
{
    const char *const *value = run->args.value;
    bool board = value[OPT_BOARD] || value[OPT_THICKNESS];
    if (board && (value[OPT_HEIGHT] || value[OPT_FOOT]))
        return cli_wrong(run, "the lens is told by tape (--height, --foot) or by a board (--board, {0}), not by both",
                         "--thickness");
    return board ? by_board(run, table) : by_tape(run, table);
}

int cli_run_lens(struct cli_run *run)
{
    const char *const *value = run->args.value, *path = run->args.operand;
    bool asked = !value[OPT_HEIGHT] && !value[OPT_FOOT] && !value[OPT_BOARD] && !value[OPT_THICKNESS];
    struct calibration_table table;
    if (!calibration_table_read(run->a, path, &table, run->errs))
        return CLI_FAULT;
    bool known = asked && calibration_lens_is_known(&table.lens);
    if (!known && !set_lens(run, &table))
        return base_err_list_has(run->errs, "use.wrong") || base_err_list_has(run->errs, "use.missing") ? CLI_WRONG_USE
                                                                                                        : CLI_FAULT;
    const char *text = calibration_table_print(run->a, &table);
    if (!known && !base_file_save(path, text, strlen(text), run->errs))
        return CLI_FAULT;
    if (run->json)
        app_lens_json(run->json, &table);
    const char *report = app_lens_report(run->a, &table, unit_of(run, &table));
    cli_say(run, "%.*s", (int)strlen(report) - 1, report); /* without its last line end */
    return CLI_OK;
}
