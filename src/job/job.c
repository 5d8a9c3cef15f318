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

static const struct err_kind unfinished = {
    "job.unfinished", ERR_FAULT,
    "is a job that is begun and not finished: it still lacks {0}. `chalklight` without a file opens its window, where "
    "that is filled in"
};
static const struct err_kind no_pattern = { "job.no_pattern", ERR_FAULT,
                                            "“{0}” is chosen of a pattern, and this job has none; take it away" };

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
    if (!source->path)
        return job_file ? base_arena_print(a, "%s, the measurements in it", job_file) : "the measurements";
    return job_file ? base_arena_print(a, "%s, its copy of %s", job_file, source->path) : source->path;
}

static bool is_given(const struct job_source *source)
{
    return source->text.data != NULL;
}

static bool parse_body(struct arena *a, const char *job_file, struct job *job, struct err_list *errs)
{
    const struct job_source *b = &job->body_source;
    const struct sizing_body *(*parse)(struct arena *, const char *, const char *, size_t, struct err_list *) =
        b->path ? sizing_body_parse : sizing_body_parse_begun;
    if (is_given(b))
        job->body = parse(a, named(a, job_file, b), b->text.data, b->text.count, errs);
    return job->body || !is_given(b);
}

/* Parses the copies that the job holds; job_file is NULL while the job is being made. */
static bool parse_sources(struct arena *a, const char *job_file, struct job *job, struct err_list *errs)
{
    const struct job_source *p = &job->pattern_source, *t = &job->table_source;
    if (is_given(p))
        job->pattern = pattern_parse(a, named(a, job_file, p), p->text.data, p->text.count, errs);
    bool body_ok = parse_body(a, job_file, job, errs);
    job->has_table = is_given(t);
    bool table_ok = !job->has_table ||
                    calibration_table_parse(a, named(a, job_file, t), t->text.data, t->text.count, &job->table, errs);
    return (job->pattern || !is_given(p)) && body_ok && table_ok;
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
    out->ticket = (struct job_ticket){ .size_confirmed = true,
                                       .size_by_hand = choices->size,
                                       .cup_by_hand = choices->cup_group,
                                       .blend_by_body = choices->blend && strcmp(choices->blend, "body") == 0 };
    ok = job_choose_view(choices, out, errs);
    ok = job_choose_size(a, choices, out, choice ? choice : &own, errs) && ok;
    return ok && job_fit(a, choices, out, errs);
}

const char *job_whom_text(struct arena *a, const struct job *job)
{
    return job->body && *job->body->name
               ? base_arena_print(a, "for %s", job->body->name)
               : base_arena_print(a, "size %s", pattern_size_text(a, job->pattern, job->position));
}

static void write_source(struct json_out *to, const char *key, const struct job_source *source)
{
    if (!is_given(source))
        return;
    struct json_out *object = json_out_object(to, key);
    if (source->path)
        json_out_text(object, "path", source->path);
    json_out_text(object, "copy", source->text.data);
}

/* What is chosen of the pattern. */
static void write_choices(struct json_out *top, const struct job *job)
{
    const struct pattern *p = job->pattern;
    if (job->view != PATTERN_NONE)
        json_out_text(top, "view", p->views[job->view].name);
    if (job->position != PATTERN_NONE)
        json_out_number(top, "size_position", job->position);
    if (job->cup_group != PATTERN_NONE)
        json_out_text(top, "cup_group", p->cup_groups[job->cup_group].name);
}

static const char *print(struct arena *a, const struct job *job, int version)
{
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "job");
    json_out_number(top, "version", version);
    if (version > 2)
        job_ticket_write(top, &job->ticket);
    if (job->pattern)
        write_choices(top, job);
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

const char *job_print(struct arena *a, const struct job *job)
{
    return print(a, job, JOB_VERSION);
}

const char *job_print_choices(struct arena *a, const struct job *job)
{
    return print(a, job, 2);
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

static bool read_sources(const struct json_node *top, struct job *out, struct err_list *errs)
{
    const struct json_node *pattern = json_maybe(top, "pattern", JSON_OBJECT, errs);
    const struct json_node *body = json_maybe(top, "body", JSON_OBJECT, errs);
    const struct json_node *table = json_maybe(top, "table", JSON_OBJECT, errs);
    bool ok = !pattern || read_source(pattern, false, &out->pattern_source, errs);
    ok = (!body || read_source(body, true, &out->body_source, errs)) && ok;
    return (!table || read_source(table, false, &out->table_source, errs)) && ok;
}

static void tell_without_pattern(const struct json_node *top, struct err_list *errs)
{
    static const char *const fields[] = { "view", "size_position", "cup_group", "levels", "alterations" };
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        if (json_find(top, fields[i]))
            json_fault(errs, json_find(top, fields[i]), &no_pattern, ERR_TEXT(fields[i]));
}

/* How it is fitted names what the other choices are of: those must be right. */
static void read_all_choices(struct arena *a, const struct json_node *top, struct job *job, struct err_list *errs)
{
    int before = errs->faults;
    if (job->pattern)
        job_read_choices(top, job, errs);
    else
        tell_without_pattern(top, errs);
    if (errs->faults == before)
        job_read_fitting(a, top, job, errs);
}

/* Before there was a ticket all was settled when the job was made: nothing of it moves before she says so. */
static void read_ticket(struct arena *a, const struct json_node *top, struct job *out, struct err_list *errs)
{
    const struct json_node *version = json_find(top, "version");
    if (version && version->number < 3)
        out->ticket = (struct job_ticket){ .size_confirmed = true, .size_by_hand = true, .cup_by_hand = true };
    else
        job_ticket_from(a, json_maybe(top, "ticket", JSON_OBJECT, errs), &out->ticket, errs);
}

static bool job_from(struct arena *a, const struct json_node *top, struct job *out, struct err_list *errs)
{
    static const char *const fields[] = { "chalklight",  "version", "ticket", "view",    "size_position", "cup_group",
                                          "pattern",     "body",    "table",  "surface", "made_to",       "levels",
                                          "alterations", "trial",   "cloths", NULL };
    *out = (struct job){ .view = PATTERN_NONE, .position = PATTERN_NONE, .cup_group = PATTERN_NONE };
    if (!top)
        return false;
    int before = errs->faults;
    json_only(top, fields, errs);
    read_ticket(a, top, out, errs);
    job_surface_from(json_maybe(top, "surface", JSON_OBJECT, errs), &out->surface, errs);
    job_cloths_from(a, json_maybe(top, "cloths", JSON_LIST, errs), out, errs);
    if (read_sources(top, out, errs) && parse_sources(a, top->file, out, errs))
        read_all_choices(a, top, out, errs);
    return errs->faults == before;
}

static bool has_cup_group(const struct job *job)
{
    return job->cup_group != PATTERN_NONE || !job->pattern->cup_group_count;
}

bool job_is_finished(const struct job *job)
{
    return job->pattern && job->view != PATTERN_NONE && job->position != PATTERN_NONE && has_cup_group(job);
}

/* What a job without one of its choices lacks, in words. */
static const char *lacking(struct arena *a, const struct job *job)
{
    const struct {
        bool is_missing;
        const char *what;
    } rows[] = { { job->view == PATTERN_NONE, "the view" },
                 { job->position == PATTERN_NONE, "the size" },
                 { job->pattern && !has_cup_group(job), "the cup group" } };
    const char *list = "";
    if (!job->pattern)
        return "the pattern";
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].is_missing)
            list = base_arena_print(a, "%s%s%s", list, *list ? ", " : "", rows[i].what);
    return list;
}

/* Whether a job that was read is finished; told where it is not. */
static bool finished_from(const struct json_node *top, const struct job *job, struct err_list *errs)
{
    int before = errs->faults;
    if (!job_is_finished(job))
        json_fault(errs, top, &unfinished, ERR_TEXT(lacking(errs->arena, job)));
    else
        job_check_body(top, job, errs);
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

bool job_parse_begun(struct arena *a, const char *file, const char *bytes, size_t count, struct job *out,
                     struct err_list *errs)
{
    return job_from(a, json_parse_ours(a, file, bytes, count, "job", JOB_VERSION, errs), out, errs);
}

bool job_parse(struct arena *a, const char *file, const char *bytes, size_t count, struct job *out,
               struct err_list *errs)
{
    const struct json_node *top = json_parse_ours(a, file, bytes, count, "job", JOB_VERSION, errs);
    return job_from(a, top, out, errs) && finished_from(top, out, errs);
}

static void compare_with_files(const struct job *job, struct err_list *errs)
{
    compare_with_file(&job->pattern_source, errs);
    compare_with_file(&job->body_source, errs);
    compare_with_file(&job->table_source, errs);
}

bool job_read_begun(struct arena *a, const char *path, struct job *out, struct err_list *errs)
{
    if (!job_from(a, json_open_ours(a, path, "job", JOB_VERSION, errs), out, errs))
        return false;
    compare_with_files(out, errs);
    return true;
}

bool job_read(struct arena *a, const char *path, struct job *out, struct err_list *errs)
{
    const struct json_node *top = json_open_ours(a, path, "job", JOB_VERSION, errs);
    if (!job_from(a, top, out, errs) || !finished_from(top, out, errs))
        return false;
    compare_with_files(out, errs);
    return true;
}
