#include "base/hold.h"

#include "base/arena.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

enum { LOOK_AGAIN_MS = 5 };

static int open_folder(const char *path)
{
    struct arena *a = base_arena_create();
    const char *slash = strrchr(path, '/');
    const char *folder = slash ? base_arena_copy_bytes(a, path, (size_t)(slash - path) + 1) : ".";
    int fd = open(folder, O_RDONLY | O_CLOEXEC | O_DIRECTORY);
    base_arena_destroy(a);
    return fd;
}

int base_hold_folder(const char *path, int wait_ms)
{
    const struct timespec pause = { .tv_nsec = LOOK_AGAIN_MS * 1000000L };
    int fd = open_folder(path);
    while (fd >= 0 && flock(fd, LOCK_EX | LOCK_NB) != 0) {
        if (errno == EWOULDBLOCK && wait_ms > 0) {
            nanosleep(&pause, NULL);
            wait_ms -= LOOK_AGAIN_MS;
        } else if (errno != EINTR) {
            close(fd);
            fd = -1;
        }
    }
    return fd;
}

void base_hold_end(int hold)
{
    if (hold >= 0)
        close(hold);
}
