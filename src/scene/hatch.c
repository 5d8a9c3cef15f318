#include "scene/hatch.h"

#include <math.h>

const vec2 scene_hatch_ways[2] = { { 0.70710678118654752, 0.70710678118654752 },
                                   { 0.70710678118654752, -0.70710678118654752 } };

/* From where to where points lie along a unit vector. */
static struct scene_gap extent(struct geometry_path path, vec2 along)
{
    struct scene_gap out = { INFINITY, -INFINITY };
    for (size_t i = 0; i < path.count; i++) {
        out.from = fmin(out.from, vec2_dot(path.points[i], along));
        out.to = fmax(out.to, vec2_dot(path.points[i], along));
    }
    return out;
}

static bool is_in_all(const struct scene_obstacles *outlines, vec2 at)
{
    bool inside = true;
    for (size_t k = 0; k < outlines->count; k++)
        inside = inside && geometry_path_holds(outlines->paths[k], at);
    return inside;
}

size_t scene_hatch(struct arena *a, const struct scene_obstacles *outlines, vec2 along, double apart, vec2 **ends)
{
    vec2 across = vec2_right(along);
    struct scene_gap wide = extent(outlines->paths[0], across), high = extent(outlines->paths[0], along);
    size_t count = 0, cap = 0;
    *ends = NULL;
    for (double at = (floor(wide.from / apart) + 0.5) * apart; at < wide.to; at += apart) {
        struct scene_lane lane = { vec2_scale(across, at), along, 0, 0, 0 };
        struct scene_gap *gaps;
        size_t found = scene_lane_gaps(a, &lane, outlines, high.from, high.to, &gaps);
        for (size_t i = 0; i < found; i++) {
            vec2 from = vec2_add(lane.at, vec2_scale(along, gaps[i].from));
            vec2 to = vec2_add(lane.at, vec2_scale(along, gaps[i].to));
            if (!is_in_all(outlines, vec2_lerp(from, to, 0.5)))
                continue;
            *ends = base_arena_grow(a, *ends, &cap, 2 * count + 2, sizeof **ends);
            (*ends)[2 * count] = from;
            (*ends)[2 * count++ + 1] = to;
        }
    }
    return count;
}
