/* Drafted pieces as an SVG file (W3C SVG 1.1) at true scale: one user unit is 1 mm, and width and height say so. */
#ifndef EXPORT_SVG_H
#define EXPORT_SVG_H

#include "export/sheet.h"

/* The file's text, in `a`. Each piece is a group of class "piece" with its name as title; each kind of line in it a
 * group of its own. Lines are in the sheet's mm with y down, without transforms; curves are the
 * draft's polylines. */
const char *export_svg(struct arena *a, const struct draft *draft, const struct export_names *names);

#endif
