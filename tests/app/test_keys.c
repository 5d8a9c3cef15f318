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

static void every_key_is_on_a_help_line(void **state)
{
    (void)state;
    struct arena *a = base_arena_create();
    const struct scene_help_line *lines;
    size_t count, line_count = app_help_lines(a, &lines);
    const struct app_key_row *rows = app_key_rows(&count);
    for (size_t i = 0; i < count; i++) {
        char name[INPUT_KEY_TEXT];
        bool found = false;
        input_key_name(name, rows[i].key, rows[i].mods);
        for (size_t l = 0; l < line_count; l++)
            found = found || strstr(lines[l].key, name) != NULL;
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
        cmocka_unit_test(every_key_is_on_a_help_line),
        cmocka_unit_test(a_key_without_a_row_has_no_action),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
