/* Where the letters of a piece stand: within its stitching line and clear of its marks, in as many lines as have room.
 */
#ifndef SCENE_LABEL_H
#define SCENE_LABEL_H

#include "scene/parts.h"

enum { SCENE_LABEL_LINES = 3 };

/* What the letters have to mind, all in table mm. */
struct scene_label_room {
    const char
        *texts[SCENE_LABEL_LINES];     /* the name, then what may be left out, the least needed last; NULL: nothing */
    struct geometry_path seam;         /* the stitching line */
    const struct geometry_path *marks; /* what letters must not cross */
    size_t mark_count;
    vec2 wish;                      /* where the letters would best stand */
    vec2 grain[2], longer_grain[2]; /* ends of the arrow, and where letters run up along it */
};

/* A block of lines along the unit vector `right`, its middle at `middle`. */
struct scene_label {
    const char *text[SCENE_LABEL_LINES];
    double cap[SCENE_LABEL_LINES];
    size_t count;
    vec2 middle, right, down;
    double width, height; /* mm */
    bool along;           /* the letters run up along a narrow piece */
};

struct scene_label scene_label_place(const struct scene_canvas *c, const struct scene_label_room *room);

/* Takes away the light under the letters, so that nothing drawn before runs through them. */
void scene_label_darken(const struct scene_canvas *c, const struct scene_label *label);

void scene_label_write(const struct scene_canvas *c, const struct scene_label *label);

#endif
