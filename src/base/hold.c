#include "base/hold.h"

#include "base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
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

/* --- one file ---------------------------------------------------------------------------------------------------- */

/* How often a lock that is let go of in the moment of opening is looked for again. */
enum { OPEN_TRIES = 16 };

/* Links followed, so that one file has one lock. */
static const char *lock_of(struct arena *a, const char *path)
{
    return base_arena_print(a, "%s.open", base_file_whole_path(a, path));
}

bool base_hold_lock(int fd)
{
    struct flock whole = { .l_type = F_WRLCK, .l_whence = SEEK_SET };
    return fcntl(fd, F_OFD_SETLK, &whole) == 0;
}

bool base_hold_is_at(int fd, const char *path)
{
    struct stat mine, there;
    return fstat(fd, &mine) == 0 && stat(path, &there) == 0 && mine.st_dev == there.st_dev &&
           mine.st_ino == there.st_ino;
}

bool base_hold_file(struct arena *a, const char *path, struct base_file_hold *out)
{
    *out = (struct base_file_hold){ .fd = -1, .beside = lock_of(a, path) };
    for (int i = 0; i < OPEN_TRIES; i++) {
        int fd = open(out->beside, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY, 0600);
        if (fd < 0)
            return true;
        bool locked = base_hold_lock(fd), taken = !locked && (errno == EAGAIN || errno == EACCES);
        if (locked && base_hold_is_at(fd, out->beside)) {
            out->fd = fd;
            return true;
        }
        close(fd);
        if (taken)
            return false;
    }
    return true;
}

/* It goes before the lock does: whoever opened it meanwhile finds that it is not there any more. */
void base_hold_end_file(struct base_file_hold *hold)
{
    if (hold->fd < 0)
        return;
    unlink(hold->beside);
    close(hold->fd);
    hold->fd = -1;
}

bool base_hold_is_taken(const char *path)
{
    struct arena *a = base_arena_create();
    struct flock whole = { .l_type = F_WRLCK, .l_whence = SEEK_SET };
    int fd = open(lock_of(a, path), O_RDWR | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY);
    bool taken = fd >= 0 && fcntl(fd, F_OFD_GETLK, &whole) == 0 && whole.l_type != F_UNLCK;
    if (fd >= 0)
        close(fd);
    base_arena_destroy(a);
    return taken;
}
