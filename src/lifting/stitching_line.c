#include "lifting/sizes_by_look.h"

#include <math.h>

/* Seam allowances are about 6 to 25 mm wide. Common practice, no source. */
#define LEAST_MM 4.0
#define MOST_MM 30.0
#define EVEN_MM 0.5
#define LONG_MM 40.0 /* shorter lines are marks */
#define STEP_MM 10.0
#define EVEN_SHARE 0.9 /* around corners that point inwards it is wider */

enum { LINES_MOST = 500, WORK_MOST = 100000000 };

/* Two looks, and how far they are from each other. */
struct pairing {
    const struct drawing *d;
    const size_t *outer; /* lines */
    size_t outer_count, outer_points;
    size_t work;                      /* points looked at so far */
    double apart_mm, even_mm, all_mm; /* apart: as it is first met */
};

/* The closed outlines of a look; false where something long of it is not closed, or there are too many. */
static bool outlines_of(const struct drawing *d, const struct lifting_strands *s, const bool *open, int look,
                        size_t *lines, size_t *count)
{
    *count = 0;
    for (size_t i = 0; i < d->line_count; i++) {
        int strand = s->of_line[i];
        if (strand == LIFTING_NONE || !open[strand] || s->looks[strand] != look)
            continue;
        struct geometry_path p = d->lines[i].path.path;
        if (geometry_path_length(p) < LONG_MM)
            continue;
        if (!p.closed || *count == LINES_MOST)
            return false;
        lines[(*count)++] = i;
    }
    return *count > 0;
}

/* How far a point lies within the outlines; HUGE_VAL: in none. */
static double depth(const struct pairing *p, vec2 at)
{
    double least = HUGE_VAL, along;
    for (size_t i = 0; i < p->outer_count; i++) {
        struct geometry_path o = p->d->lines[p->outer[i]].path.path;
        if (geometry_path_holds(o, at))
            least = fmin(least, geometry_path_distance(o, at, &along));
    }
    return least;
}

static bool measure_side(struct pairing *p, vec2 from, vec2 to)
{
    double length = vec2_length(vec2_sub(to, from)), steps = ceil(length / STEP_MM);
    for (double k = 0; k < steps; k++) {
        p->work += p->outer_points;
        double away = depth(p, vec2_lerp(from, to, (k + 0.5) / steps));
        if (away > MOST_MM || away < LEAST_MM || p->work > WORK_MOST)
            return false;
        p->apart_mm = p->all_mm > 0 ? p->apart_mm : away;
        p->even_mm += fabs(away - p->apart_mm) <= EVEN_MM ? length / steps : 0;
        p->all_mm += length / steps;
    }
    return true;
}

bool lifting_is_stitching_line(struct arena *work, const struct drawing *d, const struct lifting_strands *s,
                               const bool *open, int inner_look, int outer_look)
{
    size_t *inner = base_arena_alloc(work, LINES_MOST, sizeof *inner), inner_count;
    size_t *outer = base_arena_alloc(work, LINES_MOST, sizeof *outer);
    struct pairing p = { .d = d, .outer = outer };
    if (!outlines_of(d, s, open, inner_look, inner, &inner_count) ||
        !outlines_of(d, s, open, outer_look, outer, &p.outer_count) || inner_count != p.outer_count)
        return false;
    for (size_t i = 0; i < p.outer_count; i++)
        p.outer_points += d->lines[outer[i]].path.path.count;
    for (size_t i = 0; i < inner_count; i++) {
        struct geometry_path o = d->lines[inner[i]].path.path;
        for (size_t k = 0; k < o.count; k++)
            if (!measure_side(&p, o.points[k], o.points[(k + 1) % o.count]))
                return false;
    }
    return p.even_mm >= EVEN_SHARE * p.all_mm;
}
