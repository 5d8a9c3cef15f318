/* Pieces in rows: the first, plain way to see them all. (Laying them out on cloth is the lay's job.) */
#ifndef SCENE_ROWS_H
#define SCENE_ROWS_H

#include "geometry/path.h"

/* Two notch triangles that point at each other reach 15 mm each, behind the widest cut line of 10 mm. */
#define SCENE_ROW_GAP_MM 32.0

/* shifts[i] moves box i into its row: rows fill from the left up to `width`, each as high as its highest piece, the
 * first row on top, a gap between any two. A box wider than `width` has a row of its own. The returned box encloses
 * all. */
struct geometry_box scene_rows(const struct geometry_box *boxes, size_t count, double width, vec2 *shifts);

#endif
