/* Where frames are painted: a content warped through the map, the exact coverage of its outlines mixed into light.
 *
 * Mixed in linear light, and measured (paint/cells.h) so that the middle of a line's light is the middle of the line:
 * edges fade over a pixel and a half. The same content, map and size give the same bits at any number of threads: what
 * is added up in common are integers. */
#ifndef PAINT_EASEL_H
#define PAINT_EASEL_H

#include "base/pool.h"
#include "geometry/map.h"
#include "paint/content.h"
#include "paint/image.h"

struct paint_easel;

/* An easel for pictures of up to that size, at most 16383 a side; it keeps its room from frame to frame, so that a
 * frame as large as one before allocates nothing. `pool` shares the work and outlives the easel; NULL: none. */
struct paint_easel *paint_easel_create(struct base_pool *pool, int most_width, int most_height);

/* NULL is allowed. */
void paint_easel_destroy(struct paint_easel *easel);

/* Paints over the whole picture: black first, then the content. The image has the map's frame size; the map is valid,
 * or NULL for a content that has nothing in table mm. */
void paint_draw(struct paint_easel *easel, const struct paint_content *content, const struct geometry_map *map,
                struct paint_image *image);

#endif
