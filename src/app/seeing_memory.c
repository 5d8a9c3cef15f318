/* Colours of light in a line of the app's memory: “chalks”, a list of one text for each material, "automatic", "lemon"
 * or "lemon, mint"; and whether words stand on bands, “bands”: "automatic", "yes" or "no". */
#include "app/state.h"

#include <string.h>

static const char between[] = ", ";

static const char *const band_names[] = {
    [APP_BAND_BY_CLOTH] = APP_CHALK_AUTOMATIC, [APP_BAND_ON] = "yes", [APP_BAND_OFF] = "no"
};

static void remember_bands(const struct app_seeing *seeing, struct json_out *top)
{
    struct json_out *list = json_out_list(top, "bands");
    for (int i = 0; i < JOB_MATERIALS; i++)
        json_out_text(list, NULL, band_names[seeing->band[i]]);
}

void app_seeing_remember(const struct app_seeing *seeing, struct json_out *top)
{
    struct json_out *list = json_out_list(top, "chalks");
    struct arena *a = base_arena_create();
    for (int i = 0; i < JOB_MATERIALS; i++) {
        struct app_chosen chosen = seeing->chosen[i];
        bool main = chosen.main < SCENE_CHALKS, second = chosen.second < SCENE_CHALKS;
        json_out_text(list, NULL,
                      base_arena_print(a, "%s%s%s", main ? scene_chalks[chosen.main].name : APP_CHALK_AUTOMATIC,
                                       second ? between : "", second ? scene_chalks[chosen.second].name : ""));
    }
    base_arena_destroy(a);
    remember_bands(seeing, top);
}

/* A chalk by name; false, when there is none. */
static bool chalk_of(const char *name, size_t length, int *out)
{
    for (*out = 0; *out < SCENE_CHALKS; ++*out)
        if (strlen(scene_chalks[*out].name) == length && strncmp(scene_chalks[*out].name, name, length) == 0)
            return true;
    return false;
}

static bool chosen_of(const struct json_node *node, struct app_chosen *out)
{
    *out = (struct app_chosen){ SCENE_CHALKS, SCENE_CHALKS };
    if (node->type != JSON_TEXT)
        return false;
    if (strcmp(node->text, APP_CHALK_AUTOMATIC) == 0)
        return true;
    const char *second = strstr(node->text, between);
    size_t main = second ? (size_t)(second - node->text) : strlen(node->text);
    if (!chalk_of(node->text, main, &out->main))
        return false;
    second = second ? second + strlen(between) : NULL;
    return !second || (chalk_of(second, strlen(second), &out->second) && out->second != out->main);
}

/* A line of old names one colour for all; white was what nobody had chosen. */
static bool recall_one(struct app *app, const struct json_node *node)
{
    if (!node || node->type != JSON_TEXT)
        return false;
    bool white = strcmp(node->text, scene_chalks[0].name) == 0;
    return app_set_chalks(app, white ? APP_CHALK_AUTOMATIC : node->text);
}

static bool band_from(const struct json_node *node, enum app_band *out)
{
    for (enum app_band band = APP_BAND_BY_CLOTH; node->type == JSON_TEXT && band <= APP_BAND_OFF; band++)
        if (strcmp(node->text, band_names[band]) == 0) {
            *out = band;
            return true;
        }
    return false;
}

/* None: it was never said. */
static bool recall_bands(struct app *app, const struct json_node *list)
{
    if (!list)
        return true;
    if (list->type != JSON_LIST || list->count != JOB_MATERIALS)
        return false;
    for (const struct json_node *n = list->first; n; n = n->next)
        if (!band_from(n, &app->seeing.band[n->index]))
            return false;
    return true;
}

bool app_seeing_recall(struct app *app, const struct json_node *top)
{
    if (!recall_bands(app, json_find(top, "bands")))
        return false;
    const struct json_node *list = json_find(top, "chalks");
    struct app_chosen chosen[JOB_MATERIALS];
    if (!list)
        return recall_one(app, json_find(top, "chalk"));
    if (list->type != JSON_LIST || list->count != JOB_MATERIALS)
        return false;
    for (const struct json_node *n = list->first; n; n = n->next)
        if (!chosen_of(n, &chosen[n->index]))
            return false;
    memcpy(app->seeing.chosen, chosen, sizeof chosen);
    return true;
}
