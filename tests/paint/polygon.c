#include "paint/polygon.h"

#include "geometry/random.h"

#include <assert.h>
#include <string.h>

double polygon_random(uint64_t *seed, double low, double high)
{
    return floor(random_between(seed, low, high) * 256) / 256;
}

struct geometry_path polygon_of(struct arena *a, const double *xy, size_t count)
{
    struct geometry_path out = { base_arena_alloc(a, count, sizeof(vec2)), count, true };
    for (size_t i = 0; i < count; i++)
        out.points[i] = (vec2){ xy[2 * i], xy[2 * i + 1] };
    return out;
}

enum { MOST = 256 };

/* Keeps what lies where n · p >= offset. */
static size_t cut(const vec2 *in, size_t count, vec2 n, double offset, vec2 *out)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        vec2 p = in[i], q = in[(i + 1) % count];
        double dp = vec2_dot(n, p) - offset, dq = vec2_dot(n, q) - offset;
        if (dp >= 0)
            out[kept++] = p;
        if ((dp >= 0) != (dq >= 0))
            out[kept++] = vec2_add(p, vec2_scale(vec2_sub(q, p), dp / (dp - dq)));
    }
    return kept;
}

double polygon_area_in_pixel(struct geometry_path polygon, int x, int y)
{
    vec2 one[MOST], two[MOST];
    assert(polygon.count <= MOST / 16);
    memcpy(one, polygon.points, polygon.count * sizeof(vec2));
    size_t count = cut(one, polygon.count, (vec2){ 1, 0 }, x, two);
    count = cut(two, count, (vec2){ -1, 0 }, -x - 1, one);
    count = cut(one, count, (vec2){ 0, 1 }, y, two);
    count = cut(two, count, (vec2){ 0, -1 }, -y - 1, one);
    double area = 0;
    for (size_t i = 0; i < count; i++)
        area += vec2_cross(vec2_sub(one[i], (vec2){ x, y }), vec2_sub(one[(i + 1) % count], (vec2){ x, y })) / 2;
    return area;
}

int polygon_winding(const struct geometry_path *paths, size_t count, vec2 at)
{
    int winding = 0;
    for (size_t k = 0; k < count; k++) {
        for (size_t i = 0; i < paths[k].count; i++) {
            vec2 p = paths[k].points[i], q = paths[k].points[(i + 1) % paths[k].count];
            double side = vec2_cross(vec2_sub(q, p), vec2_sub(at, p));
            if (p.y <= at.y && q.y > at.y && side > 0)
                winding++;
            else if (q.y <= at.y && p.y > at.y && side < 0)
                winding--;
        }
    }
    return winding;
}
