#include "cloth/shapes.h"

#include "geometry/region.h"

static struct geometry_path box_path(struct arena *a, struct geometry_box box)
{
    const vec2 corners[] = { box.min, { box.max.x, box.min.y }, box.max, { box.min.x, box.max.y } };
    struct geometry_path path = { base_arena_alloc(a, 4, sizeof(vec2)), 4, true };
    for (size_t i = 0; i < 4; i++)
        path.points[i] = corners[i];
    return path;
}

/* As the layer lies; turned over, it runs the other way round. */
static struct geometry_path as_it_lies(struct geometry_path path, const struct cloth_layer *layer)
{
    for (size_t i = 0; i < path.count; i++)
        path.points[i] = (vec2){ layer->shift.x + layer->turn_x * path.points[i].x,
                                 layer->shift.y + layer->turn_y * path.points[i].y };
    if (layer->turn_x * layer->turn_y < 0)
        geometry_path_reverse(path);
    return path;
}

/* The list of what is blocked, as it grows. */
struct list {
    struct cloth_path *items;
    size_t count, cap;
};

static void add(struct arena *a, struct list *to, const struct geometry_path *parts, size_t count,
                const struct cloth_layer *layer)
{
    to->items = base_arena_grow(a, to->items, &to->cap, to->count + count, sizeof *to->items);
    for (size_t i = 0; i < count; i++)
        to->items[to->count++].path = as_it_lies(parts[i], layer);
}

static void add_faults(struct arena *a, struct list *to, const struct cloth *cloth, const struct cloth_layer *layer)
{
    struct geometry_path of = box_path(a, layer->of);
    for (size_t i = 0; i < cloth->fault_count; i++) {
        struct geometry_path *parts;
        size_t count = geometry_common(a, cloth->faults[i].path, of, &parts);
        add(a, to, parts, count, layer);
    }
}

void cloth_block(struct arena *a, const struct cloth *cloth, const struct cloth_layer *layers, size_t layer_count,
                 struct cloth_spread *out)
{
    struct list list = { NULL, 0, 0 };
    for (size_t i = 0; i < layer_count; i++)
        add_faults(a, &list, cloth, &layers[i]);
    if (cloth->outline.path.count) { /* never doubled: there is one layer */
        struct geometry_path *parts;
        size_t count = geometry_beyond(a, box_path(a, layers[0].of), cloth->outline.path, &parts);
        add(a, &list, parts, count, &layers[0]);
    }
    out->blocked = list.items;
    out->blocked_count = list.count;
}
