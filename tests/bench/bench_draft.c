/* How fast pieces are drafted.
 *
 * draft.vs_geos: how many times as long GEOS takes to buffer the same outlines with mitred corners, as a median with
 * the lowest and the highest. Both grow the same 15 mm on all sides; processor time, one after the other in pairs.
 * draft.offset_us_N: one outline of N points with allowances that change from edge to edge, as a median. */
#include "base/arena.h"
#include "bench/clock.h"
#include "bench/figure.h"
#include "geometry/offset.h"

#include <geos_c.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

enum { PAIRS = 31, ROUNDS = 20, POINTS_MOST = 256 };

#define PI 3.14159265358979323846

struct piece {
    vec2 points[POINTS_MOST];
    double own[POINTS_MOST], even[POINTS_MOST]; /* allowances */
    struct geometry_path path;
};

static void put(struct piece *p, double x, double y, double allowance)
{
    size_t i = p->path.count++;
    p->points[i] = (vec2){ x, y };
    p->own[i] = allowance;
    p->even[i] = 15;
}

/* The half of a bodice: a hem that curves by 12 mm, a slanting side seam, an armhole, a shoulder, a neck and a fold;
 * hem, armhole and neck in as many chords as make up `count` points. */
static void draw(struct piece *p, size_t count)
{
    size_t chords = (count - 3) / 3, neck = count - 3 - 2 * chords;
    p->path = (struct geometry_path){ p->points, 0, true };
    for (size_t i = 0; i < chords; i++) {
        double t = (double)i / (double)chords;
        put(p, 240 * t, 12 * t * t, 40);
    }
    put(p, 240, 12, 15);
    for (size_t i = 0; i < chords; i++) {
        double turn = PI / 2 * (double)i / (double)chords;
        put(p, 250 - 60 * sin(turn), 200 + 180 * (1 - cos(turn)), 10);
    }
    put(p, 190, 380, 15);
    for (size_t i = 0; i < neck; i++) {
        double turn = PI / 2 * (double)i / (double)neck;
        put(p, 80 - 80 * sin(turn), 330 + 80 * cos(turn), 6);
    }
    put(p, 0, 330, 0);
}

/* ---- Growing an outline ---- */

static const size_t counts[] = { 60, 120, 200 };

enum { PIECES = sizeof counts / sizeof counts[0] };

static double time_ours(struct arena *a, struct piece *p, const double *dist, bool *ok)
{
    double start = 1e3 * cpu_ms();
    for (int i = 0; i < ROUNDS; i++) {
        struct geometry_path out;
        *ok = geometry_offset(a, p->path, dist, NULL, &out) && *ok;
        base_arena_reset(a);
    }
    return (1e3 * cpu_ms() - start) / ROUNDS;
}

/* GEOS gets the outline as its own polygon, made beforehand. */
static double time_geos(GEOSContextHandle_t geos, const GEOSGeometry *polygon, bool *ok)
{
    double start = 1e3 * cpu_ms();
    for (int i = 0; i < ROUNDS; i++) {
        GEOSGeometry *out =
            GEOSBufferWithStyle_r(geos, polygon, 15, 8, GEOSBUF_CAP_ROUND, GEOSBUF_JOIN_MITRE, GEOMETRY_MITRE_LIMIT);
        *ok = out && *ok;
        GEOSGeom_destroy_r(geos, out);
    }
    return (1e3 * cpu_ms() - start) / ROUNDS;
}

static GEOSGeometry *polygon_of(GEOSContextHandle_t geos, struct geometry_path p)
{
    GEOSCoordSequence *seq = GEOSCoordSeq_create_r(geos, (unsigned)p.count + 1, 2);
    for (size_t i = 0; i <= p.count; i++)
        GEOSCoordSeq_setXY_r(geos, seq, (unsigned)i, p.points[i % p.count].x, p.points[i % p.count].y);
    return GEOSGeom_createPolygon_r(geos, GEOSGeom_createLinearRing_r(geos, seq), NULL, 0);
}

/* Both grow about the same: GEOS thins hollow curves by up to a hundredth of the distance. */
static bool same_area(struct arena *a, GEOSContextHandle_t geos, struct piece *p, const GEOSGeometry *polygon)
{
    struct geometry_path ours;
    double area = 0;
    GEOSGeometry *theirs =
        GEOSBufferWithStyle_r(geos, polygon, 15, 8, GEOSBUF_CAP_ROUND, GEOSBUF_JOIN_MITRE, GEOMETRY_MITRE_LIMIT);
    bool same = theirs && GEOSArea_r(geos, theirs, &area) && geometry_offset(a, p->path, p->even, NULL, &ours) &&
                fabs(geometry_path_area(ours) - area) < 1e-3 * area;
    GEOSGeom_destroy_r(geos, theirs);
    base_arena_reset(a);
    return same;
}

/* One pair: all outlines by us, and by GEOS. */
static double ratio_of(struct arena *a, GEOSContextHandle_t geos, struct piece *pieces, GEOSGeometry **polygons,
                       bool *ok)
{
    double ours = 0, theirs = 0;
    for (size_t k = 0; k < PIECES; k++) {
        ours += time_ours(a, &pieces[k], pieces[k].even, ok);
        theirs += time_geos(geos, polygons[k], ok);
    }
    return theirs / ours;
}

static void vs_geos_figures(struct arena *a, GEOSContextHandle_t geos, struct piece *pieces, GEOSGeometry **polygons,
                            bool *ok)
{
    double ratio[PAIRS];
    ratio_of(a, geos, pieces, polygons, ok);
    for (int i = 0; i < PAIRS; i++)
        ratio[i] = ratio_of(a, geos, pieces, polygons, ok);
    qsort(ratio, PAIRS, sizeof ratio[0], by_size);
    figure("draft.vs_geos", ratio[PAIRS / 2], "times");
    figure("draft.vs_geos_low", ratio[0], "times");
    figure("draft.vs_geos_high", ratio[PAIRS - 1], "times");
}

static void offset_figure(struct arena *a, struct piece *p, bool *ok)
{
    double us[PAIRS];
    char name[64];
    for (int i = 0; i < PAIRS; i++)
        us[i] = time_ours(a, p, p->own, ok);
    qsort(us, PAIRS, sizeof us[0], by_size);
    snprintf(name, sizeof name, "draft.offset_us_%zu", p->path.count);
    figure(name, us[PAIRS / 2], "us");
}

static bool offset_figures(void)
{
    static struct piece pieces[PIECES];
    GEOSGeometry *polygons[PIECES];
    struct arena *a = base_arena_create();
    GEOSContextHandle_t geos = GEOS_init_r();
    bool ok = true;
    for (size_t k = 0; k < PIECES; k++) {
        draw(&pieces[k], counts[k]);
        polygons[k] = polygon_of(geos, pieces[k].path);
        ok = same_area(a, geos, &pieces[k], polygons[k]) && ok;
    }
    vs_geos_figures(a, geos, pieces, polygons, &ok);
    for (size_t k = 0; k < PIECES; k++) {
        offset_figure(a, &pieces[k], &ok);
        GEOSGeom_destroy_r(geos, polygons[k]);
    }
    GEOS_finish_r(geos);
    base_arena_destroy(a);
    return ok;
}

int main(void)
{
    return offset_figures() ? 0 : 1;
}
