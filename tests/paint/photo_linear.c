/* Why light is mixed as light: photo_linear OUT.png shows the same thin lines twice, eight times as large: on the left
 * as the program paints them, on the right with their bytes mixed, where they look beaded. For DEVELOPERS.md. */
#include "base/err_list.h"
#include "export/png.h"
#include "thin_line.h"

#include <stdio.h>

enum { LINES = 3, WIDTH = 15, HEIGHT = 60, LEAN = 4, LARGER = 8, GAP = 16 };

static const double line_px[LINES] = { 1.5, 2, 3 };

static void magnify(const struct paint_image *small, struct paint_image *large, int left)
{
    for (int y = 0; y < small->height * LARGER; y++)
        for (int x = 0; x < small->width * LARGER; x++)
            large->pixels[(size_t)y * large->stride + (size_t)(left + x)] =
                small->pixels[(size_t)(y / LARGER) * small->stride + (size_t)(x / LARGER)];
}

static bool save_photo(struct arena *a, const char *path, struct err_list *errs)
{
    struct paint_image large = paint_image_create(a, 2 * LINES * WIDTH * LARGER + GAP, HEIGHT * LARGER);
    for (int bytes = 0; bytes < 2; bytes++)
        for (int i = 0; i < LINES; i++) {
            struct paint_image small = thin_line_painted(a, WIDTH, HEIGHT, line_px[i], LEAN);
            if (bytes)
                thin_line_mix_in_bytes(&small);
            magnify(&small, &large, (bytes * LINES + i) * WIDTH * LARGER + bytes * GAP);
        }
    return export_png(path, &large, errs);
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    bool ok = argc == 2 && save_photo(a, argv[1], errs);
    if (!ok)
        fputs("photo_linear: no picture; usage: photo_linear OUT.png\n", stderr);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
