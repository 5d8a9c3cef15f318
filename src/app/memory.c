#include "app/memory.h"

#include "app/place.h"
#include "app/state.h"
#include "json/want.h"
#include "json/write.h"

#include <math.h>
#include <string.h>

static const struct err_kind does_not_fit = {
    "app.memory", ERR_WARNING, BASE_TR("a line of the job's journal does not fit this job and was passed over")
};

/* Everything but layouts. */
static struct json_out *remembered(const struct app *app)
{
    const struct geometry_motion *m = &app->places[app_place_index(app)];
    struct json_out *top = json_out_create();
    json_out_number(top, "cut", (double)app->cut);
    json_out_bool(top, "all", app->all);
    json_out_bool(top, "opened", app->opened);
    json_out_bool(top, "outer_edge", app->outer_edge);
    json_out_bool(top, "mirror", m->mirror);
    json_out_number(top, "turn", m->turn_deg);
    json_out_number(top, "right", m->shift.x);
    json_out_number(top, "away", m->shift.y);
    json_out_number(top, "weight", app->weight_mm);
    app_seeing_remember(&app->seeing, top);
    json_out_text(top, "side", scene_side_name(app->side));
    json_out_text(top, "strip", scene_side_name(app->strip));
    if (app->stickers.count)
        calibration_stickers_write(top, "stickers", &app->stickers);
    return top;
}

static const char *line_of(struct arena *a, struct json_out *top)
{
    const char *line = json_out_print_line(a, top);
    json_out_destroy(top);
    return line;
}

const char *app_remember(const struct app *app, struct arena *a)
{
    struct json_out *top = remembered(app);
    app_place_remember(app, top);
    return line_of(a, top);
}

static const char *remember_layout(const struct app *app, struct arena *a, size_t index)
{
    struct json_out *top = remembered(app);
    app_place_remember_one(app, index, top);
    return line_of(a, top);
}

const char *const *app_remember_all(const struct app *app, struct arena *a, size_t *count)
{
    const char **lines = base_arena_alloc(a, app->draft.cut_count + app_place_count(app) + 2, sizeof *lines);
    struct app other = *app;
    *count = 0;
    other.all = true;
    lines[(*count)++] = app_remember(&other, a);
    other.all = false;
    for (other.cut = 0; other.cut < app->draft.cut_count; other.cut++)
        lines[(*count)++] = app_remember(&other, a);
    for (size_t i = 0; i < app_place_count(app); i++)
        lines[(*count)++] = remember_layout(app, a, i);
    lines[(*count)++] = app_remember(app, a);
    return lines;
}

static bool number_within(const struct json_node *top, const char *name, double least, double most, double *out)
{
    const struct json_node *n = json_find(top, name);
    if (!n || n->type != JSON_NUMBER || n->number < least || n->number > most)
        return false;
    *out = n->number;
    return true;
}

static bool is_true(const struct json_node *top, const char *name)
{
    const struct json_node *n = json_find(top, name);
    return n && n->type == JSON_TRUE;
}

/* Where the marks lay on their stickers; a line from before there were any says nothing of them. */
static bool follow_from(struct app *app, const struct json_node *node)
{
    struct err_list *errs = base_err_list_create();
    struct calibration_stickers are;
    struct calibration_followed found;
    bool ok = !node || (calibration_stickers_from(node, &app->table.map, &are, errs) &&
                        are.count == app->table.stickers.count && app_follow(app, &are, &found, errs));
    base_err_list_destroy(errs);
    return ok;
}

static const char *text_of(const struct json_node *top, const char *name)
{
    const struct json_node *n = json_find(top, name);
    return n && n->type == JSON_TEXT ? n->text : "";
}

/* Everything is read into a copy first, so that a line is taken whole or not at all. */
static bool recall_from(struct app *app, const struct json_node *top)
{
    struct app now = *app;
    struct geometry_motion m = { .mirror = is_true(top, "mirror") };
    double cut;
    bool ok = number_within(top, "cut", 0, (double)app->draft.cut_count - 1, &cut) && cut == floor(cut);
    ok = ok && number_within(top, "turn", -360, 360, &m.turn_deg);
    ok = ok && number_within(top, "right", -APP_MOST_PAN_MM, APP_MOST_PAN_MM, &m.shift.x);
    ok = ok && number_within(top, "away", -APP_MOST_PAN_MM, APP_MOST_PAN_MM, &m.shift.y);
    ok = ok && number_within(top, "weight", APP_LEAST_WEIGHT_MM, APP_MOST_WEIGHT_MM, &now.weight_mm);
    ok = ok && app_seeing_recall(&now, top) && app_set_side(&now, text_of(top, "side"));
    ok = ok && (!json_find(top, "strip") || app_set_strip(&now, text_of(top, "strip"))); /* none: of old */
    ok = ok && follow_from(&now, json_find(top, "stickers"));
    if (!ok)
        return false;
    now.cut = (size_t)cut;
    now.all = is_true(top, "all");
    now.opened = is_true(top, "opened");
    now.outer_edge = is_true(top, "outer_edge");
    if (!app_place_recall(&now, json_find(top, "layout")))
        return false;
    *app = now;
    *app_motion(app) = m;
    return true;
}

void app_table_is_new(struct app *app)
{
    app_place_table_is_new(app);
}

bool app_recall(struct app *app, const char *line, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    struct err_list *ignored = base_err_list_create();
    const struct json_node *top = json_parse(a, "journal", line, strlen(line), ignored);
    bool ok = top && recall_from(app, top);
    if (!ok)
        base_err(errs, &does_not_fit, base_err_in_file(NULL), ERR_NONE);
    base_err_list_destroy(ignored);
    base_arena_destroy(a);
    return ok;
}
