/* Outlines in SVG's own coordinates, brought to the page as they are drawn: path data and the basic shapes. */
#ifndef SHEET_READER_SVG_PATH_H
#define SHEET_READER_SVG_PATH_H

#include "sheet_reader/clip_shape.h"
#include "sheet_reader/collect.h"
#include "sheet_reader/svg_matrix.h"

/* Draws into the item at work, or into a clip. Set up with `c`, `to_page` and maybe `clip`; the rest is its own. */
struct svg_pen {
    struct collect *c;
    struct clip_shape *clip;   /* not NULL: it goes there */
    struct svg_matrix to_page; /* to mm, y up */
    vec2 at, start;            /* where it is; where the subpath began */
};

void svg_pen_move(struct svg_pen *p, double x, double y);
void svg_pen_line(struct svg_pen *p, double x, double y);
void svg_pen_cubic(struct svg_pen *p, vec2 c1, vec2 c2, vec2 end);
void svg_pen_close(struct svg_pen *p);

/* An elliptical arc (SVG 1.1, 9.3.8 and F.6) as cubics of at most 45°, which are off by less than 5e-6 of the radius.
 */
void svg_pen_arc(struct svg_pen *p, double rx, double ry, double turn_deg, bool large, bool sweep, vec2 end);

/* A whole path by its data. At a fault it stops, with all before it drawn, as the standard wants, and returns false. */
bool svg_path_draw(struct svg_pen *p, const char *data);

/* A list of points joined by lines; an odd number at its end is left out. */
void svg_points_draw(struct svg_pen *p, const char *points, bool closed);

/* Radii are 0 or more; those of a rectangle at most half its sides. */
void svg_rect_draw(struct svg_pen *p, struct svg_box r, double rx, double ry);
void svg_ellipse_draw(struct svg_pen *p, double cx, double cy, double rx, double ry);

#endif
