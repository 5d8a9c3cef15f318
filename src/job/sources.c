#include "job/sources.h"

#include "base/text.h"
#include "pattern/read.h"
#include "json/want.h"

#include <string.h>

static const struct err_kind source_changed = {
    "job.source_changed", ERR_WARNING,
    BASE_TR("has changed since the job was made; the job goes on with its own copy. "
            "Make the job again to use the new one")
};

static const struct err_kind path_text = {
    "job.path_text", ERR_FAULT, BASE_TR("the name of this file is no UTF-8 text, which a job is written in; rename it")
};

bool job_source_load(struct arena *a, const char *path, struct job_source *out, struct err_list *errs)
{
    out->path = base_file_whole_path(a, path); /* a job may be opened from another folder */
    if (!base_text_is_utf8(path, strlen(path))) {
        base_err(errs, &path_text, base_err_in_file(path), ERR_NONE);
        return false;
    }
    return base_file_read(a, path, JOB_MOST_SOURCE_BYTES, &out->text, errs);
}

bool job_source_is_given(const struct job_source *source)
{
    return source->text.data != NULL;
}

/* What complaints name: the file itself, or once a job holds its copy, that copy. */
static const char *named(struct arena *a, const char *job_file, const struct job_source *source)
{
    if (!source->path)
        return job_file ? base_arena_print(a, base_tr("%s, the measurements in it"), job_file)
                        : base_tr("the measurements");
    return job_file ? base_arena_print(a, base_tr("%s, its copy of %s"), job_file, source->path) : source->path;
}

static bool parse_body(struct arena *a, const char *job_file, struct job *job, struct err_list *errs)
{
    const struct job_source *b = &job->body_source;
    const struct sizing_body *(*parse)(struct arena *, const char *, const char *, size_t, struct err_list *) =
        b->path ? sizing_body_parse : sizing_body_parse_begun;
    if (job_source_is_given(b))
        job->body = parse(a, named(a, job_file, b), b->text.data, b->text.count, errs);
    return job->body || !job_source_is_given(b);
}

bool job_sources_parse(struct arena *a, const char *job_file, struct job *job, struct err_list *errs)
{
    const struct job_source *p = &job->pattern_source, *t = &job->table_source;
    if (job_source_is_given(p))
        job->pattern = pattern_parse(a, named(a, job_file, p), p->text.data, p->text.count, errs);
    bool body_ok = parse_body(a, job_file, job, errs);
    job->has_table = job_source_is_given(t);
    bool table_ok = !job->has_table ||
                    calibration_table_parse(a, named(a, job_file, t), t->text.data, t->text.count, &job->table, errs);
    return (job->pattern || !job_source_is_given(p)) && body_ok && table_ok;
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

void job_sources_compare(const struct job *job, struct err_list *errs)
{
    compare_with_file(&job->pattern_source, errs);
    compare_with_file(&job->body_source, errs);
    compare_with_file(&job->table_source, errs);
}

static bool read_source(const struct json_node *node, bool may_be_typed, struct job_source *out, struct err_list *errs)
{
    static const char *const fields[] = { "path", "copy", NULL };
    json_only(node, fields, errs);
    const struct json_node *path =
        may_be_typed ? json_maybe(node, "path", JSON_TEXT, errs) : json_need(node, "path", JSON_TEXT, errs);
    const struct json_node *copy = json_need(node, "copy", JSON_TEXT, errs);
    if (!copy || (!path && !may_be_typed))
        return false;
    *out = (struct job_source){ path ? path->text : NULL, { copy->text, strlen(copy->text) } };
    return true;
}

bool job_sources_from(const struct json_node *top, struct job *out, struct err_list *errs)
{
    const struct json_node *pattern = json_maybe(top, "pattern", JSON_OBJECT, errs);
    const struct json_node *body = json_maybe(top, "body", JSON_OBJECT, errs);
    const struct json_node *table = json_maybe(top, "table", JSON_OBJECT, errs);
    bool ok = !pattern || read_source(pattern, false, &out->pattern_source, errs);
    ok = (!body || read_source(body, true, &out->body_source, errs)) && ok;
    return (!table || read_source(table, false, &out->table_source, errs)) && ok;
}

static void write_source(struct json_out *to, const char *key, const struct job_source *source)
{
    if (!job_source_is_given(source))
        return;
    struct json_out *object = json_out_object(to, key);
    if (source->path)
        json_out_text(object, "path", source->path);
    json_out_text(object, "copy", source->text.data);
}

void job_sources_write(struct json_out *top, const struct job *job)
{
    write_source(top, "pattern", &job->pattern_source);
    write_source(top, "body", &job->body_source);
    write_source(top, "table", &job->table_source);
}
