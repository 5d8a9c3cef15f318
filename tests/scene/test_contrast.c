/* Colours of light on cloths. Ratios and choices for linen, navy, scarlet and black at 300 lx of room and 1200 lx of
 * light are given figures of the look's design; the cloths' reflectances that they belong to are beside them. */
#include "scene/contrast.h"
#include "support/cmocka_all.h"

enum { WHITE, LEMON, APRICOT, ROSE, MINT, SKY, ANY };

static struct scene_ground usual(const char *colour)
{
    return scene_ground_of(colour, 300, 1200);
}

static double ratio_of(const struct scene_ground *g, int chalk)
{
    return scene_ratio(g, scene_chalks[chalk].main);
}

static void each_cloth_has_the_chalks_that_are_given_for_it(void **state)
{
    static const struct {
        const char *colour;
        int main, second;
        double main_ratio, second_ratio;
    } rows[] = {
        { "#D8C8A8", LEMON, MINT, 4.4, 4.1 },  /* unbleached linen: 0.69, 0.58, 0.39 */
        { "#1F2A44", WHITE, MINT, 5.0, 4.2 },  /* navy: 0.014, 0.023, 0.058 */
        { "#B22E38", WHITE, LEMON, 5.0, 4.8 }, /* scarlet: 0.44, 0.03, 0.04 */
        { "#141414", WHITE, LEMON, 5.0, 4.3 }, /* black: 0.007 in all three */
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct scene_ground g = usual(rows[i].colour);
        struct scene_chalks chalks = scene_chalks_on(&g, ANY, ANY);
        assert_int_equal(chalks.main, scene_chalks[rows[i].main].main);
        assert_int_equal(chalks.second, scene_chalks[rows[i].second].main);
        assert_string_equal(chalks.name, scene_chalks[rows[i].main].name);
        assert_near(scene_ratio(&g, chalks.main), rows[i].main_ratio, 0.05);
        assert_near(scene_ratio(&g, chalks.second), rows[i].second_ratio, 0.05);
    }
}

/* WCAG 2.1: the relative luminance of #767676 is 0.181164, worked out by hand from its formula; white is 1. */
static void luminance_is_that_of_the_standard(void **state)
{
    (void)state;
    struct scene_ground grey = usual("#767676"), white = usual("#FFFFFF");
    assert_near(scene_luminance(&grey.reflectance), 0.181164, 1e-6);
    assert_near(scene_luminance(&white.reflectance), 1, 1e-12);
}

/* On grey, white light of P over a room of A: (A + P) / A, however dark the grey. */
static void on_grey_white_is_light_and_room_over_room(void **state)
{
    (void)state;
    for (int k = 0; k < 3; k++) {
        struct scene_ground g = scene_ground_of((const char *[]){ "#808080", "#202020", NULL }[k], 500, 400);
        assert_near(ratio_of(&g, WHITE), 1.8, 1e-12);
    }
}

/* By hand: P / A = 0.6 makes white 1.6; mint on grey is 1 + 0.6 · 0.7988 = 1.479, sky and rose less; lemon 1.497. */
static void what_is_not_seen_is_not_chosen(void **state)
{
    (void)state;
    struct scene_ground g = scene_ground_of("#B0B0B0", 1000, 600);
    struct scene_chalks chalks = scene_chalks_on(&g, ANY, ANY);
    assert_true(ratio_of(&g, LEMON) < 1.5);
    assert_int_equal(chalks.main, 0xffffff);
    assert_int_equal(chalks.second, 0xffffff);
    assert_true(scene_is_any_seen(&g));
}

/* 1400 lx of light in a room of 3000 lx: 1.467. */
static void in_a_bright_room_nothing_is_seen(void **state)
{
    (void)state;
    struct scene_ground bright = scene_ground_of("#D8C8A8", 3000, 1400),
                        dimmed = scene_ground_of("#D8C8A8", 2700, 1400);
    assert_false(scene_is_any_seen(&bright));
    assert_true(scene_is_any_seen(&dimmed));
    assert_near(scene_chalks_on(&bright, ANY, ANY).least_level, 1, 0);
}

/* 0.5 / (R - 1): white in full light is 2 : 1 here, so half its light is 1.5 : 1. */
static void dim_lines_rise_until_they_are_seen(void **state)
{
    (void)state;
    struct scene_ground g = scene_ground_of("#808080", 1000, 1000);
    struct scene_chalks chalks = scene_chalks_on(&g, WHITE, WHITE);
    struct scene_look look = { 1, 3, &chalks };
    assert_near(chalks.least_level, 0.5, 1e-12);
    assert_near(scene_ink(&look, SCENE_CUT_BEFORE).level, 0.5, 1e-12); /* 0.35 */
    assert_near(scene_ink(&look, SCENE_CUT_LATER).level, 0.6, 1e-12);
    assert_near(scene_ink(&look, SCENE_CUT).level, 1, 1e-12);
}

static void no_line_on_any_cloth_is_under_the_least_ratio(void **state)
{
    static const char *const cloths[] = { "#D8C8A8", "#1F2A44", "#B22E38", "#141414", "#FFFFFF", "#2E7D32", "#000000" };
    (void)state;
    for (size_t i = 0; i < sizeof cloths / sizeof cloths[0]; i++)
        for (double room = 100; room <= 1500; room += 200) {
            struct scene_ground g = scene_ground_of(cloths[i], room, 1200);
            struct scene_chalks chalks = scene_chalks_on(&g, ANY, ANY);
            struct scene_look look = { 1, 3, &chalks };
            for (enum scene_line line = SCENE_CUT; line < SCENE_LINES; line++) {
                struct paint_ink ink = scene_ink(&look, line);
                double full = scene_ratio(&g, ink.chalk); /* light adds up: at a level, so much of what is above 1 */
                assert_true(1 + ink.level * (full - 1) >= 1.5 - 1e-9);
            }
        }
}

static void what_she_chooses_is_taken(void **state)
{
    (void)state;
    struct scene_ground g = usual("#D8C8A8");
    struct scene_chalks chalks = scene_chalks_on(&g, SKY, ROSE);
    assert_int_equal(chalks.main, 0x86d4ff);
    assert_int_equal(chalks.second, 0xff9cc2);
    assert_int_equal(scene_chalks_on(&g, MINT, ANY).second, 0xffee4a); /* lemon is the brightest other one on linen */
}

static void cloth_of_no_colour_has_white_and_mint(void **state)
{
    (void)state;
    struct scene_ground g = usual(NULL);
    struct scene_chalks chalks = scene_chalks_on(&g, ANY, ANY);
    assert_int_equal(chalks.main, 0xffffff);
    assert_int_equal(chalks.second, 0x86ffb4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_cloth_has_the_chalks_that_are_given_for_it),
        cmocka_unit_test(luminance_is_that_of_the_standard),
        cmocka_unit_test(on_grey_white_is_light_and_room_over_room),
        cmocka_unit_test(what_is_not_seen_is_not_chosen),
        cmocka_unit_test(in_a_bright_room_nothing_is_seen),
        cmocka_unit_test(dim_lines_rise_until_they_are_seen),
        cmocka_unit_test(no_line_on_any_cloth_is_under_the_least_ratio),
        cmocka_unit_test(what_she_chooses_is_taken),
        cmocka_unit_test(cloth_of_no_colour_has_white_and_mint),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
