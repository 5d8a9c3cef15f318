/* The projected crosses that a table is set up by, and an empty file for what is read of them. */
#include "cli/run.h"
#include "export/png.h"
#include "paint/frame.h"
#include "scene/scene.h"

enum { COLUMNS = 5, ROWS = 4, CROSSES = COLUMNS * ROWS };

#define MARGIN 0.06 /* of the frame's width and height, from its edge to the outer crosses */

/* Numbered row by row from the top left; on half pixels, so that each arm lies on whole pixels the same way. */
static void place_crosses(struct scene_cross out[CROSSES], int width, int height)
{
    for (int i = 0; i < CROSSES; i++) {
        int column = i % COLUMNS, row = i / COLUMNS;
        double across = MARGIN + (1 - 2 * MARGIN) * column / (COLUMNS - 1);
        double down = MARGIN + (1 - 2 * MARGIN) * row / (ROWS - 1);
        out[i] = (struct scene_cross){ i + 1, { (int)(across * width) + 0.5, (int)(down * height) + 0.5 } };
    }
}

static const char *empty_readings(struct cli_run *run, const struct scene_cross crosses[CROSSES], int width, int height)
{
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "readings");
    json_out_number(top, "version", CALIBRATION_READINGS_VERSION);
    json_out_text(top, "name", "my table");
    json_out_text(top, "unit", units_name(run->unit));
    struct json_out *frame = json_out_object(top, "frame");
    json_out_number(frame, "width", width);
    json_out_number(frame, "height", height);
    struct json_out *list = json_out_list(top, "readings");
    for (int i = 0; i < CROSSES; i++) {
        struct json_out *reading = json_out_object(list, NULL);
        json_out_number(reading, "cross", crosses[i].number);
        struct json_out *pixel = json_out_list(reading, "pixel");
        json_out_number(pixel, NULL, crosses[i].at.x);
        json_out_number(pixel, NULL, crosses[i].at.y);
        struct json_out *at = json_out_list(reading, "at");
        json_out_text(at, NULL, "along?");
        json_out_text(at, NULL, "away?");
    }
    const char *text = json_out_print(run->a, top);
    json_out_destroy(top);
    return text;
}

static int save_picture(struct cli_run *run, const struct scene_cross crosses[CROSSES], int width, int height,
                        const char *path)
{
    struct text_font *font = text_font_open(run->errs);
    if (!font)
        return CLI_FAULT;
    struct paint_scene scene = scene_crosses(run->a, crosses, CROSSES, width, height, font);
    struct paint_image image = paint_image_create(run->a, width, height);
    paint_frame(run->a, &scene, NULL, &image);
    text_font_close(font);
    if (!export_png(path, &image, run->errs))
        return CLI_FAULT;
    cli_say(run, "%s", path);
    return CLI_OK;
}

int cli_run_crosses(struct cli_run *run)
{
    int width = 1920, height = 1080;
    struct scene_cross crosses[CROSSES];
    const char *out = cli_need(run, OPT_OUT), *readings = run->args.value[OPT_READINGS];
    if (!cli_frame_size(run, &width, &height) || !out)
        return CLI_WRONG_USE;
    place_crosses(crosses, width, height);
    int code = save_picture(run, crosses, width, height, out);
    if (code == CLI_OK && readings) {
        code = cli_save_text(run, readings, empty_readings(run, crosses, width, height));
        cli_say(run,
                "%s\nWrite down where each cross falls on the mat's rulings, along and away from you, and take out "
                "the crosses that fall beside the mat.",
                readings);
    }
    return code;
}
