/* Numbered crosses for setting up a table, in a frame of which nothing else is known yet: all in pixels. */
#ifndef SCENE_CROSSES_H
#define SCENE_CROSSES_H

#include "paint/draw_list.h"
#include "scene/scene.h"

enum scene_cross_state {
    SCENE_CROSS_SHOWN, /* to be read now */
    SCENE_CROSS_READ,  /* done: a small ring where it stood */
    SCENE_CROSS_HIDDEN
};

struct scene_cross {
    int number;
    struct px_pt at;
    enum scene_cross_state state;
};

struct scene_cross_view {
    int width_px, height_px;
    int quarter; /* quarter turns counter-clockwise from the picture's own bottom to where she stands */
    struct text_font *font;
    const struct scene_cross *crosses;
    size_t count;
    const char *const *lines; /* sentences in the picture, the first one larger; a NULL ends them; or NULL */
};

/* The frame's draw list, which has nothing in table mm; everything lives in `a`. A number of only 6s and 9s is
 * underlined: read from the other side they are each other. */
struct paint_scene scene_crosses(struct arena *a, const struct scene_cross_view *view);

#endif
