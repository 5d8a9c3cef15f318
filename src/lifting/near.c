#include "lifting/near.h"

enum { BINS_MOST = 4096 };

/* Sides sorted into bins along the longer side of the outline's box. */
struct lifting_near {
    struct geometry_path path;
    double *along; /* of each point */
    double start, bin_mm, length_mm;
    bool upright;
    size_t bin_count;
    size_t *first; /* of each bin in `sides`; one more than bins */
    size_t *sides;
};

static vec2 point(const struct lifting_near *n, size_t k)
{
    return n->path.points[k % n->path.count];
}

static double across(const struct lifting_near *n, vec2 p)
{
    return n->upright ? p.y : p.x;
}

static size_t bin_of(const struct lifting_near *n, double at)
{
    double bin = (at - n->start) / n->bin_mm;
    return bin <= 0 ? 0 : bin >= (double)n->bin_count ? n->bin_count - 1 : (size_t)bin;
}

/* The bins that a side lies in. */
static void bins_of(const struct lifting_near *n, size_t side, size_t *low, size_t *high)
{
    double a = across(n, point(n, side)), b = across(n, point(n, side + 1));
    *low = bin_of(n, fmin(a, b));
    *high = bin_of(n, fmax(a, b));
}

static void sort_sides(struct arena *a, struct lifting_near *n)
{
    size_t low, high;
    n->first = base_arena_alloc(a, n->bin_count + 2, sizeof *n->first);
    for (size_t k = 0; k < n->path.count; k++) {
        bins_of(n, k, &low, &high);
        for (size_t b = low; b <= high; b++)
            n->first[b + 2]++;
    }
    for (size_t b = 0; b < n->bin_count; b++)
        n->first[b + 2] += n->first[b + 1];
    n->sides = base_arena_alloc(a, n->first[n->bin_count + 1], sizeof *n->sides);
    for (size_t k = 0; k < n->path.count; k++) {
        bins_of(n, k, &low, &high);
        for (size_t b = low; b <= high; b++)
            n->sides[n->first[b + 1]++] = k;
    }
}

struct lifting_near *lifting_near_of(struct arena *a, struct geometry_path outline)
{
    struct lifting_near *n = base_arena_alloc(a, 1, sizeof *n);
    struct geometry_box box = geometry_path_box(outline);
    double wide = box.max.x - box.min.x, high = box.max.y - box.min.y;
    n->path = outline;
    n->upright = high > wide;
    n->start = across(n, box.min);
    n->bin_count = outline.count / 2 + 1 < BINS_MOST ? outline.count / 2 + 1 : BINS_MOST;
    n->bin_mm = fmax(fmax(wide, high) / (double)n->bin_count, 1e-6);
    n->along = base_arena_alloc(a, outline.count, sizeof *n->along);
    for (size_t k = 0; k < outline.count; k++) {
        n->along[k] = n->length_mm;
        n->length_mm += vec2_length(vec2_sub(point(n, k + 1), point(n, k)));
    }
    sort_sides(a, n);
    return n;
}

double lifting_near_length(const struct lifting_near *n)
{
    return n->length_mm;
}

static struct lifting_place on_side(const struct lifting_near *n, size_t side, vec2 at)
{
    vec2 from = point(n, side), way = vec2_sub(point(n, side + 1), from);
    double length = vec2_length(way);
    double t = length > 0 ? vec2_dot(vec2_sub(at, from), way) / (length * length) : 0;
    t = fmax(0, fmin(1, t));
    vec2 foot = vec2_add(from, vec2_scale(way, t));
    return (struct lifting_place){ foot, vec2_unit(way), vec2_length(vec2_sub(at, foot)), n->along[side] + t * length };
}

bool lifting_near_find(const struct lifting_near *n, vec2 at, double reach, struct lifting_place *out)
{
    size_t low = bin_of(n, across(n, at) - reach), high = bin_of(n, across(n, at) + reach);
    bool found = false;
    for (size_t i = n->first[low]; i < n->first[high + 1]; i++) {
        struct lifting_place place = on_side(n, n->sides[i], at);
        if (place.away <= reach && (!found || place.away < out->away)) {
            *out = place;
            found = true;
        }
    }
    return found;
}

static bool cross_side(const struct lifting_near *n, size_t side, vec2 from, vec2 way, struct lifting_place *out)
{
    vec2 a = point(n, side), along = vec2_sub(point(n, side + 1), a), to = vec2_sub(a, from);
    double turn = vec2_cross(way, along);
    if (turn == 0)
        return false;
    double t = vec2_cross(to, along) / turn, s = vec2_cross(to, way) / turn;
    if (t < 0 || t > 1 || s < 0 || s > 1)
        return false;
    double length = vec2_length(along);
    *out = (struct lifting_place){ vec2_add(a, vec2_scale(along, s)), vec2_unit(along), t * vec2_length(way),
                                   n->along[side] + s * length };
    return true;
}

bool lifting_near_cross(const struct lifting_near *n, vec2 from, vec2 to, struct lifting_place *out)
{
    double a = across(n, from), b = across(n, to);
    size_t low = bin_of(n, fmin(a, b)), high = bin_of(n, fmax(a, b));
    bool found = false;
    for (size_t i = n->first[low]; i < n->first[high + 1]; i++) {
        struct lifting_place place;
        if (cross_side(n, n->sides[i], from, vec2_sub(to, from), &place) && (!found || place.away < out->away)) {
            *out = place;
            found = true;
        }
    }
    return found;
}
