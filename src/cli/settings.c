/* What is remembered of the person and her machine: shown, and set by hand. */
#include "settings/settings.h"

#include "base/text.h"
#include "base/words.h"
#include "cli/run.h"

#include <string.h>

static const struct err_kind unknown_near = { "use.unknown_setting", ERR_FAULT,
                                              BASE_TR("“{0}” is no setting: did you mean “{1}”?") };
static const struct err_kind unknown = { "use.unknown_setting", ERR_FAULT,
                                         BASE_TR("“{0}” is no setting; without a name all are listed") };
static const struct err_kind wrong_value = { "use.wrong_setting", ERR_FAULT,
                                             BASE_TR("{0} can be {1}, not “{2}”; “default” sets it back") };
static const struct err_kind own = { "use.own_setting", ERR_FAULT,
                                     BASE_TR("{0} is seen to by the program itself; “default” empties it") };

static const struct settings_row *row_of(enum settings_name name)
{
    size_t count;
    return &settings_rows(&count)[name];
}

static bool find(struct cli_run *run, const char *word, enum settings_name *name)
{
    const char *names[SETTINGS_COUNT];
    if (settings_find(word, name))
        return true;
    for (int i = 0; i < SETTINGS_COUNT; i++)
        names[i] = row_of((enum settings_name)i)->name;
    const char *nearest = base_text_nearest(word, names, SETTINGS_COUNT);
    base_err(run->errs, nearest ? &unknown_near : &unknown, base_err_in_file(NULL), ERR_TEXT(word), ERR_TEXT(nearest));
    return false;
}

/* Texts stand below each other. */
static void say_value(struct cli_run *run, enum settings_name name)
{
    const struct settings_row *row = row_of(name);
    const char *const *texts;
    size_t count = row->type == SETTINGS_TEXTS ? settings_texts(run->settings, name, &texts) : 0;
    const char *shown = settings_shown(run->a, run->settings, name);
    if (!count)
        cli_say(run, "%-11s %s", row->name, *shown ? shown : base_tr_in("setting", "none"));
    for (size_t i = 0; i < count; i++)
        cli_say(run, "%-11s %s", i ? "" : row->name, texts[i]);
}

/* In text of one alone: what it can be, too. */
static void show(struct cli_run *run, enum settings_name name, struct json_out *list, bool alone)
{
    const struct settings_row *row = row_of(name);
    const char *allowed = settings_allowed(run->a, name);
    say_value(run, name);
    cli_say(run, "            %s", base_tr(row->help));
    if (alone && !row->own)
        cli_say(run, "            %s", base_arena_print(run->a, base_tr("It can be %s."), allowed));
    if (!list)
        return;
    struct json_out *object = json_out_object(list, NULL);
    json_out_text(object, "name", row->name);
    settings_write(object, "value", run->settings, name);
    json_out_bool(object, "usual", settings_is_usual(run->settings, name));
    json_out_text(object, "can_be", allowed);
    json_out_text(object, "help", base_tr(row->help));
}

static bool set(struct cli_run *run, enum settings_name name, const char *value)
{
    const struct settings_row *row = row_of(name);
    bool back = strcmp(value, "default") == 0;
    if (back)
        settings_forget(run->settings, name);
    else if (row->own)
        base_err(run->errs, &own, base_err_in_file(NULL), ERR_TEXT(row->name));
    else if (!settings_set_typed(run->settings, name, value))
        base_err(run->errs, &wrong_value, base_err_in_file(NULL), ERR_TEXT(row->name),
                 ERR_TEXT(settings_allowed(run->a, name)), ERR_TEXT(value));
    return run->errs->faults == 0;
}

/* As they stand in the file now: what was wrong there may have been mended by what was set. */
static bool save(struct cli_run *run)
{
    if (!settings_save(run->settings, run->errs))
        return false;
    base_err_list_destroy(run->settings_told);
    run->settings_told = base_err_list_create();
    cli_open_settings(run);
    return true;
}

int cli_run_settings(struct cli_run *run)
{
    const char *word = run->args.operand, *value = run->args.second;
    struct json_out *list = run->json ? json_out_list(run->json, "settings") : NULL;
    enum settings_name only = SETTINGS_COUNT;
    if (word && !find(run, word, &only))
        return CLI_WRONG_USE;
    if (value && !set(run, only, value))
        return CLI_WRONG_USE;
    if (value && !save(run))
        return CLI_FAULT;
    if (value && only == SETTINGS_KEYS)
        cli_given_keys(run);
    for (int i = 0; i < SETTINGS_COUNT; i++)
        if (!word || i == (int)only)
            show(run, (enum settings_name)i, list, word != NULL);
    const char *file = settings_file(run->settings);
    if (run->json)
        json_out_text(run->json, "file", file ? base_text_plain(run->a, file) : NULL);
    if (!word)
        cli_say(run, "\n%s",
                file ? base_arena_print(run->a, base_tr("Kept in %s"), file)
                     : base_tr("Without a home folder nothing is kept."));
    return CLI_OK;
}
