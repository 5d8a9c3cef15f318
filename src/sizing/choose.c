#include "sizing/choose.h"

#include "base/text.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define UPPER_BUST "upper bust"

/* How much fuller the bust is than the upper bust where the chart does not say: 2 in, a B cup, which patterns without
 * cup groups are usually drawn for (common practice, no source). */
#define USUAL_FULLNESS_MM (2 * UNITS_MM_PER_IN)

/* The step to a further cup group where the pattern has one only: a group of two cups spans 2 in, an inch being a cup
 * (common practice, no source). */
#define GROUP_MM (2 * UNITS_MM_PER_IN)

static const struct err_kind no_main = {
    "sizing.no_main", ERR_FAULT,
    BASE_TR("“{0}” is missing; this pattern picks the size by it. Measure it and write it down{1}")
};
static const struct err_kind no_bust = { "sizing.no_bust", ERR_FAULT,
                                         BASE_TR("“bust” is missing; this pattern picks the cup group by it, and "
                                                 "nothing else tells it. Measure it and write it down"
                                                 "{1}") };
static const struct err_kind upper_bust_estimated = {
    "sizing.upper_bust_estimated", ERR_WARNING,
    BASE_TR("“upper bust” is missing, so size and cup group are estimates: an upper bust of {0} usually goes with a "
            "bust of "
            "{1}. "
            "On a fuller bust the true size is smaller, and this one comes out wide in the shoulders. Measure it "
            "before you cut")
};
static const struct err_kind bust_estimated = {
    "sizing.bust_estimated", ERR_WARNING,
    BASE_TR("“bust” is missing, so the cup group is an estimate: a bust of {0} usually goes with an upper bust of {1}, "
            "and cup "
            "group {2} is nearest to it. If yours is fuller, the front comes out tight. Measure it before you cut")
};
static const struct err_kind bust_from_chart = {
    "sizing.bust_estimated", ERR_WARNING,
    BASE_TR("“bust” is missing, so the cup group is an estimate: the chart's bust of {0} is taken for yours, and cup "
            "group {1} "
            "is nearest to it. If yours is fuller, the front comes out tight. Measure it before you cut")
};
static const struct err_kind cup_too_small = { "sizing.cup_outside", ERR_WARNING,
                                               BASE_TR(
                                                   "no cup group of this pattern is for a bust of {0} in this size. "
                                                   "{1} is nearest: drawn for {2}, it comes out {3} "
                                                   "tighter there than it is meant to. Sew a trial garment first") };
static const struct err_kind cup_too_large = { "sizing.cup_outside", ERR_WARNING,
                                               BASE_TR("no cup group of this pattern is for a bust of {0} in this "
                                                       "size. {1} is nearest: drawn for {2}, it comes out {3} "
                                                       "wider there than it is meant to. Sew a trial garment first") };
static const struct err_kind outside = { "sizing.outside", ERR_WARNING,
                                         BASE_TR("{0} of {1} lies outside the chart, which runs from {2} to {3}") };
static const struct err_kind not_in_chart = { "sizing.not_in_chart", ERR_WARNING,
                                              BASE_TR("“{0}” is not in this pattern's chart and was not used{1}") };

/* What a choice is worked out from. */
struct asked {
    struct arena *a;
    const struct pattern *p;
    const struct sizing_body *body;
    double position; /* named by the person, or PATTERN_NONE */
    int cup_group;   /* likewise */
};

static struct pattern_value chart_row(const struct pattern *p, const char *name)
{
    return pattern_drawn_for(p, name, PATTERN_NONE);
}

/* The measurement as the person wrote it down. */
static struct sizing_known measured(const struct asked *q, const char *name)
{
    const struct sizing_measurement *m = sizing_body_find(q->body, name);
    return m ? (struct sizing_known){ SIZING_MEASURED, m->mm } : (struct sizing_known){ SIZING_MISSING, 0 };
}

/* Full bust less upper bust, usually, at a place of the chart. */
static double fullness(const struct pattern *p, double position)
{
    struct pattern_value bust = chart_row(p, PATTERN_BUST), upper = chart_row(p, UPPER_BUST);
    if (!bust.count || !upper.count)
        return USUAL_FULLNESS_MM;
    return pattern_value_at(bust, position) - pattern_value_at(upper, position);
}

/* No estimate is better than a millimetre. */
static struct sizing_known estimate(enum sizing_source source, double mm)
{
    return (struct sizing_known){ source, round(mm) };
}

/* Of the measurement that picks the size; not written down where there is none. */
static struct sizing_known measured_main(const struct asked *q)
{
    return q->p->main_row == PATTERN_NONE ? (struct sizing_known){ SIZING_MISSING, 0 }
                                          : measured(q, q->p->chart[q->p->main_row].name);
}

static struct sizing_known find_main(const struct asked *q)
{
    const char *name = q->p->chart[q->p->main_row].name;
    struct sizing_known main = measured(q, name), bust = measured(q, PATTERN_BUST);
    if (main.source != SIZING_MISSING || bust.source == SIZING_MISSING || strcmp(name, UPPER_BUST) != 0)
        return main;
    struct pattern_value row = chart_row(q->p, PATTERN_BUST);
    double position = row.count ? sizing_row_position(row, bust.mm) : 0;
    double upper_mm = bust.mm - fullness(q->p, position);
    return upper_mm > 0 ? estimate(SIZING_FROM_BUST, upper_mm) : main;
}

static struct sizing_known find_bust(const struct asked *q, double position)
{
    struct sizing_known bust = measured(q, PATTERN_BUST), upper = measured(q, UPPER_BUST);
    struct pattern_value row = chart_row(q->p, PATTERN_BUST);
    if (bust.source != SIZING_MISSING)
        return bust;
    if (upper.source != SIZING_MISSING)
        return estimate(SIZING_FROM_UPPER_BUST, upper.mm + fullness(q->p, position));
    if (row.count)
        return estimate(SIZING_FROM_CHART, pattern_value_at(row, position));
    return bust;
}

static double group_bust(const struct pattern *p, int group, double position)
{
    return pattern_value_at(p->cup_groups[group].bust, position);
}

/* The nearest group, of two equally near the one that the pattern lists later. */
static void pick_cup_group(const struct pattern *p, struct sizing_choice *out)
{
    double best = INFINITY;
    for (int g = 0; g < (int)p->cup_group_count; g++) {
        double now = fabs(group_bust(p, g, out->position) - out->bust.mm);
        bool tie = fabs(now - best) <= SIZING_TIE_MM;
        if (!tie && now > best)
            continue;
        out->cup_tie = tie ? out->cup_group : g;
        out->cup_group = g;
        best = now;
    }
}

/* From the chosen group's bust to that of the nearest other group. */
static double step_to_next_group(const struct pattern *p, const struct sizing_choice *c)
{
    double step = INFINITY;
    for (int g = 0; g < (int)p->cup_group_count; g++) {
        double off = fabs(group_bust(p, g, c->position) - c->cup_chart_mm);
        if (g != c->cup_group && off > 0)
            step = fmin(step, off);
    }
    return isfinite(step) ? step : GROUP_MM;
}

/* The group is the nearest, so a bust far from it lies beyond all groups. Half a step is far on the fuller side, where
 * a further group would be nearer; on the other side, where the front can be taken in, a whole step. */
static void note_beyond_groups(const struct pattern *p, struct sizing_choice *out)
{
    double step = step_to_next_group(p, out), beyond = out->bust.mm - out->cup_chart_mm;
    if (out->cup_named || out->bust.source != SIZING_MEASURED)
        return;
    out->cup_above = beyond > step / 2 + SIZING_TIE_MM;
    out->cup_below = -beyond > step + SIZING_TIE_MM;
}

static bool find_cup_group(const struct asked *q, struct sizing_choice *out)
{
    out->cup_group = out->cup_tie = q->cup_group;
    if (!q->p->cup_group_count)
        return true;
    assert(out->cup_named || pattern_has_group_busts(q->p));
    out->bust = out->cup_named ? measured(q, PATTERN_BUST) : find_bust(q, out->position);
    if (out->bust.source == SIZING_MISSING && !out->cup_named)
        return false;
    if (!out->cup_named)
        pick_cup_group(q->p, out);
    out->cup_chart_mm = group_bust(q->p, out->cup_group, out->position);
    note_beyond_groups(q->p, out);
    return true;
}

/* A row that is the same in all sizes tells nothing. */
static bool tells_sizes_apart(const struct asked *q, struct pattern_value row)
{
    return row.count == q->p->size_count && (row.count == 1 || row.mm[0] < row.mm[row.count - 1]);
}

/* By one row alone. */
static void weigh(const struct asked *q, struct pattern_value row, struct sizing_reason *out)
{
    out->at_odds = sizing_is_at_odds(q->body, out->name);
    if (!tells_sizes_apart(q, row)) {
        out->question = sizing_question_beside(q->a, out->name, out->chart_mm, out->body_mm, q->body->unit);
        return;
    }
    struct sizing_nearest n = sizing_row_nearest(row, out->body_mm);
    out->nearest = n.size;
    out->other = n.other;
    out->position = sizing_row_position(row, out->body_mm);
    out->below = sizing_row_is_below(row, out->body_mm);
    out->above = sizing_row_is_above(row, out->body_mm);
    if (out->below || out->above)
        out->question = sizing_question_of(out->name, out->body_mm, q->body->unit);
}

static struct sizing_reason compare(const struct asked *q, const struct sizing_choice *c, const char *name,
                                    struct pattern_value row, double body_mm)
{
    struct pattern_value finished = pattern_finished(q->p, name, c->cup_group);
    struct pattern_value intended = pattern_intended_ease(q->p, name, c->cup_group);
    return (struct sizing_reason){ .name = name,
                                   .body_mm = body_mm,
                                   .chart_mm = pattern_value_at(row, c->position),
                                   .finished_mm = pattern_value_at(finished, c->position),
                                   .has_intended = intended.count > 0,
                                   .intended_mm = pattern_value_at(intended, c->position),
                                   .position = c->position,
                                   .nearest = c->size,
                                   .other = c->size };
}

static void find_reasons(const struct asked *q, struct sizing_choice *out)
{
    struct sizing_reason *reasons = base_arena_alloc(q->a, q->body->count + 1, sizeof *reasons);
    for (size_t i = 0; i < q->body->count; i++) {
        const struct sizing_measurement *m = &q->body->items[i];
        struct pattern_value row = pattern_drawn_for(q->p, m->name, out->cup_group);
        if (!row.count)
            continue;
        struct sizing_reason *reason = &reasons[out->reason_count++];
        *reason = compare(q, out, m->name, row, m->mm);
        weigh(q, row, reason);
    }
    if (sizing_is_estimate(out->bust)) {
        struct pattern_value row = pattern_drawn_for(q->p, PATTERN_BUST, out->cup_group);
        reasons[out->reason_count] = compare(q, out, PATTERN_BUST, row, out->bust.mm);
        reasons[out->reason_count++].estimated = true;
    }
    out->reasons = reasons;
}

static struct sizing_choice begin(const struct asked *q)
{
    bool named = q->position >= 0;
    assert(named || pattern_has_chart(q->p));
    return (struct sizing_choice){ .size_named = named,
                                   .cup_named = q->cup_group != PATTERN_NONE,
                                   .main = named ? measured_main(q) : find_main(q) };
}

/* Everything that follows from the size. */
static bool work_out(const struct asked *q, double position, struct sizing_choice *out)
{
    out->position = position;
    out->size = (size_t)position;
    if (!out->size_named) {
        struct pattern_value row = q->p->chart[q->p->main_row].value;
        out->below = sizing_row_is_below(row, out->main.mm);
        out->above = sizing_row_is_above(row, out->main.mm);
    }
    if (!find_cup_group(q, out))
        return false;
    find_reasons(q, out);
    return true;
}

/* The same for another place; its own rivals are not followed. */
static const struct sizing_choice *work_out_instead(const struct asked *q, double position)
{
    struct sizing_choice *instead = base_arena_alloc(q->a, 1, sizeof *instead);
    *instead = begin(q);
    work_out(q, position, instead);
    return instead;
}

static void work_out_rivals(const struct asked *q, struct sizing_nearest nearest, struct sizing_choice *out)
{
    if (nearest.other == nearest.size)
        return;
    double between = sizing_row_between(q->p->chart[q->p->main_row].value, nearest, out->main.mm);
    out->other = work_out_instead(q, (double)nearest.other);
    out->tie = nearest.tie;
    if (between > 0)
        out->between = work_out_instead(q, between);
}

/* Of what is missing: all its measurements. */
static struct err_place body_place(const struct asked *q)
{
    struct err_place place = { NULL, NULL, 0 };
    if (q->body->count)
        place = q->body->items[0].place;
    place.path = "measurements";
    return place;
}

static void tell_main(const struct asked *q, const struct sizing_choice *c, struct err_list *errs)
{
    if (c->main.source == SIZING_FROM_BUST)
        base_err(errs, &upper_bust_estimated, body_place(q), ERR_MM(c->main.mm), ERR_MM(measured(q, PATTERN_BUST).mm));
}

static const struct sizing_reason *find_reason(const struct sizing_choice *c, const char *name)
{
    for (size_t i = 0; i < c->reason_count; i++)
        if (strcmp(c->reasons[i].name, name) == 0)
            return &c->reasons[i];
    return NULL;
}

static bool is_questioned(const struct sizing_choice *c, const char *name)
{
    const struct sizing_reason *reason = find_reason(c, name);
    return reason && (reason->question.range || reason->at_odds);
}

static void tell_cup_group(const struct asked *q, const struct sizing_choice *c, struct err_list *errs)
{
    if (c->cup_group == PATTERN_NONE || c->cup_named)
        return;
    const char *name = q->p->cup_groups[c->cup_group].name;
    if (c->bust.source == SIZING_FROM_UPPER_BUST)
        base_err(errs, &bust_estimated, body_place(q), ERR_MM(c->bust.mm), ERR_MM(measured(q, UPPER_BUST).mm),
                 ERR_TEXT(name));
    if (c->bust.source == SIZING_FROM_CHART)
        base_err(errs, &bust_from_chart, body_place(q), ERR_MM(c->bust.mm), ERR_TEXT(name));
    if ((c->cup_below || c->cup_above) && !is_questioned(c, PATTERN_BUST))
        base_err(errs, c->cup_above ? &cup_too_small : &cup_too_large, sizing_body_find(q->body, PATTERN_BUST)->place,
                 ERR_MM(c->bust.mm), ERR_TEXT(name), ERR_MM(c->cup_chart_mm),
                 ERR_MM(fabs(c->bust.mm - c->cup_chart_mm)));
}

/* One name for the other but for a letter or for capitals. */
static bool is_slip(const char *written, const char *name)
{
    return base_text_distance(written, name, 2) <= 1;
}

/* The measurement of the body that is perhaps what is missing, for the end of a sentence. */
static const char *written_for(const struct asked *q, const char *missing)
{
    for (size_t i = 0; i < q->body->count; i++)
        if (is_slip(q->body->items[i].name, missing))
            return base_arena_print(q->a, base_tr("; or rename “%s” if that is it"), q->body->items[i].name);
    return "";
}

/* The measurement that she lacks and perhaps means by another name, likewise. */
static const char *meant_by(const struct asked *q, const char *written)
{
    for (size_t i = 0; i < q->p->figure_count; i++)
        if (!sizing_body_find(q->body, q->p->figures[i]) && is_slip(written, q->p->figures[i]))
            return base_arena_print(q->a, base_tr("; perhaps “%s”"), q->p->figures[i]);
    return "";
}

/* One thing of each measurement: that it is not used, hardly right, or outside the chart. */
static void tell_measurements(const struct asked *q, const struct sizing_choice *c, struct err_list *errs)
{
    const struct sizing_reason *reason = c->reasons;
    for (size_t i = 0; i < q->body->count; i++) {
        const struct sizing_measurement *m = &q->body->items[i];
        struct pattern_value row = pattern_drawn_for(q->p, m->name, c->cup_group);
        if (!row.count) {
            if (pattern_has_chart(q->p) &&
                pattern_find_figure(q->p, m->name) == PATTERN_NONE) /* formulas may read what picks no size */
                base_err(errs, &not_in_chart, m->place, ERR_TEXT(m->name), ERR_TEXT(meant_by(q, m->name)));
            continue;
        }
        if (reason->question.range)
            sizing_question_ask(m, q->body->unit, reason->question, errs);
        else if (reason->below || reason->above)
            base_err(errs, &outside, m->place, ERR_TEXT(pattern_worded(q->a, q->p, m->name)), ERR_MM(m->mm),
                     ERR_MM(row.mm[0]), ERR_MM(row.mm[row.count - 1]));
        reason++;
    }
}

bool sizing_choose_named(struct arena *a, const struct pattern *pattern, const struct sizing_body *body,
                         double position, int cup_group, struct sizing_choice *out, struct err_list *errs)
{
    struct asked q = { a, pattern, body, position, cup_group };
    *out = begin(&q);
    bool has_size = out->size_named || out->main.source != SIZING_MISSING;
    struct sizing_nearest nearest = { 0, 0, false };
    if (!out->size_named && has_size)
        nearest = sizing_row_nearest(pattern->chart[pattern->main_row].value, out->main.mm);
    bool has_group = work_out(&q, out->size_named ? position : (double)nearest.size, out);
    if (!has_size)
        base_err(errs, &no_main, body_place(&q),
                 ERR_TEXT(pattern_worded(a, pattern, pattern->chart[pattern->main_row].name)),
                 ERR_TEXT(written_for(&q, pattern->chart[pattern->main_row].name)));
    if (!has_group)
        base_err(errs, &no_bust, body_place(&q), ERR_NONE, ERR_TEXT(written_for(&q, PATTERN_BUST)));
    if (!has_size || !has_group)
        return false;
    work_out_rivals(&q, nearest, out);
    tell_main(&q, out, errs);
    tell_cup_group(&q, out, errs);
    tell_measurements(&q, out, errs);
    sizing_ask_at_odds(body, errs);
    return true;
}

bool sizing_choose(struct arena *a, const struct pattern *pattern, const struct sizing_body *body,
                   struct sizing_choice *out, struct err_list *errs)
{
    return sizing_choose_named(a, pattern, body, PATTERN_NONE, PATTERN_NONE, out, errs);
}

bool sizing_is_estimate(struct sizing_known known)
{
    return known.source != SIZING_MISSING && known.source != SIZING_MEASURED;
}

bool sizing_is_questioned(const struct pattern *pattern, const struct sizing_choice *choice)
{
    bool size_by_main = !choice->size_named && choice->main.source == SIZING_MEASURED;
    bool by_bust =
        choice->main.source == SIZING_FROM_BUST || (!choice->cup_named && choice->bust.source == SIZING_MEASURED);
    return (size_by_main && is_questioned(choice, pattern->chart[pattern->main_row].name)) ||
           (by_bust && is_questioned(choice, PATTERN_BUST));
}
