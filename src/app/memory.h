/* What the app is to know again after a power cut: one line for every action, each saying how things stand after it.
 * Applied in order, the last word counts. */
#ifndef APP_MEMORY_H
#define APP_MEMORY_H

#include "app/app.h"

/* How things stand now, as one line of JSON without a newline; lives in `a`. */
const char *app_remember(const struct app *app, struct arena *a);

/* Everything as few lines as it takes, for a journal that has grown long; *count lines in `a`. */
const char *const *app_remember_all(const struct app *app, struct arena *a, size_t *count);

/* All lines are of another table set-up: what is cut stays, and cloth that lies on it is to be found again. */
void app_table_is_new(struct app *app);

/* Applies a line. False, with the app unchanged and a complaint, when it does not fit this job. */
bool app_recall(struct app *app, const char *line, struct err_list *errs);

#endif
