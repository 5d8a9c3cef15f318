#include "cli/manner.h"

_Static_assert((int)JOB_CUT_ON_LIGHT == SETTINGS_WAY_CUT_ON_LIGHT && (int)JOB_CHALK_ALL == SETTINGS_WAY_CHALK_ALL,
               "a way of working is remembered as tickets have it");
_Static_assert((int)BENCH_AS_DESKTOP == SETTINGS_LANGUAGE_AS_DESKTOP &&
                   (int)BENCH_ENGLISH == SETTINGS_LANGUAGE_ENGLISH && (int)BENCH_GERMAN == SETTINGS_LANGUAGE_GERMAN,
               "a language is remembered as the bench has it");

struct bench_manner cli_manner(const struct cli_run *run)
{
    return (struct bench_manner){ .unit = run->unit == UNITS_MM ? UNITS_CM : run->unit,
                                  .language = (enum bench_language)settings_word(run->settings, SETTINGS_LANGUAGE),
                                  .night = settings_word(run->settings, SETTINGS_NIGHT) == SETTINGS_NIGHT_YES,
                                  .steps = -settings_number(run->settings, SETTINGS_BENCH_SIZE),
                                  .room_lux = settings_number(run->settings, SETTINGS_ROOM_LUX),
                                  .light_lux = settings_number(run->settings, SETTINGS_LIGHT_LUX),
                                  .left_handed = settings_word(run->settings, SETTINGS_HAND) == SETTINGS_HAND_LEFT,
                                  .side = settings_word(run->settings, SETTINGS_SIDE),
                                  .strip = settings_word(run->settings, SETTINGS_STRIP),
                                  .way = (enum job_way)settings_word(run->settings, SETTINGS_WAY) };
}

static void remember_word(struct settings *s, enum settings_name name, int word)
{
    if (word != settings_word(s, name))
        settings_set_word(s, name, word);
}

/* What is not told stays so. */
static void remember_number(struct settings *s, enum settings_name name, int number)
{
    if (number != settings_number(s, name))
        settings_set_number(s, name, number);
}

bool cli_remember_manner(struct cli_run *run, struct bench_manner manner)
{
    struct settings *s = run->settings;
    settings_set_word(s, SETTINGS_UNIT, manner.unit == UNITS_IN ? SETTINGS_UNIT_INCHES : SETTINGS_UNIT_CM);
    settings_set_word(s, SETTINGS_NIGHT, manner.night ? SETTINGS_NIGHT_YES : SETTINGS_NIGHT_NO);
    settings_set_number(s, SETTINGS_BENCH_SIZE, -manner.steps);
    remember_number(s, SETTINGS_ROOM_LUX, manner.room_lux);
    remember_number(s, SETTINGS_LIGHT_LUX, manner.light_lux);
    remember_word(s, SETTINGS_HAND, manner.left_handed ? SETTINGS_HAND_LEFT : SETTINGS_HAND_RIGHT);
    remember_word(s, SETTINGS_SIDE, manner.side);
    remember_word(s, SETTINGS_STRIP, manner.strip);
    remember_word(s, SETTINGS_WAY, (int)manner.way);
    bool speaks_anew = (int)manner.language != settings_word(s, SETTINGS_LANGUAGE);
    if (speaks_anew) {
        settings_set_word(s, SETTINGS_LANGUAGE, (int)manner.language);
        cli_speak((int)manner.language, run->desktop_language);
    }
    settings_save(s, run->settings_told);
    return speaks_anew;
}
