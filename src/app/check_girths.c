/* Girths measured on the pieces in every size and cup group, against the finished measurements and the ease given. */
#include "app/amount.h"
#include "app/check_seams.h"
#include "app/columns.h"
#include "base/text.h"
#include "fit/girth.h"

#include <math.h>
#include <stdlib.h>

static const struct err_kind differs = {
    "check.girth_differs", ERR_WARNING,
    BASE_TR("“{0}” in size {1}: the pieces measure {2}, but the finished garment {3}; one of them is wrong")
};
static const struct err_kind ease_differs = {
    "check.girth_ease", ERR_WARNING,
    BASE_TR(
        "“{0}” in size {1}: the pieces less the chart are {2}, but an ease of {3} is meant; one of them is wrong")
};
static const struct err_kind not_in_group = {
    "check.girth_group", ERR_WARNING,
    BASE_TR("no part of girth “{0}” is of cup group {1}, so that it is not measured there; add one of its pieces")
};
static const struct err_kind misses = {
    "check.girth_misses", ERR_WARNING,
    BASE_TR("the level line through point “{1}” of piece “{0}” misses the piece in size "
            "{2}; name a point within it")
};
static const struct err_kind leaves = {
    "check.girth_leaves", ERR_WARNING,
    BASE_TR("the level line through point “{1}” of piece “{0}” leaves the piece and comes "
            "back in size {2}; all its stretches are added up")
};
static const struct err_kind meets_mouth = { "check.girth_mouth", ERR_WARNING,
                                             BASE_TR(
                                                 "the level line through point “{1}” of piece “{0}” runs out through a "
                                                 "dart's mouth in size {2}, where a tape turns "
                                                 "off along the dart; draw a curve along its leg and measure that") };

enum { NAME_WIDTH = 20 };

/* What there is of a girth at one size; 0: not given, not measured. */
struct at_size {
    double measured_mm, finished_mm, chart_mm, meant_mm;
    bool has_meant;
};

/* A girth in one cup group. */
struct row {
    const struct pattern_girth *girth;
    int cup_group;
    struct at_size *sizes;
};

/* A group without pieces of its own was not drafted. */
static const struct draft_sized *sized_at(const struct check_pattern *k, size_t group, size_t size)
{
    const struct draft *draft = check_draft_at(k, group, size);
    if (draft->sized)
        return draft->sized;
    struct err_list *told = base_err_list_create();
    struct draft_figure figure = draft_figure_at((double)size, check_group(k, group));
    const struct draft_sized *sized = draft_size(k->c->a, k->p, &figure, told);
    base_err_list_destroy(told);
    return sized;
}

static const char *where_text(const struct check_pattern *k, size_t size, int cup_group)
{
    return base_arena_print(k->c->a, "%s%s", k->p->sizes[size], check_group_text(k, cup_group));
}

static void tell_part(const struct check_pattern *k, const struct pattern_girth_part *part,
                      const struct fit_girth_part *m, const char *where, struct err_list *found)
{
    const struct pattern_piece *piece = &k->p->pieces[part->piece];
    const struct {
        bool is_so;
        const struct err_kind *kind;
    } rows[] = { { m->stretches == 0, &misses }, { m->stretches > 1, &leaves }, { m->meets_mouth, &meets_mouth } };
    for (size_t i = 0; m->counts && i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].is_so)
            base_err(found, rows[i].kind, part->place, ERR_TEXT(piece->name), ERR_TEXT(piece->points[part->level].name),
                     ERR_TEXT(where));
}

/* 0 when it cannot be measured. */
static double measure(const struct check_pattern *k, const struct pattern_girth *girth, size_t group, size_t size,
                      struct err_list *found)
{
    const struct draft_sized *sized = sized_at(k, group, size);
    if (!fit_girth_can_be_measured(sized, girth))
        return 0;
    struct fit_girth m = fit_girth_measure(k->c->a, sized, girth);
    for (size_t i = 0; i < girth->part_count; i++)
        tell_part(k, &girth->parts[i], &m.parts[i], where_text(k, size, check_group(k, group)), found);
    return m.mm;
}

static double given_at(struct pattern_value value, size_t size)
{
    return pattern_value_is_given(value) ? pattern_value_at(value, (double)size) : 0;
}

static struct row measure_row(const struct check_pattern *k, const struct pattern_girth *girth, size_t group,
                              struct err_list *found)
{
    int cup_group = check_group(k, group);
    struct row row = { girth, cup_group, base_arena_alloc(k->c->a, k->p->size_count, sizeof *row.sizes) };
    struct pattern_value meant = pattern_intended_ease(k->p, girth->name, cup_group);
    for (size_t s = 0; s < k->p->size_count; s++)
        row.sizes[s] = (struct at_size){ .measured_mm = measure(k, girth, group, s, found),
                                         .finished_mm = given_at(pattern_finished(k->p, girth->name, cup_group), s),
                                         .chart_mm = given_at(pattern_drawn_for(k->p, girth->name, cup_group), s),
                                         .meant_mm = given_at(meant, s),
                                         .has_meant = pattern_value_is_given(meant) };
    return row;
}

/* By how much the pieces measure more than is given; 0 where there is nothing to compare. */
static double off_mm(const struct at_size *at)
{
    return at->measured_mm > 0 && at->finished_mm > 0 ? at->measured_mm - at->finished_mm : 0;
}

static double ease_off_mm(const struct at_size *at)
{
    return at->measured_mm > 0 && at->has_meant ? at->measured_mm - at->chart_mm - at->meant_mm : 0;
}

/* Where one of those two is worst. */
struct worst {
    const struct row *row;
    size_t size;
    double mm;
};

static struct worst worst_of(const struct check_pattern *k, const struct row *rows, size_t count,
                             double (*off)(const struct at_size *at))
{
    struct worst worst = { rows, 0, 0 };
    for (size_t i = 0; i < count; i++)
        for (size_t s = 0; s < k->p->size_count; s++)
            if (fabs(off(&rows[i].sizes[s])) > fabs(worst.mm))
                worst = (struct worst){ &rows[i], s, off(&rows[i].sizes[s]) };
    return worst;
}

/* Once for all cup groups and sizes; an ease that is off for the same reason is not told again. */
static void judge(const struct check_pattern *k, const struct row *rows)
{
    struct worst finished = worst_of(k, rows, k->group_count, off_mm);
    struct worst ease = worst_of(k, rows, k->group_count, ease_off_mm);
    const struct at_size *at = &finished.row->sizes[finished.size], *eased = &ease.row->sizes[ease.size];
    if (fabs(finished.mm) > FIT_GIRTH_TOLERANCE_MM)
        base_err(k->c->errs, &differs, rows->girth->place, ERR_TEXT(rows->girth->name),
                 ERR_TEXT(where_text(k, finished.size, finished.row->cup_group)), ERR_MM(at->measured_mm),
                 ERR_MM(at->finished_mm));
    else if (fabs(ease.mm) > FIT_GIRTH_TOLERANCE_MM)
        base_err(k->c->errs, &ease_differs, rows->girth->place, ERR_TEXT(rows->girth->name),
                 ERR_TEXT(where_text(k, ease.size, ease.row->cup_group)), ERR_MM(eased->measured_mm - eased->chart_mm),
                 ERR_MM(eased->meant_mm));
}

static bool has_part(const struct check_pattern *k, const struct pattern_girth *girth, int cup_group)
{
    for (size_t i = 0; i < girth->part_count; i++)
        if (pattern_in_cup_group(k->p->pieces[girth->parts[i].piece].cup_group, cup_group))
            return true;
    return false;
}

static void tell_group(const struct check_pattern *k, const struct pattern_girth *girth, int cup_group,
                       struct err_list *found)
{
    if (cup_group != PATTERN_NONE && !has_part(k, girth, cup_group))
        base_err(found, &not_in_group, girth->place, ERR_TEXT(girth->name), ERR_TEXT(k->p->cup_groups[cup_group].name));
}

static bool is_same(const struct check_pattern *k, const struct row *a, const struct row *b)
{
    for (size_t s = 0; s < k->p->size_count; s++)
        if (a->sizes[s].measured_mm != b->sizes[s].measured_mm || a->sizes[s].finished_mm != b->sizes[s].finished_mm ||
            a->sizes[s].chart_mm != b->sizes[s].chart_mm || a->sizes[s].meant_mm != b->sizes[s].meant_mm)
            return false;
    return true;
}

/* How many of a girth's rows are shown: one where all cup groups have the same. */
static size_t shown_count(const struct check_pattern *k, const struct row *rows)
{
    for (size_t g = 1; g < k->group_count; g++)
        if (!is_same(k, &rows[0], &rows[g]))
            return k->group_count;
    return 1;
}

static const char *cell(const struct check_pattern *k, bool is_there, double mm)
{
    return is_there ? check_length_text(k, mm) : "-";
}

enum { CELLS = 7 };

static const char *const headings[CELLS] = { "",
                                             BASE_TR_IN("heading", "finished"),
                                             BASE_TR_IN("heading", "measured"),
                                             BASE_TR_IN("heading", "off"),
                                             BASE_TR_IN("heading", "size"),
                                             BASE_TR_IN("heading", "ease"),
                                             BASE_TR_IN("heading", "meant") };

static const char *heading(int cell)
{
    return *headings[cell] ? base_tr_in("heading", headings[cell]) : "";
}

/* Columns are as wide as their headings, and at least so wide; below zero they begin on the left. */
static void say_cells(struct check_pattern *k, const char *const *cells, const char *end)
{
    static const int least[CELLS] = { -NAME_WIDTH, 8, 8, 7, -4, 8, 8 }, gaps[CELLS] = { 2, 1, 1, 1, 2, 2, 1 };
    const char *line = "";
    for (int c = 0; c < CELLS; c++) {
        int letters = (int)base_text_letters(heading(c)), width = letters > abs(least[c]) ? letters : abs(least[c]);
        const char *cell = app_columns_padded(k->c->a, cells[c], least[c] < 0 ? -width : width);
        line = base_arena_print(k->c->a, "%s%*s%s", line, gaps[c], "", cell);
    }
    check_say(k->c, base_arena_print(k->c->a, "%s%s", line, end));
}

static void say_row(struct check_pattern *k, const struct row *row, bool with_group)
{
    struct arena *a = k->c->a;
    struct worst worst = worst_of(k, row, 1, off_mm);
    const struct at_size *at = &row->sizes[check_shown_size(k->p)];
    bool is_compared = at->measured_mm > 0 && at->finished_mm > 0;
    say_cells(k,
              (const char *const[CELLS]){
                  pattern_worded(a, k->p, row->girth->name), cell(k, at->finished_mm > 0, at->finished_mm),
                  cell(k, at->measured_mm > 0, at->measured_mm), is_compared ? app_fixed(a, fabs(worst.mm), 2) : "-",
                  is_compared ? k->p->sizes[worst.size] : "-",
                  cell(k, at->measured_mm > 0 && at->chart_mm > 0, at->measured_mm - at->chart_mm),
                  cell(k, at->has_meant, at->meant_mm) },
              with_group ? check_group_text(k, row->cup_group) : "");
}

static void say_heading(struct check_pattern *k)
{
    struct arena *a = k->c->a;
    check_say(k->c, base_arena_print(a,
                                     base_tr("Girths on the pieces: lengths of size %s (%s), the worst difference of "
                                             "all sizes in mm, the ease that comes out and the one that is meant"),
                                     k->p->sizes[check_shown_size(k->p)], units_shown_name(k->p->unit)));
    const char *cells[CELLS];
    for (int c = 0; c < CELLS; c++)
        cells[c] = heading(c);
    say_cells(k, cells, "");
}

/* A number for each size; null where there is none. */
static void write_list(const struct check_pattern *k, const struct row *row, struct json_out *to, const char *key,
                       double (*number)(const struct at_size *at))
{
    struct json_out *list = json_out_list(to, key);
    for (size_t s = 0; s < k->p->size_count; s++)
        if (number(&row->sizes[s]) > 0)
            json_out_number(list, NULL, number(&row->sizes[s]));
        else
            json_out_text(list, NULL, NULL);
}

static double measured_of(const struct at_size *at)
{
    return at->measured_mm;
}

static double finished_of(const struct at_size *at)
{
    return at->finished_mm;
}

static double chart_of(const struct at_size *at)
{
    return at->chart_mm;
}

static void write_row(const struct check_pattern *k, const struct row *row, struct json_out *to)
{
    struct worst worst = worst_of(k, row, 1, off_mm);
    json_out_text(to, "girth", row->girth->name);
    json_out_text(to, "cup_group", row->cup_group == PATTERN_NONE ? NULL : k->p->cup_groups[row->cup_group].name);
    json_out_number(to, "off_mm", worst.mm);
    json_out_text(to, "size", k->p->sizes[worst.size]);
    write_list(k, row, to, "measured_mm", measured_of);
    write_list(k, row, to, "finished_mm", finished_of);
    write_list(k, row, to, "chart_mm", chart_of);
}

static void check_girth(struct check_pattern *k, const struct pattern_girth *girth, struct json_out *list,
                        struct err_list *found)
{
    struct row *rows = base_arena_alloc(k->c->a, k->group_count, sizeof *rows);
    for (size_t g = 0; g < k->group_count; g++) {
        rows[g] = measure_row(k, girth, g, found);
        tell_group(k, girth, check_group(k, g), found);
        if (list)
            write_row(k, &rows[g], json_out_object(list, NULL));
    }
    judge(k, rows);
    size_t count = shown_count(k, rows);
    for (size_t g = 0; g < count; g++)
        say_row(k, &rows[g], count > 1);
}

void check_girths(struct check_pattern *k)
{
    struct json_out *list = k->c->json ? json_out_list(k->c->json, "girths") : NULL;
    struct err_list *found = base_err_list_create();
    if (k->p->girth_count)
        say_heading(k);
    for (size_t i = 0; i < k->p->girth_count; i++)
        check_girth(k, &k->p->girths[i], list, found);
    check_tell_new(k->c, found, 0);
    base_err_list_destroy(found);
}
