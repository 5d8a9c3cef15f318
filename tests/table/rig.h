/* The whole way from a projector over a table to a measured frame: readings taken on the virtual table, the product's
 * own calibration, app and paint, and the virtual table again to measure what came out. */
#ifndef TESTS_TABLE_RIG_H
#define TESTS_TABLE_RIG_H

#include "app/app.h"
#include "calibration/solve.h"
#include "paint/image.h"
#include "virtual_table.h"

enum { RIG_READINGS = 13 };

/* The crosses' places: three by three, 5 % in from the edge, the corners twice. */
extern const double rig_places[RIG_READINGS][2];

/* Readings of `count` crosses with that much noise; lives in `a`. */
struct calibration_readings rig_read(struct arena *a, const struct vt_setup *setup, int count, double sigma_mm,
                                     struct vt_noise *noise);

/* A table from readings; false when they are refused. */
bool rig_calibrate(struct arena *a, const struct calibration_readings *readings, struct calibration_table *table,
                   struct err_list *errs);

/* A table from exact readings on a set-up; false when they are refused. */
bool rig_exact_table(struct arena *a, const struct vt_setup *setup, struct calibration_table *table,
                     struct err_list *errs);

/* An app with the demo's job on a table; the person measures in the table's unit. */
struct app *rig_app(struct arena *a, const struct calibration_table *table, struct text_font *font,
                    struct err_list *errs);

/* An app with any job on a table. */
struct app *rig_app_of(struct arena *a, const struct job_choices *choices, const struct calibration_table *table,
                       struct text_font *font, struct err_list *errs);

/* What the app shows, painted. */
struct paint_image rig_paint(struct arena *a, struct app *app);

struct vt_frame rig_frame(const struct paint_image *image);

/* The corners of the square in the draw list of the test square. */
void rig_square(struct arena *a, struct app *app, struct vt_pt corner[4]);

/* The largest error of four sides and two diagonals against a true square; infinite when it cannot be measured. */
double rig_square_error(const struct vt_setup *setup, const struct paint_image *image, const struct vt_pt corner[4],
                        double side_mm);

#endif
