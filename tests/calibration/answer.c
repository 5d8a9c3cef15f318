/* Fits readings given as numbers on the standard input and prints what comes out, for reference.py to compare. A case:
 * "width height lens count", then a line a reading, "0 place u v x y sigma" or "1 u v u2 v2 mm sigma". An answer: the
 * sum of squares, then where the frame's four corners and its centre fall. */
#include "calibration/fit.h"

#include <stdio.h>
#include <stdlib.h>

static bool read_reading(struct calibration_reading *r)
{
    int kind;
    *r = (struct calibration_reading){ .cross = 1, .other = 2 };
    if (scanf("%d", &kind) != 1)
        return false;
    if (kind == 0)
        return scanf("%d %lf %lf %lf %lf %lf", &r->place, &r->px.x, &r->px.y, &r->at.x, &r->at.y, &r->sigma_mm) == 6;
    r->kind = CALIBRATION_DISTANCE;
    return scanf("%lf %lf %lf %lf %lf %lf", &r->px.x, &r->px.y, &r->other_px.x, &r->other_px.y, &r->distance_mm,
                 &r->sigma_mm) == 6;
}

static bool answer(struct arena *a, const struct calibration_readings *readings, enum calibration_lens lens)
{
    struct calibration_model model = calibration_model_of(a, readings, lens, 0);
    struct calibration_fit fit;
    if (!calibration_fit(a, &model, NULL, &fit))
        return false;
    printf("%.17g", fit.chi2);
    static const double shares[5][2] = { { 0, 0 }, { 1, 0 }, { 1, 1 }, { 0, 1 }, { 0.5, 0.5 } };
    for (int i = 0; i < 5; i++) {
        struct px_pt px = { shares[i][0] * readings->width_px, shares[i][1] * readings->height_px };
        struct table_pt at = geometry_map_to_table(&fit.at.map, px);
        printf(" %.17g %.17g", at.x, at.y);
    }
    printf("\n");
    return true;
}

int main(void)
{
    int width, height, lens, count;
    while (scanf("%d %d %d %d", &width, &height, &lens, &count) == 4) {
        struct arena *a = base_arena_create();
        struct calibration_readings r = { .width_px = width, .height_px = height, .sigma_mm = 1 };
        bool whole = count > 0 && count <= CALIBRATION_MOST_READINGS;
        r.items = base_arena_alloc(a, CALIBRATION_MOST_READINGS, sizeof *r.items);
        for (; whole && (int)r.count < count; r.count++)
            whole = read_reading(&r.items[r.count]);
        whole = whole && answer(a, &r, lens ? CALIBRATION_LENS_WEAK : CALIBRATION_LENS_NONE);
        base_arena_destroy(a);
        if (!whole)
            return EXIT_FAILURE;
    }
    return EXIT_SUCCESS;
}
