#include "sizing/choose.h"

#include <math.h>
#include <string.h>

#define BUST "bust" /* the measurement that picks the cup group */

static const struct err_kind no_main = {
    "sizing.no_main", ERR_FAULT, "“{0}” is missing; this pattern picks the size by it. Measure it and write it down"
};
static const struct err_kind no_bust = {
    "sizing.no_bust", ERR_FAULT,
    "“bust” is missing; this pattern picks the cup group by it. Measure it and write it "
    "down"
};
static const struct err_kind outside = { "sizing.outside", ERR_WARNING,
                                         "{0} of {1} lies outside the chart, which runs from {2} to {3}" };
static const struct err_kind not_in_chart = { "sizing.not_in_chart", ERR_WARNING,
                                              "“{0}” is not in this pattern's chart and was not used" };

struct nearest {
    size_t size, tie;
};

/* Of all sizes the nearest, of two equally near the larger. */
static struct nearest nearest_size(struct pattern_value row, double mm)
{
    struct nearest n = { 0, 0 };
    for (size_t i = 1; i < row.count; i++) {
        double now = fabs(row.mm[i] - mm), best = fabs(row.mm[n.size] - mm);
        if (fabs(now - best) <= SIZING_TIE_MM)
            n = (struct nearest){ i, n.size };
        else if (now < best)
            n = (struct nearest){ i, i };
    }
    return n;
}

static double position_in(struct pattern_value row, double mm)
{
    size_t last = row.count - 1;
    if (mm <= row.mm[0])
        return 0;
    for (size_t i = 0; i < last; i++)
        if (mm < row.mm[i + 1])
            return (double)i + (mm - row.mm[i]) / (row.mm[i + 1] - row.mm[i]);
    return (double)last;
}

/* Half a step outside the end sizes a further size would be as near, and the larger of two equally near would be taken:
 * the chart reaches from half a step below it, that one included, to half a step above it, that one not. */
static bool is_below(struct pattern_value row, double mm)
{
    double step = row.count > 1 ? row.mm[1] - row.mm[0] : 0;
    return mm < row.mm[0] - step / 2;
}

static bool is_above(struct pattern_value row, double mm)
{
    size_t last = row.count - 1;
    double step = row.count > 1 ? row.mm[last] - row.mm[last - 1] : 0;
    return step > 0 ? mm >= row.mm[last] + step / 2 : mm > row.mm[last];
}

static bool picks_cup_group(const struct pattern *pattern, const struct sizing_measurement *m)
{
    return pattern->cup_group_count && strcmp(m->name, BUST) == 0;
}

static void add_reasons(struct arena *a, const struct pattern *pattern, const struct sizing_body *body,
                        struct sizing_choice *out, struct err_list *errs)
{
    struct sizing_reason *reasons = base_arena_alloc(a, body->count, sizeof *reasons);
    for (size_t i = 0; i < body->count; i++) {
        const struct sizing_measurement *m = &body->items[i];
        int row = pattern_find_row(pattern, m->name);
        if (row == PATTERN_NONE && !picks_cup_group(pattern, m))
            base_err(errs, &not_in_chart, m->place, ERR_TEXT(m->name));
        if (row == PATTERN_NONE)
            continue;
        struct pattern_value v = pattern->chart[row].value;
        struct sizing_reason *reason = &reasons[out->reason_count++];
        *reason = (struct sizing_reason){ m->name,
                                          m->mm,
                                          pattern_value_at(v, out->position),
                                          position_in(v, m->mm),
                                          nearest_size(v, m->mm).size,
                                          is_below(v, m->mm),
                                          is_above(v, m->mm) };
        if (reason->below || reason->above)
            base_err(errs, &outside, m->place, ERR_TEXT(m->name), ERR_MM(m->mm), ERR_MM(v.mm[0]),
                     ERR_MM(v.mm[v.count - 1]));
    }
    out->reasons = reasons;
}

static void choose_cup_group(const struct pattern *pattern, double bust_mm, struct sizing_choice *out)
{
    out->cup_body_mm = bust_mm;
    double best = INFINITY;
    for (size_t g = 0; g < pattern->cup_group_count; g++) {
        double chart_mm = pattern_value_at(pattern->cup_groups[g].bust, out->position);
        double now = fabs(chart_mm - bust_mm);
        bool tie = fabs(now - best) <= SIZING_TIE_MM;
        if (!tie && now > best)
            continue;
        out->cup_tie = tie ? out->cup_group : (int)g;
        out->cup_group = (int)g;
        out->cup_chart_mm = chart_mm;
        best = now;
    }
}

static bool find_cup_group(const struct pattern *pattern, const struct sizing_body *body, struct sizing_choice *out,
                           struct err_list *errs)
{
    if (!pattern->cup_group_count)
        return true;
    const struct sizing_measurement *bust = sizing_body_find(body, BUST);
    if (bust)
        choose_cup_group(pattern, bust->mm, out);
    else
        base_err(errs, &no_bust, body->items[0].place, ERR_NONE);
    return bust != NULL;
}

static bool find_size(const struct pattern *pattern, const struct sizing_body *body, struct sizing_choice *out,
                      struct err_list *errs)
{
    const struct pattern_row *row = &pattern->chart[pattern->main_row];
    const struct sizing_measurement *m = sizing_body_find(body, row->name);
    if (!m) {
        base_err(errs, &no_main, body->items[0].place, ERR_TEXT(row->name));
        return false;
    }
    struct nearest n = nearest_size(row->value, m->mm);
    out->size = n.size;
    out->tie = n.tie;
    out->below = is_below(row->value, m->mm);
    out->above = is_above(row->value, m->mm);
    return true;
}

bool sizing_choose_named(struct arena *a, const struct pattern *pattern, const struct sizing_body *body, int size,
                         int cup_group, struct sizing_choice *out, struct err_list *errs)
{
    bool ok = true;
    *out = (struct sizing_choice){ .cup_group = cup_group, .cup_tie = cup_group };
    if (size == PATTERN_NONE)
        ok = find_size(pattern, body, out, errs);
    else
        out->size = out->tie = (size_t)size;
    out->position = (double)out->size;
    if (cup_group == PATTERN_NONE)
        ok = find_cup_group(pattern, body, out, errs) && ok;
    if (ok)
        add_reasons(a, pattern, body, out, errs);
    return ok;
}

bool sizing_choose(struct arena *a, const struct pattern *pattern, const struct sizing_body *body,
                   struct sizing_choice *out, struct err_list *errs)
{
    return sizing_choose_named(a, pattern, body, PATTERN_NONE, PATTERN_NONE, out, errs);
}
