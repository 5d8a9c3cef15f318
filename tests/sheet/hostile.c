/* A reader that a drawing has taken over: it goes to jail as the real one does, then tries what its file's first word
 * says. It leaves as from a damaged file when what it tried was refused, and with ESCAPED when it was not. */
#include "sheet_reader/jail.h"

#include "sheet/drawn.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <sys/syscall.h>
#include <time.h>
#include <unistd.h>

enum { ESCAPED = 99, REFUSED = SHEET_EXIT_DAMAGED };

static int open_file(void)
{
    return open("/etc/passwd", O_RDONLY) < 0 && errno == ENOENT ? REFUSED : ESCAPED;
}

static int open_old_way(void)
{
    return syscall(SYS_open, "/etc/passwd", O_RDONLY) < 0 ? REFUSED : ESCAPED;
}

static int open_socket(void)
{
    return socket(AF_INET, SOCK_STREAM, 0) < 0 ? REFUSED : ESCAPED;
}

static int run_program(void)
{
    char *arguments[] = { (char[]){ "true" }, NULL };
    execv("/bin/true", arguments);
    return REFUSED;
}

static int fork_off(void)
{
    return fork() < 0 ? REFUSED : ESCAPED;
}

static int map_code(void)
{
    void *at = mmap(NULL, 4096, PROT_READ | PROT_WRITE | PROT_EXEC, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    return at == MAP_FAILED ? REFUSED : ESCAPED;
}

static int make_code(void)
{
    void *at = mmap(NULL, 4096, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    return mprotect(at, 4096, PROT_READ | PROT_EXEC) != 0 ? REFUSED : ESCAPED;
}

static int map_result(void)
{
    void *at = mmap(NULL, 4096, PROT_READ | PROT_WRITE, MAP_SHARED, SHEET_FD_RESULT, 0);
    return at == MAP_FAILED ? REFUSED : ESCAPED;
}

static int signal_other(void)
{
    return syscall(SYS_kill, 1, 0) != 0 ? REFUSED : ESCAPED;
}

static int raise_limits(void)
{
    return syscall(SYS_prlimit64, 0, 9 /* RLIMIT_AS */, NULL, NULL) != 0 ? REFUSED : ESCAPED;
}

static int sleep_on(void)
{
    return nanosleep(&(struct timespec){ 3600, 0 }, NULL) != 0 ? REFUSED : ESCAPED;
}

/* 2 GiB, four times what it may hold. */
static int take_memory(void)
{
    for (size_t i = 0; i < 2048; i++) {
        volatile char *block = malloc((size_t)1 << 20); /* volatile: a compiler may leave out what nobody reads */
        if (!block)
            return SHEET_EXIT_TOO_LARGE;
        for (size_t at = 0; at < (size_t)1 << 20; at += 4096)
            block[at] = 1;
    }
    return ESCAPED;
}

/* 10 GiB, 1 MiB at a time. */
static int write_much(void)
{
    char *block = calloc(1, (size_t)1 << 20);
    for (size_t i = 0; block && i < 10240; i++)
        if (write(SHEET_FD_RESULT, block, (size_t)1 << 20) != 1 << 20)
            return SHEET_EXIT_TOO_LARGE;
    return ESCAPED;
}

static int write_nonsense(void)
{
    static const char nonsense[4096] = SHEET_MAGIC "nonsense";
    return write(SHEET_FD_RESULT, nonsense, sizeof nonsense) > 0 ? SHEET_EXIT_DONE : ESCAPED;
}

/* A sound result with more behind it. */
static int write_longer(void)
{
    static const char head[] = SHEET_MAGIC;
    return collect_write(draw_sheet(), SHEET_FD_RESULT) && write(SHEET_FD_RESULT, head, 8) == 8 ? SHEET_EXIT_DONE
                                                                                                : ESCAPED;
}

/* Sound but for a layer that is not there, which the collector takes on trust. */
static int write_spoiled(void)
{
    struct collect *c = draw_sheet();
    collect_image(c, 77, &(struct sheet_image){ { 1, 0 }, { 0, 1 }, { 0, 0 }, 0, 0, 0 }, NULL);
    return collect_write(c, SHEET_FD_RESULT) ? SHEET_EXIT_DONE : ESCAPED;
}

static int write_nothing(void)
{
    return SHEET_EXIT_DONE;
}

static int say_nothing(void)
{
    uint32_t never = 0;
    syscall(SYS_futex, &never, 0 /* FUTEX_WAIT */, 0, NULL, NULL, 0);
    return ESCAPED;
}

static int turn_round(void)
{
    volatile bool on = true;
    while (on)
        continue;
    return ESCAPED;
}

/* More than a pipe holds, whether or not somebody listens. */
static int talk_on(void)
{
    for (;;)
        if (write(SHEET_FD_PROGRESS, "\xff\x63\x01", 3) < 0)
            return REFUSED;
}

static int crash(void)
{
    volatile char *volatile nowhere = NULL;
    *nowhere = 1;
    return ESCAPED;
}

static int stop_itself(void)
{
    abort();
}

static int compare(const void *a, const void *b)
{
    return (*(const int *)a > *(const int *)b) - (*(const int *)a < *(const int *)b);
}

/* What an honest reader does: memory large and small, grown and given back, a long sort, numbers to text. */
static int behave(void)
{
    size_t count = (size_t)1 << 20;
    int *many = malloc(sizeof *many);
    many = realloc(many, count * sizeof *many);
    for (size_t i = 0; i < count; i++)
        many[i] = (int)(i * 7919 % count);
    qsort(many, count, sizeof *many, compare);
    char text[32];
    snprintf(text, sizeof text, "%.3f %d", strtod("1.5", NULL), many[5]);
    free(many);
    struct timespec t;
    if (strcmp(text, "1.500 5") != 0 || clock_gettime(CLOCK_MONOTONIC, &t) != 0)
        return ESCAPED;
    return collect_write(draw_sheet(), SHEET_FD_RESULT) ? SHEET_EXIT_DONE : ESCAPED;
}

/* Ways to leave of one that was asked for a password, or for what it cannot read. */
static int need_password(void)
{
    return SHEET_EXIT_PASSWORD_NEEDED;
}

static int refuse_password(void)
{
    return SHEET_EXIT_PASSWORD_WRONG;
}

static const struct {
    const char *word;
    int (*attempt)(void);
} rows[] = {
    { "open", open_file },        { "open-old-way", open_old_way },
    { "socket", open_socket },    { "exec", run_program },
    { "fork", fork_off },         { "map-code", map_code },
    { "make-code", make_code },   { "map-result", map_result },
    { "kill", signal_other },     { "limits", raise_limits },
    { "sleep", sleep_on },        { "memory", take_memory },
    { "much", write_much },       { "nonsense", write_nonsense },
    { "spoiled", write_spoiled }, { "longer", write_longer },
    { "nothing", write_nothing }, { "silence", say_nothing },
    { "round", turn_round },      { "talk", talk_on },
    { "crash", crash },           { "abort", stop_itself },
    { "behave", behave },         { "locked", need_password },
    { "wrong", refuse_password },
};

/* Only the four descriptors and /dev/null three times: anything else was handed on by mistake. */
static bool holds_more(void)
{
    for (int fd = SHEET_FD_AFTER; fd < 256; fd++)
        if (fcntl(fd, F_GETFD) >= 0)
            return true;
    return false;
}

int main(int count, char **arguments)
{
    char word[32] = "";
    if (count != 1 || !arguments[0] || environ[0] || holds_more())
        return ESCAPED;
    if (read(SHEET_FD_FILE, word, sizeof word - 1) < 0)
        return ESCAPED;
    struct {
        struct sheet_orders orders;
        char password[32];
    } asked = { 0 };
    if (strcmp(word, "password") == 0) {
        bool right = read(SHEET_FD_ORDERS, &asked, sizeof asked) > 0 && strcmp(asked.password, "größe 10") == 0 &&
                     asked.orders.dpi == 300 && asked.orders.password_bytes == strlen(asked.password);
        strcpy(word, right ? "behave" : "wrong");
    }
    jail_enter();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (strcmp(rows[i].word, word) == 0)
            _exit(rows[i].attempt());
    _exit(ESCAPED);
}
