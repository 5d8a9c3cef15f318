/* What the files of this folder share. */
#ifndef SETTINGS_STATE_H
#define SETTINGS_STATE_H

#include "settings/settings.h"

struct settings_value {
    bool said;
    int number;               /* of SETTINGS_NUMBER; of SETTINGS_WORD which one */
    const char *const *texts; /* one of SETTINGS_TEXT and SETTINGS_DATE */
    size_t count;
};

struct settings {
    struct arena *a;
    const char *path; /* NULL: nowhere */
    struct settings_value values[SETTINGS_COUNT];
    bool changed[SETTINGS_COUNT]; /* since it was read or saved; the value as a whole */
    struct settings_value first;  /* what was put first in SETTINGS_RECENT since, newest first */
};

/* Whether a text can be one of the row's. */
bool settings_is_text(const struct settings_row *row, const char *text);

/* The texts of `more` before those of `list` that are not among them, at most the row's; in `a`. */
struct settings_value settings_joined(struct arena *a, const struct settings_row *row,
                                      const struct settings_value *more, const struct settings_value *list);

#endif
