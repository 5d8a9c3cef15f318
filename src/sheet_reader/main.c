/* chalklight-sheet: reads a stranger's drawing in a jail. It is started by sheet/start.c with its descriptors at fixed
 * numbers and no arguments: the file, the result to write, the pipe for progress, the pipe with its orders. */
#include "base/arena.h"
#include "sheet/form.h"
#include "sheet_reader/collect.h"
#include "sheet_reader/jail.h"
#include "sheet_reader/kind.h"

#include <errno.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

/* Bytes from which on memory that grows is moved by its pages, not copied. glibc's own bound rises with what is freed.
 */
enum { OWN_PAGES_FROM = 256 * 1024 };

struct input {
    const char *bytes; /* NULL: nothing could be mapped */
    size_t count;
    struct sheet_orders orders;
    char password[SHEET_PASSWORD_MOST + 1];
};

static bool map_file(struct input *in)
{
    struct stat st;
    if (fstat(SHEET_FD_FILE, &st) != 0 || st.st_size < 0 || (uint64_t)st.st_size > SHEET_FILE_MOST)
        return false;
    in->count = (size_t)st.st_size;
    if (!in->count)
        return true;
    void *at = mmap(NULL, in->count, PROT_READ, MAP_PRIVATE, SHEET_FD_FILE, 0);
    in->bytes = at == MAP_FAILED ? NULL : at;
    return in->bytes;
}

/* So many bytes, fewer where the pipe ends; below 0 when it broke. */
static ssize_t read_bytes(void *to, size_t count)
{
    size_t have = 0;
    while (have < count) {
        ssize_t got = read(SHEET_FD_ORDERS, (char *)to + have, count - have);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return -1;
        if (got == 0)
            break;
        have += (size_t)got;
    }
    return (ssize_t)have;
}

/* The orders, then the password as long as they say, then the end of the pipe. */
static bool read_orders(struct input *in)
{
    char more;
    return read_bytes(&in->orders, sizeof in->orders) == sizeof in->orders &&
           in->orders.password_bytes <= SHEET_PASSWORD_MOST &&
           read_bytes(in->password, in->orders.password_bytes) == (ssize_t)in->orders.password_bytes &&
           read_bytes(&more, 1) == 0;
}

static enum sheet_exit read_in_jail(const struct input *in, unsigned missing)
{
    struct collect *c = collect_create(SHEET_FD_PROGRESS);
    if (!c)
        return SHEET_EXIT_TOO_LARGE;
    if (missing)
        collect_note(c, SHEET_NOTE_NO_JAIL, NULL, missing, 0);
    struct kind_orders how_to = { in->password[0] ? in->password : NULL, in->orders.dpi };
    enum sheet_exit how = kind_read(c, in->bytes, in->count, &how_to);
    if (collect_failed(c))
        how = collect_exit(c);
    if (how == SHEET_EXIT_DONE && !collect_write(c, SHEET_FD_RESULT))
        how = SHEET_EXIT_TOO_LARGE;
    return how; /* what it holds goes with the process */
}

static void leave_without_memory(void)
{
    _exit(SHEET_EXIT_TOO_LARGE);
}

int main(void)
{
    struct input in = { 0 };
    if (!map_file(&in) || !read_orders(&in))
        return SHEET_EXIT_BAD_SURROUNDINGS;
    close(SHEET_FD_FILE);
    close(SHEET_FD_ORDERS);
    base_on_out_of_memory(leave_without_memory);
#ifdef __GLIBC__
    mallopt(M_MMAP_THRESHOLD, OWN_PAGES_FROM);
#endif
    unsigned missing = jail_enter();
    _exit((int)read_in_jail(&in, missing));
}
