/* The sentences for what may be wrong with a layout (lay_judge), one of each for all who tell it. */
#ifndef APP_LAY_FOUND_H
#define APP_LAY_FOUND_H

#include "base/err_list.h"
#include "lay/lay.h"

/* What is found, to be told at any place; texts live in `a`. `advice` ends the sentence where something must be done:
 * "; arrange it anew", or "". */
struct err app_lay_found(struct arena *a, const struct lay *lay, const struct lay_finding *finding, const char *advice);

#endif
