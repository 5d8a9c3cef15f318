#include "support/room.h"
#include "text/find.h"

#include <stdio.h>
#include <string.h>

static const enum text_weight weights[] = { TEXT_REGULAR, TEXT_SEMIBOLD, TEXT_HEAVY };
enum { WEIGHTS = sizeof weights / sizeof weights[0] };

/* The first four bytes of an outline font: "\0\1\0\0" or "true" (TrueType), "OTTO" (CFF), "ttcf" (collection), after
 * the OpenType specification, "Organization of an OpenType Font". */
static bool starts_as_a_font(const char *path)
{
    static const char *const tags[] = { "\0\1\0\0", "true", "OTTO", "ttcf" };
    char tag[4] = { 0 };
    FILE *file = fopen(path, "rb");
    bool good = false;
    if (!file)
        return false;
    if (fread(tag, 1, sizeof tag, file) == sizeof tag)
        for (size_t i = 0; i < sizeof tags / sizeof tags[0]; i++)
            good = good || memcmp(tag, tags[i], sizeof tag) == 0;
    fclose(file);
    return good;
}

static void every_weight_has_a_font_file(void **state)
{
    struct arena *a = *state;
    for (int i = 0; i < WEIGHTS; i++) {
        const char *path = NULL;
        int face = -1;
        assert_true(text_find_file(a, weights[i], &path, &face));
        if (!starts_as_a_font(path))
            fail_msg("%s is no outline font", path);
        assert_true(face >= 0);
    }
}

static void a_heavier_weight_is_another_file(void **state)
{
    struct arena *a = *state;
    const char *regular = NULL, *heavy = NULL;
    int face = 0;
    assert_true(text_find_file(a, TEXT_REGULAR, &regular, &face));
    assert_true(text_find_file(a, TEXT_HEAVY, &heavy, &face));
    assert_string_not_equal(regular, heavy); /* each of the families named has a bold of its own file */
}

static void several_are_found_as_each_is(void **state)
{
    struct arena *a = *state;
    struct text_face_file files[WEIGHTS];
    assert_true(text_find_files(a, weights, WEIGHTS, files));
    for (int i = 0; i < WEIGHTS; i++) {
        const char *path = NULL;
        int face = -1;
        assert_true(text_find_file(a, weights[i], &path, &face));
        assert_string_equal(files[i].path, path);
        assert_int_equal(files[i].index, face);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(every_weight_has_a_font_file),
        room_arena_test(a_heavier_weight_is_another_file),
        room_arena_test(several_are_found_as_each_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
