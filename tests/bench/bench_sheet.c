/* How fast a drawn sheet is read, against programs that draw it the same files, those of
 * tests/lifting/pattern_sheets.py.
 *
 * Ours is a reading as the program does it (sheet/start.h): the reader's processor time and this program's own until
 * the validated result. Theirs is the processor time of `mutool draw -r 58`, `pdftocairo -svg` and `pdftoppm -r 58`,
 * whose output goes nowhere. Ours and one of theirs take turns; the figure is the median of theirs over ours.
 *
 * sheet.vs_mutool_a0, sheet.vs_pdftocairo_a0, sheet.vs_pdftoppm_a0: A0, twelve size layers of forty pieces.
 * sheet.vs_..._200k: the same with its curves in 200,000 short lines. NAME_low, NAME_high: the least and the largest.
 * sheet.read_ms_a0, sheet.read_ms_200k: the median of ours. sheet.helper_mib: the most memory that the reader had at
 * once for the A0. sheet.lift_ms_a0: the median processor time of `chalklight sheet a0.pdf --out`, reader and all. Then
 * what tests/lifting/lift_check.py --figures tells of how truly all its sheets are lifted.
 *
 *     bench_sheet PROGRAM      PROGRAM: the built chalklight */
#include "base/arena.h"
#include "bench/figure.h"
#include "sheet/start.h"

#include <fcntl.h>
#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { ROUNDS = 15, NAME = 64 };

static double seconds_of(const struct rusage *u)
{
    return (double)(u->ru_utime.tv_sec + u->ru_stime.tv_sec) +
           1e-6 * (double)(u->ru_utime.tv_usec + u->ru_stime.tv_usec);
}

/* Of this program and all children that were waited for. */
static double cpu_seconds(void)
{
    struct timespec own;
    struct rusage children;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &own);
    getrusage(RUSAGE_CHILDREN, &children);
    return (double)own.tv_sec + 1e-9 * (double)own.tv_nsec + seconds_of(&children);
}

/* Runs a program to its end with its output going nowhere; its processor time, or below zero when it failed. */
static double run(char *const arguments[])
{
    struct rusage used;
    int status = 0;
    pid_t pid;
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", O_WRONLY, 0);
    int fault = posix_spawnp(&pid, arguments[0], &actions, NULL, arguments, environ);
    posix_spawn_file_actions_destroy(&actions);
    if (fault || wait4(pid, &status, 0, &used) != pid || !WIFEXITED(status) || WEXITSTATUS(status) != 0)
        return -1;
    return seconds_of(&used);
}

static double read_once(const char *path)
{
    static const struct sheet_how how = { .reader = READER };
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    double start = cpu_seconds();
    const struct sheet *s = sheet_read(a, path, &how, errs);
    double took = s ? cpu_seconds() - start : -1;
    sheet_close(s);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return took;
}

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static void print_spread(const char *program, const char *file, double ratios[ROUNDS])
{
    static const struct {
        const char *end;
        size_t place;
    } rows[] = { { "", ROUNDS / 2 }, { "_low", 0 }, { "_high", ROUNDS - 1 } };
    char name[NAME];
    qsort(ratios, ROUNDS, sizeof ratios[0], by_size);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        snprintf(name, sizeof name, "sheet.vs_%s_%s%s", program, file, rows[i].end);
        figure(name, ratios[rows[i].place], "times");
    }
}

/* One of the others: its call, whose word at `place` is to be the file. */
struct other {
    const char *program;
    const char *words[6];
    size_t place;
};

static const struct other others[] = {
    { "mutool", { "mutool", "draw", "-r", "58", "FILE" }, 4 },
    { "pdftocairo", { "pdftocairo", "-svg", "FILE", "-" }, 2 },
    { "pdftoppm", { "pdftoppm", "-r", "58", "FILE" }, 3 },
};
enum { OTHERS = sizeof others / sizeof others[0] };

/* ours: the times of our readings. False when one of the two failed. */
static bool compare(const struct other *other, const char *path, const char *file, double ours[ROUNDS])
{
    char *call[sizeof other->words / sizeof other->words[0]];
    double ratios[ROUNDS];
    memcpy(call, other->words, sizeof call); /* posix_spawn does not write to them */
    call[other->place] = (char *)path;
    for (int i = 0; i < ROUNDS; i++) {
        ours[i] = read_once(path);
        double theirs = run(call);
        if (ours[i] <= 0 || theirs <= 0)
            return false;
        ratios[i] = theirs / ours[i];
    }
    print_spread(other->program, file, ratios);
    return true;
}

static bool compare_all(const char *path, const char *file)
{
    double ours[OTHERS * ROUNDS];
    char name[NAME];
    for (size_t i = 0; i < OTHERS; i++)
        if (!compare(&others[i], path, file, ours + i * ROUNDS))
            return false;
    qsort(ours, OTHERS * ROUNDS, sizeof ours[0], by_size);
    snprintf(name, sizeof name, "sheet.read_ms_%s", file);
    figure(name, 1e3 * ours[OTHERS * ROUNDS / 2], "ms");
    return true;
}

/* Before any other child has run: the system tells the most that any of them had. */
static bool memory_figure(const char *path)
{
    struct rusage used;
    if (read_once(path) <= 0)
        return false;
    getrusage(RUSAGE_CHILDREN, &used);
    figure("sheet.helper_mib", (double)used.ru_maxrss / 1024, "MiB");
    return true;
}

/* The whole program on the A0. */
static bool lift_figure(const char *program, const char *path)
{
    const char *const words[] = { program,     "sheet",   path,          "--out", SHEETS "/lifted.json",
                                  "--outline", "cutting", "--allowance", "0",     NULL };
    char *call[sizeof words / sizeof words[0]];
    double seconds[ROUNDS];
    memcpy(call, words, sizeof call);
    for (int i = 0; i < ROUNDS; i++) {
        unlink(SHEETS "/lifted.json");
        seconds[i] = run(call);
        if (seconds[i] <= 0)
            return false;
    }
    qsort(seconds, ROUNDS, sizeof seconds[0], by_size);
    figure("sheet.lift_ms_a0", 1e3 * seconds[ROUNDS / 2], "ms");
    return true;
}

/* The rest is told by the script, in this program's place. */
static void truth_figures(const char *program)
{
    fflush(stdout);
    execl(PYTHON, PYTHON, LIFT_CHECK, program, READER, "--figures", (char *)NULL);
}

int main(int count, char **arguments)
{
    const char a0[] = SHEETS "/a0.pdf", fine[] = SHEETS "/a0_200k.pdf";
    const char *program = count > 1 ? arguments[1] : "chalklight";
    setenv("CHALKLIGHT_SHEET", READER, 1);
    bool ok = memory_figure(a0) && compare_all(a0, "a0") && compare_all(fine, "200k") && lift_figure(program, a0);
    if (ok)
        truth_figures(program);
    fprintf(stderr, "a sheet was not read or lifted, or another program failed\n");
    return 1;
}
