/* What hands ask while they lay a single outline: how far it lies over another, how far it slides. */
#include "packing/nofit.h"
#include "packing/packing.h"

double packing_depth(struct arena *scratch, struct geometry_path a, vec2 at_a, struct geometry_path b, vec2 at_b,
                     vec2 *apart)
{
    vec2 shift = vec2_sub(at_b, at_a), nearest = shift;
    struct geometry_box box_a = geometry_path_box(a), box_b = geometry_path_box(b);
    double depth = 0;
    if (box_a.min.x < box_b.max.x + shift.x && box_b.min.x + shift.x < box_a.max.x &&
        box_a.min.y < box_b.max.y + shift.y && box_b.min.y + shift.y < box_a.max.y) {
        struct nofit n = nofit_of(scratch, scratch, a, b);
        depth = nofit_depth(&n, shift, &nearest);
    }
    if (apart)
        *apart = depth > 0 ? vec2_sub(nearest, shift) : (vec2){ 0 };
    return depth;
}

/* Whether the boxes can meet on the way. */
static bool may_meet(struct geometry_box still, struct geometry_box moved, vec2 way)
{
    return still.min.x <= moved.max.x + fmax(way.x, 0) && moved.min.x + fmin(way.x, 0) <= still.max.x &&
           still.min.y <= moved.max.y + fmax(way.y, 0) && moved.min.y + fmin(way.y, 0) <= still.max.y;
}

static struct geometry_box box_at(struct geometry_path p, vec2 at)
{
    struct geometry_box box = geometry_path_box(p);
    return (struct geometry_box){ vec2_add(box.min, at), vec2_add(box.max, at) };
}

double packing_slide(struct arena *scratch, struct geometry_path shape, vec2 from, vec2 direction, double most,
                     const struct geometry_path *others, const vec2 *others_at, size_t other_count)
{
    struct geometry_box moved = box_at(shape, from);
    for (size_t i = 0; i < other_count; i++) {
        if (!may_meet(box_at(others[i], others_at[i]), moved, vec2_scale(direction, most)))
            continue;
        struct nofit n = nofit_of(scratch, scratch, others[i], shape);
        most = nofit_ray(scratch, &n, vec2_sub(from, others_at[i]), direction, most);
    }
    return most;
}
