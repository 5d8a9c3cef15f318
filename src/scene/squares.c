#include "scene/squares.h"

#include <math.h>

#define SIDE_MM 4.0 /* three rows of them lie within letters of the least size */

enum { STEPS = 2 }; /* within a square, from place to place that is marked along a line */

static void mark(const struct scene_squares *s, vec2 at)
{
    double column = (at.x - s->area.min.x) / SIDE_MM, row = (at.y - s->area.min.y) / SIDE_MM;
    if (column >= 0 && row >= 0 && column < (double)s->columns && row < (double)s->rows)
        s->sums[((size_t)row + 1) * (s->columns + 1) + (size_t)column + 1] = 1;
}

static void draw_side(const struct scene_squares *s, vec2 from, vec2 to)
{
    const struct geometry_box side = geometry_path_box((struct geometry_path){ (vec2[]){ from, to }, 2, false });
    if (!geometry_boxes_meet(side, s->area))
        return;
    vec2 way = vec2_sub(to, from);
    size_t steps = (size_t)ceil(STEPS * vec2_length(way) / SIDE_MM);
    for (size_t i = 0; i < steps; i++)
        mark(s, vec2_add(from, vec2_scale(way, (double)i / (double)steps)));
    mark(s, to);
}

static void draw(const struct scene_squares *s, struct geometry_path path)
{
    size_t sides = path.closed || !path.count ? path.count : path.count - 1;
    for (size_t i = 0; i < sides; i++)
        draw_side(s, path.points[i], path.points[(i + 1) % path.count]);
}

/* From marks to how many of them lie nearer and farther left (summed-area table; Crow 1984). */
static void sum(const struct scene_squares *s)
{
    size_t wide = s->columns + 1;
    for (size_t row = 1; row <= s->rows; row++)
        for (size_t column = 1; column <= s->columns; column++) {
            unsigned *at = &s->sums[row * wide + column];
            *at += at[-1] + *(at - wide) - *(at - wide - 1);
        }
}

struct scene_squares scene_squares_of(struct arena *a, struct geometry_box area, const struct scene_obstacles *lists,
                                      size_t count)
{
    struct scene_squares s = { .area = area };
    if (!(area.max.x > area.min.x && area.max.y > area.min.y))
        return s;
    s.columns = (size_t)ceil((area.max.x - area.min.x) / SIDE_MM);
    s.rows = (size_t)ceil((area.max.y - area.min.y) / SIDE_MM);
    s.sums = base_arena_alloc(a, (s.columns + 1) * (s.rows + 1), sizeof *s.sums);
    for (size_t list = 0; list < count; list++)
        for (size_t i = 0; i < lists[list].count; i++)
            draw(&s, lists[list].paths[i]);
    sum(&s);
    return s;
}

/* A number of squares between none and all. */
static size_t squares(double count, size_t most)
{
    return count <= 0 ? 0 : count >= (double)most ? most : (size_t)count;
}

bool scene_squares_taken(const struct scene_squares *s, struct geometry_box box)
{
    vec2 min = vec2_scale(vec2_sub(box.min, s->area.min), 1 / SIDE_MM);
    vec2 max = vec2_scale(vec2_sub(box.max, s->area.min), 1 / SIDE_MM);
    size_t left = squares(ceil(min.x), s->columns), right = squares(floor(max.x), s->columns);
    size_t near = squares(ceil(min.y), s->rows), far = squares(floor(max.y), s->rows), wide = s->columns + 1;
    if (left >= right || near >= far)
        return false;
    return s->sums[far * wide + right] + s->sums[near * wide + left] !=
           s->sums[far * wide + left] + s->sums[near * wide + right];
}
