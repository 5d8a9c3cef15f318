/* What is remembered of the person, where it matters to a command. */
#include "base/file.h"
#include "cli/run.h"

#include <stdio.h>
#include <string.h>

_Static_assert((int)SETTINGS_NEAR == SCENE_NEAR && (int)SETTINGS_RIGHT == SCENE_RIGHT &&
                   (int)SETTINGS_FAR == SCENE_FAR && (int)SETTINGS_LEFT == SCENE_LEFT,
               "a side is remembered as the scene has it");

void cli_open_settings(struct cli_run *run)
{
    static const enum units_length units[] = { [SETTINGS_UNIT_INCHES] = UNITS_IN, [SETTINGS_UNIT_CM] = UNITS_CM };
    run->settings = settings_open(run->a, settings_path(run->a), run->settings_told);
    run->keys_are_read = false;
    if (settings_word(run->settings, SETTINGS_LANGUAGE) != SETTINGS_LANGUAGE_AS_DESKTOP || run->desktop_language)
        cli_speak(settings_word(run->settings, SETTINGS_LANGUAGE), run->desktop_language);
    int unit = settings_word(run->settings, SETTINGS_UNIT);
    run->unit_is_told = run->args.value[OPT_UNIT] || unit != SETTINGS_UNIT_AS_WRITTEN;
    if (!run->args.value[OPT_UNIT] && run->unit_is_told)
        run->unit = units[unit];
}

void cli_remember_job(struct cli_run *run, const char *path)
{
    struct err_list *told = base_err_list_create();
    bool ok = settings_put_first(run->settings, SETTINGS_RECENT, base_file_whole_path(run->a, path)) &&
              settings_save(run->settings, told);
    for (int i = 0; ok && i < told->count; i++)
        base_err_add(run->settings_told, told->items[i].kind, told->items[i].place, told->items[i].args);
    base_err_list_destroy(told);
}

bool cli_cautioned_today(const struct cli_run *run)
{
    const char *when = settings_text(run->settings, SETTINGS_CAUTIONED);
    return when && strcmp(when, cli_today(run->a)) == 0;
}

/* Months as the calendar has them, days left out: it is nothing that a day matters to. */
bool cli_cautioned_lately(const struct cli_run *run)
{
    enum { MONTHS = 6 };
    int then[2], now[2];
    const char *when = settings_text(run->settings, SETTINGS_CAUTIONED);
    return when && sscanf(when, "%4d-%2d", &then[0], &then[1]) == 2 &&
           sscanf(cli_today(run->a), "%4d-%2d", &now[0], &now[1]) == 2 &&
           12 * (now[0] - then[0]) + now[1] - then[1] < MONTHS;
}

void cli_remember_cautions(struct cli_run *run)
{
    if (!cli_cautioned_today(run) && settings_set_text(run->settings, SETTINGS_CAUTIONED, cli_today(run->a)))
        settings_save(run->settings, run->settings_told);
}

bool cli_show_cautions(struct cli_run *run)
{
    bool shows = !run->bench || !cli_cautioned_today(run);
    if (shows)
        cli_remember_cautions(run);
    return shows;
}

const char *cli_last_job(struct cli_run *run)
{
    const char *const *jobs;
    size_t count = settings_texts(run->settings, SETTINGS_RECENT, &jobs);
    for (size_t i = 0; i < count; i++)
        if (base_file_exists(jobs[i]))
            return jobs[i];
    return NULL;
}

bool cli_read_job(struct cli_run *run, struct job *job)
{
    if (!job_read(run->a, run->args.operand, job, run->errs))
        return false;
    cli_remember_job(run, run->args.operand);
    return true;
}

double cli_lockout_s(const struct cli_run *run)
{
    return settings_number(run->settings, SETTINGS_LOCKOUT_MS) / 1000.0;
}

const struct app_key_map *cli_given_keys(struct cli_run *run)
{
    const char *const *texts;
    size_t count = settings_texts(run->settings, SETTINGS_KEYS, &texts);
    if (!run->keys_are_read)
        run->keys = app_key_map_read(run->a, texts, count, run->settings_told);
    run->keys_are_read = true;
    return &run->keys;
}

struct app *cli_create_app(struct cli_run *run, const struct app_start *start)
{
    struct app_start with = *start;
    /* A ticket of the bench says it itself, and new ones there began with the setting. */
    with.chalks_all = !run->bench && settings_word(run->settings, SETTINGS_WAY) == SETTINGS_WAY_CHALK_ALL;
    struct app *app = app_create(run->a, &with, run->errs);
    if (!app)
        return NULL;
    app_set_side(app, settings_shown(run->a, run->settings, SETTINGS_SIDE));
    app_set_strip(app, settings_shown(run->a, run->settings, SETTINGS_STRIP));
    app_set_left_handed(app, settings_word(run->settings, SETTINGS_HAND) == SETTINGS_HAND_LEFT);
    app_stand(app);
    app_set_chalks(app, settings_shown(run->a, run->settings, SETTINGS_CHALK));
    app_set_room(app, settings_number(run->settings, SETTINGS_ROOM_LUX),
                 settings_number(run->settings, SETTINGS_LIGHT_LUX));
    app_set_lockout(app, cli_lockout_s(run));
    app_set_keys(app, cli_given_keys(run));
    return app;
}
