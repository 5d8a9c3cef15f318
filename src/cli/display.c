/* Which display the light is on, and what stands beside it. */
#include "cli/display.h"

#include "base/words.h"

#include <stdlib.h>
#include <string.h>

static const struct err_kind no_display = { "cut.no_display", ERR_FAULT,
                                            BASE_TR("there is no display {0}; there are {1}") };
static const struct err_kind projector_away = {
    "cut.projector_away", ERR_WARNING,
    BASE_TR("the projector “{0}” was not connected; the light was on the only display, “{1}”. Connect it; where there "
            "are several displays you are asked for it")
};

int cli_find_display(const struct screen_display *displays, int count, const char *name, int width, int height)
{
    int found = -1;
    for (int i = count - 1; i >= 0; i--) {
        if (strcmp(displays[i].name, name) != 0)
            continue;
        if (displays[i].width == width && displays[i].height == height)
            return i;
        if (found < 0)
            found = i;
    }
    return found;
}

static int remembered(struct cli_run *run, const struct screen_display *displays, int count, int width, int height)
{
    const char *name = settings_text(run->settings, SETTINGS_PROJECTOR);
    return name ? cli_find_display(displays, count, name, width, height) : -1;
}

int cli_projector(struct cli_run *run)
{
    struct screen_display displays[SCREEN_MOST_DISPLAYS];
    int count = screen_list(displays, run->errs);
    return remembered(run, displays, count, 0, 0);
}

/* Where no option tells. */
static int usual_display(struct cli_run *run, const struct screen_display *displays, int count, int width, int height)
{
    const char *projector = settings_text(run->settings, SETTINGS_PROJECTOR);
    int found = remembered(run, displays, count, width, height);
    if (found >= 0)
        return found;
    if (count > 1)
        return cli_ask_projector(run, displays, count);
    if (projector)
        base_err(run->errs, &projector_away, base_err_in_file(NULL), ERR_TEXT(projector), ERR_TEXT(displays[0].name));
    return 0;
}

int cli_choose_display(struct cli_run *run, int width, int height)
{
    struct screen_display displays[SCREEN_MOST_DISPLAYS];
    int count = screen_list(displays, run->errs);
    const char *asked = run->args.value[OPT_DISPLAY];
    if (!count)
        return -1;
    if (asked) {
        char *end;
        long number = strtol(asked, &end, 10);
        if (*asked && !*end && number >= 1 && number <= count)
            return (int)number - 1;
        base_err(run->errs, &no_display, base_err_in_file(NULL), ERR_TEXT(asked), ERR_NUMBER(count));
        return -1;
    }
    return usual_display(run, displays, count, width, height);
}

static bool has_layout(const struct job *job)
{
    for (size_t i = 0; i < job->cloth_count; i++)
        if (job->cloths[i].laid_count)
            return true;
    return false;
}

/* Every line of the notes: what is cut, the cautions, the keys. */
static int note_lines(struct cli_run *run, const struct job *job, struct screen_note_line **out)
{
    const struct scene_help_line *keys, *layout_keys;
    const char *const *cautions;
    size_t caution_count = app_cautions(&cautions), key_count = app_help_lines(run->a, cli_given_keys(run), &keys);
    size_t layout_count = has_layout(job) ? app_layout_help_lines(run->a, cli_given_keys(run), &layout_keys) : 0;
    struct screen_note_line *lines =
                                base_arena_alloc(run->a, caution_count + key_count + layout_count + 4, sizeof *lines),
                            *line = lines;
    *line++ = (struct screen_note_line){ SCREEN_NOTE_TITLE, job->pattern->name, NULL };
    *line++ = (struct screen_note_line){
        SCREEN_NOTE_LINE,
        base_arena_print(run->a, "%s, %s", job->pattern->views[job->view].label, job_whom_text(run->a, job)), NULL
    };
    for (size_t i = 0; i < caution_count; i++)
        *line++ =
            (struct screen_note_line){ i ? SCREEN_NOTE_WARNING : SCREEN_NOTE_HEADING, base_tr(cautions[i]), NULL };
    *line++ = (struct screen_note_line){ SCREEN_NOTE_HEADING, base_tr("Keys"), NULL };
    for (size_t i = 0; i < key_count; i++)
        *line++ = (struct screen_note_line){ SCREEN_NOTE_LINE, keys[i].key, keys[i].what };
    if (layout_count)
        *line++ = (struct screen_note_line){ SCREEN_NOTE_HEADING, base_tr("Keys of the layout"), NULL };
    for (size_t i = 0; i < layout_count; i++)
        *line++ = (struct screen_note_line){ SCREEN_NOTE_LINE, layout_keys[i].key, layout_keys[i].what };
    *out = lines;
    return (int)(line - lines);
}

struct screen_notes *cli_open_notes(struct cli_run *run, int light_display, const struct job *job)
{
    struct screen_display displays[SCREEN_MOST_DISPLAYS];
    struct screen_note_line *lines;
    if (run->bench || (!run->args.value[OPT_NOTES] && screen_list(displays, run->errs) < 2))
        return NULL;
    struct screen_notes *notes = screen_notes_open(light_display, base_tr("Chalklight: notes"), run->errs);
    if (!notes)
        return NULL;
    int count = note_lines(run, job, &lines);
    screen_notes_show(notes, lines, count);
    return notes;
}
