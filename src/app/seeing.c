/* How light is seen on the cloth that lies on the table: by that cloth's colour, or as she chose. */
#include "app/place.h"
#include "app/place_state.h"
#include "job/cloth.h"
#include "scene/contrast.h"

#include <string.h>

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

struct scene_chalks app_chalks(const struct app *app)
{
    struct scene_ground ground = ground_of(app);
    struct app_chosen chosen = app->seeing.chosen[app_material(app)];
    return scene_chalks_on(&ground, chosen.main, chosen.second);
}

const char *app_seeing_warning(const struct app *app)
{
    struct scene_ground ground = ground_of(app);
    if (app->seeing.chosen[app_material(app)].main < SCENE_CHALKS || scene_is_any_seen(&ground))
        return NULL;
    return "Lines are hardly seen on this cloth. Dim the room a little or bring the light nearer";
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
