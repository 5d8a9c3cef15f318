/* Which display the light is on, and what stands beside it. */
#ifndef CLI_DISPLAY_H
#define CLI_DISPLAY_H

#include "cli/run.h"
#include "screen/notes.h"
#include "screen/window.h"

/* The display for the light, from 0: the one asked for with --display; else the one that is remembered as the
 * projector; else the last of that size in px; else the last, which is the projector where a laptop's own screen comes
 * first. -1, with a sentence, when there is none. */
int cli_choose_display(struct cli_run *run, int width, int height);

/* The last display of that name (NULL: of any), those of the size in px before others; -1 when there is none. */
int cli_find_display(const struct screen_display *displays, int count, const char *name, int width, int height);

/* A window of notes on another display than the light's: what is cut, the cautions, the keys. NULL where there is no
 * other display and --notes does not ask for it. The caller closes it. */
struct screen_notes *cli_open_notes(struct cli_run *run, int light_display, const struct job *job);

#endif
