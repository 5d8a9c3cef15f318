#include "app/walk_guess.h"

#include "calibration/fit.h"

#include <math.h>

#define USUAL_WIDTH_MM 1500.0 /* of the light on a table; common practice, no source */

enum { LEAST_FITTED = 5 };

/* The frame as the lens terms have it, but with y up as on the table. */
static vec2 from_middle(const struct geometry_map *map, struct px_pt px)
{
    double rho = 0.5 * vec2_length((vec2){ map->width_px, map->height_px });
    return (vec2){ (px.x - 0.5 * map->width_px) / rho, (0.5 * map->height_px - px.y) / rho };
}

/* The similarity z = turn p + shift, all read as complex numbers, as a map. */
static void set_similarity(struct geometry_map *map, vec2 turn, vec2 shift)
{
    map->term[GEOMETRY_H00] = turn.x;
    map->term[GEOMETRY_H01] = turn.y;
    map->term[GEOMETRY_H02] = shift.x;
    map->term[GEOMETRY_H10] = turn.y;
    map->term[GEOMETRY_H11] = -turn.x;
    map->term[GEOMETRY_H12] = shift.y;
}

static vec2 times(vec2 a, vec2 b)
{
    return (vec2){ a.x * b.x - a.y * b.y, a.x * b.y + a.y * b.x };
}

/* Least squares: the turn is the sum of conj(p) z over the sum of |p|², both from their means. */
static struct geometry_map similarity(const struct calibration_readings *r, vec2 right)
{
    struct geometry_map map = { .width_px = r->width_px, .height_px = r->height_px };
    double diagonal = vec2_length((vec2){ r->width_px, r->height_px });
    double scale = 0.5 * diagonal * USUAL_WIDTH_MM / r->width_px;             /* mm for half a diagonal */
    vec2 turn = vec2_scale(right, scale), from = { 0, 0 }, spread = { 0, 0 }; /* turns `right`, y up, onto (1, 0) */
    vec2 to = { 0.5 * r->mat.width_mm, 0.5 * r->mat.height_mm };
    if (!r->mat.name)
        to = vec2_scale((vec2){ r->width_px, r->height_px }, 0.5 * USUAL_WIDTH_MM / r->width_px);
    for (size_t i = 0; i < r->count; i++) {
        double share = 1 / (double)(i + 1);
        from = vec2_lerp(from, from_middle(&map, r->items[i].px), share);
        to = vec2_lerp(to, (vec2){ r->items[i].at.x, r->items[i].at.y }, share);
    }
    double weight = 0;
    for (size_t i = 0; i < r->count; i++) {
        vec2 p = vec2_sub(from_middle(&map, r->items[i].px), from);
        vec2 z = vec2_sub((vec2){ r->items[i].at.x, r->items[i].at.y }, to);
        spread = vec2_add(spread, times((vec2){ p.x, -p.y }, z));
        weight += vec2_dot(p, p);
    }
    if (vec2_length(spread) > 0 && weight > 0)
        turn = vec2_scale(spread, 1 / weight);
    set_similarity(&map, turn, vec2_sub(to, times(turn, from)));
    return map;
}

struct app_walk_guess app_walk_guess(const struct calibration_readings *readings, vec2 right)
{
    struct arena *scratch = base_arena_create();
    struct calibration_model model = calibration_model_of(scratch, readings, CALIBRATION_LENS_WEAK, 0);
    struct calibration_fit fit;
    struct app_walk_guess guess = { similarity(readings, right), false };
    if (readings->count >= LEAST_FITTED && calibration_fit(scratch, &model, NULL, &fit) &&
        geometry_map_is_valid(&fit.at.map))
        guess = (struct app_walk_guess){ fit.at.map, true };
    base_arena_destroy(scratch);
    return guess;
}

double app_walk_ruling(const struct calibration_readings *readings)
{
    if (readings->mat.name)
        return readings->mat.ruling_mm;
    return readings->unit == UNITS_IN ? UNITS_MM_PER_IN : 10;
}

static double nearest(double mm, double ruling, double most)
{
    double whole = round(mm / ruling), last = floor(most / ruling + 1e-9);
    return fmin(fmax(whole, 0), last) * ruling;
}

struct table_pt app_walk_crossing(const struct calibration_readings *readings, struct table_pt near)
{
    double ruling = app_walk_ruling(readings), width = UNITS_FARTHEST_MM / 10, height = width;
    if (readings->mat.name) {
        width = readings->mat.width_mm;
        height = readings->mat.height_mm;
    }
    return (struct table_pt){ nearest(near.x, ruling, width), nearest(near.y, ruling, height) };
}
