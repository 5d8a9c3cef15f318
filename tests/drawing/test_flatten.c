#include "drawing/drawn.h"
#include "support/room.h"

#include <math.h>

static const struct collect_style fine = { 0.3, 0x102030, SHEET_STROKED, NULL, 0 };

/* A quarter circle of radius 100 as one cubic with handles 4/3 (sqrt 2 - 1): at most 0.0273 mm outside the circle
 * (worked by hand from its middle and known bound 2.7253e-4 of the radius). */
static void a_curve_becomes_chords_that_stay_on_it(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    double k = 100 * 4.0 / 3 * (sqrt(2) - 1);
    collect_page(c, 200, 200, NULL);
    collect_begin(c, SHEET_NONE, &fine);
    collect_move(c, 100, 0);
    collect_cubic(c, 100, k, k, 100, 0, 100);
    collect_end(c);
    struct drawing d = drawn_drawing(a, c);
    assert_int_equal(d.line_count, 1);
    struct geometry_path path = d.lines[0].path.path;
    for (size_t i = 0; i < path.count; i++)
        assert_near(vec2_length(path.points[i]), 100.0137, 0.0138);
    for (size_t i = 1; i < path.count; i++)
        assert_true(vec2_length(vec2_lerp(path.points[i - 1], path.points[i], 0.5)) > 100 - DRAWING_FLAT_MM);
    assert_near(geometry_path_length(path), 157.11, 0.02); /* 50 pi = 157.08 and at most 2.7e-4 of it more */
}

static void a_closed_line_does_not_repeat_its_first_point(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 200, 200, "B2");
    drawn_line(c, SHEET_NONE, (const double[]){ 0, 0, 10, 0, 10, 10, 0, 0 }, 4, true);
    struct drawing d = drawn_drawing(a, c);
    assert_int_equal(d.lines[0].path.path.count, 3);
    assert_true(d.lines[0].path.path.closed);
    assert_string_equal(d.pages[0].label, "B2");
    assert_int_equal(d.lines[0].layer, DRAWING_NONE);
}

static void each_page_has_its_own_lines_and_words(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    uint32_t all = collect_layer(c, SHEET_NONE, "Sizes", SHEET_LAYER_ON);
    uint32_t ten = collect_layer(c, all, "10", 0);
    collect_page(c, 100, 100, NULL);
    drawn_line(c, ten, (const double[]){ 0, 0, 10, 0 }, 2, false);
    collect_page(c, 50, 60, NULL);
    drawn_words(c, all, 5, 6, 4, "cut 2");
    drawn_line(c, ten, (const double[]){ 0, 0, 10, 0 }, 2, false);
    struct drawing d = drawn_drawing(a, c);
    assert_int_equal(d.page_count, 2);
    assert_int_equal(d.pages[1].first_line, 1);
    assert_int_equal(d.pages[1].line_count, 1);
    assert_int_equal(d.texts[d.pages[1].first_text].page, 1);
    assert_string_equal(d.texts[0].words, "cut 2");
    assert_near(d.texts[0].length_mm, 10, 1e-9); /* five letters of half their height */
    bool on[] = { true, true };
    assert_true(drawing_layer_shows(&d, on, (int)ten));
    on[0] = false;
    assert_false(drawing_layer_shows(&d, on, (int)ten));
    assert_true(drawing_layer_within(&d, (int)ten, (int)all));
    assert_false(drawing_layer_within(&d, (int)all, (int)ten));
}

static void a_line_and_words_know_what_is_seen_of_them(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 100, 100, NULL);
    drawn_line(c, SHEET_NONE, (const double[]){ 0, 0, 10, 0 }, 2, false);
    collect_clip(c, &(struct sheet_clip){ 10, 20, 60, 70, 0, 0 });
    drawn_line(c, SHEET_NONE, (const double[]){ 0, 0, 50, 50 }, 2, false);
    drawn_words(c, SHEET_NONE, 5, 6, 4, "cut 2");
    struct drawing d = drawn_drawing(a, c);
    assert_int_equal(d.lines[0].clip, DRAWING_NONE);
    assert_near(d.lines[1].path.path.points[0].x, 0, 0); /* it comes whole */
    const struct geometry_box *clip = &d.clips[d.lines[1].clip];
    assert_near(clip->min.x, 10, 0);
    assert_near(clip->max.y, 70, 0);
    assert_int_equal(d.texts[0].clip, d.lines[1].clip);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_curve_becomes_chords_that_stay_on_it),
        room_arena_test(a_closed_line_does_not_repeat_its_first_point),
        room_arena_test(each_page_has_its_own_lines_and_words),
        room_arena_test(a_line_and_words_know_what_is_seen_of_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
