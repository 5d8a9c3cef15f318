#include "support/room.h"
#include "text/faces.h"
#include "text/run.h"

#include <string.h>

enum { MOST = 40 };

static void common_families_are_found_once_each(void **state)
{
    struct text_face_file files[MOST];
    size_t count = text_find_faces(*state, files, MOST), slanted = 0;
    assert_true(count >= 4); /* Lato and DejaVu are among the packages that the program installs */
    assert_non_null(strstr(files[0].path, "Lato"));
    assert_false(files[0].slanted);
    for (size_t i = 0; i < count; i++) {
        slanted += files[i].slanted;
        for (size_t k = 0; k < i; k++)
            assert_true(strcmp(files[i].path, files[k].path) != 0 || files[i].index != files[k].index);
    }
    assert_true(slanted >= 1); /* Lato has an italic */
}

static void no_more_are_given_than_asked_for(void **state)
{
    struct text_face_file files[MOST] = { 0 };
    assert_int_equal(text_find_faces(*state, files, 3), 3);
    assert_null(files[3].path);
}

static void a_face_tells_which_letters_it_has(void **state)
{
    struct text_face_file file;
    assert_int_equal(text_find_faces(*state, &file, 1), 1);
    struct text_font *font = text_font_open_face(&file);
    assert_non_null(font);
    assert_true(text_font_has(font, 'A'));
    assert_true(text_font_has(font, 0xdf));    /* ß */
    assert_false(text_font_has(font, 0xe000)); /* for private use (Unicode 15, chapter 23.5) */
    text_font_close(font);
}

static void a_file_that_is_no_font_is_not_opened(void **state)
{
    (void)state;
    assert_null(text_font_open_face(&(struct text_face_file){ "/dev/null", 0, false }));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(common_families_are_found_once_each),
        room_arena_test(no_more_are_given_than_asked_for),
        room_arena_test(a_face_tells_which_letters_it_has),
        room_arena_test(a_file_that_is_no_font_is_not_opened),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
