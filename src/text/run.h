/* A line of text as outlines, sized by the height of its capitals. */
#ifndef TEXT_RUN_H
#define TEXT_RUN_H

#include "base/arena.h"
#include "geometry/path.h"
#include "text/font.h"

/* Closed contours to be filled by the non-zero rule, in units of the cap height asked for: x along the base line from
 * 0, y up from the base line. Curves are flattened to within 1/400 of the cap height. */
struct text_run {
    struct geometry_path *contours;
    size_t count;
    double width; /* the pen's way from start to end */
};

/* Outlines of well-formed UTF-8 on one line, kerned; cap_height > 0 in the caller's unit. Characters the font lacks
 * show its box. Lives in `a`; the font may be asked from one thread at a time. */
struct text_run text_run_outline(struct arena *a, struct text_font *font, const char *utf8, double cap_height);

/* Only the width. */
double text_run_width(struct text_font *font, const char *utf8, double cap_height);

#endif
