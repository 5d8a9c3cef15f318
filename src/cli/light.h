/* The light on the table: its window and all that painting needs, kept from picture to picture. */
#ifndef CLI_LIGHT_H
#define CLI_LIGHT_H

#include "cli/run.h"
#include "input/event.h"
#include "paint/draw_list.h"

struct cli_light;

/* Opens the window on a display, from 0. The caller closes it. NULL, with the reason, when it cannot be opened. */
struct cli_light *cli_light_open(struct cli_run *run, int display);

/* NULL is allowed. */
void cli_light_close(struct cli_light *light);

/* The window's size, px. */
void cli_light_size(const struct cli_light *light, int *width, int *height);

/* As screen_is_home. */
bool cli_light_is_home(struct cli_light *light);

/* Whether the light is the one that was set up: at home, in a window of that size. Asked before each picture. */
bool cli_light_is_the_tables(struct cli_light *light, int width, int height);

/* Whether an event is for the table: where the light was not its own in the picture shown last, no key but the one that
 * leaves is. The window may have changed again while the key was waiting; what counts is what she had before her. */
bool cli_light_is_for_table(const struct cli_light *light, struct input_event event);

/* As screen_display_name. */
const char *cli_light_display(const struct cli_light *light);

/* Whether a table is one for this window: a sample takes on the window's size, a measured one must have it. False with
 * a sentence. */
bool cli_light_fit(struct cli_run *run, struct cli_light *light, struct calibration_table *table);

/* Why a table is to be looked at before it is cut on. The same frame on another display may be another projector: told
 * in the terminal, too. */
enum app_doubt cli_light_doubt(struct cli_run *run, struct cli_light *light, const struct calibration_table *table);

/* For app_pass_time. */
void cli_light_time(double *with_sleep_s, double *awake_s);

/* As screen_wait; while the bench lives on beside the table its window is waited for and seen to, and INPUT_NONE may
 * come before the time. */
struct input_event cli_light_wait(struct cli_light *light, int wait_ms);

/* The next event of several lights, without end: `window` of it says which one's. */
struct input_event cli_light_wait_any(struct cli_light *const *lights, int count);

/* An empty arena to make the next scene in; it lasts until it is asked for again. */
struct arena *cli_light_begin(struct cli_light *light);

/* Paints a scene over the whole window. A map has the window's size; NULL: nothing is in table mm. False, with the
 * reason, when the window takes no picture. */
bool cli_light_show(struct cli_light *light, struct cli_run *run, const struct paint_scene *scene,
                    const struct geometry_map *map);

/* Shows what was painted last: the window has lost it. */
bool cli_light_again(struct cli_light *light, struct cli_run *run);

#endif
