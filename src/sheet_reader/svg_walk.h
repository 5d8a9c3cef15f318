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

enum { SVG_HELD_MOST = 8 };

/* A picture that was drawn before anything else. */
struct svg_picture {
    const char *bytes;
    size_t count;
    uint32_t width, height;    /* dots */
    struct svg_matrix to_page; /* of its unit square, origin at the top left, the second axis down */
    uint32_t layer;
    bool clipped;
    struct sheet_clip clip;
};

struct svg_walk {
    struct collect *c;
    struct arena *a;
    struct svg_ids ids;
    struct svg_rules rules;
    size_t drawn;  /* elements so far, those drawn again by use included */
    size_t layers; /* made so far */
    struct svg_picture held[SVG_HELD_MOST];
    size_t held_count;
    bool drawn_other; /* than pictures */
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
    bool clipped;
    struct sheet_clip clip; /* what is seen, mm, if it is clipped */
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

/* What its look says of clips and masks comes into force. */
void svg_clip_enter(struct svg_walk *w, struct svg_place *at);

/* So does the edge of a viewport in `at`'s units. */
void svg_clip_enter_port(struct svg_walk *w, const struct svg_box *port, struct svg_place *at);

/* An image element. */
void svg_draw_image(struct svg_walk *w, const xmlNode *node, const struct svg_place *at);

/* At the end of a drawing that is pictures alone: they are followed along their ink. */
void svg_images_end(struct svg_walk *w);

/* Before each item other than a held picture: held ones are put down, and what comes is seen as at this place. */
void svg_begin(struct svg_walk *w, const struct svg_place *at);

/* The outline of a shape, or of the shape that a use draws again, goes into a clip; what draws nothing does not. False
 * when it is no shape. */
bool svg_outline(struct svg_walk *w, const xmlNode *node, const struct svg_place *parent, struct clip_shape *clip);

/* Its own transform comes into force. */
void svg_enter_transform(struct svg_walk *w, const xmlNode *node, struct svg_place *at);

/* Whether there is room for one more element; a drawing that asks for too many is told as too large. */
bool svg_may_draw(struct svg_walk *w, const struct svg_place *at);

/* A length given by an attribute; `fallback` when it is not there or not one. `whole` is what per cent are of. */
double svg_length_of(struct svg_walk *w, const xmlNode *node, const char *name, const struct svg_place *at,
                     double whole, double fallback);

#endif
