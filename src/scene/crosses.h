/* Numbered crosses for setting up a table, in a frame of which nothing else is known yet: all in pixels. */
#ifndef SCENE_CROSSES_H
#define SCENE_CROSSES_H

#include "calibration/doubt.h"
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
    struct px_pt from; /* of a nudged one: where it stood at first; a trail leads there */
    bool nudged;
    const char *note; /* beside its number; or NULL */
    vec2 miss;        /* of a read one: a line drawn from it, px; none when zero */
    bool marked;      /* of a read one: a second ring, at full light */
};

struct scene_cross_view {
    int width_px, height_px;
    int quarter; /* quarter turns counter-clockwise from the picture's own bottom to where she stands */
    struct text_font *font;
    const struct scene_cross *crosses;
    size_t count;
    const char *const *lines;           /* sentences in the picture, the first one larger; a NULL ends them; or NULL */
    const struct scene_help_line *help; /* a page of keys instead of crosses and sentences, or NULL */
    size_t help_count;
    const char *notice;                 /* a warning across the far edge, or NULL */
    const struct px_pt *stickers;       /* marks of light on check stickers (scene/scene.h) */
    int sticker_count, sticker_in_hand; /* in hand: from 0; -1 when none is */
    bool targets;                       /* something to focus by */
    struct px_path line;                /* a line to be measured, with its ends marked; of no points: none */
    const struct geometry_map *map;     /* a solved table, with … */
    enum scene_doubt_of doubt_of;
    const struct calibration_doubt *doubt; /* … how true it is, drawn all over; or NULL */
};

/* The frame's draw list, which has nothing in table mm; everything lives in `a`. The sentences stand beside the shown
 * cross, where the person bends over it, and turned to her. A number of only 6s and 9s is underlined: read from the
 * other side they are each other. */
struct paint_scene scene_crosses(struct arena *a, const struct scene_cross_view *view);

enum { SCENE_STANDARD_CROSSES = 13 };

/* Where the standard crosses stand in a frame, by their numbers from 1: three by three, the corners twice. On half
 * pixels, where an arm lies on whole pixels the same way on both sides and is sharpest. */
struct px_pt scene_standard_cross(int number, int width_px, int height_px);

#endif
