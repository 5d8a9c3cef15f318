/* A layout as an SVG file (W3C SVG 1.1) at true scale: the cloth as it is spread, and where each piece lies on it. */
#ifndef EXPORT_LAY_SVG_H
#define EXPORT_LAY_SVG_H

#include "lay/lay.h"

/* The file's text, in `a`. One user unit is 1 mm, without transforms but of words: the cut end is at the left, the fold
 * or near edge below, EXPORT_LAY_MARGIN_MM from the page's. Each piece that is laid is a group of class "piece" with
 * its name (lay_item_name) as title, its cut outline a path of class "cut". */
const char *export_lay_svg(struct arena *a, const struct lay *lay, const char *title);

#define EXPORT_LAY_MARGIN_MM 40.0

#endif
