#include "job/job.h"

#include "base/text.h"
#include "job/choose.h"
#include "job/cloth.h"
#include "job/fitting.h"
#include "job/surface.h"
#include "pattern/read.h"
#include "json/want.h"
#include "json/write.h"

#include <string.h>

static const struct err_kind source_changed = {
    "job.source_changed", ERR_WARNING,
    "has changed since the job was made; the job goes on with its own copy. "
    "Make the job again to use the new one"
};

static const struct err_kind path_text = {
    "job.path_text", ERR_FAULT, "the name of this file is no UTF-8 text, which a job is written in; rename it"
};

static bool load(struct arena *a, const char *path, struct job_source *out, struct err_list *errs)
{
    out->path = base_file_whole_path(a, path); /* a job may be opened from another folder */
    if (!base_text_is_utf8(path, strlen(path))) {
        base_err(errs, &path_text, base_err_in_file(path), ERR_NONE);
        return false;
    }
    return base_file_read(a, path, JOB_MOST_SOURCE_BYTES, &out->text, errs);
}

/* What complaints name: the file itself, or once a job holds its copy, that copy. */
static const char *named(struct arena *a, const char *job_file, const struct job_source *source)
{
    return job_file ? base_arena_print(a, "%s, its copy of %s", job_file, source->path) : source->path;
}

/* Parses the copies that the job holds; job_file is NULL while the job is being made. */
static bool parse_sources(struct arena *a, const char *job_file, struct job *job, struct err_list *errs)
{
    const struct job_source *p = &job->pattern_source, *b = &job->body_source, *t = &job->table_source;
    job->pattern = pattern_parse(a, named(a, job_file, p), p->text.data, p->text.count, errs);
    if (b->path)
        job->body = sizing_body_parse(a, named(a, job_file, b), b->text.data, b->text.count, errs);
    job->has_table = t->path != NULL;
    bool table_ok = !job->has_table ||
                    calibration_table_parse(a, named(a, job_file, t), t->text.data, t->text.count, &job->table, errs);
    return job->pattern && (job->body || !b->path) && table_ok;
}

bool job_make(struct arena *a, const struct job_choices *choices, struct job *out, struct sizing_choice *choice,
              struct err_list *errs)
{
    struct sizing_choice own;
    *out = (struct job){ .surface = choices->surface };
    bool ok = load(a, choices->pattern, &out->pattern_source, errs);
    ok = (!choices->body || load(a, choices->body, &out->body_source, errs)) && ok;
    ok = (!choices->table || load(a, choices->table, &out->table_source, errs)) && ok;
    if (!ok || !parse_sources(a, NULL, out, errs))
        return false;
    ok = job_choose_view(choices, out, errs);
    ok = job_choose_size(a, choices, out, choice ? choice : &own, errs) && ok;
    return ok && job_fit(a, choices, out, errs);
}

const char *job_whom_text(struct arena *a, const struct job *job)
{
    return job->body ? base_arena_print(a, "for %s", job->body->name)
                     : base_arena_print(a, "size %s", pattern_size_text(a, job->pattern, job->position));
}

static void write_source(struct json_out *to, const char *key, const struct job_source *source)
{
    if (!source->path)
        return;
    struct json_out *object = json_out_object(to, key);
    json_out_text(object, "path", source->path);
    json_out_text(object, "copy", source->text.data);
}

const char *job_print(struct arena *a, const struct job *job)
{
    const struct pattern *p = job->pattern;
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "job");
    json_out_number(top, "version", JOB_VERSION);
    json_out_text(top, "view", p->views[job->view].name);
    json_out_number(top, "size_position", job->position);
    if (job->cup_group != PATTERN_NONE)
        json_out_text(top, "cup_group", p->cup_groups[job->cup_group].name);
    job_write_fitting(top, job);
    job_surface_write(top, &job->surface);
    job_cloths_write(top, job);
    write_source(top, "pattern", &job->pattern_source);
    write_source(top, "body", &job->body_source);
    write_source(top, "table", &job->table_source);
    const char *text = json_out_print(a, top);
    json_out_destroy(top);
    return text;
}

static bool read_source(const struct json_node *node, struct job_source *out, struct err_list *errs)
{
    static const char *const fields[] = { "path", "copy", NULL };
    if (!node)
        return false;
    json_only(node, fields, errs);
    const struct json_node *path = json_need(node, "path", JSON_TEXT, errs);
    const struct json_node *copy = json_need(node, "copy", JSON_TEXT, errs);
    if (!path || !copy)
        return false;
    *out = (struct job_source){ path->text, { copy->text, strlen(copy->text) } };
    return true;
}

static bool read_sources(const struct json_node *top, struct job *out, struct err_list *errs)
{
    bool ok = read_source(json_need(top, "pattern", JSON_OBJECT, errs), &out->pattern_source, errs);
    const struct json_node *body = json_maybe(top, "body", JSON_OBJECT, errs);
    const struct json_node *table = json_maybe(top, "table", JSON_OBJECT, errs);
    ok = (!body || read_source(body, &out->body_source, errs)) && ok;
    return (!table || read_source(table, &out->table_source, errs)) && ok;
}

/* How it is fitted names what the other choices are of: those must be right. */
static void read_all_choices(struct arena *a, const struct json_node *top, struct job *job, struct err_list *errs)
{
    int before = errs->faults;
    job_read_choices(top, job, errs);
    if (errs->faults == before)
        job_read_fitting(a, top, job, errs);
}

static bool job_from(struct arena *a, const struct json_node *top, struct job *out, struct err_list *errs)
{
    static const char *const fields[] = { "chalklight", "version", "view",   "size_position",
                                          "cup_group",  "pattern", "body",   "table",
                                          "surface",    "made_to", "levels", "alterations",
                                          "trial",      "cloths",  NULL };
    *out = (struct job){ 0 };
    if (!top)
        return false;
    int before = errs->faults;
    json_only(top, fields, errs);
    job_surface_from(json_maybe(top, "surface", JSON_OBJECT, errs), &out->surface, errs);
    job_cloths_from(a, json_maybe(top, "cloths", JSON_LIST, errs), out, errs);
    if (read_sources(top, out, errs) && parse_sources(a, top->file, out, errs))
        read_all_choices(a, top, out, errs);
    return errs->faults == before;
}

static void compare_with_file(const struct job_source *source, struct err_list *errs)
{
    if (!source->path || !base_file_exists(source->path))
        return; /* moved or deleted: the job has its copy */
    struct arena *a = base_arena_create();
    struct err_list *ignored = base_err_list_create();
    struct base_bytes now;
    bool same = base_file_read(a, source->path, JSON_MOST_BYTES, &now, ignored) && now.count == source->text.count &&
                memcmp(now.data, source->text.data, now.count) == 0;
    if (!same)
        base_err(errs, &source_changed, base_err_in_file(source->path), ERR_NONE);
    base_err_list_destroy(ignored);
    base_arena_destroy(a);
}

bool job_parse(struct arena *a, const char *file, const char *bytes, size_t count, struct job *out,
               struct err_list *errs)
{
    return job_from(a, json_parse_ours(a, file, bytes, count, "job", JOB_VERSION, errs), out, errs);
}

bool job_read(struct arena *a, const char *path, struct job *out, struct err_list *errs)
{
    if (!job_from(a, json_open_ours(a, path, "job", JOB_VERSION, errs), out, errs))
        return false;
    compare_with_file(&out->pattern_source, errs);
    compare_with_file(&out->body_source, errs);
    compare_with_file(&out->table_source, errs);
    return true;
}
