/* How arranging a layout looks: photo_arrange JOB OUT.png ROUNDS KEY … searches for so many rounds on the first cloth
 * of a job, presses the keys (by our names) and saves what the projector then shows, on a table of exact readings. For
 * people to look at, and for README. */
#include "app/arrange.h"
#include "export/png.h"
#include "input/key.h"
#include "paint/frame.h"
#include "table/rig.h"

#include <stdio.h>
#include <stdlib.h>

static const struct vt_setup desk = { .name = "photo",
                                      .width_px = 1280,
                                      .height_px = 720,
                                      .throw_ratio = 1.2,
                                      .height_mm = 1200,
                                      .foot_x_mm = 500,
                                      .foot_y_mm = 300 };

static bool press(struct app_arrange *arrange, char **names, int count)
{
    bool known = true;
    for (int i = 0; i < count; i++) {
        struct input_event event = { .type = INPUT_KEY };
        known = known && input_key_from_name(names[i], &event.key, &event.mods);
        app_arrange_handle(arrange, event);
    }
    return known;
}

static bool save(struct arena *a, struct app_arrange *arrange, const char *path, struct err_list *errs)
{
    struct paint_scene scene = app_arrange_scene(arrange, a);
    struct paint_image image = paint_image_create(a, desk.width_px, desk.height_px);
    paint_frame(a, &scene, app_arrange_map(arrange), &image);
    return export_png(path, &image, errs);
}

int main(int argc, char **argv)
{
    if (argc < 4) {
        fprintf(stderr, "photo_arrange JOB OUT.png ROUNDS KEY …\n");
        return 2;
    }
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct job job;
    struct app_arrange_start start = { .job = &job, .unit = UNITS_CM };
    start.font = text_font_open(errs);
    bool ok = start.font && rig_exact_table(a, &desk, &start.table, errs) && job_read(a, argv[1], &job, errs);
    struct app_arrange *arrange = ok ? app_arrange_create(&start, errs) : NULL;
    for (int i = atoi(argv[3]); arrange && i > 0 && app_arrange_is_searching(arrange); i--)
        app_arrange_search(arrange, 0);
    ok = arrange && press(arrange, argv + 4, argc - 4) && save(a, arrange, argv[2], errs);
    if (errs->count)
        fprintf(stderr, "%s\n", errs->items[0].kind->sentence);
    app_arrange_destroy(arrange);
    text_font_close(start.font);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
