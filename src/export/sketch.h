/* A piece drawn small on paper, as SVG: cut line, stitching line, fold, grain and marks. Not at true scale. */
#ifndef EXPORT_SKETCH_H
#define EXPORT_SKETCH_H

#include "base/buffer.h"
#include "draft/draft.h"

/* Room on a page, mm from its top left, y down. */
struct export_room {
    double x, y, width, height;
};

/* The round number n of the largest scale 1 : n, from 5, at which the piece's cut line fits into that much room, mm. */
double export_sketch_scale(const struct draft_piece *piece, double width, double height);

/* Adds the piece at 1 : scale in the middle of the room, mirrored for a left one. The page's unit is the mm, and its
 * style has the classes of EXPORT_SKETCH_STYLE. */
void export_sketch(struct base_buffer *out, const struct draft_piece *piece, bool mirrored, struct export_room room,
                   double scale);

#define EXPORT_SKETCH_STYLE                                                                                            \
    ".cut,.seam,.fold,.mark{fill:none;stroke:#000;stroke-linejoin:round}"                                              \
    ".cut{stroke-width:.35}.seam{stroke-width:.15;stroke-dasharray:1 .7}"                                              \
    ".fold{stroke-width:.25;stroke-dasharray:3 .8 .6 .8}.mark{stroke-width:.18}.head{fill:#000}"

#endif
