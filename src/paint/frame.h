/* A scene into a picture: strokes made in their own space, warped through the map, their exact coverage of half pixels
 * gathered into light. Mixed in linear light and gathered so that the middle of a line's light is the middle of the
 * line: edges fade over two pixels instead of one. */
#ifndef PAINT_FRAME_H
#define PAINT_FRAME_H

#include "geometry/map.h"
#include "paint/draw_list.h"
#include "paint/image.h"

/* Paints over the whole picture: black first, then the scene. The image has the map's frame size, at most 16383 a side;
 * the map is valid, or NULL for a scene that has nothing in table mm (any image size then). `scratch` holds what the frame
 * needs on the way; the caller resets it after. Same input, same bits. */
void paint_frame(struct arena *scratch, const struct paint_scene *scene, const struct geometry_map *map,
                 struct paint_image *image);

#endif
