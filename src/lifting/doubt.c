#include "lifting/doubt.h"

#include "lifting/match.h"

#define LESS_SHARE 0.001 /* a larger size has so much less area at most: rounding of what does not grow */

unsigned lifting_doubt_sizes(const struct lifting_piece *piece, size_t sizes)
{
    struct arena *work = base_arena_create();
    struct geometry_path *outlines = base_arena_alloc(work, sizes, sizeof *outlines);
    size_t count = 0;
    unsigned doubts = 0;
    for (size_t k = 0; k < sizes && !piece->one_size; k++)
        if (piece->outlines[k].there)
            outlines[count++] = piece->outlines[k].path.path;
    if (count > 1 && lifting_match(work, outlines, count).doubtful)
        doubts |= LIFTING_DOUBT_MATCH;
    for (size_t i = 1; i < count; i++)
        if (geometry_path_area(outlines[i]) < (1 - LESS_SHARE) * geometry_path_area(outlines[i - 1]))
            doubts |= LIFTING_DOUBT_ORDER;
    base_arena_destroy(work);
    return doubts;
}
