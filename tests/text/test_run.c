#include "support/room.h"
#include "text/run.h"

#include <fontconfig/fontconfig.h>
#include <freetype/freetype.h>
#include <freetype/tttables.h>
#include <string.h>

struct here {
    struct room room;
    struct text_font *font;
};

static int set_up(void **state)
{
    static struct here h;
    room_init(&h.room);
    h.font = text_font_open(h.room.errs);
    *state = &h;
    return h.font ? 0 : -1;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    text_font_close(h->font);
    return room_close(state);
}

static struct geometry_box box_of(struct text_run run)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < run.count; i++)
        box = geometry_box_join(box, geometry_path_box(run.contours[i]));
    return box;
}

static double area_of(struct text_run run)
{
    double area = 0;
    for (size_t i = 0; i < run.count; i++)
        area += geometry_path_area(run.contours[i]);
    return area;
}

/* The letters' own outline, not our arithmetic: an H stands on the base line and is as high as a capital. */
static void capitals_have_the_height_asked_for(void **state)
{
    struct here *h = *state;
    struct geometry_box box = box_of(text_run_outline(h->room.a, h->font, "H", 20));
    assert_near(box.min.y, 0, 0.05);
    assert_near(box.max.y, 20, 0.05);
}

/* O is a bowl with one hole, B has two, i has a dot; outside counter-clockwise, holes clockwise. */
static void outer_contours_run_counter_clockwise_and_holes_clockwise(void **state)
{
    struct here *h = *state;
    const struct {
        const char *letter;
        size_t outer, holes;
    } rows[] = { { "H", 1, 0 }, { "O", 1, 1 }, { "B", 1, 2 }, { "i", 2, 0 }, { "8", 1, 2 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct text_run run = text_run_outline(h->room.a, h->font, rows[i].letter, 12);
        size_t outer = 0;
        for (size_t k = 0; k < run.count; k++) {
            assert_true(run.contours[k].closed && run.contours[k].count >= 3);
            outer += geometry_path_area(run.contours[k]) > 0;
        }
        assert_int_equal(outer, rows[i].outer);
        assert_int_equal(run.count - outer, rows[i].holes);
    }
}

static void size_only_scales(void **state)
{
    struct here *h = *state;
    struct text_run small = text_run_outline(h->room.a, h->font, "SOG&", 1),
                    large = text_run_outline(h->room.a, h->font, "SOG&", 50);
    assert_int_equal(small.count, large.count);
    assert_near(area_of(large), 2500 * area_of(small), 1e-6);
    assert_near(large.width, 50 * small.width, 1e-9);
    for (size_t i = 0; i < small.count; i++)
        assert_int_equal(small.contours[i].count, large.contours[i].count);
}

static void the_width_alone_is_the_width_of_the_outline(void **state)
{
    struct here *h = *state;
    const char *text = "FRONT BODICE 5 1/2 \xc3\x84\xe2\x82\xac";
    assert_near(text_run_width(h->font, text, 14), text_run_outline(h->room.a, h->font, text, 14).width, 0);
    assert_near(text_run_width(h->font, "", 14), 0, 0);
    assert_int_equal(text_run_outline(h->room.a, h->font, " ", 14).count, 0);
    assert_true(text_run_width(h->font, " ", 14) > 1);
}

static void letters_stand_side_by_side(void **state)
{
    struct here *h = *state;
    double one = text_run_width(h->font, "H", 10);
    struct geometry_box first = box_of(text_run_outline(h->room.a, h->font, "H", 10));
    struct geometry_box both = box_of(text_run_outline(h->room.a, h->font, "HH", 10));
    assert_near(both.min.x, first.min.x, 1e-9);
    assert_near(both.max.x, one + first.max.x, 1e-9);
}

static void what_the_font_lacks_shows_its_box(void **state)
{
    struct here *h = *state;
    struct text_run run = text_run_outline(h->room.a, h->font, "\xf4\x80\x80\x81", 10); /* U+100001, for private use */
    assert_true(run.width > 0);
}

/* Outside source: the font's file read here by FreeType at a size in pixels, its advances and kerning added up. */
static FT_Face lato_heavy(FT_Library library, FcConfig *config)
{
    FT_Face face = NULL;
    FcResult result;
    FcPattern *wanted = FcNameParse((const FcChar8 *)"Lato Heavy:style=Heavy");
    FcConfigSubstitute(config, wanted, FcMatchPattern);
    FcDefaultSubstitute(wanted);
    FcPattern *found = FcFontMatch(config, wanted, &result);
    FcChar8 *file;
    if (found && FcPatternGetString(found, FC_FILE, 0, &file) == FcResultMatch &&
        strstr((const char *)file, "Lato-Heavy.ttf"))
        FT_New_Face(library, (const char *)file, 0, &face);
    FcPatternDestroy(found);
    FcPatternDestroy(wanted);
    return face;
}

/* The page that describes the table's letters gives Lato Heavy's cap height as 0.7255 em. */
static void lato_heavy_has_the_width_that_freetype_adds_up(void **state)
{
    struct here *h = *state;
    const char *text = "WAISTBAND AVTO 34";
    FT_Library library;
    FcConfig *config = FcInitLoadConfigAndFonts();
    assert_int_equal(FT_Init_FreeType(&library), 0);
    FT_Face face = lato_heavy(library, config);
    FcConfigDestroy(config);
    if (!face)
        fail_msg("Lato Heavy is not installed (Debian: fonts-lato, which src/packages.txt lists)");
    assert_string_equal(text_font_family(h->font), "Lato");
    double way = 0;
    FT_UInt before = 0;
    for (const char *c = text; *c; c++) {
        FT_UInt glyph = FT_Get_Char_Index(face, (FT_ULong)*c);
        FT_Vector kern = { 0, 0 };
        FT_Get_Kerning(face, before, glyph, FT_KERNING_UNSCALED, &kern);
        assert_int_equal(FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE), 0);
        way += (double)(kern.x + face->glyph->metrics.horiAdvance);
        before = glyph;
    }
    double em = 10 / 0.7255; /* 0.7255 is rounded to four digits */
    assert_near(text_run_width(h->font, text, 10), way / face->units_per_EM * em, 1e-4 * way / face->units_per_EM * em);
    FT_Done_Face(face);
    FT_Done_FreeType(library);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(capitals_have_the_height_asked_for, set_up, tear_down),
        cmocka_unit_test_setup_teardown(outer_contours_run_counter_clockwise_and_holes_clockwise, set_up, tear_down),
        cmocka_unit_test_setup_teardown(size_only_scales, set_up, tear_down),
        cmocka_unit_test_setup_teardown(the_width_alone_is_the_width_of_the_outline, set_up, tear_down),
        cmocka_unit_test_setup_teardown(letters_stand_side_by_side, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_the_font_lacks_shows_its_box, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lato_heavy_has_the_width_that_freetype_adds_up, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
