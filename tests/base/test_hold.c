/* A folder held by one opening is not by another, of the same program or of another. */
#include "base/hold.h"

#include "support/room.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

static void a_folder_is_held_once(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "settings.json");
    int hold = base_hold_folder(path, 0);
    assert_true(hold >= 0);
    assert_int_equal(base_hold_folder(path, 10), -1);
    base_hold_end(hold);
    hold = base_hold_folder(path, 0);
    assert_true(hold >= 0);
    base_hold_end(hold);
}

static void no_folder_is_not_held(void **state)
{
    struct room *room = *state;
    assert_int_equal(base_hold_folder(room_path(room, "not there/settings.json"), 10), -1);
    base_hold_end(-1);
}

/* By this program or by another: a child that holds it is another. */
static void a_file_is_held_once_until_it_is_let_go(void **state)
{
    struct room *room = *state;
    const char *path = room_put(room, "ticket.json", "{}");
    struct base_file_hold one, two;
    assert_false(base_hold_is_taken(path));
    assert_true(base_hold_file(room->a, path, &one));
    assert_true(one.fd >= 0);
    assert_true(base_hold_is_taken(path));
    assert_false(base_hold_file(room->a, path, &two));
    assert_true(base_hold_file(room->a, room_path(room, "other.json"), &two));
    base_hold_end_file(&two);
    base_hold_end_file(&one);
    assert_false(base_hold_is_taken(path));
    assert_int_not_equal(access(one.beside, F_OK), 0);
    assert_true(base_hold_file(room->a, path, &two));
    base_hold_end_file(&two);
}

static void a_program_that_is_killed_lets_go(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "ticket.json");
    struct base_file_hold hold;
    int ready[2];
    char byte;
    assert_int_equal(pipe(ready), 0);
    pid_t child = fork();
    if (child == 0) {
        if (base_hold_file(room->a, path, &hold) && write(ready[1], "h", 1) == 1)
            pause();
        _exit(1);
    }
    assert_int_equal(read(ready[0], &byte, 1), 1);
    assert_true(base_hold_is_taken(path));
    assert_false(base_hold_file(room->a, path, &hold));
    kill(child, SIGKILL);
    assert_int_equal(waitpid(child, NULL, 0), child);
    assert_false(base_hold_is_taken(path));
    assert_true(base_hold_file(room->a, path, &hold));
    assert_true(hold.fd >= 0);
    base_hold_end_file(&hold);
    close(ready[0]);
    close(ready[1]);
}

/* Where no file can be made beside it, one goes on. */
static void what_cannot_be_held_is_nobodys(void **state)
{
    struct room *room = *state;
    const char *path = room_path(room, "not there/ticket.json");
    struct base_file_hold hold;
    assert_true(base_hold_file(room->a, path, &hold));
    assert_int_equal(hold.fd, -1);
    assert_false(base_hold_is_taken(path));
    base_hold_end_file(&hold);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_folder_is_held_once),
        room_test(no_folder_is_not_held),
        room_test(a_file_is_held_once_until_it_is_let_go),
        room_test(a_program_that_is_killed_lets_go),
        room_test(what_cannot_be_held_is_nobodys),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
