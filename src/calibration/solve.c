#include "calibration/solve.h"

#include "calibration/fit.h"
#include "calibration/mistake.h"

#include <assert.h>
#include <math.h>

#define MOST_STRETCH 1.6 /* a projector tilted by 25° stays under 1.3 */
#define LEAST_PX_MM 0.1  /* a pixel on the cloth: a light 20 cm wide … */
#define MOST_PX_MM 5.0   /* … to 10 m */

enum { LEAST_READINGS = 4, LEAST_CHECKED = 9 };

/* Farthest from their line, as a part of their spread along it, at which places still count as in one line. At a
 * fiftieth a reading error is some fifty times as large beside the line as on it. */
#define NEARLY_IN_LINE 0.02

/* Two readings of one pixel differ by sqrt 2 sigma and what the cross itself is wide. */
#define SAME_PIXEL_SIGMAS 6
#define SAME_PIXEL_MM 1.0

static const struct err_kind too_few = {
    "calibration.too_few", ERR_FAULT,
    "{0} crosses are too few: read at least four different ones, better nine, with all corners among them"
};
static const struct err_kind same_pixel = { "calibration.same_pixel", ERR_FAULT,
                                            "crosses {0} and {1} are one and the same, but were read {2} apart. Read "
                                            "it once more, and leave the wrong reading out" };
static const struct err_kind read_twice = {
    "calibration.same_pixel", ERR_FAULT,
    "cross {0} was read twice, {2} apart. Read it once more, and leave the wrong reading out"
};
static const struct err_kind crosses_in_line = { "calibration.in_line", ERR_FAULT,
                                                 "the crosses that were read lie nearly in one line, or all but one "
                                                 "do. Read some on both sides of it, best in all corners" };
static const struct err_kind places_in_line = {
    "calibration.in_line", ERR_FAULT,
    "the places that were read lie nearly in one line, or all but one do, though the crosses do not. Read them again"
};
static const struct err_kind unsolved = {
    "calibration.unsolved", ERR_FAULT,
    "the readings leave open where the picture lies. Read crosses farther apart, best in all corners"
};
static const struct err_kind folds = {
    "calibration.folds", ERR_FAULT,
    "with these readings the picture would fold over itself. Two crosses are probably exchanged: read them again"
};
static const struct err_kind turned_over = { "calibration.turned_over", ERR_WARNING,
                                             "by these readings the picture lies mirrored on the table. Were along and "
                                             "away exchanged, or along read from the right?" };
static const struct err_kind stretched = {
    "calibration.stretched", ERR_WARNING,
    "by these readings a pixel is {0} times as wide as high. Was one direction read in another unit?"
};
static const struct err_kind odd_size = {
    "calibration.odd_size", ERR_WARNING, "by these readings the light is {0} wide. Were they written in another unit?"
};
static const struct err_kind few = {
    "calibration.few", ERR_WARNING,
    "with only {0} readings a wrong one may go unnoticed. Read at least nine, the corners twice"
};

static bool is_same_pixel(struct px_pt a, struct px_pt b)
{
    return a.x == b.x && a.y == b.y;
}

/* The earliest reading of the same pixel; the reading itself when there is none. */
static size_t first_of_pixel(const struct calibration_readings *readings, size_t index)
{
    size_t first = 0;
    while (first < index && !is_same_pixel(readings->items[first].px, readings->items[index].px))
        first++;
    return first;
}

/* Whether what was read of one pixel agrees; complains of each pair that does not. */
static bool same_pixels_agree(const char *file, const struct calibration_readings *readings, struct err_list *errs)
{
    bool agree = true;
    double most_mm = SAME_PIXEL_SIGMAS * readings->sigma_mm + SAME_PIXEL_MM;
    for (size_t i = 0; i < readings->count; i++)
        for (size_t j = 0; j < i; j++) {
            const struct calibration_reading *a = &readings->items[j], *b = &readings->items[i];
            double apart = vec2_length((vec2){ a->at.x - b->at.x, a->at.y - b->at.y });
            if (!is_same_pixel(a->px, b->px) || apart <= most_mm)
                continue;
            base_err(errs, a->cross == b->cross ? &read_twice : &same_pixel, base_err_in_file(file),
                     ERR_NUMBER(a->cross), ERR_NUMBER(b->cross), ERR_MM(apart));
            agree = false;
        }
    return agree;
}

/* Whether the points other than `without` lie nearly in the line that fits them best (least squares of the distances
 * to it: the main axis of their moments). */
static bool in_line_without(const vec2 *at, size_t count, size_t without)
{
    double n = (double)(without < count ? count - 1 : count);
    vec2 middle = { 0, 0 };
    for (size_t i = 0; i < count; i++)
        if (i != without)
            middle = vec2_add(middle, vec2_scale(at[i], 1 / n));
    double xx = 0, xy = 0, yy = 0;
    for (size_t i = 0; i < count; i++) {
        vec2 d = vec2_sub(at[i], middle);
        if (i != without) {
            xx += d.x * d.x;
            xy += d.x * d.y;
            yy += d.y * d.y;
        }
    }
    double half_turn = 0.5 * atan2(2 * xy, xx - yy);
    vec2 along = { cos(half_turn), sin(half_turn) };
    double first = INFINITY, last = -INFINITY, off = 0;
    for (size_t i = 0; i < count; i++) {
        vec2 d = vec2_sub(at[i], middle);
        if (i != without) {
            first = fmin(first, vec2_dot(along, d));
            last = fmax(last, vec2_dot(along, d));
            off = fmax(off, fabs(vec2_cross(along, d)));
        }
    }
    return off <= NEARLY_IN_LINE * (last - first);
}

/* Whether all the points, or all but one, lie nearly in one line: no map is fixed by such. */
static bool nearly_in_line(const vec2 *at, size_t count)
{
    for (size_t without = 0; without <= count; without++)
        if (in_line_without(at, count, without))
            return true;
    return false;
}

/* Whether there are enough crosses, well enough spread, to fix a map. */
static bool well_spread(struct arena *scratch, const char *file, const struct calibration_readings *readings,
                        struct err_list *errs)
{
    vec2 *px = base_arena_alloc(scratch, readings->count, sizeof *px);
    vec2 *at = base_arena_alloc(scratch, readings->count, sizeof *at);
    size_t count = 0;
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *r = &readings->items[i];
        if (first_of_pixel(readings, i) != i)
            continue;
        px[count] = (vec2){ r->px.x, r->px.y };
        at[count++] = (vec2){ r->at.x, r->at.y };
    }
    const struct err_kind *kind = NULL;
    if (count < LEAST_READINGS)
        kind = &too_few;
    else if (nearly_in_line(px, count))
        kind = &crosses_in_line;
    else if (nearly_in_line(at, count))
        kind = &places_in_line;
    if (kind)
        base_err(errs, kind, base_err_in_file(file), ERR_NUMBER(count));
    return !kind;
}

/* The best map, if the readings agree on one that is valid. */
static bool fitted(struct arena *scratch, const char *file, const struct calibration_readings *readings,
                   enum calibration_lens lens, struct calibration_fit *fit, struct err_list *errs)
{
    bool found = calibration_fit(scratch, readings, lens, fit);
    if (!calibration_agree(scratch, file, readings, lens, found ? fit : NULL, errs))
        return false;
    if (found && geometry_map_is_valid(&fit->map))
        return true;
    base_err(errs, found ? &folds : &unsolved, base_err_in_file(file), ERR_NONE);
    return false;
}

static struct calibration_solution solution_of(struct arena *a, const struct calibration_readings *readings,
                                               const struct calibration_fit *fit)
{
    struct calibration_solution s = { .map = fit->map, .chi2 = fit->chi2 };
    s.residual = base_arena_alloc(a, readings->count, sizeof *s.residual);
    s.residual_mm = base_arena_alloc(a, readings->count, sizeof *s.residual_mm);
    double squares = 0;
    for (size_t i = 0; i < readings->count; i++) {
        struct table_pt at = geometry_map_to_table(&s.map, readings->items[i].px);
        s.residual[i] = (vec2){ at.x - readings->items[i].at.x, at.y - readings->items[i].at.y };
        s.residual_mm[i] = vec2_length(s.residual[i]);
        squares += s.residual_mm[i] * s.residual_mm[i];
        if (s.residual_mm[i] > s.residual_mm[s.worst])
            s.worst = i;
    }
    s.rms_mm = sqrt(squares / (double)readings->count);
    s.worst_mm = s.residual_mm[s.worst];
    return s;
}

bool calibration_solve(struct arena *a, const char *file, const struct calibration_readings *readings,
                       enum calibration_lens lens, struct calibration_solution *out, struct err_list *errs)
{
    assert(readings->sigma_mm > 0 && readings->count <= CALIBRATION_MOST_READINGS);
    struct arena *scratch = base_arena_create();
    struct calibration_fit fit;
    bool solved = same_pixels_agree(file, readings, errs) && well_spread(scratch, file, readings, errs) &&
                  fitted(scratch, file, readings, lens, &fit, errs);
    if (solved) {
        *out = solution_of(a, readings, &fit);
        if (readings->count < LEAST_CHECKED)
            base_err(errs, &few, base_err_in_file(file), ERR_NUMBER(readings->count));
    }
    base_arena_destroy(scratch);
    return solved;
}

void calibration_question(const char *file, const struct geometry_map *map, struct err_list *errs)
{
    struct px_pt middle = { map->width_px / 2.0, map->height_px / 2.0 };
    struct geometry_jacobian j = geometry_map_jacobian(map, middle);
    double across = hypot(j.xu, j.yu), down = hypot(j.xv, j.yv);
    if (j.xu * j.yv - j.xv * j.yu > 0)
        base_err(errs, &turned_over, base_err_in_file(file), ERR_NONE);
    if (across > MOST_STRETCH * down || down > MOST_STRETCH * across)
        base_err(errs, &stretched, base_err_in_file(file), ERR_NUMBER(round(100 * across / down) / 100));
    if (across < LEAST_PX_MM || across > MOST_PX_MM)
        base_err(errs, &odd_size, base_err_in_file(file), ERR_MM(across * map->width_px));
}
