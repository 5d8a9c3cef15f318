/* Another pattern: what was chosen stays where it has a meaning there. */
#include "job/change.h"

#include "job/changed.h"
#include "job/fitting.h"
#include "job/laid.h"
#include "job/refit.h"
#include "job/sources.h"
#include "pattern/read.h"

static const struct err_kind lost_view = { "job.lost_view", ERR_WARNING,
                                           BASE_TR("the view “{0}” fell away: the new pattern has none of that name") };
static const struct err_kind lost_size = { "job.lost_size", ERR_WARNING,
                                           BASE_TR("the size “{0}” fell away: the new pattern has none of that name") };
static const struct err_kind lost_cup_group = {
    "job.lost_cup_group", ERR_WARNING, BASE_TR("the cup group “{0}” fell away: the new pattern has none of that name")
};
static const struct err_kind lost_level = {
    "job.lost_level", ERR_WARNING,
    BASE_TR("what was chosen for the level “{0}” fell away: the new pattern has no such level or size")
};
static const struct err_kind lost_note = {
    "job.lost_note", ERR_WARNING, BASE_TR("the note on “{0}” fell away: the new pattern has no piece of that name")
};

/* A job on its way from one pattern to another. */
struct moving {
    struct arena *a;
    const struct job *was;
    struct job *job; /* with the new pattern */
    struct err_list *errs;
};

static void tell_lost(const struct moving *m, const struct err_kind *kind, const char *name)
{
    base_err(m->errs, kind, base_err_in_file(NULL), ERR_TEXT(name));
}

/* A place of the old chart in the new one, by its name; PATTERN_NONE: there is none. */
static double moved_position(const struct moving *m, double position)
{
    double found = PATTERN_NONE;
    if (m->was->pattern && position != PATTERN_NONE)
        pattern_find_position(m->job->pattern, pattern_size_text(m->a, m->was->pattern, position), &found);
    return found;
}

static void move_view(const struct moving *m)
{
    const struct pattern *from = m->was->pattern, *to = m->job->pattern;
    const char *name = m->was->view == PATTERN_NONE ? NULL : from->views[m->was->view].name;
    m->job->view = name ? pattern_find_view(to, name) : PATTERN_NONE;
    if (name && m->job->view == PATTERN_NONE)
        tell_lost(m, &lost_view, from->views[m->was->view].shown);
    if (m->job->view == PATTERN_NONE && to->view_count == 1)
        m->job->view = 0;
}

/* A size that she chose is another pattern's size of that name: she agrees to it anew. */
static void move_size(const struct moving *m)
{
    struct job_ticket *ticket = &m->job->ticket;
    m->job->position = moved_position(m, m->was->position);
    ticket->size_confirmed = false;
    if (ticket->size_by_hand && m->job->position == PATTERN_NONE && m->was->position != PATTERN_NONE)
        tell_lost(m, &lost_size, pattern_size_shown(m->a, m->was->pattern, m->was->position));
    ticket->size_by_hand = ticket->size_by_hand && m->job->position != PATTERN_NONE;
}

static void move_cup_group(const struct moving *m)
{
    const char *name = m->was->cup_group == PATTERN_NONE ? NULL : m->was->pattern->cup_groups[m->was->cup_group].name;
    m->job->cup_group = name ? pattern_find_cup_group(m->job->pattern, name) : PATTERN_NONE;
    if (name && m->job->ticket.cup_by_hand && m->job->cup_group == PATTERN_NONE)
        tell_lost(m, &lost_cup_group, name);
    m->job->ticket.cup_by_hand = m->job->ticket.cup_by_hand && m->job->cup_group != PATTERN_NONE;
}

/* One level of the old blend in the new chart; where the size is when the new one has no such level, size or both. */
static double moved_level(const struct moving *m, const char *name)
{
    int row = pattern_find_row(m->was->pattern, name);
    double position = row == PATTERN_NONE ? PATTERN_NONE : moved_position(m, m->was->level_position[row]);
    return position == PATTERN_NONE ? m->job->position : position;
}

static void tell_lost_levels(const struct moving *m)
{
    const struct pattern *from = m->was->pattern;
    for (size_t i = 0; !m->job->ticket.blend_by_body && i < from->row_count; i++) {
        bool is_own = m->was->level_position[i] != m->was->position;
        bool is_kept = m->job->level_position &&
                       pattern_find_row(m->job->pattern, from->chart[i].name) != PATTERN_NONE &&
                       moved_position(m, m->was->level_position[i]) != PATTERN_NONE;
        if (is_own && !is_kept)
            tell_lost(m, &lost_level, pattern_worded(m->a, from, from->chart[i].name));
    }
}

static void move_levels(const struct moving *m)
{
    const struct pattern *to = m->job->pattern;
    if (!m->was->level_position)
        return;
    double *levels = base_arena_alloc(m->a, to->row_count, sizeof *levels);
    for (size_t i = 0; i < to->row_count; i++)
        levels[i] = fmax(moved_level(m, to->chart[i].name), 0);
    m->job->level_position = pattern_has_chart(to) && job_has_levels(to) ? levels : NULL;
    tell_lost_levels(m);
    m->job->ticket.blend_by_body = m->job->ticket.blend_by_body && m->job->level_position;
}

/* As the new pattern has it, unless she wanted the old one otherwise. */
static void move_made_to(const struct moving *m)
{
    const struct pattern *from = m->was->pattern;
    if (!from || m->was->to_body == from->made_to_body)
        m->job->to_body = m->job->pattern->made_to_body;
}

static void move_notes(const struct moving *m)
{
    struct job_words notes = m->was->ticket.notes;
    for (size_t i = 0; i < notes.count; i++) {
        const char *piece = notes.items[i].of;
        if (pattern_find_piece(m->job->pattern, piece) != PATTERN_NONE)
            continue;
        tell_lost(m, &lost_note, m->was->pattern ? pattern_worded(m->a, m->was->pattern, piece) : piece);
        m->job->ticket.notes = job_words_with(m->a, m->job->ticket.notes, piece, NULL);
    }
}

const struct job *job_with_pattern(struct arena *a, const struct job *job, const char *path, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    const struct job_source *source = &out->pattern_source;
    if (!job_source_load(a, path, &out->pattern_source, errs))
        return job;
    out->pattern = pattern_parse(a, source->path, source->text.data, source->text.count, errs);
    if (!out->pattern)
        return job;
    const struct moving m = { a, job, out, errs };
    move_view(&m);
    move_size(&m);
    move_cup_group(&m);
    move_levels(&m);
    move_made_to(&m);
    move_notes(&m);
    job_refit(a, job, out->position, out, errs);
    job_judge_layouts(a, job, PATTERN_NONE, out, errs);
    return out;
}
