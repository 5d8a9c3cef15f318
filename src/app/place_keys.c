/* Every key of a layout at the table, once: what it does on which page. Help, `chalklight keys` and the tests read the
 * same rows. */
#include "app/key_lines.h"
#include "app/place.h"
#include "app/place_state.h"
#include "base/text.h"
#include "input/key.h"

#define ON(stage) (1u << (stage))
#define AIMING (ON(APP_PLACE_EDGE) | ON(APP_PLACE_SLIDE) | ON(APP_PLACE_MOVED))
#define CUT ON(APP_PLACE_CUT)
#define ANY (ON(APP_PLACE_STAGES) - 1)
#define UNTYPED (ANY & ~ON(APP_PLACE_GRAIN))

static void run_across(struct app *app, struct app_place_cloth *c, double mm)
{
    app_place_move_aim(app, c, vec2_scale(scene_side_right(app->side), mm));
}

static void run_away(struct app *app, struct app_place_cloth *c, double mm)
{
    app_place_move_aim(app, c, vec2_scale(scene_side_away(app->side), mm));
}

static void run_lies(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_lies(app, c);
}

static void run_exchange(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_exchange(app, c);
}

static void run_turn(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_turn(app, c);
}

static void run_take(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    if (!app_place_take_aim(app, c))
        return;
    if (c->stage == APP_PLACE_EDGE)
        app_place_to_grain(app, c);
    else if (c->stage == APP_PLACE_SLIDE)
        app_place_slid(app, c);
    else
        app_place_found_again(app, c);
}

static void run_other_aim(struct app *app, struct app_place_cloth *c, double by)
{
    (void)app;
    c->in_hand = (c->in_hand + c->aim_count + (by < 0 ? -1 : 1)) % c->aim_count;
}

static void run_leave_out(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_drop_aim(app, c);
}

static void run_other_edge(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_other_edge(app, c);
}

static void run_measured(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_measured(app, c);
}

static void run_rub_out(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)app, (void)unused;
    if (*c->typed[c->field])
        base_text_rub_out(c->typed[c->field]);
    else
        c->field = 0;
    c->grain_told = false;
}

static void run_other_field(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)app, (void)unused;
    c->field = !c->field;
}

static void run_to_lines(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)app, (void)unused;
    app_place_to_lines(c);
}

static void run_done(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_step_done(app, c);
}

static void run_undone(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_step_undone(app, c);
}

static void run_choose(struct app *app, struct app_place_cloth *c, double by)
{
    (void)app;
    app_place_choose_step(c, by < 0 ? -1 : 1);
}

static void run_moved(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_moved(app, c);
}

static void run_back(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)app, (void)unused;
    app_place_back(c);
}

static void run_other_cloth(struct app *app, struct app_place_cloth *c, double by)
{
    (void)c;
    app->place->now = (app->place->now + app->place->count + (size_t)(by < 0 ? -1 : 1)) % app->place->count;
}

static void run_pieces(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)c, (void)unused;
    app_place_show(app, false);
}

static const struct app_place_key key_rows[] = {
    { ON(APP_PLACE_LINES), KEY_ENTER, 0, run_lies, 0, "the cloth lies along the lines" },
    { ON(APP_PLACE_LINES) | ON(APP_PLACE_EDGE), KEY_CHAR + 'f', 0, run_exchange, 0,
      "the cloth stays, and the light comes to it; or the other way" },
    { ON(APP_PLACE_LINES), KEY_CHAR + 't', 0, run_turn, 0, "lines turned by a quarter" },
    { AIMING, KEY_LEFT, 0, run_across, -10, "nudge by 10 mm" },
    { AIMING, KEY_RIGHT, 0, run_across, +10, NULL },
    { AIMING, KEY_UP, 0, run_away, +10, NULL },
    { AIMING, KEY_DOWN, 0, run_away, -10, NULL },
    { AIMING, KEY_LEFT, MOD_SHIFT, run_across, -1, "by 1 mm" },
    { AIMING, KEY_RIGHT, MOD_SHIFT, run_across, +1, NULL },
    { AIMING, KEY_UP, MOD_SHIFT, run_away, +1, NULL },
    { AIMING, KEY_DOWN, MOD_SHIFT, run_away, -1, NULL },
    { AIMING, KEY_LEFT, MOD_CTRL, run_across, -0.2, "by 0.2 mm" },
    { AIMING, KEY_RIGHT, MOD_CTRL, run_across, +0.2, NULL },
    { AIMING, KEY_UP, MOD_CTRL, run_away, +0.2, NULL },
    { AIMING, KEY_DOWN, MOD_CTRL, run_away, -0.2, NULL },
    { AIMING, KEY_ENTER, 0, run_take, 0, "it lies there; after the last one, all do" },
    { AIMING, KEY_PAGE_DOWN, 0, run_other_aim, +1, "the next point, or the one before" },
    { AIMING, KEY_PAGE_UP, 0, run_other_aim, -1, NULL },
    { ON(APP_PLACE_SLIDE) | ON(APP_PLACE_MOVED), KEY_CHAR + 'x', 0, run_leave_out, 0, "leave this point out" },
    { ON(APP_PLACE_SLIDE) | ON(APP_PLACE_MOVED), KEY_SPACE, 0, run_other_edge, 0,
      "this point on another edge: across, or the cut end" },
    { ON(APP_PLACE_GRAIN), KEY_ENTER, 0, run_measured, 0, "take what is typed; nothing typed: not measured" },
    { ON(APP_PLACE_GRAIN), KEY_BACKSPACE, 0, run_rub_out, 0, "rub out" },
    { ON(APP_PLACE_GRAIN), KEY_PAGE_DOWN, 0, run_other_field, 0, "the other end" },
    { ON(APP_PLACE_GRAIN), KEY_PAGE_UP, 0, run_other_field, 0, NULL },
    { ON(APP_PLACE_EDGE) | ON(APP_PLACE_GRAIN), KEY_ESC, 0, run_to_lines, 0, "back to the lines" },
    { CUT, KEY_ENTER, 0, run_done, 0, "it is cut, or chalked" },
    { CUT, KEY_PAGE_DOWN, 0, run_choose, +1, "another piece first" },
    { CUT, KEY_PAGE_UP, 0, run_choose, -1, NULL },
    { CUT | ON(APP_PLACE_DONE), KEY_BACKSPACE, 0, run_undone, 0,
      "the one before is not; before the first: place anew" },
    { ON(APP_PLACE_SLIDE), KEY_ESC, 0, run_undone, 0, "back to what was done last" },
    { CUT | ON(APP_PLACE_DONE), KEY_CHAR + 'w', 0, run_moved, 0, "the cloth has moved: find its marks" },
    { ON(APP_PLACE_MOVED), KEY_ESC, 0, run_back, 0, "it has not" },
    { UNTYPED, KEY_CHAR + 'n', 0, run_other_cloth, +1, "the next cloth" },
    { UNTYPED, KEY_CHAR + 'l', 0, run_pieces, 0, "pieces one by one, without the layout" },
};

enum { KEY_ROWS = sizeof key_rows / sizeof key_rows[0] };

const struct app_place_key *app_place_key_rows(size_t *count)
{
    *count = KEY_ROWS;
    return key_rows;
}

/* Whatever prints is typed; the rest keeps its meaning. */
static bool type(struct app_place_cloth *c, int key, int mods)
{
    unsigned long point = input_key_printed(key, mods);
    if (!point)
        return false;
    base_text_type(c->typed[c->field], APP_PLACE_TYPED, point);
    c->grain_told = false;
    return true;
}

static const struct app_place_key *find_row(enum app_place_stage stage, int key, int mods)
{
    for (size_t i = 0; i < KEY_ROWS; i++)
        if ((key_rows[i].on & ON(stage)) && key_rows[i].key == key && key_rows[i].mods == mods)
            return &key_rows[i];
    return NULL;
}

bool app_place_press(struct app *app, int key, int mods, struct app_effects *effects)
{
    struct app_place_cloth *c = app_place_now(app);
    const struct app_place_key *row = find_row(c->stage, key, mods);
    *effects = (struct app_effects){ .redraw = true };
    if (row) {
        app->told = NULL;
        row->run(app, c, row->amount);
        return true;
    }
    if (c->stage != APP_PLACE_GRAIN || app_place_is_scrap(c) || !type(c, key, mods))
        return false;
    app->told = NULL;
    return true;
}

static size_t help_of(unsigned on, struct arena *a, const struct scene_help_line **out)
{
    struct app_key *keys = base_arena_alloc(a, KEY_ROWS, sizeof *keys);
    size_t count = 0;
    for (size_t i = 0; i < KEY_ROWS; i++)
        if (key_rows[i].on & on)
            keys[count++] = (struct app_key){ key_rows[i].key, key_rows[i].mods, key_rows[i].help };
    return app_key_lines(a, keys, count, out);
}

size_t app_place_help(const struct app *app, struct arena *a, const struct scene_help_line **out)
{
    return help_of(ON(app_place_now(app)->stage), a, out);
}

size_t app_layout_help_lines(struct arena *a, const struct scene_help_line **out)
{
    return help_of(ANY, a, out);
}
