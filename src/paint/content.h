/* What is drawn, made ready: strokes, dashes and fills of a scene as closed outlines in their own space. Made once when
 * the content changes; every frame only warps and fills it (paint/easel.h). */
#ifndef PAINT_CONTENT_H
#define PAINT_CONTENT_H

#include "paint/draw_list.h"

struct paint_content;

/* Keeps nothing of the scene. Lives in `a`. */
const struct paint_content *paint_prepare(struct arena *a, const struct paint_scene *scene);

/* The same with tables of light made before, which outlive it: for many small pictures. */
struct paint_light;
const struct paint_content *paint_prepare_in(struct arena *a, const struct paint_scene *scene,
                                             const struct paint_light *light);

#endif
