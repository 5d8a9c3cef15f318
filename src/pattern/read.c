#include "pattern/read.h"

#include "pattern/reader.h"
#include "values/length.h"

#include <math.h>
#include <string.h>

enum { MOST_SIZES = 100 };

#define MOST_NUMBER 100000.0 /* an angle in degrees, a share: draft adds them up without overflow */

static const struct err_kind no_sizes = { "pattern.no_sizes", ERR_FAULT,
                                          BASE_TR("a pattern needs between 1 and {0} sizes") };
static const struct err_kind size_twice = { "pattern.size_twice", ERR_FAULT, BASE_TR("size “{0}” is there twice") };
static const struct err_kind size_name = { "pattern.size_name", ERR_FAULT,
                                           BASE_TR("a size is a text such as \"12\", not empty") };
static const struct err_kind wrong_count = {
    "pattern.wrong_count", ERR_FAULT,
    BASE_TR("is a list of {0} where the sizes number {1}; give one length for each size")
};
static const struct err_kind not_rising = {
    "pattern.not_rising", ERR_FAULT, BASE_TR("falls from {0} to {1}; a row of the chart rises from size to size")
};
static const struct err_kind negative = { "pattern.negative", ERR_FAULT, BASE_TR("is {0}; it cannot be below zero") };
static const struct err_kind not_positive = { "pattern.not_positive", ERR_FAULT,
                                              BASE_TR("is {0}; it must be more than zero") };
static const struct err_kind wide_allowance = { "pattern.wide_allowance", ERR_FAULT,
                                                BASE_TR("is {0}; no allowance is wider than {1}. Is the unit right?") };
static const struct err_kind large_number = { "pattern.large_number", ERR_FAULT,
                                              BASE_TR("is {0}; no angle or share is beyond {1} either way") };
static const struct err_kind no_chart = { "pattern.no_chart", ERR_FAULT,
                                          BASE_TR("the size chart has no row; leave it out where it is not known") };
static const struct err_kind no_such_row = { "pattern.no_such_row", ERR_FAULT,
                                             BASE_TR("the size chart has no row “{0}” to pick the size by") };
static const struct err_kind row_of_none = {
    "pattern.row_of_none", ERR_FAULT, BASE_TR("there is no size chart that “{0}” could be a row of; add it as “chart”")
};
static const struct err_kind dot_in_name = {
    "pattern.dot_in_name", ERR_FAULT,
    BASE_TR("the name “{0}” has a full stop in it, which seams use between piece and edge")
};
static const struct err_kind made_to_form = {
    "pattern.made_to", ERR_FAULT, BASE_TR("a pattern is made to a \"size\" or to the \"body\", not “{0}”")
};
static const struct err_kind outline_form = {
    "pattern.outline", ERR_FAULT, BASE_TR("outlines are the \"stitching line\" or the \"cutting line\", not “{0}”")
};
static const struct err_kind no_outline = {
    "pattern.no_outline", ERR_FAULT,
    BASE_TR(
        "the file does not say which line its outlines are; add \"outline\": \"stitching line\" or \"cutting line\"")
};
static const struct err_kind figure_twice = { "pattern.measurement_twice", ERR_FAULT,
                                              BASE_TR("there is a measurement “{0}” already") };
static const struct err_kind cup_twice = { "pattern.cup_group_twice", ERR_FAULT,
                                           BASE_TR("cup group “{0}” is there twice") };

static const struct {
    const struct err_kind *kind;
    double least;
    bool least_allowed;
} bound_rows[] = {
    [PATTERN_NOT_NEGATIVE] = { &negative, 0, true },
    [PATTERN_POSITIVE] = { &not_positive, 0, false },
    [PATTERN_ALLOWANCE] = { &negative, 0, true },
};

static bool within_bound(const struct pattern_reader *r, const struct json_node *node, enum pattern_bound bound,
                         double mm)
{
    if (bound == PATTERN_ANY)
        return true;
    if (bound == PATTERN_ALLOWANCE && mm > PATTERN_MOST_ALLOWANCE_MM) {
        json_fault(r->errs, node, &wide_allowance, ERR_MM(mm), ERR_MM(PATTERN_MOST_ALLOWANCE_MM));
        return false;
    }
    if (mm > bound_rows[bound].least || (mm == bound_rows[bound].least && bound_rows[bound].least_allowed))
        return true;
    json_fault(r->errs, node, bound_rows[bound].kind, ERR_MM(mm));
    return false;
}

static bool read_length(const struct pattern_reader *r, const struct json_node *node, enum pattern_bound bound,
                        double *mm)
{
    return values_length(node, r->p->unit, mm, r->errs) && within_bound(r, node, bound, *mm);
}

static bool read_plain(const struct pattern_reader *r, const struct json_node *node, double *number)
{
    if (!json_is(node, JSON_NUMBER, r->errs))
        return false;
    *number = node->number;
    if (fabs(*number) <= MOST_NUMBER)
        return true;
    json_fault(r->errs, node, &large_number, ERR_NUMBER(*number), ERR_NUMBER(MOST_NUMBER));
    return false;
}

/* How a single one of a value is read. */
struct scalar {
    bool is_length;
    enum pattern_bound bound; /* of a length */
    bool may_be_formula;
};

/* A value under construction. */
struct entries {
    double *mm;
    const struct pattern_formula **formulas; /* NULL until there is one */
    size_t count;
};

static bool is_formula(const struct pattern_reader *r, const struct json_node *node, struct scalar kind)
{
    double mm;
    return kind.may_be_formula && node->type == JSON_TEXT &&
           !(kind.is_length && units_parse_length(node->text, r->p->unit, &mm));
}

static bool read_entry(const struct pattern_reader *r, const struct json_node *node, struct scalar kind,
                       struct entries *to, size_t index)
{
    if (!is_formula(r, node, kind))
        return kind.is_length ? read_length(r, node, kind.bound, &to->mm[index]) : read_plain(r, node, &to->mm[index]);
    if (!to->formulas)
        to->formulas = base_arena_alloc(r->a, to->count, sizeof(const struct pattern_formula *));
    to->formulas[index] = pattern_read_formula(r, node, kind.bound, kind.is_length);
    return to->formulas[index] != NULL;
}

static bool read_given(const struct pattern_reader *r, const struct json_node *node, struct scalar kind,
                       struct pattern_value *out)
{
    bool is_list = node->type == JSON_LIST, ok = true;
    *out = (struct pattern_value){ .mm = NULL };
    if (is_list && node->count != r->p->size_count) {
        json_fault(r->errs, node, &wrong_count, ERR_NUMBER(node->count), ERR_NUMBER(r->p->size_count));
        return false;
    }
    struct entries to = { .count = is_list ? node->count : 1 };
    to.mm = base_arena_alloc(r->a, to.count, sizeof *to.mm);
    if (!is_list)
        ok = read_entry(r, node, kind, &to, 0);
    for (const struct json_node *n = is_list ? node->first : NULL; n; n = n->next)
        ok = read_entry(r, n, kind, &to, n->index) && ok;
    *out = (struct pattern_value){ .mm = to.mm, .count = to.count, .formulas = to.formulas };
    return ok;
}

bool pattern_read_graded(const struct pattern_reader *r, const struct json_node *node, enum pattern_bound bound,
                         struct pattern_value *out)
{
    return read_given(r, node, (struct scalar){ true, bound, false }, out);
}

bool pattern_read_value(const struct pattern_reader *r, const struct json_node *node, enum pattern_bound bound,
                        struct pattern_value *out)
{
    return read_given(r, node, (struct scalar){ true, bound, true }, out);
}

bool pattern_read_number(const struct pattern_reader *r, const struct json_node *node, struct pattern_value *out)
{
    return read_given(r, node, (struct scalar){ false, PATTERN_ANY, true }, out);
}

void pattern_need_count(const struct pattern_reader *r, const struct json_node *object, const char *name, int most,
                        struct pattern_count *out)
{
    const struct json_node *node = json_find(object, name);
    out->most = most;
    if (node && node->type == JSON_TEXT)
        out->formula = pattern_read_formula(r, node, PATTERN_ANY, false);
    else
        json_need_whole(object, name, 1, most, &out->number, r->errs);
}

unsigned pattern_read_word(const struct pattern_reader *r, const struct json_node *text, const char *const *words,
                           unsigned first, unsigned last, const struct err_kind *wrong)
{
    for (unsigned w = first; w <= last; w++)
        if (strcmp(text->text, words[w]) == 0)
            return w;
    json_fault(r->errs, text, wrong, ERR_TEXT(text->text));
    return first;
}

const char *pattern_read_name(const struct pattern_reader *r, const struct json_node *object)
{
    const char *name = json_need_text(object, "name", r->errs);
    if (name && strchr(name, '.')) {
        json_fault(r->errs, json_find(object, "name"), &dot_in_name, ERR_TEXT(name));
        return NULL;
    }
    return name;
}

/* Names not yet reached are NULL, which pattern_find_size passes over. */
static void read_sizes(const struct pattern_reader *r, const struct json_node *list)
{
    if (list->count < 1 || list->count > MOST_SIZES) {
        json_fault(r->errs, list, &no_sizes, ERR_NUMBER(MOST_SIZES));
        return;
    }
    const char **sizes = base_arena_alloc(r->a, list->count, sizeof *sizes);
    r->p->sizes = sizes;
    r->p->size_count = list->count;
    for (const struct json_node *n = list->first; n; n = n->next) {
        sizes[n->index] = "";
        if (!json_is(n, JSON_TEXT, r->errs))
            continue;
        if (!*n->text)
            json_fault(r->errs, n, &size_name, ERR_NONE);
        else if (pattern_find_size(r->p, n->text) != PATTERN_NONE)
            json_fault(r->errs, n, &size_twice, ERR_TEXT(n->text));
        sizes[n->index] = n->text;
    }
}

static void check_rising(const struct pattern_reader *r, const struct json_node *node, struct pattern_value v)
{
    for (size_t i = 1; i < v.count; i++) {
        if (v.mm[i] >= v.mm[i - 1])
            continue;
        json_fault(r->errs, node, &not_rising, ERR_MM(v.mm[i - 1]), ERR_MM(v.mm[i]));
        return;
    }
}

static void read_chart(const struct pattern_reader *r, const struct json_node *chart)
{
    if (!chart->count)
        json_fault(r->errs, chart, &no_chart, ERR_NONE);
    struct pattern_row *rows = base_arena_alloc(r->a, chart->count, sizeof *rows);
    for (const struct json_node *n = chart->first; n; n = n->next) {
        struct pattern_row *row = &rows[r->p->row_count++];
        row->name = n->key;
        row->place = json_place(r->a, n);
        if (json_is(n, JSON_LIST, r->errs) && pattern_read_graded(r, n, PATTERN_POSITIVE, &row->value))
            check_rising(r, n, row->value);
    }
    r->p->chart = rows;
}

/* Together with the chart, or neither: a bought pattern may have it on paper alone. */
static void read_main_measurement(const struct pattern_reader *r, const struct json_node *top)
{
    const struct json_node *node = json_find(top, "main_measurement");
    if (!json_find(top, "chart")) {
        if (node && json_is(node, JSON_TEXT, r->errs))
            json_fault(r->errs, node, &row_of_none, ERR_TEXT(node->text));
        return;
    }
    const char *name = json_need_text(top, "main_measurement", r->errs);
    r->p->main_row = name ? pattern_find_row(r->p, name) : PATTERN_NONE;
    if (name && r->p->main_row == PATTERN_NONE)
        json_fault(r->errs, json_find(top, "main_measurement"), &no_such_row, ERR_TEXT(name));
}

/* Never assumed; files of version 1 are all drawn on the stitching line. */
static void read_outline(const struct pattern_reader *r, const struct json_node *top)
{
    const struct json_node *node = json_find(top, "outline");
    if (!node)
        json_fault(r->errs, top, &no_outline, ERR_NONE);
    if (!node || !json_is(node, JSON_TEXT, r->errs))
        return;
    r->p->outline =
        pattern_read_word(r, node, pattern_outline_words, PATTERN_STITCHING_LINE, PATTERN_CUTTING_LINE, &outline_form);
}

static void read_made_to(const struct pattern_reader *r, const struct json_node *node)
{
    static const char *const words[] = { "size", "body" };
    r->p->made_to_body = pattern_read_word(r, node, words, 0, 1, &made_to_form) == 1;
}

static void read_cup_group(const struct pattern_reader *r, const struct json_node *n, struct pattern_cup_group *out)
{
    static const char *const fields[] = { "name", "bust", NULL };
    json_only(n, fields, r->errs);
    const char *name = json_need_text(n, "name", r->errs);
    if (name && pattern_find_cup_group(r->p, name) != PATTERN_NONE)
        json_fault(r->errs, n, &cup_twice, ERR_TEXT(name));
    out->name = name;
    out->place = json_place(r->a, n);
    const struct json_node *bust = json_find(n, "bust");
    if (bust)
        pattern_read_graded(r, bust, PATTERN_POSITIVE, &out->bust);
}

/* All groups say for which bust they are, or none does. */
static void read_cup_groups(const struct pattern_reader *r, const struct json_node *list)
{
    struct pattern_cup_group *groups = base_arena_alloc(r->a, list->count, sizeof *groups);
    bool any = false;
    r->p->cup_groups = groups;
    for (const struct json_node *n = list->first; n; n = n->next)
        any = any || json_find(n, "bust");
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (!json_is(n, JSON_OBJECT, r->errs))
            continue;
        read_cup_group(r, n, &groups[r->p->cup_group_count++]);
        if (any && !json_find(n, "bust"))
            json_need(n, "bust", JSON_LIST, r->errs);
    }
}

static void add_figure(const struct pattern_reader *r, const char **figures, const char *name)
{
    pattern_names_add(r->names, PATTERN_NAME_FIGURE, PATTERN_NONE, name, (int)r->p->figure_count);
    pattern_calls(r, name);
    figures[r->p->figure_count++] = name;
}

/* Measurements that formulas read and the chart has no row for. */
static void read_measurements(const struct pattern_reader *r, const struct json_node *list, const char **figures)
{
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (!json_is(n, JSON_TEXT, r->errs))
            continue;
        if (pattern_names_find(r->names, PATTERN_NAME_FIGURE, PATTERN_NONE, n->text) != PATTERN_NONE)
            json_fault(r->errs, n, &figure_twice, ERR_TEXT(n->text));
        add_figure(r, figures, n->text);
    }
}

/* What formulas see of a body. */
static void read_figures(const struct pattern_reader *r, const struct json_node *list)
{
    const char **figures = base_arena_alloc(r->a, r->p->row_count + 1 + (list ? list->count : 0), sizeof *figures);
    r->p->figures = figures;
    for (size_t i = 0; i < r->p->row_count; i++)
        add_figure(r, figures, r->p->chart[i].name);
    if (pattern_has_group_busts(r->p) && pattern_find_row(r->p, PATTERN_BUST) == PATTERN_NONE)
        add_figure(r, figures, PATTERN_BUST);
    if (list)
        read_measurements(r, list, figures);
}

/* Reads a member of the top object, when it is there and of the type, by its own function. */
static void read_part(const struct pattern_reader *r, const struct json_node *node,
                      void (*read)(const struct pattern_reader *, const struct json_node *))
{
    if (node)
        read(r, node);
}

static void read_top(struct pattern_reader *r, const struct json_node *top)
{
    static const char *const fields[] = { "outline",  "chalklight", "version",          "name",    "unit",
                                          "sizes",    "chart",      "main_measurement", "made_to", "cup_groups",
                                          "finished", "ease",       "measurements",     "values",  "pieces",
                                          "seams",    "views",      "notions",          "girths",  "words",
                                          NULL };
    bool says_outline = json_find(top, "version")->number >= 2;
    json_only(top, says_outline ? fields : fields + 1, r->errs);
    if (says_outline)
        read_outline(r, top);
    const struct json_node *words = json_maybe(top, "words", JSON_OBJECT, r->errs);
    read_part(r, words, pattern_read_wordings);
    r->p->name = pattern_shown(r, json_need_text(top, "name", r->errs));
    values_unit(top, &r->p->unit, r->errs);
    read_part(r, json_need(top, "sizes", JSON_LIST, r->errs), read_sizes);
    if (!r->p->size_count)
        return; /* without sizes every list would be complained of */
    read_part(r, json_maybe(top, "chart", JSON_OBJECT, r->errs), read_chart);
    read_main_measurement(r, top);
    read_part(r, json_maybe(top, "made_to", JSON_TEXT, r->errs), read_made_to);
    read_part(r, json_maybe(top, "cup_groups", JSON_LIST, r->errs), read_cup_groups);
    read_figures(r, json_maybe(top, "measurements", JSON_LIST, r->errs));

    const struct json_node *values = json_maybe(top, "values", JSON_OBJECT, r->errs);
    const struct json_node *pieces = json_need(top, "pieces", JSON_LIST, r->errs);
    struct pattern_named *named = pattern_survey_values(r, values, PATTERN_NONE, &r->p->value_count);
    r->p->values = named;
    if (pieces)
        pattern_survey(r, pieces);
    if (values)
        pattern_read_values(r, values, named);
    read_part(r, json_maybe(top, "finished", JSON_OBJECT, r->errs), pattern_read_finished);
    read_part(r, pieces, pattern_read_pieces);
    read_part(r, json_maybe(top, "girths", JSON_OBJECT, r->errs), pattern_read_girths);
    read_part(r, json_maybe(top, "ease", JSON_OBJECT, r->errs), pattern_read_ease);
    read_part(r, json_maybe(top, "seams", JSON_LIST, r->errs), pattern_read_seams);
    read_part(r, json_need(top, "views", JSON_LIST, r->errs), pattern_read_views);
    const struct json_node *notions = json_maybe(top, "notions", JSON_LIST, r->errs);
    if (notions)
        pattern_read_notions(r, notions, &r->p->notions);
    read_part(r, words, pattern_check_wordings);
}

static const struct pattern *pattern_from(struct arena *a, const struct json_node *top, struct err_list *errs)
{
    if (!top)
        return NULL;
    int before = errs->faults;
    struct pattern *p = base_arena_alloc(a, 1, sizeof *p);
    struct pattern_reader r = {
        .a = a, .errs = errs, .p = p, .piece = PATTERN_NONE, .names = pattern_names_create(a), .faults_before = before
    };
    p->main_row = PATTERN_NONE;
    read_top(&r, top);
    return errs->faults == before ? p : NULL;
}

const struct pattern *pattern_read(struct arena *a, const char *path, struct err_list *errs)
{
    return pattern_from(a, json_open_ours(a, path, "pattern", PATTERN_VERSION, errs), errs);
}

const struct pattern *pattern_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                    struct err_list *errs)
{
    return pattern_from(a, json_parse_ours(a, file, bytes, count, "pattern", PATTERN_VERSION, errs), errs);
}
