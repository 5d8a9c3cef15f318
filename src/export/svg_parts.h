/* What SVG files (W3C SVG 1.1) at true scale are made of: one user unit is 1 mm, y down, without transforms but of
 * words. Everything is given in mm with y up on a page so high. */
#ifndef EXPORT_SVG_PARTS_H
#define EXPORT_SVG_PARTS_H

#include "base/buffer.h"
#include "geometry/path.h"

/* The head, the opening tag, and what the file is of. Its end is "</svg>\n". */
void export_svg_begin(struct base_buffer *out, double width, double height, const char *title);

/* A place on the page in the file's units. */
vec2 export_svg_point(vec2 p, double height);

/* "M x,y L x,y Z" of a path shifted so far. */
void export_svg_path(struct base_buffer *out, struct geometry_path path, vec2 shift, double height);

/* A path shifted so far as an element of that class, and what else `look` says of it. */
void export_svg_shape(struct base_buffer *out, const char *class, const char *look, struct geometry_path path,
                      vec2 shift, double height);

/* The arrow head of a straight line at its tip, `head_mm` long and half as wide, as an element of class "head". */
void export_svg_head(struct base_buffer *out, vec2 from, vec2 tip, vec2 shift, double height, double head_mm);

/* The two of them at the ends of a straight line of two points. */
void export_svg_heads(struct base_buffer *out, struct geometry_path shaft, vec2 shift, double height, double head_mm);

/* An element with words from `at` along a unit direction, and what else `look` says of it. */
void export_svg_words(struct base_buffer *out, const char *text, vec2 at, vec2 along, double size_mm, double height,
                      const char *look);

#endif
