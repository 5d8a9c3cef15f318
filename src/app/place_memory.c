/* Layouts in the app's memory: how the one that is shown stands, readings rather than what was worked out of them. */
#include "app/place.h"
#include "app/place_state.h"
#include "json/write.h"

#include <math.h>
#include <string.h>

#define FARTHEST_MM 1e6 /* of any place that is kept */
#define MOST_SIGMA_MM 100.0

static const char *const stage_names[APP_PLACE_STAGES] = {
    [APP_PLACE_LINES] = "lines", [APP_PLACE_EDGE] = "edge",   [APP_PLACE_GRAIN] = "grain", [APP_PLACE_CUT] = "cut",
    [APP_PLACE_SLIDE] = "slide", [APP_PLACE_MOVED] = "moved", [APP_PLACE_LAMP] = "lamp",   [APP_PLACE_DONE] = "done",
};

/* --- writing ----------------------------------------------------------------------------------------------------- */

static void write_sighting(struct json_out *list, const struct spans_sighting *s)
{
    struct json_out *row = json_out_list(list, NULL);
    const double numbers[] = { s->sign, s->cloth.x, s->cloth.y, s->table.x, s->table.y, s->sigma_mm };
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        json_out_number(row, NULL, numbers[i]);
}

static void write_light(struct json_out *to, const struct geometry_box *light)
{
    struct json_out *list = json_out_list(to, "light");
    const double numbers[] = { light->min.x, light->min.y, light->max.x, light->max.y };
    for (int i = 0; i < 4; i++)
        json_out_number(list, NULL, numbers[i]);
}

static void write_steps(struct json_out *to, const struct app_place_cloth *c)
{
    struct json_out *done = json_out_list(to, "done");
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].done)
            json_out_number(done, NULL, (double)i);
    json_out_bool(to, "chalks_all", c->chalks_all);
    struct json_out *parts = json_out_list(to, "parts");
    for (size_t i = 0; i < c->step_count; i++)
        if (!c->steps[i].done && c->steps[i].part > APP_PART_CUT) {
            json_out_number(parts, NULL, (double)i);
            json_out_number(parts, NULL, c->steps[i].part);
        }
}

static void write_anew(struct json_out *to, const struct app_place_cloth *c)
{
    struct json_out *list = c->anew_count ? json_out_list(to, "anew") : NULL;
    for (size_t i = 0; i < c->anew_count; i++) {
        const struct app_anew *anew = &c->anew[i];
        struct json_out *one = json_out_object(list, NULL), *done = json_out_list(one, "done");
        const double numbers[] = { anew->from_mm, anew->to_mm, anew->across_mm };
        struct json_out *light = json_out_list(one, "light");
        json_out_number(one, "span", (double)anew->span);
        for (int j = 0; j < 3; j++)
            json_out_number(light, NULL, numbers[j]);
        for (size_t j = 0; j < anew->done_count; j++)
            json_out_number(done, NULL, (double)anew->done[j]);
    }
}

static void write_nudged(struct json_out *to, const struct app_place_cloth *c)
{
    struct json_out *seen = json_out_list(to, "seen"), *aims = json_out_list(to, "aims");
    for (int i = 0; i < c->seen_count; i++)
        write_sighting(seen, &c->seen[i]);
    struct json_out *names = json_out_list(to, "names");
    for (int i = 0; i < c->aim_count; i++) {
        write_sighting(aims, &c->aims[i].sighting);
        json_out_text(names, NULL, c->aims[i].name);
    }
    json_out_number(to, "in_hand", c->in_hand);
    json_out_bool(to, "apart_told", c->apart_told);
    json_out_bool(to, "stretch_told", c->stretch_told);
}

static void write_typed(struct json_out *to, const struct app_place_cloth *c)
{
    struct json_out *typed = json_out_list(to, "typed");
    for (int i = 0; i < 2; i++)
        json_out_text(typed, NULL, c->typed[i]);
    json_out_number(to, "field", c->field);
    json_out_bool(to, "grain_told", c->grain_told);
}

void app_place_remember_one(const struct app *app, size_t index, struct json_out *top)
{
    const struct app_place_cloth *c = &app->place->cloths[index];
    struct json_out *to = json_out_object(top, "layout");
    json_out_number(to, "cloth", (double)index);
    json_out_bool(to, "on", app->place->on);
    json_out_text(to, "stage", stage_names[c->stage]);
    json_out_text(to, "back", stage_names[c->back]);
    json_out_number(to, "quarter", c->quarter);
    json_out_number(to, "span", (double)c->span);
    json_out_number(to, "now", (double)c->now);
    app_place_write_earlier(app, c, to);
    write_light(to, &c->light);
    write_anew(to, c);
    write_steps(to, c);
    write_nudged(to, c);
    write_typed(to, c);
}

void app_place_remember(const struct app *app, struct json_out *top)
{
    if (app->place)
        app_place_remember_one(app, app->place->now, top);
}

size_t app_place_count(const struct app *app)
{
    return app->place ? app->place->count : 0;
}

/* --- reading ----------------------------------------------------------------------------------------------------- */

bool app_place_whole_below(const struct json_node *n, double end, size_t *out)
{
    if (!n || n->type != JSON_NUMBER || n->number < 0 || n->number >= end || n->number != floor(n->number))
        return false;
    *out = (size_t)n->number;
    return true;
}

bool app_place_numbers_of(const struct json_node *list, size_t count, double *out)
{
    if (!list || list->type != JSON_LIST || list->count != count)
        return false;
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (n->type != JSON_NUMBER || fabs(n->number) > FARTHEST_MM)
            return false;
        out[n->index] = n->number;
    }
    return true;
}

static bool stage_of(const struct json_node *n, enum app_place_stage *out)
{
    for (int i = 0; n && n->type == JSON_TEXT && i < APP_PLACE_STAGES; i++)
        if (strcmp(n->text, stage_names[i]) == 0) {
            *out = (enum app_place_stage)i;
            return true;
        }
    return false;
}

static bool read_sightings(const struct json_node *list, struct spans_sighting *out, int *count)
{
    *count = 0;
    if (!list || list->type != JSON_LIST || list->count > APP_PLACE_AIMS)
        return false;
    for (const struct json_node *n = list->first; n; n = n->next) {
        double v[6] = { 0 };
        if (!app_place_numbers_of(n, 6, v) || v[0] != floor(v[0]) || v[0] < SPANS_MARK || v[0] > SPANS_ACROSS_LINE ||
            v[5] <= 0 || v[5] > MOST_SIGMA_MM)
            return false;
        out[(*count)++] = (struct spans_sighting){ (enum spans_sign)v[0], { v[1], v[2] }, { v[3], v[4] }, v[5] };
    }
    return true;
}

static bool read_aims(struct arena *a, const struct json_node *node, struct app_place_cloth *c)
{
    struct spans_sighting sightings[APP_PLACE_AIMS];
    const struct json_node *names = json_find(node, "names");
    size_t hand;
    if (!read_sightings(json_find(node, "aims"), sightings, &c->aim_count) || !names || names->type != JSON_LIST ||
        names->count != (size_t)c->aim_count ||
        !app_place_whole_below(json_find(node, "in_hand"), APP_PLACE_AIMS, &hand))
        return false;
    for (const struct json_node *n = names->first; n; n = n->next) {
        if (n->type != JSON_TEXT || !*n->text)
            return false;
        c->aims[n->index] = (struct app_aim){ base_arena_copy_text(a, n->text), sightings[n->index] };
    }
    const struct json_node *told = json_find(node, "apart_told"), *stretch = json_find(node, "stretch_told");
    c->in_hand = (int)hand;
    c->apart_told = told && told->type == JSON_TRUE; /* none: from before there was one */
    c->stretch_told = stretch && stretch->type == JSON_TRUE;
    return c->aim_count == 0 ? hand == 0 : (int)hand < c->aim_count;
}

static bool read_steps(const struct json_node *list, struct app_place_cloth *c)
{
    if (!list || list->type != JSON_LIST)
        return false;
    for (size_t i = 0; i < c->step_count; i++)
        c->steps[i].done = false;
    for (const struct json_node *n = list->first; n; n = n->next) {
        size_t step;
        if (!app_place_whole_below(n, (double)c->step_count, &step))
            return false;
        c->steps[step].done = true;
    }
    return true;
}

/* Steps with their parts in hand, one after the other. None: from before there were any. */
static bool read_parts(const struct json_node *list, struct app_place_cloth *c)
{
    size_t step = 0, part;
    for (size_t i = 0; i < c->step_count; i++)
        c->steps[i].part = APP_PART_CUT;
    if (!list)
        return true;
    if (list->type != JSON_LIST || list->count % 2)
        return false;
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (n->index % 2 == 0 && !app_place_whole_below(n, (double)c->step_count, &step))
            return false;
        if (n->index % 2 == 0)
            continue;
        if (!app_place_whole_below(n, APP_PARTS, &part) ||
            app_place_part_from(c, &c->steps[step], (int)part, +1) != (enum app_part)part)
            return false;
        c->steps[step].part = (enum app_part)part;
    }
    return true;
}

static bool read_typed(const struct json_node *node, struct app_place_cloth *c)
{
    const struct json_node *typed = json_find(node, "typed"), *told = json_find(node, "grain_told");
    size_t field;
    if (!typed || typed->type != JSON_LIST || typed->count != 2 ||
        !app_place_whole_below(json_find(node, "field"), 2, &field))
        return false;
    for (const struct json_node *n = typed->first; n; n = n->next) {
        if (n->type != JSON_TEXT || strlen(n->text) >= APP_PLACE_TYPED)
            return false;
        memcpy(c->typed[n->index], n->text, strlen(n->text) + 1);
    }
    c->field = (int)field;
    c->grain_told = told && told->type == JSON_TRUE;
    return true;
}

static bool is_box(const struct geometry_box *a, const struct geometry_box *b)
{
    return a->min.x == b->min.x && a->min.y == b->min.y && a->max.x == b->max.x && a->max.y == b->max.y;
}

/* Whether all is chalked first: what is begun goes on as it was begun, whatever the ticket says since. */
static bool way_of(const struct json_node *node, bool ticket)
{
    const struct json_node *chalks = json_find(node, "chalks_all"), *stage = json_find(node, "stage");
    bool begun = !stage || stage->type != JSON_TEXT || strcmp(stage->text, stage_names[APP_PLACE_LINES]) != 0;
    return begun ? chalks && chalks->type == JSON_TRUE : ticket;
}

/* The sections of a light are made again only where it is another, or `anew`: they take a while. */
static bool read_light(struct app *app, const struct json_node *node, struct app_place_cloth *c, bool anew)
{
    double v[4] = { 0 };
    size_t quarter;
    bool chalked = c->chalks_all;
    c->chalks_all = way_of(node, chalked);
    if (!app_place_numbers_of(json_find(node, "light"), 4, v) ||
        !app_place_whole_below(json_find(node, "quarter"), 4, &quarter))
        return false;
    struct geometry_box light = { { v[0], v[1] }, { v[2], v[3] } };
    if (is_box(&light, &c->light) && (int)quarter == c->quarter && !c->anew_count && c->chalks_all == chalked &&
        !anew) {
        struct app_step *steps = base_arena_alloc(app->a, c->step_count, sizeof *steps);
        if (c->step_count)
            memcpy(steps, c->steps, c->step_count * sizeof *steps);
        c->steps = steps;
        return true;
    }
    return app_place_plan_in(app, c, light, (int)quarter);
}

static bool read_one_anew(struct app *app, const struct json_node *node, struct app_place_cloth *c)
{
    const struct json_node *done = json_find(node, "done");
    struct app_anew anew = { .span = 0 };
    double light[3] = { 0 };
    if (!app_place_whole_below(json_find(node, "span"), (double)c->plan.count, &anew.span) ||
        !app_place_numbers_of(json_find(node, "light"), 3, light) || !(light[1] > light[0]) || !read_steps(done, c))
        return false;
    size_t *steps = base_arena_alloc(app->a, done->count, sizeof *steps);
    for (const struct json_node *n = done->first; n; n = n->next)
        steps[anew.done_count++] = (size_t)n->number;
    anew.from_mm = light[0];
    anew.to_mm = light[1];
    anew.across_mm = light[2];
    anew.done = steps;
    return app_place_apply_anew(app, c, anew);
}

/* None: it never was. */
static bool read_anew(struct app *app, const struct json_node *list, struct app_place_cloth *c)
{
    bool ok = !list || list->type == JSON_LIST;
    for (const struct json_node *n = ok && list ? list->first : NULL; n && ok; n = n->next)
        ok = read_one_anew(app, n, c);
    return ok;
}

/* A step of the kind that the page is for, where it is for one. */
static bool has_step_in_hand(const struct app_place_cloth *c)
{
    bool by_lamp = c->stage == APP_PLACE_LAMP;
    if (c->stage != APP_PLACE_CUT && !by_lamp)
        return true;
    return c->now < c->step_count && (c->steps[c->now].kind == APP_STEP_LAMP) == by_lamp;
}

/* Whether each page has what it shows. */
static bool is_whole(const struct app_place_cloth *c)
{
    bool aims = c->stage == APP_PLACE_EDGE    ? c->aim_count == (app_place_is_scrap(c) ? APP_PLACE_CORNERS : 3)
                : c->stage == APP_PLACE_SLIDE ? c->aim_count > 0 && c->span + 1 < c->plan.count
                : c->stage == APP_PLACE_MOVED
                    ? c->aim_count > 0 && (c->back == APP_PLACE_CUT || c->back == APP_PLACE_DONE)
                    : true;
    bool placed = c->stage == APP_PLACE_LINES || c->stage == APP_PLACE_EDGE || c->seen_count > 0;
    return aims && placed && has_step_in_hand(c);
}

static bool read_seat(struct app *app, const struct json_node *node, struct app_place_cloth *c)
{
    struct spans_sighting seen[APP_PLACE_AIMS];
    int count;
    if (!read_sightings(json_find(node, "seen"), seen, &count))
        return false;
    c->seen_count = 0;
    const char *told = app->told;
    bool ok = count == 0 || app_place_sit(app, c, seen, count);
    app->told = told;
    return ok;
}

static bool read_cloth(struct app *app, const struct json_node *node, struct app_place_cloth *c)
{
    return stage_of(json_find(node, "stage"), &c->stage) && stage_of(json_find(node, "back"), &c->back) &&
           app_place_whole_below(json_find(node, "span"), fmax(1, (double)c->plan.count), &c->span) &&
           app_place_whole_below(json_find(node, "now"), fmax(1, (double)c->step_count), &c->now) &&
           read_steps(json_find(node, "done"), c) && read_parts(json_find(node, "parts"), c) &&
           read_seat(app, node, c) && read_aims(app->a, node, c) && read_typed(node, c) && is_whole(c);
}

/* Places are as they were when the line was written. */
static bool recall_this(struct app *app, const struct json_node *node, struct app_place_cloth *c)
{
    const struct app_earlier *before = c->earlier;
    return app_place_read_earlier(app, c, node, &c->earlier) && read_light(app, node, c, before || c->earlier) &&
           read_anew(app, json_find(node, "anew"), c) && read_cloth(app, node, c);
}

/* They are others: what was cut stays cut, and the cloth lies where it lay. Where nothing was, all begins anew. */
static bool recall_earlier(struct app *app, const struct json_node *node, struct app_place_cloth *c)
{
    const struct app_earlier *before = c->earlier;
    if (!app_place_read_cut(app, c, node, &c->earlier))
        return false;
    if (!c->earlier && before)
        app_place_fresh(app, c);
    if (!c->earlier)
        return true;
    if (!read_light(app, node, c, true) || !read_seat(app, node, c))
        return false;
    if (c->seen_count)
        app_place_find_again(app, c, APP_FIND_ARRANGED);
    return true;
}

/* What is begun stays as it was planned; where nothing is, the light is the new table's. */
static void lay_anew(struct app *app, struct app_place_cloth *c)
{
    switch (c->stage) {
    case APP_PLACE_LINES:
    case APP_PLACE_EDGE:
    case APP_PLACE_GRAIN:
        if (c->earlier)
            app_place_to_lines(c);
        else
            app_place_fresh(app, c);
        return;
    case APP_PLACE_CUT:
    case APP_PLACE_SLIDE:
    case APP_PLACE_MOVED:
        app_place_find_again(app, c, APP_FIND_SET_UP);
        return;
    case APP_PLACE_LAMP:
    case APP_PLACE_DONE:
    case APP_PLACE_STAGES:
        return;
    }
}

void app_place_table_is_new(struct app *app)
{
    for (size_t i = 0; app->place && i < app->place->count; i++)
        lay_anew(app, &app->place->cloths[i]);
}

bool app_place_recall(struct app *app, const struct json_node *node)
{
    size_t index;
    if (!node || !app->place)
        return true;
    enum app_place_of of = app_place_find_told(app, node, &index);
    if (of == APP_PLACE_OF_NONE)
        return app_place_is_uncut(node);
    struct app_place_cloth cloth = app->place->cloths[index];
    const struct json_node *on = json_find(node, "on");
    if (!(of == APP_PLACE_OF_THIS ? recall_this : recall_earlier)(app, node, &cloth))
        return cloth.trouble != NULL; /* nothing fits this light: that is how it stands */
    app->place->cloths[index] = cloth;
    app->place->now = index;
    app->place->on = on && on->type == JSON_TRUE;
    app_attend_surface(app);
    return true;
}
