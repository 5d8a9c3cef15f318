#include "calibration/table.h"

#include "calibration/frame.h"
#include "values/length.h"
#include "json/want.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>
#include <string.h>

enum { PROJECTIVE_TERMS = GEOMETRY_K1, LEAST_READINGS = 4 };

#define MOST_RESIDUAL_MM 10000.0

static const struct err_kind no_date = { "calibration.no_date", ERR_FAULT,
                                         BASE_TR("“{0}” is not a date: write year, month and day as in 2026-11-25") };
static const struct err_kind not_yes_or_no = { "calibration.not_yes_or_no", ERR_FAULT,
                                               BASE_TR("has to be true or false") };
static const struct err_kind wrong_terms = { "calibration.wrong_terms", ERR_FAULT,
                                             BASE_TR("needs {0} numbers, and this has {1}") };
static const struct err_kind folds = {
    "calibration.folds", ERR_FAULT,
    BASE_TR("with this map the picture would fold over itself: read the crosses and make the "
            "table anew")
};
static const struct err_kind negative = { "calibration.negative", ERR_FAULT,
                                          BASE_TR("how much something scatters is not below 0, and this is {0}") };
static const struct err_kind no_residual = { "calibration.no_residual", ERR_FAULT,
                                             BASE_TR("needs a number of mm from 0 to {0}, and this is {1}") };

static const struct err_kind foot_too_far = { "calibration.foot_too_far", ERR_FAULT,
                                              BASE_TR("{0} is too far away: the spot below the lens lies within {1}") };

struct calibration_table calibration_table_of(struct arena *a, const struct calibration_readings *readings,
                                              const struct calibration_solution *solution, const char *made)
{
    struct calibration_table t = {
        .name = base_arena_copy_text(a, readings->name),
        .made = base_arena_copy_text(a, made),
        .unit = readings->unit,
        .mat = readings->mat,
        .map = solution->map,
        .rms_mm = solution->rms_mm,
        .worst_mm = solution->worst_mm,
        .readings = readings->count - solution->aside_count,
        .has_doubt = true,
        .doubt = solution->doubt,
    };
    if (t.mat.name)
        t.mat.name = base_arena_copy_text(a, t.mat.name);
    return t;
}

void calibration_table_reframe(struct calibration_table *table, int width_px, int height_px)
{
    for (size_t i = 0; i < table->doubt.hull_count; i++) {
        table->doubt.hull[i].x *= (double)width_px / table->map.width_px;
        table->doubt.hull[i].y *= (double)height_px / table->map.height_px;
    }
    table->map.width_px = width_px;
    table->map.height_px = height_px;
}

/* Row by row to the diagonal: the rest mirrors it. */
static void write_doubt(struct json_out *to, const struct calibration_doubt *doubt)
{
    struct json_out *covariance = json_out_list(to, "covariance"), *measured = json_out_list(to, "measured");
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++)
        for (int j = 0; j <= i; j++)
            json_out_number(covariance, NULL, doubt->covariance[i][j]);
    for (size_t i = 0; i < doubt->hull_count; i++) {
        struct json_out *px = json_out_list(measured, NULL);
        json_out_number(px, NULL, doubt->hull[i].x);
        json_out_number(px, NULL, doubt->hull[i].y);
    }
}

static void write_map(struct json_out *to, const struct geometry_map *map)
{
    struct json_out *h = json_out_list(to, "h");
    for (int i = 0; i < PROJECTIVE_TERMS; i++)
        json_out_number(h, NULL, map->term[i]);
    json_out_number(to, "k1", map->term[GEOMETRY_K1]);
    json_out_number(to, "p1", map->term[GEOMETRY_P1]);
    json_out_number(to, "p2", map->term[GEOMETRY_P2]);
}

static void write_lens(struct json_out *to, const struct calibration_lens_place *lens, enum units_length unit)
{
    values_write_length(to, "height", lens->height_mm, unit);
    struct json_out *foot = json_out_list(to, "foot");
    values_write_length(foot, NULL, lens->foot.x, unit);
    values_write_length(foot, NULL, lens->foot.y, unit);
}

static void write_checked(struct json_out *to, const struct calibration_checked *line)
{
    json_out_number(to, "drawn", line->drawn_mm);
    json_out_number(to, "taped", line->taped_mm);
    json_out_number(to, "may_be_off", line->may_be_off_mm);
}

const char *calibration_table_print(struct arena *a, const struct calibration_table *table)
{
    assert(geometry_map_is_valid(&table->map));
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "table");
    json_out_number(top, "version", CALIBRATION_TABLE_VERSION);
    json_out_text(top, "name", table->name);
    json_out_text(top, "made", table->made);
    json_out_bool(top, "sample", table->sample);
    json_out_text(top, "unit", units_name(table->unit));
    calibration_frame_write(top, table->map.width_px, table->map.height_px);
    if (table->display)
        json_out_text(top, "display", table->display);
    if (table->mat.name)
        calibration_mat_write(json_out_object(top, "mat"), &table->mat);
    write_map(json_out_object(top, "map"), &table->map);
    struct json_out *residual = json_out_object(top, "residual");
    json_out_number(residual, "rms", table->rms_mm);
    json_out_number(residual, "worst", table->worst_mm);
    json_out_number(top, "readings", (double)table->readings);
    struct json_out *checked = table->checked_count ? json_out_list(top, "checked") : NULL;
    for (int i = 0; i < table->checked_count; i++)
        write_checked(json_out_object(checked, NULL), &table->checked[i]);
    if (table->stickers.count)
        calibration_stickers_write(top, "stickers", &table->stickers);
    if (calibration_lens_is_known(&table->lens))
        write_lens(json_out_object(top, "lens"), &table->lens, table->unit);
    if (table->has_doubt)
        write_doubt(json_out_object(top, "doubt"), &table->doubt);
    const char *text = json_out_print(a, top);
    json_out_destroy(top);
    return text;
}

/* Whether the text has the form of an ISO 8601 date; the length of the month is not asked for. */
static bool is_date(const char *text)
{
    static const char form[] = "dddd-dd-dd";
    if (strlen(text) != strlen(form))
        return false;
    for (size_t i = 0; form[i]; i++)
        if (form[i] == 'd' ? !isdigit((unsigned char)text[i]) : text[i] != form[i])
            return false;
    int month = (text[5] - '0') * 10 + text[6] - '0', day = (text[8] - '0') * 10 + text[9] - '0';
    return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

static const char *date_from(const struct json_node *object, const char *name, struct err_list *errs)
{
    const char *text = json_need_text(object, name, errs);
    if (text && !is_date(text))
        json_fault(errs, json_find(object, name), &no_date, ERR_TEXT(json_shown(errs->arena, text)));
    return text;
}

static bool yes_from(const struct json_node *object, const char *name, struct err_list *errs)
{
    const struct json_node *node = json_find(object, name);
    if (!node)
        json_need(object, name, JSON_FALSE, errs); /* tells that it is missing */
    else if (node->type != JSON_TRUE && node->type != JSON_FALSE)
        json_fault(errs, node, &not_yes_or_no, ERR_NONE);
    return node && node->type == JSON_TRUE;
}

static void number_from(const struct json_node *object, const char *name, double *out, struct err_list *errs)
{
    const struct json_node *node = json_need(object, name, JSON_NUMBER, errs);
    if (node)
        *out = node->number;
}

static void terms_from(const struct json_node *list, double *term, struct err_list *errs)
{
    if (!list)
        return;
    if (list->count != PROJECTIVE_TERMS) {
        json_fault(errs, list, &wrong_terms, ERR_NUMBER(PROJECTIVE_TERMS), ERR_NUMBER(list->count));
        return;
    }
    for (const struct json_node *node = list->first; node; node = node->next)
        if (json_is(node, JSON_NUMBER, errs))
            term[node->index] = node->number;
}

/* The frame's size is there already. */
static void map_from(const struct json_node *node, struct geometry_map *map, struct err_list *errs)
{
    int before = errs->faults;
    json_only(node, (const char *const[]){ "h", "k1", "p1", "p2", NULL }, errs);
    terms_from(json_need(node, "h", JSON_LIST, errs), map->term, errs);
    number_from(node, "k1", &map->term[GEOMETRY_K1], errs);
    number_from(node, "p1", &map->term[GEOMETRY_P1], errs);
    number_from(node, "p2", &map->term[GEOMETRY_P2], errs);
    bool complete = node && errs->faults == before && map->width_px && map->height_px;
    if (complete && !geometry_map_is_valid(map))
        json_fault(errs, node, &folds, ERR_NONE);
}

static void residual_from(const struct json_node *object, const char *name, double *out_mm, struct err_list *errs)
{
    number_from(object, name, out_mm, errs);
    if (!(*out_mm >= 0 && *out_mm <= MOST_RESIDUAL_MM))
        json_fault(errs, json_find(object, name), &no_residual, ERR_NUMBER(MOST_RESIDUAL_MM), ERR_NUMBER(*out_mm));
}

static void foot_from(const struct json_node *node, enum units_length unit, double *out_mm, struct err_list *errs)
{
    if (values_length(node, unit, out_mm, errs) && !(fabs(*out_mm) <= CALIBRATION_FARTHEST_FOOT_MM))
        json_fault(errs, node, &foot_too_far, ERR_MM(*out_mm), ERR_MM(CALIBRATION_FARTHEST_FOOT_MM));
}

static void lens_from(const struct json_node *object, enum units_length unit, struct calibration_lens_place *out,
                      struct err_list *errs)
{
    if (!object)
        return;
    json_only(object, (const char *const[]){ "height", "foot", NULL }, errs);
    values_need_length(object, "height", unit, CALIBRATION_LEAST_LENS_MM, CALIBRATION_MOST_LENS_MM, &out->height_mm,
                       errs);
    const struct json_node *foot = calibration_pair_from(json_need(object, "foot", JSON_LIST, errs), errs);
    if (!foot)
        return;
    foot_from(foot->first, unit, &out->foot.x, errs);
    foot_from(foot->first->next, unit, &out->foot.y, errs);
}

static bool covariance_from(const struct json_node *list, struct calibration_doubt *out, struct err_list *errs)
{
    enum { NUMBERS = GEOMETRY_MAP_TERMS * (GEOMETRY_MAP_TERMS + 1) / 2 };
    int before = errs->faults, i = 0, j = 0;
    if (!list)
        return false;
    if (list->count != NUMBERS) {
        json_fault(errs, list, &wrong_terms, ERR_NUMBER(NUMBERS), ERR_NUMBER(list->count));
        return false;
    }
    for (const struct json_node *node = list->first; node; node = node->next) {
        if (json_is(node, JSON_NUMBER, errs))
            out->covariance[i][j] = out->covariance[j][i] = node->number;
        if (i == j && out->covariance[i][i] < 0)
            json_fault(errs, node, &negative, ERR_NUMBER(node->number));
        j = j < i ? j + 1 : 0;
        i += j == 0;
    }
    return errs->faults == before;
}

static bool measured_from(struct arena *a, const struct json_node *list, struct calibration_doubt *out,
                          struct err_list *errs)
{
    int before = errs->faults;
    if (!list)
        return false;
    if (list->count > 2 * CALIBRATION_MOST_READINGS) {
        json_fault(errs, list, &wrong_terms, ERR_NUMBER(2 * CALIBRATION_MOST_READINGS), ERR_NUMBER(list->count));
        return false;
    }
    struct px_pt *px = base_arena_alloc(a, list->count, sizeof *px);
    for (const struct json_node *node = list->first; node; node = node->next) {
        if (!json_is(node, JSON_LIST, errs))
            continue;
        if (node->count != 2)
            json_fault(errs, node, &wrong_terms, ERR_NUMBER(2), ERR_NUMBER(node->count));
        else if (json_is(node->first, JSON_NUMBER, errs) && json_is(node->first->next, JSON_NUMBER, errs))
            px[node->index] = (struct px_pt){ node->first->number, node->first->next->number };
    }
    if (errs->faults == before)
        calibration_doubt_measure(a, out, px, list->count);
    return errs->faults == before;
}

static bool doubt_from(struct arena *a, const struct json_node *node, struct calibration_doubt *out,
                       struct err_list *errs)
{
    if (!node)
        return false;
    json_only(node, (const char *const[]){ "covariance", "measured", NULL }, errs);
    bool covariance = covariance_from(json_need(node, "covariance", JSON_LIST, errs), out, errs);
    return measured_from(a, json_need(node, "measured", JSON_LIST, errs), out, errs) && covariance;
}

static double length_from(const struct json_node *object, const char *name, struct err_list *errs)
{
    double mm = 0;
    number_from(object, name, &mm, errs);
    const struct json_node *node = json_find(object, name);
    if (node && node->type == JSON_NUMBER && !(mm > 0 && mm <= UNITS_FARTHEST_MM))
        json_fault(errs, node, &no_residual, ERR_NUMBER(UNITS_FARTHEST_MM), ERR_NUMBER(mm));
    return mm;
}

static void checked_from(const struct json_node *list, struct calibration_table *out, struct err_list *errs)
{
    if (!list)
        return;
    if (list->count > CALIBRATION_MOST_CHECKED) {
        json_fault(errs, list, &wrong_terms, ERR_NUMBER(CALIBRATION_MOST_CHECKED), ERR_NUMBER(list->count));
        return;
    }
    for (const struct json_node *node = list->first; node; node = node->next) {
        if (!json_is(node, JSON_OBJECT, errs))
            continue;
        json_only(node, (const char *const[]){ "drawn", "taped", "may_be_off", NULL }, errs);
        out->checked[out->checked_count++] =
            (struct calibration_checked){ length_from(node, "drawn", errs), length_from(node, "taped", errs),
                                          length_from(node, "may_be_off", errs) };
    }
}

static bool table_from(struct arena *a, const struct json_node *file, struct calibration_table *out,
                       struct err_list *errs)
{
    if (!file)
        return false;
    int before = errs->faults, readings = 0;
    *out = (struct calibration_table){ 0 };
    json_only(file,
              (const char *const[]){ "chalklight", "version", "name", "made", "sample", "unit", "frame", "mat", "map",
                                     "residual", "readings", "doubt", "stickers", "lens", "display", "checked", NULL },
              errs);
    out->name = json_need_text(file, "name", errs);
    out->made = date_from(file, "made", errs);
    if (json_find(file, "display"))
        out->display = json_need_text(file, "display", errs);
    out->sample = yes_from(file, "sample", errs);
    values_unit(file, &out->unit, errs);
    calibration_frame_from(file, &out->map.width_px, &out->map.height_px, errs);
    if (json_find(file, "mat"))
        calibration_mat_from(a, json_find(file, "mat"), &out->mat, errs);
    map_from(json_need(file, "map", JSON_OBJECT, errs), &out->map, errs);
    const struct json_node *residual = json_need(file, "residual", JSON_OBJECT, errs);
    json_only(residual, (const char *const[]){ "rms", "worst", NULL }, errs);
    residual_from(residual, "rms", &out->rms_mm, errs);
    residual_from(residual, "worst", &out->worst_mm, errs);
    json_need_whole(file, "readings", LEAST_READINGS, CALIBRATION_MOST_READINGS, &readings, errs);
    out->readings = (size_t)readings;
    out->has_doubt = doubt_from(a, json_maybe(file, "doubt", JSON_OBJECT, errs), &out->doubt, errs);
    checked_from(json_maybe(file, "checked", JSON_LIST, errs), out, errs);
    if (json_find(file, "stickers"))
        calibration_stickers_from(json_find(file, "stickers"), &out->map, &out->stickers, errs);
    lens_from(json_maybe(file, "lens", JSON_OBJECT, errs), out->unit, &out->lens, errs);
    return errs->faults == before;
}

bool calibration_table_read(struct arena *a, const char *path, struct calibration_table *out, struct err_list *errs)
{
    return table_from(a, json_open_ours(a, path, "table", CALIBRATION_TABLE_VERSION, errs), out, errs);
}

bool calibration_table_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                             struct calibration_table *out, struct err_list *errs)
{
    return table_from(a, json_parse_ours(a, file, bytes, count, "table", CALIBRATION_TABLE_VERSION, errs), out, errs);
}
