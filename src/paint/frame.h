/* A scene into a picture in one go, for pictures that are painted once. */
#ifndef PAINT_FRAME_H
#define PAINT_FRAME_H

#include "geometry/map.h"
#include "paint/draw_list.h"
#include "paint/image.h"

/* paint_prepare (paint/content.h) and paint_draw (paint/easel.h). `scratch` holds what is needed on the way; the caller
 * resets it after. Same input, same bits. */
void paint_frame(struct arena *scratch, const struct paint_scene *scene, const struct geometry_map *map,
                 struct paint_image *image);

#endif
