/* Whole files in and out: reading within a bound, and saving so that either the old or the new file is there. */
#ifndef BASE_FILE_H
#define BASE_FILE_H

#include "base/arena.h"
#include "base/err_list.h"

#include <stdbool.h>
#include <stddef.h>

struct base_bytes {
    const char *data; /* ended by a zero byte that is not counted */
    size_t count;
};

/* Reads a regular file of at most `limit` bytes into `a`. False, with the reason in `errs`, when it cannot. */
bool base_file_read(struct arena *a, const char *path, size_t limit, struct base_bytes *out, struct err_list *errs);

/* Opens a regular file of at most `limit` bytes for reading; the caller closes it. -1, with the reason in `errs`, when
 * it cannot. */
int base_file_open(const char *path, size_t limit, struct err_list *errs);

/* Replaces (or makes) the file in one step: written beside it, synced, renamed over it. False, with the reason in
 * `errs` and the old file untouched, when it cannot. */
bool base_file_save(const char *path, const void *data, size_t count, struct err_list *errs);

/* Brings the name of a file that was made or renamed to the disk, by syncing its folder; where a folder cannot be
 * synced (some network drives) nothing is done. */
void base_file_sync_folder(const char *path);

/* The whole path of a file, links followed: the same file from any folder. `path` itself where nothing stands there.
 * Lives in `a`. */
const char *base_file_whole_path(struct arena *a, const char *path);

/* When it was changed last, by the clock here: "2026-11-30 18:05"; "" where that cannot be told. Lives in `a`. */
const char *base_file_changed(struct arena *a, const char *path);

/* Whether something stands at that path. */
bool base_file_exists(const char *path);

#endif
