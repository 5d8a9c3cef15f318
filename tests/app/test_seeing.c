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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(each_material_is_drawn_by_its_cloth, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_key_goes_through_all_colours_and_back_to_the_cloths, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_room_too_bright_is_told_until_she_chooses, set_up, room_close),
        cmocka_unit_test_setup_teardown(what_she_chose_comes_back, set_up, room_close),
        cmocka_unit_test_setup_teardown(colours_that_are_none_are_refused, set_up, room_close),
        cmocka_unit_test_setup_teardown(lines_of_old_are_understood, set_up, room_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
