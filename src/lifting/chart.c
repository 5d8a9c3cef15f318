#include "lifting/chart.h"

#include "values/length.h"
#include "json/want.h"

#include <math.h>
#include <string.h>

#define LEAST_MM 1.0 /* that a measurement can be: a slip of the unit comes out below it */

static const struct err_kind no_rows = { "chart.rows", ERR_FAULT, BASE_TR("has {0} rows; a size chart has 1 to {1}") };
static const struct err_kind no_sizes = { "chart.sizes", ERR_FAULT,
                                          BASE_TR("has {0} sizes; there are 1 to {1}, or leave “sizes” out") };
static const struct err_kind size_name = { "chart.size_name", ERR_FAULT,
                                           BASE_TR("a size is a text such as \"12\", not empty, and there once") };
static const struct err_kind wrong_count = {
    "chart.wrong_count", ERR_FAULT,
    BASE_TR("is a list of {0} where the sizes number {1}; give one length for each size")
};
static const struct err_kind other_count = {
    "chart.other_count", ERR_FAULT,
    BASE_TR("has {0} lengths and “{1}” has {2}; every row has one for each size of the sheet")
};
static const struct err_kind small = { "chart.small", ERR_FAULT,
                                       BASE_TR("is {0}; a measurement is {1} or more. Is the unit right?") };
static const struct err_kind not_rising = {
    "chart.not_rising", ERR_FAULT, BASE_TR("falls from {0} to {1}; a row of the chart rises from size to size")
};
static const struct err_kind no_main = { "chart.no_main", ERR_FAULT,
                                         BASE_TR("the size chart has no row “{0}” to pick the size by") };
static const struct err_kind unknown_row = { "chart.unknown_row", ERR_FAULT,
                                             BASE_TR("the size chart has no row “{0}” for a level of the body") };
static const struct err_kind below = {
    "chart.below", ERR_FAULT, BASE_TR("is {0}; a level is measured upwards from the lowest point of the piece")
};
static const struct err_kind too_near = {
    "chart.too_near", ERR_FAULT,
    BASE_TR("lies less than {0} from level “{1}” of the same piece; measure anew, or leave one out")
};
static const struct err_kind sheet_count = {
    "chart.sheet_count", ERR_FAULT,
    BASE_TR("is for {0} sizes, but the sheet has {1} ({2}); give one length for each of these")
};
static const struct err_kind sheet_size = {
    "chart.sheet_size", ERR_FAULT,
    BASE_TR(
        "size {0} is “{1}” here and “{2}” on the sheet; name the sheet's sizes in their order, or leave “sizes” out")
};
static const struct err_kind unknown_piece = { "chart.unknown_piece", ERR_FAULT,
                                               BASE_TR("the sheet has no piece “{0}”; its pieces are {1}") };

struct reader {
    struct arena *a;
    struct lifting_chart *chart;
    struct err_list *errs;
};

/* ---- Sizes and rows ---- */

static bool is_new_size(const struct lifting_chart *chart, const char *name, size_t before)
{
    for (size_t i = 0; i < before; i++)
        if (strcmp(chart->sizes[i], name) == 0)
            return false;
    return *name;
}

static void read_sizes(const struct reader *r, const struct json_node *list)
{
    if (list->count < 1 || list->count > LIFTING_SIZES_MOST) {
        json_fault(r->errs, list, &no_sizes, ERR_NUMBER(list->count), ERR_NUMBER(LIFTING_SIZES_MOST));
        return;
    }
    const char **sizes = base_arena_alloc(r->a, list->count, sizeof *sizes);
    r->chart->sizes = sizes;
    r->chart->size_count = list->count;
    r->chart->place = json_place(r->a, list);
    for (const struct json_node *n = list->first; n; n = n->next) {
        bool is_text = json_is(n, JSON_TEXT, r->errs);
        sizes[n->index] = is_text ? n->text : "";
        if (is_text && !is_new_size(r->chart, n->text, n->index))
            json_fault(r->errs, n, &size_name, ERR_NONE);
    }
}

/* Of a chart that names no sizes the first row says how many there are. */
static bool has_right_count(const struct reader *r, const struct json_node *row)
{
    size_t count = r->chart->size_count;
    if (!count && row->count >= 1 && row->count <= LIFTING_SIZES_MOST) {
        r->chart->size_count = row->count;
        r->chart->place = json_place(r->a, row);
        return true;
    }
    if (!count)
        json_fault(r->errs, row, &no_sizes, ERR_NUMBER(row->count), ERR_NUMBER(LIFTING_SIZES_MOST));
    else if (row->count != count && r->chart->sizes)
        json_fault(r->errs, row, &wrong_count, ERR_NUMBER(row->count), ERR_NUMBER(count));
    else if (row->count != count)
        json_fault(r->errs, row, &other_count, ERR_NUMBER(row->count), ERR_TEXT(r->chart->rows[0].name),
                   ERR_NUMBER(count));
    return row->count == count;
}

static void check_rising(const struct reader *r, const struct json_node *row, const double *mm)
{
    for (size_t i = 1; i < row->count; i++) {
        if (mm[i] >= mm[i - 1])
            continue;
        json_fault(r->errs, row, &not_rising, ERR_MM(mm[i - 1]), ERR_MM(mm[i]));
        return;
    }
}

static const double *read_lengths(const struct reader *r, const struct json_node *row)
{
    double *mm = base_arena_alloc(r->a, row->count, sizeof *mm);
    int before = r->errs->faults;
    for (const struct json_node *n = row->first; n; n = n->next)
        if (values_length(n, r->chart->unit, &mm[n->index], r->errs) && mm[n->index] < LEAST_MM)
            json_fault(r->errs, n, &small, ERR_MM(mm[n->index]), ERR_MM(LEAST_MM));
    if (r->errs->faults == before)
        check_rising(r, row, mm);
    return mm;
}

static void read_rows(const struct reader *r, const struct json_node *object)
{
    if (object->count < 1 || object->count > LIFTING_CHART_ROWS_MOST) {
        json_fault(r->errs, object, &no_rows, ERR_NUMBER(object->count), ERR_NUMBER(LIFTING_CHART_ROWS_MOST));
        return;
    }
    struct lifting_row *rows = base_arena_alloc(r->a, object->count, sizeof *rows);
    r->chart->rows = rows;
    for (const struct json_node *n = object->first; n; n = n->next) {
        struct lifting_row *row = &rows[r->chart->row_count++];
        row->name = n->key;
        if (json_is(n, JSON_LIST, r->errs) && has_right_count(r, n))
            row->mm = read_lengths(r, n);
    }
}

static int find_row(const struct lifting_chart *chart, const char *name)
{
    for (size_t i = 0; i < chart->row_count; i++)
        if (strcmp(chart->rows[i].name, name) == 0)
            return (int)i;
    return LIFTING_NONE;
}

static void read_main(const struct reader *r, const struct json_node *top)
{
    const char *name = json_need_text(top, "main_measurement", r->errs);
    int row = name ? find_row(r->chart, name) : LIFTING_NONE;
    if (row != LIFTING_NONE)
        r->chart->main_row = (size_t)row;
    else if (name && r->chart->row_count)
        json_fault(r->errs, json_find(top, "main_measurement"), &no_main, ERR_TEXT(json_shown(r->a, name)));
}

/* ---- Levels ---- */

static void check_apart(const struct reader *r, const struct json_node *node, const struct lifting_level *levels,
                        size_t index)
{
    for (size_t i = 0; i < index; i++) {
        if (fabs(levels[i].mm - levels[index].mm) >= LIFTING_LEVELS_APART_MM)
            continue;
        json_fault(r->errs, node, &too_near, ERR_MM(LIFTING_LEVELS_APART_MM),
                   ERR_TEXT(r->chart->rows[levels[i].row].name));
        return;
    }
}

static void read_level(const struct reader *r, const struct json_node *node, struct lifting_level *levels,
                       size_t *count)
{
    int row = find_row(r->chart, node->key);
    struct lifting_level *level = &levels[*count];
    *level = (struct lifting_level){ 0, 0, json_place(r->a, node) };
    if (row == LIFTING_NONE) {
        json_fault(r->errs, node, &unknown_row, ERR_TEXT(json_shown(r->a, node->key)));
        return;
    }
    level->row = (size_t)row;
    if (!values_length(node, r->chart->unit, &level->mm, r->errs))
        return;
    if (level->mm < 0)
        json_fault(r->errs, node, &below, ERR_MM(level->mm));
    else
        check_apart(r, node, levels, (*count)++);
}

static void read_levels(const struct reader *r, const struct json_node *object)
{
    struct lifting_levels *pieces = base_arena_alloc(r->a, object->count, sizeof *pieces);
    r->chart->pieces = pieces;
    for (const struct json_node *n = object->first; n; n = n->next) {
        if (!json_is(n, JSON_OBJECT, r->errs))
            continue;
        struct lifting_level *levels = base_arena_alloc(r->a, n->count, sizeof *levels);
        size_t count = 0;
        for (const struct json_node *level = n->first; level; level = level->next)
            read_level(r, level, levels, &count);
        pieces[r->chart->piece_count++] = (struct lifting_levels){ n->key, levels, count, json_place(r->a, n) };
    }
}

/* ---- The file ---- */

static const struct lifting_chart *chart_from(struct arena *a, const struct json_node *top, struct err_list *errs)
{
    static const char *const fields[] = { "chalklight", "version",          "unit",   "sizes",
                                          "chart",      "main_measurement", "levels", NULL };
    if (!top)
        return NULL;
    int before = errs->faults;
    struct lifting_chart *chart = base_arena_alloc(a, 1, sizeof *chart);
    struct reader r = { a, chart, errs };
    json_only(top, fields, errs);
    values_unit(top, &chart->unit, errs);
    const struct json_node *sizes = json_maybe(top, "sizes", JSON_LIST, errs);
    const struct json_node *rows = json_need(top, "chart", JSON_OBJECT, errs);
    const struct json_node *levels = json_maybe(top, "levels", JSON_OBJECT, errs);
    if (sizes)
        read_sizes(&r, sizes);
    if (rows)
        read_rows(&r, rows);
    read_main(&r, top);
    if (levels && chart->row_count)
        read_levels(&r, levels);
    return errs->faults == before ? chart : NULL;
}

const struct lifting_chart *lifting_chart_read(struct arena *a, const char *path, struct err_list *errs)
{
    return chart_from(a, json_open_ours(a, path, "chart", LIFTING_CHART_VERSION, errs), errs);
}

const struct lifting_chart *lifting_chart_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                                struct err_list *errs)
{
    return chart_from(a, json_parse_ours(a, file, bytes, count, "chart", LIFTING_CHART_VERSION, errs), errs);
}

/* ---- Beside a sheet ---- */

static const char *listed(struct arena *a, const char *const *names, size_t count)
{
    const char *list = "";
    for (size_t i = 0; i < count; i++)
        list = base_arena_print(a, "%s%s%s", list, i ? ", " : "", names[i]);
    return list;
}

static bool suits_sizes(const struct lifting_chart *chart, const struct lifting_division *division,
                        struct err_list *errs)
{
    size_t count = division->size_count;
    if (chart->size_count != count) {
        base_err(errs, &sheet_count, chart->place, ERR_NUMBER(chart->size_count), ERR_NUMBER(count),
                 ERR_TEXT(listed(errs->arena, division->sizes, count)));
        return false;
    }
    for (size_t k = 0; chart->sizes && k < count; k++)
        if (strcmp(chart->sizes[k], division->sizes[k]) != 0) {
            base_err(errs, &sheet_size, chart->place, ERR_NUMBER(k + 1), ERR_TEXT(chart->sizes[k]),
                     ERR_TEXT(division->sizes[k]));
            return false;
        }
    return true;
}

bool lifting_chart_suits(const struct lifting_chart *chart, const struct lifting_division *division,
                         const char *const *pieces, size_t piece_count, struct err_list *errs)
{
    bool suits = suits_sizes(chart, division, errs);
    for (size_t i = 0; i < chart->piece_count; i++) {
        bool there = false;
        for (size_t k = 0; k < piece_count; k++)
            there = there || strcmp(pieces[k], chart->pieces[i].piece) == 0;
        if (!there)
            base_err(errs, &unknown_piece, chart->pieces[i].place,
                     ERR_TEXT(json_shown(errs->arena, chart->pieces[i].piece)),
                     ERR_TEXT(listed(errs->arena, pieces, piece_count)));
        suits = suits && there;
    }
    return suits;
}

const struct lifting_levels *lifting_chart_levels(const struct lifting_chart *chart, const char *piece)
{
    for (size_t i = 0; chart && i < chart->piece_count; i++)
        if (strcmp(chart->pieces[i].piece, piece) == 0)
            return &chart->pieces[i];
    return NULL;
}
