#include "settings/rows.h"

#include "base/words.h"

#include <string.h>

#define WORDS(...) ((const char *const[]){ __VA_ARGS__, NULL })

/* Numbers are our own choice, but for the lock-out: a foot switch bounces and repeats for some tenths of a second
 * (common practice, no source), and the room's light, 300 lx, as is usual in homes by lamplight (common practice). */
static const struct settings_row rows[SETTINGS_COUNT] = {
    [SETTINGS_UNIT] = { .name = "unit",
                        .type = SETTINGS_WORD,
                        .words = WORDS("as written", "inches", "cm"),
                        .help =
                            BASE_TR("lengths that you read, and bare numbers that you type; “as written”: as in your "
                                    "measurements, else the pattern") },
    [SETTINGS_LANGUAGE] = { .name = "language",
                            .type = SETTINGS_WORD,
                            .words = WORDS("as the desktop", "English", "German"),
                            .help = BASE_TR("what the program speaks") },
    [SETTINGS_NIGHT] = { .name = "night",
                         .type = SETTINGS_WORD,
                         .words = WORDS("not said", "yes", "no"),
                         .help = BASE_TR("light letters on dark in the overview; “not said”: the program chooses") },
    [SETTINGS_BENCH_SIZE] = { .name = "bench_size",
                              .type = SETTINGS_NUMBER,
                              .least = -2,
                              .most = 0,
                              .help = BASE_TR("the size of the overview’s letters: 0 as large as fits, down to -2") },
    [SETTINGS_PROJECTOR] = { .name = "projector",
                             .type = SETTINGS_TEXT,
                             .what = BASE_TR("the display's name, as the desktop gives it"),
                             .help = BASE_TR("the display that is the projector, where it is connected") },
    [SETTINGS_SIDE] = { .name = "side",
                        .type = SETTINGS_WORD,
                        .words = WORDS("near", "right", "far", "left"),
                        .help = BASE_TR("the side of the table where you stand at first") },
    [SETTINGS_HAND] = { .name = "hand",
                        .type = SETTINGS_WORD,
                        .words = WORDS("right", "left"),
                        .help = BASE_TR("the hand that cuts") },
    [SETTINGS_STRIP] = { .name = "strip",
                         .type = SETTINGS_WORD,
                         .words = WORDS("near", "right", "far", "left"),
                         .help = BASE_TR("the edge of the light that the large words stand on, as you see it") },
    [SETTINGS_WAY] = { .name = "way",
                       .type = SETTINGS_WORD,
                       .words = WORDS("cut on the light", "chalk all"),
                       .help = BASE_TR(
                           "how you work: each piece cut on its light, or all chalked first and cut without it") },
    [SETTINGS_CHALK] = { .name = "chalk",
                         .type = SETTINGS_WORD,
                         .words = WORDS("automatic", "white", "lemon", "apricot", "rose", "mint", "sky"),
                         .help = BASE_TR("the colour of light that lines are drawn in at first; “automatic”: by the "
                                         "cloth’s colour") },
    [SETTINGS_ROOM_LUX] = { .name = "room_lux",
                            .type = SETTINGS_NUMBER,
                            .least = 1,
                            .most = 50000,
                            .usual = 300,
                            .help = BASE_TR("how bright the room’s light is on the table, in lux: a dim room 100, by a "
                                            "window 1000") },
    [SETTINGS_LIGHT_LUX] = { .name = "light_lux",
                             .type = SETTINGS_NUMBER,
                             .least = 1,
                             .most = 50000,
                             .usual = 1200,
                             .help = BASE_TR("how bright the projector’s white is on the table, in lux: its lumens "
                                             "shared out over the square metres that it lights") },
    [SETTINGS_LOCKOUT_MS] = { .name = "lockout_ms",
                              .type = SETTINGS_NUMBER,
                              .least = 0,
                              .most = 2000,
                              .usual = 400,
                              .help = BASE_TR(
                                  "how long after a tick the next one is not taken, in thousandths of a second") },
    [SETTINGS_KEYS] = { .name = "keys",
                        .type = SETTINGS_TEXTS,
                        .most = 100,
                        .what = BASE_TR("“action = key”"),
                        .help = BASE_TR("keys that you gave to actions") },
    [SETTINGS_CAUTIONED] = { .name = "cautioned",
                             .type = SETTINGS_DATE,
                             .own = true,
                             .help = BASE_TR("when the cautions were shown last") },
    [SETTINGS_RECENT] = { .name = "recent",
                          .type = SETTINGS_TEXTS,
                          .most = 10,
                          .own = true,
                          .what = BASE_TR("a job's path"),
                          .help = BASE_TR("the jobs that were open last, newest first") },
};

const struct settings_row *settings_rows(size_t *count)
{
    *count = SETTINGS_COUNT;
    return rows;
}

bool settings_find(const char *name, enum settings_name *out)
{
    for (int i = 0; i < SETTINGS_COUNT; i++)
        if (strcmp(rows[i].name, name) == 0) {
            *out = (enum settings_name)i;
            return true;
        }
    return false;
}

/* "near, right, far or left": words as they are typed, in any language. */
static const char *one_of(struct arena *a, const char *const *words)
{
    const char *text = words[0];
    for (size_t i = 1; words[i]; i++)
        text = words[i + 1] ? base_arena_print(a, "%s, %s", text, words[i])
                            : base_arena_print(a, base_tr_in("the last of a list", "%s or %s"), text, words[i]);
    return text;
}

const char *settings_allowed(struct arena *a, enum settings_name name)
{
    const struct settings_row *row = &rows[name];
    switch (row->type) {
    case SETTINGS_WORD:
        return one_of(a, row->words);
    case SETTINGS_NUMBER:
        return base_arena_print(a, base_tr("a whole number from %d to %d"), row->least, row->most);
    case SETTINGS_TEXT:
        return base_tr(row->what);
    case SETTINGS_DATE:
        return base_tr("a day, such as 2026-11-25");
    case SETTINGS_TEXTS:
        return base_arena_print(a, base_tr("a list of up to %d, each %s"), row->most, base_tr(row->what));
    }
    return "";
}
