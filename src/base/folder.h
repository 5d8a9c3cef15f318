/* What is in a folder. */
#ifndef BASE_FOLDER_H
#define BASE_FOLDER_H

#include "base/arena.h"
#include "base/err_list.h"

#include <stdbool.h>
#include <stddef.h>

enum { BASE_MOST_ENTRIES = 4096 };

struct base_entry {
    const char *name;
    bool is_folder;
};

/* Folders and regular files (links followed) whose names do not begin with a dot and are UTF-8, folders first, each by
 * name; at most BASE_MOST_ENTRIES. Lives in `a`. False, with the reason, when the folder cannot be read. */
bool base_folder_list(struct arena *a, const char *path, const struct base_entry **out, size_t *count,
                      struct err_list *errs);

#endif
