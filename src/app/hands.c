/* Hands free: what keeps a key from being taken that nobody meant. */
#include "app/state.h"

void app_set_lockout(struct app *app, double lasts_s)
{
    app->lockout.lasts_s = lasts_s;
}
