/* Every key of a layout at the table, once: what it does on which page. Help, `chalklight keys` and the tests read the
 * same rows. */
#include "app/place.h"
#include "app/place_state.h"
#include "base/text.h"
#include "base/words.h"
#include "input/key.h"

#include <ctype.h>
#include <string.h>

#define ON(stage) (1u << (stage))
#define AIMING (ON(APP_PLACE_EDGE) | ON(APP_PLACE_SLIDE) | ON(APP_PLACE_MOVED))
#define CUT ON(APP_PLACE_CUT)
#define WORKING (CUT | ON(APP_PLACE_LAMP))
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

static void run_tick(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)unused;
    app_place_step_ticked(app, c);
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
    (void)unused;
    app_place_back(app, c);
}

/* Once round, and where there is no other. */
static const char *no_more_text(const struct app *app)
{
    const char *lacks = app_place_not_laid_out(app);
    if (lacks)
        /* To: “interfacing” */
        return base_arena_print(
            app->a, base_tr("The %s has no layout yet: make it in the overview (F12), under Layout"), lacks);
    return app->place->count == 1 ? base_tr("Everything on this ticket is cut from this cloth") : NULL;
}

static void run_other_cloth(struct app *app, struct app_place_cloth *c, double by)
{
    (void)c;
    app->place->now = (app->place->now + app->place->count + (size_t)(by < 0 ? -1 : 1)) % app->place->count;
    app_attend_surface(app);
    if (app->place->now == 0)
        app->told = no_more_text(app);
}

static void run_pieces(struct app *app, struct app_place_cloth *c, double unused)
{
    (void)c, (void)unused;
    app_place_show(app, false);
}

static const struct app_place_key key_rows[] = {
    { { ON(APP_PLACE_LINES), KEY_ENTER, 0, BASE_TR("the cloth lies along the lines") }, run_lies, 0 },
    { { ON(APP_PLACE_LINES) | ON(APP_PLACE_EDGE), KEY_CHAR + 'f', 0,
        BASE_TR("the cloth stays, and the light comes to it; or the other way") },
      run_exchange,
      0 },
    { { ON(APP_PLACE_LINES), KEY_CHAR + 't', 0, BASE_TR("lines turned by a quarter") }, run_turn, 0 },
    { { AIMING, KEY_LEFT, 0, BASE_TR("nudge by 10 mm") }, run_across, -10 },
    { { AIMING, KEY_RIGHT, 0, NULL }, run_across, +10 },
    { { AIMING, KEY_UP, 0, NULL }, run_away, +10 },
    { { AIMING, KEY_DOWN, 0, NULL }, run_away, -10 },
    { { AIMING, KEY_LEFT, MOD_SHIFT, BASE_TR("by 1 mm") }, run_across, -1 },
    { { AIMING, KEY_RIGHT, MOD_SHIFT, NULL }, run_across, +1 },
    { { AIMING, KEY_UP, MOD_SHIFT, NULL }, run_away, +1 },
    { { AIMING, KEY_DOWN, MOD_SHIFT, NULL }, run_away, -1 },
    { { AIMING, KEY_LEFT, MOD_CTRL, BASE_TR("by 0.2 mm") }, run_across, -0.2 },
    { { AIMING, KEY_RIGHT, MOD_CTRL, NULL }, run_across, +0.2 },
    { { AIMING, KEY_UP, MOD_CTRL, NULL }, run_away, +0.2 },
    { { AIMING, KEY_DOWN, MOD_CTRL, NULL }, run_away, -0.2 },
    { { AIMING, KEY_ENTER, 0, BASE_TR("it lies there; after the last one, all do") }, run_take, 0 },
    { { AIMING, KEY_PAGE_DOWN, 0, BASE_TR("the next point, or the one before") }, run_other_aim, +1 },
    { { AIMING, KEY_PAGE_UP, 0, NULL }, run_other_aim, -1 },
    { { ON(APP_PLACE_SLIDE) | ON(APP_PLACE_MOVED), KEY_CHAR + 'x', 0, BASE_TR("leave this point out") },
      run_leave_out,
      0 },
    { { ON(APP_PLACE_SLIDE) | ON(APP_PLACE_MOVED), KEY_SPACE, 0,
        BASE_TR("this point on another edge: across, or the cut end") },
      run_other_edge,
      0 },
    { { ON(APP_PLACE_GRAIN), KEY_ENTER, 0, BASE_TR("take what is typed; nothing typed: not measured") },
      run_measured,
      0 },
    { { ON(APP_PLACE_GRAIN), KEY_BACKSPACE, 0, BASE_TR("rub out") }, run_rub_out, 0 },
    { { ON(APP_PLACE_GRAIN), KEY_PAGE_DOWN, 0, BASE_TR("the other end") }, run_other_field, 0 },
    { { ON(APP_PLACE_GRAIN), KEY_PAGE_UP, 0, NULL }, run_other_field, 0 },
    { { ON(APP_PLACE_EDGE) | ON(APP_PLACE_GRAIN), KEY_ESC, 0, BASE_TR("back to the lines") }, run_to_lines, 0 },
    { { WORKING, KEY_ENTER, 0, BASE_TR("it is done; then what comes next of this piece") }, run_done, 0 },
    { { WORKING, KEY_ENTER, MOD_SHIFT, BASE_TR("all of this piece is done") }, run_tick, 0 },
    { { WORKING, KEY_PAGE_DOWN, 0, BASE_TR("another piece first") }, run_choose, +1 },
    { { WORKING, KEY_PAGE_UP, 0, NULL }, run_choose, -1 },
    { { WORKING | ON(APP_PLACE_DONE), KEY_BACKSPACE, 0,
        BASE_TR("the one before is not; before the first: place anew") },
      run_undone,
      0 },
    { { ON(APP_PLACE_SLIDE), KEY_ESC, 0, BASE_TR("back to what was done last") }, run_undone, 0 },
    { { ON(APP_PLACE_SLIDE), KEY_BACKSPACE, 0, NULL }, run_undone, 0 },
    { { CUT | ON(APP_PLACE_DONE), KEY_CHAR + 'w', 0, BASE_TR("the cloth has moved: find its marks") }, run_moved, 0 },
    { { ON(APP_PLACE_MOVED), KEY_ESC, 0, BASE_TR("it has not") }, run_back, 0 },
    { { UNTYPED, KEY_CHAR + 'n', 0, BASE_TR("the next cloth") }, run_other_cloth, +1 },
    { { UNTYPED, KEY_CHAR + 'l', 0, BASE_TR("pieces one by one, without the layout") }, run_pieces, 0 },
};

static const struct app_key_table key_table = { key_rows, sizeof key_rows / sizeof key_rows[0], sizeof key_rows[0],
                                                APP_KEYS_CUT };

const struct app_place_key *app_place_key_rows(size_t *count)
{
    *count = key_table.count;
    return key_rows;
}

/* A letter is part of a length only as its unit, behind the number. */
static bool is_of_length(const char *typed, unsigned long point)
{
    bool is_letter = point < 128 && isalpha((int)point);
    return !is_letter || strpbrk(typed, "0123456789");
}

/* Whatever prints is typed, unless no length is written so; the rest keeps its meaning. */
static bool type(struct app_place_cloth *c, int key, int mods)
{
    unsigned long point = input_key_printed(key, mods);
    if (!point)
        return false;
    if (is_of_length(c->typed[c->field], point))
        base_text_type(c->typed[c->field], APP_PLACE_TYPED, point);
    c->grain_told = false;
    return true;
}

/* What says that something is done, or is not after all. */
static bool is_tick(const struct app_place_key *row)
{
    return row->run == run_done || row->run == run_tick || row->run == run_undone || row->run == run_take ||
           row->run == run_lies;
}

bool app_place_press(struct app *app, int key, int mods, struct app_effects *effects)
{
    struct app_place_cloth *c = app_place_now(app);
    const struct app_place_key *row = app_find_row(&key_table, ON(c->stage), key, mods);
    *effects = (struct app_effects){ .redraw = true };
    if (row && is_tick(row) && !app_lockout_takes(&app->lockout, &app->pressed)) {
        effects->redraw = false;
        return true;
    }
    if (row) {
        app->told = NULL;
        row->run(app, c, row->amount);
        return true;
    }
    if (!app_place_is_typed_on(app) || !type(c, key, mods))
        return false;
    app->told = NULL;
    return true;
}

bool app_place_is_typed_on(const struct app *app)
{
    const struct app_place_cloth *c = app_place_now(app);
    return c->stage == APP_PLACE_GRAIN && !app_place_is_scrap(c);
}

bool app_place_steer(struct app *app, vec2 by)
{
    struct app_place_cloth *c = app_place_now(app);
    if (!(AIMING & ON(c->stage)))
        return false;
    run_across(app, c, by.x);
    run_away(app, c, by.y);
    return true;
}

size_t app_place_help(const struct app *app, struct arena *a, const struct scene_help_line **out)
{
    return app_table_lines(a, &key_table, &app->keys, ON(app_place_now(app)->stage), out);
}

size_t app_layout_help_lines(struct arena *a, const struct app_key_map *map, const struct scene_help_line **out)
{
    return app_table_lines(a, &key_table, map, ANY, out);
}
