/* chalklight-sheet: reads a stranger's PDF or SVG in a jail. It is started by sheet/start.c with its descriptors at
 * fixed numbers and no arguments: the file, the result to write, the pipe for progress, the pipe with the password. */
#include "base/arena.h"
#include "sheet/form.h"
#include "sheet_reader/collect.h"
#include "sheet_reader/jail.h"
#include "sheet_reader/kind.h"

#include <errno.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

struct input {
    const char *bytes; /* NULL: nothing could be mapped */
    size_t count;
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

/* To the end of the pipe; "" when none was given. */
static bool read_password(struct input *in)
{
    size_t have = 0;
    for (;;) {
        ssize_t got = read(SHEET_FD_PASSWORD, in->password + have, SHEET_PASSWORD_MOST - have);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0 || have == SHEET_PASSWORD_MOST)
            return got == 0;
        have += (size_t)got;
    }
}

static enum sheet_exit read_in_jail(const struct input *in, unsigned missing)
{
    struct collect *c = collect_create(SHEET_FD_PROGRESS);
    if (!c)
        return SHEET_EXIT_TOO_LARGE;
    if (missing)
        collect_note(c, SHEET_NOTE_NO_JAIL, NULL, missing, 0);
    enum sheet_exit how = kind_read(c, in->bytes, in->count, in->password[0] ? in->password : NULL);
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
    if (!map_file(&in) || !read_password(&in))
        return SHEET_EXIT_BAD_SURROUNDINGS;
    close(SHEET_FD_FILE);
    close(SHEET_FD_PASSWORD);
    base_on_out_of_memory(leave_without_memory);
    unsigned missing = jail_enter();
    _exit((int)read_in_jail(&in, missing));
}
