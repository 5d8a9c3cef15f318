#include "paint/frame.h"

#include "paint/coverage.h"
#include "paint/gather.h"
#include "paint/stroke.h"
#include "paint/warp.h"

#include <assert.h>

/* What paints one list: the layer under work and the way from the list's space into the picture. */
struct painter {
    struct arena *scratch;
    struct paint_coverage *coverage; /* in half pixels */
    struct paint_gather gather;
    const struct paint_warp *warp; /* NULL: the list is in px already */
};

static struct geometry_path to_half_px(struct arena *a, struct geometry_path px)
{
    struct geometry_path out = geometry_path_copy(a, px);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = paint_gather_place(out.points[i]);
    return out;
}

static void cover(struct painter *p, struct geometry_path polygon)
{
    struct geometry_path px = p->warp ? paint_warp_polygon(p->scratch, p->warp, polygon) : polygon;
    paint_coverage_add(p->coverage, to_half_px(p->scratch, px));
}

static void cover_stroke(struct painter *p, struct geometry_path path, struct paint_pen pen)
{
    struct paint_outlines outlines = { 0 };
    paint_stroke_outline(p->scratch, path, pen, &outlines);
    for (size_t i = 0; i < outlines.count; i++)
        cover(p, outlines.paths[i]);
}

/* Contours that together run clockwise are turned round: on a layer light of both windings would go out where they
 * cross. */
static void cover_fill(struct painter *p, const struct geometry_path *contours, size_t count)
{
    double area = 0;
    for (size_t i = 0; i < count; i++)
        area += geometry_path_area(contours[i]);
    for (size_t i = 0; i < count; i++) {
        struct geometry_path contour = geometry_path_copy(p->scratch, contours[i]);
        if (area < 0)
            geometry_path_reverse(contour);
        cover(p, contour);
    }
}

static void cover_item(struct painter *p, const struct paint_items *in, const struct paint_item *item)
{
    const struct geometry_path *paths = in->paths + item->first_path;
    switch (item->kind) {
    case PAINT_STROKE:
        for (size_t i = 0; i < item->paths; i++)
            cover_stroke(p, paths[i], item->pen);
        break;
    case PAINT_FILL:
        cover_fill(p, paths, item->paths);
        break;
    }
}

static bool same_ink(struct paint_ink a, struct paint_ink b)
{
    return a.chalk == b.chalk && a.level == b.level;
}

static void paint_list(struct painter *p, const struct paint_items *in)
{
    for (size_t i = 0; i < in->count;) {
        struct paint_ink ink = in->items[i].ink;
        for (; i < in->count && same_ink(in->items[i].ink, ink); i++)
            cover_item(p, in, &in->items[i]);
        paint_gather_begin(&p->gather, ink);
        paint_coverage_sweep(p->coverage, paint_gather_run, &p->gather);
        paint_gather_end(&p->gather);
    }
}

static void paint_black(struct paint_image *image)
{
    for (int y = 0; y < image->height; y++)
        for (int x = 0; x < image->width; x++)
            image->pixels[(size_t)y * image->stride + (size_t)x] = 0;
}

void paint_frame(struct arena *scratch, const struct paint_scene *scene, const struct geometry_map *map,
                 struct paint_image *image)
{
    assert(map ? image->width == map->width_px && image->height == map->height_px : scene->table.in.count == 0);
    const struct paint_light *light = paint_light_create(scratch);
    struct painter p = { .scratch = scratch,
                         .coverage = paint_coverage_create(scratch, paint_gather_side(image->width),
                                                           paint_gather_side(image->height)),
                         .gather = paint_gather_create(scratch, light, image) };
    paint_black(image);
    if (map) {
        struct paint_warp warp = paint_warp_create(scratch, map);
        p.warp = &warp;
        paint_list(&p, &scene->table.in);
        p.warp = NULL;
    }
    paint_list(&p, &scene->px.in);
}
