#include "sheet/start.h"

#include "base/file.h"
#include "base/program.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { TICK_MS = 50, TICK_WITHOUT_PIDFD_MS = 2 };

static const struct err_kind no_reader = { "sheet.no_reader", ERR_FAULT,
                                           BASE_TR(
                                               "cannot be read: the program that reads drawings, “{0}”, does not start "
                                               "({1}); install Chalklight again") };
static const struct err_kind no_means = { "sheet.no_means", ERR_FAULT,
                                          BASE_TR("cannot be read: {0}; close other programs and try again") };
static const struct err_kind not_a_sheet = { "sheet.not_a_sheet", ERR_FAULT,
                                             BASE_TR("is neither a PDF, an SVG, a PNG nor a JPEG; save the drawing "
                                                     "as one of these") };
static const struct err_kind password_needed = { "sheet.password_needed", ERR_FAULT,
                                                 BASE_TR("is locked with a password; give it with --password-stdin") };
static const struct err_kind password_wrong = { "sheet.password_wrong", ERR_FAULT,
                                                BASE_TR(
                                                    "is locked with another password; type it again, capitals as they "
                                                    "were given") };
static const struct err_kind password_long = {
    "sheet.password_long", ERR_FAULT, BASE_TR("has no password longer than {0} bytes; give the one it came with")
};
static const struct err_kind dpi_needed = {
    "sheet.dpi_needed", ERR_FAULT,
    BASE_TR("is a picture that does not say how large it is; give the dots per inch "
            "that it was scanned with (--dpi)")
};
static const struct err_kind dpi_range = { "sheet.dpi_range", ERR_FAULT,
                                           BASE_TR("cannot have {0} dots per inch; give from {1} to {2}") };
static const struct err_kind too_long = { "sheet.too_long", ERR_FAULT,
                                          BASE_TR(
                                              "takes too long to read; save it with fewer things in it, or as several "
                                              "files") };
static const struct err_kind too_large = {
    "sheet.too_large", ERR_FAULT,
    BASE_TR("holds more than can be read at once; save it with fewer things in it, or "
            "as several files")
};
static const struct err_kind damaged = {
    "sheet.damaged", ERR_FAULT, BASE_TR("is damaged and cannot be read; fetch it again from where it came from")
};
static const struct err_kind jailed = { "sheet.jailed", ERR_FAULT,
                                        BASE_TR(
                                            "was not read: its reader tried what no drawing needs and was stopped; the "
                                            "file may be meant to do harm, so do not open it elsewhere") };
static const struct err_kind failed = {
    "sheet.failed", ERR_FAULT,
    BASE_TR("cannot be read: its reader failed on it ({0} {1}); fetch the file again, or "
            "save it anew from a drawing program")
};
static const struct err_kind corrupt = { "sheet.corrupt", ERR_FAULT,
                                         BASE_TR(
                                             "cannot be read: what its reader made of it is not sound ({0}); fetch the "
                                             "file again, or install Chalklight again") };

/* ------------------------------------------------------------------------------------------------- what is held open
 */

/* All descriptors of one reading; -1: none. */
struct reading {
    int file, result;
    int progress[2], orders[2]; /* to read from, to write to */
    int pidfd;
    pid_t pid;
};

static const struct reading nothing_open = { -1, -1, { -1, -1 }, { -1, -1 }, -1, -1 };

static void shut(int *fd)
{
    if (*fd >= 0)
        close(*fd);
    *fd = -1;
}

static void shut_all(struct reading *r)
{
    int *all[] = { &r->file, &r->result, &r->progress[0], &r->progress[1], &r->orders[0], &r->orders[1], &r->pidfd };
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        shut(all[i]);
}

/* The same opening under a number beyond those that the reader has its own at, so that none is overwritten. */
static bool lift(int *fd)
{
    int high = fcntl(*fd, F_DUPFD_CLOEXEC, SHEET_FD_AFTER);
    shut(fd);
    *fd = high;
    return high >= 0;
}

/* Memory as a file, as long as a result may be at most: it can shrink but not grow, whoever writes. */
static int open_result(void)
{
#ifdef MFD_ALLOW_SEALING
    int fd = memfd_create("chalklight sheet", MFD_CLOEXEC | MFD_ALLOW_SEALING);
    if (fd >= 0 && ftruncate(fd, (off_t)SHEET_RESULT_MOST) == 0 && fcntl(fd, F_ADD_SEALS, F_SEAL_GROW) == 0)
        return fd;
    shut(&fd);
    return -1;
#else
    char name[] = "/tmp/chalklight-XXXXXX";
    int fd = mkstemp(name);
    if (fd >= 0)
        unlink(name);
    return fd;
#endif
}

static bool open_pipe(int ends[2])
{
    return pipe(ends) == 0 && lift(&ends[0]) && lift(&ends[1]);
}

static bool put(int fd, const void *bytes, size_t count)
{
    return write(fd, bytes, count) == (ssize_t)count;
}

/* A pipe holds at least 4096 bytes (POSIX: 512, and every system more), so that nobody has to wait. */
static bool put_orders(struct reading *r, const struct sheet_how *how)
{
    size_t length = how->password ? strlen(how->password) : 0;
    struct sheet_orders orders = { .dpi = how->dpi, .password_bytes = (uint32_t)length };
    bool ok = put(r->orders[1], &orders, sizeof orders) && (!length || put(r->orders[1], how->password, length));
    shut(&r->orders[1]);
    return ok;
}

static bool open_all(struct reading *r, const struct sheet_how *how)
{
    r->result = open_result();
    return r->result >= 0 && lift(&r->result) && lift(&r->file) && open_pipe(r->progress) && open_pipe(r->orders) &&
           fcntl(r->progress[0], F_SETFL, O_NONBLOCK) == 0 && put_orders(r, how);
}

/* ---------------------------------------------------------------------------------------------------------- starting
 */

static const char *reader_path(struct arena *a, const struct sheet_how *how)
{
    const char *set = getenv("CHALKLIGHT_SHEET");
    if (how->reader)
        return how->reader;
    if (set && set[0] == '/')
        return set;
    const char *beside = base_program_path(a, CHALK_READER_FROM_PROGRAM);
    return beside && base_file_exists(beside) ? beside : CHALK_INSTALL_READER;
}

/* Nothing is handed on but what the reader needs: no other descriptor, no argument, no variable. */
static int hand_over(posix_spawn_file_actions_t *actions, const struct reading *r)
{
    const struct {
        int from, to;
    } rows[] = { { r->file, SHEET_FD_FILE },
                 { r->result, SHEET_FD_RESULT },
                 { r->progress[1], SHEET_FD_PROGRESS },
                 { r->orders[0], SHEET_FD_ORDERS } };
    int fault = 0;
    for (int fd = 0; fd <= 2 && !fault; fd++)
        fault = posix_spawn_file_actions_addopen(actions, fd, "/dev/null", O_RDWR, 0);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0] && !fault; i++)
        fault = posix_spawn_file_actions_adddup2(actions, rows[i].from, rows[i].to);
#ifdef __GLIBC__
    if (!fault)
        fault = posix_spawn_file_actions_addclosefrom_np(actions, SHEET_FD_AFTER);
#endif
    return fault;
}

/* Signals as they are for a program that was just started. */
static int plain_signals(posix_spawnattr_t *attributes)
{
    sigset_t none, all;
    sigemptyset(&none);
    sigfillset(&all);
    int fault = posix_spawnattr_setsigmask(attributes, &none);
    if (!fault)
        fault = posix_spawnattr_setsigdefault(attributes, &all);
    return fault ? fault : posix_spawnattr_setflags(attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
}

/* 0, or the system's reason. */
static int start(struct reading *r, const char *program)
{
    char name[] = "chalklight-sheet";
    char *arguments[] = { name, NULL }, *variables[] = { NULL };
    posix_spawn_file_actions_t actions;
    posix_spawnattr_t attributes;
    int fault = posix_spawn_file_actions_init(&actions);
    if (fault)
        return fault;
    fault = posix_spawnattr_init(&attributes);
    if (!fault) {
        fault = hand_over(&actions, r);
        if (!fault)
            fault = plain_signals(&attributes);
        if (!fault)
            fault = posix_spawn(&r->pid, program, &actions, &attributes, arguments, variables);
        posix_spawnattr_destroy(&attributes);
    }
    posix_spawn_file_actions_destroy(&actions);
#ifdef SYS_pidfd_open
    if (!fault)
        r->pidfd = (int)syscall(SYS_pidfd_open, r->pid, 0);
#endif
    shut(&r->progress[1]);
    shut(&r->orders[0]);
    return fault;
}

/* ---------------------------------------------------------------------------------------------------------- watching
 */

enum ending { ENDED, OVERDUE, GIVEN_UP };

static int64_t now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (int64_t)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

/* What the reader last said, or what it said before; the pipe is left alone once its other end is gone. */
static void hear(struct reading *r, unsigned *percent)
{
    unsigned char said[64];
    ssize_t got = read(r->progress[0], said, sizeof said);
    if (got > 0)
        *percent = said[got - 1] <= 100 ? said[got - 1] : 100;
    else if (got == 0 || (errno != EAGAIN && errno != EINTR))
        shut(&r->progress[0]);
}

static bool has_ended(const struct reading *r, int *status)
{
    pid_t got = waitpid(r->pid, status, WNOHANG);
    return got == r->pid || (got < 0 && errno != EINTR);
}

static void put_down(const struct reading *r, int *status)
{
    kill(r->pid, SIGKILL); /* it was not waited for, so the number is still its own */
    while (waitpid(r->pid, status, 0) < 0 && errno == EINTR)
        continue;
}

static enum ending watch(struct reading *r, const struct sheet_how *how, int *status)
{
    int64_t end = now_ms() + (how->deadline_ms > 0 ? how->deadline_ms : SHEET_DEADLINE_MS);
    unsigned percent = 0;
    *status = -1;
    for (;;) {
        struct pollfd fds[2] = { { r->progress[0], POLLIN, 0 }, { r->pidfd, POLLIN, 0 } }; /* below 0: passed over */
        int64_t left = end - now_ms(), tick = r->pidfd >= 0 ? TICK_MS : TICK_WITHOUT_PIDFD_MS;
        enum ending why = left <= 0 ? OVERDUE : how->go_on && !how->go_on(how->with, percent) ? GIVEN_UP : ENDED;
        if (why != ENDED) {
            put_down(r, status);
            return why;
        }
        poll(fds, 2, (int)(left < tick ? left : tick));
        if (fds[0].revents)
            hear(r, &percent);
        if ((r->pidfd < 0 || fds[1].revents) && has_ended(r, status))
            return ENDED;
    }
}

/* ------------------------------------------------------------------------------------------------------ what came of
 * it */

static const struct err_kind *kind_of_exit(int code)
{
    static const struct {
        int code;
        const struct err_kind *kind;
    } rows[] = {
        { SHEET_EXIT_NOT_A_SHEET, &not_a_sheet },       { SHEET_EXIT_PASSWORD_NEEDED, &password_needed },
        { SHEET_EXIT_PASSWORD_WRONG, &password_wrong }, { SHEET_EXIT_DPI_NEEDED, &dpi_needed },
        { SHEET_EXIT_TOO_LARGE, &too_large },           { SHEET_EXIT_DAMAGED, &damaged },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].code == code)
            return rows[i].kind;
    return &failed;
}

static const struct err_kind *kind_of_signal(int signal)
{
    static const struct {
        int signal;
        const struct err_kind *kind;
    } rows[] = {
        { SIGSYS, &jailed },
        { SIGXCPU, &too_long },
        { SIGXFSZ, &too_large },
        { SIGKILL, &too_large }, /* not by us: the system was short of memory */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].signal == signal)
            return rows[i].kind;
    return &failed;
}

/* Whether it left as one that has written its result; else says why not. */
static bool left_well(int status, const char *path, struct err_list *errs)
{
    if (WIFEXITED(status) && WEXITSTATUS(status) == SHEET_EXIT_DONE)
        return true;
    bool by_signal = WIFSIGNALED(status);
    int number = by_signal ? WTERMSIG(status) : WEXITSTATUS(status);
    base_err(errs, by_signal ? kind_of_signal(number) : kind_of_exit(number), base_err_in_file(path),
             ERR_TEXT(by_signal ? "signal" : "exit"), ERR_NUMBER(number));
    return false;
}

/* Cut to what was written (the reader wrote at this opening's own place) and sealed: the reader is gone, and whoever it
 * could have handed the result on to cannot change it any more. False when somebody still holds it for writing. */
static bool seal(const struct reading *r, size_t *count)
{
    off_t end = lseek(r->result, 0, SEEK_CUR);
    if (end < 0 || ftruncate(r->result, end) != 0)
        return false;
    *count = (size_t)end;
#ifdef MFD_ALLOW_SEALING
    const int seals = F_SEAL_SEAL | F_SEAL_SHRINK | F_SEAL_GROW | F_SEAL_WRITE;
    return fcntl(r->result, F_ADD_SEALS, seals) == 0 && (fcntl(r->result, F_GET_SEALS) & seals) == seals;
#else
    return true;
#endif
}

static const struct sheet *take_result(struct arena *a, const struct reading *r, const char *path,
                                       struct err_list *errs)
{
    struct sheet *s = base_arena_alloc(a, 1, sizeof *s);
    const char *flaw = "it was not written to its end";
    size_t count = 0;
    void *bytes = seal(r, &count) && count ? mmap(NULL, count, PROT_READ, MAP_PRIVATE, r->result, 0) : MAP_FAILED;
    if (bytes != MAP_FAILED && sheet_validate(bytes, count, s, &flaw))
        return s;
    if (bytes != MAP_FAILED)
        munmap(bytes, count);
    base_err(errs, &corrupt, base_err_in_file(path), ERR_TEXT(flaw));
    return NULL;
}

static const struct sheet *run(struct arena *a, struct reading *r, const char *path, const struct sheet_how *how,
                               struct err_list *errs)
{
    int status = 0;
    if (!open_all(r, how)) {
        base_err(errs, &no_means, base_err_in_file(path), ERR_TEXT(strerror(errno)));
        return NULL;
    }
    const char *program = reader_path(a, how);
    int fault = start(r, program);
    if (fault) {
        base_err(errs, &no_reader, base_err_in_file(path), ERR_TEXT(program), ERR_TEXT(strerror(fault)));
        return NULL;
    }
    enum ending ending = watch(r, how, &status);
    if (ending == OVERDUE)
        base_err(errs, &too_long, base_err_in_file(path), ERR_NONE);
    return ending == ENDED && left_well(status, path, errs) ? take_result(a, r, path, errs) : NULL;
}

static bool how_is_sound(const struct sheet_how *how, const char *path, struct err_list *errs)
{
    if (how->password && strlen(how->password) > SHEET_PASSWORD_MOST) {
        base_err(errs, &password_long, base_err_in_file(path), ERR_NUMBER(SHEET_PASSWORD_MOST));
        return false;
    }
    if (how->dpi != 0 && !(how->dpi >= SHEET_DPI_LEAST && how->dpi <= SHEET_DPI_MOST)) {
        base_err(errs, &dpi_range, base_err_in_file(path), ERR_NUMBER(how->dpi), ERR_NUMBER(SHEET_DPI_LEAST),
                 ERR_NUMBER(SHEET_DPI_MOST));
        return false;
    }
    return true;
}

const struct sheet *sheet_read(struct arena *a, const char *path, const struct sheet_how *how, struct err_list *errs)
{
    static const struct sheet_how plainly = { 0 };
    struct reading r = nothing_open;
    if (!how)
        how = &plainly;
    if (!how_is_sound(how, path, errs))
        return NULL;
    r.file = base_file_open(path, SHEET_FILE_MOST, errs);
    const struct sheet *s = r.file >= 0 ? run(a, &r, path, how, errs) : NULL;
    shut_all(&r);
    return s;
}

void sheet_close(const struct sheet *s)
{
    if (s && s->bytes)
        munmap((void *)s->bytes, s->byte_count);
}
