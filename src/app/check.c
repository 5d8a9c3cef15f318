#include "app/check.h"

#include "app/amount.h"
#include "app/check_state.h"
#include "app/lens.h"
#include "calibration/table.h"
#include "cloth/cloth.h"
#include "job/job.h"
#include "lifting/chart.h"
#include "settings/settings.h"
#include "sizing/body.h"
#include "json/want.h"

#include <string.h>

static const struct err_kind unknown_kind = {
    "check.unknown_kind", ERR_FAULT, BASE_TR("is not one of our files: \"chalklight\" names its kind, one of {0}")
};

static const struct err_kind needless_body = {
    "check.needless_body", ERR_FAULT, BASE_TR("is no pattern, and --body is for patterns alone; leave it out")
};

void check_say(struct check *c, const char *line)
{
    base_buffer_print(&c->report, "%s\n", line);
}

const char *check_count(struct arena *a, size_t count, const char *one, const char *more)
{
    return base_arena_print(a, base_tr_count(count, one, more), count);
}

static bool is_same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* Of one thing at one place, whatever the size it was found in. */
static bool is_same_fault(const struct err *a, const struct err *b)
{
    return strcmp(a->kind->code, b->kind->code) == 0 && a->place.line == b->place.line &&
           is_same_text(a->place.path, b->place.path);
}

static const struct err_kind *as_fault(struct check *c, const struct err_kind *kind)
{
    struct err_kind *strict = base_arena_alloc(c->a, 1, sizeof *strict);
    *strict = (struct err_kind){ kind->code, ERR_FAULT, kind->sentence };
    return strict;
}

void check_tell_new(struct check *c, const struct err_list *found, int drafted)
{
    for (int i = 0; i < found->count; i++) {
        const struct err *e = &found->items[i];
        bool told = false;
        for (int k = 0; k < c->errs->count; k++)
            told = told || is_same_fault(e, &c->errs->items[k]);
        if (!told)
            base_err_add(c->errs, i < drafted ? as_fault(c, e->kind) : e->kind, e->place, e->args);
    }
}

static void check_body(struct check *c)
{
    const struct sizing_body *b = sizing_body_read(c->a, c->path, c->errs);
    if (b)
        check_say(c, base_arena_print(c->a, base_tr("measurements of “%s”: %zu"), b->name, b->count));
}

static void check_chart(struct check *c)
{
    const struct lifting_chart *chart = lifting_chart_read(c->a, c->path, c->errs);
    if (chart)
        check_say(c, base_arena_print(c->a, base_tr("size chart by “%s”: %s, %s; levels on %s"),
                                      chart->rows[chart->main_row].name,
                                      check_count(c->a, chart->row_count, "%zu row", "%zu rows"),
                                      check_count(c->a, chart->size_count, "%zu size", "%zu sizes"),
                                      check_count(c->a, chart->piece_count, "%zu piece", "%zu pieces")));
}

static void check_mat(struct check *c)
{
    struct calibration_mat m;
    char width[UNITS_TEXT], height[UNITS_TEXT];
    if (calibration_mat_read(c->a, c->path, &m, c->errs))
        check_say(c, base_arena_print(c->a, base_tr("mat “%s”: ruled field %s × %s"), m.name,
                                      units_print_length(width, m.width_mm, m.unit),
                                      units_print_length(height, m.height_mm, m.unit)));
}

/* How it lies is looked at as well; what that finds names no file of its own. */
static bool lies(struct check *c, const struct cloth *cloth, struct cloth_spread *spread)
{
    struct err_list *told = base_err_list_create();
    bool ok = cloth_spread(c->a, cloth, spread, told);
    for (int i = 0; i < told->count; i++)
        base_err_add(c->errs, told->items[i].kind, base_err_in_file(c->path), told->items[i].args);
    base_err_list_destroy(told);
    return ok;
}

static void check_cloth(struct check *c)
{
    struct cloth cloth;
    struct cloth_spread spread;
    char width[UNITS_TEXT];
    if (!cloth_read(c->a, c->path, &cloth, c->errs) || !lies(c, &cloth, &spread))
        return;
    const char *what = base_arena_print(c->a, base_tr("%s, %s, %s to cut from"), base_tr(cloth_kind_name(cloth.kind)),
                                        base_tr(cloth_spread_name(cloth.spread)),
                                        units_print_length(width, spread.usable_mm, cloth.unit));
    /* To: “cloth “Indigo”: woven, folded lengthwise, 70 cm to cut from” */
    check_say(c, cloth.name ? base_arena_print(c->a, base_tr("cloth “%s”: %s"), cloth.name, what)
                            : base_arena_print(c->a, base_tr("cloth: %s"), what));
}

static void check_readings(struct check *c)
{
    struct calibration_readings r;
    struct calibration_solution s;
    if (!calibration_readings_read(c->a, c->path, &r, c->errs))
        return;
    if (calibration_solve(c->a, c->path, &r, CALIBRATION_LENS_WEAK, &s, c->errs))
        check_say(c, base_arena_print(c->a, base_tr("readings “%s”: %zu, at most %s mm from the table"), r.name,
                                      r.count, app_fixed(c->a, s.worst_mm, 2)));
}

static const char *table_text(struct check *c, const struct calibration_table *t)
{
    char height[UNITS_TEXT];
    const char *text =
        base_arena_print(c->a, base_tr("table “%s” of %s: frame %d × %d px, at most %s mm a pixel"), t->name, t->made,
                         t->map.width_px, t->map.height_px, app_fixed(c->a, geometry_map_mm_per_px(&t->map), 2));
    if (!calibration_lens_is_known(&t->lens))
        return text;
    return base_arena_print(c->a, base_tr("%s, lens %s high"), text,
                            units_print_length(height, t->lens.height_mm, t->unit));
}

static void check_table(struct check *c)
{
    struct calibration_table t;
    if (calibration_table_read(c->a, c->path, &t, c->errs))
        check_say(c, table_text(c, &t));
}

static void check_settings(struct check *c)
{
    const struct settings *s = settings_read(c->a, c->path, c->errs);
    size_t said = 0;
    for (int i = 0; s && i < SETTINGS_COUNT; i++)
        said += !settings_is_usual(s, (enum settings_name)i);
    if (s)
        check_say(c, base_arena_print(c->a, base_tr("settings: %zu set, %zu as usual"), said, SETTINGS_COUNT - said));
}

static const char *job_text(struct check *c, const struct job *job, const struct draft *draft)
{
    /* To: “job: “Pinafore”, view A, size 5: 12 lines to cut, my table” */
    const char *text = base_arena_print(c->a, base_tr("job: “%s”, view %s, %s: %s, %s"), job->pattern->name,
                                        job->pattern->views[job->view].shown, job_whom_text(c->a, job),
                                        check_count(c->a, draft->cut_count, "%zu line to cut", "%zu lines to cut"),
                                        job->has_table ? job->table.name : base_tr("no table yet"));
    if (calibration_raise_mm(&job->surface) == 0)
        return text;
    /* To: “…, on cloth 6 mm above the table” */
    return base_arena_print(c->a, base_tr("%s, on cloth %s"), text, app_surface_text(c->a, &job->surface));
}

static void check_job(struct check *c)
{
    struct job job;
    struct draft draft;
    if (!job_read(c->a, c->path, &job, c->errs))
        return;
    struct draft_figure figure = job_figure(&job);
    struct err_list *found = base_err_list_create();
    bool ok = draft_make(c->a, job.pattern, &figure, job.view, &draft, found);
    check_tell_new(c, found, found->count);
    base_err_list_destroy(found);
    if (!ok)
        return;
    check_say(c, job_text(c, &job, &draft));
    check_layouts(c, &job, &draft);
}

static const struct {
    const char *kind;
    void (*check)(struct check *);
} kind_rows[] = {
    { "pattern", check_pattern_file }, { "body", check_body },   { "mat", check_mat },
    { "readings", check_readings },    { "table", check_table }, { "job", check_job },
    { "chart", check_chart },          { "cloth", check_cloth }, { "settings", check_settings },
};

static const char *kind_list(struct arena *a)
{
    const char *list = "";
    for (size_t i = 0; i < sizeof kind_rows / sizeof kind_rows[0]; i++)
        list = base_arena_print(a, "%s%s\"%s\"", list, i ? ", " : "", kind_rows[i].kind);
    return list;
}

static void check_by_kind(struct check *c)
{
    const struct json_node *top = json_read_file(c->a, c->path, c->errs);
    const struct json_node *kind = json_find(top, "chalklight");
    if (!top)
        return;
    for (size_t i = 0; kind && kind->type == JSON_TEXT && i < sizeof kind_rows / sizeof kind_rows[0]; i++)
        if (strcmp(kind->text, kind_rows[i].kind) == 0) {
            if (c->body && kind_rows[i].check != check_pattern_file)
                base_err(c->errs, &needless_body, base_err_in_file(c->path), ERR_NONE);
            kind_rows[i].check(c);
            return;
        }
    base_err(c->errs, &unknown_kind, base_err_in_file(c->path), ERR_TEXT(kind_list(c->a)));
}

bool app_check(struct arena *a, const char *path, const char *body, const char **report, struct json_out *to,
               struct err_list *errs)
{
    int before = errs->faults;
    struct check c = { .a = a, .path = path, .body = body, .report = { .a = a }, .json = to, .errs = errs };
    check_by_kind(&c);
    *report = base_buffer_text(&c.report);
    return errs->faults == before;
}
