#include "paint/frame.h"

#include "paint/easel.h"

void paint_frame(struct arena *scratch, const struct paint_scene *scene, const struct geometry_map *map,
                 struct paint_image *image)
{
    const struct paint_content *content = paint_prepare(scratch, scene);
    struct paint_easel *easel = paint_easel_create(NULL, image->width, image->height);
    paint_draw(easel, content, map, image);
    paint_easel_destroy(easel);
}
