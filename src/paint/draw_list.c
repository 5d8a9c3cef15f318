#include "paint/draw_list.h"

#include <assert.h>

struct paint_scene paint_scene_create(struct arena *a)
{
    return (struct paint_scene){ .table.in.arena = a, .px.in.arena = a, .rasters.arena = a };
}

static struct paint_item *add_item(struct paint_items *in, enum paint_kind kind, struct paint_ink ink)
{
    assert(ink.level >= 0 && ink.level <= 1 && ink.chalk <= 0xffffff);
    in->items = base_arena_grow(in->arena, in->items, &in->cap, in->count + 1, sizeof *in->items);
    struct paint_item *item = &in->items[in->count++];
    *item = (struct paint_item){ .kind = kind, .ink = ink, .first_path = in->path_count };
    return item;
}

static void add_path(struct paint_items *in, struct paint_item *item, struct geometry_path path)
{
    in->paths = base_arena_grow(in->arena, in->paths, &in->path_cap, in->path_count + 1, sizeof *in->paths);
    in->paths[in->path_count++] = path;
    item->paths++;
}

static void add_stroke(struct paint_items *in, struct geometry_path path, struct paint_pen pen, struct paint_ink ink)
{
    assert(pen.width > 0);
    if (path.count < 2)
        return;
    struct paint_item *item = add_item(in, PAINT_STROKE, ink);
    item->pen = pen;
    add_path(in, item, path);
}

static void add_contour(struct paint_items *in, struct paint_item *item, struct geometry_path contour)
{
    if (contour.count >= 3)
        add_path(in, item, contour);
}

void paint_table_stroke(struct paint_table_list *list, struct table_path path, struct paint_pen pen,
                        struct paint_ink ink)
{
    add_stroke(&list->in, path.path, pen, ink);
}

void paint_table_fill(struct paint_table_list *list, const struct table_path *contours, size_t count,
                      struct paint_ink ink)
{
    struct paint_item *item = add_item(&list->in, PAINT_FILL, ink);
    for (size_t i = 0; i < count; i++)
        add_contour(&list->in, item, contours[i].path);
}

void paint_px_stroke(struct paint_px_list *list, struct px_path path, struct paint_pen pen, struct paint_ink ink)
{
    add_stroke(&list->in, path.path, pen, ink);
}

void paint_px_fill(struct paint_px_list *list, const struct px_path *contours, size_t count, struct paint_ink ink)
{
    struct paint_item *item = add_item(&list->in, PAINT_FILL, ink);
    for (size_t i = 0; i < count; i++)
        add_contour(&list->in, item, contours[i].path);
}

void paint_raster(struct paint_rasters *list, struct paint_raster raster)
{
    assert(raster.across >= 0 && raster.down >= 0);
    list->items = base_arena_grow(list->arena, list->items, &list->cap, list->count + 1, sizeof *list->items);
    list->items[list->count++] = raster;
}
