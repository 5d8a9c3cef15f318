/* How the demo looks on cloth: photo OUT.png paints a piece of the demo for a projector of the virtual table, and
 * photographs the table from above, on navy and on linen, side by side. For people to look at, and for README. */
#include "export/png.h"
#include "table/rig.h"

#include <stdio.h>

enum { WIDTH = 720, HEIGHT = 800, GAP = 16 };

#define MM_PER_PX 0.6

static const struct vt_setup setup = { .name = "photo",
                                       .width_px = 1920,
                                       .height_px = 1080,
                                       .throw_ratio = 1.2,
                                       .height_mm = 1740,
                                       .tilt_deg = 4,
                                       .turn_deg = 2,
                                       .foot_x_mm = 450,
                                       .foot_y_mm = 100,
                                       .shift = 0.8 };

/* Reflectances by eye, no source; room and lamp as 300 lx and 1200 lx on the cloth, the camera open longer for navy. */
static const struct {
    const char *chalk;
    struct vt_cloth cloth;
} shots[] = {
    { "white", { 0x2b3a5e, 0.9, 3.6 } },
    { "lemon", { 0xd8c9a8, 0.22, 0.88 } },
};

/* The middle of what the app draws on the table, for the camera to look at. */
static vec2 middle_of(struct arena *a, struct app *app)
{
    struct paint_items in = app_scene(app, a).table.in;
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < in.path_count; i++)
        box = geometry_box_join(box, geometry_path_box(in.paths[i]));
    return vec2_lerp(box.min, box.max, 0.5);
}

static bool save_photo(struct arena *a, struct app *app, const char *path, struct err_list *errs)
{
    struct paint_image image = paint_image_create(a, 2 * WIDTH + GAP, HEIGHT);
    vec2 middle = middle_of(a, app);
    struct vt_pt corner = { middle.x - WIDTH * MM_PER_PX / 2, middle.y + HEIGHT * MM_PER_PX / 2 };
    for (int i = 0; i < 2; i++) {
        if (!app_set_chalks(app, shots[i].chalk))
            return false;
        struct paint_image frame = rig_paint(a, app);
        struct vt_frame light = rig_frame(&frame);
        struct vt_photo photo = {
            image.pixels + i * (WIDTH + GAP), WIDTH, HEIGHT, (int)image.stride, corner, MM_PER_PX
        };
        vt_picture(&setup, &light, &shots[i].cloth, &photo);
    }
    return export_png(path, &image, errs);
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct text_font *font = text_font_open(errs);
    struct calibration_table table;
    bool ok = argc == 2 && font && rig_exact_table(a, &setup, &table, errs);
    struct app *app = ok ? rig_app(a, &table, font, errs) : NULL;
    ok = app && save_photo(a, app, argv[1], errs);
    if (!ok)
        fputs("photo: no picture; usage: photo OUT.png\n", stderr);
    text_font_close(font);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
