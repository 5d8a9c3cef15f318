/* Lines cut at the window of their page, and the parts joined again where they go on on the next. */
#ifndef DRAWING_CUT_H
#define DRAWING_CUT_H

#include "drawing/drawing.h"

/* A line, or what a window leaves of it, on the joined sheet. */
struct drawing_part {
    struct geometry_path path;
    size_t line;  /* of the flat drawing */
    long look;    /* only parts of one look are joined */
    int place;    /* of the page it comes from */
    bool open[2]; /* its start, its end lies at a side of the window and may go on */
    bool along;   /* all of it lies at one side: the page beside may have it, too */
    bool is_rim;  /* short, and all of it lies at a side: what is left of a line that grazes it */
};

struct drawing_parts {
    struct drawing_part *all;
    size_t count, cap;
};

/* Points that near a side of the window are moved onto it: else a line along it could fall between two pages, and one
 * that grazes it end at another place on the one than on the other. */
#define DRAWING_SNAP_MM 0.001

/* A straight bit so near a side runs along it, and is moved onto it. */
#define DRAWING_ALONG_MM 0.03

/* How far apart ends may lie that are joined, mm. */
#define DRAWING_JOIN_MM 0.35

/* Adds what the box leaves of `line` (all but its path is taken as it is, which is snapped in place). A closed line
 * that lies within stays closed. In `a`; a whole path is not copied. */
void drawing_cut(struct arena *a, const struct drawing_part *line, const struct geometry_box *box,
                 struct drawing_parts *out);

/* Joins parts of different pages whose open ends meet and go on in one direction; what becomes a ring is closed. Parts
 * keep their order, joined ones that of their first; rims that join nothing are left out. In `a`. */
struct drawing_parts drawing_stitch(struct arena *a, const struct drawing_parts *parts);

#endif
