#include "export/drafted.h"
#include "export/svg.h"
#include "export/xml.h"

#include <stdlib.h>

/* The text behind the first `mark` behind `from`; the test ends where there is none. */
static const char *behind(const char *from, const char *mark)
{
    const char *at = strstr(from, mark);
    if (!at)
        fail_msg("no %s", mark);
    return at + strlen(mark);
}

/* Length of the first path behind `from`, as SVG 1.1 (8.3) reads M, L and Z with absolute coordinates. */
static double path_length(const char *from)
{
    const char *d = behind(from, " d=\"");
    double first[2] = { 0, 0 }, last[2] = { 0, 0 }, length = 0;
    while (*d != '"') {
        char letter = *d++;
        double to[2] = { first[0], first[1] };
        if (letter == ' ')
            continue;
        if (letter != 'Z') {
            char *end;
            to[0] = strtod(d, &end);
            assert_int_equal(*end, ',');
            to[1] = strtod(end + 1, &end);
            d = end;
        }
        if (letter == 'M')
            memcpy(first, to, sizeof first);
        else
            length += hypot(to[0] - last[0], to[1] - last[1]);
        memcpy(last, to, sizeof last);
    }
    return length;
}

static const char *small(struct room *room)
{
    struct drafted d = draft_small(room);
    return export_svg(room->a, &d.draft, &d.names);
}

/* 830 by 340: test_sheet.c works that out. */
static void a_user_unit_is_a_millimetre(void **state)
{
    behind(small(*state), "width=\"830.0000mm\" height=\"340.0000mm\" viewBox=\"0 0 830.0000 340.0000\"");
}

/* y down: the square stands at the sheet's top left. */
static void the_test_square_says_its_measure(void **state)
{
    const char *square = behind(small(*state), "class=\"test-square\"");
    behind(square, "<rect x=\"10.0000\" y=\"10.0000\" width=\"100\" height=\"100\"");
    behind(square, "100 × 100 mm");
}

static void lines_of_a_piece_have_its_lengths(void **state)
{
    static const struct {
        const char *class;
        double mm; /* by hand; a drill mark is a ring */
    } want[] = { { "cut", 1080 },      { "stitching", 1000 }, { "grain", 210 },    { "notch", 3 },
                 { "dart", 92.1954 },  { "fold-line", 200 },  { "lengthen", 200 }, { "match", 200 },
                 { "buttonhole", 20 }, { "button", 8.4853 } }; /* a cross of 6: √72 */
    const char *piece = behind(small(*state), "<title>pocket</title>");
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        const char *group =
            behind(piece, base_arena_print(((struct room *)*state)->a, "<g class=\"%s\"", want[i].class));
        assert_near(path_length(group), want[i].mm, 1e-3);
    }
    /* 50 across and 60 up in a piece that stands 610 across and 20 up; y down from 340 */
    behind(piece, "<circle cx=\"660.0000\" cy=\"260.0000\"");
}

static void a_fold_is_a_line_of_its_own(void **state)
{
    const char *piece = behind(small(*state), "<title>front</title>");
    assert_near(path_length(behind(piece, "<g class=\"cut\"")), 740, 1e-3);
    assert_near(path_length(behind(piece, "<g class=\"stitching\"")), 700, 1e-3);
    assert_near(path_length(behind(piece, "<g class=\"fold\"")), 320, 1e-3);
    behind(behind(piece, "<g class=\"fold\""), ">fold</text>");
}

static void name_size_and_count_are_written(void **state)
{
    const char *svg = small(*state), *piece = behind(svg, "<title>strap</title>");
    behind(svg, "<title>P, Size M</title>");
    behind(piece, ">strap</text>");
    behind(piece, ">Size M</text>");
    behind(piece, ">Cut 2, lining</text>");
    behind(piece, ">Cut 2, interfacing, fused on the wrong side</text>");
    behind(behind(svg, "<title>pocket</title>"), ">1 pair, fabric</text>");
    behind(behind(svg, "<title>front</title>"), ">Cut 1 on the fold, interfacing, fused on the right side</text>");
}

/* XML 1.0: 2.4 (markup in text), 2.2 (which characters there are). */
static void names_are_written_as_xml_has_them(void **state)
{
    struct room *room = *state;
    struct drafted d = draft_named(room, "a<b> & ü\\u0007\\uffff;");
    const char *svg = export_svg(room->a, &d.draft, &d.names);
    behind(svg, "<title>a&lt;b&gt; &amp; ü??;</title>");
    behind(svg, ">a&lt;b&gt; &amp; ü??;</text>");
    assert_null(strchr(svg, '\a'));
    assert_string_equal(export_xml_text(room->a, "\"\x7f\xef\xbf\xbe\n\xef\xbf\xbd"), "&quot;??\n\xef\xbf\xbd");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_user_unit_is_a_millimetre),       room_test(the_test_square_says_its_measure),
        room_test(lines_of_a_piece_have_its_lengths), room_test(a_fold_is_a_line_of_its_own),
        room_test(name_size_and_count_are_written),   room_test(names_are_written_as_xml_has_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
