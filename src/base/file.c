#include "base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static const struct err_kind cannot_open = { "file.cannot_open", ERR_FAULT, BASE_TR("cannot be opened: {0}") };
static const struct err_kind cannot_read = { "file.cannot_read", ERR_FAULT, BASE_TR("cannot be read: {0}") };
static const struct err_kind not_regular = { "file.not_regular", ERR_FAULT,
                                             BASE_TR("is not a file that can be read as a whole") };
static const struct err_kind too_large = { "file.too_large", ERR_FAULT,
                                           BASE_TR("is larger than {0}, more than a file of this kind can hold") };
enum { KB = 1024, MB = KB * KB };
static const struct err_kind cannot_save = { "file.cannot_save", ERR_FAULT,
                                             BASE_TR("cannot be saved: {0}; what was there before is untouched") };

/* Reads on until the end or until `count` bytes are there; -1 on a fault. */
static ssize_t read_up_to(int fd, char *data, size_t count)
{
    size_t have = 0;
    while (have < count) {
        ssize_t got = read(fd, data + have, count - have);
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

static const char *size_text(struct arena *a, size_t bytes)
{
    if (bytes >= MB && bytes % MB == 0)
        return base_arena_print(a, "%zu MB", bytes / MB);
    return bytes >= KB && bytes % KB == 0 ? base_arena_print(a, "%zu KB", bytes / KB)
                                          : base_arena_print(a, "%zu bytes", bytes);
}

/* Whether an open file is one that can be read as a whole; *size is then its size. */
static bool is_bounded(int fd, const char *path, size_t limit, size_t *size, struct err_list *errs)
{
    struct stat st;
    if (fstat(fd, &st) != 0 || !S_ISREG(st.st_mode)) {
        base_err(errs, &not_regular, base_err_in_file(path), ERR_NONE);
        return false;
    }
    if (st.st_size < 0 || (unsigned long long)st.st_size > limit) {
        base_err(errs, &too_large, base_err_in_file(path), ERR_TEXT(size_text(errs->arena, limit)));
        return false;
    }
    *size = (size_t)st.st_size;
    return true;
}

static int open_bounded(const char *path, size_t limit, size_t *size, struct err_list *errs)
{
    /* O_NONBLOCK: opening a pipe must not wait for someone to write into it. */
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (fd < 0) {
        base_err(errs, &cannot_open, base_err_in_file(path), ERR_TEXT(strerror(errno)));
        return -1;
    }
    if (!is_bounded(fd, path, limit, size, errs)) {
        close(fd);
        return -1;
    }
    return fd;
}

int base_file_open(const char *path, size_t limit, struct err_list *errs)
{
    size_t size = 0;
    return open_bounded(path, limit, &size, errs);
}

bool base_file_read(struct arena *a, const char *path, size_t limit, struct base_bytes *out, struct err_list *errs)
{
    *out = (struct base_bytes){ "", 0 };
    size_t size = 0;
    int fd = open_bounded(path, limit, &size, errs);
    if (fd < 0)
        return false;
    char *data = base_arena_alloc(a, size + 1, 1);
    ssize_t have = read_up_to(fd, data, size);
    if (have < 0)
        base_err(errs, &cannot_read, base_err_in_file(path), ERR_TEXT(strerror(errno)));
    else
        *out = (struct base_bytes){ data, (size_t)have };
    close(fd);
    return have >= 0;
}

static bool write_all(int fd, const char *data, size_t count)
{
    while (count) {
        ssize_t put = write(fd, data, count);
        if (put < 0 && errno == EINTR)
            continue;
        if (put < 0)
            return false;
        data += put;
        count -= (size_t)put;
    }
    return true;
}

static size_t folder_length(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? (size_t)(slash - path) + 1 : 0;
}

void base_file_sync_folder(const char *path)
{
    struct arena *a = base_arena_create();
    size_t length = folder_length(path);
    const char *folder = length ? base_arena_copy_bytes(a, path, length) : ".";
    int fd = open(folder, O_RDONLY | O_CLOEXEC | O_DIRECTORY);
    if (fd >= 0) {
        fsync(fd);
        close(fd);
    }
    base_arena_destroy(a);
}

/* A new file keeps the rights that the old one had, or what the person's umask gives. */
static mode_t rights_for(const char *path)
{
    struct stat st;
    if (stat(path, &st) == 0)
        return st.st_mode & 0777;
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

const char *base_file_whole_path(struct arena *a, const char *path)
{
    char *whole = realpath(path, NULL);
    if (!whole)
        return base_arena_copy_text(a, path);
    const char *kept = base_arena_copy_text(a, whole);
    free(whole);
    return kept;
}

static bool save_beside(const char *temporary, int fd, const char *path, const void *data, size_t count)
{
    bool ok = write_all(fd, data, count) && fchmod(fd, rights_for(path)) == 0 && fsync(fd) == 0;
    int fault = errno;
    if (close(fd) != 0 && ok) {
        ok = false;
        fault = errno;
    }
    if (ok && rename(temporary, path) != 0) {
        ok = false;
        fault = errno;
    }
    if (!ok)
        unlink(temporary);
    errno = fault;
    return ok;
}

bool base_file_save(const char *path, const void *data, size_t count, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    /* A link is followed to its end, so that saving replaces the file and not the link that leads to it. */
    const char *target = base_file_whole_path(a, path);
    struct stat st;
    bool ok = false;
    if (stat(target, &st) == 0 && !S_ISREG(st.st_mode)) {
        errno = S_ISDIR(st.st_mode) ? EISDIR : EINVAL;
    } else {
        char *temporary = base_arena_print(a, "%s.XXXXXX", target);
        int fd = mkstemp(temporary);
        ok = fd >= 0 && save_beside(temporary, fd, target, data, count);
    }
    if (ok)
        base_file_sync_folder(target);
    else
        base_err(errs, &cannot_save, base_err_in_file(path), ERR_TEXT(strerror(errno)));
    base_arena_destroy(a);
    return ok;
}

bool base_file_exists(const char *path)
{
    return access(path, F_OK) == 0;
}

const char *base_file_changed(struct arena *a, const char *path)
{
    struct stat st;
    struct tm when;
    char text[sizeof "2026-11-30 18:05"];
    if (stat(path, &st) != 0 || !localtime_r(&st.st_mtime, &when) ||
        !strftime(text, sizeof text, "%Y-%m-%d %H:%M", &when))
        return "";
    return base_arena_copy_text(a, text);
}
