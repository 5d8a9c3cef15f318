/* Hands free: what a presenter, a number pad and a game controller mean where pieces are cut, and what keeps a key from
 * being taken that nobody meant. */
#include "app/hands.h"

#include "app/place.h"
#include "base/words.h"
#include "input/key.h"

#include <math.h>

/* Of a stick that is held as far as it goes; a third of the way is a twenty-seventh of that. Common practice, no
 * source. */
#define PAN_MM_PER_S 250.0
#define TURN_DEG_PER_S 60.0
#define LONGEST_S 0.1 /* a picture that took longer makes no leap */
#define TURN_STEP_DEG 0.1

/* What locks all keys on every page (each page's table of keys has it). */
enum { LOCK_KEY = KEY_CHAR + 'l', LOCK_MODS = MOD_CTRL };

static const struct app_effects nothing;

void app_set_lockout(struct app *app, double lasts_s)
{
    app->lockout.lasts_s = lasts_s;
}

void app_set_keys(struct app *app, const struct app_key_map *map)
{
    app->keys = *map;
}

/* --- keys -------------------------------------------------------------------------------------------------------- */

static bool is_start_key(int key, int mods)
{
    return key == KEY_F5 && (mods == 0 || mods == MOD_SHIFT);
}

/* All that presenters send, by make: pages, a start key that sends F5 and Esc by turns, and one for a dark screen that
 * sends B or a full stop (common practice, no source). */
static bool is_presenters(int key, int mods)
{
    bool plain =
        key == KEY_PAGE_UP || key == KEY_PAGE_DOWN || key == KEY_ESC || key == KEY_CHAR + 'b' || key == KEY_CHAR + '.';
    return is_start_key(key, mods) || (plain && !mods);
}

/* From its start key on, until another key is pressed, a presenter is at work. */
static int by_presenter(struct app *app, int key, int mods)
{
    app->presenter = is_start_key(key, mods) || (app->presenter && is_presenters(key, mods));
    if (!app->presenter)
        return key;
    return key == KEY_ESC ? KEY_F5 : key == KEY_CHAR + '.' ? KEY_CHAR + 'b' : key;
}

static bool takes_digits(const struct app *app)
{
    return app->mode == SCENE_TRIAL || (app_place_is_shown(app) && app_place_is_typed_on(app));
}

/* Where a number is typed what prints is typed, whatever it was given to. */
static struct input_event as_given(const struct app *app, struct input_event event)
{
    bool typed = app_place_is_shown(app) && app_place_is_typed_on(app) && input_key_printed(event.key, event.mods);
    if (!typed && !app_key_map_usual(&app->keys, APP_KEYS_CUT, &event.key, &event.mods))
        event.key = KEY_NONE;
    return event;
}

struct input_event app_meant(struct app *app, struct input_event event)
{
    struct input_event given = as_given(app, event);
    if (given.key != event.key || given.mods != event.mods)
        return given;
    event.key = by_presenter(app, event.key, event.mods);
    if (app->left_handed)
        event.key = input_key_mirrored(event.key);
    int arrow = takes_digits(app) ? KEY_NONE : input_key_on_pad(event.key, event.mods);
    event.key = arrow == KEY_NONE ? event.key : arrow;
    return event;
}

/* --- the lock ---------------------------------------------------------------------------------------------------- */

static struct app_effects run_lock(struct app *app, double unused)
{
    (void)unused;
    if (app->pressed.is_repeat)
        return nothing;
    app->locked = !app->locked;
    return (struct app_effects){ .redraw = true };
}

const struct app_action app_act_lock = { BASE_TR("lock all keys, against children and cats; unlock them"), APP_ON_ALL,
                                         run_lock };

bool app_is_locked_to(const struct app *app, const struct app_key_row *row)
{
    return app->locked && (!row || row->action != &app_act_lock);
}

const char *app_lock_text(struct arena *a, const struct app_key_map *map, unsigned of)
{
    char name[INPUT_KEY_TEXT];
    int key = LOCK_KEY, mods = LOCK_MODS;
    app_key_map_shown(map, of, &key, &mods);
    return base_arena_print(a, base_tr("Locked: every key is dead until %s unlocks them"),
                            input_key_name(name, key, mods));
}

bool app_is_lock_key(const struct input_event *event)
{
    return event->key == LOCK_KEY && event->mods == LOCK_MODS;
}

/* --- sticks ------------------------------------------------------------------------------------------------------ */

vec2 app_steered(struct input_stick held, double held_s, double per_s)
{
    double s = fmin(held_s, LONGEST_S);
    return (vec2){ held.right * held.right * held.right * per_s * s, held.away * held.away * held.away * per_s * s };
}

/* Turned by whole steps; what is left over counts on. To the right is clockwise. */
static bool steer_turn(struct app *app, double deg)
{
    app->steered_deg -= deg;
    double steps = trunc(app->steered_deg / TURN_STEP_DEG);
    if (steps == 0 || !(app_act_turn.on & app_shown_now(app)))
        return false;
    app->steered_deg -= steps * TURN_STEP_DEG;
    app_act_turn.run(app, steps * TURN_STEP_DEG);
    return true;
}

static bool steer_pan(struct app *app, vec2 by)
{
    if (by.x == 0 && by.y == 0)
        return false;
    if (app_shown_now(app) == APP_ON_LAYOUT)
        return app_place_steer(app, by);
    if (!(app_act_across.on & app_shown_now(app)))
        return false;
    app_act_across.run(app, by.x);
    app_act_away.run(app, by.y);
    return true;
}

/* The stick under the hand that does not cut moves, the other one turns. */
struct app_effects app_steer(struct app *app, const struct input_event *event)
{
    struct input_stick moves = app->left_handed ? event->right : event->left;
    struct input_stick turns = app->left_handed ? event->left : event->right;
    if (app->cautions || app->locked)
        return nothing;
    bool panned = steer_pan(app, app_steered(moves, event->held_s, PAN_MM_PER_S));
    bool turned = steer_turn(app, app_steered(turns, event->held_s, TURN_DEG_PER_S).x);
    if (panned || turned)
        app->told = NULL;
    return (struct app_effects){ .redraw = panned || turned };
}
