/* Which display the light is on, and what stands beside it. */
#ifndef CLI_DISPLAY_H
#define CLI_DISPLAY_H

#include "cli/run.h"
#include "screen/notes.h"
#include "screen/window.h"

/* The display for the light, from 0: the one asked for with --display; else the one that is remembered as the
 * projector; else, of several, the one that she is asked for; else the only one. -1, with a sentence, when there is
 * none. `width`, `height`: the light's, px, that tells two of one name apart. */
int cli_choose_display(struct cli_run *run, int width, int height);

/* Asks her by a number on each display which one is the projector, and remembers it. From 0; -1, with a sentence, when
 * she leaves that open. */
int cli_ask_projector(struct cli_run *run, const struct screen_display *displays, int count);

/* The remembered projector among the displays, from 0; -1: it is not there, or none is remembered. */
int cli_projector(struct cli_run *run);

/* The last display of that name, those of the size in px before others; -1 when there is none. */
int cli_find_display(const struct screen_display *displays, int count, const char *name, int width, int height);

/* A window of notes on another display than the light's: what is cut, the cautions, the keys. NULL where there is no
 * other display and --notes does not ask for it, and where the bench stands there. The caller closes it. */
struct screen_notes *cli_open_notes(struct cli_run *run, int light_display, const struct job *job);

#endif
