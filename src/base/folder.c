#include "base/folder.h"

#include "base/text.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const struct err_kind no_folder = { "base.no_folder", ERR_FAULT, BASE_TR("this folder cannot be read: {0}") };

/* Folders first, then by name. */
static int by_name(const void *a, const void *b)
{
    const struct base_entry *left = a, *right = b;
    if (left->is_folder != right->is_folder)
        return left->is_folder ? -1 : 1;
    return strcmp(left->name, right->name);
}

/* What stands there, as far as it is to be shown. */
static bool look_at(struct arena *a, const char *folder, const char *name, struct base_entry *out)
{
    struct stat is;
    if (name[0] == '.' || !base_text_is_utf8(name, strlen(name)))
        return false;
    if (stat(base_arena_print(a, "%s/%s", folder, name), &is) != 0 || (!S_ISDIR(is.st_mode) && !S_ISREG(is.st_mode)))
        return false;
    *out = (struct base_entry){ base_arena_copy_text(a, name), S_ISDIR(is.st_mode) };
    return true;
}

bool base_folder_list(struct arena *a, const char *path, const struct base_entry **out, size_t *count,
                      struct err_list *errs)
{
    DIR *folder = opendir(path);
    if (!folder) {
        base_err(errs, &no_folder, base_err_in_file(path), ERR_TEXT(strerror(errno)));
        return false;
    }
    struct base_entry *entries = NULL;
    size_t cap = 0, n = 0;
    for (const struct dirent *at = readdir(folder); at && n < BASE_MOST_ENTRIES; at = readdir(folder)) {
        entries = base_arena_grow(a, entries, &cap, n + 1, sizeof *entries);
        n += look_at(a, path, at->d_name, &entries[n]);
    }
    closedir(folder);
    if (n)
        qsort(entries, n, sizeof *entries, by_name);
    *out = entries;
    *count = n;
    return true;
}
