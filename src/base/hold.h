/* A folder held against other programs while a file in it is read, changed and saved: each sees what the one before
 * has saved. And one file held for as long as somebody works on it. Only those that ask are kept waiting, or away. */
#ifndef BASE_HOLD_H
#define BASE_HOLD_H

#include "base/arena.h"

#include <stdbool.h>

/* Holds the folder of a file, waiting up to wait_ms for whoever has it. What is returned goes to base_hold_end; -1
 * where it cannot be held (some network drives, a program that does not let go): then there is nothing but to go on. */
int base_hold_folder(const char *path, int wait_ms);

/* Lets go; -1 is allowed. */
void base_hold_end(int hold);

struct base_file_hold {
    int fd;             /* -1: nothing is held */
    const char *beside; /* the file whose lock it is, which stands beside the held one as long as that is held */
};

/* A lock that belongs to this opening of a file, not to the process: a second opening is refused in this program too,
 * and reading the file by another descriptor does not end it. Goes with the last descriptor, killed or not. False, with
 * errno, where it is not given. */
bool base_hold_lock(int fd);

/* Whether what was opened stands at that path still: another program may have put a new file into its place. */
bool base_hold_is_at(int fd, const char *path);

/* Holds a file, there or not yet, against every other hold of it, this program's too; the names live in `a`. False when
 * it is held already. Where it cannot be held (a folder that takes no files) there is nothing but to go on: true. */
bool base_hold_file(struct arena *a, const char *path, struct base_file_hold *out);

/* Lets go; where nothing is held nothing is done. A program that is killed lets go, too. */
void base_hold_end_file(struct base_file_hold *hold);

/* Whether somebody holds that file now. */
bool base_hold_is_taken(const char *path);

#endif
