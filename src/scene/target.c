/* Something to focus by, and to see whether the picture is resized on its way: lines of one, two and three pixels both
 * ways, and a chequer of single pixels, in the corners and in the middle of the frame. */
#include "scene/parts.h"

enum { FIELD_PX = 36, GAP_PX = 6, FINEST = 3, PLACES = 5 };

#define IN 0.12 /* of the frame, from its edges */

static const double places[PLACES][2] = { { IN, IN }, { 1 - IN, IN }, { 0.5, IN }, { IN, 1 - IN }, { 1 - IN, 1 - IN } };

static void add_field(const struct scene_canvas *c, int left, int top, int across, int down)
{
    struct paint_raster r = { left, top, left + FIELD_PX, top + FIELD_PX, across, down, { scene_chalks[0].main, 1 } };
    paint_raster(&c->out->rasters, r);
}

/* Upright lines in the upper row, level ones in the lower, the chequer beside them. */
static void add_target(const struct scene_canvas *c, int middle_x, int middle_y)
{
    int step = FIELD_PX + GAP_PX, left = middle_x - 2 * step, top = middle_y - step;
    for (int width = 1; width <= FINEST; width++) {
        add_field(c, left + (width - 1) * step, top, width, 0);
        add_field(c, left + (width - 1) * step, top + step, 0, width);
    }
    add_field(c, left + FINEST * step, top, 1, 1);
    add_field(c, left + FINEST * step, top + step, 1, 1);
}

/* Lines of single pixels around the very edge of the frame: all of it has to lie on the table. */
static void add_edge(const struct scene_canvas *c, int width, int height)
{
    struct paint_ink ink = { scene_chalks[0].main, 1 };
    const struct paint_raster sides[] = { { 0, 0, width, 1, 0, 0, ink },
                                          { 0, height - 1, width, height, 0, 0, ink },
                                          { 0, 0, 1, height, 0, 0, ink },
                                          { width - 1, 0, width, height, 0, 0, ink } };
    for (int i = 0; i < 4; i++)
        paint_raster(&c->out->rasters, sides[i]);
}

void scene_draw_targets(const struct scene_canvas *c, int width_px, int height_px)
{
    for (int i = 0; i < PLACES; i++)
        add_target(c, (int)(places[i][0] * width_px), (int)(places[i][1] * height_px));
    add_edge(c, width_px, height_px);
}
