/* table.square_error_mm: the largest error of the 100 mm square's sides and diagonals over all set-ups of the virtual
 * table, with noise-free readings. */
#include "bench/figure.h"
#include "table/rig.h"

#include <math.h>

static double error_on(const struct vt_setup *setup)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct calibration_table table;
    struct vt_pt corner[4] = { 0 };
    double error = INFINITY;
    if (rig_exact_table(a, setup, &table, errs)) {
        struct app *app = rig_app(a, &table, NULL, errs);
        if (app) {
            app_set_mode(app, SCENE_TEST_SQUARE);
            rig_square(a, app, corner);
            struct paint_image image = rig_paint(a, app);
            error = rig_square_error(setup, &image, corner, 100);
        }
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return error;
}

int main(void)
{
    size_t count;
    const struct vt_setup *setups = vt_standard_setups(&count);
    double worst = 0;
    for (size_t i = 0; i < count; i++)
        worst = fmax(worst, error_on(&setups[i]));
    figure("table.square_error_mm", worst, "mm");
    return 0;
}
