/* How true a table is, as the walk draws it: photo_doubt OUT.png has a person type what she reads of all crosses on the
 * virtual table but one corner, that its mat does not reach, and shows the page that follows. For README. */
#include "app/walk.h"
#include "export/png.h"
#include "input/key.h"
#include "paint/frame.h"
#include "virtual_table.h"

#include <stdio.h>

enum { BEYOND = 3, ITS_SECOND = 10 }; /* the corner that is beside the mat */

#define SIGMA_MM 0.3

static const struct vt_setup setup = { .name = "photo",
                                       .width_px = 1280,
                                       .height_px = 720,
                                       .throw_ratio = 1.2,
                                       .height_mm = 1800,
                                       .tilt_deg = 4,
                                       .foot_x_mm = 700,
                                       .foot_y_mm = 250 };

static void press(struct app_walk *walk, int key)
{
    app_walk_handle(walk, (struct input_event){ .type = INPUT_KEY, .key = key });
}

static void type(struct app_walk *walk, double mm)
{
    char text[32];
    snprintf(text, sizeof text, "%.1f", mm);
    for (const char *c = text; *c; c++)
        press(walk, KEY_CHAR + *c);
    press(walk, KEY_ENTER);
}

static struct app_walk *walked(struct arena *a, struct text_font *font)
{
    struct app_walk_start start = { .width_px = setup.width_px,
                                    .height_px = setup.height_px,
                                    .name = "photo",
                                    .unit = UNITS_MM,
                                    .sigma_mm = SIGMA_MM,
                                    .font = font };
    struct app_walk *walk = app_walk_create(a, &start);
    struct vt_noise noise = { 3 };
    press(walk, KEY_SPACE);
    press(walk, KEY_SPACE);
    for (int number = 1; number <= APP_WALK_CROSSES; number++) {
        struct px_pt px = scene_standard_cross(number, setup.width_px, setup.height_px);
        double x = 0, y = 0;
        vt_reading(&setup, px.x, px.y, SIGMA_MM, &noise, &x, &y);
        if (number == BEYOND || number == ITS_SECOND) {
            press(walk, KEY_CHAR + 'b');
        } else {
            type(walk, x);
            type(walk, y);
        }
    }
    press(walk, KEY_END);
    press(walk, KEY_CHAR + 'd');
    return walk;
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct text_font *font = text_font_open(errs);
    bool ok = argc == 2 && font;
    if (ok) {
        struct paint_scene scene = app_walk_scene(walked(a, font), a);
        struct paint_image image = paint_image_create(a, setup.width_px, setup.height_px);
        paint_frame(a, &scene, NULL, &image);
        ok = export_png(argv[1], &image, errs);
    }
    if (!ok)
        fputs("photo_doubt: no picture; usage: photo_doubt OUT.png\n", stderr);
    text_font_close(font);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
