#include "input/key.h"
#include "support/cmocka_all.h"

#include <string.h>

/* Expected names after the header's own wording; code points after the Unicode charts. */
static const struct {
    int key, mods;
    const char *name;
} rows[] = {
    { KEY_LEFT, 0, "Left" },
    { KEY_LEFT, MOD_SHIFT, "Shift Left" },
    { KEY_PAGE_DOWN, MOD_CTRL, "Ctrl Page Down" },
    { KEY_F1, 0, "F1" },
    { KEY_F11, 0, "F11" },
    { KEY_SPACE, 0, "Space" },
    { KEY_CHAR + 'q', MOD_CTRL, "Ctrl Q" },
    { KEY_CHAR + 'q', 0, "Q" },
    { KEY_CHAR + '+', 0, "+" },
    { KEY_CHAR + '7', MOD_ALT, "Alt 7" },
    { KEY_CHAR + 0xe4, 0, "\xc3\x84" /* Ä */ },
    { KEY_CHAR + 0xdf, 0, "\xc3\x9f" /* ß */ },
    { KEY_CHAR + 0xf7, 0, "\xc3\xb7" /* ÷ */ },
    { KEY_CHAR + 0x20ac, 0, "\xe2\x82\xac" /* € */ },
    { KEY_CHAR + 0x1f9f5, 0, "\xf0\x9f\xa7\xb5" /* spool of thread */ },
    { KEY_BACKSPACE, MOD_SHIFT | MOD_CTRL | MOD_ALT, "Ctrl Alt Shift Backspace" },
};
enum { ROWS = sizeof rows / sizeof rows[0] };

static void a_key_has_its_name(void **state)
{
    (void)state;
    char name[INPUT_KEY_TEXT];
    for (int i = 0; i < ROWS; i++)
        assert_string_equal(input_key_name(name, rows[i].key, rows[i].mods), rows[i].name);
    assert_string_equal(input_key_name(name, KEY_NONE, MOD_CTRL), "");
}

static void a_name_finds_its_key_again(void **state)
{
    (void)state;
    for (int i = 0; i < ROWS; i++) {
        int key = 0, mods = 0;
        if (!input_key_from_name(rows[i].name, &key, &mods) || key != rows[i].key || mods != rows[i].mods)
            fail_msg("\"%s\" gave key %d, modifiers %d", rows[i].name, key, mods);
    }
}

static void every_key_of_the_list_goes_to_its_name_and_back(void **state)
{
    (void)state;
    for (int key = KEY_LEFT; key <= KEY_SWITCH_8; key++) {
        char name[INPUT_KEY_TEXT];
        int found = 0, mods = -1;
        assert_true(input_key_from_name(input_key_name(name, key, 0), &found, &mods));
        assert_int_equal(found, key);
        assert_int_equal(mods, 0);
    }
}

static void case_and_order_of_a_name_do_not_matter(void **state)
{
    (void)state;
    int key = 0, mods = 0;
    assert_true(input_key_from_name("shift left", &key, &mods));
    assert_int_equal(key, KEY_LEFT);
    assert_int_equal(mods, MOD_SHIFT);
    assert_true(input_key_from_name("SHIFT alt CTRL page up", &key, &mods));
    assert_int_equal(key, KEY_PAGE_UP);
    assert_int_equal(mods, MOD_SHIFT | MOD_ALT | MOD_CTRL);
    assert_true(input_key_from_name("ctrl q", &key, &mods));
    assert_int_equal(key, KEY_CHAR + 'q');
}

static void what_names_no_key_is_refused_and_changes_nothing(void **state)
{
    (void)state;
    static const char *const names[] = { "",     "Shift",    "Shift ", "Lef",    "Left ",    " Left",
                                         "F13",  "Ctrl",     "qq",     " ",      "\t",       "\x7f",
                                         "\xff", "\xc2\x85", "Meta Q", "PageUp", "ShiftLeft" };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        int key = -7, mods = -7;
        if (input_key_from_name(names[i], &key, &mods) || key != -7 || mods != -7)
            fail_msg("\"%s\" was taken for key %d, modifiers %d", names[i], key, mods);
    }
}

static void capitals_are_the_keys_of_their_small_letters(void **state)
{
    (void)state;
    assert_int_equal(input_key_printing('A'), KEY_CHAR + 'a');
    assert_int_equal(input_key_printing('z'), KEY_CHAR + 'z');
    assert_int_equal(input_key_printing(0xd6), KEY_CHAR + 0xf6); /* Ö, ö */
    assert_int_equal(input_key_printing(0xd7), KEY_CHAR + 0xd7); /* ×, no letter */
    assert_int_equal(input_key_printing('['), KEY_CHAR + '[');
    assert_int_equal(input_key_printing(' '), KEY_SPACE);
    assert_int_equal(input_key_printing('\r'), KEY_NONE);
    assert_int_equal(input_key_printing(0), KEY_NONE);
}

static void only_letters_have_capitals(void **state)
{
    (void)state;
    assert_true(input_key_is_letter(KEY_CHAR + 'a'));
    assert_true(input_key_is_letter(KEY_CHAR + 0xfc)); /* ü */
    assert_false(input_key_is_letter(KEY_CHAR + '+'));
    assert_false(input_key_is_letter(KEY_CHAR + '7'));
    assert_false(input_key_is_letter(KEY_CHAR + 0xf7)); /* ÷ */
    assert_false(input_key_is_letter(KEY_LEFT));
    assert_false(input_key_is_letter(KEY_NONE));
}

/* Unicode, C1 Controls and Latin-1 Supplement: the capital of ä is Ä; those of ß and ÿ are not in it. */
static void a_key_prints_its_character_a_capital_with_shift(void **state)
{
    (void)state;
    assert_int_equal(input_key_printed(KEY_CHAR + 'a', 0), 'a');
    assert_int_equal(input_key_printed(KEY_CHAR + 'a', MOD_SHIFT), 'A');
    assert_int_equal(input_key_printed(KEY_CHAR + 0xe4, MOD_SHIFT), 0xc4);
    assert_int_equal(input_key_printed(KEY_CHAR + 0xdf, MOD_SHIFT), 0xdf);
    assert_int_equal(input_key_printed(KEY_CHAR + 0xff, MOD_SHIFT), 0xff);
    assert_int_equal(input_key_printed(KEY_CHAR + '/', MOD_SHIFT), '/');
    assert_int_equal(input_key_printed(KEY_SPACE, 0), ' ');
    assert_int_equal(input_key_printed(KEY_CHAR + 'a', MOD_CTRL), 0);
    assert_int_equal(input_key_printed(KEY_ENTER, 0), 0);
}

/* No chain and no circle: what a key stands for is a key of a keyboard. */
static void a_key_stands_for_a_key_of_a_keyboard(void **state)
{
    (void)state;
    size_t count;
    const struct input_stand_in *rows_of = input_stand_ins(&count);
    assert_true(count > 0);
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(input_key_does(rows_of[i].key, rows_of[i].mods), rows_of[i].does);
        assert_int_equal(input_key_does(rows_of[i].does, 0), KEY_NONE);
        assert_true(rows_of[i].does < KEY_BUTTON_NEAR || rows_of[i].does > KEY_CHAR);
    }
    assert_int_equal(input_key_does(KEY_F5, MOD_CTRL), KEY_NONE);
    assert_int_equal(input_key_does(KEY_NONE, 0), KEY_NONE);
}

/* What is printed beside the digits of a number pad (common practice, no source): 7 Home, 8 up, 9 page up, 4 left, 6
 * right, 1 End, 2 down, 3 page down. */
static void digits_are_a_number_pad(void **state)
{
    (void)state;
    static const int does[] = { KEY_BACKSPACE, KEY_END,   KEY_DOWN, KEY_PAGE_DOWN, KEY_LEFT,
                                KEY_NONE,      KEY_RIGHT, KEY_HOME, KEY_UP,        KEY_PAGE_UP };
    for (int digit = 0; digit < 10; digit++) {
        assert_int_equal(input_key_on_pad(KEY_CHAR + '0' + digit, 0), does[digit]);
        assert_int_equal(input_key_on_pad(KEY_CHAR + '0' + digit, MOD_CTRL), KEY_NONE);
    }
    assert_int_equal(input_key_on_pad(KEY_CHAR + ':', 0), KEY_NONE);
    assert_int_equal(input_key_on_pad(KEY_CHAR + '/', 0), KEY_NONE);
}

static void mirrored_twice_a_key_is_itself(void **state)
{
    (void)state;
    assert_int_equal(input_key_mirrored(KEY_SHOULDER_LEFT), KEY_SHOULDER_RIGHT);
    assert_int_equal(input_key_mirrored(KEY_TRIGGER_RIGHT), KEY_TRIGGER_LEFT);
    for (int key = KEY_LEFT; key <= KEY_SWITCH_8; key++)
        assert_int_equal(input_key_mirrored(input_key_mirrored(key)), key);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_key_has_its_name),
        cmocka_unit_test(a_name_finds_its_key_again),
        cmocka_unit_test(every_key_of_the_list_goes_to_its_name_and_back),
        cmocka_unit_test(case_and_order_of_a_name_do_not_matter),
        cmocka_unit_test(what_names_no_key_is_refused_and_changes_nothing),
        cmocka_unit_test(capitals_are_the_keys_of_their_small_letters),
        cmocka_unit_test(only_letters_have_capitals),
        cmocka_unit_test(a_key_prints_its_character_a_capital_with_shift),
        cmocka_unit_test(a_key_stands_for_a_key_of_a_keyboard),
        cmocka_unit_test(digits_are_a_number_pad),
        cmocka_unit_test(mirrored_twice_a_key_is_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
