/* A lifted piece made ready to be written: its sizes in one plane, matched and fitted, its edges named. Not for other
 * folders. */
#ifndef LIFTING_MADE_H
#define LIFTING_MADE_H

#include "lifting/fit.h"
#include "lifting/lifting.h"
#include "lifting/match.h"

struct lifting_made_edge {
    const char *name;
    size_t first, spans; /* it leads from that corner past so many */
};

struct lifting_made {
    const struct lifting_piece *piece;
    size_t size_count;        /* that are drawn; one where all are alike */
    const size_t *size;       /* of each its number in the division */
    const size_t *stands_for; /* for each size of the division the drawn one that is, or stands in for, it */
    const struct geometry_path *outlines; /* of each, in the piece's own plane */
    const double *const *along;           /* of each, as lifting_along tells */
    const vec2 *shift;                    /* of each, from the sheet into that plane */
    struct lifting_match match;
    const struct lifting_curve *curves; /* from each corner to the next */
    const struct lifting_made_edge *edges;
    size_t edge_count;
    int fold; /* edge, or LIFTING_NONE */
};

/* `sizes`: of the division. The piece is there in one of them at least. Lives in `a`. */
void lifting_make(struct arena *a, const struct lifting_piece *piece, size_t sizes, struct lifting_made *out);

/* Where a corner lies in a drawn size, mm along its outline. */
double lifting_corner_along(const struct lifting_made *made, size_t corner, size_t drawn);

/* An edge in a drawn size as it is written, in fine chords; open, in `a`. */
struct geometry_path lifting_edge_path(struct arena *a, const struct lifting_made *made, size_t edge, size_t drawn);

/* The edge on which a place of a drawn size lies; not the fold, but where there is nothing else. */
size_t lifting_edge_at(const struct lifting_made *made, size_t drawn, double along_mm);

/* A mark of the piece in a drawn size's plane: its path there, of one with points for each of its own; false when it is
 * of another size. In `a`. */
bool lifting_mark_in(struct arena *a, const struct lifting_made *made, const struct lifting_mark *mark, size_t drawn,
                     struct geometry_path *out);

#endif
