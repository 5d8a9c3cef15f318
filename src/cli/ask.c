/* Which display is the projector: a large number on each, and she types the one that she sees on the table. */
#include "base/words.h"
#include "cli/display.h"
#include "cli/light.h"
#include "input/key.h"
#include "scene/number.h"

static const struct err_kind not_told = {
    "cut.not_told", ERR_FAULT,
    BASE_TR("it was not told which display is the projector, so nothing is shown. Begin again and type its number, or "
            "name it with --display")
};

struct asking {
    struct cli_run *run;
    const struct screen_display *displays;
    int count;
    struct cli_light *lights[SCREEN_MOST_DISPLAYS];
    struct text_font *font;
};

static void draw(struct asking *ask, int i)
{
    const struct screen_display *display = &ask->displays[i];
    struct arena *a = cli_light_begin(ask->lights[i]);
    struct scene_number_view view = { .font = ask->font, .number = i + 1 };
    cli_light_size(ask->lights[i], &view.width_px, &view.height_px);
    view.lines[0] = base_tr("Which number is on your cutting table? Type it.");
    view.lines[1] = base_tr("It is remembered. Esc: leave it open.");
    view.lines[2] = base_arena_print(a, "%s, %d × %d", display->name, view.width_px, view.height_px);
    struct paint_scene scene = scene_number(a, &view);
    struct cli_run quiet = *ask->run;
    quiet.errs = base_err_list_create(); /* a window whose size changes is shown the next picture */
    cli_light_show(ask->lights[i], &quiet, &scene, NULL);
    base_err_list_destroy(quiet.errs);
}

static bool leaves(struct input_event e)
{
    bool keys = e.type == INPUT_KEY && (e.key == KEY_ESC || (e.key == KEY_CHAR + 'q' && e.mods == MOD_CTRL));
    return keys || e.type == INPUT_QUIT;
}

static int wait_for_number(struct asking *ask)
{
    for (int i = 0; i < ask->count; i++)
        draw(ask, i);
    for (;;) {
        struct input_event e = cli_light_wait_any(ask->lights, ask->count);
        int number = e.type == INPUT_KEY && !e.mods ? e.key - (KEY_CHAR + '0') : 0;
        if (number >= 1 && number <= ask->count)
            return number - 1;
        if (leaves(e))
            return -1;
        if (e.type == INPUT_SIZE || e.type == INPUT_EXPOSE)
            draw(ask, e.window);
    }
}

static bool open_all(struct asking *ask)
{
    struct cli_run alone = *ask->run;
    alone.bench = NULL; /* it stays where it is, below the number */
    ask->font = text_font_open(ask->run->errs);
    bool ok = ask->font != NULL;
    for (int i = 0; ok && i < ask->count; i++) {
        ask->lights[i] = cli_light_open(&alone, i);
        ok = ask->lights[i] != NULL;
    }
    return ok;
}

int cli_ask_projector(struct cli_run *run, const struct screen_display *displays, int count)
{
    struct asking ask = { .run = run, .displays = displays, .count = count };
    bool opened = open_all(&ask);
    int found = opened ? wait_for_number(&ask) : -1;
    for (int i = 0; i < count; i++)
        cli_light_close(ask.lights[i]);
    text_font_close(ask.font);
    if (found >= 0 && settings_set_text(run->settings, SETTINGS_PROJECTOR, displays[found].name))
        settings_save(run->settings, run->settings_told);
    if (opened && found < 0)
        base_err(run->errs, &not_told, base_err_in_file(NULL), ERR_NONE);
    return found;
}
