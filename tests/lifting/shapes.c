#include "lifting/shapes.h"

#include <math.h>

static const double radians = 3.14159265358979323846 / 180;

struct shape shape_begin(struct arena *a)
{
    return (struct shape){ a, { NULL, 0, true }, 0 };
}

void shape_point(struct shape *s, double x, double y)
{
    s->path.points = base_arena_grow(s->a, s->path.points, &s->cap, s->path.count + 1, sizeof(vec2));
    s->path.points[s->path.count++] = (vec2){ x, y };
}

static vec2 on_cubic(const vec2 p[4], double t)
{
    vec2 q[3];
    for (int i = 0; i < 3; i++)
        q[i] = vec2_lerp(p[i], p[i + 1], t); /* de Casteljau's construction */
    return vec2_lerp(vec2_lerp(q[0], q[1], t), vec2_lerp(q[1], q[2], t), t);
}

void shape_cubic(struct shape *s, vec2 b, vec2 c, vec2 d, int steps)
{
    const vec2 p[4] = { s->path.points[s->path.count - 1], b, c, d };
    for (int i = 1; i <= steps; i++) {
        vec2 at = on_cubic(p, (double)i / steps);
        shape_point(s, at.x, at.y);
    }
}

void shape_arc(struct shape *s, vec2 centre, double radius, double from, double to, int steps)
{
    for (int i = 0; i <= steps; i++) {
        double angle = (from + (to - from) * i / steps) * radians;
        shape_point(s, centre.x + radius * cos(angle), centre.y + radius * sin(angle));
    }
}

int shape_arc_steps(double radius, double degrees, double chord_mm)
{
    return (int)ceil(degrees * radians / (2 * acos(1 - chord_mm / radius)));
}

struct geometry_path shape_rectangle(struct arena *a, double x, double y, double width, double height, int first)
{
    const vec2 corners[] = { { x, y }, { x + width, y }, { x + width, y + height }, { x, y + height } };
    struct shape s = shape_begin(a);
    for (int i = 0; i < 4; i++)
        shape_point(&s, corners[(first + i) % 4].x, corners[(first + i) % 4].y);
    return s.path;
}

static double from_side(vec2 p, vec2 a, vec2 b)
{
    vec2 way = vec2_sub(b, a), off = vec2_sub(p, a);
    double all = vec2_dot(way, way), part = all > 0 ? fmin(1, fmax(0, vec2_dot(off, way) / all)) : 0;
    return vec2_length(vec2_sub(off, vec2_scale(way, part)));
}

static double from_line(vec2 p, struct geometry_path line)
{
    double least = INFINITY;
    for (size_t i = 0; i + (line.closed ? 0 : 1) < line.count; i++)
        least = fmin(least, from_side(p, line.points[i], line.points[(i + 1) % line.count]));
    return least;
}

double shape_farthest(struct geometry_path from, struct geometry_path to, int between)
{
    double most = 0;
    for (size_t i = 0; i < from.count; i++)
        for (int k = 0; k < between; k++) {
            vec2 next = from.points[i + 1 < from.count ? i + 1 : from.closed ? 0 : i];
            most = fmax(most, from_line(vec2_lerp(from.points[i], next, (double)k / between), to));
        }
    return most;
}

struct geometry_path shape_seen_cubic(struct arena *a, const vec2 p[4], int places)
{
    struct geometry_path seen = { base_arena_alloc(a, (size_t)places, sizeof(vec2)), (size_t)places, false };
    for (int i = 0; i < places; i++)
        seen.points[i] = on_cubic(p, (double)i / (places - 1));
    return seen;
}
