#include "app/fitted.h"

#include "app/check_values.h"
#include "fit/mismatch.h"

static const struct err_kind too_far = { "app.fitted_too_far", ERR_FAULT,
                                         "as it is drawn the pattern can be cut, but not as it is altered, blended or "
                                         "drafted to the body here; alter it less" };

static bool is_fitted(const struct draft_figure *figure)
{
    return figure->body_mm || figure->level_position || figure->alteration_count;
}

/* Whether it is how the job is fitted that cannot be drafted, not the pattern. */
static bool can_be_drafted_plain(const struct job *job)
{
    struct arena *a = base_arena_create();
    struct err_list *told = base_err_list_create();
    struct draft_figure figure = draft_figure_at(job->position, job->cup_group);
    struct draft draft;
    bool ok = draft_make(a, job->pattern, &figure, job->view, &draft, told);
    base_err_list_destroy(told);
    base_arena_destroy(a);
    return ok;
}

bool app_draft(struct arena *a, const struct job *job, struct draft *out, struct err_list *errs)
{
    struct draft_figure figure = job_figure(job);
    bool *is_cut = base_arena_alloc(a, job->pattern->piece_count, sizeof *is_cut);
    if (!draft_make(a, job->pattern, &figure, job->view, out, errs)) {
        if (is_fitted(&figure) && can_be_drafted_plain(job))
            base_err(errs, &too_far, base_err_in_file(job->pattern_source.path), ERR_NONE);
        return false;
    }
    for (size_t i = 0; i < out->piece_count; i++)
        is_cut[out->pieces[i].index] = true;
    if (is_fitted(&figure))
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

static const char *body_lines(struct arena *a, const struct job *job, enum units_length unit)
{
    const char *lines = base_arena_print(a, "Drafted to the measurements of %s.\n", job->body->name);
    const bool *read = check_figures_read(a, job->pattern);
    char text[UNITS_TEXT];
    for (int i = 0; i < (int)job->pattern->figure_count; i++)
        if (is_estimated(job, read, i) && estimate(job, i) > 0)
            lines = base_arena_print(a, "%s  %s: not measured, estimated from the chart as %s\n", lines,
                                     job->pattern->figures[i],
                                     units_print_length(text, units_to_sixteenth(estimate(job, i), unit), unit));
    return lines;
}

static const char *blend_lines(struct arena *a, const struct job *job)
{
    const char *lines = "Blended by level:";
    for (size_t i = 0; i < job->pattern->row_count; i++)
        lines = base_arena_print(a, "%s%s %s %s", lines, i ? "," : "", job->pattern->chart[i].name,
                                 pattern_size_text(a, job->pattern, job->level_position[i]));
    return base_arena_print(a, "%s.\n", lines);
}

const char *app_fitted_report(struct arena *a, const struct job *job, enum units_length unit)
{
    const char *text = job->to_body ? body_lines(a, job, unit) : "";
    if (job->level_position)
        text = base_arena_print(a, "%s%s", text, blend_lines(a, job));
    if (job->trial)
        text = base_arena_print(a, "%sTrial garment: main pieces alone, 1 in allowances.\n", text);
    if (job->alteration_count)
        text = base_arena_print(a, "%sAltered:\n", text);
    for (size_t i = 0; i < job->alteration_count; i++)
        text = base_arena_print(a, "%s  %zu  %s\n", text, i + 1, job->alteration_texts[i]);
    return text;
}

void app_fitted_json(struct arena *a, struct json_out *to, const struct job *job)
{
    const bool *read = check_figures_read(a, job->pattern);
    struct json_out *object = json_out_object(to, "fitted");
    json_out_bool(object, "to_body", job->to_body);
    json_out_bool(object, "trial", job->trial);
    struct json_out *estimated = json_out_list(object, "estimated");
    for (int i = 0; job->to_body && i < (int)job->pattern->figure_count; i++)
        if (is_estimated(job, read, i)) {
            struct json_out *row = json_out_object(estimated, NULL);
            json_out_text(row, "measurement", job->pattern->figures[i]);
            json_out_number(row, "mm", estimate(job, i));
        }
    if (job->level_position) {
        struct json_out *levels = json_out_object(object, "levels");
        for (size_t i = 0; i < job->pattern->row_count; i++)
            json_out_number(levels, job->pattern->chart[i].name, job->level_position[i]);
    }
    struct json_out *list = json_out_list(object, "alterations");
    for (size_t i = 0; i < job->alteration_count; i++)
        json_out_text(list, NULL, job->alteration_texts[i]);
}
