#include "drawing/drawn.h"
#include "drawing/phrases.h"
#include "drawing/written.h"
#include "support/room.h"

#include <string.h>

/* Writes one letter after the other, each `step` from the one before, spaces left out as producers do. */
static void write_letters(struct collect *c, double x, double y, double size, double step, const char *words)
{
    for (; *words; words++, x += step)
        if (*words != ' ')
            drawn_words(c, SHEET_NONE, x, y, size, (const char[]){ *words, '\0' });
}

/* A letter without outlines counts as half its font's size wide: at 4 mm a letter each 2 mm touches the next. */
static void letters_become_the_words_that_a_person_reads(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 200, 200, NULL);
    write_letters(c, 10, 50, 4, 2, "10 cm x 10 cm");
    struct drawing d = drawn_drawing(a, c);
    const struct drawing_phrase *phrases;
    assert_int_equal(drawing_phrases(a, &d, &phrases), 1);
    assert_string_equal(phrases[0].words, "10 cm x 10 cm");
    assert_near(phrases[0].box.min.x, 10, 1e-9);
    assert_near(phrases[0].box.max.x, 36, 1e-9); /* 13 places of 2 mm */
    assert_near(phrases[0].box.min.y, 50, 1e-9);
}

static void rows_columns_and_pages_stay_apart(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 200, 200, NULL);
    drawn_words(c, SHEET_NONE, 10, 50, 4, "cut 2");
    drawn_words(c, SHEET_NONE, 10, 44, 4, "of cloth"); /* the next row */
    drawn_words(c, SHEET_NONE, 60, 50, 4, "size 10");  /* another column */
    drawn_words(c, SHEET_NONE, 21, 50, 4, "on fold");  /* 1 mm after "cut 2", which is 10 mm long: a space */
    collect_page(c, 200, 200, NULL);
    drawn_words(c, SHEET_NONE, 10, 50, 4, "front");
    struct drawing d = drawn_drawing(a, c);
    const struct drawing_phrase *phrases;
    assert_int_equal(drawing_phrases(a, &d, &phrases), 4);
    assert_string_equal(phrases[0].words, "cut 2 on fold");
    assert_string_equal(phrases[1].words, "size 10");
    assert_string_equal(phrases[2].words, "of cloth");
    assert_string_equal(phrases[3].words, "front");
    assert_int_equal(phrases[3].page, 1);
}

static void words_printed_twice_for_bold_are_read_once(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    collect_page(c, 200, 200, NULL);
    drawn_words(c, SHEET_NONE, 10, 50, 4, "4 in");
    drawn_words(c, SHEET_NONE, 10.2, 50, 4, "4 in");
    struct drawing d = drawn_drawing(a, c);
    const struct drawing_phrase *phrases;
    assert_int_equal(drawing_phrases(a, &d, &phrases), 1);
    assert_string_equal(phrases[0].words, "4 in");
}

static void words_that_run_up_the_page_are_read_too(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    static const struct collect_style black = { 0, 0, SHEET_FILLED | SHEET_TEXT, NULL, 0 };
    collect_page(c, 200, 200, NULL);
    for (int i = 0; i < 4; i++) {
        collect_begin_run(
            c, SHEET_NONE, &black, &"5 cm" [i], 1, &(struct sheet_run) { 50, 20 + 2 * i, 0, 1, 4 });
        collect_end(c);
    }
    struct drawing d = drawn_drawing(a, c);
    const struct drawing_phrase *phrases;
    assert_int_equal(drawing_phrases(a, &d, &phrases), 1);
    assert_string_equal(phrases[0].words, "5 cm");
    assert_near(phrases[0].box.min.x, 50 - 0.7 * 4, 1e-9); /* the letters' tops point left */
    assert_near(phrases[0].box.max.y, 28, 1e-9);
}

/* mm reckoned by hand: 1 in = 25.4 mm. */
static void sides_are_read_as_people_write_them(void **state)
{
    static const struct {
        const char *words;
        double mm[3]; /* up to the first 0 */
    } rows[] = {
        { "4 in", { 101.6 } },
        { "4\"", { 101.6 } },
        { "4” x 4”", { 101.6 } },
        { "4 inch", { 101.6 } },
        { "4-inch test square", { 101.6 } },
        { "4in x 4in", { 101.6 } },
        { "4inx4in", { 101.6 } },
        { "1 Zoll", { 25.4 } },
        { "10 cm", { 100 } },
        { "10cm x 10cm", { 100 } },
        { "10cmx10cm", { 100 } },
        { "10 × 10 cm", { 100 } },
        { "10x10 cm", { 100 } },
        { "100 mm", { 100 } },
        { "2,54 cm", { 25.4 } },
        { "Testquadrat 5 x 5 cm", { 50 } },
        { "Kontrollquadrat: 10 Zentimeter", { 100 } },
        { "test square: this box should measure 10 cm / 4 in", { 100, 101.6 } },
        { "1 in square", { 25.4 } },
        { "1 inch = 2.54 cm", { 25.4 } },
        { "2cm (1in)", { 20, 25.4 } },
        { "1 1/2 in", { 38.1 } },
        { "1-1/2\"", { 38.1 } },
        { "2½ in", { 63.5 } },
        { "Box 10 cm", { 100 } },
        { "5 x 10 cm", { 0 } },
        { "cut 2 in lining", { 0 } },
        { "cut 2 in lining, 5/8\" seam allowance", { 15.875 } },
        { "A4", { 0 } },
        { "size 10", { 0 } },
        { "10 x 10", { 0 } },
        { "page 3 of 12", { 0 } },
        { "", { 0 } },
        { "x 4 x", { 0 } },
        { "1,000 mm", { 0 } }, /* a thousand to some, one to others */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double sides[DRAWING_WRITTEN_MOST];
        size_t want = 0, count = drawing_written_sides(*state, rows[i].words, sides);
        while (want < 3 && rows[i].mm[want] > 0)
            want++;
        bool good = count == want;
        for (size_t k = 0; good && k < want; k++)
            good = fabs(sides[k] - rows[i].mm[k]) < 1e-9;
        if (!good)
            fail_msg("“%s”: %zu sides, the first %g", rows[i].words, count, count ? sides[0] : 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(letters_become_the_words_that_a_person_reads),
        room_arena_test(rows_columns_and_pages_stay_apart),
        room_arena_test(words_printed_twice_for_bold_are_read_once),
        room_arena_test(words_that_run_up_the_page_are_read_too),
        room_arena_test(sides_are_read_as_people_write_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
