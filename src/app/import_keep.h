/* What a person says of a drawn sheet, as a small file beside the pattern that is made of it, so that she goes on where
 * she was. */
#ifndef APP_IMPORT_KEEP_H
#define APP_IMPORT_KEEP_H

#include "app/import.h"

/* Its text; in `a`. */
const char *app_import_keep(struct arena *a, const struct app_import *im);

/* Reads it back: the choices are those of the file. False, told, with the choices untouched, when it cannot be read or
 * was made of another sheet. */
bool app_import_go_on(struct app_import *im, const char *path, struct err_list *errs);

#endif
