/* Any bytes as a journal's file: taken or left alone. What is taken is all but a torn end, stays so when it is opened
 * again, and can be gone on with. */
#include "base/file.h"
#include "base/journal.h"
#include "fuzz/fuzz.h"

#include <fcntl.h>
#include <string.h>
#include <unistd.h>

enum { MOST_BYTES = 1024 * 1024 };

/* In the file's own words, so that a changed head is noticed. */
static const char head[] = "chalklight journal 1\n";
enum { HEAD_BYTES = sizeof head - 1 };

static char path[] = "/tmp/fuzz_journal.XXXXXX";

static void remove_file(void)
{
    unlink(path);
}

/* One file for all inputs, rewritten by each. */
static int file(void)
{
    static int fd = -1;
    if (fd < 0) {
        fd = mkstemp(path);
        fuzz_must(fd >= 0);
        atexit(remove_file);
    }
    return fd;
}

static void put(const uint8_t *data, size_t size)
{
    fuzz_must(ftruncate(file(), 0) == 0);
    fuzz_must(pwrite(file(), data, size, 0) == (ssize_t)size);
}

static struct base_bytes bytes_now(struct arena *a, struct err_list *errs)
{
    struct base_bytes now;
    fuzz_must(base_file_read(a, path, MOST_BYTES, &now, errs));
    return now;
}

/* The head, then just these lines. */
static void check_holds(struct base_bytes now, struct base_journal_lines lines)
{
    const char *at = now.data + HEAD_BYTES;
    fuzz_must(now.count >= HEAD_BYTES && memcmp(now.data, head, HEAD_BYTES) == 0);
    for (size_t i = 0; i < lines.count; i++) {
        size_t length = strlen(lines.items[i]);
        fuzz_must(strncmp(at, lines.items[i], length) == 0 && at[length] == '\n');
        at += length + 1;
    }
    fuzz_must(at == now.data + now.count);
}

/* What stays is what was given, up to its last line end before a zero byte; of a head cut short, all of it. */
static void check_lost_no_line(struct base_bytes now, const uint8_t *data, size_t size)
{
    if (size < HEAD_BYTES) {
        fuzz_must(now.count == HEAD_BYTES && memcmp(data, head, size) == 0);
        return;
    }
    fuzz_must(now.count <= size && memcmp(now.data, data, now.count) == 0);
    const uint8_t *rest = data + now.count, *zero = memchr(rest, 0, size - now.count);
    fuzz_must(!memchr(rest, '\n', zero ? (size_t)(zero - rest) : size - now.count));
}

/* Opened again it holds the same without a word, and one line more after one was added. */
static void check_goes_on(struct arena *a, struct base_journal_lines lines, struct err_list *errs)
{
    for (size_t more = 0; more < 2; more++) {
        struct base_journal_lines again;
        int said = errs->count;
        struct base_journal *j = base_journal_open(a, path, &again, errs);
        fuzz_must(j && errs->count == said && again.count == lines.count + more);
        for (size_t i = 0; i < lines.count; i++)
            fuzz_must(strcmp(again.items[i], lines.items[i]) == 0);
        fuzz_must(!more || strcmp(again.items[lines.count], "one more") == 0);
        fuzz_must(base_journal_append(j, "one more", errs));
        base_journal_close(j);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct base_journal_lines lines;
    put(data, size);
    struct base_journal *j = base_journal_open(a, path, &lines, errs);
    base_journal_close(j);
    struct base_bytes now = bytes_now(a, errs);
    fuzz_must((j != NULL) == (errs->faults == 0));
    if (!j) {
        fuzz_must(now.count == size && (size == 0 || memcmp(now.data, data, size) == 0));
    } else {
        check_holds(now, lines);
        check_lost_no_line(now, data, size);
        check_goes_on(a, lines, errs);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
