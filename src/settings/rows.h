/* The one table of what the program remembers of a person and her machine, apart from any job: what each setting may
 * be, what it is unless she says otherwise, and what it is for. */
#ifndef SETTINGS_ROWS_H
#define SETTINGS_ROWS_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

enum settings_name {
    SETTINGS_UNIT,
    SETTINGS_LANGUAGE,
    SETTINGS_NIGHT,
    SETTINGS_BENCH_SIZE,
    SETTINGS_PROJECTOR,
    SETTINGS_SIDE,
    SETTINGS_HAND,
    SETTINGS_STRIP,
    SETTINGS_WAY,
    SETTINGS_CHALK,
    SETTINGS_ROOM_LUX,
    SETTINGS_LIGHT_LUX,
    SETTINGS_LOCKOUT_MS,
    SETTINGS_KEYS,
    SETTINGS_CAUTIONED,
    SETTINGS_RECENT,
    SETTINGS_COUNT
};

/* What the words of a setting mean, in the order they stand in its row; the first is the usual one. */
enum { SETTINGS_UNIT_AS_WRITTEN, SETTINGS_UNIT_INCHES, SETTINGS_UNIT_CM };
enum { SETTINGS_LANGUAGE_AS_DESKTOP, SETTINGS_LANGUAGE_ENGLISH, SETTINGS_LANGUAGE_GERMAN };
enum { SETTINGS_NIGHT_NOT_SAID, SETTINGS_NIGHT_YES, SETTINGS_NIGHT_NO };
enum { SETTINGS_NEAR, SETTINGS_RIGHT, SETTINGS_FAR, SETTINGS_LEFT }; /* SETTINGS_SIDE and SETTINGS_STRIP */
enum { SETTINGS_HAND_RIGHT, SETTINGS_HAND_LEFT };
enum { SETTINGS_WAY_CUT_ON_LIGHT, SETTINGS_WAY_CHALK_ALL };
enum { SETTINGS_CHALK_AUTOMATIC }; /* the others are chalks by name */

enum settings_type { SETTINGS_WORD, SETTINGS_NUMBER, SETTINGS_TEXT, SETTINGS_DATE, SETTINGS_TEXTS };

struct settings_row {
    const char *name;
    enum settings_type type;
    const char *const *words; /* of SETTINGS_WORD, ended by NULL; the first is the usual one */
    int least, most, usual;   /* of SETTINGS_NUMBER, which are whole; of SETTINGS_TEXTS `most` is how many */
    bool own;                 /* the program sees to it; a person only sets it back */
    const char *what;         /* what each text is, and its form; NULL where no text is needed */
    const char *help;
};

/* The whole table, SETTINGS_COUNT rows, by name. */
const struct settings_row *settings_rows(size_t *count);

/* The setting of that name; false when there is none. */
bool settings_find(const char *name, enum settings_name *out);

/* What the setting can be: "as written, inches or cm", "a whole number from 0 to 2000"; lives in `a`. */
const char *settings_allowed(struct arena *a, enum settings_name name);

#endif
