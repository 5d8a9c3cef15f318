/* The mat's own rulings in light: laid over the printed ones they show at a glance whether the table still fits. */
#include "scene/parts.h"
#include "units/length.h"

#include <math.h>

#define LEAST_STEP_MM 50.0 /* finer rulings are drawn in steps of at least this, or they would light the whole mat */
#define LEAST_NUMBERED_MM 90.0

/* The smallest whole number of rulings that is at least `least` long. */
static double step_of(double ruling, double least)
{
    return ruling >= least ? ruling : ruling * ceil(least / ruling);
}

static void ruling_line(const struct scene_canvas *c, vec2 from, vec2 to)
{
    const struct scene_look *look = &c->view->look;
    struct table_path line = { { base_arena_alloc(c->a, 2, sizeof(vec2)), 2, false } };
    line.path.points[0] = from;
    line.path.points[1] = to;
    paint_table_stroke(&c->out->table, line, scene_pen(look, SCENE_RULING), scene_ink(look, SCENE_RULING));
}

static void number_at(const struct scene_canvas *c, double mm, vec2 at)
{
    char text[UNITS_TEXT];
    double cap = scene_cap_height(&c->view->look);
    scene_table_words(c, units_print_length(text, mm, c->view->mat->unit), (struct table_pt){ at.x, at.y },
                      scene_side_right(c->view->side), cap);
}

/* How many steps fit a length, the last one on its end within rounding. */
static int steps_in(double length, double step)
{
    return (int)floor(length / step * (1 + 1e-9));
}

void scene_draw_rulings(const struct scene_canvas *c)
{
    const struct calibration_mat *mat = c->view->mat;
    if (!mat || !mat->name)
        return;
    double step = step_of(mat->ruling_mm, LEAST_STEP_MM), numbered = step_of(step, LEAST_NUMBERED_MM);
    double cap = scene_cap_height(&c->view->look);
    for (int i = 0; i <= steps_in(mat->width_mm, step); i++)
        ruling_line(c, (vec2){ i * step, 0 }, (vec2){ i * step, mat->height_mm });
    for (int i = 0; i <= steps_in(mat->height_mm, step); i++)
        ruling_line(c, (vec2){ 0, i * step }, (vec2){ mat->width_mm, i * step });
    for (int i = 0; i <= steps_in(mat->width_mm, numbered); i++)
        number_at(c, i * numbered, (vec2){ i * numbered, -1.2 * cap });
    for (int i = 1; i <= steps_in(mat->height_mm, numbered); i++)
        number_at(c, i * numbered, (vec2){ -3 * cap, i * numbered });
}
