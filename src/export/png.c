#include "export/png.h"

#include "base/file.h"

#include <assert.h>
#include <png.h>
#include <stdio.h>

static const struct err_kind cannot_write = { "export.png", ERR_FAULT, BASE_TR("cannot be written as PNG: {0}") };

/* Three bytes a pixel, row after row. */
static unsigned char *bytes_of(struct arena *a, const struct paint_image *image)
{
    unsigned char *bytes = base_arena_alloc(a, (size_t)image->width * (size_t)image->height, 3), *to = bytes;
    for (int y = 0; y < image->height; y++) {
        const uint32_t *row = image->pixels + (size_t)y * image->stride;
        for (int x = 0; x < image->width; x++) {
            *to++ = (unsigned char)(row[x] >> 16);
            *to++ = (unsigned char)(row[x] >> 8);
            *to++ = (unsigned char)row[x];
        }
    }
    return bytes;
}

bool export_png(const char *path, const struct paint_image *image, struct err_list *errs)
{
    assert(image->width > 0 && image->height > 0);
    struct arena *a = base_arena_create();
    const unsigned char *pixels = bytes_of(a, image);
    png_image png = { .version = PNG_IMAGE_VERSION,
                      .width = (png_uint_32)image->width,
                      .height = (png_uint_32)image->height,
                      .format = PNG_FORMAT_RGB }; /* eight bits: libpng marks it as sRGB */
    png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(png);
    char *data = base_arena_alloc(a, size, 1);
    bool ok = png_image_write_to_memory(&png, data, &size, 0, pixels, 0, NULL) != 0;
    if (ok)
        ok = base_file_save(path, data, size, errs);
    else
        base_err(errs, &cannot_write, base_err_in_file(path), ERR_TEXT(png.message));
    png_image_free(&png);
    base_arena_destroy(a);
    return ok;
}

bool export_is_png(const char *path)
{
    unsigned char head[8]; /* the signature */
    FILE *file = fopen(path, "rb");
    size_t count = file ? fread(head, 1, sizeof head, file) : 0;
    if (file)
        fclose(file);
    return count == sizeof head && png_sig_cmp(head, 0, sizeof head) == 0;
}
