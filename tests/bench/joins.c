#include "bench/joins.h"

#include "bench/figure.h"
#include "paint/frame.h"

#include <geos_c.h>
#include <math.h>
#include <stdint.h>

#define PI 3.14159265358979323846
#define LEG_PX 150.0
#define REACH_PX 3.0
#define MITRE_LIMIT 4.0

enum { SIDE = 320, PLACES = 4 };

static const double widths_px[] = { 1.5, 2.25, 3, 6 };

struct join {
    vec2 at, in, out; /* the join, the unit way to it and the one from it */
    double half;
};

/* Against the areas of our own filter, and against those of the plain pixel. */
enum { OURS, PLAIN, FILTERS };

struct errors {
    double most, squares;
    long count;
    bool failed;
};

static GEOSGeometry *polygon(GEOSContextHandle_t geos, const vec2 *corners, unsigned count)
{
    GEOSCoordSequence *points = GEOSCoordSeq_create_r(geos, count + 1, 2);
    for (unsigned i = 0; i <= count; i++)
        GEOSCoordSeq_setXY_r(geos, points, i, corners[i % count].x, corners[i % count].y);
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, points), NULL, 0);
}

static GEOSGeometry *leg(GEOSContextHandle_t geos, const struct join *j, vec2 way, double from, double to)
{
    vec2 side = vec2_scale(vec2_right(way), j->half);
    vec2 start = vec2_add(j->at, vec2_scale(way, from)), end = vec2_add(j->at, vec2_scale(way, to));
    const vec2 corners[4] = { vec2_add(start, side), vec2_add(end, side), vec2_sub(end, side), vec2_sub(start, side) };
    return polygon(geos, corners, 4);
}

/* The outer side of the turn: a triangle to the ends of both legs, and the tip on it. */
static GEOSGeometry *wedge(GEOSContextHandle_t geos, const struct join *j)
{
    double outer = vec2_cross(j->in, j->out) > 0 ? j->half : -j->half;
    vec2 one = vec2_scale(vec2_right(j->in), outer), two = vec2_scale(vec2_right(j->out), outer);
    double half_turn_cosine = sqrt((1 + vec2_dot(j->in, j->out)) / 2);
    vec2 tip = vec2_scale(vec2_unit(vec2_add(one, two)), j->half / half_turn_cosine);
    bool mitred = 1 / half_turn_cosine <= MITRE_LIMIT;
    const vec2 corners[4] = { j->at, vec2_add(j->at, one), vec2_add(j->at, mitred ? tip : two), vec2_add(j->at, two) };
    return polygon(geos, corners, mitred ? 4 : 3);
}

static GEOSGeometry *joined(GEOSContextHandle_t geos, GEOSGeometry *a, GEOSGeometry *b)
{
    GEOSGeometry *out = a && b ? GEOSUnion_r(geos, a, b) : NULL;
    GEOSGeom_destroy_r(geos, a);
    GEOSGeom_destroy_r(geos, b);
    return out;
}

static double area_in_square(GEOSContextHandle_t geos, const GEOSGeometry *shape, double x, double y)
{
    const vec2 corners[4] = { { x, y }, { x + 1, y }, { x + 1, y + 1 }, { x, y + 1 } };
    GEOSGeometry *square = polygon(geos, corners, 4), *common = GEOSIntersection_r(geos, shape, square);
    double area = NAN;
    if (common)
        GEOSArea_r(geos, common, &area);
    GEOSGeom_destroy_r(geos, common);
    GEOSGeom_destroy_r(geos, square);
    return area;
}

static void paint_join(struct arena *a, const struct join *j, struct paint_image *image)
{
    struct paint_scene scene = paint_scene_create(a);
    vec2 points[3] = { vec2_sub(j->at, vec2_scale(j->in, LEG_PX)), j->at, vec2_add(j->at, vec2_scale(j->out, LEG_PX)) };
    struct px_path path = { { points, 3, false } };
    paint_px_stroke(&scene.px, path, (struct paint_pen){ .width = 2 * j->half }, (struct paint_ink){ 0xffffff, 1 });
    paint_frame(a, &scene, NULL, image);
}

static void add_error(struct errors *errors, double got, double want)
{
    double error = fabs(got - want);
    if (!isfinite(want))
        errors->failed = true;
    if (want <= 1e-9 || want >= 1 - 1e-9)
        return;
    errors->most = fmax(errors->most, error);
    errors->squares += error * error;
    errors->count++;
}

static void compare_pixel(GEOSContextHandle_t geos, const GEOSGeometry *shape, const struct paint_image *image, int x,
                          int y, struct errors errors[FILTERS])
{
    double got = paint_decode((uint8_t)image->pixels[(size_t)y * image->stride + (size_t)x]);
    double up = area_in_square(geos, shape, x - 0.25, y - 0.25);
    double down = area_in_square(geos, shape, x + 0.25, y + 0.25);
    add_error(&errors[OURS], got, (up + down) / 2);
    add_error(&errors[PLAIN], got, area_in_square(geos, shape, x, y));
}

static void compare(GEOSContextHandle_t geos, const struct join *j, struct errors errors[FILTERS])
{
    struct arena *a = base_arena_create();
    struct paint_image image = paint_image_create(a, SIDE, SIDE);
    GEOSGeometry *shape = joined(geos, leg(geos, j, j->in, -LEG_PX, 0), leg(geos, j, j->out, 0, LEG_PX));
    shape = joined(geos, shape, wedge(geos, j));
    paint_join(a, j, &image);
    for (int y = 0; shape && y < SIDE; y++)
        for (int x = 0; x < SIDE; x++)
            if (vec2_length((vec2){ x + 0.5 - j->at.x, y + 0.5 - j->at.y }) <= REACH_PX)
                compare_pixel(geos, shape, &image, x, y, errors);
    errors[OURS].failed = errors[OURS].failed || !shape;
    GEOSGeom_destroy_r(geos, shape);
    base_arena_destroy(a);
}

/* Knuth's constants for MMIX; upper bits. */
static double random_up_to(uint64_t *seed, double most)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return most * (double)(*seed >> 11) / 9007199254740992.0;
}

bool joins_figures(void)
{
    GEOSContextHandle_t geos = GEOS_init_r();
    struct errors errors[FILTERS] = { { 0 } };
    uint64_t seed = 11;
    for (int degrees = 5; degrees <= 175; degrees += 5) {
        for (size_t w = 0; w < sizeof widths_px / sizeof widths_px[0]; w++) {
            for (int place = 0; place < PLACES; place++) {
                double angle = random_up_to(&seed, 2 * PI), turn = PI - degrees * PI / 180;
                double other = angle + (place % 2 ? turn : -turn), middle = SIDE / 2.0;
                struct join j = { .in = { cos(angle), sin(angle) },
                                  .out = { cos(other), sin(other) },
                                  .half = widths_px[w] / 2 };
                j.at = (vec2){ middle + random_up_to(&seed, 1), middle + random_up_to(&seed, 1) };
                compare(geos, &j, errors);
            }
        }
    }
    GEOS_finish_r(geos);
    figure("paint.join_error_max", errors[OURS].most, "of_pixel");
    figure("paint.join_error_rms", sqrt(errors[OURS].squares / (double)errors[OURS].count), "of_pixel");
    figure("paint.join_plain_max", errors[PLAIN].most, "of_pixel");
    figure("paint.join_plain_rms", sqrt(errors[PLAIN].squares / (double)errors[PLAIN].count), "of_pixel");
    return !errors[OURS].failed && !errors[PLAIN].failed && errors[OURS].count > 0;
}
