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
#define LEAST_DISTANCE_MM 1
#define MOST_NUDGE_PX 10

static const char *const kind_names[] = {
    [CALIBRATION_POSITION] = "position",
    [CALIBRATION_NUDGE] = "nudge",
    [CALIBRATION_DISTANCE] = "distance",
};
enum { KINDS = sizeof kind_names / sizeof kind_names[0] };

static const struct err_kind too_many = { "calibration.too_many", ERR_FAULT,
                                          BASE_TR("{0} readings are too many: leave at most {1}") };
static const struct err_kind too_far = {
    "calibration.too_far", ERR_FAULT,
    BASE_TR("{0} is farther than {1} from the mat's zero: check the number and its unit")
};
static const struct err_kind off_mat = {
    "calibration.beside", ERR_FAULT,
    BASE_TR("cross {0} at {1} along and {2} away lies beside the mat's rulings: read it again, or leave it out")
};
static const struct err_kind moved = {
    "calibration.moved", ERR_FAULT,
    BASE_TR("cross {0} stands at another pixel further up: give this one a number of its own")
};
static const struct err_kind no_kind = { "calibration.no_kind", ERR_FAULT,
                                         BASE_TR("“{0}” is no kind of reading: write position, nudge or distance") };
static const struct err_kind one_cross = {
    "calibration.one_cross", ERR_FAULT,
    BASE_TR("a distance is between two crosses, and this has cross {0} at both ends")
};
static const struct err_kind no_sigma = {
    "calibration.no_sigma", ERR_FAULT,
    BASE_TR("how well something is read is a length above 0 up to {0}, and this is {1}")
};
static const struct err_kind doubled = {
    "calibration.doubled", ERR_WARNING,
    BASE_TR(
        "cross {0} stands here once more with the very same numbers, and counts twice. Take one out if it is a copy")
};
static const struct err_kind no_pixels = { "calibration.no_pixels", ERR_FAULT,
                                           BASE_TR("needs a number of pixels above 0 up to {0}, and this is {1}") };
static const struct err_kind no_place = {
    "calibration.no_place", ERR_FAULT,
    BASE_TR("no cross was read at place {0} of the mat: number its places from 1 without gaps")
};

static const struct err_kind waiting = {
    "calibration.waiting", ERR_FAULT,
    BASE_TR(
        "{0} of {1} crosses still wait, cross {2} first: write down where they fall on the mat, or take them out")
};

/* What stands for a place that is not filled in yet. */
#define BLANK_ALONG "along?"
#define BLANK_AWAY "away?"

static void coordinate_from(const struct json_node *node, enum units_length unit, double *out, struct err_list *errs)
{
    if (values_length(node, unit, out, errs) && !(*out >= -FARTHEST_MM && *out <= FARTHEST_MM))
        json_fault(errs, node, &too_far, ERR_MM(*out), ERR_MM(FARTHEST_MM));
}

/* Whether a reading says of a cross that it stands at another pixel. */
static bool moves(const struct calibration_reading *r, int cross, struct px_pt px)
{
    bool first = r->cross == cross && (r->px.x != px.x || r->px.y != px.y);
    bool other = r->other == cross && (r->other_px.x != px.x || r->other_px.y != px.y);
    return first || (r->kind == CALIBRATION_DISTANCE && other);
}

/* A cross may be read again, but it stands where it stands, unless it was nudged. */
static void check_place(const struct json_node *node, const struct calibration_readings *so_far,
                        const struct calibration_reading *r, struct err_list *errs)
{
    for (size_t i = 0; i < so_far->count && r->kind != CALIBRATION_NUDGE; i++) {
        const struct calibration_reading *before = &so_far->items[i];
        bool here = moves(before, r->cross, r->px);
        bool there = r->kind == CALIBRATION_DISTANCE && moves(before, r->other, r->other_px);
        if (before->kind != CALIBRATION_NUDGE && (here || there)) {
            json_fault(errs, node, &moved, ERR_NUMBER(here ? r->cross : r->other));
            return;
        }
    }
}

static bool is_same(const struct calibration_reading *a, const struct calibration_reading *b)
{
    bool same_pixels =
        a->px.x == b->px.x && a->px.y == b->px.y && a->other_px.x == b->other_px.x && a->other_px.y == b->other_px.y;
    return a->kind == b->kind && a->cross == b->cross && a->place == b->place && same_pixels && a->at.x == b->at.x &&
           a->at.y == b->at.y && a->distance_mm == b->distance_mm;
}

static void check_copies(const struct json_node *node, const struct calibration_readings *so_far,
                         const struct calibration_reading *r, struct err_list *errs)
{
    for (size_t i = 0; i < so_far->count; i++)
        if (is_same(&so_far->items[i], r)) {
            json_fault(errs, node, &doubled, ERR_NUMBER(r->cross));
            return;
        }
}

/* A sigma that may be left out: *out_mm is then untouched. */
static void sigma_from(const struct json_node *object, const char *name, enum units_length unit, double *out_mm,
                       struct err_list *errs)
{
    const struct json_node *node = json_find(object, name);
    double mm = 0;
    if (!node || !values_length(node, unit, &mm, errs))
        return;
    if (mm >= LEAST_SIGMA_MM && mm <= MOST_SIGMA_MM)
        *out_mm = mm;
    else
        json_fault(errs, node, &no_sigma, ERR_MM(MOST_SIGMA_MM), ERR_MM(mm));
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

static void kind_from(const struct json_node *node, enum calibration_kind *out, struct err_list *errs)
{
    const struct json_node *kind = json_maybe(node, "kind", JSON_TEXT, errs);
    if (!kind)
        return;
    for (int k = 0; k < KINDS; k++)
        if (!strcmp(kind->text, kind_names[k])) {
            *out = (enum calibration_kind)k;
            return;
        }
    json_fault(errs, kind, &no_kind, ERR_TEXT(json_shown(errs->arena, kind->text)));
}

/* The ruling that a cross falls on, or was nudged to, and where the mat lay. */
static void place_from(const struct json_node *node, const struct calibration_readings *in,
                       struct calibration_reading *r, struct err_list *errs)
{
    int before = errs->faults;
    json_only(node, (const char *const[]){ "cross", "pixel", "at", "kind", "sigma", "place", NULL }, errs);
    const struct json_node *at = calibration_pair_from(json_need(node, "at", JSON_LIST, errs), errs);
    if (at) {
        coordinate_from(at->first, in->unit, &r->at.x, errs);
        coordinate_from(at->first->next, in->unit, &r->at.y, errs);
    }
    if (json_find(node, "place") && json_need_whole(node, "place", 1, CALIBRATION_MOST_PLACES, &r->place, errs))
        r->place--;
    if (errs->faults == before && !calibration_on_mat(&in->mat, r->at))
        json_fault(errs, node, &off_mat, ERR_NUMBER(r->cross), ERR_MM(r->at.x), ERR_MM(r->at.y));
}

static void distance_from(const struct json_node *node, const struct calibration_readings *in,
                          struct calibration_reading *r, struct err_list *errs)
{
    json_only(node,
              (const char *const[]){ "cross", "pixel", "kind", "sigma", "other", "other_pixel", "distance", NULL },
              errs);
    json_need_whole(node, "other", 1, MOST_CROSS, &r->other, errs);
    calibration_pixel_from(json_need(node, "other_pixel", JSON_LIST, errs), in->width_px, in->height_px, &r->other_px,
                           errs);
    values_need_length(node, "distance", in->unit, LEAST_DISTANCE_MM, 2 * FARTHEST_MM, &r->distance_mm, errs);
    if (r->other == r->cross || (r->other_px.x == r->px.x && r->other_px.y == r->px.y))
        json_fault(errs, node, &one_cross, ERR_NUMBER(r->cross));
}

static void reading_from(const struct json_node *node, struct calibration_readings *out, struct err_list *errs)
{
    int before = errs->faults;
    struct calibration_reading r = { 0 };
    if (!json_is(node, JSON_OBJECT, errs) || is_blank(json_find(node, "at")))
        return;
    kind_from(node, &r.kind, errs);
    json_need_whole(node, "cross", 1, MOST_CROSS, &r.cross, errs);
    calibration_pixel_from(json_need(node, "pixel", JSON_LIST, errs), out->width_px, out->height_px, &r.px, errs);
    (r.kind == CALIBRATION_DISTANCE ? distance_from : place_from)(node, out, &r, errs);
    sigma_from(node, "sigma", out->unit, &r.sigma_mm, errs);
    if (errs->faults != before)
        return;
    check_place(node, out, &r, errs);
    check_copies(node, out, &r, errs);
    out->items[out->count++] = r;
}

/* The mat's places are numbered without gaps, as far as any crosses were read on it. */
static void check_places(const struct json_node *list, const struct calibration_readings *readings,
                         struct err_list *errs)
{
    bool used[CALIBRATION_MOST_PLACES] = { false };
    int most = -1;
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *r = &readings->items[i];
        if (r->kind == CALIBRATION_DISTANCE)
            continue;
        used[r->place] = true;
        most = r->place > most ? r->place : most;
    }
    for (int p = 0; p < most; p++)
        if (!used[p]) {
            json_fault(errs, list, &no_place, ERR_NUMBER(p + 1));
            return;
        }
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
    check_places(list, out, errs);
}

static void nudge_px_from(const struct json_node *file, double *out_px, struct err_list *errs)
{
    const struct json_node *node = json_maybe(file, "nudge_pixels", JSON_NUMBER, errs);
    if (node && node->number > 0 && node->number <= MOST_NUDGE_PX)
        *out_px = node->number;
    else if (node)
        json_fault(errs, node, &no_pixels, ERR_NUMBER(MOST_NUDGE_PX), ERR_NUMBER(node->number));
}

static void sigmas_from(const struct json_node *file, struct calibration_readings *out, struct err_list *errs)
{
    const struct {
        const char *name;
        double *mm;
    } rows[] = {
        { "sigma", &out->sigma_mm },
        { "eye_sigma", &out->eye_mm },
        { "tape_sigma", &out->tape_mm },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        sigma_from(file, rows[i].name, out->unit, rows[i].mm, errs);
    nudge_px_from(file, &out->nudge_px, errs);
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
              (const char *const[]){ "chalklight", "version", "name", "unit", "frame", "mat", "sigma", "eye_sigma",
                                     "nudge_pixels", "tape_sigma", "readings", "beside", NULL },
              errs);
    out->name = json_need_text(file, "name", errs);
    values_unit(file, &out->unit, errs);
    calibration_frame_from(file, &out->width_px, &out->height_px, errs);
    if (json_find(file, "mat"))
        calibration_mat_from(a, json_find(file, "mat"), &out->mat, errs);
    sigmas_from(file, out, errs);
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

static void write_place(struct json_out *object, const struct calibration_reading *r, enum units_length unit)
{
    struct json_out *at = json_out_list(object, "at");
    if (isnan(r->at.x)) {
        json_out_text(at, NULL, BLANK_ALONG);
        json_out_text(at, NULL, BLANK_AWAY);
    } else {
        values_write_length(at, NULL, r->at.x, unit);
        values_write_length(at, NULL, r->at.y, unit);
    }
    if (r->place > 0)
        json_out_number(object, "place", r->place + 1);
}

static void write_distance(struct json_out *object, const struct calibration_reading *r, enum units_length unit)
{
    json_out_number(object, "other", r->other);
    calibration_pixel_write(json_out_list(object, "other_pixel"), r->other_px);
    values_write_length(object, "distance", r->distance_mm, unit);
}

static void write_reading(struct json_out *list, const struct calibration_reading *r, enum units_length unit)
{
    struct json_out *object = json_out_object(list, NULL);
    if (r->kind != CALIBRATION_POSITION)
        json_out_text(object, "kind", kind_names[r->kind]);
    json_out_number(object, "cross", r->cross);
    calibration_pixel_write(json_out_list(object, "pixel"), r->px);
    (r->kind == CALIBRATION_DISTANCE ? write_distance : write_place)(object, r, unit);
    if (r->sigma_mm > 0)
        values_write_length(object, "sigma", r->sigma_mm, unit);
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
    if (readings->eye_mm > 0)
        values_write_length(top, "eye_sigma", readings->eye_mm, readings->unit);
    if (readings->nudge_px > 0)
        json_out_number(top, "nudge_pixels", readings->nudge_px);
    if (readings->tape_mm > 0)
        values_write_length(top, "tape_sigma", readings->tape_mm, readings->unit);
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
