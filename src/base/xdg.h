/* Where a person's own files are, by the XDG Base Directory Specification (version 0.8). Not: the files that came with
 * the program. */
#ifndef BASE_XDG_H
#define BASE_XDG_H

#include "base/arena.h"
#include "base/err_list.h"

#include <stdbool.h>

enum base_xdg { BASE_XDG_CONFIG, BASE_XDG_DATA, BASE_XDG_STATE, BASE_XDG_CACHE, BASE_XDG_PLACES };

/* The path of a file of ours in that place ("/home/…/.config/chalklight/NAME"); lives in `a`. What the place's variable
 * names holds where it is a whole path; else, as the specification has it, the usual folder at home. NULL where HOME
 * names no whole path either. Nothing is made. */
const char *base_xdg_path(struct arena *a, enum base_xdg place, const char *name);

/* Makes the folders of a file that are not there yet, for the person alone. False, with the reason in `errs`, when one
 * cannot be made. */
bool base_xdg_make_folders(const char *path, struct err_list *errs);

#endif
