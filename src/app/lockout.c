#include "app/lockout.h"

/* A clock that began anew locks nothing out. */
bool app_lockout_takes(struct app_lockout *lockout, const struct input_event *event)
{
    double since_s = event->at_s - lockout->at_s;
    if (event->is_repeat || (lockout->taken && since_s >= 0 && since_s < lockout->lasts_s))
        return false;
    lockout->taken = true;
    lockout->at_s = event->at_s;
    return true;
}
