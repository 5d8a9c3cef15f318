/* How far the solved table may be wrong: the 95 % doubt of places and lengths, from the solve's covariance. Not: what a
 * mistake among the readings would do. */
#ifndef CALIBRATION_DOUBT_H
#define CALIBRATION_DOUBT_H

#include "base/arena.h"
#include "geometry/map.h"

#include <stddef.h>

struct calibration_doubt {
    double covariance[GEOMETRY_MAP_TERMS][GEOMETRY_MAP_TERMS]; /* of the map's terms */
    struct px_pt
        *hull; /* around the crosses that were measured, counter-clockwise in pixels (y down: clockwise seen) */
    size_t hull_count;
};

/* The half of the longest diameter of a place's 95 % ellipse, mm: sqrt(-2 ln 0.05) = 2.45 times the root of the larger
 * eigenvalue of J C Jᵀ. */
double calibration_doubt_place_mm(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                  struct px_pt px);

/* The 95 % doubt of the length from a to b as drawn, mm: 1.96 sqrt(g C gᵀ) with g = eᵀ (J_b - J_a) along the line. */
double calibration_doubt_line_mm(const struct geometry_map *map, const struct calibration_doubt *doubt, struct px_pt a,
                                 struct px_pt b);

/* The same of a line of 100 mm about a place, in whichever of twelve directions it is largest. */
double calibration_doubt_hundred_mm(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                    struct px_pt px);

/* Keeps what is around the crosses; lives in `a`. */
void calibration_doubt_measure(struct arena *a, struct calibration_doubt *doubt, const struct px_pt *crosses,
                               size_t count);

/* Takes out what is only in doubt about where the whole lies and how it is turned: a mat in several places fixes that
 * no better than its first place, and nothing is cut by it. Lengths keep their doubt. */
void calibration_doubt_release(const struct geometry_map *map, struct calibration_doubt *doubt);

/* Whether a place lies within the crosses. Outside the map is not measured but drawn out. */
bool calibration_doubt_is_measured(const struct calibration_doubt *doubt, struct px_pt px);

/* The frame's places at which doubt is told: columns by rows, edges included. */
enum { CALIBRATION_DOUBT_COLUMNS = 9, CALIBRATION_DOUBT_ROWS = 5 };
struct px_pt calibration_doubt_grid(const struct geometry_map *map, int column, int row);

/* The largest doubt of all those places, and where. */
double calibration_doubt_worst_mm(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                  struct px_pt *where);

/* Where in the frame (3 % in from its edges) one more position, read to sigma_mm, would lower the worst doubt most;
 * *then_mm (may be NULL) is the worst doubt with it. */
struct px_pt calibration_doubt_next(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                    double sigma_mm, double *then_mm);

#endif
