/* Setting up the table on the table: one numbered cross at a time, the person types where it falls on the mat's rulings
 * (or nudges it onto a ruling first), and each reading is kept as it is made. Knows no window and writes no file:
 * events come in, a draw list and effects go out. */
#ifndef APP_WALK_H
#define APP_WALK_H

#include "calibration/table.h"
#include "input/event.h"
#include "paint/draw_list.h"
#include "scene/scene.h"
#include "text/font.h"

enum {
    APP_WALK_CROSSES = 13
}; /* three by three, the corners twice: what the study behind the calibration found best */

struct app_walk;

struct app_walk_effects {
    bool redraw, save, done, quit; /* save: a reading was made or taken back; done: the person accepts the table */
};

struct app_walk_start {
    int width_px, height_px; /* of the window */
    const char *name;        /* of the table */
    enum units_length unit;  /* of what is typed */
    struct calibration_mat mat;
    double sigma_mm; /* how well she reads the rulings */
    struct text_font *font;
    const struct calibration_readings *before; /* readings made earlier, to go on from; or NULL */
};

/* Lives in `a`; the font and the names in `start` outlive it. */
struct app_walk *app_walk_create(struct arena *a, const struct app_walk_start *start);

struct app_walk_effects app_walk_handle(struct app_walk *walk, struct input_event event);

/* What the window shows now, all in pixels; lives in `frame`. */
struct paint_scene app_walk_scene(const struct app_walk *walk, struct arena *frame);

/* The readings made so far, in `a`. */
struct calibration_readings app_walk_readings(const struct app_walk *walk, struct arena *a);

/* The table, once done; `made` in ISO 8601. Lives in `a`. */
struct calibration_table app_walk_table(const struct app_walk *walk, struct arena *a, const char *made);

/* Its keys, as help shows them. The texts live in `a`. */
size_t app_walk_help_lines(struct arena *a, const struct scene_help_line **out);

#endif
