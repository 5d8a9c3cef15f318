/* Changes of the person, her measurements, and what is written on the ticket. */
#include "job/change.h"

#include "base/text.h"
#include "calibration/table.h"
#include "job/changed.h"
#include "job/fitting.h"
#include "job/laid.h"
#include "job/refit.h"
#include "job/sources.h"

#include <assert.h>
#include <string.h>

const struct job *job_begin(struct arena *a)
{
    struct job *job = base_arena_alloc(a, 1, sizeof *job);
    *job = (struct job){ .view = PATTERN_NONE, .position = PATTERN_NONE, .cup_group = PATTERN_NONE };
    return job;
}

struct job *job_changed(struct arena *a, const struct job *job)
{
    struct job *out = base_arena_alloc(a, 1, sizeof *out);
    *out = *job;
    return out;
}

const struct job *job_settled(struct arena *a, const struct job *was, struct job *job, struct err_list *errs)
{
    job_refit(a, was, was->position, job, errs);
    if (job->pattern)
        job_judge_layouts(a, was, PATTERN_NONE, job, errs);
    return job;
}

/* --- her measurements --------------------------------------------------------------------------------------------- */

/* The body goes through its text, so that it is what is read back from the job's file. */
static void put_body(struct arena *a, struct job *job, const struct sizing_body *body)
{
    struct err_list *untold = base_err_list_create();
    const char *text = sizing_body_print(a, body);
    job->body_source = (struct job_source){ NULL, { text, strlen(text) } };
    job->body = sizing_body_parse_begun(a, base_tr("the measurements"), text, strlen(text), untold);
    assert(job->body);
    base_err_list_destroy(untold);
}

/* What is there of a body, to be changed. */
static struct sizing_body body_of(const struct job *job)
{
    return job->body ? *job->body : (struct sizing_body){ .name = "", .unit = job_unit(job) };
}

const struct job *job_with_person(struct arena *a, const struct job *job, const char *name)
{
    struct job *out = job_changed(a, job);
    struct sizing_body body = body_of(job);
    assert(base_text_is_utf8(name, strlen(name)) && base_text_letters(name) <= JOB_MOST_NAME);
    body.name = name;
    put_body(a, out, &body);
    out->own_mm = job_own_figures(a, out);
    return out;
}

/* The measurements with that one changed, taken out (0) or put behind the others. */
static void set_measurement(struct arena *a, struct sizing_body *body, const char *name, double mm)
{
    struct sizing_measurement *items = base_arena_alloc(a, body->count + 1, sizeof *items);
    size_t count = 0;
    bool done = !(mm > 0);
    for (size_t i = 0; i < body->count; i++) {
        bool is_it = strcmp(body->items[i].name, name) == 0;
        if (is_it && !(mm > 0))
            continue;
        items[count] = body->items[i];
        if (is_it)
            items[count].mm = mm;
        done = done || is_it;
        count++;
    }
    if (!done)
        items[count++] = (struct sizing_measurement){ .name = name, .mm = mm };
    body->items = items;
    body->count = count;
}

const struct job *job_with_measurement(struct arena *a, const struct job *job, const char *name, double mm,
                                       struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    struct sizing_body body = body_of(job);
    assert(mm >= 0 && mm <= UNITS_FARTHEST_MM && base_text_is_utf8(name, strlen(name)));
    set_measurement(a, &body, name, mm);
    put_body(a, out, &body);
    return job_settled(a, job, out, errs);
}

const struct job *job_with_unit(struct arena *a, const struct job *job, enum units_length unit, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    struct sizing_body body = body_of(job);
    body.unit = unit;
    put_body(a, out, &body);
    return job_settled(a, job, out, errs);
}

const struct job *job_with_body(struct arena *a, const struct job *job, const char *path, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    const struct job_source *source = &out->body_source;
    out->body_source = (struct job_source){ NULL, { NULL, 0 } };
    out->body = NULL;
    if (path && !job_source_load(a, path, &out->body_source, errs))
        return job;
    if (path)
        out->body = sizing_body_parse(a, source->path, source->text.data, source->text.count, errs);
    if (path && !out->body)
        return job;
    return job_settled(a, job, out, errs);
}

/* --- the table, and the ticket itself ----------------------------------------------------------------------------- */

const struct job *job_with_table(struct arena *a, const struct job *job, const char *path, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    const struct job_source *source = &out->table_source;
    out->has_table = path != NULL;
    out->table_source = (struct job_source){ NULL, { NULL, 0 } };
    out->table = (struct calibration_table){ 0 };
    if (!path)
        return out;
    if (!job_source_load(a, path, &out->table_source, errs) ||
        !calibration_table_parse(a, source->path, source->text.data, source->text.count, &out->table, errs))
        return job;
    return out;
}

const struct job *job_with_surface(struct arena *a, const struct job *job, struct calibration_surface surface)
{
    struct job *out = job_changed(a, job);
    assert(calibration_surface_is_valid(&surface));
    out->surface = surface;
    return out;
}

const struct job *job_with_size_confirmed(struct arena *a, const struct job *job, bool confirmed)
{
    struct job *out = job_changed(a, job);
    out->ticket.size_confirmed = confirmed;
    return out;
}

const struct job *job_with_name(struct arena *a, const struct job *job, const char *name)
{
    struct job *out = job_changed(a, job);
    assert(!name || base_text_letters(name) <= JOB_MOST_NAME);
    out->ticket.name = name && *name ? base_arena_copy_text(a, name) : NULL;
    return out;
}

const struct job *job_with_way(struct arena *a, const struct job *job, enum job_way way)
{
    struct job *out = job_changed(a, job);
    out->ticket.way = way;
    return out;
}

const struct job *job_with_page(struct arena *a, const struct job *job, enum job_page page)
{
    struct job *out = job_changed(a, job);
    out->ticket.page = page;
    return out;
}

const struct job *job_with_ready(struct arena *a, const struct job *job, enum pattern_cloth material,
                                 enum cloth_step step, bool done)
{
    struct job *out = job_changed(a, job);
    out->ticket.ready[material][step] = done;
    return out;
}

const struct job *job_with_unread(struct arena *a, const struct job *job, const char *field, const char *text)
{
    struct job *out = job_changed(a, job);
    out->ticket.unread = job_words_with(a, job->ticket.unread, field, text);
    return out;
}

const struct job *job_with_note(struct arena *a, const struct job *job, const char *piece, const char *text)
{
    struct job *out = job_changed(a, job);
    out->ticket.notes = job_words_with(a, job->ticket.notes, piece, text && *text ? text : NULL);
    return out;
}
