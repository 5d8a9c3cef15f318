#include "thin_line.h"

#include "paint/frame.h"

#include <math.h>

struct paint_image thin_line_painted(struct arena *a, int width, int height, double line_px, double lean_px)
{
    const double beyond = 2; /* so that no end of the line is in the picture */
    double lean = lean_px / height, middle = width / 2.0;
    vec2 ends[2] = { { middle - lean_px / 2 - beyond * lean, -beyond },
                     { middle + lean_px / 2 + beyond * lean, height + beyond } };
    struct paint_scene scene = paint_scene_create(a);
    paint_px_stroke(&scene.px, (struct px_path){ { ends, 2, false } }, (struct paint_pen){ .width = line_px },
                    (struct paint_ink){ 0xffffff, 1 });
    struct paint_image image = paint_image_create(a, width, height);
    paint_frame(a, &scene, NULL, &image);
    return image;
}

void thin_line_mix_in_bytes(struct paint_image *image)
{
    for (int y = 0; y < image->height; y++)
        for (int x = 0; x < image->width; x++) {
            uint32_t *pixel = &image->pixels[(size_t)y * image->stride + (size_t)x];
            double covered = paint_decode((uint8_t)*pixel); /* white on black: its light is what is covered of it */
            *pixel = (uint32_t)lround(255 * covered) * 0x010101;
        }
}

double thin_line_ripple(const struct paint_image *image)
{
    double least = INFINITY, most = 0, sum = 0;
    for (int y = 0; y < image->height; y++) {
        double light = 0;
        for (int x = 0; x < image->width; x++)
            light += paint_decode((uint8_t)image->pixels[(size_t)y * image->stride + (size_t)x]);
        least = fmin(least, light);
        most = fmax(most, light);
        sum += light;
    }
    return (most - least) / (sum / image->height);
}
