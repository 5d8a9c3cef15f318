/* The projector is bumped while a job is on the table: its marks leave the check stickers; moved there again by keys,
 * the pieces are true once more, measured on the virtual table. */
#include "app/memory.h"
#include "input/key.h"
#include "support/room.h"
#include "table/bump.h"
#include "table/rig.h"

#include <math.h>
#include <string.h>

#define SQUARE_MM 100.0
#define TRUE_MM 0.1 /* what the test square is held to (tests/table/test_table.c) */

static const struct calibration_stickers laid = {
    .px = { { 90.5, 80.5 }, { 1820.5, 130.5 }, { 1840.5, 950.5 }, { 100.5, 940.5 } }, .count = 4
};

struct here {
    struct room room;
    struct vt_setup before;
    struct calibration_table table;
    struct app *app;
};

static int set_up(void **state)
{
    static struct here h;
    size_t count;
    room_init(&h.room);
    h.before = vt_standard_setups(&count)[9];
    assert_int_equal(h.before.width_px, 1920);
    if (!rig_exact_table(h.room.a, &h.before, &h.table, h.room.errs))
        return -1;
    h.table.stickers = laid;
    h.app = rig_app(h.room.a, &h.table, NULL, h.room.errs);
    *state = &h;
    return h.app ? 0 : -1;
}

static bool press(struct app *app, const char *name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(name, &event.key, &event.mods));
    return app_handle(app, event).redraw;
}

/* She presses arrows until the mark lies on its sticker as well as the finest step allows. */
static void move_onto(struct here *h, const struct vt_setup *now, int sticker)
{
    struct bump bump = { h->before, *now, laid };
    for (int presses = 0; presses < 200; presses++) {
        const char *key = bump_next_key(h->room.a, h->app, &bump, sticker);
        if (!key)
            return;
        press(h->app, key);
    }
    fail_msg("mark %d does not come onto its sticker", sticker + 1);
}

static double square_error(struct here *h, const struct vt_setup *now)
{
    struct vt_pt corner[4];
    app_set_mode(h->app, SCENE_TEST_SQUARE);
    rig_square(h->room.a, h->app, corner);
    struct paint_image image = rig_paint(h->room.a, h->app);
    app_set_mode(h->app, SCENE_PIECES);
    return rig_square_error(now, &image, corner, SQUARE_MM);
}

/* 4 mm and 0.3 degrees, as by an elbow. */
static struct vt_setup bumped(const struct here *h)
{
    struct vt_setup now = h->before;
    now.foot_x_mm += 4;
    now.turn_deg += 0.3;
    return now;
}

static void mend_by_keys(struct here *h, const struct vt_setup *now)
{
    assert_true(press(h->app, "shift m"));
    for (int i = 0; i < laid.count; i++) {
        move_onto(h, now, i);
        press(h->app, "page down");
    }
    assert_true(press(h->app, "enter"));
}

static void marks_are_drawn_where_they_were_laid(void **state)
{
    struct here *h = *state;
    for (int i = 0; i < laid.count; i++) {
        struct px_pt at = bump_mark_shown(h->room.a, h->app, i);
        assert_near(at.x, laid.px[i].x, 1e-6);
        assert_near(at.y, laid.px[i].y, 1e-6);
    }
}

static void a_bump_is_mended_by_moving_the_marks(void **state)
{
    struct here *h = *state;
    struct vt_setup now = bumped(h);
    assert_true(bump_worst_off(app_map(h->app), &h->before) < 0.1);
    assert_true(bump_worst_off(app_map(h->app), &now) > 4);
    mend_by_keys(h, &now);
    double off_mm = bump_worst_off(app_map(h->app), &now);
    if (!(off_mm < 0.4)) /* she moves marks in steps of 0.2 mm; the same was so at the set-up */
        fail_msg("%.2f mm off after it was mended", off_mm);
    assert_true(square_error(h, &now) < TRUE_MM);
}

/* Three stickers, one of which was moved by 8 mm: that looks like a tilt that they tell little of. Nothing is mended.
 */
static void a_bump_that_leaves_much_open_is_not_mended(void **state)
{
    struct here *h = *state;
    struct calibration_table three = h->table;
    three.stickers.count = 3;
    struct app *app = rig_app(h->room.a, &three, NULL, h->room.errs);
    struct geometry_map before = *app_map(app);
    press(app, "shift m");
    press(app, "page down");
    for (int i = 0; i < 8; i++)
        press(app, "shift right");
    press(app, "enter");
    assert_memory_equal(app_map(app), &before, sizeof before);
    assert_true(press(app, "shift left")); /* the marks are still in hand */
}

static void esc_leaves_the_table_as_it_was(void **state)
{
    struct here *h = *state;
    struct geometry_map before = *app_map(h->app);
    press(h->app, "shift m");
    press(h->app, "right");
    press(h->app, "esc");
    assert_memory_equal(app_map(h->app), &before, sizeof before);
    marks_are_drawn_where_they_were_laid(state);
}

static void a_sticker_that_was_moved_is_told_and_nothing_changes(void **state)
{
    struct here *h = *state;
    struct geometry_map before = *app_map(h->app);
    press(h->app, "shift m");
    press(h->app, "right");
    press(h->app, "enter");
    assert_memory_equal(app_map(h->app), &before, sizeof before);
    assert_true(press(h->app, "left")); /* the marks are still in hand */
    press(h->app, "enter");
    press(h->app, "esc");
    assert_memory_equal(app_map(h->app), &before, sizeof before);
}

static void what_was_mended_is_remembered(void **state)
{
    struct here *h = *state;
    struct vt_setup now = bumped(h);
    mend_by_keys(h, &now);
    struct app *again = rig_app(h->room.a, &h->table, NULL, h->room.errs);
    assert_true(app_recall(again, app_remember(h->app, h->room.a), h->room.errs));
    for (int t = 0; t < GEOMETRY_MAP_TERMS; t++)
        assert_near(app_map(again)->term[t], app_map(h->app)->term[t], 1e-9);
}

static void a_line_of_a_journal_with_other_stickers_is_passed_over(void **state)
{
    struct here *h = *state;
    struct calibration_table fewer = h->table;
    fewer.stickers.count = 2;
    struct app *other = rig_app(h->room.a, &fewer, NULL, h->room.errs);
    assert_false(app_recall(other, app_remember(h->app, h->room.a), h->room.errs));
    assert_true(base_err_list_has(h->room.errs, "app.memory"));
}

#define test(f) cmocka_unit_test_setup_teardown(f, set_up, room_close)

int main(void)
{
    const struct CMUnitTest tests[] = {
        test(marks_are_drawn_where_they_were_laid),
        test(a_bump_is_mended_by_moving_the_marks),
        test(a_bump_that_leaves_much_open_is_not_mended),
        test(esc_leaves_the_table_as_it_was),
        test(a_sticker_that_was_moved_is_told_and_nothing_changes),
        test(what_was_mended_is_remembered),
        test(a_line_of_a_journal_with_other_stickers_is_passed_over),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
