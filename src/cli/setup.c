/* The walk at the table: crosses full screen, readings kept in a file as they are made, a table at the end. */
#include "app/walk.h"
#include "base/file.h"
#include "cli/display.h"
#include "cli/run.h"
#include "paint/frame.h"
#include "screen/window.h"

#include <string.h>

static const struct err_kind no_display = { "setup.no_display", ERR_FAULT,
                                            "there is no display here; {0} writes the crosses as a picture" };
static const struct err_kind other_size = { "setup.other_size", ERR_FAULT,
                                            "its readings were made in a frame of {0} × {1} pixels, and this display "
                                            "shows {2} × {3}. Choose the projector with "
                                            "--display, or take that file away to begin anew" };

static const struct err_kind resized = {
    "setup.resized", ERR_FAULT,
    "the window changed its size, and the crosses with it. What was read before is "
    "kept; begin again at the old size to go on"
};

/* Where the readings are kept: the file named, else beside the table. */
static const char *readings_path(struct cli_run *run)
{
    const char *named = run->args.value[OPT_READINGS];
    return named ? named : base_arena_print(run->a, "%s.readings", run->args.operand);
}

/* The table's name: its file's, without folder and ending. */
static const char *table_name(struct cli_run *run)
{
    const char *slash = strrchr(run->args.operand, '/'), *name = slash ? slash + 1 : run->args.operand;
    const char *dot = strrchr(name, '.');
    return dot && dot > name ? base_arena_copy_bytes(run->a, name, (size_t)(dot - name)) : name;
}

static bool go_on_from(struct cli_run *run, const char *path, int width, int height,
                       struct calibration_readings *before)
{
    if (!calibration_readings_read(run->a, path, before, run->errs))
        return false;
    if (before->width_px == width && before->height_px == height)
        return true;
    base_err(run->errs, &other_size, base_err_in_file(path), ERR_NUMBER(before->width_px),
             ERR_NUMBER(before->height_px), ERR_NUMBER(width), ERR_NUMBER(height));
    return false;
}

static bool save_readings(struct cli_run *run, const struct app_walk *walk, const char *path)
{
    struct arena *a = base_arena_create();
    struct calibration_readings readings = app_walk_readings(walk, a);
    bool ok = cli_save_text(run, path, calibration_readings_print(a, &readings)) == CLI_OK;
    base_arena_destroy(a);
    return ok;
}

static bool draw(struct cli_run *run, const struct app_walk *walk, struct screen_window *window, struct arena *frame)
{
    int width, height;
    base_arena_reset(frame);
    screen_size(window, &width, &height);
    struct paint_scene scene = app_walk_scene(walk, frame);
    struct paint_image image = paint_image_create(frame, width, height);
    paint_frame(frame, &scene, NULL, &image);
    return screen_show(window, &image, run->errs);
}

/* True when the person has accepted the table; leaving before is no fault. */
static bool walk_to_the_end(struct cli_run *run, struct app_walk *walk, const struct app_walk_start *size,
                            struct screen_window *window, const char *path)
{
    struct arena *frame = base_arena_create();
    struct app_walk_effects effects = { .redraw = true };
    bool ok = true;
    while (ok && !effects.quit && !effects.done) {
        if (effects.redraw)
            ok = draw(run, walk, window, frame);
        struct input_event event = screen_wait(window, -1);
        if (event.type == INPUT_SIZE && (event.width != size->width_px || event.height != size->height_px)) {
            base_err(run->errs, &resized, base_err_in_file(path), ERR_NONE);
            ok = false;
        }
        effects = app_walk_handle(walk, event);
        if (ok && effects.save)
            ok = save_readings(run, walk, path);
    }
    base_arena_destroy(frame);
    return ok && effects.done;
}

static int walk_in(struct cli_run *run, struct screen_window *window, struct app_walk_start *start)
{
    const char *path = readings_path(run);
    struct calibration_readings *before = base_arena_alloc(run->a, 1, sizeof *before);
    screen_size(window, &start->width_px, &start->height_px);
    if (base_file_exists(path)) {
        if (!go_on_from(run, path, start->width_px, start->height_px, before))
            return CLI_FAULT;
        start->before = before;
    }
    struct app_walk *walk = app_walk_create(run->a, start);
    if (!walk_to_the_end(run, walk, start, window, path))
        return run->errs->faults ? CLI_FAULT : CLI_OK;
    struct calibration_table table = app_walk_table(walk, run->a, cli_today(run->a));
    int code = cli_save_text(run, run->args.operand, calibration_table_print(run->a, &table));
    if (code == CLI_OK)
        cli_say(run, "%s", run->args.operand);
    return code;
}

static int walk_on_display(struct cli_run *run, struct app_walk_start *start)
{
    int display = cli_choose_display(run, 0, 0);
    struct screen_window *window = display < 0 ? NULL : screen_open(display, "Chalklight", run->errs);
    start->font = window ? text_font_open(run->errs) : NULL;
    int code = start->font ? walk_in(run, window, start) : CLI_FAULT;
    text_font_close(start->font);
    screen_close(window);
    return code;
}

int cli_run_setup(struct cli_run *run)
{
    struct app_walk_start start = { .name = table_name(run),
                                    .unit = run->unit,
                                    .sigma_mm = CALIBRATION_TYPED_SIGMA_MM };
    const char *mat = run->args.value[OPT_MAT];
    if (!cli_sigma(run, &start.sigma_mm))
        return CLI_WRONG_USE;
    if (mat && !calibration_mat_read(run->a, mat, &start.mat, run->errs))
        return CLI_FAULT;
    if (mat && !run->args.value[OPT_UNIT])
        start.unit = start.mat.unit;
    if (!screen_is_there()) {
        base_err(run->errs, &no_display, base_err_in_file(NULL), ERR_TEXT("chalklight crosses --out FILE.png"));
        return CLI_FAULT;
    }
    int code = walk_on_display(run, &start);
    screen_leave();
    return code;
}
