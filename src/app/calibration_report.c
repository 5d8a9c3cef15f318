#include "app/calibration_report.h"

#include "app/amount.h"
#include "base/words.h"

/* The name of a reading: its cross, or both ends of a distance. */
static const char *reading_name(struct arena *a, const struct calibration_reading *r)
{
    if (r->kind == CALIBRATION_DISTANCE)
        return base_arena_print(a, base_tr("crosses %d to %d"), r->cross, r->other);
    return r->place ? base_arena_print(a, base_tr("cross %d at place %d"), r->cross, r->place + 1)
                    : base_arena_print(a, base_tr("cross %d"), r->cross);
}

static bool is_aside(const struct calibration_solution *solution, size_t index)
{
    for (size_t i = 0; i < solution->aside_count; i++)
        if (solution->aside[i].index == index)
            return true;
    return false;
}

static const char *reading_line(struct arena *a, const struct calibration_readings *readings,
                                const struct calibration_solution *solution, size_t index)
{
    return base_arena_print(
        /* To: “cross 14   out by 0.31 mm, left out” */
        a, is_aside(solution, index) ? base_tr("%-10s out by %s mm, left out") : base_tr("%-10s out by %s mm"),
        reading_name(a, &readings->items[index]), app_decimal(a, solution->residual_mm[index], 2));
}

const char *app_calibration_report(struct arena *a, const struct calibration_readings *readings,
                                   const struct calibration_solution *solution)
{
    const char *text = "";
    for (size_t i = 0; i < readings->count; i++)
        text = base_arena_print(a, "%s  %s\n", text, reading_line(a, readings, solution, i));
    double then_mm;
    struct px_pt next = calibration_doubt_next(&solution->map, &solution->doubt, readings->sigma_mm, &then_mm);
    const char *sums = base_arena_print(
        a,
        base_tr("The readings lie %s mm from the table on average, %s the farthest with %s mm.\n"
                "One pixel is at most %s mm. A place may be off by %s mm at most, 95 times in 100; one more "
                "cross at pixel %.0f, %.0f would make that %s mm.\n"),
        app_decimal(a, solution->rms_mm, 2), reading_name(a, &readings->items[solution->worst]),
        app_decimal(a, solution->worst_mm, 2), app_decimal(a, geometry_map_mm_per_px(&solution->map), 2),
        app_decimal(a, calibration_doubt_worst_mm(&solution->map, &solution->doubt, NULL), 2), next.x, next.y,
        app_decimal(a, then_mm, 2));
    return base_arena_print(a, "%s%s", text, sums);
}

static void pixel_json(struct json_out *to, const char *name, struct px_pt px)
{
    struct json_out *pixel = json_out_list(to, name);
    json_out_number(pixel, NULL, px.x);
    json_out_number(pixel, NULL, px.y);
}

static void table_json(struct json_out *to, const char *name, struct table_pt at)
{
    struct json_out *place = json_out_list(to, name);
    json_out_number(place, NULL, at.x);
    json_out_number(place, NULL, at.y);
}

/* The map's terms in the order of geometry_map.term, and their covariance row by row. */
static void map_json(struct json_out *to, const struct calibration_solution *solution)
{
    struct json_out *terms = json_out_list(to, "map"), *rows = json_out_list(to, "covariance");
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++) {
        json_out_number(terms, NULL, solution->map.term[i]);
        struct json_out *row = json_out_list(rows, NULL);
        for (int j = 0; j < GEOMETRY_MAP_TERMS; j++)
            json_out_number(row, NULL, solution->doubt.covariance[i][j]);
    }
}

static void reading_json(struct json_out *rows, const struct calibration_reading *r,
                         const struct calibration_solution *solution, size_t index)
{
    struct json_out *row = json_out_object(rows, NULL);
    json_out_number(row, "cross", r->cross);
    if (r->kind == CALIBRATION_DISTANCE)
        json_out_number(row, "other", r->other);
    if (r->place > 0)
        json_out_number(row, "place", r->place + 1);
    json_out_number(row, "out_by_mm", solution->residual_mm[index]);
    if (r->kind == CALIBRATION_DISTANCE) {
        json_out_number(row, "longer_mm", solution->residual[index].x);
    } else {
        json_out_number(row, "along_mm", solution->residual[index].x);
        json_out_number(row, "away_mm", solution->residual[index].y);
    }
    json_out_bool(row, "set_aside", is_aside(solution, index));
}

static void aside_json(struct json_out *rows, const struct calibration_repair *repair)
{
    const struct calibration_reading *r = &repair->repaired;
    struct json_out *row = json_out_object(rows, NULL);
    json_out_number(row, "reading", (double)repair->index);
    json_out_number(row, "off_mm", repair->off_mm);
    json_out_text(row, "slip", calibration_slip_name(repair->slip));
    if (repair->slip == CALIBRATION_SLIP_NONE)
        return;
    struct json_out *meant = json_out_object(row, "meant");
    json_out_number(meant, "cross", r->cross);
    if (r->kind == CALIBRATION_DISTANCE)
        json_out_number(meant, "distance_mm", r->distance_mm);
    else
        table_json(meant, "at_mm", r->at);
}

static void doubt_json(struct json_out *to, const struct calibration_readings *readings,
                       const struct calibration_solution *solution)
{
    struct px_pt worst = { 0, 0 };
    double then_mm;
    const struct calibration_doubt *doubt = &solution->doubt;
    json_out_number(to, "worst_mm", calibration_doubt_worst_mm(&solution->map, doubt, &worst));
    pixel_json(to, "worst_at", worst);
    pixel_json(to, "read_next", calibration_doubt_next(&solution->map, doubt, readings->sigma_mm, &then_mm));
    json_out_number(to, "worst_mm_then", then_mm);
    struct json_out *grid = json_out_list(to, "grid");
    for (int row = 0; row < CALIBRATION_DOUBT_ROWS; row++)
        for (int column = 0; column < CALIBRATION_DOUBT_COLUMNS; column++) {
            struct px_pt px = calibration_doubt_grid(&solution->map, column, row);
            struct json_out *place = json_out_object(grid, NULL);
            pixel_json(place, "pixel", px);
            json_out_number(place, "place_mm", calibration_doubt_place_mm(&solution->map, doubt, px));
            json_out_number(place, "line_of_100_mm", calibration_doubt_hundred_mm(&solution->map, doubt, px));
            json_out_bool(place, "measured", calibration_doubt_is_measured(doubt, px));
        }
}

void app_calibration_json(struct json_out *to, const struct calibration_readings *readings,
                          const struct calibration_solution *solution)
{
    json_out_number(to, "rms_mm", solution->rms_mm);
    json_out_number(to, "worst_mm", solution->worst_mm);
    json_out_number(to, "mm_per_px", geometry_map_mm_per_px(&solution->map));
    json_out_number(to, "chi2", solution->chi2);
    json_out_number(to, "freedom", solution->freedom);
    json_out_bool(to, "floats", solution->floats);
    map_json(to, solution);
    struct json_out *rows = json_out_list(to, "readings");
    for (size_t i = 0; i < readings->count; i++)
        reading_json(rows, &readings->items[i], solution, i);
    struct json_out *aside = json_out_list(to, "set_aside");
    for (size_t i = 0; i < solution->aside_count; i++)
        aside_json(aside, &solution->aside[i]);
    if (solution->has_matscale) {
        struct json_out *scale = json_out_object(to, "rulings_long");
        json_out_number(scale, "along", solution->matscale.along);
        json_out_number(scale, "away", solution->matscale.away);
        json_out_number(scale, "sigma_along", solution->matscale.sigma_along);
        json_out_number(scale, "sigma_away", solution->matscale.sigma_away);
    }
    doubt_json(json_out_object(to, "doubt"), readings, solution);
}
