/* What each key does. An action changes the state and says whether the table has to be drawn again. */
#include "app/place.h"
#include "app/state.h"
#include "base/words.h"

#include <math.h>

static const struct app_effects redraw = { .redraw = true };

size_t app_place_index(const struct app *app)
{
    return app->all ? app->draft.cut_count : app->cut;
}

struct geometry_motion *app_motion(struct app *app)
{
    return &app->places[app_place_index(app)];
}

static double within(double value, double least, double most)
{
    return value < least ? least : value > most ? most : value;
}

static struct app_effects pan(struct app *app, vec2 by)
{
    if (app->mode == SCENE_STICKERS)
        return app_move_mark(app, by);
    struct geometry_motion *m = app_motion(app);
    m->shift.x = within(m->shift.x + by.x, -APP_MOST_PAN_MM, APP_MOST_PAN_MM);
    m->shift.y = within(m->shift.y + by.y, -APP_MOST_PAN_MM, APP_MOST_PAN_MM);
    return redraw;
}

/* Left, right and away are the person's own, on whichever side she stands. */
static struct app_effects run_across(struct app *app, double mm)
{
    return pan(app, vec2_scale(scene_side_right(app->side), mm));
}

static struct app_effects run_away(struct app *app, double mm)
{
    return pan(app, vec2_scale(scene_side_away(app->side), mm));
}

/* Kept as tenths of a degree, so that ten small steps are exactly one large one; never -0, which prints as such. */
static struct app_effects run_turn(struct app *app, double deg)
{
    struct geometry_motion *m = app_motion(app);
    m->turn_deg = fmod(round((m->turn_deg + deg) * 10) / 10, 360) + 0.0;
    return redraw;
}

/* Turned over left to right as it lies: mirrored across an upright axis, whatever its turn. */
static struct app_effects run_over(struct app *app, double unused)
{
    (void)unused;
    struct geometry_motion *m = app_motion(app);
    m->mirror = !m->mirror;
    m->turn_deg = 0 - m->turn_deg;
    return redraw;
}

static struct app_effects run_weight(struct app *app, double mm)
{
    double least = fmax(APP_LEAST_WEIGHT_MM, SCENE_LEAST_STROKE_PX * geometry_map_mm_per_px(&app->map));
    app->weight_mm = within(fmax(app->weight_mm, least) + mm, least, APP_MOST_WEIGHT_MM);
    return redraw;
}

static struct app_effects run_step(struct app *app, double by)
{
    size_t count = app->draft.cut_count;
    if (app->mode == SCENE_STICKERS)
        return app_next_mark(app, by < 0 ? -1 : 1);
    app->mode = SCENE_PIECES;
    if (app_place_is_shown(app))
        return redraw;
    app->all = false;
    app->cut = (app->cut + count + (size_t)(by < 0 ? -1 : 1)) % count;
    return redraw;
}

static struct app_effects run_all(struct app *app, double unused)
{
    (void)unused;
    app->mode = SCENE_PIECES;
    if (!app_place_is_shown(app))
        app->all = !app->all;
    return redraw;
}

static struct app_effects run_middle(struct app *app, double unused)
{
    (void)unused;
    *app_motion(app) = (struct geometry_motion){ 0 };
    return redraw;
}

static struct app_effects toggle_mode(struct app *app, enum scene_mode mode)
{
    app->mode = app->mode == mode ? SCENE_PIECES : mode;
    return redraw;
}

/* Square, then frame, then the pieces again. */
static struct app_effects run_square(struct app *app, double unused)
{
    static const enum scene_mode next[] = {
        [SCENE_PIECES] = SCENE_TEST_SQUARE, [SCENE_TEST_SQUARE] = SCENE_TEST_FRAME,
        [SCENE_TEST_FRAME] = SCENE_PIECES,  [SCENE_STICKERS] = SCENE_TEST_SQUARE,
        [SCENE_DOUBT] = SCENE_TEST_SQUARE,  [SCENE_BLANK] = SCENE_TEST_SQUARE,
        [SCENE_HELP] = SCENE_TEST_SQUARE,   [SCENE_LIST] = SCENE_TEST_SQUARE,
        [SCENE_TRIAL] = SCENE_TEST_SQUARE,  [SCENE_WORK_LIGHT] = SCENE_TEST_SQUARE
    };
    (void)unused;
    app->mode = next[app->mode];
    return redraw;
}

static struct app_effects run_rulings(struct app *app, double unused)
{
    (void)unused;
    app->rulings = !app->rulings;
    return redraw;
}

static struct app_effects run_blank(struct app *app, double unused)
{
    (void)unused;
    return toggle_mode(app, SCENE_BLANK);
}

static struct app_effects run_side(struct app *app, double by)
{
    enum scene_side from = app->side;
    app->side = (enum scene_side)(((int)app->side + (int)by) % SCENE_SIDES);
    app_place_turned(app, from);
    return redraw;
}

static struct app_effects run_strip(struct app *app, double by)
{
    app->strip = scene_side_of_hers(app->strip, (enum scene_side)by);
    app_place_turned(app, app->side);
    return redraw;
}

static struct app_effects run_open_out(struct app *app, double unused)
{
    (void)unused;
    app->opened = !app->opened;
    return redraw;
}

static struct app_effects run_cut_edge(struct app *app, double unused)
{
    (void)unused;
    app->outer_edge = !app->outer_edge;
    return redraw;
}

static struct app_effects run_doubt(struct app *app, double unused)
{
    (void)unused;
    if (app->table.has_doubt && app->mode == SCENE_DOUBT && app->doubt_of == SCENE_DOUBT_OF_PLACES) {
        app->doubt_of = SCENE_DOUBT_OF_LINES;
        return redraw;
    }
    app->doubt_of = SCENE_DOUBT_OF_PLACES;
    if (app->table.has_doubt)
        return toggle_mode(app, SCENE_DOUBT);
    app->told = base_tr("How true this table is was not kept: set it up again to know");
    return redraw;
}

static struct app_effects run_help(struct app *app, double unused)
{
    (void)unused;
    return toggle_mode(app, SCENE_HELP);
}

static struct app_effects run_layout(struct app *app, double unused)
{
    (void)unused;
    if (!app_place_show(app, true))
        app->told = base_tr("This job has no layout: chalklight lay makes one");
    return redraw;
}

static struct app_effects run_back(struct app *app, double unused)
{
    (void)unused;
    app->mode = SCENE_PIECES;
    app->rulings = false;
    return redraw;
}

static struct app_effects run_quit(struct app *app, double unused)
{
    (void)app, (void)unused;
    return (struct app_effects){ .quit = true };
}

const struct app_action app_act_across = { BASE_TR("move by # mm"), APP_ON_PIECES | APP_ON_STICKERS, run_across };
const struct app_action app_act_away = { BASE_TR("move by # mm"), APP_ON_PIECES | APP_ON_STICKERS, run_away };
const struct app_action app_act_turn = { BASE_TR("turn by #°"), APP_ON_PIECES, run_turn };
const struct app_action app_act_over = { BASE_TR("turn the piece over"), APP_ON_PIECES, run_over };
const struct app_action app_act_weight = { BASE_TR("cut line # mm wider or finer"), APP_ON_PIECES | APP_ON_LAYOUT,
                                           run_weight };
const struct app_action app_act_step = { BASE_TR("next or previous piece, or mark"),
                                         APP_ON_PIECES | APP_ON_STICKERS | APP_ON_REST, run_step };
const struct app_action app_act_all = { BASE_TR("all pieces, or one"), APP_ON_PIECES | APP_ON_REST, run_all };
const struct app_action app_act_layout = { BASE_TR("the layout on its cloth"), APP_ON_PIECES, run_layout };
const struct app_action app_act_middle = { BASE_TR("back to how it lay at first"), APP_ON_PIECES, run_middle };
const struct app_action app_act_square = { BASE_TR("test square, then test frame: measure them"),
                                           APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT, run_square };
const struct app_action app_act_rulings = { BASE_TR("the mat's rulings"), APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT,
                                            run_rulings };
const struct app_action app_act_doubt = { BASE_TR("how true the table is: places, then lines of 100 mm"),
                                          APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT, run_doubt };
const struct app_action app_act_blank = { BASE_TR("dark, and light again"), APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT,
                                          run_blank };
const struct app_action app_act_side = { BASE_TR("you stand on another side"), APP_ON_ALL, run_side };
const struct app_action app_act_strip = { BASE_TR("the large words on another edge of the light"), APP_ON_ALL,
                                          run_strip };
const struct app_action app_act_open_out = { BASE_TR("piece on the fold opened out, for a single layer"), APP_ON_PIECES,
                                             run_open_out };
const struct app_action app_act_cut_edge = { BASE_TR("cut on the light's outer edge, or its middle"),
                                             APP_ON_PIECES | APP_ON_LAYOUT, run_cut_edge };
const struct app_action app_act_help = { BASE_TR("this list"), APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT, run_help };
const struct app_action app_act_back = { BASE_TR("back to the pieces"), APP_ON_ALL, run_back };
const struct app_action app_act_quit = { BASE_TR("leave"), APP_ON_ALL, run_quit };
