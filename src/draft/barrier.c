#include "draft/barrier.h"

#include <math.h>

#define MEETING_MM 1e-6 /* rounding of a line that meets a corner */

enum { BLOCK = 8 }; /* sides: fewer make more blocks to look at, more make each of them harder to pass over */

static size_t side_count(struct geometry_path p)
{
    return p.closed ? p.count : p.count - 1;
}

static vec2 side_end(struct geometry_path p, size_t side)
{
    return p.points[side + 1 < p.count ? side + 1 : 0];
}

static size_t block_end(struct geometry_path p, size_t first)
{
    return first + BLOCK < side_count(p) ? first + BLOCK : side_count(p);
}

struct draft_barrier draft_barrier_of(struct arena *a, struct geometry_path path)
{
    double *reach = base_arena_alloc(a, side_count(path) / BLOCK + 1, sizeof *reach);
    for (size_t first = 0; first < side_count(path); first += BLOCK) {
        double most = 0; /* squared */
        for (size_t i = first; i < block_end(path, first); i++) {
            vec2 off = vec2_sub(side_end(path, i), path.points[first]);
            double squared = vec2_dot(off, off);
            most = squared > most ? squared : most;
        }
        reach[first / BLOCK] = sqrt(most);
    }
    return (struct draft_barrier){ path, reach };
}

struct ray {
    vec2 from, direction;
};

static double beside(const struct ray *ray, vec2 p)
{
    return vec2_cross(ray->direction, vec2_sub(p, ray->from));
}

/* Whether a side whose ends lie so far beside a ray comes nowhere near it: most sides do not. */
static bool is_beside(double over, double under)
{
    return (over > MEETING_MM && under > MEETING_MM) || (over < -MEETING_MM && under < -MEETING_MM);
}

/* How far ahead a ray meets a side whose ends lie so far beside it; infinitely far when it does not, or runs along it:
 * then the side's neighbours are met. */
static double meets_at(const struct ray *ray, vec2 start, vec2 end, double over, double under)
{
    if (is_beside(over, under) || over == under)
        return INFINITY;
    vec2 a = vec2_sub(start, ray->from), b = vec2_sub(end, ray->from);
    double slack = MEETING_MM / fmax(vec2_length(vec2_sub(b, a)), MEETING_MM);
    double part = over / (over - under), ahead = vec2_dot(ray->direction, vec2_lerp(a, b, part));
    return part >= -slack && part <= 1 + slack && ahead >= -MEETING_MM ? ahead : INFINITY;
}

/* The same of a block's sides, whose first point lies so far beside the ray. */
static double block_meets_at(const struct ray *ray, struct geometry_path path, size_t first, double over)
{
    double least = INFINITY;
    for (size_t i = first; i < block_end(path, first); i++) {
        vec2 end = side_end(path, i);
        double under = beside(ray, end), ahead = meets_at(ray, path.points[i], end, over, under);
        least = ahead < least ? ahead : least;
        over = under;
    }
    return least;
}

double draft_way_to(const struct draft_barrier *barrier, vec2 from, vec2 direction, double near_enough)
{
    const struct ray ray = { from, direction };
    const struct geometry_path path = barrier->path;
    double least = INFINITY;
    for (size_t first = 0; first < side_count(path) && least > near_enough; first += BLOCK) {
        double over = beside(&ray, path.points[first]);
        if (fabs(over) > barrier->reach_mm[first / BLOCK] + 2 * MEETING_MM)
            continue;
        double ahead = block_meets_at(&ray, path, first, over);
        least = ahead < least ? ahead : least;
    }
    return least;
}

vec2 draft_first_meeting(const struct draft_barrier *barrier, vec2 from, vec2 direction)
{
    double ahead = draft_way_to(barrier, from, direction, -INFINITY);
    return isinf(ahead) ? from : vec2_add(from, vec2_scale(direction, fmax(0, ahead)));
}
