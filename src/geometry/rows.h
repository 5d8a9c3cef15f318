/* Boxes in rows: the first, plain way to see all pieces. (Laying them out on cloth is the lay's job.) */
#ifndef GEOMETRY_ROWS_H
#define GEOMETRY_ROWS_H

#include "geometry/path.h"

/* shifts[i] moves box i into its row: rows fill from the left up to `width`, each as high as its highest box, the first
 * row on top, `gap` between any two. A box wider than `width` has a row of its own. The returned box encloses all. */
struct geometry_box geometry_rows(const struct geometry_box *boxes, size_t count, double width, double gap,
                                  vec2 *shifts);

#endif
