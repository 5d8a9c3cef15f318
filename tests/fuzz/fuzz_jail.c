/* Any bytes as a drawn sheet, read as the program does it: by the reader in its jail, without sanitizers. Whatever the
 * file makes of the parsers, the reader never asks for what the jail forbids, is gone by its deadline, and this program
 * goes on. That a parser dies of a file is not a fault here: it is what the jail is for; how often is told. */
#include "base/arena.h"
#include "fuzz/fuzz.h"
#include "sheet/start.h"

#include <errno.h>
#include <stdbool.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { LATE_MS = 5000, OUTCOMES_MOST = 32 };

struct outcome {
    const char *code; /* of the complaint; "read" when there is none */
    unsigned long count;
};

static struct outcome outcomes[OUTCOMES_MOST];
static unsigned long slowest_ms;

static void print_outcomes(void)
{
    for (size_t i = 0; i < OUTCOMES_MOST && outcomes[i].code; i++)
        printf("%lu %s\n", outcomes[i].count, outcomes[i].code);
    printf("the slowest took %lu ms\n", slowest_ms);
}

static void count_outcome(const char *code)
{
    size_t i = 0;
    if (!outcomes[0].code)
        atexit(print_outcomes);
    while (i + 1 < OUTCOMES_MOST && outcomes[i].code && strcmp(outcomes[i].code, code) != 0)
        i++;
    outcomes[i].code = code;
    outcomes[i].count++;
}

static unsigned long now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (unsigned long)t.tv_sec * 1000 + (unsigned long)t.tv_nsec / 1000000;
}

static void read_sheet(const char *path)
{
    static const struct sheet_how how = { .reader = READER };
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    unsigned long start = now_ms();
    const struct sheet *s = sheet_read(a, path, &how, errs);
    unsigned long took = now_ms() - start;
    slowest_ms = took > slowest_ms ? took : slowest_ms;
    fuzz_must(took < SHEET_DEADLINE_MS + LATE_MS);
    fuzz_must(errs->count == (s ? 0 : 1));
    const char *code = s ? "read" : errs->items[0].kind->code;
    fuzz_must(strcmp(code, "sheet.jailed") != 0 && strcmp(code, "sheet.corrupt") != 0);
    fuzz_must(strcmp(code, "sheet.no_reader") != 0);
    fuzz_must(waitpid(-1, NULL, WNOHANG) == -1 && errno == ECHILD); /* nobody is left behind */
    count_outcome(code);
    sheet_close(s);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char path[] = "/tmp/chalklight-jail-XXXXXX";
    int fd = mkstemp(path);
    fuzz_must(fd >= 0 && write(fd, data, size) == (ssize_t)size);
    close(fd);
    read_sheet(path);
    unlink(path);
    return 0;
}
