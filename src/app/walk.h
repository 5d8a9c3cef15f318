/* Setting up the table on the table: one numbered cross at a time. The person types where it falls on the mat's
 * rulings, or moves it onto a crossing of rulings, by keyboard, number pad or presenter; each reading is kept as it is
 * made. Knows no window and writes no file: events come in, a draw list and effects go out. */
#ifndef APP_WALK_H
#define APP_WALK_H

#include "app/key_map.h"
#include "calibration/table.h"
#include "input/event.h"
#include "paint/draw_list.h"
#include "scene/crosses.h"
#include "text/font.h"

enum {
    APP_WALK_CROSSES = SCENE_STANDARD_CROSSES
}; /* three by three, the corners twice: what the study behind the calibration found best */

struct app_walk;

struct app_walk_effects {
    bool redraw;
    bool save; /* the readings changed: one was made, taken back, or its cross falls beside the mat */
    bool done; /* the person accepts the table, or lays its check stickers anew: it is to be saved */
    bool end;  /* all is done */
    bool anew; /* she begins afresh: what was read is put aside, and another walk created */
    bool quit;
};

struct app_walk_start {
    int width_px, height_px; /* of the window */
    const char *name;        /* of the table */
    enum units_length unit;  /* of what is typed */
    struct calibration_mat mat;
    double sigma_mm; /* how well she reads the rulings */
    struct text_font *font;
    const struct calibration_readings *before; /* readings made earlier, to go on from; or NULL */
    const char *notice;                        /* to be told at the beginning, or NULL */
    const struct calibration_mat *mats;        /* to choose from where none is named and nothing was read */
    size_t mat_count;
    bool unit_is_asked;             /* a mat's own unit does not overrule it */
    bool cautions_read;             /* it begins behind the usual cautions */
    double lockout_s;               /* how long after a cross is taken the next one is not (lockout.h) */
    const struct app_key_map *keys; /* that she gave to what is done at the table; NULL: none. By reference */
};

/* Lives in `a`; the font and the names in `start` outlive it. */
struct app_walk *app_walk_create(struct arena *a, const struct app_walk_start *start);

struct app_walk_effects app_walk_handle(struct app_walk *walk, struct input_event event);

/* What the window shows now, all in pixels; lives in `frame`. */
struct paint_scene app_walk_scene(const struct app_walk *walk, struct arena *frame);

/* What is shown instead in a window of another size, or (`home` false) on another display: no cross, only why. */
struct paint_scene app_walk_away_scene(const struct app_walk *walk, struct arena *frame, int width, int height,
                                       bool home);

/* Why what was made last is not saved, across the frame; NULL when it is. Kept by reference. */
void app_walk_set_trouble(struct app_walk *walk, const char *sentence);

/* The readings made so far, in `a`. */
struct calibration_readings app_walk_readings(const struct app_walk *walk, struct arena *a);

/* The table, once done, with the stickers laid so far; `made` in ISO 8601. Lives in `a`. */
struct calibration_table app_walk_table(const struct app_walk *walk, struct arena *a, const char *made);

enum { APP_WALK_KEY_LISTS = 8 };

/* Its keys as she gave them (NULL: the usual ones), as help shows them, in lists by what they are pressed for, each
 * with a title and a short name. The texts live in `a`. */
size_t app_walk_help_lines(struct arena *a, const struct app_key_map *map, int list, const char **title,
                           const char **name, const struct scene_help_line **out);

#endif
