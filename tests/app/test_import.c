/* A drawn sheet on its way to pieces: what she says is kept, and only what depends on it is found anew. All values are
 * hand-worked. */
#include "app/import.h"
#include "drawing/drawn.h"
#include "support/room.h"

/* Three layers, one within another, and a line of none: one line each. */
static struct drawing layered(struct arena *a)
{
    struct collect *c = collect_create(-1);
    uint32_t sizes = collect_layer(c, SHEET_NONE, "Sizes", SHEET_LAYER_ON);
    uint32_t ten = collect_layer(c, sizes, "Size 10", SHEET_LAYER_ON);
    uint32_t words = collect_layer(c, SHEET_NONE, "Words", SHEET_LAYER_ON);
    collect_page(c, 300, 200, NULL);
    drawn_line(c, sizes, (const double[]){ 0, 0, 10, 0 }, 2, false);
    drawn_line(c, ten, (const double[]){ 0, 0, 20, 0 }, 2, false);
    drawn_line(c, words, (const double[]){ 0, 0, 30, 0 }, 2, false);
    drawn_line(c, SHEET_NONE, (const double[]){ 0, 0, 40, 0 }, 2, false);
    drawn_words(c, words, 5, 5, 4, "Bodice");
    return drawn_drawing(a, c);
}

static void layers_that_are_not_named_are_not_used(void **state)
{
    struct room *room = *state;
    struct drawing flat = layered(room->a);
    struct app_import *im = app_import_create(&flat);
    app_import_make(im, APP_IMPORT_SIZES);
    assert_int_equal(im->chosen.line_count, 4);
    assert_int_equal(im->chosen.text_count, 1);
    assert_true(app_import_use_layers(im, "Sizes", room->errs));
    app_import_make(im, APP_IMPORT_SIZES);
    assert_int_equal(im->chosen.line_count, 3); /* with what lies in it, and what is of no layer */
    assert_int_equal(im->chosen.text_count, 0);
    assert_true(app_import_use_layers(im, "Words,Size 10", room->errs));
    app_import_make(im, APP_IMPORT_SIZES);
    assert_int_equal(im->chosen.line_count, 4); /* with what it lies in */
    room_nothing_told(room);
    app_import_destroy(im);
}

/* Who names sizes alone keeps the words and pieces that all share, but not the other sizes, nor a frame. */
static void layers_of_all_sizes_stay_with_sizes(void **state)
{
    struct room *room = *state;
    struct collect *c = collect_create(-1);
    const char *const names[] = { "36", "38", "40", "Text", "Common", "Frame" };
    collect_page(c, 300, 200, NULL);
    for (int i = 0; i < 6; i++)
        drawn_line(c, collect_layer(c, SHEET_NONE, names[i], SHEET_LAYER_ON),
                   (const double[]){ 0, 10 * i, 100 + i, 10 * i }, 2, false);
    struct drawing flat = drawn_drawing(room->a, c);
    struct app_import *im = app_import_create(&flat);
    assert_true(app_import_use_layers(im, "36,40", room->errs));
    assert_string_equal(room_only_told(room, "import.layers_stay")->args[0].text, "“Text”, “Common”");
    app_import_make(im, APP_IMPORT_SIZES);
    assert_int_equal(im->chosen.line_count, 4);
    assert_int_equal(im->division.size_count, 2);
    assert_true(app_import_use_layers(im, "36,Common", room->errs)); /* one of them named: no others */
    app_import_make(im, APP_IMPORT_SIZES);
    assert_int_equal(im->chosen.line_count, 2);
    app_import_destroy(im);
}

static void a_layer_that_is_not_there_is_told_with_those_that_are(void **state)
{
    struct room *room = *state;
    struct drawing flat = layered(room->a);
    struct app_import *im = app_import_create(&flat);
    assert_false(app_import_use_layers(im, "Size 12", room->errs));
    const struct err *e = room_only_told(room, "import.no_layer");
    assert_string_equal(e->args[0].text, "Size 12");
    assert_string_equal(e->args[1].text, "“Sizes”, “Size 10”, “Words”");
    app_import_destroy(im);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(layers_that_are_not_named_are_not_used),
        room_test(layers_of_all_sizes_stay_with_sizes),
        room_test(a_layer_that_is_not_there_is_told_with_those_that_are),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
