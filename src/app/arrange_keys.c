/* Every key of arranging pieces on cloth, once. Help, `chalklight keys` and the tests read the same rows. */
#include "app/arrange_state.h"
#include "app/hands.h"
#include "app/key_lines.h"
#include "base/words.h"
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
        return app_arrange_tell(ar,
                                base_tr_count(ar->cloth_count, "This job has no more than %zu cloth",
                                              "This job has no more than %zu cloths"),
                                ar->cloth_count);
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
    app_arrange_end_search(ar, cloth);
    if (app_arrange_step_by(cloth, (int)by))
        return app_arrange_changed;
    return app_arrange_tell(ar, by < 0 ? base_tr("There is nothing to undo") : base_tr("There is nothing to do again"));
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

static effects run_lock(struct app_arrange *ar, double unused)
{
    (void)unused;
    ar->locked = ar->start.locks && !ar->locked;
    return app_arrange_redraw;
}

static effects run_quit(struct app_arrange *ar, double unused)
{
    (void)ar, (void)unused;
    return (effects){ .keep = true, .quit = true };
}

/* --- the table of keys ------------------------------------------------------------------------------------------- */

static const struct arrange_key {
    struct app_key key;
    effects (*run)(struct app_arrange *ar, double amount);
    double amount;
} key_rows[] = {
    { { 0, KEY_PAGE_DOWN, 0, BASE_TR("take the next or previous piece in hand") }, run_piece, +1 },
    { { 0, KEY_PAGE_UP, 0, NULL }, run_piece, -1 },
    { { 0, KEY_LEFT, 0, BASE_TR("move it by 10 mm") }, run_right, -10 },
    { { 0, KEY_RIGHT, 0, NULL }, run_right, +10 },
    { { 0, KEY_UP, 0, NULL }, run_away, +10 },
    { { 0, KEY_DOWN, 0, NULL }, run_away, -10 },
    { { 0, KEY_LEFT, MOD_SHIFT, BASE_TR("by 1 mm") }, run_right, -1 },
    { { 0, KEY_RIGHT, MOD_SHIFT, NULL }, run_right, +1 },
    { { 0, KEY_UP, MOD_SHIFT, NULL }, run_away, +1 },
    { { 0, KEY_DOWN, MOD_SHIFT, NULL }, run_away, -1 },
    { { 0, KEY_LEFT, MOD_CTRL, BASE_TR("by 0.2 mm") }, run_right, -0.2 },
    { { 0, KEY_RIGHT, MOD_CTRL, NULL }, run_right, +0.2 },
    { { 0, KEY_UP, MOD_CTRL, NULL }, run_away, +0.2 },
    { { 0, KEY_DOWN, MOD_CTRL, NULL }, run_away, -0.2 },
    { { 0, KEY_LEFT, MOD_ALT, BASE_TR("slide it until it touches something") }, run_slide_right, -1 },
    { { 0, KEY_RIGHT, MOD_ALT, NULL }, run_slide_right, +1 },
    { { 0, KEY_UP, MOD_ALT, NULL }, run_slide_away, +1 },
    { { 0, KEY_DOWN, MOD_ALT, NULL }, run_slide_away, -1 },
    { { 0, KEY_CHAR + 'b', 0, BASE_TR("butt it against its neighbours") }, run_butt, 0 },
    { { 0, KEY_CHAR + 't', 0, BASE_TR("turn it end for end") }, run_end_for_end, 0 },
    { { 0, KEY_CHAR + ',', 0, BASE_TR("turn it by 1°, off the grain") }, run_turn, +1 },
    { { 0, KEY_CHAR + '.', 0, NULL }, run_turn, -1 },
    { { 0, KEY_CHAR + ',', MOD_CTRL, BASE_TR("by 0.1°") }, run_turn, +0.1 },
    { { 0, KEY_CHAR + '.', MOD_CTRL, NULL }, run_turn, -0.1 },
    { { 0, KEY_CHAR + 'o', 0, BASE_TR("turn it over, where it may lie either way") }, run_turn_over, 0 },
    { { 0, KEY_CHAR + 'p', 0, BASE_TR("hold it in place (a dot by its name), or let it go") }, run_hold, 0 },
    { { 0, KEY_CHAR + 'x', 0, BASE_TR("take it off the cloth, or lay it on") }, run_take_off, 0 },
    { { 0, KEY_ENTER, 0, BASE_TR("arrange the rest again, about what is held in place") }, run_anew, 0 },
    { { 0, KEY_CHAR + 'r', 0, NULL }, run_anew, 0 },
    { { 0, KEY_SPACE, 0, BASE_TR("stop arranging, or go on") }, run_go_on, 0 },
    { { 0, KEY_CHAR + 'z', 0, BASE_TR("undo") }, run_step, -1 },
    { { 0, KEY_CHAR + 'z', MOD_CTRL, NULL }, run_step, -1 },
    { { 0, KEY_CHAR + 'y', 0, BASE_TR("do it again") }, run_step, +1 },
    { { 0, KEY_CHAR + 'y', MOD_CTRL, NULL }, run_step, +1 },
    { { 0, KEY_F2, 0, BASE_TR("the first, second or third cloth of the job") }, run_cloth, 0 },
    { { 0, KEY_F3, 0, NULL }, run_cloth, 1 },
    { { 0, KEY_F4, 0, NULL }, run_cloth, 2 },
    { { 0, KEY_CHAR + 'c', 0, BASE_TR("other colours of light") }, run_chalks, +1 },
    { { 0, KEY_TAB, 0, BASE_TR("you stand on another side") }, run_side, +1 },
    { { 0, KEY_ESC, 0, BASE_TR("let go of the piece in hand") }, run_back, 0 },
    { { 0, KEY_F1, 0, BASE_TR("these keys") }, run_help, 0 },
    { { 0, KEY_CHAR + 'h', 0, NULL }, run_help, 0 },
    { { 0, KEY_CHAR + 'l', MOD_CTRL, BASE_TR("lock all keys, against children and cats; unlock them") }, run_lock, 0 },
    { { 0, KEY_CHAR + 'q', MOD_CTRL, BASE_TR("leave; everything is kept") }, run_quit, 0 },
};

static const struct app_key_table key_table = { key_rows, sizeof key_rows / sizeof key_rows[0], sizeof key_rows[0],
                                                APP_KEYS_ARRANGE };

const struct app_key_table *app_arrange_key_table(void)
{
    return &key_table;
}

size_t app_arrange_help_lines(struct arena *a, const struct app_key_map *map, const struct scene_help_line **out)
{
    return app_table_lines(a, &key_table, map, 0, out);
}

/* Over a page of words any key goes back, and only the one that leaves does more. The note stands until something is
 * moved in spite of it. */
static effects press(struct app_arrange *ar, int key, int mods)
{
    const char *note = ar->start.note;
    const struct arrange_key *row = app_find_row(&key_table, 0, key, mods);
    bool words = ar->cautions || ar->help, leaves = row && row->run == run_quit;
    ar->told = note;
    ar->cautions = ar->help = false;
    base_arena_reset(ar->told_in);
    if (words && !leaves)
        return app_arrange_redraw;
    effects done = row ? row->run(ar, row->amount) : nothing;
    if (done.keep) {
        ar->start.note = NULL;
        app_arrange_follow(ar);
    }
    app_arrange_attend(ar);
    if (done.keep && ar->told == note)
        ar->told = NULL;
    return done;
}

/* The piece in hand goes with a stick, whichever: cloth that is drawn small, so twice as fast as light on it. It is
 * kept once the stick is let go. */
static effects steer(struct app_arrange *ar, const struct input_event *event)
{
    static const double mm_per_s = 500;
    struct app_arranged *cloth = app_arrange_now(ar);
    vec2 by =
        vec2_add(app_steered(event->left, event->held_s, mm_per_s), app_steered(event->right, event->held_s, mm_per_s));
    if (ar->locked || ar->cautions || ar->help || cloth->refused || cloth->in_hand >= cloth->task.item_count)
        return nothing;
    if (cloth->task.items[cloth->in_hand].on_fold)
        by.y = 0;
    if (event->left.right == 0 && event->left.away == 0 && event->right.right == 0 && event->right.away == 0) {
        app_arrange_follow(ar);
        return app_arrange_changed;
    }
    if (by.x == 0 && by.y == 0)
        return nothing;
    ar->told = NULL;
    app_arrange_move(ar, by);
    return app_arrange_redraw;
}

/* The usual key that stands for the pressed one: hers, under the other hand, or a number pad's. */
static struct input_event meant(const struct app_arrange *ar, struct input_event event)
{
    int key = event.key, mods = event.mods;
    if (!app_key_map_usual(ar->start.keys, APP_KEYS_ARRANGE, &event.key, &event.mods))
        event.key = KEY_NONE;
    if (event.key != key || event.mods != mods)
        return event;
    int arrow = input_key_on_pad(key, mods);
    event.key = arrow != KEY_NONE ? arrow : ar->start.left_handed ? input_key_mirrored(key) : key;
    return event;
}

struct app_arrange_effects app_arrange_handle(struct app_arrange *ar, struct input_event event)
{
    switch (event.type) {
    case INPUT_KEY:
        event = meant(ar, event);
        if (ar->locked && (!app_is_lock_key(&event) || event.is_repeat))
            return nothing;
        return press(ar, event.key, event.mods);
    case INPUT_SIZE:
    case INPUT_MOVED:
        return app_arrange_redraw;
    case INPUT_EXPOSE:
        return (effects){ .show = true };
    case INPUT_STICKS:
        return steer(ar, &event);
    case INPUT_QUIT:
        return ar->locked ? nothing : run_quit(ar, 0);
    case INPUT_POINT: /* nothing on the table is pressed by the mouse */
    case INPUT_WHEEL:
    case INPUT_DROP:
    case INPUT_NONE:
        break;
    }
    return nothing;
}
