/* A tearing plan's drawing: one panel of 60 cm × 40 cm and one of 30 cm × 40 cm out of cloth 100 cm wide, of which 1 cm
 * is selvedge on either side, torn with 2 cm left at each edge after a squaring of 3 cm. All places are worked out by
 * hand. */
#include "export/tear_svg.h"
#include "pattern/read.h"
#include "support/room.h"

static const char panels[] =
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'cm', 'sizes': ['1'],"
    "  'pieces': [ { 'name': 'wide', 'label': 'Wide & high', 'rectangle': { 'width': 60, 'height': 40 } },"
    "    { 'name': 'slim', 'rectangle': { 'width': 30, 'height': 40 } } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'wide', 'count': 1 }, { 'piece': 'slim', 'count': 1 } ] } ] }";

static const char *drawn(struct room *room, enum tearing_way way, double off_square_mm, const char *title)
{
    const char *json = room_json(room, panels);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    const struct draft_figure figure = { .cup_group = PATTERN_NONE };
    const struct cloth cloth = { .width_mm = 1000, .selvedge_mm = 10 };
    struct draft draft;
    struct tearing_plan plan;
    assert_true(draft_make(room->a, p, &figure, 0, &draft, room->errs));
    const struct tearing_task task = { .pattern = p,
                                       .draft = &draft,
                                       .cloth = &cloth,
                                       .unit = UNITS_CM,
                                       .way = way,
                                       .off_square_mm = off_square_mm,
                                       .margin_mm = 20 };
    assert_true(tearing_plan_make(room->a, &task, &plan, room->errs));
    room_nothing_told(room);
    const struct export_words w = { .a = room->a, .unit = UNITS_CM, .fraction = 8 };
    return export_tear_svg(&w, &plan, title);
}

static void has(const char *svg, const char *text)
{
    if (!strstr(svg, text))
        fail_msg("no %s in\n%s", text, svg);
}

static size_t count_of(const char *svg, const char *text)
{
    size_t count = 0;
    for (const char *at = svg; (at = strstr(at, text)); at++)
        count++;
    return count;
}

/* The page: 3 + 2 + 40 + 2 = 47 cm of cloth between margins of 4 cm, 100 cm high and 1.8 for the title. Its origin is
 * 40 mm in, y = 1098 - 40 - place. The wide panel lies from 30 + 20 to + 400 along and from 10 to 610 across. */
static void strips_across_are_at_their_places(void **state)
{
    const char *svg = drawn(*state, TEARING_ACROSS, 30, "Plan & cloth");
    has(svg, "width=\"550.0000mm\" height=\"1098.0000mm\"");
    has(svg, "<title>Plan &amp; cloth</title>");
    has(svg, "<title>Wide &amp; high</title>");
    assert_int_equal(count_of(svg, "class=\"cut\""), 2);
    has(svg, "d=\"M90.0000,1048.0000 L490.0000,1048.0000 L490.0000,448.0000 L90.0000,448.0000 Z\""); /* wide */
    has(svg, "d=\"M90.0000,448.0000 L490.0000,448.0000 L490.0000,148.0000 L90.0000,148.0000 Z\"");   /* slim */
    assert_int_equal(count_of(svg, "class=\"tear\""), 2); /* the squared end and the strip's */
    has(svg, "d=\"M70.0000,1058.0000 L70.0000,58.0000\"");
    has(svg, "d=\"M510.0000,1058.0000 L510.0000,58.0000\"");
    has(svg, "d=\"M40.0000,1058.0000 L70.0000,1058.0000 L70.0000,58.0000 Z\""); /* lost by squaring */
    assert_int_equal(count_of(svg, "class=\"waste\""), 3);
    assert_int_equal(count_of(svg, "class=\"selvedge\""), 2);
    has(svg, ">1: tear at 44 cm</text>");
    has(svg, ">left over</text>");
}

/* Along: a strip 60 cm wide and one 30 cm wide beside each other, 64 and 34 cm with what is trimmed, both 40 cm long.
 * The slim one lies from 10 + 640 + 20 to + 300 across. */
static void strips_along_lie_beside_each_other(void **state)
{
    const char *svg = drawn(*state, TEARING_ALONG, 0, "Plan");
    has(svg, "d=\"M60.0000,1028.0000 L460.0000,1028.0000 L460.0000,428.0000 L60.0000,428.0000 Z\"");
    has(svg, "d=\"M60.0000,388.0000 L460.0000,388.0000 L460.0000,88.0000 L60.0000,88.0000 Z\"");
    has(svg, "d=\"M40.0000,408.0000 L480.0000,408.0000\""); /* torn between them */
    assert_int_equal(count_of(svg, "class=\"tear\""), 4);
    assert_int_equal(count_of(svg, "class=\"waste\""), 4); /* nothing is lost by squaring */
    assert_null(strstr(svg, "left over"));
}

/* 85 letters at 0.6 of their size have room in the 44 + 4 cm that are left of the page from the cloth on: 9.41 mm. */
static void a_long_title_stays_on_the_page(void **state)
{
    const char *title = "A tearing plan with a title that is a good deal longer than the cloth is, in letters.";
    assert_int_equal(strlen(title), 85);
    has(drawn(*state, TEARING_ACROSS, 0, title), "font-size=\"9.41176\"");
}

int main(void)
{
    static const struct CMUnitTest tests[] = {
        room_test(strips_across_are_at_their_places),
        room_test(strips_along_lie_beside_each_other),
        room_test(a_long_title_stays_on_the_page),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
