#include "export/png.h"
#include "support/folder.h"
#include "support/room.h"

#include <png.h>
#include <stdlib.h>

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
    struct room *room = *state;
    const char *path = room_path(room, "a.png");
    struct paint_image image = picture(room->a, 53, 31);
    assert_true(export_png(path, &image, room->errs));
    assert_int_equal(support_folder_count(room_folder(room)), 1);
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
    assert_true(export_is_png(path));
    png_destroy_read_struct(&png, &info, NULL);
    fclose(file);
}

static void only_what_begins_with_the_signature_is_a_picture(void **state)
{
    struct room *room = *state;
    /* ISO/IEC 15948, 5.2: 137 80 78 71 13 10 26 10 */
    assert_true(export_is_png(room_put(room, "a", "\x89PNG\r\n\x1a\n and more")));
    assert_false(export_is_png(room_put(room, "b", "\x89PNG\n\x1a\n and more")));
    assert_false(export_is_png(room_put(room, "c", "\x89PNG")));
    assert_false(export_is_png(room_path(room, "none")));
}

static void a_place_that_cannot_be_written_is_told(void **state)
{
    struct room *room = *state;
    struct paint_image image = picture(room->a, 2, 2);
    assert_false(export_png(room_path(room, "none/a.png"), &image, room->errs));
    assert_true(base_err_list_has(room->errs, "file.cannot_save"));
    assert_int_equal(support_folder_count(room_folder(room)), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(what_is_saved_is_read_back_by_libpng),
        room_test(only_what_begins_with_the_signature_is_a_picture),
        room_test(a_place_that_cannot_be_written_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
