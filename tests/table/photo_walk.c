/* How setting up looks: photo_walk OUT.png takes a person through half of the walk on the virtual table and photographs
 * the mat from above, with a cross that is being moved onto the rulings. For people to look at, and for README. */
#include "app/walk.h"
#include "export/png.h"
#include "input/key.h"
#include "paint/frame.h"
#include "virtual_table.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { WIDTH = 1040, HEIGHT = 600, FINER = 3, READ = 7 }; /* FINER: the camera's pixels to one of the picture */

#define MM_PER_PX 1.4
#define MAT_WIDTH_MM 1380.0
#define MAT_HEIGHT_MM 780.0
#define RULING_MM 50.0 /* of a mat's centimetres the ones that can be seen here */
#define RULE_MM 1.0

static const struct vt_setup setup = { .name = "photo",
                                       .width_px = 1280,
                                       .height_px = 720,
                                       .throw_ratio = 1.2,
                                       .height_mm = 1640,
                                       .tilt_deg = 3,
                                       .turn_deg = 1,
                                       .foot_x_mm = 690,
                                       .foot_y_mm = 300 };

static const struct vt_pt far_left = { -38, 800 };

/* Reflectances by eye, no source; a dim room. */
enum surface { TABLE, MAT, RULE, SURFACES };

static const struct vt_cloth surfaces[SURFACES] = {
    [TABLE] = { 0x7a6a58, 0.4, 4 },
    [MAT] = { 0x34534d, 0.6, 4 },
    [RULE] = { 0x6f8f86, 0.6, 4 },
};

static enum surface surface_at(double x, double y)
{
    if (x < 0 || y < 0 || x > MAT_WIDTH_MM || y > MAT_HEIGHT_MM)
        return TABLE;
    return fmod(x, RULING_MM) < RULE_MM || fmod(y, RULING_MM) < RULE_MM ? RULE : MAT;
}

static void press(struct app_walk *walk, int key, int mods)
{
    app_walk_handle(walk, (struct input_event){ .type = INPUT_KEY, .key = key, .mods = mods });
}

static void type(struct app_walk *walk, const char *text)
{
    for (; *text; text++)
        press(walk, KEY_CHAR + *text, 0);
}

/* She reads to a quarter of a millimetre. */
static void answer(struct app_walk *walk, int number, struct vt_noise *noise)
{
    struct px_pt px = scene_standard_cross(number, setup.width_px, setup.height_px);
    double at[2];
    char text[32];
    if (!vt_reading(&setup, px.x, px.y, 0.25, noise, &at[0], &at[1]))
        return;
    for (int i = 0; i < 2; i++) {
        snprintf(text, sizeof text, "%.2f", at[i] / 10);
        type(walk, text);
        press(walk, KEY_ENTER, 0);
    }
}

static struct app_walk *half_a_walk(struct arena *a, struct text_font *font)
{
    struct app_walk_start start = { .width_px = setup.width_px,
                                    .height_px = setup.height_px,
                                    .name = "photo",
                                    .unit = UNITS_CM,
                                    .mat = { .name = "photo",
                                             .unit = UNITS_CM,
                                             .width_mm = MAT_WIDTH_MM,
                                             .height_mm = MAT_HEIGHT_MM,
                                             .ruling_mm = RULING_MM },
                                    .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                    .font = font };
    struct app_walk *walk = app_walk_create(a, &start);
    press(walk, KEY_SPACE, 0);
    struct vt_noise noise = { 3 };
    press(walk, KEY_ENTER, 0);
    for (int number = 1; number <= READ; number++)
        answer(walk, number, &noise);
    press(walk, KEY_CHAR + '*', 0); /* sends the next cross onto a crossing of rulings */
    return walk;
}

/* Each surface is photographed alone, and each pixel taken from the one that lies there. */
static struct paint_image photograph(struct arena *a, const struct paint_image *frame)
{
    struct paint_image out = paint_image_create(a, WIDTH * FINER, HEIGHT * FINER);
    struct vt_frame light = { frame->pixels, frame->width, frame->height, (int)frame->stride };
    double mm_per_px = MM_PER_PX / FINER;
    for (enum surface s = TABLE; s < SURFACES; s++) {
        struct paint_image alone = paint_image_create(a, out.width, out.height);
        struct vt_photo photo = { alone.pixels, alone.width, alone.height, (int)alone.stride, far_left, mm_per_px };
        vt_picture(&setup, &light, &surfaces[s], &photo);
        for (int row = 0; row < out.height; row++)
            for (int col = 0; col < out.width; col++)
                if (surface_at(far_left.x + col * mm_per_px, far_left.y - row * mm_per_px) == s)
                    out.pixels[(size_t)row * out.stride + (size_t)col] =
                        alone.pixels[(size_t)row * alone.stride + (size_t)col];
    }
    return out;
}

/* The mean of a square of the camera's pixels, channel by channel. */
static uint32_t mean_of(const struct paint_image *fine, int left, int top)
{
    uint32_t mean = 0;
    for (int shift = 0; shift <= 16; shift += 8) {
        uint32_t sum = 0;
        for (int i = 0; i < FINER * FINER; i++) {
            size_t row = (size_t)(top + i / FINER), col = (size_t)(left + i % FINER);
            sum += fine->pixels[row * fine->stride + col] >> shift & 0xff;
        }
        mean |= sum / (FINER * FINER) << shift;
    }
    return mean;
}

static bool save_photo(struct arena *a, struct text_font *font, const char *path, struct err_list *errs)
{
    struct paint_scene scene = app_walk_scene(half_a_walk(a, font), a);
    struct paint_image frame = paint_image_create(a, setup.width_px, setup.height_px);
    struct paint_image image = paint_image_create(a, WIDTH, HEIGHT);
    paint_frame(a, &scene, NULL, &frame);
    struct paint_image fine = photograph(a, &frame);
    for (int row = 0; row < HEIGHT; row++)
        for (int col = 0; col < WIDTH; col++)
            image.pixels[(size_t)row * image.stride + (size_t)col] = mean_of(&fine, col * FINER, row * FINER);
    return export_png(path, &image, errs);
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct text_font *font = text_font_open(errs);
    bool ok = argc == 2 && font && save_photo(a, font, argv[1], errs);
    if (!ok)
        fputs("photo_walk: no picture; usage: photo_walk OUT.png\n", stderr);
    text_font_close(font);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
