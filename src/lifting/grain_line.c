#include "lifting/grain_line.h"

/* The smaller, the more it is the size's own. */
static int strangeness(const struct lifting_mark *mark, int size)
{
    return mark->size == size ? 0 : mark->size == LIFTING_NONE ? 1 : 2;
}

/* Sizes that are drawn apart share no line: one that lies elsewhere is another's. */
static bool lies_in(const struct lifting_mark *mark, struct geometry_path outline)
{
    struct geometry_path line = mark->path.path;
    return line.count >= 2 && geometry_path_holds(outline, vec2_lerp(line.points[0], line.points[line.count - 1], 0.5));
}

bool lifting_grain_line(const struct lifting_piece *piece, int size, vec2 ends[2])
{
    const struct lifting_mark *best = NULL;
    for (size_t i = 0; i < piece->mark_count; i++) {
        const struct lifting_mark *mark = &piece->marks[i];
        if (mark->kind == LIFTING_GRAIN && lies_in(mark, piece->outlines[size].path.path) &&
            (!best || strangeness(mark, size) < strangeness(best, size)))
            best = mark;
    }
    if (!best)
        return false;
    ends[0] = best->path.path.points[0];
    ends[1] = best->path.path.points[best->path.path.count - 1];
    return true;
}
