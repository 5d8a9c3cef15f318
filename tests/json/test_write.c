#include "support/room.h"
#include "json/tree.h"
#include "json/write.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static void a_text_is_indented_and_plain_lists_stand_in_one_line(void **state)
{
    struct arena *a = *state;
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "pattern");
    json_out_number(top, "version", 1);
    struct json_out *points = json_out_object(top, "points");
    struct json_out *point = json_out_list(points, "a");
    json_out_number(point, NULL, 12.5);
    json_out_number(point, NULL, -3);
    struct json_out *views = json_out_list(top, "views");
    json_out_bool(json_out_object(views, NULL), "fold", true);
    json_out_object(views, NULL);
    json_out_list(top, "seams");
    json_out_text(top, "label", NULL);
    json_out_bool(top, "done", false);
    assert_string_equal(json_out_print(a, top), "{\n"
                                                "  \"chalklight\": \"pattern\",\n"
                                                "  \"version\": 1,\n"
                                                "  \"points\": {\n"
                                                "    \"a\": [12.5, -3]\n"
                                                "  },\n"
                                                "  \"views\": [\n"
                                                "    {\n"
                                                "      \"fold\": true\n"
                                                "    },\n"
                                                "    {}\n"
                                                "  ],\n"
                                                "  \"seams\": [],\n"
                                                "  \"label\": null,\n"
                                                "  \"done\": false\n"
                                                "}\n");
    json_out_destroy(top);
    json_out_destroy(NULL);
}

static const struct json_node *read_back(struct arena *a, const struct json_out *top)
{
    struct err_list *errs = base_err_list_create();
    const char *text = json_out_print(a, top);
    const struct json_node *tree = json_parse(a, "f", text, strlen(text), errs);
    assert_int_equal(errs->count, 0);
    base_err_list_destroy(errs);
    assert_non_null(tree);
    return tree;
}

static void what_was_read_is_written_as_it_was(void **state)
{
    struct arena *a = *state;
    struct err_list *errs = base_err_list_create();
    const char *text = "{\n"
                       "  \"plain\": [null, false, true, -0.1, \"\\\"ä\\n\"],\n"
                       "  \"empty\": {},\n"
                       "  \"deep\": {\n"
                       "    \"list\": [\n"
                       "      [1, 2],\n"
                       "      {\n"
                       "        \"a\": []\n"
                       "      }\n"
                       "    ]\n"
                       "  }\n"
                       "}\n";
    const struct json_node *tree = json_parse(a, "f", text, strlen(text), errs);
    assert_non_null(tree);
    struct json_out *top = json_out_create();
    for (const struct json_node *member = tree->first; member; member = member->next)
        json_out_node(top, member->key, member);
    assert_string_equal(json_out_print(a, top), text);
    json_out_destroy(top);
    base_err_list_destroy(errs);
}

/* splitmix64 (Steele, Lea and Flood, 2014). */
static uint64_t random_bits(uint64_t *state)
{
    uint64_t z = *state += 0x9e3779b97f4a7c15u;
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
    z = (z ^ z >> 27) * 0x94d049bb133111ebu;
    return z ^ z >> 31;
}

static void the_same_double_is_read_back(void **state)
{
    struct arena *a = *state;
    struct json_out *top = json_out_create();
    struct json_out *list = json_out_list(top, "numbers");
    double numbers[2000] = { 0,       -0.0,     0.1,     1.0 / 3,      15.875, 1e15 + 0.5,
                             DBL_MAX, -DBL_MAX, DBL_MIN, DBL_TRUE_MIN, 1e23,   nextafter(1, 2) };
    uint64_t seed = 1;
    for (size_t i = 12; i < 2000;) {
        uint64_t bits = random_bits(&seed);
        memcpy(&numbers[i], &bits, sizeof bits);
        i += isfinite(numbers[i]) ? 1 : 0;
    }
    for (size_t i = 0; i < 2000; i++)
        json_out_number(list, NULL, numbers[i]);
    size_t i = 0;
    for (const struct json_node *n = read_back(a, top)->first->first; n; n = n->next, i++)
        if (memcmp(&n->number, &numbers[i], sizeof(double)) != 0)
            fail_msg("%.17g is read back as %.17g", numbers[i], n->number);
    assert_int_equal(i, 2000);
    json_out_destroy(top);
}

static void numbers_take_no_more_digits_than_they_need(void **state)
{
    struct arena *a = *state;
    struct json_out *top = json_out_create();
    json_out_number(top, "a", 0.1);
    json_out_number(top, "b", 15.875);
    json_out_number(top, "c", 1000000);
    assert_string_equal(json_out_print(a, top), "{\n  \"a\": 0.1,\n  \"b\": 15.875,\n  \"c\": 1000000\n}\n");
    json_out_destroy(top);
}

static void the_same_text_is_read_back(void **state)
{
    struct arena *a = *state;
    struct json_out *top = json_out_create();
    char every[128] = { 0 };
    for (int c = 1; c < 128; c++)
        every[c - 1] = (char)c;
    const char *beyond = "\xc2\xbd \xe2\x80\x9c\xf0\x9f\x98\x80";
    json_out_text(top, every, beyond);
    json_out_text(top, beyond, every);
    json_out_text(top, "", "");
    const struct json_node *tree = read_back(a, top);
    assert_string_equal(tree->first->key, every);
    assert_string_equal(tree->first->text, beyond);
    assert_string_equal(json_find(tree, beyond)->text, every);
    assert_string_equal(json_find(tree, "")->text, "");
    json_out_destroy(top);
}

static void texts_are_copied(void **state)
{
    struct arena *a = *state;
    struct json_out *top = json_out_create();
    char key[] = "name", value[] = "bib";
    json_out_text(top, key, value);
    key[0] = value[0] = 'x';
    assert_string_equal(json_find(read_back(a, top), "name")->text, "bib");
    json_out_destroy(top);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_text_is_indented_and_plain_lists_stand_in_one_line),
        room_arena_test(what_was_read_is_written_as_it_was),
        room_arena_test(the_same_double_is_read_back),
        room_arena_test(numbers_take_no_more_digits_than_they_need),
        room_arena_test(the_same_text_is_read_back),
        room_arena_test(texts_are_copied),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
