#include "calibration/solve.h"

#include "calibration/accuse.h"
#include "calibration/mistake.h"
#include "calibration/open.h"

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
    BASE_TR("{0} crosses are too few: read at least four different ones, better nine, with all corners among them")
};
static const struct err_kind same_pixel = {
    "calibration.same_pixel", ERR_FAULT,
    BASE_TR("crosses {0} and {1} are one and the same, but were read {2} apart. Read "
            "it once more, and leave the wrong reading out")
};
static const struct err_kind read_twice = {
    "calibration.same_pixel", ERR_FAULT,
    BASE_TR("cross {0} was read twice, {2} apart. Read it once more, and leave the wrong reading out")
};
static const struct err_kind crosses_in_line = {
    "calibration.in_line", ERR_FAULT,
    BASE_TR("the crosses that were read lie nearly in one line, or all but one "
            "do. Read some on both sides of it, best in all corners")
};
static const struct err_kind places_in_line = { "calibration.in_line", ERR_FAULT,
                                                BASE_TR("the places that were read lie nearly in one line, or all but "
                                                        "one do, though the crosses do not. Read them again") };
static const struct err_kind folds = { "calibration.folds", ERR_FAULT,
                                       BASE_TR("with these readings the picture would fold over itself. Two crosses "
                                               "are probably exchanged: read them again") };
static const struct err_kind horizon = {
    "calibration.horizon", ERR_FAULT,
    BASE_TR("by these readings the light falls ever flatter towards one side of the picture and hardly meets the table "
            "there. "
            "Hang the "
            "projector straighter; if it does hang straight, read the crosses on that side again")
};
static const struct err_kind turned_over = {
    "calibration.turned_over", ERR_WARNING,
    BASE_TR("by these readings the picture lies mirrored on the table. Were along and "
            "away exchanged, or along read from the right?")
};
static const struct err_kind stretched = {
    "calibration.stretched", ERR_WARNING,
    BASE_TR("by these readings a pixel is {0} times as wide as high. Was one direction read in another unit?")
};
static const struct err_kind odd_size = {
    "calibration.odd_size", ERR_WARNING,
    BASE_TR("by these readings the light is {0} wide. Were they written in another unit?")
};
static const struct err_kind few = {
    "calibration.few", ERR_WARNING,
    BASE_TR("with only {0} readings a wrong one may go unnoticed. Read at least nine, the corners twice")
};

static const struct err_kind floats = { "calibration.floats", ERR_WARNING,
                                        BASE_TR("the distances fix the picture's size and shape, but not where it lies "
                                                "on the table nor which way round: lay it by "
                                                "two crosses, or read a cross or two on the mat") };
static const struct err_kind rulings_off = {
    "calibration.rulings_off", ERR_WARNING,
    BASE_TR(
        "by the tape the mat's rulings are off: a metre along measures {0}, a metre away {1}. Follow the tape, or use "
        "another mat")
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
            if (a->kind == CALIBRATION_DISTANCE || b->kind == CALIBRATION_DISTANCE || a->place != b->place ||
                !is_same_pixel(a->px, b->px) || apart <= most_mm)
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

/* Whether there is nothing but positions of one place, so that their spread alone decides. */
static bool is_plain(const struct calibration_readings *readings)
{
    for (size_t i = 0; i < readings->count; i++)
        if (readings->items[i].kind == CALIBRATION_DISTANCE || readings->items[i].place > 0)
            return false;
    return true;
}

/* The work of one solve. */
struct work {
    struct arena *a, *scratch;
    const char *file;
    const struct calibration_readings *readings; /* as they came */
    struct calibration_readings counted;         /* without those set aside */
    enum calibration_lens lens;
    bool set_aside; /* rather than refuse */
    struct calibration_model model;
    struct calibration_fit fit;
    struct calibration_spread spread;
    struct err_list *errs;
};

/* What was probably meant by the wrong ones; what follows of each from the others is in mistakes->rest. */
static void find_repairs(struct work *w, const struct calibration_mistakes *mistakes, size_t count,
                         struct calibration_repair *repairs)
{
    bool either = mistakes->verdict == CALIBRATION_EITHER_WRONG;
    for (size_t i = 0; i < count; i++) {
        const struct calibration_fit *rest = &mistakes->rest[either ? i : 0];
        const size_t *wrong = either ? &mistakes->wrong[i] : mistakes->wrong;
        struct calibration_readings others =
            calibration_readings_without(w->scratch, w->readings, wrong, either ? 1 : count);
        struct calibration_model model = calibration_model_of(w->scratch, &others, w->lens, 0);
        struct calibration_model all = calibration_model_of(w->scratch, w->readings, w->lens, 0);
        struct calibration_spread spread;
        calibration_model_weigh(&model, &rest->at.map);
        calibration_model_weigh(&all, &rest->at.map);
        repairs[i] = (struct calibration_repair){
            .index = mistakes->wrong[i],
            .repaired = w->readings->items[mistakes->wrong[i]],
            .off_mm = calibration_off_mm(&rest->at, &w->readings->items[mistakes->wrong[i]]),
        };
        if (calibration_fit_spread(w->scratch, &model, rest, &spread) && spread.terms == all.terms)
            repairs[i] = calibration_repair_of(w->scratch, &all, rest, &spread, mistakes->wrong[i]);
    }
}

/* How many readings a verdict speaks of. */
static size_t spoken_of(enum calibration_verdict verdict)
{
    static const size_t count[] = {
        [CALIBRATION_AGREE] = 0,        [CALIBRATION_ONE_WRONG] = 1,     [CALIBRATION_TWO_WRONG] = 2,
        [CALIBRATION_EITHER_WRONG] = 2, [CALIBRATION_SEVERAL_WRONG] = 1, [CALIBRATION_UNCLEAR] = 0,
    };
    return count[verdict];
}

/* Leaves out what is wrong and goes on with the others' fit. */
static void set_aside(struct work *w, const struct calibration_mistakes *mistakes,
                      const struct calibration_repair *repairs, struct calibration_solution *s)
{
    s->aside_count = spoken_of(mistakes->verdict);
    s->aside = base_arena_alloc(w->a, s->aside_count, sizeof *s->aside);
    for (size_t i = 0; i < s->aside_count; i++) {
        s->aside[i] = repairs[i];
        calibration_tell_aside(w->file, w->readings, &repairs[i], w->errs);
    }
    w->counted = calibration_readings_without(w->scratch, w->readings, mistakes->wrong, s->aside_count);
    w->model = calibration_model_of(w->scratch, &w->counted, w->lens, 0);
    w->fit = mistakes->rest[0];
    calibration_model_weigh(&w->model, &w->fit.at.map);
}

/* The best map of the readings that agree. */
static bool fitted(struct work *w, struct calibration_solution *s)
{
    struct calibration_repair repairs[CALIBRATION_MOST_ASIDE] = { { .index = 0 } };
    w->model = calibration_model_of(w->scratch, &w->counted, w->lens, 0);
    bool found = calibration_fit(w->scratch, &w->model, NULL, &w->fit);
    struct calibration_mistakes mistakes =
        calibration_mistakes_among(w->scratch, w->readings, w->lens, found ? &w->fit : NULL);
    find_repairs(w, &mistakes, spoken_of(mistakes.verdict), repairs);
    bool known = mistakes.verdict == CALIBRATION_ONE_WRONG || mistakes.verdict == CALIBRATION_TWO_WRONG;
    if (known && w->set_aside) {
        set_aside(w, &mistakes, repairs, s);
        return true;
    }
    calibration_accuse(w->file, w->readings, mistakes.verdict, repairs, w->errs);
    if (!found && mistakes.verdict == CALIBRATION_AGREE)
        calibration_tell_open(w->scratch, w->file, &w->model, w->errs);
    return found && mistakes.verdict == CALIBRATION_AGREE;
}

/* The map's own part of the covariance, in its own units. */
static struct calibration_doubt doubt_of(struct work *w)
{
    struct calibration_doubt doubt = { .hull_count = 0 };
    size_t terms = w->lens == CALIBRATION_LENS_NONE ? GEOMETRY_K1 : GEOMETRY_MAP_TERMS;
    for (size_t i = 0; i < terms; i++)
        for (size_t j = 0; j < terms; j++)
            doubt.covariance[i][j] = w->spread.covariance[i][j] *
                                     (calibration_model_unit(&w->model, i) * calibration_model_unit(&w->model, j));
    struct px_pt *crosses = base_arena_alloc(w->scratch, 2 * w->counted.count, sizeof *crosses);
    size_t count = 0;
    for (size_t i = 0; i < w->counted.count; i++) {
        const struct calibration_reading *r = &w->counted.items[i];
        crosses[count++] = r->px;
        if (r->kind == CALIBRATION_DISTANCE)
            crosses[count++] = r->other_px;
    }
    calibration_doubt_measure(w->a, &doubt, crosses, count);
    return doubt;
}

/* Whether the crosses that were read all lie on one side of a map's horizon and folds. */
static bool is_sound_at_crosses(const struct geometry_map *map, const struct calibration_readings *readings)
{
    double sign = 0;
    for (size_t i = 0; i < readings->count; i++) {
        struct geometry_jacobian j = geometry_map_jacobian(map, readings->items[i].px);
        double determinant = j.xu * j.yv - j.xv * j.yu;
        sign = i == 0 ? determinant : sign;
        if (!(sign * determinant > 0))
            return false;
    }
    return true;
}

static bool fixed_and_valid(struct work *w, struct calibration_solution *s)
{
    if (!calibration_fit_spread(w->scratch, &w->model, &w->fit, &w->spread)) {
        calibration_tell_open(w->scratch, w->file, &w->model, w->errs);
        return false;
    }
    s->doubt = doubt_of(w);
    if (!geometry_map_is_valid(&w->fit.at.map)) {
        bool sound = is_sound_at_crosses(&w->fit.at.map, &w->counted);
        base_err(w->errs, sound ? &horizon : &folds, base_err_in_file(w->file), ERR_NONE);
        return false;
    }
    if (!calibration_is_fixed(w->file, &w->model, &w->fit, &w->spread, &s->doubt, w->errs))
        return false;
    if (w->model.places > 1)
        calibration_doubt_release(&w->fit.at.map, &s->doubt);
    return true;
}

/* Map minus reading; of a distance how much longer it is by the map. */
static vec2 residual_of(const struct calibration_unknowns *at, const struct calibration_reading *r)
{
    struct table_pt is = geometry_map_to_table(&at->map, r->px);
    if (r->kind == CALIBRATION_DISTANCE) {
        struct table_pt end = geometry_map_to_table(&at->map, r->other_px);
        return (vec2){ vec2_length((vec2){ end.x - is.x, end.y - is.y }) - r->distance_mm, 0 };
    }
    struct table_pt read = calibration_pose_to_table(at, r->place, r->at);
    return (vec2){ is.x - read.x, is.y - read.y };
}

static bool is_aside(const struct calibration_solution *s, size_t index)
{
    for (size_t i = 0; i < s->aside_count; i++)
        if (s->aside[i].index == index)
            return true;
    return false;
}

static void complete(struct work *w, struct calibration_solution *s)
{
    const struct calibration_readings *readings = w->readings;
    double squares = 0;
    s->map = w->fit.at.map;
    s->chi2 = w->fit.chi2;
    s->freedom = w->fit.freedom;
    s->floats = w->model.floats;
    for (int p = 0; p < CALIBRATION_MOST_PLACES; p++)
        s->pose[p] = w->fit.at.pose[p];
    s->residual = base_arena_alloc(w->a, readings->count, sizeof *s->residual);
    s->residual_mm = base_arena_alloc(w->a, readings->count, sizeof *s->residual_mm);
    s->worst_mm = -1;
    for (size_t i = 0; i < readings->count; i++) {
        s->residual[i] = residual_of(&w->fit.at, &readings->items[i]);
        s->residual_mm[i] = vec2_length(s->residual[i]);
        if (is_aside(s, i))
            continue;
        squares += s->residual_mm[i] * s->residual_mm[i];
        if (s->residual_mm[i] > s->worst_mm) {
            s->worst = i;
            s->worst_mm = s->residual_mm[i];
        }
    }
    s->rms_mm = sqrt(squares / (double)w->counted.count);
    s->has_matscale = calibration_matscale(w->scratch, &w->counted, w->lens, &s->matscale);
}

static void warn(struct work *w, const struct calibration_solution *s)
{
    struct err_place where = base_err_in_file(w->file);
    if (w->readings->count < LEAST_CHECKED)
        base_err(w->errs, &few, where, ERR_NUMBER(w->readings->count));
    if (s->floats)
        base_err(w->errs, &floats, where, ERR_NONE);
    if (s->has_matscale && calibration_matscale_is_off(&s->matscale))
        base_err(w->errs, &rulings_off, where, ERR_MM(1000 * (1 + s->matscale.along)),
                 ERR_MM(1000 * (1 + s->matscale.away)));
}

static bool solve(struct work *w, struct calibration_solution *out)
{
    struct calibration_solution s = { .aside_count = 0 };
    bool plain = is_plain(w->readings);
    if ((!w->set_aside && !same_pixels_agree(w->file, w->readings, w->errs)) ||
        (plain && !well_spread(w->scratch, w->file, w->readings, w->errs)) || !fitted(w, &s) || !fixed_and_valid(w, &s))
        return false;
    complete(w, &s);
    warn(w, &s);
    *out = s;
    return true;
}

static bool solve_in_room(struct work w, struct calibration_solution *out)
{
    assert(w.readings->sigma_mm > 0 && w.readings->count <= CALIBRATION_MOST_READINGS);
    w.scratch = base_arena_create();
    w.counted = *w.readings;
    bool solved = solve(&w, out);
    base_arena_destroy(w.scratch);
    return solved;
}

bool calibration_solve(struct arena *a, const char *file, const struct calibration_readings *readings,
                       enum calibration_lens lens, struct calibration_solution *out, struct err_list *errs)
{
    struct work w = { .a = a, .file = file, .readings = readings, .lens = lens, .errs = errs };
    return solve_in_room(w, out);
}

bool calibration_solve_without_mistakes(struct arena *a, const char *file, const struct calibration_readings *readings,
                                        enum calibration_lens lens, struct calibration_solution *out,
                                        struct err_list *errs)
{
    struct work w = { .a = a, .file = file, .readings = readings, .lens = lens, .errs = errs, .set_aside = true };
    return solve_in_room(w, out);
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
