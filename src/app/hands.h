/* Hands free, for the app's own files. */
#ifndef APP_HANDS_H
#define APP_HANDS_H

#include "app/state.h"

/* The key that is meant by one that was pressed: a presenter's start key sends two by turns, a number pad's digits are
 * its arrows where no number is typed, and what lies under one hand lies under the other for who is left-handed. */
struct input_event app_meant(struct app *app, struct input_event event);

/* Whether all keys are locked, and this is not the one that unlocks them. */
bool app_is_locked_to(const struct app *app, const struct app_key_row *row);

/* How she is told on those pages that all keys are locked; in `a`. And whether a usual key locks and unlocks them. */
const char *app_lock_text(struct arena *a, const struct app_key_map *map, unsigned of);
bool app_is_lock_key(const struct input_event *event);

/* How far a stick moves something that goes so far in a second when it is held all the way, in that time. */
vec2 app_steered(struct input_stick held, double held_s, double per_s);

/* What sticks do while they are held. */
struct app_effects app_steer(struct app *app, const struct input_event *event);

#endif
