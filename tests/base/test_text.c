#include "base/text.h"
#include "support/room.h"

#include <string.h>

static void well_formed_and_malformed_utf8_are_told_apart(void **state)
{
    (void)state;
    /* Rows after RFC 3629: limits of each length, overlong forms, surrogates, past U+10FFFF, cut off. */
    static const struct {
        const char *bytes;
        bool good;
    } rows[] = {
        { "", true },
        { "a", true },
        { "\xc2\x80", true },
        { "\xdf\xbf", true },
        { "\xe0\xa0\x80", true },
        { "\xef\xbf\xbf", true },
        { "\xf0\x90\x80\x80", true },
        { "\xf4\x8f\xbf\xbf", true },
        { "\xc0\x80", false },
        { "\xc1\xbf", false },
        { "\xe0\x9f\xbf", false },
        { "\xed\xa0\x80", false },
        { "\xf4\x90\x80\x80", false },
        { "\xf8\x88\x80\x80\x80", false },
        { "\x80", false },
        { "\xe2\x82", false },
        { "\xff", false },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (base_text_is_utf8(rows[i].bytes, strlen(rows[i].bytes)) != rows[i].good)
            fail_msg("row %zu", i);
}

static void code_points_come_one_by_one(void **state)
{
    (void)state;
    const char *text = "a\xc2\xbd\xe2\x82\xac\xf0\x9f\x98\x80";
    assert_int_equal(base_text_next(&text), 'a');
    assert_int_equal(base_text_next(&text), 0xbd);
    assert_int_equal(base_text_next(&text), 0x20ac);
    assert_int_equal(base_text_next(&text), 0x1f600);
    assert_int_equal(base_text_next(&text), 0);
}

static void distance_counts_edits(void **state)
{
    (void)state;
    /* kitten and sitting: 3, the worked example common to textbooks. */
    assert_int_equal(base_text_distance("kitten", "sitting", 99), 3);
    assert_int_equal(base_text_distance("", "abc", 99), 3);
    assert_int_equal(base_text_distance("Hip", "hip", 99), 0);
    assert_int_equal(base_text_distance("kitten", "sitting", 2), 2);
}

static void the_nearest_name_is_offered_only_when_near(void **state)
{
    (void)state;
    static const char *const names[] = { "allowance", "outline", "fold" };
    assert_string_equal(base_text_nearest("alowance", names, 3), "allowance");
    assert_string_equal(base_text_nearest("flod", names, 3), "fold");
    assert_null(base_text_nearest("grain", names, 3));
    static const char *const short_names[] = { "a", "ab" };
    assert_null(base_text_nearest("z", short_names, 1));
    assert_string_equal(base_text_nearest("az", short_names, 2), "a");
    assert_null(base_text_nearest("", short_names, 2));
}

static void control_characters_are_shown_as_question_marks(void **state)
{
    const char *plain = base_text_plain(*state, "a\x1b[2Jb\tc\nd\x7f Möwe\r");
    assert_string_equal(plain, "a?[2Jb?c\nd? Möwe?");
    assert_string_equal(base_text_plain(*state, "“M\xf6we” ö € \xf0\x9f\xa7\xb5 \xe2\x82"),
                        "“M?we” ö € \xf0\x9f\xa7\xb5 ??"); /* Latin-1, and a letter that breaks off (RFC 3629) */
}

static void a_text_is_brought_into_one_line_or_cut(void **state)
{
    assert_string_equal(base_text_one_line(*state, "Bag\nfront\r\n"), "Bag front  ");
    assert_string_equal(base_text_cut(*state, "Möwen", 5), "Möwen");
    assert_string_equal(base_text_cut(*state, "Möwen", 4), "Möw…");
    assert_string_equal(base_text_cut(*state, "Möwen", 1), "…");
}

static void names_are_told_one_after_the_other(void **state)
{
    static const char *const names[] = { "bib", "tie", "pocket", "band" };
    assert_string_equal(base_text_list(*state, names, 0, 3), "");
    assert_string_equal(base_text_list(*state, names, 1, 3), "bib");
    assert_string_equal(base_text_list(*state, names, 2, 3), "bib and tie");
    assert_string_equal(base_text_list(*state, names, 3, 3), "bib, tie and pocket");
    assert_string_equal(base_text_list(*state, names, 4, 2), "bib, tie and 2 more");
}

static void what_is_typed_grows_and_is_rubbed_out_letter_by_letter(void **state)
{
    (void)state;
    char typed[6] = "";
    base_text_type(typed, sizeof typed, '7');
    base_text_type(typed, sizeof typed, 0xbd);   /* ½: two bytes */
    base_text_type(typed, sizeof typed, 0x20ac); /* €: three, for which there is no room */
    base_text_type(typed, sizeof typed, 0xe4);
    assert_string_equal(typed, "7½ä");
    base_text_rub_out(typed);
    assert_string_equal(typed, "7½");
    base_text_rub_out(typed);
    base_text_rub_out(typed);
    base_text_rub_out(typed);
    assert_string_equal(typed, "");
}

static void letters_are_counted_not_bytes(void **state)
{
    (void)state;
    assert_int_equal(base_text_letters("Möwe ½"), 6);
    assert_int_equal(base_text_letters(""), 0);
}

static void what_stands_behind_a_word_is_found(void **state)
{
    (void)state;
    assert_string_equal(base_text_behind("12 to 14", "12"), " to 14");
    assert_string_equal(base_text_behind("12", "12"), "");
    assert_null(base_text_behind("12", "12 to"));
    assert_null(base_text_behind(NULL, "12"));
}

/* The examples of RFC 3629, section 7. */
static void code_points_are_written_as_utf8(void **state)
{
    static const struct {
        unsigned long point;
        const char *bytes;
    } rows[] = {
        { 0x41, "A" },
        { 0x0391, "\xce\x91" },
        { 0x2262, "\xe2\x89\xa2" },
        { 0x233b4, "\xf0\xa3\x8e\xb4" },
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char out[5] = { 0 };
        assert_int_equal(base_text_put(out, rows[i].point), strlen(rows[i].bytes));
        assert_string_equal(out, rows[i].bytes);
    }
}

/* POSIX.1-2017, Shell Command Language, 2.2: within double quotes $ ` \ " keep their meaning (in shells that are typed
 * into, ! too), within single quotes nothing does. Worked out by hand. */
static void a_word_that_is_typed_is_quoted_where_it_has_to_be(void **state)
{
    static const char *const rows[][2] = {
        { "small-table.json", "small-table.json" },
        { "Größe", "Größe" },
        { "my tables/60 x 90.json", "\"my tables/60 x 90.json\"" },
        { "Anna's.json", "\"Anna's.json\"" },
        { "4$ 'a'.json", "'4$ '\\''a'\\''.json'" },
        { "", "\"\"" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(base_text_typed(*state, rows[i][0]), rows[i][1]);
}

static void only_a_small_first_letter_becomes_a_capital(void **state)
{
    static const char *const rows[][2] = { { "fabric of wool", "Fabric of wool" },
                                           { "Fabric", "Fabric" },
                                           { "“bib” front", "“bib” front" },
                                           { "5 pieces", "5 pieces" },
                                           { "", "" } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_string_equal(base_text_capital(*state, rows[i][0]), rows[i][1]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(well_formed_and_malformed_utf8_are_told_apart),
        cmocka_unit_test(code_points_come_one_by_one),
        cmocka_unit_test(what_is_typed_grows_and_is_rubbed_out_letter_by_letter),
        cmocka_unit_test(letters_are_counted_not_bytes),
        cmocka_unit_test(code_points_are_written_as_utf8),
        cmocka_unit_test(what_stands_behind_a_word_is_found),
        cmocka_unit_test(distance_counts_edits),
        room_arena_test(a_text_is_brought_into_one_line_or_cut),
        room_arena_test(names_are_told_one_after_the_other),
        room_arena_test(a_word_that_is_typed_is_quoted_where_it_has_to_be),
        room_arena_test(control_characters_are_shown_as_question_marks),
        room_arena_test(only_a_small_first_letter_becomes_a_capital),
        cmocka_unit_test(the_nearest_name_is_offered_only_when_near),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
