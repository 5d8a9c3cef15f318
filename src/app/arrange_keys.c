/* Every key of arranging pieces on cloth, once. Help, `chalklight keys` and the tests read the same rows. */
#include "app/arrange_state.h"
#include "app/key_lines.h"
#include "input/key.h"

typedef struct app_arrange_effects effects;

static const effects nothing;

/* --- pieces and cloths ------------------------------------------------------------------------------------------- */

/* Round the pieces in the order of the cutting list, and past none in hand between the last and the first. */
static effects run_piece(struct app_arrange *ar, double by)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    size_t ways = cloth->task.item_count + 1;
    cloth->in_hand = (cloth->in_hand + ways + (size_t)(by < 0 ? -1 : 1)) % ways;
    if (cloth->deed != APP_ARRANGE_FOUND) /* a search goes on meanwhile */
        cloth->deed = APP_ARRANGE_ELSE;
    return app_arrange_redraw;
}

static effects run_cloth(struct app_arrange *ar, double which)
{
    size_t cloth = (size_t)which;
    if (cloth >= ar->cloth_count)
        return app_arrange_tell(ar, "This job has no more than %zu cloth%s", ar->cloth_count,
                                ar->cloth_count == 1 ? "" : "s");
    ar->cloth = cloth;
    return app_arrange_redraw;
}

/* --- by hand ----------------------------------------------------------------------------------------------------- */

static effects run_right(struct app_arrange *ar, double mm)
{
    return app_arrange_move(ar, (vec2){ mm, 0 });
}

static effects run_away(struct app_arrange *ar, double mm)
{
    return app_arrange_move(ar, (vec2){ 0, mm });
}

static effects run_slide_right(struct app_arrange *ar, double way)
{
    return app_arrange_slide(ar, (vec2){ way, 0 });
}

static effects run_slide_away(struct app_arrange *ar, double way)
{
    return app_arrange_slide(ar, (vec2){ 0, way });
}

static effects run_turn(struct app_arrange *ar, double deg)
{
    return app_arrange_turn(ar, deg);
}

static effects run_end_for_end(struct app_arrange *ar, double unused)
{
    (void)unused;
    return app_arrange_end_for_end(ar);
}

static effects run_turn_over(struct app_arrange *ar, double unused)
{
    (void)unused;
    return app_arrange_turn_over(ar);
}

static effects run_butt(struct app_arrange *ar, double unused)
{
    (void)unused;
    return app_arrange_butt(ar);
}

static effects run_hold(struct app_arrange *ar, double unused)
{
    (void)unused;
    return app_arrange_hold(ar);
}

static effects run_take_off(struct app_arrange *ar, double unused)
{
    (void)unused;
    return app_arrange_take_off(ar);
}

/* --- arranging --------------------------------------------------------------------------------------------------- */

static effects run_anew(struct app_arrange *ar, double unused)
{
    (void)unused;
    struct app_arranged *cloth = app_arrange_now(ar);
    if (!cloth->refused)
        app_arrange_begin_search(ar, cloth);
    return app_arrange_changed;
}

static effects run_go_on(struct app_arrange *ar, double unused)
{
    (void)unused;
    struct app_arranged *cloth = app_arrange_now(ar);
    if (cloth->searching)
        app_arrange_stop(cloth);
    else if (!cloth->refused)
        app_arrange_go_on(ar, cloth);
    return app_arrange_changed;
}

static effects run_step(struct app_arrange *ar, double by)
{
    struct app_arranged *cloth = app_arrange_now(ar);
    app_arrange_end_search(cloth);
    if (app_arrange_step_by(cloth, (int)by))
        return app_arrange_changed;
    return app_arrange_tell(ar, by < 0 ? "There is nothing to undo" : "There is nothing to do again");
}

/* --- the table --------------------------------------------------------------------------------------------------- */

static effects run_side(struct app_arrange *ar, double by)
{
    ar->side = (enum scene_side)(((int)ar->side + (int)by) % SCENE_SIDES);
    return app_arrange_redraw;
}

static effects run_chalks(struct app_arrange *ar, double by)
{
    ar->chalks = (ar->chalks + (int)by) % SCENE_CHALKS;
    return app_arrange_redraw;
}

static effects run_help(struct app_arrange *ar, double unused)
{
    (void)unused;
    ar->help = !ar->help;
    return app_arrange_redraw;
}

static effects run_back(struct app_arrange *ar, double unused)
{
    (void)unused;
    struct app_arranged *cloth = app_arrange_now(ar);
    cloth->in_hand = cloth->task.item_count;
    return app_arrange_redraw;
}

static effects run_quit(struct app_arrange *ar, double unused)
{
    (void)ar, (void)unused;
    return (effects){ .keep = true, .quit = true };
}

/* --- the table of keys ------------------------------------------------------------------------------------------- */

/* `help` NULL: it does the same as the row before. */
static const struct arrange_key {
    int key, mods;
    effects (*run)(struct app_arrange *ar, double amount);
    double amount;
    const char *help;
} key_rows[] = {
    { KEY_PAGE_DOWN, 0, run_piece, +1, "take the next or previous piece in hand" },
    { KEY_PAGE_UP, 0, run_piece, -1, NULL },
    { KEY_LEFT, 0, run_right, -10, "move it by 10 mm" },
    { KEY_RIGHT, 0, run_right, +10, NULL },
    { KEY_UP, 0, run_away, +10, NULL },
    { KEY_DOWN, 0, run_away, -10, NULL },
    { KEY_LEFT, MOD_SHIFT, run_right, -1, "by 1 mm" },
    { KEY_RIGHT, MOD_SHIFT, run_right, +1, NULL },
    { KEY_UP, MOD_SHIFT, run_away, +1, NULL },
    { KEY_DOWN, MOD_SHIFT, run_away, -1, NULL },
    { KEY_LEFT, MOD_CTRL, run_right, -0.2, "by 0.2 mm" },
    { KEY_RIGHT, MOD_CTRL, run_right, +0.2, NULL },
    { KEY_UP, MOD_CTRL, run_away, +0.2, NULL },
    { KEY_DOWN, MOD_CTRL, run_away, -0.2, NULL },
    { KEY_LEFT, MOD_ALT, run_slide_right, -1, "slide it until it touches something" },
    { KEY_RIGHT, MOD_ALT, run_slide_right, +1, NULL },
    { KEY_UP, MOD_ALT, run_slide_away, +1, NULL },
    { KEY_DOWN, MOD_ALT, run_slide_away, -1, NULL },
    { KEY_CHAR + 'b', 0, run_butt, 0, "butt it against its neighbours" },
    { KEY_CHAR + 't', 0, run_end_for_end, 0, "turn it end for end" },
    { KEY_CHAR + ',', 0, run_turn, +1, "turn it by 1°, off the grain" },
    { KEY_CHAR + '.', 0, run_turn, -1, NULL },
    { KEY_CHAR + ',', MOD_CTRL, run_turn, +0.1, "by 0.1°" },
    { KEY_CHAR + '.', MOD_CTRL, run_turn, -0.1, NULL },
    { KEY_CHAR + 'o', 0, run_turn_over, 0, "turn it over, where it may lie either way" },
    { KEY_CHAR + 'p', 0, run_hold, 0, "hold it in place (a dot by its name), or let it go" },
    { KEY_CHAR + 'x', 0, run_take_off, 0, "take it off the cloth, or lay it on" },
    { KEY_ENTER, 0, run_anew, 0, "arrange the rest again, about what is held in place" },
    { KEY_CHAR + 'r', 0, run_anew, 0, NULL },
    { KEY_SPACE, 0, run_go_on, 0, "stop arranging, or go on" },
    { KEY_CHAR + 'z', 0, run_step, -1, "undo" },
    { KEY_CHAR + 'z', MOD_CTRL, run_step, -1, NULL },
    { KEY_CHAR + 'y', 0, run_step, +1, "do it again" },
    { KEY_CHAR + 'y', MOD_CTRL, run_step, +1, NULL },
    { KEY_F2, 0, run_cloth, 0, "the first, second or third cloth of the job" },
    { KEY_F3, 0, run_cloth, 1, NULL },
    { KEY_F4, 0, run_cloth, 2, NULL },
    { KEY_CHAR + 'c', 0, run_chalks, +1, "other colours of light" },
    { KEY_TAB, 0, run_side, +1, "you stand on another side" },
    { KEY_ESC, 0, run_back, 0, "let go of the piece in hand" },
    { KEY_F1, 0, run_help, 0, "these keys" },
    { KEY_CHAR + 'h', 0, run_help, 0, NULL },
    { KEY_CHAR + 'q', MOD_CTRL, run_quit, 0, "leave; everything is kept" },
};

enum { KEY_ROWS = sizeof key_rows / sizeof key_rows[0] };

size_t app_arrange_help_lines(struct arena *a, const struct scene_help_line **out)
{
    struct app_key *keys = base_arena_alloc(a, KEY_ROWS, sizeof *keys);
    for (size_t i = 0; i < KEY_ROWS; i++)
        keys[i] = (struct app_key){ key_rows[i].key, key_rows[i].mods, key_rows[i].help };
    return app_key_lines(a, keys, KEY_ROWS, out);
}

static const struct arrange_key *find_row(int key, int mods)
{
    for (size_t i = 0; i < KEY_ROWS; i++)
        if (key_rows[i].key == key && key_rows[i].mods == mods)
            return &key_rows[i];
    return NULL;
}

/* Over a page of words any key goes back, and only the one that leaves does more. */
static effects press(struct app_arrange *ar, int key, int mods)
{
    const struct arrange_key *row = find_row(key, mods);
    bool words = ar->cautions || ar->help, leaves = row && row->run == run_quit;
    ar->told = ar->cautions ? ar->start.note : NULL;
    ar->cautions = ar->help = false;
    base_arena_reset(ar->told_in);
    if (words && !leaves)
        return app_arrange_redraw;
    return row ? row->run(ar, row->amount) : nothing;
}

struct app_arrange_effects app_arrange_handle(struct app_arrange *ar, struct input_event event)
{
    switch (event.type) {
    case INPUT_KEY:
        return press(ar, event.key, event.mods);
    case INPUT_SIZE:
    case INPUT_MOVED:
        return app_arrange_redraw;
    case INPUT_EXPOSE:
        return (effects){ .show = true };
    case INPUT_QUIT:
        return run_quit(ar, 0);
    case INPUT_POINT: /* nothing on the table is pressed by the mouse */
    case INPUT_WHEEL:
    case INPUT_DROP:
    case INPUT_NONE:
        break;
    }
    return nothing;
}
