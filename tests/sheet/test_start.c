/* Starting the reader and what may come of it. The hostile reader (hostile.c) tries to get out of its jail in each way;
 * each time there is one complaint, of the kind that belongs to it, and this program lives on. */
#include "base/buffer.h"
#include "sheet/start.h"
#include "support/room.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

struct attempt {
    const char *word, *code;
    int deadline_ms; /* 0: the usual one */
};

static const struct attempt attempts[] = {
    { "open", "sheet.damaged", 0 },
    { "open-old-way", "sheet.jailed", 0 },
    { "socket", "sheet.jailed", 0 },
    { "exec", "sheet.jailed", 0 },
    { "fork", "sheet.jailed", 0 },
    { "map-code", "sheet.jailed", 0 },
    { "make-code", "sheet.jailed", 0 },
    { "map-result", "sheet.jailed", 0 },
    { "kill", "sheet.jailed", 0 },
    { "limits", "sheet.jailed", 0 },
    { "sleep", "sheet.jailed", 0 },
    { "memory", "sheet.too_large", 0 },
    { "much", "sheet.too_large", 0 },
    { "nonsense", "sheet.corrupt", 0 },
    { "spoiled", "sheet.corrupt", 0 },
    { "longer", "sheet.corrupt", 0 },
    { "nothing", "sheet.corrupt", 0 },
    { "silence", "sheet.too_long", 300 },
    { "round", "sheet.too_long", 300 },
    { "talk", "sheet.too_long", 300 },
    { "crash", "sheet.failed", 0 },
    { "abort", "sheet.failed", 0 },
    { "locked", "sheet.password_needed", 0 },
    { "wrong", "sheet.password_wrong", 0 },
    { "password", "sheet.password_wrong", 0 },
};

static int open_descriptors(void)
{
    int count = 0;
    for (int fd = 0; fd < 256; fd++)
        count += fcntl(fd, F_GETFD) >= 0;
    return count;
}

static void no_attempt_gets_out(void **state)
{
    struct room *room = *state;
    int before = open_descriptors();
    int stray = open("/dev/null", O_RDONLY); /* not closed on exec: must not be handed on all the same */
    for (size_t i = 0; i < sizeof attempts / sizeof attempts[0]; i++) {
        const char *path = room_put(room, attempts[i].word, attempts[i].word);
        struct sheet_how how = { .reader = HOSTILE, .deadline_ms = attempts[i].deadline_ms };
        print_message("%s\n", attempts[i].word);
        assert_null(sheet_read(room->a, path, &how, room->errs));
        assert_string_equal(room_only_told(room, attempts[i].code)->place.file, path);
        room_forget(room);
        assert_int_equal(waitpid(-1, NULL, WNOHANG), -1); /* nobody is left behind */
        assert_int_equal(errno, ECHILD);
    }
    close(stray);
    assert_int_equal(open_descriptors(), before);
}

static void one_that_behaves_is_heard(void **state)
{
    struct room *room = *state;
    struct sheet_how how = { .reader = HOSTILE, .password = "größe 10", .dpi = 300 };
    static const char *const words[] = { "behave", "password" };
    for (size_t i = 0; i < 2; i++) {
        const struct sheet *s = sheet_read(room->a, room_put(room, words[i], words[i]), &how, room->errs);
        room_nothing_told(room);
        assert_non_null(s);
        assert_int_equal(s->counts[SHEET_PAGES], 2);
        assert_int_equal(s->counts[SHEET_ITEMS], 4);
        sheet_close(s);
    }
    sheet_close(NULL);
}

static bool give_up_at_third(void *with, unsigned percent)
{
    int *calls = with;
    return percent <= 100 && ++*calls < 3;
}

static void a_person_may_give_up(void **state)
{
    struct room *room = *state;
    static const char *const words[] = { "silence", "talk" };
    for (size_t i = 0; i < 2; i++) {
        int calls = 0;
        struct sheet_how how = { .reader = HOSTILE, .go_on = give_up_at_third, .with = &calls };
        assert_null(sheet_read(room->a, room_put(room, words[i], words[i]), &how, room->errs));
        assert_int_equal(calls, 3);
        room_nothing_told(room);
    }
}

static void what_is_not_there_is_told(void **state)
{
    struct room *room = *state;
    struct sheet_how how = { .reader = "/nowhere/chalklight-sheet" };
    assert_null(sheet_read(room->a, room_put(room, "a.svg", "<svg/>"), &how, room->errs));
    const struct err *told = room_only_told(room, "sheet.no_reader");
    assert_string_equal(told->args[0].text, "/nowhere/chalklight-sheet");
    room_forget(room);
    assert_null(sheet_read(room->a, "/nowhere/a.svg", NULL, room->errs));
    room_only_told(room, "file.cannot_open");
    room_forget(room);
    assert_null(sheet_read(room->a, "/dev/null", NULL, room->errs));
    room_only_told(room, "file.not_regular");
    room_forget(room);
    char *password = base_arena_alloc(room->a, SHEET_PASSWORD_MOST + 2, 1);
    memset(password, 'x', SHEET_PASSWORD_MOST + 1);
    how = (struct sheet_how){ .password = password };
    assert_null(sheet_read(room->a, room_path(room, "a.svg"), &how, room->errs));
    room_only_told(room, "sheet.password_long");
    room_forget(room);
    static const double wild[] = { -300, 9, 10001, INFINITY, NAN };
    for (size_t i = 0; i < sizeof wild / sizeof wild[0]; i++) {
        how = (struct sheet_how){ .dpi = wild[i] };
        assert_null(sheet_read(room->a, room_path(room, "a.svg"), &how, room->errs));
        room_only_told(room, "sheet.dpi_range");
        room_forget(room);
    }
}

/* The real reader, found as a person's build tree has it. */
static void what_is_no_sheet_is_told(void **state)
{
    struct room *room = *state;
    static const char *const texts[] = { "", "hello", "GIF89a", "%!PS", "<html></html>", "{}" };
    assert_int_equal(setenv("CHALKLIGHT_SHEET", READER, 1), 0);
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        assert_null(sheet_read(room->a, room_put(room, "no-sheet", texts[i]), NULL, room->errs));
        room_only_told(room, "sheet.not_a_sheet");
        room_forget(room);
    }
    unsetenv("CHALKLIGHT_SHEET");
}

static bool count_calls(void *with, unsigned percent)
{
    int *calls = with;
    ++*calls;
    return percent <= 100;
}

/* All walls that this system can put up: only an old kernel has no Landlock (its number 444 since Linux 5.13). */
static void the_whole_jail_stood(const struct sheet *s)
{
    if (syscall(444, NULL, 0, 1) >= 1) {
        assert_int_equal(s->counts[SHEET_NOTES], 0);
        return;
    }
    assert_int_equal(s->counts[SHEET_NOTES], 1);
    assert_int_equal(s->notes[0].code, SHEET_NOTE_NO_JAIL);
    assert_int_equal(s->notes[0].a, 2);
}

/* Through the jail: 1000 lines of 1 mm, 1 mm apart, of which the last is at 999 mm. */
static void a_drawing_is_read(void **state)
{
    struct room *room = *state;
    struct base_buffer svg = { .a = room->a };
    base_buffer_print(&svg, "<svg xmlns='http://www.w3.org/2000/svg' width='1000mm' height='1000mm' "
                            "viewBox='0 0 1000 1000'><g id='ten'><title>Größe 10</title>");
    for (int i = 0; i < 1000; i++)
        base_buffer_print(&svg, "<path fill='none' stroke='red' d='M%d,7h1'/>", i);
    base_buffer_print(&svg, "</g></svg>");
    int calls = 0;
    struct sheet_how how = { .reader = READER, .go_on = count_calls, .with = &calls };
    const char *path = room_put(room, "a.svg", base_buffer_text(&svg));
    const struct sheet *s = sheet_read(room->a, path, &how, room->errs);
    room_nothing_told(room);
    assert_non_null(s);
    assert_true(calls > 0);
    assert_int_equal(s->counts[SHEET_ITEMS], 1000);
    assert_string_equal(sheet_text_at(s, s->layers[0].name_text), "Größe 10");
    assert_near(s->points[s->parts[999].first_point].x, 999, 1e-9);
    assert_near(s->points[s->parts[999].first_point].y, 993, 1e-9);
    assert_int_equal(s->counts[SHEET_STYLES], 1);
    the_whole_jail_stood(s);
    sheet_close(s);
}

/* A block of 60 by 40 dots on 120 by 60, at 150 dots to the inch, and one that is asked to have 300. */
static void a_picture_is_followed(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *path;
        double dpi, width_mm;
    } rows[] = { { PICTURES "/block.png", 0, 20.32 },
                 { PICTURES "/jfif.jpg", 0, 12 },
                 { PICTURES "/unsized.png", 300, 10.16 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct sheet_how how = { .reader = READER, .dpi = rows[i].dpi };
        const struct sheet *s = sheet_read(room->a, rows[i].path, &how, room->errs);
        room_nothing_told(room);
        assert_non_null(s);
        assert_near(s->pages[0].width_mm, rows[i].width_mm, 0.01);
        assert_int_equal(s->counts[SHEET_ITEMS], 2); /* where the picture lies, and the block */
        assert_int_equal(s->styles[s->items[1].style].flags, SHEET_FILLED | SHEET_TRACED);
        sheet_close(s);
    }
    struct sheet_how how = { .reader = READER };
    assert_null(sheet_read(room->a, PICTURES "/unsized.png", &how, room->errs));
    room_only_told(room, "sheet.dpi_needed");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(no_attempt_gets_out),       room_test(one_that_behaves_is_heard), room_test(a_person_may_give_up),
        room_test(what_is_not_there_is_told), room_test(what_is_no_sheet_is_told),  room_test(a_drawing_is_read),
        room_test(a_picture_is_followed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
