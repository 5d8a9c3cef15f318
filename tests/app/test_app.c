/* Keys drive the app; what it then shows is read from the draw list. */
#include "app/state.h"
#include "input/key.h"
#include "support/room.h"
#include "table/rig.h"

#include <string.h>

struct here {
    struct room room;
    struct app *app;
};

static int set_up(void **state)
{
    static struct here h;
    size_t count;
    struct calibration_table table;
    room_init(&h.room);
    if (!rig_exact_table(h.room.a, &vt_standard_setups(&count)[0], &table, h.room.errs))
        return -1;
    h.app = rig_app(h.room.a, &table, NULL, h.room.errs);
    *state = &h;
    return h.app ? 0 : -1;
}

static struct app_effects press(struct here *h, const char *name)
{
    struct input_event event = { .type = INPUT_KEY };
    assert_true(input_key_from_name(name, &event.key, &event.mods));
    return app_handle(h->app, event);
}

static struct paint_items items(struct here *h)
{
    return app_scene(h->app, h->room.a).table.in;
}

/* The cut line: the whole stroke of the most points. */
static struct geometry_path cut_line(struct here *h)
{
    struct paint_items in = items(h);
    struct geometry_path best = { NULL, 0, false };
    for (size_t i = 0; i < in.count; i++)
        if (in.items[i].kind == PAINT_STROKE && in.items[i].pen.dash[0] <= 0 &&
            in.paths[in.items[i].first_path].count > best.count)
            best = in.paths[in.items[i].first_path];
    return best;
}

static vec2 middle(struct here *h)
{
    struct geometry_box box = geometry_path_box(cut_line(h));
    return vec2_lerp(box.min, box.max, 0.5);
}

static void assert_middle(struct here *h, vec2 want)
{
    vec2 at = middle(h);
    assert_near(at.x, want.x, 1e-9);
    assert_near(at.y, want.y, 1e-9);
}

static void arrows_move_by_their_amounts(void **state)
{
    static const struct {
        const char *key;
        vec2 by;
    } rows[] = {
        { "left", { -10, 0 } },      { "right", { 10, 0 } },      { "up", { 0, 10 } },      { "down", { 0, -10 } },
        { "shift left", { -1, 0 } }, { "shift right", { 1, 0 } }, { "shift up", { 0, 1 } }, { "shift down", { 0, -1 } },
    };
    struct here *h = *state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        vec2 before = middle(h);
        assert_true(press(h, rows[i].key).redraw);
        vec2 moved = vec2_sub(middle(h), before);
        assert_near(moved.x, rows[i].by.x, 1e-9);
        assert_near(moved.y, rows[i].by.y, 1e-9);
    }
}

static void arrows_are_the_persons_own_on_every_side(void **state)
{
    struct here *h = *state;
    /* Standing at the right end of the table, facing it, her right is away from the near side, and away from her is
     * left. */
    static const vec2 right[] = { { 10, 0 }, { 0, 10 }, { -10, 0 }, { 0, -10 } };
    static const vec2 away[] = { { 0, 10 }, { -10, 0 }, { 0, -10 }, { 10, 0 } };
    for (int side = 0; side < 4; side++) {
        vec2 before = middle(h);
        press(h, "right");
        vec2 moved = vec2_sub(middle(h), before);
        assert_near(moved.x, right[side].x, 1e-9);
        assert_near(moved.y, right[side].y, 1e-9);
        before = middle(h);
        press(h, "up");
        moved = vec2_sub(middle(h), before);
        assert_near(moved.x, away[side].x, 1e-9);
        assert_near(moved.y, away[side].y, 1e-9);
        press(h, "tab");
    }
}

static void ten_small_turns_are_one_large_one_and_four_quarters_none(void **state)
{
    struct here *h = *state;
    struct geometry_path before = cut_line(h);
    for (int i = 0; i < 10; i++)
        press(h, "ctrl ,");
    press(h, ".");
    struct geometry_path after = cut_line(h);
    for (size_t i = 0; i < before.count; i++)
        assert_near(vec2_length(vec2_sub(before.points[i], after.points[i])), 0, 1e-12);
    for (int i = 0; i < 4; i++)
        press(h, "t");
    after = cut_line(h);
    for (size_t i = 0; i < before.count; i++)
        assert_near(vec2_length(vec2_sub(before.points[i], after.points[i])), 0, 1e-12);
}

static void a_quarter_turn_is_counter_clockwise(void **state)
{
    struct here *h = *state;
    struct geometry_path before = cut_line(h);
    press(h, "t");
    struct geometry_path after = cut_line(h);
    vec2 side = vec2_sub(before.points[1], before.points[0]), turned = vec2_sub(after.points[1], after.points[0]);
    assert_near(turned.x, -side.y, 1e-9);
    assert_near(turned.y, side.x, 1e-9);
}

static void turning_over_mirrors_across_an_upright_axis_whatever_the_turn(void **state)
{
    struct here *h = *state;
    press(h, "t");
    press(h, ",");
    struct geometry_path before = cut_line(h);
    press(h, "o");
    struct geometry_path after = cut_line(h);
    double sum = before.points[0].x + after.points[0].x;
    for (size_t i = 0; i < before.count; i++) {
        assert_near(before.points[i].x + after.points[i].x, sum, 1e-9);
        assert_near(before.points[i].y, after.points[i].y, 1e-9);
    }
}

static void home_undoes_all_placing(void **state)
{
    struct here *h = *state;
    vec2 before = middle(h);
    press(h, "left");
    press(h, "o");
    press(h, ",");
    press(h, "home");
    assert_middle(h, before);
}

static void each_piece_keeps_its_own_place(void **state)
{
    struct here *h = *state;
    press(h, "right");
    vec2 first = middle(h);
    press(h, "page down");
    press(h, "up");
    press(h, "page up");
    assert_middle(h, first);
}

static double cut_width(struct here *h)
{
    struct paint_items in = items(h);
    double width = 0;
    struct geometry_path line = cut_line(h);
    for (size_t i = 0; i < in.count; i++)
        if (in.items[i].kind == PAINT_STROKE && in.paths[in.items[i].first_path].points == line.points)
            width = in.items[i].pen.width;
    if (width > 0)
        return width;
    for (size_t i = 0; i < in.count; i++) /* the list was made anew: the same line by its number of points */
        if (in.items[i].kind == PAINT_STROKE && in.paths[in.items[i].first_path].count == line.count &&
            in.items[i].pen.dash[0] <= 0)
            width = in.items[i].pen.width;
    return width;
}

static void the_line_grows_and_shrinks_but_never_under_a_pixel_and_a_half(void **state)
{
    struct here *h = *state;
    double least = 1.5 * geometry_map_mm_per_px(app_map(h->app));
    assert_near(cut_width(h), 3, 1e-12);
    press(h, "+");
    assert_near(cut_width(h), 3.5, 1e-12);
    for (int i = 0; i < 20; i++)
        press(h, "-");
    assert_near(cut_width(h), least, 1e-12);
    for (int i = 0; i < 40; i++)
        press(h, "+");
    assert_near(cut_width(h), 10, 1e-12);
}

static size_t table_strokes(struct here *h)
{
    return items(h).count;
}

static void help_and_dark_hide_the_pieces(void **state)
{
    struct here *h = *state;
    assert_true(table_strokes(h) > 0);
    press(h, "f1");
    assert_int_equal(table_strokes(h), 0);
    press(h, "esc");
    assert_true(table_strokes(h) > 0);
    press(h, "b");
    assert_int_equal(table_strokes(h), 0);
    press(h, "b");
    assert_true(table_strokes(h) > 0);
}

static void all_pieces_stand_in_rows_that_do_not_overlap(void **state)
{
    struct here *h = *state;
    press(h, "a");
    struct paint_items in = items(h);
    struct geometry_box boxes[64];
    size_t count = 0;
    for (size_t i = 0; i < in.count && count < 64; i++) /* the seam lines, evenly dashed, one a piece */
        if (in.items[i].kind == PAINT_STROKE && in.items[i].pen.dash[0] > 0 &&
            in.paths[in.items[i].first_path].count > 2 && in.items[i].pen.dash[0] == in.items[i].pen.dash[2])
            boxes[count++] = geometry_path_box(in.paths[in.items[i].first_path]);
    assert_true(count >= 5);
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count; j++)
            assert_true(boxes[i].max.x + 20 <= boxes[j].min.x + 1e-9 || boxes[j].max.x + 20 <= boxes[i].min.x + 1e-9 ||
                        boxes[i].max.y + 20 <= boxes[j].min.y + 1e-9 || boxes[j].max.y + 20 <= boxes[i].min.y + 1e-9);
}

/* Pixels of the frame's outermost row or column on her side of the page, and on the far one, by whether they are lit.
 */
static void count_at_edge(const struct paint_image *image, vec2 to_edge, size_t *lit, size_t *full)
{
    int length = to_edge.x != 0 ? image->height : image->width;
    *lit = *full = 0;
    for (int i = 0; i < length; i++) {
        int x = to_edge.x == 0 ? i : to_edge.x > 0 ? image->width - 1 : 0;
        int y = to_edge.y == 0 ? i : to_edge.y > 0 ? image->height - 1 : 0;
        uint32_t pixel = image->pixels[(size_t)y * image->stride + (size_t)x];
        *lit += pixel != 0;
        *full += pixel == scene_chalks[0].main;
    }
}

static void strip_and_notice_reach_the_very_edge_of_the_light(void **state)
{
    struct here *h = *state;
    press(h, "a");
    app_set_trouble(h->app, "Not kept");
    for (enum scene_side side = SCENE_NEAR; side < SCENE_SIDES; side++) {
        const struct geometry_map *map = app_map(h->app);
        vec2 away = scene_page_of(map, side).up;
        size_t lit, full;
        for (int i = 0; i < 60; i++) /* the pieces well under the strip */
            press(h, "down");
        struct paint_image image = rig_paint(h->room.a, h->app);
        count_at_edge(&image, vec2_scale(away, -1), &lit, &full);
        assert_int_equal(lit, 0);
        count_at_edge(&image, away, &lit, &full);
        assert_int_equal(full, away.x != 0 ? map->height_px : map->width_px);
        press(h, "home");
        press(h, "tab");
    }
}

static void a_window_of_another_size_shows_no_piece(void **state)
{
    struct here *h = *state;
    for (int home = 0; home < 2; home++) {
        struct paint_scene scene = app_away_scene(h->app, h->room.a, 800, 600, home);
        assert_int_equal(scene.table.in.count, 0);
    }
}

/* Lit areas over the whole width of the page: the band of a notice. */
static size_t bands(struct here *h)
{
    struct paint_items in = app_scene(h->app, h->room.a).px.in;
    size_t count = 0;
    for (size_t i = 0; i < in.count; i++) {
        struct geometry_box box = geometry_path_box(in.paths[in.items[i].first_path]);
        count += in.items[i].kind == PAINT_FILL && in.items[i].ink.level > 0 &&
                 box.max.x - box.min.x >= app_map(h->app)->width_px - 1e-6;
    }
    return count;
}

static void a_light_that_was_away_is_doubted_until_the_test_square(void **state)
{
    struct here *h = *state;
    assert_int_equal(bands(h), 0);
    press(h, "m"); /* no stickers: it only tells so, until the next key */
    assert_int_equal(bands(h), 1);
    press(h, "right");
    assert_int_equal(bands(h), 0);
    app_doubt_scale(h->app, APP_DOUBT_AWAY);
    press(h, "m");
    press(h, "shift m");
    assert_int_equal(bands(h), 1);
    press(h, "right");
    assert_int_equal(bands(h), 1);
    press(h, "s"); /* not by coming to the square: by going on from it, to the long lines or back */
    assert_int_equal(bands(h), 1);
    press(h, "c");
    assert_int_equal(bands(h), 1);
    press(h, "s");
    assert_int_equal(bands(h), 0);
    press(h, "esc");
    assert_int_equal(bands(h), 0);
    app_doubt_scale(h->app, APP_DOUBT_AWAY);
    press(h, "s");
    press(h, "esc");
    assert_int_equal(bands(h), 0);
}

/* The side of the test square, mm, of a person who measures in that unit on a table that was set up in another. */
static double square_side(struct here *h, enum units_length unit, enum units_length tables)
{
    struct app_start start = { .job = h->app->job, .table = h->app->table, .unit = unit };
    start.table.unit = tables;
    h->app = app_create(h->room.a, &start, h->room.errs);
    press(h, "s");
    struct geometry_box box = geometry_path_box(cut_line(h)); /* the only closed line there is */
    return box.max.x - box.min.x;
}

static void the_test_square_is_in_the_persons_unit(void **state)
{
    struct here *h = *state;
    assert_near(square_side(h, UNITS_IN, UNITS_MM), 4 * 25.4, 1e-9);
    assert_near(square_side(h, UNITS_CM, UNITS_IN), 100, 1e-9);
}

/* 2 x 3 mm without a lens: the notice is across the frame; with one: no notice, and the map is another. */
static void cloth_whose_height_nothing_makes_up_for_is_told(void **state)
{
    struct here *h = *state;
    size_t count;
    const struct vt_setup *setup = &vt_standard_setups(&count)[0];
    struct calibration_table table;
    struct job job = *h->app->job;
    struct app_start start = { .job = &job };
    assert_true(rig_exact_table(h->room.a, setup, &table, h->room.errs));
    start.table = table;
    job.surface = (struct calibration_surface){ .cloth_mm = 3, .layers = 2 };
    h->app = app_create(h->room.a, &start, h->room.errs);
    assert_int_equal(bands(h), 1);
    assert_memory_equal(app_map(h->app), &table.map, sizeof table.map);
    start.table.lens = (struct calibration_lens_place){ { setup->foot_x_mm, setup->foot_y_mm }, setup->height_mm };
    h->app = app_create(h->room.a, &start, h->room.errs);
    assert_int_equal(bands(h), 0);
    assert_memory_not_equal(app_map(h->app), &table.map, sizeof table.map);
}

static void time_and_sleep_make_a_table_doubtful(void **state)
{
    enum { HOUR = 3600 };
    struct here *h = *state;
    app_pass_time(h->app, 100, 90);
    assert_false(app_pass_time(h->app, 100 + 3.9 * HOUR, 90 + 3.9 * HOUR).redraw);
    assert_int_equal(bands(h), 0);
    assert_true(app_pass_time(h->app, 160 + 4 * HOUR, 150 + 4 * HOUR).redraw);
    assert_int_equal(bands(h), 1);
    app_pass_time(h->app, 100 + 5 * HOUR, 90 + 5 * HOUR);
    press(h, "s");
    press(h, "esc");
    assert_false(app_pass_time(h->app, 100 + 8.9 * HOUR, 90 + 8.9 * HOUR).redraw);
    assert_int_equal(bands(h), 0);
    assert_true(app_pass_time(h->app, 700 + 8.9 * HOUR, 100 + 8.9 * HOUR).redraw); /* ten minutes of sleep */
    assert_int_equal(bands(h), 1);
}

static void what_could_not_be_kept_is_told_until_it_is(void **state)
{
    struct here *h = *state;
    app_set_trouble(h->app, "Not kept");
    press(h, "s");
    press(h, "esc");
    assert_int_equal(bands(h), 1);
    app_set_trouble(h->app, NULL);
    assert_int_equal(bands(h), 0);
}

static void keys_that_place_do_nothing_while_the_piece_is_not_shown(void **state)
{
    struct here *h = *state;
    static const char *const covers[] = { "s", "b", "f1" };
    static const char *const placing[] = { "left", "t", "o", ",", "home", "+" };
    press(h, "right");
    vec2 before = middle(h);
    double width = cut_width(h);
    for (size_t c = 0; c < 3; c++) {
        press(h, covers[c]);
        for (size_t i = 0; i < sizeof placing / sizeof placing[0]; i++)
            assert_false(press(h, placing[i]).redraw);
        press(h, "esc");
        vec2 after = middle(h);
        assert_near(after.x, before.x, 0);
        assert_near(after.y, before.y, 0);
        assert_near(cut_width(h), width, 0);
    }
}

static void only_leaving_leaves(void **state)
{
    struct here *h = *state;
    assert_false(press(h, "esc").quit);
    assert_false(press(h, "q").quit);
    assert_true(press(h, "ctrl q").quit);
    assert_true(app_handle(h->app, (struct input_event){ .type = INPUT_QUIT }).quit);
}

static void a_key_that_does_nothing_draws_nothing(void **state)
{
    struct here *h = *state;
    assert_false(press(h, "f12").redraw);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(arrows_move_by_their_amounts, set_up, room_close),
        cmocka_unit_test_setup_teardown(arrows_are_the_persons_own_on_every_side, set_up, room_close),
        cmocka_unit_test_setup_teardown(ten_small_turns_are_one_large_one_and_four_quarters_none, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_quarter_turn_is_counter_clockwise, set_up, room_close),
        cmocka_unit_test_setup_teardown(turning_over_mirrors_across_an_upright_axis_whatever_the_turn, set_up,
                                        room_close),
        cmocka_unit_test_setup_teardown(home_undoes_all_placing, set_up, room_close),
        cmocka_unit_test_setup_teardown(each_piece_keeps_its_own_place, set_up, room_close),
        cmocka_unit_test_setup_teardown(the_line_grows_and_shrinks_but_never_under_a_pixel_and_a_half, set_up,
                                        room_close),
        cmocka_unit_test_setup_teardown(help_and_dark_hide_the_pieces, set_up, room_close),
        cmocka_unit_test_setup_teardown(all_pieces_stand_in_rows_that_do_not_overlap, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_window_of_another_size_shows_no_piece, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_light_that_was_away_is_doubted_until_the_test_square, set_up, room_close),
        cmocka_unit_test_setup_teardown(the_test_square_is_in_the_persons_unit, set_up, room_close),
        cmocka_unit_test_setup_teardown(strip_and_notice_reach_the_very_edge_of_the_light, set_up, room_close),
        cmocka_unit_test_setup_teardown(cloth_whose_height_nothing_makes_up_for_is_told, set_up, room_close),
        cmocka_unit_test_setup_teardown(time_and_sleep_make_a_table_doubtful, set_up, room_close),
        cmocka_unit_test_setup_teardown(what_could_not_be_kept_is_told_until_it_is, set_up, room_close),
        cmocka_unit_test_setup_teardown(keys_that_place_do_nothing_while_the_piece_is_not_shown, set_up, room_close),
        cmocka_unit_test_setup_teardown(only_leaving_leaves, set_up, room_close),
        cmocka_unit_test_setup_teardown(a_key_that_does_nothing_draws_nothing, set_up, room_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
