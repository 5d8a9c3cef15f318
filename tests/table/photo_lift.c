/* How taking a sheet to pieces looks: photo_lift SHEET OUT.png KEY … reads a drawn sheet, presses the keys (by our
 * names) on a table of exact readings and saves what the projector then shows. For people to look at, and for README.
 * CHALKLIGHT_SHEET names the reader. */
#include "app/lift.h"
#include "export/png.h"
#include "input/key.h"
#include "paint/frame.h"
#include "table/rig.h"

#include <stdio.h>

static const struct vt_setup desk = { .name = "photo",
                                      .width_px = 1280,
                                      .height_px = 720,
                                      .throw_ratio = 1.2,
                                      .height_mm = 1200,
                                      .foot_x_mm = 500,
                                      .foot_y_mm = 300 };

static bool press(struct app_lift *lift, char **names, int count)
{
    bool known = true;
    for (int i = 0; i < count; i++) {
        struct input_event event = { .type = INPUT_KEY };
        known = known && input_key_from_name(names[i], &event.key, &event.mods);
        app_lift_handle(lift, event);
    }
    return known;
}

static bool save(struct arena *a, struct app_lift *lift, const char *path, struct err_list *errs)
{
    struct paint_scene scene = app_lift_scene(lift, a);
    struct paint_image image = paint_image_create(a, desk.width_px, desk.height_px);
    paint_frame(a, &scene, app_lift_map(lift), &image);
    return export_png(path, &image, errs);
}

int main(int argc, char **argv)
{
    if (argc < 3) {
        fprintf(stderr, "photo_lift SHEET OUT.png KEY …\n");
        return 2;
    }
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct app_lift_start start = { .unit = UNITS_CM, .file = argv[1], .out = "pattern.json", .may_cut = true };
    start.font = text_font_open(errs);
    bool ok = start.font && rig_exact_table(a, &desk, &start.table, errs);
    struct app_import *im = ok ? app_import_read(argv[1], NULL, errs) : NULL;
    struct app_lift *lift = app_lift_create(&start);
    if (im)
        app_lift_take(lift, im);
    ok = im && press(lift, argv + 3, argc - 3) && save(a, lift, argv[2], errs);
    if (errs->count)
        fprintf(stderr, "%s\n", errs->items[0].kind->sentence);
    app_lift_destroy(lift);
    text_font_close(start.font);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
