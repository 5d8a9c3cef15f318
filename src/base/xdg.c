#include "base/xdg.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const struct err_kind no_folder = { "file.no_folder", ERR_FAULT, BASE_TR("its folder cannot be made: {0}") };

enum { FOR_THE_PERSON_ALONE = 0700 }; /* the specification's own figure */

static const struct {
    const char *variable, *usual; /* the usual folder is at home */
} place_rows[BASE_XDG_PLACES] = {
    [BASE_XDG_CONFIG] = { "XDG_CONFIG_HOME", ".config" },
    [BASE_XDG_DATA] = { "XDG_DATA_HOME", ".local/share" },
    [BASE_XDG_STATE] = { "XDG_STATE_HOME", ".local/state" },
    [BASE_XDG_CACHE] = { "XDG_CACHE_HOME", ".cache" },
};

/* The specification has relative paths ignored: they would lead elsewhere from every folder. */
static const char *whole_path_in(const char *variable)
{
    const char *path = getenv(variable);
    return path && path[0] == '/' ? path : NULL;
}

const char *base_xdg_path(struct arena *a, enum base_xdg place, const char *name)
{
    const char *named = whole_path_in(place_rows[place].variable), *home = whole_path_in("HOME");
    if (named)
        return base_arena_print(a, "%s/chalklight/%s", named, name);
    return home ? base_arena_print(a, "%s/%s/chalklight/%s", home, place_rows[place].usual, name) : NULL;
}

bool base_xdg_make_folders(const char *path, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    char *folder = base_arena_copy_text(a, path);
    bool ok = true;
    for (char *slash = strchr(folder + 1, '/'); ok && slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        ok = mkdir(folder, FOR_THE_PERSON_ALONE) == 0 || errno == EEXIST;
        *slash = '/';
    }
    if (!ok)
        base_err(errs, &no_folder, base_err_in_file(path), ERR_TEXT(strerror(errno)));
    base_arena_destroy(a);
    return ok;
}
