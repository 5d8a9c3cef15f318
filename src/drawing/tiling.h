/* Pages that may be parts of one sheet, looked at: what stands on all of them, what is seen of the sheet on each, and
 * the lines near their sides. Inside, lengths are mm at true scale and an axis is 0 across or 1 up. */
#ifndef DRAWING_TILING_H
#define DRAWING_TILING_H

#include "drawing/looks.h"
#include "drawing/pages.h"
#include "drawing/repeats.h"

/* How far from a side lines are looked at: laps are narrower. */
#define DRAWING_ZONE_MM 60.0

enum { DRAWING_AXES = 2, DRAWING_ENDS = 2, DRAWING_GUIDES_MOST = 24 };

/* A bit of a line near a side, `from` nearer to the page's left (axis 0) or foot (axis 1) than `to`; first number along
 * the axis, second beside it; both from the page's origin. */
struct drawing_bit {
    double from[2], to[2];
    long look;
};

struct drawing_bits {
    struct drawing_bit *bits;
    size_t count, cap;
};

struct drawing_tile {
    int page;
    double size[2];
    vec2 origin; /* on its page: the lower left corner of its frame, or of the page where it has none */
    bool framed;
    struct geometry_box seen;                             /* its lines of the sheet, from its origin; empty: none */
    size_t ends[DRAWING_AXES][DRAWING_ENDS];              /* how many of its lines end at its sides */
    struct drawing_bits bits[DRAWING_AXES][DRAWING_ENDS]; /* near its low and its high side */
    size_t line_count;                                    /* bits of lines of the sheet that are seen */
    size_t whole_count, hidden_count;                     /* lines that it holds; of which nothing is seen */
};

struct drawing_tiling {
    struct arena *a;
    const struct drawing *d;
    struct drawing_scale scale;
    struct drawing_looks looks;
    struct drawing_tile *tiles; /* pages of one size, in the order of the file */
    size_t count;
    struct drawing_repeats lines; /* the shapes of its lines, by their place on the page */
    bool *furniture;              /* for each line of the drawing: it belongs to the pages, not to the sheet */
    bool *furniture_texts;        /* the same for its texts */
    double low[DRAWING_AXES], high[DRAWING_AXES];     /* what can be seen of the sheet on a page, from its origin */
    bool repeated;                                    /* pages hold far more than they show */
    bool windowed;                                    /* all pages show the sheet through one clip */
    double guides[DRAWING_AXES][DRAWING_GUIDES_MOST]; /* places of frames, marks and sides, from the origin */
    size_t guide_count[DRAWING_AXES];
};

/* Looks at pages of the size that most pages with lines have. Everything in `a`. */
struct drawing_tiling drawing_look_at_pages(struct arena *a, const struct drawing *d, struct drawing_scale scale);

/* The page's box, or what its clip leaves of it, mm as drawn. `clip` may be none. */
struct geometry_box drawing_seen_box(const struct drawing *d, int page, int clip);

/* Cuts a straight bit to a box; false when nothing of it lies within. */
bool drawing_clip_bit(const struct geometry_box *box, vec2 *from, vec2 *to);

#endif
