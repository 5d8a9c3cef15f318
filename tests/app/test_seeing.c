/* How light is seen on the cloth: chalks by the cloth's colour or by her own choice. What belongs to which cloth is
 * given in tests/scene/test_contrast.c. */
#include "app/memory.h"
#include "app/state.h"
#include "input/key.h"
#include "job/cloth.h"
#include "support/room.h"
#include "table/rig.h"

#include <string.h>

struct here {
    struct room room;
    struct calibration_table table;
    struct job job;
    struct app *app;
};

/* The demo's job on linen, its interfacing navy. */
static struct app *open_app(struct here *h)
{
    struct app *app = rig_app(h->room.a, &h->table, NULL, h->room.errs);
    struct cloth linen = cloth_plain(1400), navy = cloth_plain(900);
    linen.colour = "#D8C8A8";
    navy.colour = "#1F2A44";
    h->job = *app->job;
    job_set_cloth(h->room.a, &h->job, PATTERN_FABRIC, &linen);
    job_set_cloth(h->room.a, &h->job, PATTERN_INTERFACING, &navy);
    app->job = &h->job;
    return app;
}

static int set_up(void **state)
{
    static struct here h;
    size_t count;
    room_init(&h.room);
    *state = &h;
    if (!rig_exact_table(h.room.a, &vt_standard_setups(&count)[0], &h.table, h.room.errs))
        return -1;
    h.table.sample = false;
    h.app = open_app(&h);
    return 0;
}

static bool press(struct here *h, const char *name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(name, &event.key, &event.mods));
    return app_handle(h->app, event).redraw;
}

static size_t line_of(const struct here *h, enum pattern_cloth material)
{
    size_t i = 0;
    while (h->app->draft.cuts[i].cloth != material)
        assert_true(++i < h->app->draft.cut_count);
    return i;
}

/* Whether something of the table's list is drawn in that colour. */
static bool is_drawn_in(struct here *h, uint32_t chalk)
{
    struct paint_items in = app_scene(h->app, h->room.a).table.in;
    for (size_t i = 0; i < in.count; i++)
        if (in.items[i].ink.level > 0 && in.items[i].ink.chalk == chalk)
            return true;
    return false;
}

static void each_material_is_drawn_by_its_cloth(void **state)
{
    struct here *h = *state;
    app_go_to_cut(h->app, line_of(h, PATTERN_FABRIC));
    assert_true(is_drawn_in(h, 0xffee4a) && is_drawn_in(h, 0x86ffb4) && !is_drawn_in(h, 0xffffff));
    app_go_to_cut(h->app, line_of(h, PATTERN_INTERFACING));
    assert_true(is_drawn_in(h, 0xffffff) && is_drawn_in(h, 0x86ffb4) && !is_drawn_in(h, 0xffee4a));
}

static void a_key_goes_through_all_colours_and_back_to_the_cloths(void **state)
{
    struct here *h = *state;
    static const uint32_t rows[] = { 0xffffff, 0xffee4a, 0xffb259, 0xff9cc2, 0x86ffb4, 0x86d4ff };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        press(h, "c");
        assert_int_equal(app_chalks(h->app).main, rows[i]);
    }
    press(h, "c");
    assert_string_equal(app_chalks(h->app).name, "lemon");
    press(h, "c");
    app_go_to_cut(h->app, line_of(h, PATTERN_INTERFACING)); /* another cloth, another choice */
    assert_int_equal(h->app->seeing.chosen[PATTERN_INTERFACING].main, SCENE_CHALKS);
}

/* 1400 lx in a room of 3000: at most 1.47 : 1. What she chooses by eye is not judged. */
static void a_room_too_bright_is_told_until_she_chooses(void **state)
{
    struct here *h = *state;
    assert_null(app_seeing_warning(h->app));
    app_set_room(h->app, 3000, 1400);
    assert_non_null(strstr(app_seeing_warning(h->app), "Dim the room a little or bring the light nearer"));
    press(h, "c");
    assert_null(app_seeing_warning(h->app));
}

static void what_she_chose_comes_back(void **state)
{
    struct here *h = *state;
    press(h, "c");
    press(h, "c");
    h->app->seeing.chosen[PATTERN_FABRIC].second = 5;
    const char *line = app_remember(h->app, h->room.a);
    assert_non_null(strstr(line, "[\"lemon, sky\", \"automatic\", \"automatic\"]"));
    struct app *again = open_app(h);
    assert_true(app_recall(again, line, h->room.errs));
    assert_string_equal(app_remember(again, h->room.a), line);
}

static void colours_that_are_none_are_refused(void **state)
{
    struct here *h = *state;
    static const char *const wrong[] = { "[\"tartan\", \"automatic\", \"automatic\"]",
                                         "[\"lemon, lemon\", \"automatic\", \"automatic\"]",
                                         "[\"lemon, \", \"automatic\", \"automatic\"]",
                                         "[\"lemo\", \"automatic\", \"automatic\"]",
                                         "[\"lemon\"]",
                                         "[\"lemon\", \"sky\", \"sky\", \"sky\"]",
                                         "[1, 2, 3]",
                                         "\"lemon\"",
                                         "null" };
    const char *line = app_remember(h->app, h->room.a), *right = "[\"automatic\", \"automatic\", \"automatic\"]";
    const char *at = strstr(line, right);
    assert_non_null(at);
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        const char *spoilt =
            base_arena_print(h->room.a, "%.*s%s%s", (int)(at - line), line, wrong[i], at + strlen(right));
        if (app_recall(h->app, spoilt, h->room.errs))
            fail_msg("taken: %s", wrong[i]);
    }
    assert_string_equal(app_remember(h->app, h->room.a), line);
}

/* Lines of old have one colour for all; white was the one that nobody had chosen. */
static void lines_of_old_are_understood(void **state)
{
    struct here *h = *state;
    static const char form[] =
        "{\"cut\": 0, \"all\": false, \"mirror\": false, \"turn\": 0, \"right\": 0, \"away\": 0, \"weight\": 3, "
        "\"chalk\": \"%s\", \"side\": \"near\"}";
    assert_true(app_recall(h->app, base_arena_print(h->room.a, form, "rose"), h->room.errs));
    assert_string_equal(app_chalks(h->app).name, "rose");
    assert_true(app_recall(h->app, base_arena_print(h->room.a, form, "white"), h->room.errs));
    assert_string_equal(app_chalks(h->app).name, "lemon");
}

/* --- the trial strip --------------------------------------------------------------------------------------------- */

static bool is_on_page_in(struct here *h, uint32_t chalk)
{
    struct paint_items in = app_scene(h->app, h->room.a).px.in;
    for (size_t i = 0; i < in.count; i++)
        if (in.items[i].ink.level > 0 && in.items[i].ink.chalk == chalk)
            return true;
    return false;
}

static void six_bars_are_shown_and_a_number_chooses(void **state)
{
    struct here *h = *state;
    press(h, "shift c");
    for (int i = 0; i < SCENE_CHALKS; i++)
        assert_true(is_on_page_in(h, scene_chalks[i].main));
    assert_non_null(strstr(app_trial_text(h->app, h->room.a), "Type its number"));
    press(h, "5");
    assert_string_equal(app_chalks(h->app).name, "mint");
    assert_int_equal(app_chalks(h->app).second, 0xffee4a); /* by the cloth: lemon is the brightest other one on linen */
    assert_non_null(strstr(app_trial_text(h->app, h->room.a), "Cut lines are mint"));
    press(h, "5");
    assert_non_null(h->app->told);
    assert_int_equal(app_chalks(h->app).second, 0xffee4a);
    press(h, "6");
    assert_int_equal(app_chalks(h->app).second, 0x86d4ff);
    assert_non_null(strstr(app_remember(h->app, h->room.a), "\"mint, sky\""));
    press(h, "1"); /* from the beginning */
    assert_int_equal(app_chalks(h->app).main, 0xffffff);
    press(h, "0");
    assert_string_equal(app_chalks(h->app).name, "lemon");
    press(h, "esc");
    assert_int_equal(h->app->mode, SCENE_PIECES);
}

static void numbers_mean_nothing_elsewhere(void **state)
{
    struct here *h = *state;
    assert_false(press(h, "5"));
    assert_string_equal(app_chalks(h->app).name, "lemon");
    press(h, "shift c");
    press(h, "shift c");
    assert_false(press(h, "5"));
}

/* --- the pulse --------------------------------------------------------------------------------------------------- */

/* The level of the widest stroke: the cut line. */
static double cut_level(struct here *h)
{
    struct paint_items in = app_scene(h->app, h->room.a).table.in;
    double wide = 0, level = -1;
    for (size_t i = 0; i < in.count; i++)
        if (in.items[i].kind == PAINT_STROKE && in.items[i].pen.width > wide && in.items[i].ink.level > 0) {
            wide = in.items[i].pen.width;
            level = in.items[i].ink.level;
        }
    return level;
}

/* Down to 60 % and up again once a second, three times; by hand (1 - cos) / 2 is 0.5 a quarter of a second on. */
static void lines_pulse_for_three_seconds(void **state)
{
    static const struct {
        double after_s, level;
    } rows[] = { { 0, 1 }, { 0.25, 0.8 }, { 0.5, 0.6 }, { 0.75, 0.8 }, { 1, 1 }, { 1.5, 0.6 }, { 2.5, 0.6 } };
    struct here *h = *state;
    h->app->weight_mm = 9; /* wider than what is about notches */
    app_pass_time(h->app, 1000, 1000);
    assert_int_equal(app_patience_ms(h->app), -1);
    press(h, "p");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_true(app_pass_time(h->app, 1000, 1000 + rows[i].after_s).redraw);
        assert_near(cut_level(h), rows[i].level, 1e-9);
        assert_true(app_patience_ms(h->app) > 0 && app_patience_ms(h->app) <= 50); /* twenty pictures a second */
    }
    assert_true(app_pass_time(h->app, 1000, 1003).redraw); /* once more, at rest */
    assert_near(cut_level(h), 1, 0);
    assert_int_equal(app_patience_ms(h->app), -1);
    assert_false(app_pass_time(h->app, 1000, 1003.1).redraw);
}

/* --- bands and white light --------------------------------------------------------------------------------------- */

/* Fills in no light, over others: letters on bands. */
static int unlit_fills(struct here *h)
{
    struct paint_scene scene = app_scene(h->app, h->room.a);
    int count = 0;
    for (size_t i = 0; i < scene.table.in.count; i++)
        count += scene.table.in.items[i].kind == PAINT_FILL && scene.table.in.items[i].ink.level <= 0;
    return count;
}

static void words_stand_on_bands_over_stripes_and_where_she_wants_them(void **state)
{
    struct here *h = *state;
    struct cloth striped = cloth_plain(1400);
    h->app->font = text_font_open(h->room.errs);
    int plain = unlit_fills(h);
    press(h, "g");
    assert_true(unlit_fills(h) > plain);
    press(h, "g");
    assert_int_equal(unlit_fills(h), plain);
    assert_non_null(strstr(app_remember(h->app, h->room.a), "\"bands\": [\"no\", \"automatic\", \"automatic\"]"));
    struct app *again = open_app(h);
    assert_true(app_recall(again, app_remember(h->app, h->room.a), h->room.errs));
    assert_false(app_has_band(again));
    text_font_close(h->app->font);
    h->app = open_app(h);
    striped.repeat.across_mm = 40;
    job_set_cloth(h->room.a, &h->job, PATTERN_FABRIC, &striped);
    assert_true(app_has_band(h->app));
    press(h, "g");
    assert_false(app_has_band(h->app));
}

static void the_whole_table_is_white_until_any_key(void **state)
{
    struct here *h = *state;
    press(h, "shift b");
    struct paint_image image = rig_paint(h->room.a, h->app);
    for (int y = 0; y < image.height; y++)
        for (int x = 0; x < image.width; x++)
            assert_int_equal(image.pixels[(size_t)y * image.stride + (size_t)x], 0xffffff);
    size_t cut = h->app->cut;
    assert_true(press(h, "page down")); /* which does nothing else */
    assert_int_equal(h->app->cut, cut);
    assert_int_equal(h->app->mode, SCENE_PIECES);
    press(h, "shift b");
    press(h, "f9"); /* one that means nothing */
    assert_int_equal(h->app->mode, SCENE_PIECES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(each_material_is_drawn_by_its_cloth, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_key_goes_through_all_colours_and_back_to_the_cloths, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_room_too_bright_is_told_until_she_chooses, set_up, room_close),
        cmocka_unit_test_setup_teardown(what_she_chose_comes_back, set_up, room_close),
        cmocka_unit_test_setup_teardown(colours_that_are_none_are_refused, set_up, room_close),
        cmocka_unit_test_setup_teardown(lines_of_old_are_understood, set_up, room_close),
        cmocka_unit_test_setup_teardown(six_bars_are_shown_and_a_number_chooses, set_up, room_close),
        cmocka_unit_test_setup_teardown(numbers_mean_nothing_elsewhere, set_up, room_close),
        cmocka_unit_test_setup_teardown(lines_pulse_for_three_seconds, set_up, room_close),
        cmocka_unit_test_setup_teardown(words_stand_on_bands_over_stripes_and_where_she_wants_them, set_up, room_close),
        cmocka_unit_test_setup_teardown(the_whole_table_is_white_until_any_key, set_up, room_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
