/* The program at the table: what it shows and how each key changes it. Knows no window: events come in, a draw list and
 * effects go out, so that a test can drive it and a picture can be made without a display. */
#ifndef APP_APP_H
#define APP_APP_H

#include "app/key_map.h"
#include "app/trust.h"
#include "input/event.h"
#include "job/job.h"
#include "paint/draw_list.h"
#include "scene/scene.h"

struct app;

/* What the caller has to do after an event. */
struct app_effects {
    bool redraw; /* what is to be shown has changed */
    bool show;   /* what was painted before is to be shown again */
    bool quit;
};

/* How a job starts on the table. */
struct app_start {
    const struct job *job;
    struct calibration_table table; /* what the frame is drawn through; `sample` is told across its edge */
    struct text_font *font;         /* NULL: no letters */
    bool cautions;                  /* show the usual cautions first */
    bool chalks_all;                /* she chalks all first and cuts then, whatever the ticket says */
    enum units_length unit;         /* the person's: the test square is 4 in for inches, else 100 mm */
};

/* Drafts the job's pieces and stands ready at the first line of its cutting list. The app keeps references to the job
 * and the font, and lives in `a`. NULL, with the reasons, when a piece cannot be drafted. */
struct app *app_create(struct arena *a, const struct app_start *start, struct err_list *errs);

/* One event; the state changes, nothing is drawn. */
struct app_effects app_handle(struct app *app, struct input_event event);

/* What the table shows now; the draw list lives in `frame`. */
struct paint_scene app_scene(struct app *app, struct arena *frame);

/* What is shown instead where the light is not the table's: on another display (`home` false), or in a window of
 * another size. No piece, only why. Pixel space. */
struct paint_scene app_away_scene(const struct app *app, struct arena *frame, int width, int height, bool home);

/* The same for any table's map. */
struct paint_scene app_away_page(struct arena *frame, const struct geometry_map *map, struct text_font *font, int width,
                                 int height, bool home);

/* The table is not to be trusted until it is looked at (trust.h). */
void app_doubt_scale(struct app *app, enum app_doubt doubt);

/* Told now and then, at least once a minute: seconds since some fixed moment, with the computer's sleep and without.
 * After a sleep, and four hours after it was looked at, a table is doubted; a sample never is. */
struct app_effects app_pass_time(struct app *app, double with_sleep_s, double awake_s);

/* How long the app may be left alone before it is told the time again, ms; below 0: as long as nothing happens. */
int app_patience_ms(const struct app *app);

/* Why the choices made last are not kept, across the frame; NULL when they are. Kept by reference. */
void app_set_trouble(struct app *app, const char *sentence);

/* The map it is drawn through. */
const struct geometry_map *app_map(const struct app *app);

/* Direct ways to what the keys do, for the command line. Names not known: false. */
bool app_show_piece(struct app *app, const char *name); /* NULL: all pieces of the cloth */
void app_place(struct app *app, struct geometry_motion motion);
void app_set_weight(struct app *app, double mm);
void app_set_mode(struct app *app, enum scene_mode mode);
void app_set_rulings(struct app *app, bool on);
bool app_set_side(struct app *app, const char *name);
bool app_set_strip(struct app *app, const char *edge); /* as she sees it */
void app_set_left_handed(struct app *app, bool on);

/* What no cloth is laid for yet is planned for that side and edge. */
void app_stand(struct app *app);

/* The main colour of light, on every cloth. */
#define APP_CHALK_AUTOMATIC "automatic"
bool app_set_chalks(struct app *app, const char *name);
void app_set_keys(struct app *app, const struct app_key_map *map); /* kept by reference */
void app_set_lockout(struct app *app, double lasts_s);             /* how long after "done" the next one is not taken */

/* How bright the room and the projector's white are on the table, above 0. */
void app_set_room(struct app *app, double room_lux, double light_lux);

/* How many lines the cutting list has, and going to one. */
size_t app_cut_count(const struct app *app);
void app_go_to_cut(struct app *app, size_t index);
const char *app_cut_name(const struct app *app, size_t index);

/* Sections of the job's layouts, one cloth after the other; 0 where it has none. Going to a piece leaves them. */
size_t app_section_count(const struct app *app);

/* Shows the layout of that material, where there is one. */
void app_show_cloth(struct app *app, enum pattern_cloth material);

/* A section as it lies once the cloth is laid exactly along the light, nothing of it cut. */
void app_go_to_section(struct app *app, size_t index);

/* For what height what is shown is drawn, or by how much its light is off; NULL where neither is to be told. In `a`. */
const char *app_shown_surface_told(const struct app *app, struct arena *a);

/* The usual cautions, sentence by sentence after a heading; returns how many. */
enum { APP_CAUTIONS_EVER = 7 }; /* so many of them hold where nothing is cut, too */
size_t app_cautions(const char *const **out);

/* The same as a page of the table, without keys, with what to do then below where no strip tells it; lives in `a`. */
size_t app_caution_page(struct arena *a, const char *then, const struct scene_help_line **out);

/* Rows of the key table as help shows them, with keys as she gave them (NULL: the usual ones); returns how many. The
 * texts live in `a`. */
size_t app_help_lines(struct arena *a, const struct app_key_map *map, const struct scene_help_line **out);

/* The same of what keys do on a layout's pages, besides. */
size_t app_layout_help_lines(struct arena *a, const struct app_key_map *map, const struct scene_help_line **out);

#endif
