#include "drawing/drawn.h"
#include "export/drawing_svg.h"
#include "export/read_back.h"
#include "support/room.h"

#include <string.h>

#define NEAR_MM 0.001

static const struct collect_style dashed = { 0.45, 0xc03010, SHEET_STROKED, (const double[]){ 6, 2.5, 1, 2.5 }, 4 };
static const struct collect_style ring = { 0, 0x204060, SHEET_FILLED | SHEET_EVEN_ODD, NULL, 0 };
static const struct collect_style hairline = { 0, 0x00ff00, SHEET_STROKED, NULL, 0 };

static void square(struct collect *c, double at, double side)
{
    collect_move(c, at, at);
    collect_line(c, at + side, at);
    collect_line(c, at + side, at + side);
    collect_line(c, at, at + side);
    collect_close(c);
}

/* Layers within layers, one of them off and two of one name; dashes, curves, a ring, a clip, words askew. */
static struct drawing whole_sheet(struct arena *a)
{
    static const struct collect_style letters = { 0, 0, SHEET_FILLED | SHEET_TEXT, NULL, 0 };
    struct collect *c = collect_create(-1);
    uint32_t sizes = collect_layer(c, SHEET_NONE, "Sizes & \"more\" <1>", SHEET_LAYER_ON);
    uint32_t other = collect_layer(c, SHEET_NONE, "Größe", SHEET_LAYER_ON);
    uint32_t ten = collect_layer(c, sizes, "10", 0);
    uint32_t ten_again = collect_layer(c, other, "10", SHEET_LAYER_ON);
    collect_page(c, 841, 1189, "1");
    drawn_line(c, SHEET_NONE, (const double[]){ 0, 0, 841, 1189, 12.34567, 8 }, 3, false);
    collect_begin(c, ten, &dashed);
    collect_move(c, 100, 100);
    collect_cubic(c, 150, 100, 200, 150, 200, 200);
    collect_line(c, 100, 200);
    collect_close(c);
    collect_end(c);
    drawn_line(c, ten_again, (const double[]){ -20, 30, 1 / 3.0, 2 / 3.0 }, 2, false);
    collect_begin(c, sizes, &ring);
    square(c, 300, 50);
    square(c, 310, 30);
    collect_end(c);
    collect_begin(c, ten, &hairline);
    square(c, 400, 100);
    collect_end(c);
    collect_clip(c, &(struct sheet_clip){ 410, 410, 480, 490, 0, 0 });
    drawn_line(c, other, (const double[]){ 400, 400, 500, 500 }, 2, false);
    drawn_line(c, ten_again, (const double[]){ 400, 500, 500, 400 }, 2, false);
    collect_clip(c, NULL);
    drawn_words(c, sizes, 410, 450, 5, "10 cm <&>");
    collect_begin_run(c, SHEET_NONE, &letters, "Vorderteil", 10, &(struct sheet_run){ 100, 300, 0.6, 0.8, 7 });
    square(c, 100, 5); /* a letter's outline, which its words stand for */
    collect_end(c);
    return drawn_drawing(a, c);
}

static void a_saved_sheet_is_read_back_as_it_was(void **state)
{
    struct drawing d = whole_sheet(*state);
    const char *what = read_back(*state, &d, 0, NEAR_MM);
    if (what)
        fail_msg("%s", what);
}

/* By hand: a hairline is 0.1 mm, y runs down from 1189 mm, what is painted as one is one path. */
static void it_says_what_it_says(void **state)
{
    struct drawing d = whole_sheet(*state);
    const char *svg = export_drawing_svg(*state, &d, 0, "Skirt & top");
    static const char *const parts[] = {
        "<title>Skirt &amp; top</title>",
        "width=\"841.0000mm\" height=\"1189.0000mm\" viewBox=\"0 0 841.0000 1189.0000\"",
        " display=\"none\"><title>10</title>",
        "<title>Sizes &amp; &quot;more&quot; &lt;1&gt;</title>",
        "fill=\"#204060\" fill-rule=\"evenodd\" d=\"M300.0000,889.0000 L350.0000,889.0000 L350.0000,839.0000 ",
        ",839.0000 ZM310.0000,879.0000 L340.0000,879.0000 L340.0000,849.0000 L310.0000,849.0000 Z\"",
        "stroke=\"#00ff00\" stroke-width=\"0.1000\"",
        "stroke-dasharray=\"6.0000,2.5000,1.0000,2.5000\"",
        ">10 cm &lt;&amp;&gt;</text>",
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (!strstr(svg, parts[i]))
            fail_msg("“%s” is not in it", parts[i]);
}

static void an_empty_page_and_each_of_several_are_saved(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 210, 297, NULL);
    collect_page(c, 297, 210, NULL);
    drawn_line(c, SHEET_NONE, (const double[]){ 10, 20, 30, 40 }, 2, false);
    struct drawing d = drawn_drawing(a, c);
    assert_null(read_back(a, &d, 0, NEAR_MM));
    assert_null(read_back(a, &d, 1, NEAR_MM));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_saved_sheet_is_read_back_as_it_was),
        room_arena_test(it_says_what_it_says),
        room_arena_test(an_empty_page_and_each_of_several_are_saved),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
