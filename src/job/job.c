#include "job/job.h"

#include "job/choose.h"
#include "job/cloth.h"
#include "job/fitting.h"
#include "job/sources.h"
#include "job/surface.h"
#include "json/want.h"
#include "json/write.h"

#include <string.h>

static const struct err_kind unfinished = { "job.unfinished", ERR_FAULT,
                                            BASE_TR("is a job that is begun and not finished: it still lacks {0}. "
                                                    "`chalklight` without a file opens its window, where "
                                                    "that is filled in") };
static const struct err_kind no_pattern = {
    "job.no_pattern", ERR_FAULT, BASE_TR("“{0}” is chosen of a pattern, and this job has none; take it away")
};

bool job_make(struct arena *a, const struct job_choices *choices, struct job *out, struct sizing_choice *choice,
              struct err_list *errs)
{
    struct sizing_choice own;
    *out = (struct job){ .surface = choices->surface };
    bool ok = job_source_load(a, choices->pattern, &out->pattern_source, errs);
    ok = (!choices->body || job_source_load(a, choices->body, &out->body_source, errs)) && ok;
    ok = (!choices->table || job_source_load(a, choices->table, &out->table_source, errs)) && ok;
    if (!ok || !job_sources_parse(a, NULL, out, errs))
        return false;
    out->ticket = (struct job_ticket){ .size_confirmed = true,
                                       .size_by_hand = choices->size != NULL,
                                       .cup_by_hand = choices->cup_group != NULL,
                                       .blend_by_body = choices->blend && strcmp(choices->blend, "body") == 0 };
    ok = job_choose_view(choices, out, errs);
    ok = job_choose_size(a, choices, out, choice ? choice : &own, errs) && ok;
    return ok && job_fit(a, choices, out, errs);
}

const char *job_whom_text(struct arena *a, const struct job *job)
{
    return job->body && *job->body->name
               ? base_arena_print(a, base_tr("for %s"), job->body->name)
               : base_arena_print(a, base_tr("size %s"), pattern_size_shown(a, job->pattern, job->position));
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
    job_sources_write(top, job);
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

const char *job_print_pieces_on_table(struct arena *a, const struct job *job)
{
    struct job bare = *job;
    bare.cloth_count = 0;
    return job_print_choices(a, &bare);
}

const char *job_print_pieces(struct arena *a, const struct job *job)
{
    struct job bare = *job;
    bare.has_table = false;
    bare.table_source = (struct job_source){ 0 };
    bare.surface = (struct calibration_surface){ 0 };
    return job_print_pieces_on_table(a, &bare);
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
    if (job_sources_from(top, out, errs) && job_sources_parse(a, top->file, out, errs))
        read_all_choices(a, top, out, errs);
    return errs->faults == before;
}

bool job_has_measurements(const struct job *job)
{
    return job->body && job->body->count;
}

static bool has_cup_group(const struct job *job)
{
    return job->cup_group != PATTERN_NONE || !job->pattern->cup_group_count;
}

bool job_is_finished(const struct job *job)
{
    return job->pattern && job->view != PATTERN_NONE && job->position != PATTERN_NONE && has_cup_group(job) &&
           (!job->to_body || job_has_measurements(job));
}

/* What a job without one of its choices lacks, in words. */
static const char *lacking(struct arena *a, const struct job *job)
{
    const struct {
        bool is_missing;
        const char *what;
    } rows[] = { { job->view == PATTERN_NONE, base_tr("the view") },
                 { job->position == PATTERN_NONE, base_tr("the size") },
                 { job->pattern && !has_cup_group(job), base_tr("the cup group") } };
    const char *list = "";
    if (!job->pattern)
        return base_tr("the pattern");
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].is_missing)
            list = base_arena_print(a, "%s%s%s", list, *list ? ", " : "", rows[i].what);
    return list;
}

/* Whether a job that was read is finished; told where it is not. */
static bool finished_from(const struct json_node *top, const struct job *job, struct err_list *errs)
{
    if (job_is_finished(job))
        return true;
    if (*lacking(errs->arena, job))
        json_fault(errs, top, &unfinished, ERR_TEXT(lacking(errs->arena, job)));
    else
        job_tell_no_body(top, errs);
    return false;
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

bool job_read_begun(struct arena *a, const char *path, struct job *out, struct err_list *errs)
{
    if (!job_from(a, json_open_ours(a, path, "job", JOB_VERSION, errs), out, errs))
        return false;
    job_sources_compare(out, errs);
    return true;
}

bool job_read(struct arena *a, const char *path, struct job *out, struct err_list *errs)
{
    const struct json_node *top = json_open_ours(a, path, "job", JOB_VERSION, errs);
    if (!job_from(a, top, out, errs) || !finished_from(top, out, errs))
        return false;
    job_sources_compare(out, errs);
    return true;
}
