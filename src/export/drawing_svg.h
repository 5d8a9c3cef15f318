/* A drawn sheet as an SVG file (W3C SVG 1.1) at true scale: one user unit is 1 mm, and width and height say so. */
#ifndef EXPORT_DRAWING_SVG_H
#define EXPORT_DRAWING_SVG_H

#include "drawing/drawing.h"

/* One page of a drawing; of a joined sheet there is one. Each layer is a group with its name as title, within its
 * parent's, not displayed if it is off; lines of no layer stand before them. What was painted as one is one path,
 * curves are the drawing's polylines, words are words rather than outlines. Of what is stroked and filled the file
 * knows the stroke's colour alone, so it is stroked. The file's text, in `a`. */
const char *export_drawing_svg(struct arena *a, const struct drawing *d, size_t page, const char *title);

#endif
