/* The walk through a drawing: what is known of the whole, and of the place where it is. */
#ifndef SHEET_READER_SVG_WALK_H
#define SHEET_READER_SVG_WALK_H

#include "sheet_reader/collect.h"
#include "sheet_reader/svg_path.h"
#include "sheet_reader/svg_style.h"

/* What is not read, counted. */
enum svg_left_out {
    SVG_LEFT_IMAGES,
    SVG_LEFT_FOREIGN,
    SVG_LEFT_CLIPS,
    SVG_LEFT_MASKS,
    SVG_LEFT_LOST_USES,
    SVG_LEFT_DEPTH,
    SVG_LEFT_KINDS
};

struct svg_walk {
    struct collect *c;
    struct arena *a;
    struct svg_ids ids;
    struct svg_rules rules;
    size_t drawn;  /* elements so far, those drawn again by use included */
    size_t layers; /* made so far */
    uint32_t left_out[SVG_LEFT_KINDS];
    uint32_t hidden; /* things that are not shown and of no layer */
    uint32_t faults; /* paths, transforms and lengths that could not be read to their end */
};

struct svg_place {
    struct svg_matrix to_page; /* mm, y up */
    struct svg_look look;
    uint32_t layer;
    double width, height; /* of the viewport, in user units: what per cent are of */
    int depth;
    bool in_use;
};

/* An element and all within it. */
void svg_draw_node(struct svg_walk *w, const xmlNode *node, const struct svg_place *parent);

/* All that stands within an element. */
void svg_draw_children(struct svg_walk *w, const xmlNode *node, const struct svg_place *at);

/* A text element, as a run for each place that it gives. */
void svg_draw_text(struct svg_walk *w, const xmlNode *node, const struct svg_place *at);

/* What is within an element comes into a viewport in `at`'s units, by its viewBox if it has one. */
void svg_enter_port(struct svg_walk *w, const xmlNode *node, struct svg_box port, struct svg_place *at);

/* The style of what is drawn at a place, in mm. */
struct collect_style svg_style_at(struct svg_walk *w, const struct svg_place *at);

/* A length given by an attribute; `fallback` when it is not there or not one. `whole` is what per cent are of. */
double svg_length_of(struct svg_walk *w, const xmlNode *node, const char *name, const struct svg_place *at,
                     double whole, double fallback);

#endif
