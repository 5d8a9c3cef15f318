#include "table/rig.h"

#include "job/job.h"
#include "paint/frame.h"

#include <math.h>

#define IN 0.05
#define OUT 0.95

const double rig_places[RIG_READINGS][2] = {
    { IN, IN },   { 0.5, IN },  { OUT, IN }, { IN, 0.5 }, { 0.5, 0.5 }, { OUT, 0.5 }, { IN, OUT },
    { 0.5, OUT }, { OUT, OUT }, { IN, IN },  { OUT, IN }, { OUT, OUT }, { IN, OUT },
};

struct calibration_readings rig_read(struct arena *a, const struct vt_setup *setup, int count, double sigma_mm,
                                     struct vt_noise *noise)
{
    struct calibration_readings r = { .name = setup->name,
                                      .unit = UNITS_MM,
                                      .width_px = setup->width_px,
                                      .height_px = setup->height_px,
                                      .sigma_mm = sigma_mm > 0 ? sigma_mm : CALIBRATION_TYPED_SIGMA_MM,
                                      .items = base_arena_alloc(a, (size_t)count, sizeof *r.items),
                                      .count = (size_t)count };
    for (int i = 0; i < count; i++) {
        struct calibration_reading *item = &r.items[i];
        item->cross = i % 9 + 1;
        item->px = (struct px_pt){ rig_places[i][0] * setup->width_px, rig_places[i][1] * setup->height_px };
        if (i >= 9)
            item->cross = i + 1;
        if (!vt_reading(setup, item->px.x, item->px.y, sigma_mm, noise, &item->at.x, &item->at.y))
            item->at = (struct table_pt){ NAN, NAN };
    }
    return r;
}

bool rig_calibrate(struct arena *a, const struct calibration_readings *readings, struct calibration_table *table,
                   struct err_list *errs)
{
    struct calibration_solution solution;
    if (!calibration_solve(a, "virtual table", readings, CALIBRATION_LENS_WEAK, &solution, errs))
        return false;
    *table = calibration_table_of(a, readings, &solution, "2026-11-25");
    return true;
}

bool rig_exact_table(struct arena *a, const struct vt_setup *setup, struct calibration_table *table,
                     struct err_list *errs)
{
    struct vt_noise none = { 0 };
    struct calibration_readings readings = rig_read(a, setup, RIG_READINGS, 0, &none);
    return rig_calibrate(a, &readings, table, errs);
}

struct app *rig_app(struct arena *a, const struct calibration_table *table, struct text_font *font,
                    struct err_list *errs)
{
    struct job_choices choices = { .pattern = DEMO_FOLDER "/pinafore.json",
                                   .body = DEMO_FOLDER "/guide.json",
                                   .view = "A" };
    return rig_app_of(a, &choices, table, font, errs);
}

struct app *rig_app_of(struct arena *a, const struct job_choices *choices, const struct calibration_table *table,
                       struct text_font *font, struct err_list *errs)
{
    struct job *job = base_arena_alloc(a, 1, sizeof *job);
    if (!job_make(a, choices, job, NULL, errs))
        return NULL;
    struct app_start start = { .job = job, .table = *table, .font = font, .unit = table->unit };
    return app_create(a, &start, errs);
}

struct paint_image rig_paint(struct arena *a, struct app *app)
{
    const struct geometry_map *map = app_map(app);
    struct paint_image image = paint_image_create(a, map->width_px, map->height_px);
    struct paint_scene scene = app_scene(app, a);
    paint_frame(a, &scene, map, &image);
    return image;
}

struct vt_frame rig_frame(const struct paint_image *image)
{
    return (struct vt_frame){ image->pixels, image->width, image->height, (int)image->stride };
}

void rig_square(struct arena *a, struct app *app, struct vt_pt corner[4])
{
    struct paint_scene scene = app_scene(app, a);
    const struct paint_items *in = &scene.table.in;
    for (size_t i = 0; i < in->count; i++) {
        struct geometry_path path = in->paths[in->items[i].first_path];
        if (in->items[i].kind != PAINT_STROKE || path.count != 4 || !path.closed)
            continue;
        for (int c = 0; c < 4; c++)
            corner[c] = (struct vt_pt){ path.points[c].x, path.points[c].y };
        return;
    }
}

double rig_square_error(const struct vt_setup *setup, const struct paint_image *image, const struct vt_pt corner[4],
                        double side_mm)
{
    struct vt_frame frame = rig_frame(image);
    struct vt_quad quad;
    double worst = 0;
    if (!vt_measure_quad(setup, &frame, corner, 4, &quad))
        return INFINITY;
    for (int i = 0; i < 4; i++)
        worst = fmax(worst, quad.side[i].missed ? INFINITY : fabs(quad.side_mm[i] - side_mm));
    for (int i = 0; i < 2; i++)
        worst = fmax(worst, fabs(quad.diagonal_mm[i] - side_mm * sqrt(2)));
    return worst;
}
