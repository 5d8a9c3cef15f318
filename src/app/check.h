/* Proof-reading any of our files: what kind it is, whether it reads, and for a pattern whether it can be cut and sewn
 * in every size and cup group. */
#ifndef APP_CHECK_H
#define APP_CHECK_H

#include "base/err_list.h"
#include "json/write.h"

/* Checks the file, a pattern also as it is drafted to a body (its file, or NULL); faults go to `errs`. *report (in `a`)
 * says what was found, also in `to` when it is not NULL. False when there was a fault. */
bool app_check(struct arena *a, const char *path, const char *body, const char **report, struct json_out *to,
               struct err_list *errs);

#endif
