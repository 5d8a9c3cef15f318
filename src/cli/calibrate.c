/* A table from readings in a file. */
#include "app/calibration_report.h"
#include "base/words.h"
#include "cli/run.h"

#include <stdlib.h>

static const struct err_kind no_tape = { "cli.no_tape", ERR_FAULT,
                                         BASE_TR("--follow-tape: these readings do not tell how far the rulings are "
                                                 "off. Measure some crosses' distances along and "
                                                 "away, the longer the better") };
static const struct err_kind no_cross = { "cli.no_cross", ERR_FAULT,
                                          BASE_TR("--lay: no distance was measured from or to cross {0}") };
static const struct err_kind lies_already = {
    "cli.lies_already", ERR_FAULT,
    BASE_TR("--lay and --turn-over are for distances alone: these readings say where the picture lies on the table")
};

/* Readings that contradict each other make no table, but in JSON stands what one without the wrong ones would be. */
static void show_without_mistakes(struct cli_run *run, const struct calibration_readings *readings)
{
    struct err_list *unsaid = base_err_list_create();
    struct calibration_solution solution;
    if (run->json && base_err_list_has(run->errs, "calibration.contradict") &&
        calibration_solve_without_mistakes(run->a, run->args.operand, readings, CALIBRATION_LENS_WEAK, &solution,
                                           unsaid))
        app_calibration_json(run->json, readings, &solution);
    base_err_list_destroy(unsaid);
}

/* How far the rulings are off: by readings that agree as they are, or by all of them together, as rulings that are much
 * off make tape and crosses contradict each other. */
static bool find_matscale(struct cli_run *run, const struct calibration_readings *readings,
                          struct calibration_matscale *out)
{
    struct err_list *unsaid = base_err_list_create();
    struct arena *scratch = base_arena_create();
    struct calibration_solution by_rulings;
    bool solved = calibration_solve(run->a, run->args.operand, readings, CALIBRATION_LENS_WEAK, &by_rulings, unsaid);
    bool known = solved ? by_rulings.has_matscale : calibration_matscale(scratch, readings, CALIBRATION_LENS_WEAK, out);
    if (solved)
        *out = by_rulings.matscale;
    base_arena_destroy(scratch);
    base_err_list_destroy(unsaid);
    return known;
}

/* Puts the readings onto true rulings, as the tape among them tells. */
static bool follow_tape(struct cli_run *run, struct calibration_readings *readings)
{
    struct calibration_matscale scale;
    if (!find_matscale(run, readings, &scale)) {
        base_err(run->errs, &no_tape, base_err_in_file(run->args.operand), ERR_NONE);
        return false;
    }
    *readings = calibration_matscale_follow(run->a, readings, &scale);
    char along[UNITS_TEXT], away[UNITS_TEXT];
    cli_say(run, base_tr("By the tape a metre of rulings measures %s along and %s away; the table follows the tape."),
            units_print_length(along, 1000 * (1 + scale.along), UNITS_MM),
            units_print_length(away, 1000 * (1 + scale.away), UNITS_MM));
    return true;
}

/* "1,3": the crosses that --lay names; false with a sentence when it names none. */
static bool crosses_to_lay(struct cli_run *run, int crosses[2])
{
    const char *text = run->args.value[OPT_LAY];
    char *end;
    crosses[0] = (int)strtol(text, &end, 10);
    crosses[1] = *end == ',' ? (int)strtol(end + 1, &end, 10) : 0;
    if (*end || crosses[0] < 1 || crosses[1] < 1 || crosses[0] == crosses[1])
        return cli_wrong(run, "--lay needs the numbers of two crosses, such as 1,3, not “{0}”", text);
    return true;
}

/* Where a solution puts a cross that distances were measured from or to; false with a sentence when none was. */
static bool place_of(struct cli_run *run, const struct calibration_readings *readings, const struct geometry_map *map,
                     int cross, vec2 *out)
{
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *r = &readings->items[i];
        if (r->cross != cross && r->other != cross)
            continue;
        struct table_pt at = geometry_map_to_table(map, r->cross == cross ? r->px : r->other_px);
        *out = (vec2){ at.x, at.y };
        return true;
    }
    base_err(run->errs, &no_cross, base_err_in_file(run->args.operand), ERR_NUMBER(cross));
    return false;
}

/* Lays what floats: turned over when that is asked for, then the first of two crosses at zero and the second along from
 * it. False with a sentence when it cannot be. */
static bool lay(struct cli_run *run, const struct calibration_readings *readings, const int crosses[2],
                struct calibration_solution *solution)
{
    bool over = run->args.value[OPT_TURN_OVER] != NULL, named = run->args.value[OPT_LAY] != NULL;
    vec2 from[2], to[2] = { { 0, 0 }, { 0, 0 } };
    if (!over && !named)
        return true;
    if (!solution->floats) {
        base_err(run->errs, &lies_already, base_err_in_file(run->args.operand), ERR_NONE);
        return false;
    }
    if (over)
        calibration_lay(solution, (struct calibration_move){ .flip = true });
    if (!named)
        return true;
    if (!place_of(run, readings, &solution->map, crosses[0], &from[0]) ||
        !place_of(run, readings, &solution->map, crosses[1], &from[1]))
        return false;
    to[1].x = vec2_length(vec2_sub(from[1], from[0]));
    calibration_lay(solution, calibration_move_fitting(from, to, 2));
    return true;
}

int cli_run_calibrate(struct cli_run *run)
{
    bool only_json = run->json && !run->args.value[OPT_OUT]; /* a look at the readings: nothing is written */
    const char *out = only_json ? NULL : cli_need(run, OPT_OUT);
    struct calibration_readings readings;
    struct calibration_solution solution;
    int crosses[2] = { 0, 0 };
    if ((!out && !only_json) || (run->args.value[OPT_LAY] && !crosses_to_lay(run, crosses)))
        return CLI_WRONG_USE;
    if (!calibration_readings_read(run->a, run->args.operand, &readings, run->errs) ||
        (run->args.value[OPT_FOLLOW_TAPE] && !follow_tape(run, &readings)))
        return CLI_FAULT;
    if (!calibration_solve(run->a, run->args.operand, &readings, CALIBRATION_LENS_WEAK, &solution, run->errs)) {
        show_without_mistakes(run, &readings);
        return CLI_FAULT;
    }
    if (!lay(run, &readings, crosses, &solution))
        return CLI_FAULT;
    calibration_question(run->args.operand, &solution.map, run->errs);
    struct calibration_table table = calibration_table_of(run->a, &readings, &solution, cli_today(run->a));
    if (out && cli_save_text(run, out, calibration_table_print(run->a, &table)) != CLI_OK)
        return CLI_FAULT;
    if (run->json) {
        app_calibration_json(run->json, &readings, &solution);
        json_out_text(run->json, "table", out);
    }
    cli_say(run, "%s%s", app_calibration_report(run->a, &readings, &solution),
            base_tr("Measure the test square on the table before you cut."));
    return CLI_OK;
}
