/* The words of settings that other folders own are theirs. */
#include "settings/rows.h"

#include "scene/look.h"
#include "scene/page.h"
#include "support/room.h"

static const struct settings_row *row_of(enum settings_name name)
{
    size_t count;
    return &settings_rows(&count)[name];
}

static void every_chalk_can_be_remembered(void **state)
{
    (void)state;
    const char *const *words = row_of(SETTINGS_CHALK)->words;
    for (int i = 0; i < SCENE_CHALKS; i++)
        assert_string_equal(words[i + 1], scene_chalks[i].name);
    assert_null(words[SCENE_CHALKS + 1]);
}

static void every_side_can_be_remembered(void **state)
{
    (void)state;
    const enum settings_name names[] = { SETTINGS_SIDE, SETTINGS_STRIP };
    for (size_t n = 0; n < 2; n++) {
        for (int i = 0; i < SCENE_SIDES; i++)
            assert_string_equal(row_of(names[n])->words[i], scene_side_name((enum scene_side)i));
        assert_null(row_of(names[n])->words[SCENE_SIDES]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_chalk_can_be_remembered),
        cmocka_unit_test(every_side_can_be_remembered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
