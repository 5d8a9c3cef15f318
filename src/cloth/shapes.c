#include "cloth/shapes.h"

#include "geometry/region.h"

static const struct err_kind fault_outside = { "cloth.fault_outside", ERR_WARNING,
                                               BASE_TR(
                                                   "the fault about {0} along and {1} across lies wholly off the "
                                                   "cloth, so that nothing is kept clear of it: measure "
                                                   "from the cut end and from the near edge, selvedge not counted") };

static const struct err_place nowhere = { NULL, NULL, 0 };

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
        size_t count = geometry_common(a, cloth_washed_path(a, cloth, cloth->faults[i].path), of, &parts);
        add(a, to, parts, count, layer);
    }
}

/* Measured from elsewhere, most likely. */
static void tell_outside(struct arena *a, const struct cloth *cloth, struct geometry_path there_is,
                         struct err_list *errs)
{
    for (size_t i = 0; i < cloth->fault_count; i++) {
        struct geometry_path fault = cloth_washed_path(a, cloth, cloth->faults[i].path);
        vec2 at = geometry_path_centre(cloth->faults[i].path);
        if (fault.count && !(geometry_common_area(fault, there_is) > 0))
            base_err(errs, &fault_outside, nowhere, ERR_MM(at.x), ERR_MM(at.y));
    }
}

void cloth_block(struct arena *a, const struct cloth *cloth, struct geometry_box all, const struct cloth_layer *layers,
                 size_t layer_count, struct cloth_spread *out, struct err_list *errs)
{
    struct list list = { NULL, 0, 0 };
    struct geometry_path outline = cloth_washed_path(a, cloth, cloth->outline.path);
    tell_outside(a, cloth, outline.count ? outline : box_path(a, all), errs);
    for (size_t i = 0; i < layer_count; i++)
        add_faults(a, &list, cloth, &layers[i]);
    if (cloth->outline.path.count) { /* never doubled: there is one layer */
        struct geometry_path *parts;
        size_t count = geometry_beyond(a, box_path(a, layers[0].of), outline, &parts);
        add(a, &list, parts, count, &layers[0]);
    }
    out->blocked = list.items;
    out->blocked_count = list.count;
}
