#include "calibration/readings.h"

#include "calibration/frame.h"
#include "values/length.h"
#include "json/want.h"
#include "json/write.h"

#include <math.h>
#include <string.h>

enum { MOST_CROSS = 9999 };

/* Bounds of what a person's hand and eye can be. */
#define LEAST_SIGMA_MM 0.01
#define MOST_SIGMA_MM 10
#define FARTHEST_MM 10000

static const struct err_kind too_many = { "calibration.too_many", ERR_FAULT,
                                          "{0} readings are too many: leave at most {1}" };
static const struct err_kind too_far = { "calibration.too_far", ERR_FAULT,
                                         "{0} is farther than {1} from the mat's zero: check the number and its unit" };
static const struct err_kind off_mat = {
    "calibration.beside", ERR_FAULT,
    "cross {0} at {1} along and {2} away lies beside the mat's rulings: read it again, or leave it out"
};
static const struct err_kind moved = {
    "calibration.moved", ERR_FAULT, "cross {0} stands at another pixel further up: give this one a number of its own"
};
static const struct err_kind waiting = {
    "calibration.waiting", ERR_FAULT,
    "{0} of {1} crosses still wait, cross {2} first: write down where they fall on the mat, or take them out"
};

/* What stands for a place that is not filled in yet. */
#define BLANK_ALONG "along?"
#define BLANK_AWAY "away?"

static void coordinate_from(const struct json_node *node, enum units_length unit, double *out, struct err_list *errs)
{
    if (values_length(node, unit, out, errs) && !(*out >= -FARTHEST_MM && *out <= FARTHEST_MM))
        json_fault(errs, node, &too_far, ERR_MM(*out), ERR_MM(FARTHEST_MM));
}

/* A cross may be read again, but it stands where it stands. */
static void check_place(const struct json_node *node, const struct calibration_readings *so_far,
                        const struct calibration_reading *r, struct err_list *errs)
{
    for (size_t i = 0; i < so_far->count; i++) {
        const struct calibration_reading *other = &so_far->items[i];
        if (other->cross == r->cross && (other->px.x != r->px.x || other->px.y != r->px.y)) {
            json_fault(errs, node, &moved, ERR_NUMBER(r->cross));
            return;
        }
    }
}

bool calibration_on_mat(const struct calibration_mat *mat, struct table_pt at)
{
    if (!mat->name)
        return fabs(at.x) <= FARTHEST_MM && fabs(at.y) <= FARTHEST_MM;
    const double *margin = mat->margin_mm;
    return at.x >= -margin[0] && at.x <= mat->width_mm + margin[1] && at.y >= -margin[2] &&
           at.y <= mat->height_mm + margin[3];
}

static bool says(const struct json_node *node, const char *text)
{
    return node->type == JSON_TEXT && strcmp(node->text, text) == 0;
}

static bool is_blank(const struct json_node *at)
{
    return at && at->type == JSON_LIST && at->count == 2 &&
           (says(at->first, BLANK_ALONG) || says(at->first->next, BLANK_AWAY));
}

/* One sentence for all crosses that are not filled in. Returns how many there are. */
static size_t tell_waiting(const struct json_node *list, struct err_list *errs)
{
    size_t count = 0;
    const struct json_node *first = NULL;
    for (const struct json_node *node = list->first; node; node = node->next)
        if (node->type == JSON_OBJECT && is_blank(json_find(node, "at")) && count++ == 0)
            first = node;
    const struct json_node *cross = first ? json_find(first, "cross") : NULL;
    if (count)
        json_fault(errs, first, &waiting, ERR_NUMBER(count), ERR_NUMBER(list->count),
                   ERR_NUMBER(cross && cross->type == JSON_NUMBER ? cross->number : 0));
    return count;
}

static void reading_from(const struct json_node *node, struct calibration_readings *out, struct err_list *errs)
{
    int before = errs->faults;
    struct calibration_reading r = { 0 };
    if (!json_is(node, JSON_OBJECT, errs) || is_blank(json_find(node, "at")))
        return;
    json_only(node, (const char *const[]){ "cross", "pixel", "at", NULL }, errs);
    json_need_whole(node, "cross", 1, MOST_CROSS, &r.cross, errs);
    calibration_pixel_from(json_need(node, "pixel", JSON_LIST, errs), out->width_px, out->height_px, &r.px, errs);
    const struct json_node *at = calibration_pair_from(json_need(node, "at", JSON_LIST, errs), errs);
    if (at) {
        coordinate_from(at->first, out->unit, &r.at.x, errs);
        coordinate_from(at->first->next, out->unit, &r.at.y, errs);
    }
    if (errs->faults != before)
        return;
    check_place(node, out, &r, errs);
    if (!calibration_on_mat(&out->mat, r.at))
        json_fault(errs, node, &off_mat, ERR_NUMBER(r.cross), ERR_MM(r.at.x), ERR_MM(r.at.y));
    out->items[out->count++] = r;
}

static void items_from(struct arena *a, const struct json_node *list, struct calibration_readings *out,
                       struct err_list *errs)
{
    if (!list)
        return;
    if (list->count > CALIBRATION_MOST_READINGS) {
        json_fault(errs, list, &too_many, ERR_NUMBER(list->count), ERR_NUMBER(CALIBRATION_MOST_READINGS));
        return;
    }
    if (tell_waiting(list, errs) == list->count)
        return;
    out->items = base_arena_alloc(a, list->count, sizeof *out->items);
    for (const struct json_node *node = list->first; node; node = node->next)
        reading_from(node, out, errs);
}

static void beside_from(struct arena *a, const struct json_node *list, struct calibration_readings *out,
                        struct err_list *errs)
{
    if (!list || !json_is(list, JSON_LIST, errs))
        return;
    if (list->count > CALIBRATION_MOST_READINGS) {
        json_fault(errs, list, &too_many, ERR_NUMBER(list->count), ERR_NUMBER(CALIBRATION_MOST_READINGS));
        return;
    }
    out->beside = base_arena_alloc(a, list->count, sizeof *out->beside);
    for (const struct json_node *node = list->first; node; node = node->next)
        if (json_is_whole(node, 1, MOST_CROSS, &out->beside[out->beside_count], errs))
            out->beside_count++;
}

static bool readings_from(struct arena *a, const struct json_node *file, struct calibration_readings *out,
                          struct err_list *errs)
{
    if (!file)
        return false;
    int before = errs->faults;
    *out = (struct calibration_readings){ .sigma_mm = CALIBRATION_TYPED_SIGMA_MM };
    json_only(file,
              (const char *const[]){ "chalklight", "version", "name", "unit", "frame", "mat", "sigma", "readings",
                                     "beside", NULL },
              errs);
    out->name = json_need_text(file, "name", errs);
    values_unit(file, &out->unit, errs);
    calibration_frame_from(file, &out->width_px, &out->height_px, errs);
    if (json_find(file, "mat"))
        calibration_mat_from(a, json_find(file, "mat"), &out->mat, errs);
    if (json_find(file, "sigma"))
        values_need_length(file, "sigma", out->unit, LEAST_SIGMA_MM, MOST_SIGMA_MM, &out->sigma_mm, errs);
    items_from(a, json_need(file, "readings", JSON_LIST, errs), out, errs);
    beside_from(a, json_find(file, "beside"), out, errs);
    return errs->faults == before;
}

bool calibration_readings_read(struct arena *a, const char *path, struct calibration_readings *out,
                               struct err_list *errs)
{
    return readings_from(a, json_open_ours(a, path, "readings", CALIBRATION_READINGS_VERSION, errs), out, errs);
}

bool calibration_readings_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                struct calibration_readings *out, struct err_list *errs)
{
    return readings_from(a, json_parse_ours(a, file, bytes, count, "readings", CALIBRATION_READINGS_VERSION, errs), out,
                         errs);
}

static void write_reading(struct json_out *list, const struct calibration_reading *r, enum units_length unit)
{
    struct json_out *object = json_out_object(list, NULL);
    json_out_number(object, "cross", r->cross);
    calibration_pixel_write(json_out_list(object, "pixel"), r->px);
    struct json_out *at = json_out_list(object, "at");
    if (isnan(r->at.x)) {
        json_out_text(at, NULL, BLANK_ALONG);
        json_out_text(at, NULL, BLANK_AWAY);
    } else {
        values_write_length(at, NULL, r->at.x, unit);
        values_write_length(at, NULL, r->at.y, unit);
    }
}

const char *calibration_readings_print(struct arena *a, const struct calibration_readings *readings)
{
    struct json_out *top = json_out_create();
    json_out_text(top, "chalklight", "readings");
    json_out_number(top, "version", CALIBRATION_READINGS_VERSION);
    json_out_text(top, "name", readings->name);
    json_out_text(top, "unit", units_name(readings->unit));
    calibration_frame_write(top, readings->width_px, readings->height_px);
    if (readings->mat.name)
        calibration_mat_write(json_out_object(top, "mat"), &readings->mat);
    values_write_length(top, "sigma", readings->sigma_mm, readings->unit);
    struct json_out *list = json_out_list(top, "readings");
    for (size_t i = 0; i < readings->count; i++)
        write_reading(list, &readings->items[i], readings->unit);
    struct json_out *beside = readings->beside_count ? json_out_list(top, "beside") : NULL;
    for (size_t i = 0; i < readings->beside_count; i++)
        json_out_number(beside, NULL, readings->beside[i]);
    const char *text = json_out_print(a, top);
    json_out_destroy(top);
    return text;
}
