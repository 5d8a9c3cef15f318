/* The outlines of all sizes of a piece, matched from corner to corner. */
#ifndef LIFTING_MATCH_H
#define LIFTING_MATCH_H

#include "geometry/path.h"

/* Corners there are at most; of an outline with more (a traced scan) the plainest are taken. */
enum { LIFTING_CORNERS_MOST = 300 };

/* A corner in one size. */
struct lifting_place {
    double along_mm; /* from the outline's first point */
    bool found;      /* false: put where its neighbours have it, at the same share of the edge */
};

/* Corners in their order around the outline, at least one; in every size each lies past the one before. */
struct lifting_match {
    size_t corner_count, size_count;
    const struct lifting_place *places; /* [corner * size_count + size] */
    const double *turn;                 /* of each corner: the widest turn it has in any size, as in corners.h */
    bool doubtful;                      /* a plain corner is not there in every size */
};

/* Closed outlines that run counter-clockwise, in the order of the sizes; in `a`. */
struct lifting_match lifting_match(struct arena *a, const struct geometry_path *outlines, size_t count);

#endif
