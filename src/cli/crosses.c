/* The projected crosses that a table is set up by, and an empty file for what is read of them. */
#include "scene/crosses.h"
#include "base/words.h"
#include "cli/display.h"
#include "cli/run.h"
#include "export/png.h"
#include "input/key.h"
#include "paint/frame.h"
#include "screen/window.h"

#include <math.h>
#include <stdio.h>

enum { CROSSES = SCENE_STANDARD_CROSSES };

static const struct err_kind no_display = { "crosses.no_display", ERR_FAULT,
                                            BASE_TR("there is no display here; {0} writes the crosses as a picture") };

/* The same crosses by the same numbers as the walk's, so that it can go on from what was read of these. */
static void place_crosses(struct scene_cross out[CROSSES], int width, int height)
{
    for (int i = 0; i < CROSSES; i++)
        out[i] = (struct scene_cross){ .number = i + 1, .at = scene_standard_cross(i + 1, width, height) };
}

/* A file of readings with nothing filled in. */
static const char *empty_readings(struct cli_run *run, const struct scene_cross crosses[CROSSES], int width, int height,
                                  double sigma_mm)
{
    struct calibration_reading items[CROSSES];
    for (int i = 0; i < CROSSES; i++)
        items[i] = calibration_position(crosses[i].number, crosses[i].at, (struct table_pt){ NAN, NAN });
    struct calibration_readings readings = { .name = "my table",
                                             .unit = run->unit,
                                             .width_px = width,
                                             .height_px = height,
                                             .sigma_mm = sigma_mm,
                                             .items = items,
                                             .count = CROSSES };
    return calibration_readings_print(run->a, &readings);
}

/* The crosses as a picture of that size, in the run's arena; false without a font. */
static bool paint_crosses(struct cli_run *run, const struct scene_cross crosses[CROSSES], int width, int height,
                          struct paint_image *image)
{
    struct text_font *font = text_font_open(run->errs);
    if (!font)
        return false;
    struct scene_cross_view view = {
        .width_px = width, .height_px = height, .font = font, .crosses = crosses, .count = CROSSES
    };
    struct paint_scene scene = scene_crosses(run->a, &view);
    *image = paint_image_create(run->a, width, height);
    paint_frame(run->a, &scene, NULL, image);
    text_font_close(font);
    return true;
}

static bool leaves(struct input_event event)
{
    return event.type == INPUT_QUIT ||
           (event.type == INPUT_KEY && (event.key == KEY_ESC || event.key == KEY_CHAR + 'q'));
}

/* Full screen until Esc; drawn again when the window's picture was lost. */
static bool show(struct cli_run *run, struct screen_window *window, const struct paint_image *image)
{
    bool ok = screen_show(window, image, run->errs);
    for (struct input_event event = { 0 }; ok && !leaves(event); event = screen_wait(window, -1))
        if (event.type == INPUT_EXPOSE)
            ok = screen_show(window, image, run->errs);
    return ok;
}

static int write_readings(struct cli_run *run, const struct scene_cross crosses[CROSSES], int width, int height)
{
    const char *path = run->args.value[OPT_READINGS];
    double sigma_mm = CALIBRATION_TYPED_SIGMA_MM;
    if (!path)
        return CLI_OK;
    if (!cli_sigma(run, &sigma_mm))
        return CLI_WRONG_USE;
    if (cli_save_text(run, path, empty_readings(run, crosses, width, height, sigma_mm)) != CLI_OK)
        return CLI_FAULT;
    if (run->json)
        json_out_text(run->json, "readings", path);
    cli_say(run, "%s\n%s", path,
            base_tr("Write down where each cross falls on the mat's rulings, along and away from you, and take out the "
                    "crosses that fall beside the mat."));
    return CLI_OK;
}

static int crosses_on_display(struct cli_run *run)
{
    struct scene_cross crosses[CROSSES];
    struct paint_image image;
    int display = cli_choose_display(run, 0, 0), width, height;
    struct screen_window *window = display < 0 ? NULL : screen_open(display, "Chalklight", run->errs);
    if (!window)
        return CLI_FAULT;
    screen_size(window, &width, &height);
    place_crosses(crosses, width, height);
    int code = write_readings(run, crosses, width, height);
    cli_say(
        run,
        base_tr(
            "A very bright light hangs above the table: do not look up into the lens. Esc takes the crosses away."));
    fflush(stdout);
    bool ok = code == CLI_OK && paint_crosses(run, crosses, width, height, &image) && show(run, window, &image);
    screen_close(window);
    return ok ? CLI_OK : CLI_FAULT;
}

static int crosses_in_file(struct cli_run *run, const char *out)
{
    struct scene_cross crosses[CROSSES];
    struct paint_image image;
    int width = 1920, height = 1080;
    if (!cli_frame_size(run, &width, &height))
        return CLI_WRONG_USE;
    place_crosses(crosses, width, height);
    if (!paint_crosses(run, crosses, width, height, &image) || !cli_may_draw(run, out) ||
        !export_png(out, &image, run->errs))
        return CLI_FAULT;
    if (run->json)
        json_out_text(run->json, "picture", out);
    cli_say(run, "%s", out);
    return write_readings(run, crosses, width, height);
}

int cli_run_crosses(struct cli_run *run)
{
    const char *out = run->args.value[OPT_OUT];
    if (out)
        return crosses_in_file(run, out);
    if (screen_is_there()) {
        int code = crosses_on_display(run);
        screen_leave();
        return code;
    }
    base_err(run->errs, &no_display, base_err_in_file(NULL), ERR_TEXT("--out FILE.png"));
    return CLI_FAULT;
}
