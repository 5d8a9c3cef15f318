/* kept_picture MADE.png KEPT.png [--keep]: whether a page still looks as the small picture that is kept of it, a
 * quarter of it across and down; --keep: keeps it. Where it does not, a picture of the differences is left beside MADE.
 *
 * Letters of another minor version of FreeType may be a shade off; a word that is missing, moved or another is not. The
 * bounds are our own (no source): tests/kept/pages.sh proves that they tell pages apart. */
#include <png.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SHRINK = 4, CHANNELS = 3, BLOCK = 8 /* small pixels: 32 of the page */ };

#define MOST_MEAN 0.5  /* of 255, over the page */
#define MOST_BLOCK 6.0 /* over the block that differs most */

struct picture {
    int width, height;
    png_bytep rgb;
};

static struct picture blank(int width, int height)
{
    return (struct picture){ width, height, calloc((size_t)width * (size_t)height, CHANNELS) };
}

static png_bytep at(const struct picture *p, int x, int y)
{
    return p->rgb + ((size_t)y * (size_t)p->width + (size_t)x) * CHANNELS;
}

static struct picture read_picture(const char *path)
{
    png_image image = { .version = PNG_IMAGE_VERSION };
    if (!png_image_begin_read_from_file(&image, path))
        return (struct picture){ 0, 0, NULL };
    image.format = PNG_FORMAT_RGB;
    struct picture out = blank((int)image.width, (int)image.height);
    if (!png_image_finish_read(&image, NULL, out.rgb, 0, NULL))
        out.width = 0;
    return out;
}

static bool write_picture(const char *path, const struct picture *p)
{
    png_image image = { .version = PNG_IMAGE_VERSION,
                        .width = (png_uint_32)p->width,
                        .height = (png_uint_32)p->height,
                        .format = PNG_FORMAT_RGB };
    return png_image_write_to_file(&image, path, 0, p->rgb, 0, NULL) != 0;
}

static struct picture shrunk(const struct picture *p)
{
    struct picture out = blank(p->width / SHRINK, p->height / SHRINK);
    for (int y = 0; y < out.height; y++)
        for (int x = 0; x < out.width; x++)
            for (int c = 0; c < CHANNELS; c++) {
                int sum = 0;
                for (int i = 0; i < SHRINK * SHRINK; i++)
                    sum += at(p, x * SHRINK + i % SHRINK, y * SHRINK + i / SHRINK)[c];
                at(&out, x, y)[c] = (png_byte)(sum / (SHRINK * SHRINK));
            }
    return out;
}

/* The mean difference of a part of the pictures. */
static double mean_off(const struct picture *off, int left, int top, int width, int height)
{
    double sum = 0;
    for (int y = top; y < top + height; y++)
        for (int x = left; x < left + width; x++)
            for (int c = 0; c < CHANNELS; c++)
                sum += at(off, x, y)[c];
    return sum / (CHANNELS * width * height);
}

static double worst_block(const struct picture *off, int *left, int *top)
{
    double worst = 0;
    for (int y = 0; y + BLOCK <= off->height; y += BLOCK / 2)
        for (int x = 0; x + BLOCK <= off->width; x += BLOCK / 2) {
            double mean = mean_off(off, x, y, BLOCK, BLOCK);
            if (mean <= worst)
                continue;
            worst = mean;
            *left = x * SHRINK;
            *top = y * SHRINK;
        }
    return worst;
}

/* Shown eight times as strong as they are. */
static void leave_differences(const char *made, struct picture *off)
{
    char path[4096];
    for (size_t i = 0; i < (size_t)off->width * (size_t)off->height * CHANNELS; i++)
        off->rgb[i] = off->rgb[i] > 31 ? 255 : (png_byte)(off->rgb[i] * 8);
    snprintf(path, sizeof path, "%.*s-differs.png", (int)strlen(made) - 4, made);
    if (write_picture(path, off))
        printf("  the differences: %s\n", path);
}

static bool looks_alike(const char *made, const struct picture *small, const struct picture *kept)
{
    struct picture off = blank(small->width, small->height);
    int left = 0, top = 0;
    for (size_t i = 0; i < (size_t)off.width * (size_t)off.height * CHANNELS; i++)
        off.rgb[i] = (png_byte)abs(small->rgb[i] - kept->rgb[i]);
    double mean = mean_off(&off, 0, 0, off.width, off.height), worst = worst_block(&off, &left, &top);
    bool alike = mean <= MOST_MEAN && worst <= MOST_BLOCK;
    if (!alike) {
        printf("%s: differs by %.2f of 255 on average, by %.1f most at %d, %d px\n", made, mean, worst, left, top);
        leave_differences(made, &off);
    }
    free(off.rgb);
    return alike;
}

int main(int argc, char **argv)
{
    bool keep = argc == 4 && strcmp(argv[3], "--keep") == 0;
    if (argc != 3 && !keep)
        return 2;
    struct picture made = read_picture(argv[1]);
    if (!made.width)
        return printf("%s: no picture\n", argv[1]), 2;
    struct picture small = shrunk(&made), kept = keep ? blank(1, 1) : read_picture(argv[2]);
    bool same_size = kept.width == small.width && kept.height == small.height;
    if (!keep && !same_size)
        printf("%s: is %d × %d, and what is kept %d × %d\n", argv[1], small.width, small.height, kept.width,
               kept.height);
    bool good = keep ? write_picture(argv[2], &small) : same_size && looks_alike(argv[1], &small, &kept);
    free(made.rgb);
    free(small.rgb);
    free(kept.rgb);
    return good ? 0 : 1;
}
