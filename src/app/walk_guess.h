/* Where a place of the frame falls on the mat, guessed from the readings so far: so that a cross can be sent onto the
 * ruling nearest to it before any table is solved. Only ever a guess: what is named must still be looked at. */
#ifndef APP_WALK_GUESS_H
#define APP_WALK_GUESS_H

#include "calibration/readings.h"
#include "geometry/map.h"

struct app_walk_guess {
    struct geometry_map map;
    bool near; /* from five readings on: within a few mm; before it may be rulings away */
};

/* From five readings on the map that fits them; from two the similarity that fits best; before, an ordinary
 * projector's picture over the middle of the mat, moved to the one reading if there is one. `right` is the frame's
 * direction that runs along the table as far as is known, a unit vector in px. */
struct app_walk_guess app_walk_guess(const struct calibration_readings *readings, vec2 right);

/* From one ruling to the next: the mat's own, else 1 in where inches are typed and 1 cm elsewhere. mm */
double app_walk_ruling(const struct calibration_readings *readings);

/* The crossing of rulings nearest to a place, on the ruled field where a mat is named. */
struct table_pt app_walk_crossing(const struct calibration_readings *readings, struct table_pt near);

#endif
