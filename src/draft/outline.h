/* The stitching line of one piece at one size: points evaluated, curves flattened. Not for other folders. */
#ifndef DRAFT_OUTLINE_H
#define DRAFT_OUTLINE_H

#include "draft/draft.h"
#include "geometry/offset.h"

struct draft_outline {
    struct geometry_path path; /* closed, counter-clockwise, no point twice in a row */
    struct draft_edge *edges;
    double *allowance_mm; /* one a side of the path */
    struct geometry_corner *corners; /* one a point: how the allowances on both its hands end */
    bool turned;          /* it is written clockwise: edges run against the path */
};

/* Whether a path that has come to one point need not go to the other: they are a millionth of a millimetre apart. */
static inline bool draft_is_same_point(vec2 a, vec2 b)
{
    vec2 way = vec2_sub(a, b);
    return vec2_dot(way, way) < 1e-12;
}

/* The edges of an outline, one after the other as they are written, with their allowances; its corners are NULL. No
 * edge has a point twice in a row. */
struct draft_outline draft_outline_join(struct arena *a, const struct geometry_path *edges, const double *allowance_mm,
                                        size_t edge_count);

/* What the mouth of a folded dart is cut to, from its leg nearer to the edge's start to the other: the stitching line
 * beside the dart, mirrored in the leg it is folded over up to the dart's middle, and from there mirrored in the
 * middle; so folded, its cloth ends where its neighbour does. Lives in `a`. False when the dart is not folded or does
 * not begin on its edge, or when the line beside it ends (with its edge or at another dart) before it covers the dart.
 */
bool draft_dart_cap(struct arena *a, const struct pattern_piece *piece, const struct draft_sized_piece *at,
                    const struct pattern_dart *dart, struct geometry_path *cap);

/* Whether that point of the outline is an end of the piece's fold. */
bool draft_is_fold_end(const struct draft_outline *o, const struct pattern_piece *piece, size_t point);

/* Lives in `a`; mouths of folded darts are as they are cut. The path may have no area or cross itself. */
struct draft_outline draft_outline_of(struct arena *a, const struct draft_sized *sized, int piece);

#endif
