/* How light is seen on the cloth that lies on the table: by that cloth's colour, or as she chose. */
#include "app/place.h"
#include "app/place_state.h"
#include "base/words.h"
#include "job/cloth.h"
#include "scene/contrast.h"

#include <string.h>

static const struct app_effects redraw = { .redraw = true };

#define ROOM_LUX 300.0   /* a room by lamplight (common practice, no source) … */
#define LIGHT_LUX 1200.0 /* … and the white of 2000 lumens over 1.7 square metres */

struct app_seeing app_seeing_usual(void)
{
    struct app_seeing seeing = { .room_lux = ROOM_LUX, .light_lux = LIGHT_LUX };
    for (int i = 0; i < JOB_MATERIALS; i++)
        seeing.chosen[i] = (struct app_chosen){ SCENE_CHALKS, SCENE_CHALKS };
    return seeing;
}

void app_set_room(struct app *app, double room_lux, double light_lux)
{
    app->seeing.room_lux = room_lux;
    app->seeing.light_lux = light_lux;
}

enum pattern_cloth app_material(const struct app *app)
{
    if (app_place_is_on(app))
        return app_place_now(app)->lay->task->material;
    return app->draft.cuts[app->cut].cloth;
}

static struct scene_ground ground_of(const struct app *app)
{
    const struct job_cloth *cloth = job_find_cloth(app->job, app_material(app));
    return scene_ground_of(cloth ? cloth->cloth.colour : NULL, app->seeing.room_lux, app->seeing.light_lux);
}

/* --- the pulse --------------------------------------------------------------------------------------------------- */

#define PULSE_S                                                                                                        \
    3.0 /* brightening and dimming once a second, far from the three flashes that WCAG 2.1 (2.3.1) warns of */
#define PULSE_DIMS 0.4 /* so that a cut line keeps 60 % of its light */
#define FRAME_MS 33

/* From none to PULSE_DIMS and back within each second, as a cosine runs. */
static double dimmed(const struct app_seeing *seeing)
{
    double sine, cosine;
    if (!seeing->pulses)
        return 0;
    geometry_sincos(360 * (seeing->now_s - seeing->pulse_s), &sine, &cosine);
    return PULSE_DIMS * (1 - cosine) / 2;
}

bool app_seeing_pass_time(struct app_seeing *seeing, double now_s)
{
    bool pulsed = seeing->pulses;
    seeing->now_s = now_s;
    seeing->pulses = pulsed && now_s - seeing->pulse_s < PULSE_S;
    return pulsed;
}

int app_patience_ms(const struct app *app)
{
    return app->seeing.pulses ? FRAME_MS : -1;
}

static struct app_effects run_pulse(struct app *app, double unused)
{
    (void)unused;
    app->seeing.pulse_s = app->seeing.now_s;
    app->seeing.pulses = true;
    return redraw;
}

/* --- chalks ------------------------------------------------------------------------------------------------------ */

struct scene_chalks app_chalks(const struct app *app)
{
    struct scene_ground ground = ground_of(app);
    struct app_chosen chosen = app->seeing.chosen[app_material(app)];
    struct scene_chalks chalks = scene_chalks_on(&ground, chosen.main, chosen.second);
    chalks.dimmed = dimmed(&app->seeing);
    return chalks;
}

const char *app_seeing_warning(const struct app *app)
{
    struct scene_ground ground = ground_of(app);
    if (app->seeing.chosen[app_material(app)].main < SCENE_CHALKS || scene_is_any_seen(&ground))
        return NULL;
    return base_tr("Lines are hardly seen on this cloth. Dim the room a little or bring the light nearer");
}

bool app_set_chalks(struct app *app, const char *name)
{
    int main = 0;
    while (main < SCENE_CHALKS && strcmp(scene_chalks[main].name, name) != 0)
        main++;
    if (main == SCENE_CHALKS && strcmp(name, APP_CHALK_AUTOMATIC) != 0)
        return false;
    for (int i = 0; i < JOB_MATERIALS; i++)
        app->seeing.chosen[i] = (struct app_chosen){ main, SCENE_CHALKS };
    return true;
}

/* --- the trial strip --------------------------------------------------------------------------------------------- */

static struct app_effects run_trial(struct app *app, double unused)
{
    (void)unused;
    app->seeing.chooses_second = false;
    app->mode = app->mode == SCENE_TRIAL ? SCENE_PIECES : SCENE_TRIAL;
    return redraw;
}

/* The number of a bar, from 1: the main one first, then the second. 0: both by the cloth. */
static struct app_effects run_chalk(struct app *app, double number)
{
    struct app_seeing *seeing = &app->seeing;
    struct app_chosen *chosen = &seeing->chosen[app_material(app)];
    int chalk = (int)number - 1;
    if (chalk < 0) {
        *chosen = (struct app_chosen){ SCENE_CHALKS, SCENE_CHALKS };
        seeing->chooses_second = false;
    } else if (!seeing->chooses_second) {
        *chosen = (struct app_chosen){ chalk, SCENE_CHALKS };
        seeing->chooses_second = true;
    } else if (chalk == chosen->main) {
        app->told = base_tr("Cut lines have that colour: another one for all other lines");
    } else {
        chosen->second = chalk;
        seeing->chooses_second = false;
    }
    return redraw;
}

const char *app_trial_text(const struct app *app, struct arena *a)
{
    if (!app->seeing.chooses_second)
        return base_tr("Which colour is seen best on this cloth? Type its number");
    return base_arena_print(a, base_tr("Cut lines are %s. Now the number of the colour for all other lines"),
                            base_tr(scene_chalks[app->seeing.chosen[app_material(app)].main].name));
}

static struct app_effects run_chalks(struct app *app, double by)
{
    struct app_chosen *chosen = &app->seeing.chosen[app_material(app)];
    chosen->main = (chosen->main + (int)by) % (SCENE_CHALKS + 1); /* behind the last, what the cloth asks for */
    chosen->second = SCENE_CHALKS;
    app->seeing.chooses_second = false;
    return redraw;
}

/* --- bands and white light --------------------------------------------------------------------------------------- */

bool app_has_band(const struct app *app)
{
    const struct job_cloth *cloth = job_find_cloth(app->job, app_material(app));
    const struct cloth_repeat *repeat = cloth ? &cloth->cloth.repeat : NULL;
    enum app_band band = app->seeing.band[app_material(app)];
    if (band == APP_BAND_BY_CLOTH)
        return repeat && (repeat->along_mm > 0 || repeat->across_mm > 0);
    return band == APP_BAND_ON;
}

static struct app_effects run_band(struct app *app, double unused)
{
    (void)unused;
    app->seeing.band[app_material(app)] = app_has_band(app) ? APP_BAND_OFF : APP_BAND_ON;
    return redraw;
}

static struct app_effects run_work_light(struct app *app, double unused)
{
    (void)unused;
    app->mode = SCENE_WORK_LIGHT;
    return redraw;
}

#define ON_TABLE (APP_ON_PIECES | APP_ON_REST | APP_ON_LAYOUT)

const struct app_action app_act_chalks = { BASE_TR("other colours of light; after the last, by the cloth"), APP_ON_ALL,
                                           run_chalks };
const struct app_action app_act_trial = { BASE_TR("all colours of light on the cloth, to choose by eye"),
                                          ON_TABLE | APP_ON_TRIAL, run_trial };
const struct app_action app_act_chalk = {
    BASE_TR("there: that colour for cut lines, then for the others; 0: by the cloth"), APP_ON_TRIAL, run_chalk
};
const struct app_action app_act_pulse = { BASE_TR("lines pulse for three seconds, to be found on a busy print"),
                                          APP_ON_PIECES | APP_ON_LAYOUT, run_pulse };
const struct app_action app_act_band = { BASE_TR("words on a lit band, for prints; or without"), ON_TABLE, run_band };
const struct app_action app_act_work_light = { BASE_TR("white all over, for the blade; any key ends it"), ON_TABLE,
                                               run_work_light };
