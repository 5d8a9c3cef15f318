#include "job/copy.h"

#include "calibration/table.h"
#include "pattern/read.h"

#include <assert.h>
#include <string.h>

/* Something that is shared, and its copy. */
struct job_copied {
    const void *from, *to;
};

static const void *find(const struct job_copying *c, const void *from)
{
    for (size_t i = 0; i < c->count; i++)
        if (c->done[i].from == from)
            return c->done[i].to;
    return NULL;
}

static void remember(struct job_copying *c, const void *from, const void *to)
{
    c->done = base_arena_grow(c->a, c->done, &c->cap, c->count + 1, sizeof *c->done);
    c->done[c->count++] = (struct job_copied){ from, to };
}

static const char *text(struct job_copying *c, const char *from)
{
    return from ? base_arena_copy_text(c->a, from) : NULL;
}

static const double *numbers(struct job_copying *c, const double *from, size_t count)
{
    if (!from)
        return NULL;
    double *to = base_arena_alloc(c->a, count, sizeof *to);
    memcpy(to, from, count * sizeof *to);
    return to;
}

static struct job_source source(struct job_copying *c, struct job_source from)
{
    const char *data = find(c, from.text.data);
    if (!data && from.text.data) {
        data = base_arena_copy_bytes(c->a, from.text.data, from.text.count);
        remember(c, from.text.data, data);
    }
    return (struct job_source){ text(c, from.path), { data, from.text.count } };
}

/* A pattern is a tree of many parts: it is read anew from its text. */
static const struct pattern *pattern(struct job_copying *c, const struct pattern *from, const struct job_source *of)
{
    const struct pattern *to = find(c, from);
    if (to || !from)
        return to;
    struct err_list *untold = base_err_list_create();
    to = pattern_parse(c->a, of->path, of->text.data, of->text.count, untold);
    base_err_list_destroy(untold);
    assert(to); /* as it was read once */
    remember(c, from, to);
    return to;
}

static const struct sizing_body *body(struct job_copying *c, const struct sizing_body *from)
{
    const struct sizing_body *known = find(c, from);
    if (known || !from)
        return known;
    struct sizing_body *to = base_arena_alloc(c->a, 1, sizeof *to);
    struct sizing_measurement *items = base_arena_alloc(c->a, from->count, sizeof *items);
    *to = (struct sizing_body){ text(c, from->name), from->unit, items, from->count };
    for (size_t i = 0; i < from->count; i++) {
        const struct err_place *at = &from->items[i].place;
        items[i] = (struct sizing_measurement){ text(c, from->items[i].name),
                                                from->items[i].mm,
                                                { text(c, at->file), text(c, at->path), at->line } };
    }
    remember(c, from, to);
    return to;
}

static const struct job_laid *laid(struct job_copying *c, const struct job_laid *from, size_t count)
{
    struct job_laid *to = base_arena_alloc(c->a, count, sizeof *to);
    for (size_t i = 0; i < count; i++) {
        to[i] = from[i];
        to[i].piece = text(c, from[i].piece);
    }
    return to;
}

static const struct job_cloth *cloths(struct job_copying *c, const struct job_cloth *from, size_t count)
{
    const struct job_cloth *known = find(c, from);
    if (known || !count)
        return known;
    struct job_cloth *to = base_arena_alloc(c->a, count, sizeof *to);
    for (size_t i = 0; i < count; i++) {
        to[i] = from[i];
        to[i].cloth = cloth_copy(c->a, &from[i].cloth);
        to[i].laid = laid(c, from[i].laid, from[i].laid_count);
    }
    remember(c, from, to);
    return to;
}

static void alterations(struct job_copying *c, struct job *job)
{
    struct draft_alteration *all = base_arena_alloc(c->a, job->alteration_count, sizeof *all);
    const char **texts = base_arena_alloc(c->a, job->alteration_count, sizeof *texts);
    for (size_t i = 0; i < job->alteration_count; i++) {
        all[i] = job->alterations[i];
        all[i].what = text(c, all[i].what);
        texts[i] = text(c, job->alteration_texts[i]);
    }
    job->alterations = all;
    job->alteration_texts = texts;
}

static struct job_words words(struct job_copying *c, struct job_words from)
{
    struct job_word *to = base_arena_alloc(c->a, from.count, sizeof *to);
    for (size_t i = 0; i < from.count; i++)
        to[i] = (struct job_word){ text(c, from.items[i].of), text(c, from.items[i].text) };
    return (struct job_words){ to, from.count };
}

/* Read anew from its text, once: known by the copy of that. */
static void table(struct job_copying *c, struct job *job)
{
    const struct job_source *of = &job->table_source;
    const struct calibration_table *known = find(c, of->text.data);
    if (!job->has_table)
        return;
    if (!known) {
        struct err_list *untold = base_err_list_create();
        struct calibration_table *to = base_arena_alloc(c->a, 1, sizeof *to);
        bool ok = calibration_table_parse(c->a, of->path, of->text.data, of->text.count, to, untold);
        base_err_list_destroy(untold);
        assert(ok); /* as it was read once */
        (void)ok;
        remember(c, of->text.data, to);
        known = to;
    }
    job->table = *known;
}

const struct job *job_copy(struct job_copying *c, const struct job *job)
{
    struct job *to = base_arena_alloc(c->a, 1, sizeof *to);
    *to = *job;
    to->pattern_source = source(c, job->pattern_source);
    to->body_source = source(c, job->body_source);
    to->table_source = source(c, job->table_source);
    to->pattern = pattern(c, job->pattern, &to->pattern_source);
    to->body = body(c, job->body);
    to->own_mm = numbers(c, job->own_mm, job->pattern ? job->pattern->figure_count : 0);
    to->level_position = numbers(c, job->level_position, job->pattern ? job->pattern->row_count : 0);
    to->cloths = cloths(c, job->cloths, job->cloth_count);
    to->ticket.name = text(c, job->ticket.name);
    to->ticket.unread = words(c, job->ticket.unread);
    to->ticket.notes = words(c, job->ticket.notes);
    alterations(c, to);
    table(c, to);
    return to;
}
