#include "paint/content.h"

#include "paint/outline.h"
#include "paint/stroke.h"

/* A content under work. */
struct maker {
    struct arena *arena;   /* of the content */
    struct arena *scratch; /* of one path */
    const struct paint_light *light;
    struct paint_content *content;
    struct paint_ink *inks; /* of the layers */
    size_t ink_cap;
};

static bool same_ink(struct paint_ink a, struct paint_ink b)
{
    return a.chalk == b.chalk && a.level == b.level;
}

/* Layers of one ink share their shade. */
static const struct paint_shade *shade_of(struct maker *m, struct paint_ink ink)
{
    for (size_t i = 0; m->inks && i < m->content->layer_count; i++)
        if (same_ink(m->inks[i], ink))
            return m->content->layers[i];
    return paint_shade_create(m->arena, m->light, ink);
}

static void begin_layer(struct maker *m, struct paint_ink ink)
{
    struct paint_content *c = m->content;
    const struct paint_shade *shade = shade_of(m, ink);
    m->inks = base_arena_grow(m->arena, m->inks, &m->ink_cap, c->layer_count + 1, sizeof *m->inks);
    c->layers = base_arena_grow(m->arena, c->layers, &c->layer_cap, c->layer_count + 1,
                                sizeof(const struct paint_shade *)); /* NOLINT(bugprone-sizeof-expression): pointers */
    m->inks[c->layer_count] = ink;
    c->layers[c->layer_count++] = shade;
}

static void add_outline(struct maker *m, struct geometry_path path)
{
    struct paint_content *c = m->content;
    struct paint_corners *corners = &c->corners;
    size_t first = corners->count, count = path.count;
    if (count < 3)
        return;
    corners->x = base_arena_grow(m->arena, corners->x, &corners->x_cap, first + count, sizeof(double));
    corners->y = base_arena_grow(m->arena, corners->y, &corners->y_cap, first + count, sizeof(double));
    for (size_t i = 0; i < count; i++) {
        corners->x[first + i] = path.points[i].x;
        corners->y[first + i] = path.points[i].y;
    }
    corners->count += count;
    c->outlines = base_arena_grow(m->arena, c->outlines, &c->cap, c->count + 1, sizeof *c->outlines);
    c->outlines[c->count++] = (struct paint_outline){ first, count, (uint32_t)c->layer_count - 1 };
}

static void add_stroke(struct maker *m, struct geometry_path path, struct paint_pen pen)
{
    struct paint_outlines outlines = { 0 };
    paint_stroke_outline(m->scratch, path, pen, &outlines);
    for (size_t i = 0; i < outlines.count; i++)
        add_outline(m, outlines.paths[i]);
    base_arena_reset(m->scratch);
}

/* Contours that together run clockwise are turned round: on a layer light of both windings would go out where they
 * cross. */
static void add_fill(struct maker *m, const struct geometry_path *contours, size_t count)
{
    double area = 0;
    for (size_t i = 0; i < count; i++)
        area += geometry_path_area(contours[i]);
    for (size_t i = 0; i < count; i++) {
        struct geometry_path contour = geometry_path_copy(m->scratch, contours[i]);
        if (area < 0)
            geometry_path_reverse(contour);
        add_outline(m, contour);
    }
    base_arena_reset(m->scratch);
}

static void add_item(struct maker *m, const struct paint_items *in, const struct paint_item *item)
{
    const struct geometry_path *paths = in->paths + item->first_path;
    switch (item->kind) {
    case PAINT_STROKE:
        for (size_t i = 0; i < item->paths; i++)
            add_stroke(m, paths[i], item->pen);
        break;
    case PAINT_FILL:
        add_fill(m, paths, item->paths);
        break;
    }
}

static void add_list(struct maker *m, const struct paint_items *in)
{
    for (size_t i = 0; i < in->count; i++) {
        if (i == 0 || !same_ink(in->items[i].ink, in->items[i - 1].ink))
            begin_layer(m, in->items[i].ink);
        add_item(m, in, &in->items[i]);
    }
}

static void add_rasters(struct maker *m, const struct paint_rasters *list)
{
    struct paint_rastered *rasters = base_arena_alloc(m->arena, list->count, sizeof *rasters);
    for (size_t i = 0; i < list->count; i++)
        rasters[i] = (struct paint_rastered){ list->items[i], paint_light_ink(m->light, list->items[i].ink).pixel };
    m->content->rasters = rasters;
    m->content->raster_count = list->count;
}

const struct paint_content *paint_prepare(struct arena *a, const struct paint_scene *scene)
{
    return paint_prepare_in(a, scene, paint_light_create(a));
}

const struct paint_content *paint_prepare_in(struct arena *a, const struct paint_scene *scene,
                                             const struct paint_light *light)
{
    struct paint_content *content = base_arena_alloc(a, 1, sizeof *content);
    struct maker m = { a, base_arena_create(), light, content, NULL, 0 };
    add_list(&m, &scene->table.in);
    content->in_mm = content->count;
    add_list(&m, &scene->px.in);
    add_rasters(&m, &scene->rasters);
    base_arena_destroy(m.scratch);
    return content;
}
