/* A read sheet as lines to work with: every curve flattened, every length in mm. First as its pages are drawn, each in
 * its own corner (drawing_flatten); later as one plane at true scale (drawing_join in pages.h). Beside the lines stand
 * the words and the layers. It knows nothing of pieces. */
#ifndef DRAWING_DRAWING_H
#define DRAWING_DRAWING_H

#include "base/arena.h"
#include "base/err_list.h"
#include "geometry/space.h"
#include "sheet/sheet.h"

#include <stdbool.h>
#include <stdint.h>

/* How far a chord may lie from its curve, mm: a fifth of what lifted outlines may be off is left to other steps. */
#define DRAWING_FLAT_MM 0.002

enum { DRAWING_NONE = -1 };

/* Of a whole sheet, flattened: 256 MiB. The largest sheet seen, 12 sizes on A0, has 200 000. */
enum { DRAWING_POINTS_MOST = 1 << 24 };

struct drawing_layer {
    const char *name;
    int parent; /* a layer before this one, or DRAWING_NONE */
    bool on;    /* unless the person says otherwise */
};

struct drawing_style {
    double width_mm; /* of a stroke; 0: as thin as can be */
    uint32_t rgb;    /* 0xRRGGBB */
    bool stroked, filled;
    bool even_odd;  /* where it is filled */
    bool lettering; /* outlines of letters */
    bool traced;    /* followed in a picture */
    const double *dash_mm;
    size_t dash_count;
};

/* One subpath. */
struct drawing_line {
    struct sheet_path path; /* at least one point; closed: as a closed path */
    int page, layer, style; /* layer may be DRAWING_NONE */
    int clip;               /* of the drawing's, or DRAWING_NONE: the page alone clips it */
    uint32_t item;          /* subpaths that were painted as one have the same; in painting order */
};

/* A run of letters with its words. Its outlines, where they are known, are lines of the same item. */
struct drawing_text {
    struct sheet_pt at; /* start of its baseline */
    vec2 along;         /* the way it runs, length 1 */
    double size_mm;     /* of its font */
    double length_mm;   /* along its baseline, as far as its outlines tell; else estimated from its size */
    const char *words;  /* UTF-8 */
    bool read;          /* from the outlines that its letters were drawn as */
    bool doubtful;      /* and one of them may be another letter */
    int page, layer, clip;
    uint32_t item;
};

struct drawing_page {
    double width_mm, height_mm;
    const char *label; /* or NULL */
    size_t first_line, line_count, first_text, text_count;
    size_t image_count;
    double dot_mm; /* of the picture its traced lines were followed in; 0: not known */
};

struct drawing {
    const struct drawing_page *pages;
    size_t page_count;
    const struct drawing_layer *layers;
    size_t layer_count;
    const struct drawing_style *styles;
    size_t style_count;
    const struct drawing_line *lines; /* page after page, in painting order */
    size_t line_count;
    const struct drawing_text *texts;
    size_t text_count;
    const struct geometry_box *clips; /* of what lies outside nothing is seen, though lines come whole */
    size_t clip_count;
};

/* The sheet's lines and words, each page about its own lower left corner, as large as the file has it. What is neither
 * stroked nor filled is left out. Lives in `a`, but names and words in the sheet. False, and told, when there is more
 * than a program can work on (DRAWING_POINTS_MOST). */
bool drawing_flatten(struct arena *a, const struct sheet *sheet, struct drawing *out, struct err_list *errs);

/* A layer and all above it are on. `on` has one for each layer. */
bool drawing_layer_shows(const struct drawing *d, const bool *on, int layer);

/* Whether the layer is `above` or lies below it. */
bool drawing_layer_within(const struct drawing *d, int layer, int above);

#endif
