/* A page that tells one display from the others. */
#ifndef SCENE_NUMBER_H
#define SCENE_NUMBER_H

#include "paint/draw_list.h"
#include "text/font.h"

enum { SCENE_NUMBER_LINES = 3 };

struct scene_number_view {
    int width_px, height_px;
    struct text_font *font;
    int number;
    const char *lines[SCENE_NUMBER_LINES]; /* sentences below it; NULL: none */
};

/* The number as large as the page allows, with its sentences below it. Nothing is in table mm; everything lives in
 * `a`. */
struct paint_scene scene_number(struct arena *a, const struct scene_number_view *view);

#endif
