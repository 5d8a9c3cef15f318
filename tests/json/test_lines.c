#include "support/room.h"
#include "json/lines.h"

#include <string.h>

/* Walks over a copy that ends exactly where the text does, so that the address sanitizer sees a step past it. */
static struct json_lines walk(struct arena *a, const char *text, size_t count)
{
    char *exact = base_arena_alloc(a, count, 1);
    if (count)
        memcpy(exact, text, count);
    return json_find_lines(a, exact, count);
}

static void each_value_begins_on_its_line(void **state)
{
    struct arena *a = *state;
    static const char text[] = "\n{ \"a\": 1,\r\n  \"b\":\n    [true, \"x\\ny\",\n\n null], \"c\": {}\n}\n";
    static const int want[] = { 2, 2, 4, 4, 4, 6, 6 };
    struct json_lines lines = walk(a, text, strlen(text));
    assert_int_equal(lines.flaw, JSON_SOUND);
    assert_int_equal(lines.count, sizeof want / sizeof want[0]);
    for (size_t i = 0; i < lines.count; i++)
        assert_int_equal(lines.line[i], want[i]);
}

static void a_flaw_is_found_where_it_stands(void **state)
{
    struct arena *a = *state;
    static const struct {
        const char *text;
        enum json_flaw flaw;
        int line;
        size_t at;
    } rows[] = {
        { "", JSON_EMPTY, 1, 0 },
        { " \n\n", JSON_EMPTY, 1, 3 },
        { "{\n \"a\": 1,\n", JSON_BREAKS_OFF, 2, 11 },
        { "{\n \"a\": 1", JSON_BREAKS_OFF, 2, 9 },
        { "[\n\"ab", JSON_BREAKS_OFF, 2, 5 },
        { "[\"\\", JSON_BREAKS_OFF, 1, 3 },
        { "[\"\\u00", JSON_BREAKS_OFF, 1, 6 },
        { "[\"\\ud83d\\", JSON_BREAKS_OFF, 1, 9 },
        { "[\"\xc3", JSON_BREAKS_OFF, 1, 3 },
        { "[\ntr", JSON_BREAKS_OFF, 2, 4 },
        { "[1.", JSON_BREAKS_OFF, 1, 3 },
        { "-", JSON_BREAKS_OFF, 1, 1 },
        { "{\"a\"", JSON_BREAKS_OFF, 1, 4 },
        { "[\n\"\xff\"]", JSON_NOT_UTF8, 2, 3 },
        { "[\xa0]", JSON_NOT_UTF8, 1, 1 },
        { "\xff\xfe[\0]\0", JSON_NOT_UTF8, 1, 0 },
        { "[1,\n trui]", JSON_NO_VALUE, 2, 5 },
        { "['a']", JSON_NO_VALUE, 1, 1 },
        { "[}", JSON_NO_VALUE, 1, 1 },
        { "{\"a\":}", JSON_NO_VALUE, 1, 5 },
        { "[,1]", JSON_NO_VALUE, 1, 1 },
        { "{a: 1}", JSON_NO_NAME, 1, 1 },
        { "{,}", JSON_NO_NAME, 1, 1 },
        { "{\"a\" 1}", JSON_NO_COLON, 1, 5 },
        { "[1\n2]", JSON_NO_COMMA, 2, 3 },
        { "{\"a\": \"b\"\n\"c\": 1}", JSON_NO_COMMA, 2, 10 },
        { "[1,\n]", JSON_SPARE_COMMA, 2, 4 },
        { "{\"a\":1,}", JSON_SPARE_COMMA, 1, 7 },
        { "[1}", JSON_WRONG_CLOSE, 1, 2 },
        { "{\"a\":1]", JSON_WRONG_CLOSE, 1, 6 },
        { "[1]\n\n]", JSON_MORE_AFTER, 3, 5 },
        { "1 2", JSON_MORE_AFTER, 1, 2 },
        { "[\n01]", JSON_NUMBER_FORM, 2, 3 },
        { "[+1]", JSON_NUMBER_FORM, 1, 1 },
        { "[.5]", JSON_NUMBER_FORM, 1, 1 },
        { "[1.]", JSON_NUMBER_FORM, 1, 3 },
        { "[5cm]", JSON_NUMBER_FORM, 1, 2 },
        { "[\"a\n\"]", JSON_LINE_BREAK, 1, 3 },
        { "[\"a\t\"]", JSON_CONTROL, 1, 3 },
        { "[\"\\x\"]", JSON_ESCAPE, 1, 3 },
        { "[\"\\ud83d\"]", JSON_ESCAPE, 1, 8 },
        { "[\"\\ude00\"]", JSON_ESCAPE, 1, 4 },
        { "[\n\"a\\u0000\"]", JSON_ZERO, 2, 6 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct json_lines got = walk(a, rows[i].text, strlen(rows[i].text));
        if (got.flaw != rows[i].flaw || got.flaw_line != rows[i].line || got.flaw_at != rows[i].at)
            fail_msg("row %zu: flaw %d in line %d at %zu", i, (int)got.flaw, got.flaw_line, got.flaw_at);
    }
}

static struct json_lines walk_nested(struct arena *a, size_t depth)
{
    char *text = base_arena_alloc(a, 2 * depth + 1, 1);
    memset(text, '[', depth);
    memset(text + depth, ']', depth);
    return walk(a, text, 2 * depth);
}

static void nesting_is_taken_to_its_bound_and_no_deeper(void **state)
{
    struct arena *a = *state;
    assert_int_equal(walk_nested(a, JSON_DEEPEST).flaw, JSON_SOUND);
    assert_int_equal(walk_nested(a, JSON_DEEPEST + 1).flaw, JSON_TOO_DEEP);
    struct json_lines far_too_deep = walk_nested(a, 1000 * 1000);
    assert_int_equal(far_too_deep.flaw, JSON_TOO_DEEP);
    assert_int_equal(far_too_deep.flaw_at, JSON_DEEPEST);
}

/* A list of `count` zeros. */
static struct json_lines walk_zeros(struct arena *a, size_t count)
{
    char *text = base_arena_alloc(a, 2 * count + 1, 1);
    for (size_t i = 0; i < count; i++)
        memcpy(text + 2 * i, i ? ",0" : "[0", 2);
    text[2 * count] = ']';
    return json_find_lines(a, text, 2 * count + 1);
}

static void values_are_taken_to_their_bound_and_no_further(void **state)
{
    struct arena *a = *state;
    assert_int_equal(walk_zeros(a, JSON_MOST_VALUES - 1).flaw, JSON_SOUND);
    assert_int_equal(walk_zeros(a, JSON_MOST_VALUES).flaw, JSON_TOO_MANY);
}

static void a_number_is_taken_to_its_bound_and_no_longer(void **state)
{
    struct arena *a = *state;
    char digits[JSON_NUMBER_CHARS + 1];
    memset(digits, '7', sizeof digits);
    assert_int_equal(walk(a, digits, JSON_NUMBER_CHARS).flaw, JSON_SOUND);
    assert_int_equal(walk(a, digits, JSON_NUMBER_CHARS + 1).flaw, JSON_NUMBER_LONG);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(each_value_begins_on_its_line),
        room_arena_test(a_flaw_is_found_where_it_stands),
        room_arena_test(nesting_is_taken_to_its_bound_and_no_deeper),
        room_arena_test(values_are_taken_to_their_bound_and_no_further),
        room_arena_test(a_number_is_taken_to_its_bound_and_no_longer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
