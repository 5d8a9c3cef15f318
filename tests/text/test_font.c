#include "support/room.h"
#include "text/font.h"

#include <stdlib.h>
#include <string.h>

static void a_legible_font_is_found(void **state)
{
    struct room *room = *state;
    struct text_font *font = text_font_open(room->errs);
    assert_non_null(font);
    assert_int_equal(room->errs->count, 0);
    assert_true(strlen(text_font_family(font)) > 0);
    text_font_close(font);
}

static void fonts_open_side_by_side_and_closing_none_is_allowed(void **state)
{
    struct room *room = *state;
    struct text_font *one = text_font_open(room->errs), *two = text_font_open(room->errs);
    assert_string_equal(text_font_family(one), text_font_family(two));
    text_font_close(one);
    assert_true(strlen(text_font_family(two)) > 0);
    text_font_close(two);
    text_font_close(NULL);
}

/* fontconfig is given settings that name no folder of fonts. */
static void without_any_font_the_reason_is_told(void **state)
{
    struct room *room = *state;
    const char empty[] = "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig></fontconfig>";
    const char *settings = room_put(room, "fonts.conf", empty);
    assert_int_equal(setenv("FONTCONFIG_FILE", settings, 1), 0);
    assert_null(text_font_open(room->errs));
    assert_int_equal(unsetenv("FONTCONFIG_FILE"), 0);
    assert_true(base_err_list_has(room->errs, "text.no_font"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_legible_font_is_found),
        room_test(fonts_open_side_by_side_and_closing_none_is_allowed),
        room_test(without_any_font_the_reason_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
