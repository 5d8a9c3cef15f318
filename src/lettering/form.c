#include "lettering/form.h"

#include <assert.h>
#include <math.h>

/* Of a cell: outlines are looked at in steps no longer. */
#define STEP 0.5
#define HALF_ROOT 0.70710678118654752440

/* ROUNDING: what rounded lengths may be off by, at most, when they are not far apart. */
enum { STEPS_MOST = 4 * FORM_CELLS, ROUNDING = 2000 };

static const vec2 ways[FORM_WAYS] = {
    { 1, 0 },  { HALF_ROOT, HALF_ROOT },   { 0, 1 },  { -HALF_ROOT, HALF_ROOT },
    { -1, 0 }, { -HALF_ROOT, -HALF_ROOT }, { 0, -1 }, { HALF_ROOT, -HALF_ROOT },
};

struct forming {
    double sums[FORM_VALUES], total;
    vec2 middle;
    double across, up; /* cells for a unit of the caller's */
};

/* Shares of the two directions that are nearest. */
static void share_ways(vec2 way, double shares[FORM_WAYS])
{
    double sum = 0;
    for (int k = 0; k < FORM_WAYS; k++) {
        shares[k] = fmax(0, vec2_dot(way, ways[k]) - HALF_ROOT);
        sum += shares[k];
    }
    for (int k = 0; k < FORM_WAYS && sum > 0; k++)
        shares[k] /= sum;
}

static void put(struct forming *f, vec2 at, double weight, const double shares[FORM_WAYS])
{
    double x = fmin(fmax(at.x - 0.5, 0), FORM_CELLS - 1), y = fmin(fmax(at.y - 0.5, 0), FORM_CELLS - 1);
    int column = (int)fmin(floor(x), FORM_CELLS - 2), row = (int)fmin(floor(y), FORM_CELLS - 2);
    double right = x - column, upper = y - row;
    for (int k = 0; k < FORM_WAYS; k++) {
        double w = weight * shares[k];
        double *cell = &f->sums[(row * FORM_CELLS + column) * FORM_WAYS + k];
        cell[0] += w * (1 - right) * (1 - upper);
        cell[FORM_WAYS] += w * right * (1 - upper);
        cell[FORM_CELLS * FORM_WAYS] += w * (1 - right) * upper;
        cell[(FORM_CELLS + 1) * FORM_WAYS] += w * right * upper;
    }
    f->total += weight;
}

static vec2 in_cells(const struct forming *f, vec2 p)
{
    return (vec2){ FORM_CELLS / 2.0 + (p.x - f->middle.x) * f->across, FORM_CELLS / 2.0 + (p.y - f->middle.y) * f->up };
}

static void put_side(struct forming *f, vec2 from, vec2 to)
{
    vec2 a = in_cells(f, from), b = in_cells(f, to), way = vec2_sub(b, a);
    double length = vec2_length(way), shares[FORM_WAYS];
    if (!(length > 0))
        return;
    int steps = (int)fmin(ceil(length / STEP), STEPS_MOST);
    share_ways(vec2_scale(way, 1 / length), shares);
    for (int i = 0; i < steps; i++)
        put(f, vec2_lerp(a, b, (i + 0.5) / steps), length / steps, shares);
}

static void put_contour(struct forming *f, struct geometry_path contour)
{
    for (size_t i = 0; i < contour.count; i++)
        put_side(f, contour.points[i], contour.points[i + 1 < contour.count ? i + 1 : 0]);
}

/* The wider side takes the whole grid, the narrower the root of its share. */
static void set_scale(struct forming *f, double width, double height)
{
    double wide = fmax(width, height), narrow = fmin(width, height);
    double most = wide > 0 ? FORM_CELLS / wide : 0;
    double least = narrow > 0 ? FORM_CELLS * sqrt(narrow / wide) / narrow : 0;
    f->across = width >= height ? most : least;
    f->up = width >= height ? least : most;
}

static void settle_values(const struct forming *f, struct lettering_form *out)
{
    double sums[FORM_SUMS] = { 0 };
    for (int k = 0; k < FORM_VALUES; k++) {
        int cell = k / FORM_WAYS, right = cell % FORM_CELLS >= FORM_CELLS / 2,
            upper = cell >= FORM_CELLS * FORM_CELLS / 2;
        out->values[k] = (int16_t)(FORM_ONE * sqrt(f->sums[k] / f->total) + 0.5);
        sums[(2 * upper + right) * FORM_WAYS + k % FORM_WAYS] += out->values[k] * out->values[k];
    }
    for (int i = 0; i < FORM_SUMS; i++)
        out->sums[i] = (int16_t)(sqrt(sums[i]) + 0.5);
}

struct lettering_form lettering_form_of(const struct geometry_path *contours, size_t count)
{
    struct forming f = { .total = 0 };
    struct lettering_form out = { .parts = 0 };
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < count; i++)
        box = geometry_box_join(box, geometry_path_box(contours[i]));
    if (box.min.x > box.max.x)
        return out;
    out.width = box.max.x - box.min.x;
    out.height = box.max.y - box.min.y;
    f.middle = vec2_lerp(box.min, box.max, 0.5);
    set_scale(&f, out.width, out.height);
    for (size_t i = 0; i < count; i++) {
        double area = geometry_path_area(contours[i]); /* none: a point that some fonts hang accents on */
        out.parts += area > 0;
        out.holes += area < 0;
        put_contour(&f, contours[i]);
    }
    if (f.total > 0)
        settle_values(&f, &out);
    return out;
}

/* Not less than this: of each part of two vectors the lengths alone (the triangle inequality). */
static int32_t least_apart(const struct lettering_form *a, const struct lettering_form *b)
{
    int32_t sum = 0;
    for (int k = 0; k < FORM_SUMS; k++) {
        int32_t d = a->sums[k] - b->sums[k];
        sum += d * d;
    }
    return sum;
}

double lettering_forms_apart(const struct lettering_form *a, const struct lettering_form *b, double most)
{
    double one = (double)FORM_ONE * FORM_ONE;
    int32_t sum = least_apart(a, b), enough = (int32_t)(fmin(most, 2) * one) + ROUNDING;
    if (sum > enough)
        return sum / one;
    sum = 0;
    for (int k = 0; k < FORM_VALUES; k++) {
        int32_t d = a->values[k] - b->values[k];
        sum += d * d;
    }
    return sum / one;
}
