#include "calibration/model.h"

#include <assert.h>

enum { LENS_TERMS = 3, PROJECTIVE_TERMS = GEOMETRY_MAP_TERMS - LENS_TERMS, TILT_TERMS = 2 };

/* How much each term of a map typically is, in the order of geometry_map.term, so that the solver meets numbers near
 * one. */
static const double map_unit[GEOMETRY_MAP_TERMS] = { 500, 500, 500, 500, 500, 500, 1, 1, 0.01, 0.01, 0.01 };
static const double pose_unit[CALIBRATION_POSE_TERMS] = { 500, 500, 1 };
#define STRETCH_UNIT 0.01

/* The pseudo-readings of k1, p1 and p2: 0 give or take so much. A figure of the project's own study: the lenses of
 * projectors stay within. */
static const double lens_loose[LENS_TERMS] = { 0.005, 0.0025, 0.0025 };

/* tan 25° times half the diagonal over the distance of a projector of throw 1.2 is 0.22; most hang straighter. */
#define TILT_LOOSE 0.15

/* Holds what floats in its place, and adds nothing to the doubt. */
#define FLOAT_HOLD_MM 0.001

/* L⁻¹ of a reading, lower triangular: row one is (xx, 0), row two (yx, yy). A distance has xx alone. */
struct calibration_whitening {
    double xx, yx, yy;
};

static bool is_distance(const struct calibration_reading *r)
{
    return r->kind == CALIBRATION_DISTANCE;
}

static double usual(double mm, double otherwise)
{
    return mm > 0 ? mm : otherwise;
}

/* A reading's own sigma, or the usual one of its kind; 0 for a nudge that has none of its own. */
static double plain_sigma_mm(const struct calibration_readings *readings, const struct calibration_reading *r)
{
    if (r->sigma_mm > 0)
        return r->sigma_mm;
    switch (r->kind) {
    case CALIBRATION_POSITION:
        return readings->sigma_mm;
    case CALIBRATION_DISTANCE:
        return usual(readings->tape_mm, CALIBRATION_TAPE_SIGMA_MM);
    case CALIBRATION_NUDGE:
        break;
    }
    return 0;
}

/* Cholesky of sigma_px² J Jᵀ + sigma_eye² I, inverted. */
static struct calibration_whitening nudge_whitening(const struct calibration_readings *readings,
                                                    const struct geometry_map *map, struct px_pt px)
{
    struct geometry_jacobian j = geometry_map_jacobian(map, px);
    double eye = usual(readings->eye_mm, CALIBRATION_EYE_SIGMA_MM);
    double by_px = usual(readings->nudge_px, CALIBRATION_NUDGE_SIGMA_PX);
    double xx = by_px * by_px * (j.xu * j.xu + j.xv * j.xv) + eye * eye;
    double xy = by_px * by_px * (j.xu * j.yu + j.xv * j.yv);
    double yy = by_px * by_px * (j.yu * j.yu + j.yv * j.yv) + eye * eye;
    double l_xx = sqrt(xx), l_yx = xy / l_xx, l_yy = sqrt(yy - l_yx * l_yx);
    return (struct calibration_whitening){ 1 / l_xx, -l_yx / (l_xx * l_yy), 1 / l_yy };
}

bool calibration_model_weigh(struct calibration_model *model, const struct geometry_map *map)
{
    bool any = false;
    for (size_t i = 0; i < model->readings->count; i++) {
        const struct calibration_reading *r = &model->readings->items[i];
        double sigma = plain_sigma_mm(model->readings, r);
        if (sigma > 0) {
            model->white[i] = (struct calibration_whitening){ 1 / sigma, 0, 1 / sigma };
            continue;
        }
        model->white[i] = nudge_whitening(model->readings, map, r->px);
        any = true;
    }
    return any;
}

struct calibration_model calibration_model_of(struct arena *a, const struct calibration_readings *readings,
                                              enum calibration_lens lens, int options)
{
    struct calibration_model m = { .readings = readings, .places = 1, .lens = lens == CALIBRATION_LENS_WEAK };
    bool anywhere = false;
    m.tilted = options & CALIBRATION_TILTED;
    m.stretch = options & CALIBRATION_STRETCH;
    m.white = base_arena_alloc(a, readings->count, sizeof *m.white);
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *r = &readings->items[i];
        assert(r->place >= 0 && r->place < CALIBRATION_MOST_PLACES);
        if (!is_distance(r)) {
            anywhere = true;
            m.places = (size_t)r->place >= m.places ? (size_t)r->place + 1 : m.places;
        }
        m.rows += is_distance(r) ? 1 : 2;
    }
    m.floats = !anywhere && readings->count > 0;
    size_t lens_terms = m.lens ? LENS_TERMS : 0, stretch_terms = m.stretch ? CALIBRATION_STRETCH_TERMS : 0;
    size_t tilt_rows = m.tilted ? TILT_TERMS : 0, float_rows = m.floats ? 3 : 0;
    m.terms = PROJECTIVE_TERMS + lens_terms + CALIBRATION_POSE_TERMS * (m.places - 1) + stretch_terms;
    m.rows += lens_terms + tilt_rows + float_rows;
    return m;
}

static size_t map_terms(const struct calibration_model *model)
{
    return model->lens ? GEOMETRY_MAP_TERMS : PROJECTIVE_TERMS;
}

/* Where the terms of a place begin; of place 1 first. */
static size_t pose_term(const struct calibration_model *model, size_t place)
{
    return map_terms(model) + CALIBRATION_POSE_TERMS * (place - 1);
}

double calibration_model_unit(const struct calibration_model *model, size_t term)
{
    size_t first_pose = map_terms(model), first_stretch = pose_term(model, model->places);
    if (term < first_pose)
        return map_unit[term];
    return term < first_stretch ? pose_unit[(term - first_pose) % CALIBRATION_POSE_TERMS] : STRETCH_UNIT;
}

void calibration_model_pack(const struct calibration_model *model, const struct calibration_unknowns *at, double *x)
{
    size_t n = 0;
    for (; n < map_terms(model); n++)
        x[n] = at->map.term[n];
    for (size_t p = 1; p < model->places; p++) {
        x[n++] = at->pose[p].shift_mm.x;
        x[n++] = at->pose[p].shift_mm.y;
        x[n++] = at->pose[p].turn_rad;
    }
    for (size_t i = 0; model->stretch && i < CALIBRATION_STRETCH_TERMS; i++)
        x[n++] = at->stretch[i];
    assert(n == model->terms);
    for (size_t t = 0; t < n; t++)
        x[t] /= calibration_model_unit(model, t);
}

struct calibration_unknowns calibration_model_unpack(const struct calibration_model *model, const double *x)
{
    struct calibration_unknowns at = { .map = { model->readings->width_px, model->readings->height_px, { 0 } } };
    size_t n = 0;
    for (; n < map_terms(model); n++)
        at.map.term[n] = x[n] * map_unit[n];
    for (size_t p = 1; p < model->places; p++, n += CALIBRATION_POSE_TERMS)
        at.pose[p] =
            (struct calibration_pose){ { x[n] * pose_unit[0], x[n + 1] * pose_unit[1] }, x[n + 2] * pose_unit[2] };
    for (size_t i = 0; model->stretch && i < CALIBRATION_STRETCH_TERMS; i++)
        at.stretch[i] = x[n++] * STRETCH_UNIT;
    return at;
}

static vec2 turned(double turn_rad, vec2 v)
{
    double c = cos(turn_rad), s = sin(turn_rad);
    return (vec2){ c * v.x - s * v.y, s * v.x + c * v.y };
}

struct table_pt calibration_pose_to_table(const struct calibration_unknowns *at, int place, struct table_pt rulings)
{
    vec2 stretched = { rulings.x * (1 + at->stretch[0]), rulings.y * (1 + at->stretch[1]) };
    vec2 on_table = vec2_add(turned(at->pose[place].turn_rad, stretched), at->pose[place].shift_mm);
    return (struct table_pt){ on_table.x, on_table.y };
}

/* By how much a place is missed, and how that moves with the terms, in mm. */
struct miss {
    vec2 off;
    vec2 by[CALIBRATION_MOST_TERMS];
};

static vec2 off_by(const struct calibration_unknowns *at, const struct calibration_reading *r)
{
    struct table_pt is = geometry_map_to_table(&at->map, r->px);
    struct table_pt read = calibration_pose_to_table(at, r->place, r->at);
    return (vec2){ is.x - read.x, is.y - read.y };
}

static void add_map_gradient(const struct calibration_model *model, const struct geometry_map *map, struct px_pt px,
                             double weight, vec2 *by)
{
    double dx[GEOMETRY_MAP_TERMS], dy[GEOMETRY_MAP_TERMS];
    geometry_map_term_gradient(map, px, dx, dy);
    for (size_t t = 0; t < map_terms(model); t++)
        by[t] = vec2_add(by[t], (vec2){ weight * dx[t], weight * dy[t] });
}

static void place_miss(const struct calibration_model *model, const struct calibration_unknowns *at,
                       const struct calibration_reading *r, struct miss *out)
{
    *out = (struct miss){ .off = off_by(at, r) };
    add_map_gradient(model, &at->map, r->px, 1, out->by);
    double turn = at->pose[r->place].turn_rad;
    if (r->place > 0) {
        size_t t = pose_term(model, (size_t)r->place);
        vec2 stretched = { r->at.x * (1 + at->stretch[0]), r->at.y * (1 + at->stretch[1]) };
        vec2 arm = turned(turn, stretched);
        out->by[t] = (vec2){ -1, 0 };
        out->by[t + 1] = (vec2){ 0, -1 };
        out->by[t + 2] = (vec2){ arm.y, -arm.x };
    }
    if (model->stretch) {
        size_t t = pose_term(model, model->places);
        out->by[t] = turned(turn, (vec2){ -r->at.x, 0 });
        out->by[t + 1] = turned(turn, (vec2){ 0, -r->at.y });
    }
}

static size_t place_rows(const struct calibration_model *model, const struct calibration_unknowns *at, size_t index,
                         double miss[2], double gradient[2][CALIBRATION_MOST_TERMS])
{
    const struct calibration_reading *r = &model->readings->items[index];
    struct calibration_whitening w = model->white[index];
    struct miss m;
    if (gradient)
        place_miss(model, at, r, &m);
    else
        m.off = off_by(at, r);
    miss[0] = w.xx * m.off.x;
    miss[1] = w.yx * m.off.x + w.yy * m.off.y;
    for (size_t t = 0; gradient && t < model->terms; t++) {
        double unit = calibration_model_unit(model, t);
        gradient[0][t] = unit * w.xx * m.by[t].x;
        gradient[1][t] = unit * (w.yx * m.by[t].x + w.yy * m.by[t].y);
    }
    return 2;
}

static size_t distance_row(const struct calibration_model *model, const struct calibration_unknowns *at, size_t index,
                           double miss[2], double gradient[2][CALIBRATION_MOST_TERMS])
{
    const struct calibration_reading *r = &model->readings->items[index];
    struct table_pt a = geometry_map_to_table(&at->map, r->px), b = geometry_map_to_table(&at->map, r->other_px);
    vec2 across = { b.x - a.x, b.y - a.y };
    double weight = model->white[index].xx;
    miss[0] = weight * (vec2_length(across) - r->distance_mm);
    if (!gradient)
        return 1;
    vec2 by[CALIBRATION_MOST_TERMS] = { { 0, 0 } }, along = vec2_unit(across);
    add_map_gradient(model, &at->map, r->other_px, 1, by);
    add_map_gradient(model, &at->map, r->px, -1, by);
    for (size_t t = 0; t < model->terms; t++)
        gradient[0][t] = calibration_model_unit(model, t) * weight * vec2_dot(along, by[t]);
    return 1;
}

size_t calibration_model_reading(const struct calibration_model *model, const struct calibration_unknowns *at,
                                 size_t index, double miss[2], double gradient[2][CALIBRATION_MOST_TERMS])
{
    bool distance = is_distance(&model->readings->items[index]);
    return (distance ? distance_row : place_rows)(model, at, index, miss, gradient);
}

/* A pseudo-reading of one term of the map: 0 give or take `loose`. */
static void hold_term(const struct calibration_model *model, const struct calibration_unknowns *at, int term,
                      double loose, double *miss, double *gradient)
{
    *miss = at->map.term[term] / loose;
    for (size_t t = 0; gradient && t < model->terms; t++)
        gradient[t] = t == (size_t)term ? map_unit[term] / loose : 0;
}

/* A pseudo-reading of where a cross lies along x or y: at zero. */
static void hold_place(const struct calibration_model *model, const struct calibration_unknowns *at, struct px_pt px,
                       bool along, double *miss, double *gradient)
{
    struct table_pt is = geometry_map_to_table(&at->map, px);
    *miss = (along ? is.x : is.y) / FLOAT_HOLD_MM;
    vec2 by[CALIBRATION_MOST_TERMS] = { { 0, 0 } };
    add_map_gradient(model, &at->map, px, 1, by);
    for (size_t t = 0; gradient && t < model->terms; t++)
        gradient[t] = calibration_model_unit(model, t) * (along ? by[t].x : by[t].y) / FLOAT_HOLD_MM;
}

size_t calibration_model_pseudo(const struct calibration_model *model, const struct calibration_unknowns *at,
                                double miss[8], double gradient[8][CALIBRATION_MOST_TERMS])
{
    size_t row = 0;
    for (int i = 0; model->lens && i < LENS_TERMS; i++, row++)
        hold_term(model, at, PROJECTIVE_TERMS + i, lens_loose[i], &miss[row], gradient ? gradient[row] : NULL);
    for (int i = 0; model->tilted && i < TILT_TERMS; i++, row++)
        hold_term(model, at, GEOMETRY_H20 + i, TILT_LOOSE, &miss[row], gradient ? gradient[row] : NULL);
    for (int i = 0; model->floats && i < 3; i++, row++) {
        const struct calibration_reading *first = &model->readings->items[0];
        hold_place(model, at, i < 2 ? first->px : first->other_px, i == 0, &miss[row], gradient ? gradient[row] : NULL);
    }
    return row;
}

double calibration_model_sigma_mm(const struct calibration_model *model, size_t index)
{
    struct calibration_whitening w = model->white[index];
    return 1 / fmin(w.xx, w.yy);
}
