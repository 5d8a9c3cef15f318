/* What says "done" is taken once: a switch under a foot bounces, a key that is held repeats. Knows no clock: an event
 * brings its time. */
#ifndef APP_LOCKOUT_H
#define APP_LOCKOUT_H

#include "input/event.h"

#include <stdbool.h>

struct app_lockout {
    double lasts_s; /* after what was taken; 0: only a held key is not taken again */
    bool taken;
    double at_s; /* when that was */
};

/* Whether an event that says so is taken; from then on the next one is not, until it has lasted. */
bool app_lockout_takes(struct app_lockout *lockout, const struct input_event *event);

#endif
