#include "app/fitted.h"

#include "app/size_report.h"
#include "base/words.h"
#include "fit/mismatch.h"
#include "job/phrases.h"
#include "pattern/each.h"

#include <math.h>

static const struct err_kind too_far = {
    "app.fitted_too_far", ERR_FAULT,
    BASE_TR("as it is drawn the pattern can be cut, but not as it is altered, blended or "
            "drafted to the body here; alter it less")
};

static const struct err_kind body_too_far = {
    "app.body_too_far", ERR_FAULT,
    BASE_TR("as it is drawn the pattern can be cut, but not to these measurements: "
            "of all that it is drafted by, “{0}” is farthest from the size, {1} for "
            "{2}; measure it again")
};

static bool can_be_drafted(const struct job *job, const struct draft_figure *figure)
{
    struct arena *a = base_arena_create();
    struct err_list *told = base_err_list_create();
    struct draft draft;
    bool ok = draft_make(a, job->pattern, figure, job->view, &draft, told);
    base_err_list_destroy(told);
    base_arena_destroy(a);
    return ok;
}

/* By how many times one of her own is longer or shorter than the size's; 0 where it is not compared. */
static double times_off(const struct job *job, const struct draft_figure *plain, int figure)
{
    double own = job->own_mm[figure], mm = draft_figure_mm(job->pattern, plain, figure, plain->position);
    return own > 0 && mm > 0 ? fmax(own / mm, mm / own) : 0;
}

/* The measurement that pieces are drafted by and that is farthest from the size's; PATTERN_NONE: no such. */
static int farthest_figure(struct arena *a, const struct job *job, const struct draft_figure *plain)
{
    const bool *read = pattern_figures_read(a, job->pattern);
    int farthest = PATTERN_NONE;
    double most = 1;
    for (int i = 0; i < (int)job->pattern->figure_count; i++)
        if (read[i] && times_off(job, plain, i) > most) {
            most = times_off(job, plain, i);
            farthest = i;
        }
    return farthest;
}

/* Whether it is how the job is fitted that cannot be drafted, not the pattern; and whether her body alone cannot. */
static void tell_fitted(struct arena *a, const struct job *job, struct err_list *errs)
{
    struct draft_figure plain = draft_figure_at(job->position, job->cup_group), her = plain;
    if (!can_be_drafted(job, &plain))
        return;
    her.body_mm = job->to_body ? job->own_mm : NULL;
    int figure = job->to_body && !can_be_drafted(job, &her) ? farthest_figure(a, job, &plain) : PATTERN_NONE;
    if (figure == PATTERN_NONE) {
        base_err(errs, &too_far, base_err_in_file(job->pattern_source.path), ERR_NONE);
        return;
    }
    const char *name = job->pattern->figures[figure];
    base_err(errs, &body_too_far, sizing_body_find(job->body, name)->place,
             ERR_TEXT(pattern_worded(a, job->pattern, name)), ERR_MM(job->own_mm[figure]),
             ERR_MM(draft_figure_mm(job->pattern, &plain, figure, plain.position)));
}

bool app_draft(struct arena *a, const struct job *job, struct draft *out, struct err_list *errs)
{
    struct draft_figure figure = job_figure(job);
    bool *is_cut = base_arena_alloc(a, job->pattern->piece_count, sizeof *is_cut);
    if (!draft_make(a, job->pattern, &figure, job->view, out, errs)) {
        if (draft_is_fitted(&figure))
            tell_fitted(a, job, errs);
        return false;
    }
    for (size_t i = 0; i < out->piece_count; i++)
        is_cut[out->pieces[i].index] = true;
    if (draft_is_fitted(&figure))
        fit_tell_mismatches(out->sized, is_cut, errs);
    return true;
}

/* A figure that the body lacks and the chart stands in for; what no formula reads need not be measured. */
static bool is_estimated(const struct job *job, const bool *read, int figure)
{
    return job->to_body && !(job->own_mm[figure] > 0) && read[figure];
}

static double estimate(const struct job *job, int figure)
{
    struct draft_figure whom = job_figure(job);
    return draft_figure_mm(job->pattern, &whom, figure, job->position);
}

/* The bust that her cup group rests on, where it is estimated from the upper bust and no formula reads it; 0: none. */
static double estimated_bust_mm(struct arena *a, const struct job *job, const bool *read)
{
    struct sizing_choice c = { .position = 0 };
    int bust = pattern_find_figure(job->pattern, PATTERN_BUST);
    if (!job->to_body || !pattern_has_group_busts(job->pattern) ||
        (bust != PATTERN_NONE && is_estimated(job, read, bust)))
        return 0;
    struct err_list *told = base_err_list_create(); /* told when the size was chosen */
    bool ok = sizing_choose_named(a, job->pattern, job->body, job->position, PATTERN_NONE, &c, told);
    base_err_list_destroy(told);
    return ok && c.bust.source == SIZING_FROM_UPPER_BUST && c.cup_group == job->cup_group ? c.bust.mm : 0;
}

static const char *estimate_text(struct arena *a, double mm, enum units_length unit)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, app_estimate_mm(mm, unit), unit));
}

static const char *body_lines(struct arena *a, const struct job *job, enum units_length unit)
{
    const char *lines = *job->body->name
                            ? base_arena_print(a, base_tr("Drafted to the measurements of %s.\n"), job->body->name)
                            : base_tr("Drafted to her own measurements.\n");
    const bool *read = pattern_figures_read(a, job->pattern);
    double bust_mm = estimated_bust_mm(a, job, read);
    if (bust_mm > 0)
        lines =
            base_arena_print(a, "%s%s", lines,
                             base_arena_print(a, base_tr("  bust: not measured, estimated from the upper bust as %s\n"),
                                              estimate_text(a, bust_mm, unit)));
    for (int i = 0; i < (int)job->pattern->figure_count; i++)
        if (is_estimated(job, read, i) && estimate(job, i) > 0)
            lines =
                base_arena_print(a, "%s%s", lines,
                                 base_arena_print(a, base_tr("  %s: not measured, estimated from the chart as %s\n"),
                                                  pattern_worded(a, job->pattern, job->pattern->figures[i]),
                                                  estimate_text(a, estimate(job, i), unit)));
    return lines;
}

static const char *blend_lines(struct arena *a, const struct job *job)
{
    const char *list = "";
    for (size_t i = 0; i < job->pattern->row_count; i++)
        list = base_arena_print(a, "%s%s%s %s", list, i ? ", " : "",
                                pattern_worded(a, job->pattern, job->pattern->chart[i].name),
                                pattern_size_shown(a, job->pattern, job->level_position[i]));
    return base_arena_print(a, base_tr("Blended by level: %s.\n"), list);
}

const char *app_fitted_report(struct arena *a, const struct job *job, enum units_length unit)
{
    const char *text = job->to_body ? body_lines(a, job, unit) : "";
    if (job->level_position)
        text = base_arena_print(a, "%s%s", text, blend_lines(a, job));
    if (job->trial)
        text = base_arena_print(a, "%s%s", text, base_tr("Trial garment: main pieces alone, 1 in allowances.\n"));
    if (job->alteration_count)
        text = base_arena_print(a, "%s%s", text, base_tr("Altered:\n"));
    for (size_t i = 0; i < job->alteration_count; i++)
        text = base_arena_print(a, "%s  %zu  %s\n", text, i + 1,
                                job_phrase_shown(a, job->pattern, job->alteration_texts[i]));
    return text;
}

static void estimate_json(struct json_out *list, const char *name, double mm)
{
    struct json_out *row = json_out_object(list, NULL);
    json_out_text(row, "measurement", name);
    json_out_number(row, "mm", mm);
}

void app_fitted_json(struct arena *a, struct json_out *to, const struct job *job)
{
    const bool *read = pattern_figures_read(a, job->pattern);
    struct json_out *object = json_out_object(to, "fitted");
    json_out_bool(object, "to_body", job->to_body);
    json_out_bool(object, "trial", job->trial);
    struct json_out *estimated = json_out_list(object, "estimated");
    double bust_mm = estimated_bust_mm(a, job, read);
    if (bust_mm > 0)
        estimate_json(estimated, PATTERN_BUST, bust_mm);
    for (int i = 0; job->to_body && i < (int)job->pattern->figure_count; i++)
        if (is_estimated(job, read, i))
            estimate_json(estimated, job->pattern->figures[i], estimate(job, i));
    if (job->level_position) {
        struct json_out *levels = json_out_object(object, "levels");
        for (size_t i = 0; i < job->pattern->row_count; i++)
            json_out_number(levels, job->pattern->chart[i].name, job->level_position[i]);
    }
    struct json_out *list = json_out_list(object, "alterations");
    for (size_t i = 0; i < job->alteration_count; i++)
        json_out_text(list, NULL, job->alteration_texts[i]);
}
