/* Layouts at the table, for the files of the app that do not make them. */
#ifndef APP_PLACE_H
#define APP_PLACE_H

#include "app/state.h"
#include "lay/lay.h"
#include "scene/layout.h"
#include "tearing/rests.h"

struct app_place;

/* One more material's layout, which is kept by reference; it is then what is shown. */
void app_place_add(struct app *app, const struct lay *lay);

/* The same behind rectangles that are torn off the cloth first; that plan is kept by reference, too. */
void app_place_add_behind(struct app *app, const struct lay *lay, const struct tearing_plan *torn);

/* The same of a piece of cloth that a torn strip left; the plan where nothing else tells what is torn, else NULL. */
void app_place_add_rest(struct app *app, const struct tearing_rest *rest, const struct tearing_plan *torn);

/* All that the job keeps, the first of them shown; told, as warnings, where one does not fit its pieces any more. */
void app_place_of_job(struct app *app, struct err_list *errs);

/* Shows the first of them. */
void app_place_first(struct app *app);

/* Whether a layout is shown, rather than pieces one by one. */
bool app_place_is_shown(const struct app *app);

/* Whether it is shown once such pages as the test square are left. */
bool app_place_is_on(const struct app *app);

/* What is cut on: as the job has it, or where that says nothing of cloth and the layout that is shown lies on cloth of
 * a known thickness, as many layers of that as most of its lines are cut through. */
struct calibration_surface app_place_surface(const struct app *app);

/* Shown, or not; false when there is none. */
bool app_place_show(struct app *app, bool on);

/* A key, where a layout is shown; false when it means nothing there of its own. */
bool app_place_press(struct app *app, int key, int mods, struct app_effects *effects);

/* Whether a number is typed on the page that is shown. */
bool app_place_is_typed_on(const struct app *app);

/* Moves the point in hand by mm as she stands; false where none is. */
bool app_place_steer(struct app *app, vec2 by);

/* She stands elsewhere: what is not placed yet is laid out anew for her. */
void app_place_turned(struct app *app, enum scene_side from);

/* What the light shows of it; in `frame`. */
const struct scene_layout *app_place_scene(const struct app *app, struct arena *frame);
/* The edge, as she sees it, that the strip stands at now. */
enum scene_side app_strip_edge(const struct app *app);

/* Whether what is cut now, or a point that is nudged, reaches to where a notice stands: what was told before makes room
 * then. */
bool app_place_needs_notice_side(const struct app *app);

/* What of it must not be overlooked, or NULL; in `frame`. */
const char *app_place_notice(const struct app *app, struct arena *frame);

const char *app_place_strip_left(const struct app *app, struct arena *frame);
const char *app_place_strip_right(const struct app *app, struct arena *frame);

/* "may be off by 7.2 mm", where that is much and the notice that tells it has no room; else NULL. */
const char *app_place_doubt_kept(const struct app *app, struct arena *frame);

/* Whether pieces are drawn to be cut along. */
bool app_place_is_cutting(const struct app *app);

/* What stands at its left in fewer words; NULL where there are none. */
const char *app_place_strip_less(const struct app *app, struct arena *frame);

/* Its keys on the page that is shown; in `a`. */
size_t app_place_help(const struct app *app, struct arena *a, const struct scene_help_line **out);

/* As members of a line of the app's memory, of the layout that is shown; nothing where there is none. */
void app_place_remember(const struct app *app, struct json_out *top);

/* How many lines all layouts take, and remembering one of them. */
size_t app_place_count(const struct app *app);
void app_place_remember_one(const struct app *app, size_t index, struct json_out *top);

/* The table was set up anew: what is cut stays, and cloth that was placed is found again. */
void app_place_table_is_new(struct app *app);

/* False, with nothing changed, when it fits no layout of the job. NULL, from before there was one, fits. */
bool app_place_recall(struct app *app, const struct json_node *node);

#endif
