#include "paint/image.h"
#include "paint/light.h"
#include "support/room.h"
#include "thin_line.h"

/* IEC 61966-2-1:1999, written down once more with the C library's pow. */
static double standard_decode(double encoded)
{
    return encoded <= 0.04045 ? encoded / 12.92 : pow((encoded + 0.055) / 1.055, 2.4);
}

static double standard_encode(double linear)
{
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * pow(linear, 1 / 2.4) - 0.055;
}

static void decoding_follows_the_standard(void **state)
{
    (void)state;
    for (int byte = 0; byte < 256; byte++)
        assert_near(paint_decode((uint8_t)byte), standard_decode(byte / 255.0), 4e-16);
    assert_near(paint_decode(0), 0, 0);
    assert_near(paint_decode(255), 1, 0);
}

/* Away from the places half way between two bytes, where the standard's two directions differ in the eighth digit. */
static void encoding_follows_the_standard_and_rises(void **state)
{
    (void)state;
    int before = 0;
    for (int i = 0; i <= 100000; i++) {
        double want = 255 * standard_encode(i / 100000.0);
        int got = paint_encode(i / 100000.0);
        assert_true(got >= before);
        assert_near(got, want, 0.5 + 1e-4);
        before = got;
    }
    assert_int_equal(before, 255);
}

static void every_byte_comes_back(void **state)
{
    const struct paint_light *light = paint_light_create(*state);
    for (int byte = 0; byte < 256; byte++) {
        assert_int_equal(paint_encode(paint_decode((uint8_t)byte)), byte);
        assert_int_equal(light->encode[light->decode[byte]], byte);
    }
}

static void the_table_says_what_the_formula_says(void **state)
{
    const struct paint_light *light = paint_light_create(*state);
    for (int step = 0; step <= PAINT_LIGHT_FULL; step++)
        assert_int_equal(light->encode[step], paint_encode((double)step / PAINT_LIGHT_FULL));
}

/* Half of the light of white is encoded 0.7354 * 255 = 187.5, so 188. */
static void half_covered_is_half_the_light(void **state)
{
    const struct paint_light *light = paint_light_create(*state);
    struct paint_light_ink white = paint_light_ink(light, (struct paint_ink){ 0xffffff, 1 });
    struct paint_light_ink dim = paint_light_ink(light, (struct paint_ink){ 0xff8000, 0.5 });
    assert_int_equal(paint_light_mix(light, &white, 0x000000, PAINT_COVERED / 2), 0xbcbcbc);
    assert_int_equal(dim.pixel >> 16, 0xbc);
    assert_int_equal(dim.pixel & 0xff, 0);
    /* Half of 0x80 (0.2159 of the light): encoded 0.3623 * 255 = 92.4 */
    assert_int_equal(dim.pixel >> 8 & 0xff, 92);
}

static void nothing_covered_changes_nothing_and_all_covered_is_the_ink(void **state)
{
    const struct paint_light *light = paint_light_create(*state);
    struct paint_light_ink ink = paint_light_ink(light, (struct paint_ink){ 0x86d4ff, 1 });
    assert_int_equal(ink.pixel, 0x86d4ff);
    for (uint32_t byte = 0; byte < 256; byte++) {
        uint32_t under = byte << 16 | (255 - byte) << 8 | byte;
        assert_int_equal(paint_light_mix(light, &ink, under, 0), under);
        assert_int_equal(paint_light_mix(light, &ink, under, PAINT_COVERED), 0x86d4ff);
    }
}

/* A line that wanders across the pixels: rounding the few bytes across it leaves a ripple of a percent; with bytes
 * mixed instead it loses light wherever it lies on two pixels, as decoding is bent: half a byte is 0.216 of the light.
 */
static void a_thin_line_is_as_bright_all_along_and_would_not_be_in_bytes(void **state)
{
    static const double width_px[] = { 1.5, 2, 3 };
    for (size_t i = 0; i < sizeof width_px / sizeof width_px[0]; i++) {
        struct paint_image image = thin_line_painted(*state, 24, 200, width_px[i], 4);
        double as_light = thin_line_ripple(&image);
        thin_line_mix_in_bytes(&image);
        double as_bytes = thin_line_ripple(&image);
        print_message("%g px: ripple %.4f as light, %.4f as bytes\n", width_px[i], as_light, as_bytes);
        assert_true(as_light < 0.015);
        assert_true(as_bytes > 4 * as_light);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(decoding_follows_the_standard),
        cmocka_unit_test(encoding_follows_the_standard_and_rises),
        room_arena_test(every_byte_comes_back),
        room_arena_test(the_table_says_what_the_formula_says),
        room_arena_test(half_covered_is_half_the_light),
        room_arena_test(nothing_covered_changes_nothing_and_all_covered_is_the_ink),
        room_arena_test(a_thin_line_is_as_bright_all_along_and_would_not_be_in_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
