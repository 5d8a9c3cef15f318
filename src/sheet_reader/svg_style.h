/* What an element looks like: presentation attributes, style sheets with selectors of types, classes and ids, and
 * style attributes, in the order of the cascade (CSS 2.1, 6.4). */
#ifndef SHEET_READER_SVG_STYLE_H
#define SHEET_READER_SVG_STYLE_H

#include "sheet_reader/svg_node.h"

#include <stdint.h>

struct svg_paint {
    bool painted;
    bool current; /* with the look's colour */
    bool pattern; /* a pattern or gradient: rgb is what is painted without it */
    uint32_t rgb;
};

struct svg_look {
    struct svg_paint fill, stroke;
    uint32_t colour;
    double stroke_width;
    bool fixed_width; /* vector-effect: non-scaling-stroke */
    const double *dashes;
    size_t dash_count;
    bool even_odd;
    double fill_opacity, stroke_opacity;
    double font_size;
    bool visible;
    bool displayed; /* its own */
    double opacity;
    const char *clip, *mask; /* its own: what the property says; NULL: none */
    bool overflows;          /* its own: what lies outside its viewport is seen */
};

/* How a drawing starts (CSS and SVG initial values). */
struct svg_look svg_look_first(void);

struct svg_rules {
    const struct svg_rule *rows; /* the weakest first */
    size_t count;
};

/* The rules of all style elements within `root`. What is not understood is left out. */
struct svg_rules svg_rules_of(struct arena *a, const xmlNode *root);

/* What an element looks like within one that looks like `parent`. `diagonal` is what per cent of a stroke's width
 * are of. Its opacity is its own times its parent's. */
struct svg_look svg_look_of(struct arena *a, const struct svg_rules *rules, const xmlNode *node,
                            const struct svg_look *parent, double diagonal);

#endif
