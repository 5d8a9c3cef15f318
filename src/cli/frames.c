/* Frames as pictures in files: what the projector would show, by the same code up to the window. */
#include "cli/run.h"
#include "export/png.h"
#include "paint/frame.h"
#include "units/angle.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

static const struct err_kind no_piece = { "frame.no_piece", ERR_FAULT,
                                          BASE_TR("there is no piece “{0}” in this job's cutting list; it has {1}") };
static const struct err_kind no_folder = { "frame.no_folder", ERR_FAULT, BASE_TR("the folder cannot be made: {0}") };

struct paint_image cli_paint(struct arena *a, struct app *app)
{
    const struct geometry_map *map = app_map(app);
    struct paint_image image = paint_image_create(a, map->width_px, map->height_px);
    struct paint_scene scene = app_scene(app, a);
    paint_frame(a, &scene, map, &image);
    return image;
}

/* `list`: the JSON result's list of frames, or NULL. */
static bool save_frame(struct cli_run *run, struct app *app, struct json_out *list, const char *path)
{
    struct arena *frame = base_arena_create();
    struct paint_image image = cli_paint(frame, app);
    bool ok = cli_may_draw(run, path) && export_png(path, &image, run->errs);
    base_arena_destroy(frame);
    if (ok && list)
        json_out_text(list, NULL, path);
    if (ok)
        cli_say(run, "%s", path);
    return ok;
}

static struct json_out *frame_list(const struct cli_run *run)
{
    return run->json ? json_out_list(run->json, "frames") : NULL;
}

/* Whether a line of the cutting list before that one cuts the same piece, of another cloth. */
static bool is_named_before(const struct app *app, size_t cut)
{
    for (size_t i = 0; i < cut; i++)
        if (strcmp(app_cut_name(app, i), app_cut_name(app, cut)) == 0)
            return true;
    return false;
}

static const char *piece_names(struct cli_run *run, const struct app *app)
{
    const char *list = "";
    for (size_t i = 0; i < app_cut_count(app); i++)
        if (!is_named_before(app, i))
            list = base_arena_print(run->a, "%s%s“%s”", list, i ? ", " : "", app_cut_name(app, i));
    return list;
}

/* Every option that places the pieces; true when all were understood. */
static bool place_by_options(struct cli_run *run, struct app *app)
{
    const char *const *value = run->args.value;
    struct geometry_motion motion = { .mirror = value[OPT_MIRROR] != NULL };
    double weight = 0;
    if (value[OPT_PIECE] && !app_show_piece(app, value[OPT_PIECE])) {
        base_err(run->errs, &no_piece, base_err_in_file(run->args.operand), ERR_TEXT(value[OPT_PIECE]),
                 ERR_TEXT(piece_names(run, app)));
        return false;
    }
    if (value[OPT_ALL])
        app_show_piece(app, NULL);
    if (value[OPT_ROTATE] && !units_parse_degrees(value[OPT_ROTATE], &motion.turn_deg))
        return cli_wrong(run, "--rotate needs degrees, such as 90 or -12.5, not “{0}”", value[OPT_ROTATE]);
    if (value[OPT_PAN] && !cli_parse_pair(run->a, value[OPT_PAN], UNITS_MM, &motion.shift.x, &motion.shift.y))
        return cli_wrong(run, "--pan needs two lengths with a comma between, such as 120,-40, not “{0}”",
                         value[OPT_PAN]);
    if (value[OPT_WEIGHT]) {
        if (!units_parse_length(value[OPT_WEIGHT], UNITS_MM, &weight) || weight < 0.5 || weight > 10)
            return cli_wrong(run, "--weight needs a width between 0.5 and 10 mm, not “{0}”", value[OPT_WEIGHT]);
        app_set_weight(app, weight);
    }
    app_place(app, motion);
    return true;
}

static bool look_by_options(struct cli_run *run, struct app *app)
{
    const char *const *value = run->args.value;
    if (value[OPT_SIDE] && !app_set_side(app, value[OPT_SIDE]))
        return cli_wrong(run, "--side is near, right, far or left, not “{0}”", value[OPT_SIDE]);
    if (value[OPT_SIDE])
        app_stand(app);
    if (value[OPT_CHALK] && !app_set_chalks(app, value[OPT_CHALK]))
        return cli_wrong(run, "--chalk is automatic, white, lemon, apricot, rose, mint or sky, not “{0}”",
                         value[OPT_CHALK]);
    app_set_rulings(app, value[OPT_RULINGS] != NULL);
    if (value[OPT_SQUARE] && value[OPT_LONG_LINES])
        return cli_wrong(run, "--square and {0} are two pages; ask for one at a time", "--long-lines");
    if (value[OPT_SQUARE] || value[OPT_LONG_LINES])
        app_set_mode(app, value[OPT_SQUARE] ? SCENE_TEST_SQUARE : SCENE_TEST_FRAME);
    return true;
}

static const struct err_kind no_section = {
    "frame.no_section", ERR_FAULT, BASE_TR("there is no section {0}: this job's layouts have {1} in this light")
};
static const struct err_kind no_layout = {
    "frame.no_layout", ERR_FAULT, BASE_TR("this job has no layout to show a section of: `chalklight lay` makes one")
};

/* Without the option pieces are shown, one or all. */
static bool section_by_option(struct cli_run *run, struct app *app)
{
    const char *text = run->args.value[OPT_SECTION];
    size_t count = app_section_count(app);
    int number = 0, end = 0;
    if (!text)
        return true;
    if (sscanf(text, "%5d%n", &number, &end) != 1 || text[end] || number < 1)
        return cli_wrong(run, "--section needs a number from 1, not “{0}”", text);
    if ((size_t)number > count) {
        base_err(run->errs, count ? &no_section : &no_layout, base_err_in_file(run->args.operand), ERR_NUMBER(number),
                 ERR_NUMBER(count));
        return false;
    }
    app_go_to_section(app, (size_t)number - 1);
    return true;
}

static bool table_of_job(struct cli_run *run, const struct job *job, struct calibration_table *out)
{
    int width = 0, height = 0;
    if (!cli_frame_size(run, &width, &height))
        return false;
    if (!job->has_table)
        return cli_sample_table(run, width, height, out);
    *out = job->table;
    if (width && (width != out->map.width_px || height != out->map.height_px))
        return cli_wrong(run, "this job's table was set up for another frame than {0}; leave --frame out",
                         run->args.value[OPT_FRAME]);
    return true;
}

int cli_table_of_job(struct cli_run *run, const struct job *job, struct calibration_table *out)
{
    if (table_of_job(run, job, out))
        return CLI_OK;
    return base_err_list_has(run->errs, "use.wrong") ? CLI_WRONG_USE : CLI_FAULT;
}

int cli_run_frame(struct cli_run *run)
{
    const char *out = cli_need(run, OPT_OUT);
    struct job job;
    struct app_start start = { .job = &job };
    if (!out)
        return CLI_WRONG_USE;
    if (!cli_read_job(run, &job))
        return CLI_FAULT;
    int code = cli_table_of_job(run, &job, &start.table);
    if (code != CLI_OK)
        return code;
    start.font = text_font_open(run->errs);
    start.unit = cli_person_unit(run, &job);
    struct app *app = start.font ? cli_create_app(run, &start) : NULL;
    code = CLI_FAULT;
    if (app)
        app_go_to_cut(app, 0);
    if (app && place_by_options(run, app) && look_by_options(run, app) && section_by_option(run, app)) {
        code = save_frame(run, app, frame_list(run), out) ? CLI_OK : CLI_FAULT;
        const char *told = app_shown_surface_told(app, run->a);
        if (told)
            cli_say(run, "%s", told);
    } else if (base_err_list_has(run->errs, "use.wrong"))
        code = CLI_WRONG_USE;
    text_font_close(start.font);
    return code;
}

static bool make_folder(struct cli_run *run, const char *folder)
{
    if (mkdir(folder, 0777) == 0 || errno == EEXIST)
        return true;
    base_err(run->errs, &no_folder, base_err_in_file(folder), ERR_TEXT(strerror(errno)));
    return false;
}

/* "03-bib-back.png": letters and digits of the name, anything else a hyphen. */
static const char *frame_name(struct cli_run *run, const char *folder, size_t number, const char *name)
{
    char *path = base_arena_print(run->a, "%s/%02zu-%s.png", folder, number, name);
    for (char *p = path + strlen(folder) + 1; *p; p++)
        if ((unsigned char)*p >= 0x80 || strchr(" /\\:*?\"<>|", *p))
            *p = '-';
    return path;
}

/* What follows the pieces, one by one. */
static const struct {
    const char *name;
    enum scene_mode mode;
    bool all, rulings;
} further_frames[] = {
    { "on the rulings", SCENE_PIECES, false, true },
    { "all pieces", SCENE_PIECES, true, false },
    { "test square", SCENE_TEST_SQUARE, false, false },
    { "test frame", SCENE_TEST_FRAME, false, false },
    { "keys", SCENE_HELP, false, false },
};

int cli_write_frames(struct cli_run *run, struct app *app, const char *folder)
{
    if (!make_folder(run, folder))
        return CLI_FAULT;
    struct json_out *list = frame_list(run);
    size_t number = 1;
    bool ok = true;
    for (size_t i = 0; ok && i < app_cut_count(app); i++) {
        app_go_to_cut(app, i);
        ok = save_frame(run, app, list, frame_name(run, folder, number++, app_cut_name(app, i)));
    }
    for (size_t i = 0; ok && i < sizeof further_frames / sizeof further_frames[0]; i++) {
        app_go_to_cut(app, 0);
        if (further_frames[i].all)
            app_show_piece(app, NULL);
        app_set_rulings(app, further_frames[i].rulings);
        app_set_mode(app, further_frames[i].mode);
        ok = save_frame(run, app, list, frame_name(run, folder, number++, further_frames[i].name));
    }
    for (size_t i = 0; ok && i < app_section_count(app); i++) {
        app_go_to_section(app, i);
        ok = save_frame(run, app, list, frame_name(run, folder, number++, "section of the layout"));
    }
    return ok ? CLI_OK : CLI_FAULT;
}
