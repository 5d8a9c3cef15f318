/* A projector that was bumped, and the person who moves the marks of light onto their check stickers again. */
#ifndef TESTS_TABLE_BUMP_H
#define TESTS_TABLE_BUMP_H

#include "app/app.h"
#include "calibration/stickers.h"
#include "virtual_table.h"

struct bump {
    struct vt_setup before, now;
    struct calibration_stickers laid; /* before */
};

/* Where a mark is painted: the middle of its dot in what the app shows. Not a number when there is none. */
struct px_pt bump_mark_shown(struct arena *a, struct app *app, int sticker);

/* The key that brings light nearer to where it is `to` mm away, standing at the near side: "left", "shift up",
 * "ctrl right" …, the largest step that does; NULL when it lies there as well as the finest step allows. */
const char *bump_key_toward(vec2 to);

/* The same for a mark and its sticker. */
const char *bump_next_key(struct arena *a, struct app *app, const struct bump *bump, int sticker);

/* How far the light of a map falls from where it says, at most over the frame. */
double bump_worst_off(const struct geometry_map *map, const struct vt_setup *setup);

#endif
