/* Inside paint: a whole path into the strokes of its dashes. */
#ifndef PAINT_DASH_H
#define PAINT_DASH_H

#include "base/arena.h"
#include "geometry/path.h"
#include "paint/draw_list.h"

#include <stddef.h>

/* The dashes of a path whose neighbouring points differ, each an open path that bends as it does. At a turn over 30° a
 * dash lies half on each side; an open end has a whole dash. Between these a whole number of periods, stretched or
 * pressed (to two thirds at most) to fit; where not one fits, no gap at all. A closed path without a turn has a dash
 * half on each side of its start. The path itself when the pen has no gaps. Lives in `a`. */
struct geometry_path *paint_dashes(struct arena *a, struct geometry_path path, struct paint_pen pen, size_t *count);

#endif
