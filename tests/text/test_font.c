#include "base/file.h"
#include "support/cmocka_all.h"
#include "support/folder.h"
#include "text/font.h"

#include <stdlib.h>
#include <string.h>

static void a_legible_font_is_found(void **state)
{
    (void)state;
    struct err_list *errs = base_err_list_create();
    struct text_font *font = text_font_open(errs);
    assert_non_null(font);
    assert_int_equal(errs->count, 0);
    assert_true(strlen(text_font_family(font)) > 0);
    text_font_close(font);
    base_err_list_destroy(errs);
}

static void fonts_open_side_by_side_and_closing_none_is_allowed(void **state)
{
    (void)state;
    struct err_list *errs = base_err_list_create();
    struct text_font *one = text_font_open(errs), *two = text_font_open(errs);
    assert_string_equal(text_font_family(one), text_font_family(two));
    text_font_close(one);
    assert_true(strlen(text_font_family(two)) > 0);
    text_font_close(two);
    text_font_close(NULL);
    base_err_list_destroy(errs);
}

/* fontconfig is given settings that name no folder of fonts. */
static void without_any_font_the_reason_is_told(void **state)
{
    (void)state;
    const char empty[] = "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig></fontconfig>";
    struct err_list *errs = base_err_list_create();
    char *folder = support_folder_create();
    char *settings = base_arena_print(errs->arena, "%s/fonts.conf", folder);
    assert_true(base_file_save(settings, empty, sizeof empty - 1, errs));
    assert_int_equal(setenv("FONTCONFIG_FILE", settings, 1), 0);
    assert_null(text_font_open(errs));
    assert_int_equal(unsetenv("FONTCONFIG_FILE"), 0);
    assert_true(base_err_list_has(errs, "text.no_font"));
    support_folder_remove(folder);
    base_err_list_destroy(errs);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_legible_font_is_found),
        cmocka_unit_test(fonts_open_side_by_side_and_closing_none_is_allowed),
        cmocka_unit_test(without_any_font_the_reason_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
