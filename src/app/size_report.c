#include "app/size_report.h"

#include "app/columns.h"
#include "base/text.h"
#include "base/words.h"
#include "draft/sized.h"
#include "fit/girth.h"
#include "sizing/ease.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const char *length_text(struct arena *a, double mm, enum units_length unit)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, mm, unit));
}

/* What a report is made of. */
struct report {
    struct arena *a;
    const struct pattern *p;
    const struct sizing_choice *c;
    const struct app_measured *measured;
    enum units_length unit;
};

/* A measurement with the garment that is sewn for it. */
struct fitting {
    struct sizing_reason reason; /* its finished measurement is the pieces' where the pattern gives none */
    double given_mm;             /* the finished measurement that the pattern gives; 0: none */
    double measured_mm;          /* on the pieces; 0: they are not measured there */
};

static const double *measure(struct arena *a, const struct pattern *p, const struct draft_figure *figure)
{
    struct err_list *told = base_err_list_create(); /* told when the pieces are drafted */
    double *mm = base_arena_alloc(a, p->girth_count, sizeof *mm);
    const struct draft_sized *sized = draft_size(a, p, figure, told);
    for (size_t i = 0; i < p->girth_count; i++)
        mm[i] = fit_girth_mm(sized, p->girths[i].name);
    base_err_list_destroy(told);
    return mm;
}

/* The same person in the size of a choice, NULL where there is none. */
static const double *measure_instead(struct arena *a, const struct pattern *p, const struct sizing_choice *c,
                                     struct draft_figure figure)
{
    if (!c)
        return NULL;
    figure.position = c->position;
    figure.cup_group = c->cup_group;
    return measure(a, p, &figure);
}

struct app_measured app_measure(struct arena *a, const struct pattern *pattern, const struct sizing_choice *choice,
                                const struct draft_figure *figure)
{
    bool to_body = figure->body_mm != NULL;
    bool blended = figure->level_position != NULL;
    struct app_measured measured = { .fitted = draft_is_fitted(figure), .blended = blended, .to_body = to_body };
    if (!pattern->girth_count)
        return measured;
    measured.chosen_mm = measure(a, pattern, figure);
    if (to_body || blended)
        return measured;
    measured.other_mm = measure_instead(a, pattern, choice->other, *figure);
    measured.between_mm = measure_instead(a, pattern, choice->between, *figure);
    return measured;
}

/* A size with its girths on the pieces; NULL: they are not measured. */
struct side {
    const struct sizing_choice *c;
    const double *measured_mm;
    bool fitted; /* to the person, so that what the pattern gives for the size is not what is sewn */
};

static struct fitting fitting_of(const struct pattern *p, struct side side, size_t reason)
{
    struct fitting f = { .reason = side.c->reasons[reason], .given_mm = side.c->reasons[reason].finished_mm };
    const struct pattern_girth *girth = pattern_find_girth(p, f.reason.name);
    if (girth && side.measured_mm)
        f.measured_mm = side.measured_mm[girth - p->girths];
    if (side.fitted)
        f.given_mm = 0;
    if (!(f.given_mm > 0))
        f.reason.finished_mm = f.measured_mm;
    return f;
}

static struct side chosen_side(const struct sizing_choice *c, const struct app_measured *m)
{
    return (struct side){ c, m->chosen_mm, m->fitted };
}

static struct side other_side(const struct sizing_choice *c, const struct app_measured *m)
{
    return (struct side){ c->other, m->other_mm, m->fitted };
}

static struct side side_between(const struct sizing_choice *c, const struct app_measured *m)
{
    return (struct side){ c->between, m->between_mm, m->fitted };
}

static struct fitting chosen_fitting(const struct report *r, size_t reason)
{
    return fitting_of(r->p, chosen_side(r->c, r->measured), reason);
}

/* What was measured, as it was written or as near to it as a tape in inches has. */
static double body_mm(const struct report *r, double mm)
{
    return units_to_sixteenth(mm, r->unit);
}

/* What a chart in the other unit or a place between two sizes comes to on her tape. Differences are those of the
 * numbers shown. */
static double chart_mm(const struct report *r, double mm)
{
    return units_on_tape(mm, r->unit);
}

double app_estimate_mm(double mm, enum units_length unit)
{
    return unit == UNITS_IN ? units_to_sixteenth(mm, unit) : units_on_tape(mm, unit);
}

static const char *shown(const struct report *r, double mm)
{
    return length_text(r->a, mm, r->unit);
}

static const char *shown_signed(const struct report *r, double mm)
{
    const char *text = shown(r, fabs(mm));
    return strncmp(text, "0 ", 2) == 0 ? text : base_arena_print(r->a, "%s%s", mm < 0 ? "-" : "+", text);
}

/* A measurement, or what it may be. */
static const char *known_text(const struct report *r, struct sizing_known known)
{
    return shown(r, known.source == SIZING_MEASURED ? body_mm(r, known.mm) : app_estimate_mm(known.mm, r->unit));
}

static const struct pattern_row *main_row(const struct report *r)
{
    return &r->p->chart[r->p->main_row];
}

/* The chart's main row at a place of it. */
static const char *chart_text(const struct report *r, double position)
{
    return shown(r, chart_mm(r, pattern_value_at(main_row(r)->value, position)));
}

static const char *size_text(const struct report *r, const struct sizing_choice *c)
{
    assert(c);
    return pattern_size_text(r->a, r->p, c->position);
}

static const char *size_line(const struct report *r)
{
    const struct sizing_choice *c = r->c;
    const char *size = size_text(r, c);
    if (!pattern_has_chart(r->p))
        return base_arena_print(
            r->a,
            base_tr("Size %s, as you chose; the pattern has no size chart to hold your measurements "
                    "against.\n"),
            size);
    const char *row = pattern_worded(r->a, r->p, main_row(r)->name);
    const char *chart = chart_text(r, c->position), *body = known_text(r, c->main);
    if (c->main.source == SIZING_MISSING)
        return base_arena_print(r->a, base_tr("Size %s, as you chose.\n"), size);
    if (c->size_named)
        return base_arena_print(r->a, base_tr("Size %s, as you chose: your %s is %s, the chart has %s.\n"), size, row,
                                body, chart);
    if (c->main.source != SIZING_MEASURED)
        return base_arena_print(r->a, base_tr("Size %s, an estimate: your %s may be %s, the chart has %s.\n"), size,
                                row, body, chart);
    return base_arena_print(r->a, base_tr("Size %s: your %s is %s, the chart has %s.\n"), size, row, body, chart);
}

static const char *made_to_line(const struct report *r)
{
    return r->measured->to_body
               ? base_tr("Made to your measurements. A size only stands in for what you have not measured.\n")
               : "";
}

/* Both neighbours, which of them is taken why, and how to cut another. */
static const char *between_line(const struct report *r)
{
    const struct sizing_choice *c = r->c;
    if (!c->other || r->measured->to_body)
        return "";
    const char *taken = size_text(r, c), *other = size_text(r, c->other);
    double low = fmin(c->position, c->other->position), high = fmax(c->position, c->other->position);
    const char *where = base_arena_print(r->a,
                                         c->tie ? base_tr("You are halfway between size %s (%s) and size %s (%s).")
                                                : base_tr("You are between size %s (%s) and size %s (%s)."),
                                         pattern_size_text(r->a, r->p, low), chart_text(r, low),
                                         pattern_size_text(r->a, r->p, high), chart_text(r, high));
    const char *why = c->tie ? base_tr("The larger is taken, as it can be taken in")
                             : base_arena_print(r->a, base_tr("Size %s is a little nearer and is taken"), taken);
    const char *how =
        c->between
            ? base_arena_print(r->a, base_tr("to cut the other: --size \"%s\", or the one in between: --size \"%s\""),
                               other, size_text(r, c->between))
            : base_arena_print(r->a, base_tr("to cut the other: --size \"%s\""), other);
    return base_arena_print(r->a, "  %s %s; %s\n", where, why, how);
}

static const char *caution_line(const struct report *r)
{
    const struct sizing_choice *c = r->c;
    if (sizing_is_questioned(r->p, c))
        return base_tr("  It rests on a number that is hardly right. Correct that before you cut.\n");
    if (c->below || c->above)
        return c->below ? base_tr("  You are below the chart: sew a trial garment first.\n")
                        : base_tr("  You are above the chart: sew a trial garment first.\n");
    return "";
}

static const char *cup_line(const struct report *r)
{
    const struct sizing_choice *c = r->c;
    if (c->cup_group == PATTERN_NONE)
        return "";
    const char *name = r->p->cup_groups[c->cup_group].name, *size = size_text(r, c);
    if (!pattern_has_group_busts(r->p))
        return base_arena_print(r->a, base_tr("Cup group %s, as you chose.\n"), name);
    const char *drawn_for = shown(r, chart_mm(r, c->cup_chart_mm));
    if (c->cup_named)
        return base_arena_print(r->a, base_tr("Cup group %s, as you chose: drawn for a bust of %s in size %s.\n"), name,
                                drawn_for, size);
    bool measured = c->bust.source == SIZING_MEASURED;
    bool estimate = c->main.source == SIZING_FROM_BUST;
    const char *line =
        !measured  ? base_tr("Cup group %s, an estimate: your bust may be %s, the group is drawn for %s in size %s.\n")
        : estimate ? base_tr("Cup group %s, an estimate: your bust is %s, the group is drawn for %s in size %s.\n")
                   : base_tr("Cup group %s: your bust is %s, the group is drawn for %s in size %s.\n");
    return base_arena_print(r->a, line, name, known_text(r, c->bust), drawn_for, size);
}

static const char *cup_tie_line(const struct report *r)
{
    const struct sizing_choice *c = r->c;
    if (c->cup_tie == c->cup_group)
        return "";
    const char *name = r->p->cup_groups[c->cup_tie].name;
    return base_arena_print(r->a, base_tr("  Cup group %s is as near; to cut it: --cup \"%s\"\n"), name, name);
}

/* What each measurement would say by itself. */
static const char *alone_text(const struct report *r, const struct sizing_reason *reason)
{
    if (reason->estimated)
        return base_tr("an estimate");
    if (reason->question.range || reason->at_odds)
        return base_tr("hardly right");
    if (reason->below || reason->above)
        return reason->below ? base_tr("below the chart") : base_tr("above the chart");
    size_t low = reason->nearest < reason->other ? reason->nearest : reason->other;
    size_t high = reason->nearest + reason->other - low;
    if (low != high)
        return base_arena_print(r->a, base_tr("%s or %s"), r->p->sizes[low], r->p->sizes[high]);
    return r->p->sizes[low];
}

/* As it is known: what she measured, or what it may be. */
static double reason_body_mm(const struct report *r, const struct sizing_reason *reason)
{
    return reason->estimated ? app_estimate_mm(reason->body_mm, r->unit) : body_mm(r, reason->body_mm);
}

static const char *chart_cell(const struct report *r, const struct fitting *f)
{
    return shown(r, chart_mm(r, f->reason.chart_mm));
}

static const char *finished_cell(const struct report *r, const struct fitting *f)
{
    return f->given_mm > 0 ? shown(r, chart_mm(r, f->given_mm)) : "";
}

static const char *measured_cell(const struct report *r, const struct fitting *f)
{
    return f->measured_mm > 0 ? shown(r, chart_mm(r, f->measured_mm)) : "";
}

/* Below zero the garment is closer than the body. */
static const char *ease_shown(const struct report *r, double mm)
{
    return base_arena_print(r->a, "%s%s", mm < 0 ? "-" : "", shown(r, fabs(mm)));
}

static double ease_mm(const struct report *r, const struct sizing_reason *reason)
{
    return chart_mm(r, reason->finished_mm) - reason_body_mm(r, reason);
}

static const char *ease_cell(const struct report *r, const struct fitting *f)
{
    const struct sizing_reason *reason = &f->reason;
    return reason->finished_mm > 0 ? ease_shown(r, ease_mm(r, reason)) : "";
}

static const char *intended_cell(const struct report *r, const struct fitting *f)
{
    const struct sizing_reason *reason = &f->reason;
    return reason->has_intended ? ease_shown(r, chart_mm(r, reason->intended_mm)) : "";
}

/* That the pieces are not what the pattern gives; "" when they are, as far as a tape tells. */
static const char *pieces_remark(const struct report *r, const struct fitting *f)
{
    double more_mm = f->measured_mm - f->given_mm;
    if (!(f->measured_mm > 0 && f->given_mm > 0) || fabs(more_mm) <= FIT_GIRTH_TOLERANCE_MM)
        return "";
    return base_arena_print(r->a,
                            more_mm > 0 ? base_tr("the pieces measure %s more than is given")
                                        : base_tr("the pieces measure %s less than is given"),
                            shown(r, chart_mm(r, fabs(more_mm))));
}

/* What is to be known of the ease before cutting. */
static const char *ease_remark(const struct report *r, const struct sizing_reason *reason)
{
    double ease = ease_mm(r, reason), tighter = chart_mm(r, reason->intended_mm) - ease;
    const char *closer =
        sizing_is_smaller_than_body(reason) ? base_tr("smaller than the body") : base_tr("closer than the body");
    const char *text = ease < 0 && reason->finished_mm > 0 ? closer : "";
    if (!(sizing_tighter_mm(reason) > 0 && tighter > 0))
        return text;
    const char *by = base_arena_print(r->a, base_tr("tighter than intended by %s"), shown(r, tighter));
    return *text ? base_arena_print(r->a, "%s, %s", text, by) : by;
}

/* Without the spaces that an empty last column leaves. */
static const char *trimmed(struct arena *a, const char *line)
{
    size_t length = strlen(line);
    while (length && line[length - 1] == ' ')
        length--;
    return base_arena_copy_bytes(a, line, length);
}

enum { COLUMN = 11, NAME_COLUMN = 14, ALONE_COLUMN = 15, MOST_SIDES = 3 };

/* Of a column with that heading, in letters. */
static int column_width(const char *heading)
{
    int length = (int)base_text_letters(heading);
    return length > COLUMN ? length : COLUMN;
}

enum column { NAME, YOU, CHART, DIFFERENCE, ALONE, FINISHED, ON_PIECES, EASE, INTENDED, REMARK, COLUMNS };

struct cells {
    const char *of[COLUMNS];
};

static const char *cells_line(const struct report *r, const struct cells *cells, const int *widths)
{
    const char *line = "";
    for (int c = 0; c < COLUMNS; c++) {
        bool wider = c == NAME || c == ALONE || c == REMARK;
        if (c != ON_PIECES || r->measured->chosen_mm)
            line = base_arena_print(r->a, "%s%s%s", line, wider ? "  " : " ",
                                    app_columns_padded(r->a, cells->of[c], widths[c]));
    }
    return base_arena_print(r->a, "%s\n", trimmed(r->a, line));
}

static struct cells reason_cells(const struct report *r, const struct fitting *f)
{
    const struct sizing_reason *reason = &f->reason;
    double body = reason_body_mm(r, reason), chart = chart_mm(r, reason->chart_mm);
    const char *ease = ease_remark(r, reason), *pieces = pieces_remark(r, f);
    return (struct cells){ { pattern_worded(r->a, r->p, reason->name), shown(r, body), chart_cell(r, f),
                             shown_signed(r, body - chart), alone_text(r, reason), finished_cell(r, f),
                             measured_cell(r, f), ease_cell(r, f), intended_cell(r, f),
                             base_arena_print(r->a, "%s%s%s", ease, *ease && *pieces ? ", " : "", pieces) } };
}

static const char *reason_table(const struct report *r)
{
    const struct sizing_choice *c = r->c;
    bool finished = false, ease = false, intended = false;
    for (size_t i = 0; i < c->reason_count; i++) {
        struct fitting f = chosen_fitting(r, i);
        finished = finished || f.given_mm > 0;
        ease = ease || f.reason.finished_mm > 0;
        intended = intended || f.reason.has_intended;
    }
    const struct cells head = {
        { "", base_tr_in("heading", "you"), base_arena_print(r->a, base_tr("size %s"), size_text(r, c)),
          base_tr("difference"), base_tr("by itself"), finished ? base_tr("finished") : "", base_tr("on pieces"),
          ease ? base_tr_in("heading", "ease") : "", intended ? base_tr("intended") : "", "" }
    };
    int widths[COLUMNS] = { 0 };
    for (int column = 0; column < REMARK; column++)
        widths[column] = column_width(head.of[column]);
    widths[NAME] = -NAME_COLUMN;
    widths[ALONE] = -(widths[ALONE] > ALONE_COLUMN ? widths[ALONE] : ALONE_COLUMN);
    const char *text = cells_line(r, &head, widths);
    for (size_t i = 0; i < c->reason_count; i++) {
        struct fitting f = chosen_fitting(r, i);
        struct cells cells = reason_cells(r, &f);
        text = base_arena_print(r->a, "%s%s", text, cells_line(r, &cells, widths));
    }
    return c->reason_count ? text : "";
}

static bool is_compared(const struct sizing_choice *c, const char *name)
{
    for (size_t i = 0; i < c->reason_count; i++)
        if (strcmp(c->reasons[i].name, name) == 0)
            return true;
    return false;
}

/* Girths that the body is not compared with. */
static const char *other_girths(const struct report *r)
{
    const char *list = "";
    for (size_t i = 0; r->measured->chosen_mm && i < r->p->girth_count; i++) {
        double mm = r->measured->chosen_mm[i];
        if (mm > 0 && !is_compared(r->c, r->p->girths[i].name))
            list = base_arena_print(r->a, "%s%s%s %s", list, *list ? ", " : "",
                                    pattern_worded(r->a, r->p, r->p->girths[i].name), shown(r, chart_mm(r, mm)));
    }
    return *list ? base_arena_print(r->a, base_tr("  Also on the pieces: %s\n"), list) : "";
}

/* The sizes to choose from between two, the smallest first. */
struct sides {
    struct side of[MOST_SIDES];
    int count;
};

static struct sides sides_of(const struct report *r)
{
    const struct sizing_choice *c = r->c;
    struct side own = chosen_side(c, r->measured), other = other_side(c, r->measured);
    bool own_first = c->position < c->other->position;
    struct side low = own_first ? own : other, high = own_first ? other : own;
    struct sides s = { .count = 0 };
    s.of[s.count++] = low;
    if (c->between)
        s.of[s.count++] = side_between(c, r->measured);
    s.of[s.count++] = high;
    return s;
}

static const char *side_line(const struct report *r, const struct sides *s, const char *name, const char *you,
                             const char *const *cells)
{
    const char *line = base_arena_print(r->a, "  %s %s", app_columns_padded(r->a, name, -NAME_COLUMN),
                                        app_columns_padded(r->a, you, COLUMN));
    for (int i = 0; i < s->count; i++) {
        const char *size = base_arena_print(r->a, base_tr("size %s"), size_text(r, s->of[i].c));
        line = base_arena_print(r->a, "%s %s", line,
                                app_columns_padded(r->a, cells ? cells[i] : size, column_width(size)));
    }
    return base_arena_print(r->a, "%s\n", trimmed(r->a, line));
}

static const char *side_cups(const struct report *r, const struct sides *s)
{
    const char *cells[MOST_SIDES];
    if (r->c->cup_group == PATTERN_NONE)
        return "";
    for (int i = 0; i < s->count; i++)
        cells[i] = r->p->cup_groups[s->of[i].c->cup_group].name;
    return side_line(r, s, base_tr("cup group"), "", cells);
}

static const struct {
    const char *name; /* NULL: the measurement's own */
    const char *(*cell)(const struct report *r, const struct fitting *f);
} side_rows[] = {
    { NULL, chart_cell },
    { BASE_TR("  finished"), finished_cell },
    { BASE_TR("  on pieces"), measured_cell },
    { BASE_TR("  ease"), ease_cell },
    { BASE_TR("  intended"), intended_cell },
};

/* One measurement in every size: the chart's and, where the pattern gives them, the garment's. */
static const char *side_measurement(const struct report *r, const struct sides *s, size_t reason)
{
    const char *text = "", *cells[MOST_SIDES];
    for (size_t row = 0; row < sizeof side_rows / sizeof side_rows[0]; row++) {
        struct fitting own = chosen_fitting(r, reason);
        for (int i = 0; i < s->count; i++) {
            struct fitting f = fitting_of(r->p, s->of[i], reason);
            cells[i] = side_rows[row].cell(r, &f);
        }
        if (!side_rows[row].name)
            text = side_line(r, s, pattern_worded(r->a, r->p, own.reason.name),
                             shown(r, reason_body_mm(r, &own.reason)), cells);
        else if (*side_rows[row].cell(r, &own))
            text = base_arena_print(r->a, "%s%s", text, side_line(r, s, base_tr(side_rows[row].name), "", cells));
    }
    return text;
}

/* Whether there is another size to compare with: not with a blend, nor with what is drafted to the body. */
static bool is_beside(const struct sizing_choice *other, const struct app_measured *measured)
{
    return other && !measured->to_body && !measured->blended;
}

/* Both neighbours and the size between them, to compare. */
static const char *side_by_side(const struct report *r)
{
    if (!is_beside(r->c->other, r->measured))
        return "";
    struct sides s = sides_of(r);
    const char *text = base_arena_print(r->a, "%s\n%s%s", base_tr("Side by side:"),
                                        side_line(r, &s, "", base_tr_in("heading", "you"), NULL), side_cups(r, &s));
    for (size_t i = 0; i < r->c->reason_count; i++)
        text = base_arena_print(r->a, "%s%s", text, side_measurement(r, &s, i));
    return text;
}

const char *app_size_report(struct arena *a, const struct pattern *pattern, const struct sizing_choice *choice,
                            const struct app_measured *measured, enum units_length unit)
{
    struct report r = { a, pattern, choice, measured, unit };
    return base_arena_print(a, "%s%s%s%s%s%s%s%s%s", made_to_line(&r), size_line(&r), between_line(&r),
                            caution_line(&r), cup_line(&r), cup_tie_line(&r), reason_table(&r), other_girths(&r),
                            side_by_side(&r));
}

static void reason_json(struct json_out *rows, const struct pattern *p, const struct fitting *f)
{
    const struct sizing_reason *reason = &f->reason;
    struct json_out *row = json_out_object(rows, NULL);
    json_out_text(row, "name", reason->name);
    json_out_number(row, "body_mm", reason->body_mm);
    json_out_bool(row, "estimated", reason->estimated);
    json_out_number(row, "chart_mm", reason->chart_mm);
    json_out_number(row, "difference_mm", reason->body_mm - reason->chart_mm);
    json_out_number(row, "size_position", reason->position);
    json_out_text(row, "size_alone", p->sizes[reason->nearest]);
    json_out_text(row, "or_size", reason->other != reason->nearest ? p->sizes[reason->other] : NULL);
    json_out_bool(row, "outside_chart", reason->below || reason->above);
    json_out_bool(row, "questioned", reason->question.range != NULL || reason->at_odds);
    if (reason->question.unit)
        json_out_number(row, "perhaps_mm", reason->question.meant_mm);
    if (f->given_mm > 0)
        json_out_number(row, "finished_mm", f->given_mm);
    if (f->measured_mm > 0)
        json_out_number(row, "on_pieces_mm", f->measured_mm);
    if (reason->finished_mm > 0) {
        json_out_number(row, "ease_mm", sizing_ease_mm(reason));
        json_out_bool(row, "closer_than_body", sizing_ease_mm(reason) < 0);
    }
    if (reason->has_intended) {
        json_out_number(row, "intended_ease_mm", reason->intended_mm);
        json_out_number(row, "tighter_than_intended_mm", sizing_tighter_mm(reason));
        json_out_bool(row, "meant_closer_than_body", reason->intended_mm < 0);
        json_out_bool(row, "smaller_than_body", sizing_is_smaller_than_body(reason)); /* and not meant to be */
    }
}

/* What follows from the size: the cup group, each measurement and each girth. */
static void size_json(struct arena *a, struct json_out *to, const struct pattern *p, struct side side)
{
    const struct sizing_choice *c = side.c;
    json_out_text(to, "size", pattern_size_text(a, p, c->position));
    json_out_number(to, "size_position", c->position);
    if (c->cup_group != PATTERN_NONE) {
        json_out_text(to, "cup_group", p->cup_groups[c->cup_group].name);
        json_out_text(to, "cup_group_equally_near", c->cup_tie != c->cup_group ? p->cup_groups[c->cup_tie].name : NULL);
        json_out_bool(to, "outside_cup_groups", c->cup_below || c->cup_above);
    }
    struct json_out *rows = json_out_list(to, "measurements");
    for (size_t i = 0; i < c->reason_count; i++) {
        struct fitting f = fitting_of(p, side, i);
        reason_json(rows, p, &f);
    }
    struct json_out *girths = side.measured_mm ? json_out_object(to, "girths_mm") : NULL;
    for (size_t i = 0; girths && i < p->girth_count; i++)
        if (side.measured_mm[i] > 0)
            json_out_number(girths, p->girths[i].name, side.measured_mm[i]);
}

void app_size_json(struct arena *a, struct json_out *to, const struct pattern *pattern,
                   const struct sizing_choice *choice, const struct app_measured *measured)
{
    size_json(a, to, pattern, chosen_side(choice, measured));
    json_out_text(to, "equally_near", choice->tie ? pattern->sizes[choice->other->size] : NULL);
    json_out_bool(to, "outside_chart", choice->below || choice->above);
    json_out_bool(to, "questioned", sizing_is_questioned(pattern, choice));
    json_out_bool(to, "size_estimated", sizing_is_estimate(choice->main));
    json_out_bool(to, "cup_group_estimated",
                  !choice->cup_named && (sizing_is_estimate(choice->bust) || sizing_is_estimate(choice->main)));
    if (is_beside(choice->other, measured))
        size_json(a, json_out_object(to, "between_this_and"), pattern, other_side(choice, measured));
    if (is_beside(choice->between, measured))
        size_json(a, json_out_object(to, "between_the_two"), pattern, side_between(choice, measured));
}
