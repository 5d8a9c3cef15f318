/* A file that is saved by a thread while its caller goes on: a disk takes as long as a picture does. */
#ifndef BASE_SAVING_H
#define BASE_SAVING_H

#include "base/err_list.h"

struct base_saving;

/* Begins to save `text` as base_file_save does; both are copied. The caller ends it. A new file,
 * or any where the system gives no thread, is saved before this comes back. */
struct base_saving *base_saving_begin(const char *path, const char *text);

/* What is being saved; lives until it is ended. */
const char *base_saving_text(const struct base_saving *s);

/* Waits for it. False, with the reason in `errs` and the old file untouched, when it could not be saved. */
bool base_saving_end(struct base_saving *s, struct err_list *errs);

#endif
