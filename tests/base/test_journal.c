#include "base/file.h"
#include "base/journal.h"
#include "geometry/random.h"
#include "support/cmocka_all.h"
#include "support/folder.h"

#include <limits.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define HEAD "chalklight journal 1\n"

struct here {
    struct arena *a;
    struct err_list *errs;
    char *folder;
    const char *path;
};

static int set_up(void **state)
{
    static struct here h;
    h.a = base_arena_create();
    h.errs = base_err_list_create();
    h.folder = support_folder_create();
    h.path = base_arena_print(h.a, "%s/job.journal", h.folder);
    *state = &h;
    return 0;
}

static int tear_down(void **state)
{
    struct here *h = *state;
    base_arena_destroy(h->a);
    base_err_list_destroy(h->errs);
    support_folder_remove(h->folder);
    return 0;
}

static struct base_journal *open_it(struct here *h, struct base_journal_lines *lines)
{
    struct base_journal *j = base_journal_open(h->a, h->path, lines, h->errs);
    assert_non_null(j);
    return j;
}

/* What the journal holds, read by opening it. */
static struct base_journal_lines lines_of(struct here *h)
{
    struct base_journal_lines lines;
    base_journal_close(open_it(h, &lines));
    return lines;
}

static void holds(struct here *h, const char *const *want, size_t count)
{
    struct base_journal_lines lines = lines_of(h);
    assert_int_equal(lines.count, count);
    for (size_t i = 0; i < count; i++)
        assert_string_equal(lines.items[i], want[i]);
}

static void put_file(struct here *h, const char *bytes, size_t count)
{
    assert_true(base_file_save(h->path, bytes, count, h->errs));
}

static const char *file_text(struct here *h)
{
    struct base_bytes text;
    assert_true(base_file_read(h->a, h->path, 100000, &text, h->errs));
    return text.data;
}

static void a_journal_that_is_closed_is_continued(void **state)
{
    struct here *h = *state;
    struct base_journal_lines lines;
    struct base_journal *j = open_it(h, &lines);
    assert_int_equal(lines.count, 0);
    assert_true(base_journal_append(j, "tick bib", h->errs));
    assert_true(base_journal_append(j, "", h->errs));
    assert_true(base_journal_sync(j, h->errs));
    base_journal_close(j);
    j = open_it(h, &lines);
    assert_int_equal(lines.count, 2);
    assert_true(base_journal_append(j, "place Träger 3.5", h->errs));
    assert_int_equal(base_journal_bytes(j), strlen(HEAD "tick bib\n\nplace Träger 3.5\n"));
    base_journal_close(j);
    static const char *const want[] = { "tick bib", "", "place Träger 3.5" };
    holds(h, want, 3);
    assert_int_equal(h->errs->count, 0);
}

static void a_line_is_in_the_file_before_append_returns(void **state)
{
    struct here *h = *state;
    struct base_journal_lines lines;
    struct base_journal *j = open_it(h, &lines);
    assert_true(base_journal_append(j, "one", h->errs));
    assert_string_equal(file_text(h), HEAD "one\n");
    base_journal_close(j);
}

static void a_torn_last_line_is_dropped_and_told(void **state)
{
    struct here *h = *state;
    static const char *const want[] = { "one", "two", "three" };
    static const char zeros[] = HEAD "one\ntw\0\0\0\n\0\0";
    put_file(h, HEAD "one\ntw", strlen(HEAD "one\ntw"));
    holds(h, want, 1);
    assert_int_equal(h->errs->count, 1);
    assert_int_equal(h->errs->items[0].kind->severity, ERR_WARNING);
    assert_string_equal(h->errs->items[0].kind->code, "journal.torn");
    assert_near(h->errs->items[0].args[0].number, 2, 0);
    assert_string_equal(file_text(h), HEAD "one\n");

    put_file(h, zeros, sizeof zeros - 1);
    struct base_journal_lines lines;
    struct base_journal *j = open_it(h, &lines);
    assert_int_equal(lines.count, 1);
    assert_int_equal(h->errs->count, 2);
    assert_true(base_journal_append(j, "two", h->errs));
    base_journal_close(j);
    holds(h, want, 2);
    assert_int_equal(h->errs->count, 2);
}

static void it_is_looked_at_whoever_holds_it(void **state)
{
    struct here *h = *state;
    struct base_journal_lines lines;
    assert_false(base_journal_look(h->a, h->path, &lines));
    struct base_journal *j = open_it(h, &lines);
    assert_true(base_journal_append(j, "one", h->errs));
    assert_true(base_journal_look(h->a, h->path, &lines));
    assert_int_equal(lines.count, 1);
    assert_string_equal(lines.items[0], "one");
    base_journal_close(j);
    put_file(h, HEAD "one\ntw", strlen(HEAD "one\ntw"));
    assert_true(base_journal_look(h->a, h->path, &lines));
    assert_int_equal(lines.count, 1);
    assert_string_equal(file_text(h), HEAD "one\ntw");
    put_file(h, "other\n", strlen("other\n"));
    assert_false(base_journal_look(h->a, h->path, &lines));
}

/* Killed while the first bytes were written. */
static void a_journal_that_was_hardly_begun_is_begun_again(void **state)
{
    struct here *h = *state;
    put_file(h, "chalkl", 6);
    holds(h, NULL, 0);
    assert_string_equal(file_text(h), HEAD);
    assert_int_equal(h->errs->count, 0);
}

static void what_is_no_journal_is_left_as_it_is(void **state)
{
    struct here *h = *state;
    static const char *const texts[] = { "{ \"chalklight\": \"job\" }", "chalklight journal 2\none\n", "\n",
                                         HEAD "\xff\n" };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        struct base_journal_lines lines;
        int before = h->errs->faults;
        put_file(h, texts[i], strlen(texts[i]));
        assert_null(base_journal_open(h->a, h->path, &lines, h->errs));
        assert_int_equal(lines.count, 0);
        assert_int_equal(h->errs->faults, before + 1);
        assert_string_equal(file_text(h), texts[i]);
    }
    assert_true(base_err_list_has(h->errs, "journal.not_a_journal"));
}

static void devices_folders_and_places_that_are_not_there_are_told(void **state)
{
    struct here *h = *state;
    struct base_journal_lines lines;
    assert_null(base_journal_open(h->a, "/dev/full", &lines, h->errs));
    assert_null(base_journal_open(h->a, h->folder, &lines, h->errs));
    assert_null(base_journal_open(h->a, base_arena_print(h->a, "%s/no/such", h->folder), &lines, h->errs));
    assert_int_equal(h->errs->faults, 3);
    assert_true(base_err_list_has(h->errs, "journal.cannot_open"));
}

static void a_second_program_is_told_so_and_let_in_once_the_first_has_gone(void **state)
{
    struct here *h = *state;
    struct base_journal_lines lines;
    struct base_journal *j = open_it(h, &lines);
    assert_null(base_journal_open(h->a, h->path, &lines, h->errs));
    assert_int_equal(h->errs->faults, 1);
    assert_true(base_err_list_has(h->errs, "journal.held"));
    static const char *const snapshot[] = { "state" };
    assert_true(base_journal_restart(j, (struct base_journal_lines){ snapshot, 1 }, h->errs));
    assert_null(base_journal_open(h->a, h->path, &lines, h->errs)); /* the new file is held as well */
    assert_int_equal(h->errs->faults, 2);
    base_journal_close(j);
    holds(h, snapshot, 1);
}

static void a_restart_puts_a_snapshot_in_place_of_all_lines(void **state)
{
    struct here *h = *state;
    struct base_journal_lines lines;
    struct base_journal *j = open_it(h, &lines);
    static const char *const snapshot[] = { "state a", "state b" };
    static const char *const want[] = { "state a", "state b", "next" };
    for (int i = 0; i < 100; i++)
        assert_true(base_journal_append(j, "old", h->errs));
    assert_int_equal(chmod(h->path, 0640), 0);
    assert_true(base_journal_restart(j, (struct base_journal_lines){ snapshot, 2 }, h->errs));
    assert_true(base_journal_append(j, "next", h->errs));
    base_journal_close(j);
    holds(h, want, 3);
    struct stat st;
    assert_int_equal(stat(h->path, &st), 0);
    assert_int_equal(st.st_mode & 0777, 0640);
    assert_int_equal(support_folder_count(h->folder), 1);
}

/* A limit on the size of files is a disk that is full: the bytes that fit are written, then none. */
static void limit_files(rlim_t bytes)
{
    struct rlimit limit;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    limit.rlim_cur = bytes == RLIM_INFINITY ? limit.rlim_max : bytes;
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
}

static void a_full_disk_is_told_and_loses_nothing(void **state)
{
    struct here *h = *state;
    struct base_journal_lines lines;
    struct base_journal *j = open_it(h, &lines);
    static const char *const want[] = { "one", "two" };
    static const char *const snapshot[] = { "a snapshot of more than eight bytes" };
    struct sigaction ignore = { .sa_handler = SIG_IGN }, before;
    sigaction(SIGXFSZ, &ignore, &before);
    assert_true(base_journal_append(j, "one", h->errs));
    limit_files(strlen(HEAD) + 8);
    bool appended = base_journal_append(j, "a line too long", h->errs);
    bool restarted = base_journal_restart(j, (struct base_journal_lines){ snapshot, 1 }, h->errs);
    bool short_one = base_journal_append(j, "two", h->errs); /* that fits */
    limit_files(RLIM_INFINITY);
    sigaction(SIGXFSZ, &before, NULL);
    assert_false(appended);
    assert_false(restarted);
    assert_true(short_one);
    assert_int_equal(h->errs->faults, 2);
    assert_true(base_err_list_has(h->errs, "journal.cannot_write"));
    assert_true(base_err_list_has(h->errs, "journal.cannot_restart"));
    base_journal_close(j);
    holds(h, want, 2);
    assert_int_equal(h->errs->count, 2);
    assert_int_equal(support_folder_count(h->folder), 1);
}

static void a_journal_past_its_bound_is_told_and_can_be_restarted(void **state)
{
    struct here *h = *state;
    struct base_journal_lines lines;
    struct base_journal *j = open_it(h, &lines);
    enum { LONG = 1024 * 1024 };
    char *line = base_arena_alloc(h->a, LONG + 1, 1);
    memset(line, 'x', LONG);
    for (int i = 0; i < 15; i++)
        assert_true(base_journal_append(j, line, h->errs));
    assert_false(base_journal_append(j, line, h->errs));
    assert_true(base_err_list_has(h->errs, "journal.too_large"));
    static const char *const want[] = { "short", "again" };
    assert_true(base_journal_restart(j, (struct base_journal_lines){ want, 1 }, h->errs));
    assert_true(base_journal_append(j, "again", h->errs));
    base_journal_close(j);
    holds(h, want, 2);
}

/* ---- killed at any moment ---- */

enum { KILLS = 200, RESTART_EVERY = 10, MOST_ACKS = 25, MOST_TURNS = 200000 };

/* The text of a line by its number, of many lengths. */
static const char *numbered(struct arena *a, long number)
{
    int length = (int)(number * 37 % 301);
    char *dots = base_arena_alloc(a, (size_t)length + 1, 1);
    memset(dots, '.', (size_t)length);
    return base_arena_print(a, "%ld %s", number, dots);
}

/* The journal tells numbers without a gap: from 0, or after a snapshot "from N" from N. Returns the next number. */
static long next_number(struct arena *a, struct base_journal_lines lines)
{
    long next = 0;
    size_t first = lines.count && sscanf(lines.items[0], "from %ld", &next) == 1 ? 1 : 0;
    for (size_t i = first; i < lines.count; i++)
        assert_string_equal(lines.items[i], numbered(a, next++));
    return next;
}

/* Goes on with the numbers until killed; each line that the journal has taken is acknowledged through the pipe. Leaves
 * only on a fault. */
static void write_numbers(struct here *h, int acks)
{
    struct base_journal_lines lines;
    struct base_journal *j = base_journal_open(h->a, h->path, &lines, h->errs);
    if (!j)
        _exit(1);
    for (long next = next_number(h->a, lines);; next++) {
        const char *snapshot = base_arena_print(h->a, "from %ld", next);
        if (next % RESTART_EVERY == 0 && !base_journal_restart(j, (struct base_journal_lines){ &snapshot, 1 }, h->errs))
            _exit(2);
        if (!base_journal_append(j, numbered(h->a, next), h->errs) || write(acks, "+", 1) != 1)
            _exit(3);
    }
}

static long read_acks(int acks, long most)
{
    char got;
    long count = 0;
    while (count < most && read(acks, &got, 1) == 1)
        count++;
    return count;
}

/* Lets a writer run for a random while and kills it; returns how many lines it had acknowledged. */
static long run_and_kill(struct here *h, uint64_t *seed)
{
    int ends[2], status;
    long wanted = (long)random_between(seed, 0, MOST_ACKS), turns = (long)random_between(seed, 0, MOST_TURNS);
    assert_int_equal(pipe(ends), 0);
    pid_t writer = fork();
    assert_true(writer >= 0);
    if (writer == 0) {
        close(ends[0]);
        write_numbers(h, ends[1]);
    }
    close(ends[1]);
    long acks = read_acks(ends[0], wanted);
    for (volatile long turn = 0; turn < turns; turn++)
        ;
    assert_int_equal(kill(writer, SIGKILL), 0);
    assert_int_equal(waitpid(writer, &status, 0), writer);
    assert_true(WIFSIGNALED(status));
    acks += read_acks(ends[0], LONG_MAX);
    close(ends[0]);
    return acks;
}

static void killed_at_any_moment_no_acknowledged_line_is_lost(void **state)
{
    struct here *h = *state;
    uint64_t seed = 20250117;
    long next = 0, lines_seen = 0;
    for (int i = 0; i < KILLS; i++) {
        long acks = run_and_kill(h, &seed);
        long now = next_number(h->a, lines_of(h));
        if (now < next + acks || now > next + acks + 1) /* the last may be there without its word through the pipe */
            fail_msg("kill %d: %ld lines and %ld acknowledged, but %ld are there", i, next, acks, now);
        next = now;
        lines_seen += acks;
    }
    assert_true(lines_seen > KILLS);
    assert_int_equal(h->errs->faults, 0);
    assert_int_equal(support_folder_count(h->folder), 1); /* nothing is left of restarts that were killed */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(a_journal_that_is_closed_is_continued, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_line_is_in_the_file_before_append_returns, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_torn_last_line_is_dropped_and_told, set_up, tear_down),
        cmocka_unit_test_setup_teardown(it_is_looked_at_whoever_holds_it, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_journal_that_was_hardly_begun_is_begun_again, set_up, tear_down),
        cmocka_unit_test_setup_teardown(what_is_no_journal_is_left_as_it_is, set_up, tear_down),
        cmocka_unit_test_setup_teardown(devices_folders_and_places_that_are_not_there_are_told, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_second_program_is_told_so_and_let_in_once_the_first_has_gone, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(a_restart_puts_a_snapshot_in_place_of_all_lines, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_full_disk_is_told_and_loses_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_journal_past_its_bound_is_told_and_can_be_restarted, set_up, tear_down),
        cmocka_unit_test_setup_teardown(killed_at_any_moment_no_acknowledged_line_is_lost, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
