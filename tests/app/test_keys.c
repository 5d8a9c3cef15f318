#include "app/key_lines.h"
#include "app/state.h"
#include "input/key.h"
#include "support/cmocka_all.h"

#include <string.h>

static void no_key_stands_twice(void **state)
{
    (void)state;
    size_t count;
    const struct app_key_row *rows = app_key_rows(&count);
    assert_true(count > 10);
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count; j++)
            if (rows[i].key == rows[j].key && rows[i].mods == rows[j].mods)
                fail_msg("rows %zu and %zu have one key", i, j);
}

static void every_action_has_help(void **state)
{
    (void)state;
    size_t count;
    const struct app_key_row *rows = app_key_rows(&count);
    for (size_t i = 0; i < count; i++) {
        assert_non_null(rows[i].action->run);
        assert_true(strlen(rows[i].action->help) > 3);
    }
}

/* How a key stands on its help line: by its name, or as one of all four arrows. */
static bool stands_on(const struct scene_help_line *line, int key, int mods)
{
    static const char *const arrows[] = { [0] = "Arrows", [MOD_SHIFT] = "Shift arrows", [MOD_CTRL] = "Ctrl arrows" };
    char name[INPUT_KEY_TEXT];
    bool is_arrow = key == KEY_LEFT || key == KEY_RIGHT || key == KEY_UP || key == KEY_DOWN;
    return (is_arrow && strcmp(line->key, arrows[mods]) == 0) || strstr(line->key, input_key_name(name, key, mods));
}

static void keys_that_do_the_same_share_a_line_and_many_a_word(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    static const struct app_key keys[] = { { 0, KEY_DOWN, MOD_SHIFT, "move" },
                                           { 0, KEY_UP, MOD_SHIFT, NULL },
                                           { 0, KEY_RIGHT, MOD_SHIFT, NULL },
                                           { 0, KEY_LEFT, MOD_SHIFT, NULL },
                                           { 0, KEY_ENTER, 0, "go on" },
                                           { 0, KEY_LEFT, 0, NULL },
                                           { 0, KEY_RIGHT, 0, NULL },
                                           { 0, KEY_UP, 0, NULL },
                                           { 0, KEY_DOWN, 0, NULL },
                                           { 0, KEY_LEFT, 0, "back" },
                                           { 0, KEY_RIGHT, 0, NULL },
                                           { 0, KEY_UP, 0, NULL },
                                           { 0, KEY_DOWN, MOD_CTRL, "across" },
                                           { 0, KEY_CHAR + 'q', 0, "leave" },
                                           { 0, KEY_F2, 0, "to a page" },
                                           { 0, KEY_F3, 0, NULL },
                                           { 0, KEY_F4, 0, NULL },
                                           { 0, KEY_F6, 0, NULL },
                                           { 0, KEY_F7, 0, NULL } };
    static const struct scene_help_line want[] = { { "Shift arrows", "move" },
                                                   { "Enter or Arrows", "go on" },
                                                   { "Left or Right or Up", "back" },
                                                   { "Ctrl Down", "across" },
                                                   { "Q", "leave" },
                                                   { "F2 to F4 or F6 or F7", "to a page" } };
    const struct scene_help_line *lines;
    assert_int_equal(app_key_lines(a, keys, sizeof keys / sizeof keys[0], &lines), sizeof want / sizeof want[0]);
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        assert_string_equal(lines[i].key, want[i].key);
        assert_string_equal(lines[i].what, want[i].what);
    }
    base_arena_destroy(a);
}

static void every_key_is_on_a_help_line(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    const struct scene_help_line *lines;
    size_t count, line_count = app_help_lines(a, NULL, &lines);
    const struct app_key_row *rows = app_key_rows(&count);
    for (size_t i = 0; i < count; i++) {
        char name[INPUT_KEY_TEXT];
        bool found = false;
        input_key_name(name, rows[i].key, rows[i].mods);
        for (size_t l = 0; l < line_count; l++)
            found = found || stands_on(&lines[l], rows[i].key, rows[i].mods);
        if (!found)
            fail_msg("%s is not in the help", name);
    }
    for (size_t l = 0; l < line_count; l++)
        assert_null(strchr(lines[l].what, '#'));
    base_arena_destroy(a);
}

static void a_key_without_a_row_has_no_action(void **state)
{
    (void)state;
    assert_null(app_find_key(KEY_F12, 0));
    assert_null(app_find_key(KEY_CHAR + 'q', 0));
    assert_non_null(app_find_key(KEY_CHAR + 'q', MOD_CTRL));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_key_stands_twice),
        cmocka_unit_test(every_action_has_help),
        cmocka_unit_test(keys_that_do_the_same_share_a_line_and_many_a_word),
        cmocka_unit_test(every_key_is_on_a_help_line),
        cmocka_unit_test(a_key_without_a_row_has_no_action),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
