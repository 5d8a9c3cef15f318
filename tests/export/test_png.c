#include "export/png.h"
#include "support/cmocka_all.h"
#include "support/folder.h"

#include <png.h>
#include <stdlib.h>

struct here {
    struct arena *a;
    struct err_list *errs;
    char *folder;
};

static int set_up(void **state)
{
    static struct here h;
    h.a = base_arena_create();
    h.errs = base_err_list_create();
    h.folder = support_folder_create();
    *state = &h;
    return 0;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    base_arena_destroy(h->a);
    base_err_list_destroy(h->errs);
    support_folder_remove(h->folder);
    return 0;
}

/* A picture in the middle of a larger one, each pixel different, what lies beside it a colour that must not appear. */
static struct paint_image picture(struct arena *a, int width, int height)
{
    struct paint_image whole = paint_image_create(a, width + 3, height);
    for (int y = 0; y < height; y++)
        for (int x = 0; x < width + 3; x++)
            whole.pixels[y * (width + 3) + x] = x < width ? (uint32_t)(x * 70003 + y * 1009) & 0xffffff : 0xabcdef;
    whole.width = width;
    return whole;
}

/* Reads it back through libpng's row by row interface, which the program does not use. A fault in it ends the test. */
static void what_is_saved_is_read_back_by_libpng(void **state)
{
    struct here *h = *state;
    const char *path = base_arena_print(h->a, "%s/a.png", h->folder);
    struct paint_image image = picture(h->a, 53, 31);
    assert_true(export_png(path, &image, h->errs));
    assert_int_equal(support_folder_count(h->folder), 1);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    png_structp png = png_create_read_struct(PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
    png_infop info = png_create_info_struct(png);
    int intent;
    png_init_io(png, file);
    png_read_info(png, info);
    assert_int_equal(png_get_image_width(png, info), 53);
    assert_int_equal(png_get_image_height(png, info), 31);
    assert_int_equal(png_get_bit_depth(png, info), 8);
    assert_int_equal(png_get_color_type(png, info), PNG_COLOR_TYPE_RGB);
    assert_int_equal(png_get_sRGB(png, info, &intent), PNG_INFO_sRGB);
    for (int y = 0; y < 31; y++) {
        unsigned char row[3 * 53];
        png_read_row(png, row, NULL);
        for (int x = 0; x < 53; x++) {
            unsigned char *p = row + 3 * x;
            assert_int_equal(p[0] << 16 | p[1] << 8 | p[2], image.pixels[(size_t)y * image.stride + (size_t)x]);
        }
    }
    png_destroy_read_struct(&png, &info, NULL);
    fclose(file);
}

static void a_place_that_cannot_be_written_is_told(void **state)
{
    struct here *h = *state;
    struct paint_image image = picture(h->a, 2, 2);
    assert_false(export_png(base_arena_print(h->a, "%s/none/a.png", h->folder), &image, h->errs));
    assert_true(base_err_list_has(h->errs, "file.cannot_save"));
    assert_int_equal(support_folder_count(h->folder), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_is_saved_is_read_back_by_libpng, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_place_that_cannot_be_written_is_told, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
