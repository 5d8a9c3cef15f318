/* What a person chooses of a pattern, by its names: view, size and cup group. */
#include "job/choose.h"

#include "job/names.h"
#include "json/want.h"

static const struct err_kind no_view = { "job.no_view", ERR_FAULT,
                                         BASE_TR("the pattern has no view “{0}”; it has {1}") };
static const struct err_kind which_view = { "job.which_view", ERR_FAULT,
                                            BASE_TR("which view is it? The pattern has {0}") };
static const struct err_kind no_size = {
    "job.no_size", ERR_FAULT,
    BASE_TR(
        "the pattern has no size “{0}”; it has {1}. Between two neighbours “{2}” is half way, and “{2} at 40%” that "
        "share of the way")
};
static const struct err_kind no_other_size = { "job.no_size", ERR_FAULT,
                                               BASE_TR("the pattern has no size “{0}”; it has {1} alone") };
static const struct err_kind which_size = { "job.which_size", ERR_FAULT,
                                            BASE_TR("which size is it? The pattern has {0}; a body file picks one") };
static const struct err_kind name_size = { "job.no_chart", ERR_FAULT,
                                           BASE_TR("the pattern has no size chart to pick a size by; name the size "
                                                   "({0}), or write the chart's rows into the pattern "
                                                   "file, as “chart” and “main_measurement”") };
static const struct err_kind name_cup_group = { "job.no_bust", ERR_FAULT,
                                                BASE_TR("the pattern does not say for which bust its cup groups are "
                                                        "drawn; name one ({0}), or write each one's “bust” into "
                                                        "the pattern file") };
static const struct err_kind no_cup_group = { "job.no_cup_group", ERR_FAULT,
                                              BASE_TR("the pattern has no cup group “{0}”; it has {1}") };
static const struct err_kind which_cup_group = { "job.which_cup_group", ERR_FAULT,
                                                 BASE_TR("which cup group is it? The pattern has {0}") };
static const struct err_kind no_position = {
    "job.no_position", ERR_FAULT, BASE_TR("the size position {0} lies outside the chart, which runs from 0 to {1}")
};

static const char *view_names(struct arena *a, const struct pattern *p)
{
    return job_names_of(a, p->views, p->view_count, sizeof *p->views);
}

static const char *size_names(struct arena *a, const struct pattern *p)
{
    return job_names_of(a, p->sizes, p->size_count, sizeof *p->sizes);
}

static const char *cup_group_names(struct arena *a, const struct pattern *p)
{
    return job_names_of(a, p->cup_groups, p->cup_group_count, sizeof *p->cup_groups);
}

bool job_choose_view(const struct job_choices *choices, struct job *job, struct err_list *errs)
{
    const struct pattern *p = job->pattern;
    struct err_place place = base_err_in_file(choices->pattern);
    job->view = choices->view ? pattern_find_view(p, choices->view) : p->view_count == 1 ? 0 : PATTERN_NONE;
    if (job->view != PATTERN_NONE || (!choices->view && choices->all_pieces))
        return true;
    if (choices->view)
        base_err(errs, &no_view, place, ERR_TEXT(choices->view), ERR_TEXT(view_names(errs->arena, p)));
    else
        base_err(errs, &which_view, place, ERR_TEXT(view_names(errs->arena, p)));
    return false;
}

static bool find_named_size(const struct job_choices *choices, const struct pattern *p, double *position,
                            struct err_list *errs)
{
    bool only = p->size_count == 1 && !pattern_has_chart(p); /* there is nothing to choose, and nothing to choose by */
    *position = only && !choices->size ? 0 : PATTERN_NONE;
    if (!choices->size || pattern_find_position(p, choices->size, position))
        return true;
    struct err_place place = base_err_in_file(choices->pattern);
    const char *names = size_names(errs->arena, p);
    if (p->size_count > 1)
        base_err(errs, &no_size, place, ERR_TEXT(choices->size), ERR_TEXT(names),
                 ERR_TEXT(pattern_size_shown(errs->arena, p, 0.5)));
    else
        base_err(errs, &no_other_size, place, ERR_TEXT(choices->size), ERR_TEXT(names));
    return false;
}

static bool find_named_cup_group(const struct job_choices *choices, const struct pattern *p, int *group,
                                 struct err_list *errs)
{
    *group = PATTERN_NONE;
    if (!choices->cup_group)
        return true;
    *group = pattern_find_cup_group(p, choices->cup_group);
    if (*group == PATTERN_NONE)
        base_err(errs, &no_cup_group, base_err_in_file(choices->pattern), ERR_TEXT(choices->cup_group),
                 ERR_TEXT(cup_group_names(errs->arena, p)));
    return *group != PATTERN_NONE;
}

/* Size and cup group as they are named, with no body to work them out from. */
static bool take_named(const struct job_choices *choices, struct job *job, double position, int group,
                       struct err_list *errs)
{
    const struct pattern *p = job->pattern;
    struct err_place place = base_err_in_file(choices->pattern);
    bool lacks_size = position == PATTERN_NONE, lacks_group = group == PATTERN_NONE && p->cup_group_count;
    if (lacks_size)
        base_err(errs, &which_size, place, ERR_TEXT(size_names(errs->arena, p)));
    if (lacks_group && pattern_has_group_busts(p))
        base_err(errs, &which_cup_group, place, ERR_TEXT(cup_group_names(errs->arena, p)));
    job->position = position;
    job->cup_group = group;
    return !lacks_size && !lacks_group;
}

/* What no measurements can pick is named. */
static bool tell_unpicked(const struct job_choices *choices, const struct job *job, double position,
                          struct err_list *errs)
{
    const struct pattern *p = job->pattern;
    struct err_place place = base_err_in_file(choices->pattern);
    int before = errs->faults;
    if (position == PATTERN_NONE && !pattern_has_chart(p))
        base_err(errs, &name_size, place, ERR_TEXT(size_names(errs->arena, p)));
    if (!choices->cup_group && p->cup_group_count && !pattern_has_group_busts(p))
        base_err(errs, &name_cup_group, place, ERR_TEXT(cup_group_names(errs->arena, p)));
    return errs->faults == before;
}

bool job_choose_size(struct arena *a, const struct job_choices *choices, struct job *job, struct sizing_choice *choice,
                     struct err_list *errs)
{
    double position;
    int group;
    bool ok = find_named_size(choices, job->pattern, &position, errs);
    ok = find_named_cup_group(choices, job->pattern, &group, errs) && ok;
    ok = tell_unpicked(choices, job, position, errs) && ok;
    if (ok && !job->body)
        return take_named(choices, job, position, group, errs);
    if (!ok || !sizing_choose_named(a, job->pattern, job->body, position, group, choice, errs))
        return false;
    job->position = choice->position;
    job->cup_group = choice->cup_group;
    return true;
}

void job_read_choices(const struct json_node *top, struct job *job, struct err_list *errs)
{
    const struct pattern *p = job->pattern;
    const char *view = json_find(top, "view") ? json_need_text(top, "view", errs) : NULL;
    const struct json_node *position = json_maybe(top, "size_position", JSON_NUMBER, errs);
    const struct json_node *group = json_maybe(top, "cup_group", JSON_TEXT, errs);
    double last = (double)(p->size_count - 1);
    job->view = view ? pattern_find_view(p, view) : PATTERN_NONE;
    if (view && job->view == PATTERN_NONE)
        json_fault(errs, json_find(top, "view"), &no_view, ERR_TEXT(view), ERR_TEXT(view_names(errs->arena, p)));
    if (position && !(position->number >= 0 && position->number <= last))
        json_fault(errs, position, &no_position, ERR_NUMBER(position->number), ERR_NUMBER(last));
    job->position = position ? position->number : PATTERN_NONE;
    job->cup_group = group ? pattern_find_cup_group(p, group->text) : PATTERN_NONE;
    if (group && job->cup_group == PATTERN_NONE)
        json_fault(errs, group, &no_cup_group, ERR_TEXT(group->text), ERR_TEXT(cup_group_names(errs->arena, p)));
}
