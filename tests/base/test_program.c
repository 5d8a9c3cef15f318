#include "base/program.h"
#include "support/room.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Against realpath, which asks the system another way. */
static void what_came_with_the_program_is_found_from_its_folder(void **state)
{
    struct arena *a = *state;
    char *program = realpath("/proc/self/exe", NULL);
    assert_non_null(program);
    *strrchr(program, '/') = '\0';
    assert_string_equal(base_program_path(a, "../share/chalklight"),
                        base_arena_print(a, "%s/../share/chalklight", program));
    free(program);
}

static void the_folder_that_it_was_started_in_makes_no_difference(void **state)
{
    struct arena *a = *state;
    const char *before = base_program_path(a, "x");
    assert_int_equal(chdir("/"), 0);
    assert_string_equal(base_program_path(a, "x"), before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(what_came_with_the_program_is_found_from_its_folder),
        room_arena_test(the_folder_that_it_was_started_in_makes_no_difference),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
