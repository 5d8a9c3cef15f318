#include "job/fitting.h"

#include "job/alterations.h"
#include "job/names.h"
#include "job/phrases.h"
#include "json/want.h"

#include <string.h>

static const struct err_kind made_to_word = {
    "job.made_to", ERR_FAULT, BASE_TR("“{0}” is neither \"size\" nor \"body\"; a job is made to one of them")
};
static const struct err_kind no_body = {
    "job.no_body", ERR_FAULT, BASE_TR("nothing can be drafted or blended to the body without her measurements")
};
static const struct err_kind no_levels = {
    "job.no_levels", ERR_FAULT,
    BASE_TR("no piece of the pattern says which level its points follow, so that it cannot "
            "be blended")
};
static const struct err_kind no_rows = { "job.no_rows", ERR_FAULT,
                                         BASE_TR("the pattern has no size chart, whose rows are the levels of a blend; "
                                                 "write them into the pattern file first") };
static const struct err_kind blend_form = { "job.blend", ERR_FAULT,
                                            BASE_TR("“{0}” names no level of the chart; write “body”, or levels with a "
                                                    "size each, such as “{2} {3}”; the levels are {1}") };
static const struct err_kind blend_size = { "job.blend_size", ERR_FAULT,
                                            BASE_TR("level “{0}” has no size “{1}”; the sizes are {2}") };
static const struct err_kind blend_empty = {
    "job.blend_empty", ERR_FAULT, BASE_TR("which levels? Write “body”, or levels with a size each, such as “{0} {1}”")
};
static const struct err_kind level_twice = { "job.level_twice", ERR_FAULT, BASE_TR("level “{0}” has a size already") };
static const struct err_kind no_row = { "job.no_row", ERR_FAULT, BASE_TR("the chart has no level “{0}”; it has {1}") };
static const struct err_kind off_chart = {
    "job.off_chart", ERR_FAULT, BASE_TR("the size position {0} lies outside the chart, which runs from 0 to {1}")
};

const double *job_own_figures(struct arena *a, const struct job *job)
{
    if (!job->body || !job->pattern)
        return NULL;
    double *mm = base_arena_alloc(a, job->pattern->figure_count, sizeof *mm);
    for (size_t i = 0; i < job->pattern->figure_count; i++) {
        const struct sizing_measurement *m = sizing_body_find(job->body, job->pattern->figures[i]);
        mm[i] = m ? m->mm : 0;
    }
    return mm;
}

bool job_has_levels(const struct pattern *p)
{
    for (size_t i = 0; i < p->piece_count; i++)
        if (p->pieces[i].levels)
            return true;
    return false;
}

static double *plain_levels(struct arena *a, const struct job *job)
{
    double *position = base_arena_alloc(a, job->pattern->row_count, sizeof *position);
    for (size_t i = 0; i < job->pattern->row_count; i++)
        position[i] = fmax(job->position, 0);
    return position;
}

const double *job_levels_of_body(struct arena *a, const struct job *job)
{
    double *position = plain_levels(a, job);
    for (size_t i = 0; job->body && i < job->pattern->row_count; i++) {
        const struct sizing_measurement *m = sizing_body_find(job->body, job->pattern->chart[i].name);
        if (m)
            position[i] = sizing_row_position_near(pattern_drawn_for(job->pattern, m->name, job->cup_group), m->mm,
                                                   job->position);
    }
    return position;
}

/* "waist 4" or "upper bust 5 to 6": the row with the longest name that the text begins with, and what stands behind it;
 * PATTERN_NONE when there is none. */
static int split_level(const struct pattern *p, const char *text, const char **size)
{
    int found = PATTERN_NONE;
    size_t longest = 0;
    for (size_t row = 0; row < p->row_count; row++) {
        size_t length = strlen(p->chart[row].name);
        if (length <= longest || strncmp(text, p->chart[row].name, length) != 0 || text[length] != ' ')
            continue;
        found = (int)row;
        longest = length;
        *size = text + length + strspn(text + length, " ");
    }
    return found;
}

static bool read_level(const struct pattern *p, const char *text, int *row, double *position, struct err_place place,
                       struct err_list *errs)
{
    const char *size = "";
    *row = split_level(p, text, &size);
    if (*row == PATTERN_NONE)
        base_err(errs, &blend_form, place, ERR_TEXT(text),
                 ERR_TEXT(job_names_of(errs->arena, p->chart, p->row_count, sizeof *p->chart)),
                 ERR_TEXT(p->chart[0].name), ERR_TEXT(p->sizes[0]));
    else if (!pattern_find_position(p, size, position))
        base_err(errs, &blend_size, place, ERR_TEXT(p->chart[*row].name), ERR_TEXT(size),
                 ERR_TEXT(job_names_of(errs->arena, p->sizes, p->size_count, sizeof *p->sizes)));
    else
        return true;
    return false;
}

/* The parts of a list, without spaces around; *at moves past each. NULL at the end. */
static const char *next_part(struct arena *a, const char **at, char mark)
{
    const char *from = *at + strspn(*at, " ");
    if (!*from)
        return NULL;
    const char marks[] = { mark, '\0' };
    size_t length = strcspn(from, marks);
    *at = from + length + (from[length] == mark);
    while (length && from[length - 1] == ' ')
        length--;
    return base_arena_copy_bytes(a, from, length);
}

static const double *levels_by_hand(struct arena *a, const struct job *job, const char *text, struct err_place place,
                                    struct err_list *errs)
{
    const struct pattern *p = job->pattern;
    double *position = plain_levels(a, job);
    bool *given = base_arena_alloc(a, p->row_count, sizeof *given), any = false;
    int before = errs->faults;
    for (const char *part = next_part(a, &text, ','); part; part = next_part(a, &text, ',')) {
        int row;
        double at;
        if (!read_level(p, part, &row, &at, place, errs))
            continue;
        if (given[row])
            base_err(errs, &level_twice, place, ERR_TEXT(p->chart[row].name));
        given[row] = any = true;
        position[row] = at;
    }
    if (!any && errs->faults == before)
        base_err(errs, &blend_empty, place, ERR_TEXT(p->chart[0].name), ERR_TEXT(p->sizes[0]));
    return errs->faults == before ? position : NULL;
}

static bool choose_levels(struct arena *a, const struct job_choices *choices, struct job *job, struct err_list *errs)
{
    static const struct err_place place = { NULL, NULL, 0 }; /* the command line */
    bool by_body = choices->blend && strcmp(choices->blend, "body") == 0;
    if (!choices->blend)
        return true;
    if (!pattern_has_chart(job->pattern)) {
        base_err(errs, &no_rows, place, ERR_NONE);
        return false;
    }
    if (!job_has_levels(job->pattern)) {
        base_err(errs, &no_levels, place, ERR_NONE);
        return false;
    }
    if (by_body && !job->body) {
        base_err(errs, &no_body, place, ERR_NONE);
        return false;
    }
    job->level_position = by_body ? job_levels_of_body(a, job) : levels_by_hand(a, job, choices->blend, place, errs);
    return job->level_position != NULL;
}

static bool choose_made_to(const struct job_choices *choices, struct job *job, struct err_list *errs)
{
    static const struct err_place place = { NULL, NULL, 0 }; /* the command line */
    const char *word = choices->made_to;
    job->to_body = word ? strcmp(word, "body") == 0 : job->pattern->made_to_body && job->body;
    if (word && !job->to_body && strcmp(word, "size") != 0)
        base_err(errs, &made_to_word, place, ERR_TEXT(word));
    else if (job->to_body && !job->body)
        base_err(errs, &no_body, place, ERR_NONE);
    else
        return true;
    return false;
}

enum units_length job_unit(const struct job *job)
{
    return job->body ? job->body->unit : job->pattern ? job->pattern->unit : UNITS_CM;
}

const bool *job_cut_pieces(struct arena *a, const struct job *job)
{
    const struct pattern *p = job->pattern;
    bool *is_cut = base_arena_alloc(a, p->piece_count, sizeof *is_cut);
    for (size_t i = 0; job->view == PATTERN_NONE && i < p->piece_count; i++)
        is_cut[i] = pattern_in_cup_group(p->pieces[i].cup_group, job->cup_group);
    for (size_t i = 0; job->view != PATTERN_NONE && i < p->views[job->view].cut_count; i++) {
        int piece = p->views[job->view].cuts[i].piece;
        is_cut[piece] = pattern_in_cup_group(p->pieces[piece].cup_group, job->cup_group);
    }
    return is_cut;
}

/* Whether the width or allowance that was given before is another of the same rectangle or edge; all other kinds add
 * up. */
static bool takes_place_of(const struct draft_alteration *now, const struct draft_alteration *before)
{
    bool is_alone = now->kind == DRAFT_WIDTH || now->kind == DRAFT_ALLOWANCE;
    return is_alone && before->kind == now->kind && strcmp(now->what, before->what) == 0;
}

/* Adds one to what is altered already: its words, and what they come to. */
static void add_alteration(struct arena *a, struct job *job, const char *text, const struct draft_alteration *now)
{
    size_t count = 0, cap = 0, texts_cap = 0;
    struct draft_alteration *all = base_arena_grow(a, NULL, &cap, job->alteration_count + 1, sizeof *all);
    const char **texts = base_arena_grow(a, NULL, &texts_cap, job->alteration_count + 1, sizeof *texts);
    for (size_t i = 0; i < job->alteration_count; i++) {
        if (takes_place_of(now, &job->alterations[i]))
            continue;
        all[count] = job->alterations[i];
        texts[count++] = job->alteration_texts[i];
    }
    all[count] = *now;
    texts[count++] = text;
    job->alterations = all;
    job->alteration_texts = texts;
    job->alteration_count = count;
}

/* The job keeps words that mean the same whatever unit they were typed in. */
static bool alter_once(struct arena *a, struct job *job, const char *text, const enum units_length *unit,
                       struct err_place place, struct err_list *errs)
{
    struct draft_figure figure = job_figure(job);
    struct job_altered of = { job->pattern, &figure, job_cut_pieces(a, job), job->own_mm,
                              unit ? *unit : job_unit(job) };
    struct draft_alteration alteration;
    if (!job_alteration_read(a, &of, text, place, &alteration, errs))
        return false;
    const char *kept = job_phrase_kept(a, &of, text);
    add_alteration(a, job, job_alteration_words(a, &of, kept, &alteration, job_unit(job)), &alteration);
    return true;
}

bool job_alter(struct arena *a, struct job *job, const char *texts, const enum units_length *unit,
               struct err_place place, struct err_list *errs)
{
    bool ok = true;
    for (const char *text = next_part(a, &texts, ';'); text; text = next_part(a, &texts, ';'))
        ok = (!*text || alter_once(a, job, text, unit, place, errs)) && ok;
    return ok;
}

/* What it comes to may change before the job is finished; the words are kept whatever that is. */
void job_alter_later(struct arena *a, struct job *job, const char *text, enum units_length unit)
{
    static const struct draft_alteration not_known = { .what = "", .row = PATTERN_NONE };
    struct err_list *untold = base_err_list_create();
    if (!alter_once(a, job, text, &unit, (struct err_place){ NULL, NULL, 0 }, untold))
        add_alteration(a, job, text, &not_known);
    base_err_list_destroy(untold);
}

bool job_fit(struct arena *a, const struct job_choices *choices, struct job *job, struct err_list *errs)
{
    job->own_mm = job_own_figures(a, job);
    job->trial = choices->trial;
    bool ok = choose_made_to(choices, job, errs);
    ok = choose_levels(a, choices, job, errs) && ok;
    return ok && (!choices->alter ||
                  job_alter(a, job, choices->alter, choices->unit, (struct err_place){ NULL, NULL, 0 }, errs));
}

static void read_levels(struct arena *a, const struct json_node *object, struct job *job, struct err_list *errs)
{
    double *position = plain_levels(a, job), last = (double)(job->pattern->size_count - 1);
    for (const struct json_node *n = object->first; n; n = n->next) {
        int row = pattern_find_row(job->pattern, n->key);
        if (!pattern_has_chart(job->pattern))
            json_fault(errs, n, &no_rows, ERR_NONE);
        else if (row == PATTERN_NONE)
            json_fault(
                errs, n, &no_row, ERR_TEXT(n->key),
                ERR_TEXT(job_names_of(a, job->pattern->chart, job->pattern->row_count, sizeof *job->pattern->chart)));
        else if (!json_is(n, JSON_NUMBER, errs))
            continue;
        else if (!(n->number >= 0 && n->number <= last))
            json_fault(errs, n, &off_chart, ERR_NUMBER(n->number), ERR_NUMBER(last));
        else
            position[row] = n->number;
    }
    job->level_position = position;
}

void job_read_fitting(struct arena *a, const struct json_node *top, struct job *job, struct err_list *errs)
{
    const struct json_node *made_to = json_maybe(top, "made_to", JSON_TEXT, errs);
    const struct json_node *levels = json_maybe(top, "levels", JSON_OBJECT, errs);
    const struct json_node *altered = json_maybe(top, "alterations", JSON_LIST, errs);
    const struct json_node *trial = json_find(top, "trial");
    job->own_mm = job_own_figures(a, job);
    job->to_body = made_to && strcmp(made_to->text, "body") == 0;
    if (made_to && !job->to_body && strcmp(made_to->text, "size") != 0)
        json_fault(errs, made_to, &made_to_word, ERR_TEXT(made_to->text));
    job->trial = trial && trial->type != JSON_FALSE && json_is(trial, JSON_TRUE, errs);
    if (levels)
        read_levels(a, levels, job, errs);
    for (const struct json_node *n = altered ? altered->first : NULL; n; n = n->next)
        if (json_is(n, JSON_TEXT, errs) && job_is_finished(job))
            alter_once(a, job, n->text, NULL, json_place(a, n), errs);
        else if (n->type == JSON_TEXT)
            job_alter_later(a, job, n->text, job_unit(job));
}

void job_tell_no_body(const struct json_node *top, struct err_list *errs)
{
    json_fault(errs, json_find(top, "made_to"), &no_body, ERR_NONE);
}

void job_write_fitting(struct json_out *top, const struct job *job)
{
    if (job->to_body)
        json_out_text(top, "made_to", "body");
    if (job->trial)
        json_out_bool(top, "trial", true);
    if (job->level_position) {
        struct json_out *levels = json_out_object(top, "levels");
        for (size_t i = 0; i < job->pattern->row_count; i++)
            json_out_number(levels, job->pattern->chart[i].name, job->level_position[i]);
    }
    struct json_out *list = job->alteration_count ? json_out_list(top, "alterations") : NULL;
    for (size_t i = 0; i < job->alteration_count; i++)
        json_out_text(list, NULL, job->alteration_texts[i]);
}

struct draft_figure job_figure(const struct job *job)
{
    struct draft_figure figure = draft_figure_at(job->position, job->cup_group);
    figure.level_position = job->level_position;
    figure.body_mm = job->to_body ? job->own_mm : NULL;
    figure.alterations = job->alterations;
    figure.alteration_count = job->alteration_count;
    figure.trial = job->trial;
    return figure;
}
