/* The lay of a length of cloth as a small picture, to arrange it by: pieces thin, with names and grain, on the cloth
 * with its edges, folds and a ruler. Nothing on it is true to scale, and no line is one to cut along. */
#ifndef SCENE_ARRANGE_H
#define SCENE_ARRANGE_H

#include "cloth/cloth.h"
#include "scene/scene.h"

struct scene_names;

/* A piece where it lies. */
struct scene_arrange_piece {
    struct cloth_path outline; /* closed */
    vec2 grain;                /* the way its grain runs, length 1: from the tail to the head */
    bool one_way;              /* an arrow with one head */
    const char *name;
    bool in_hand; /* bright, its name on a lit band */
    bool held;    /* in place: a pin's head beside its name */
    bool cut;     /* out of the cloth already: dim, hatched and its outline dashed */
};

/* What two outlines share, hatched, with the amount in letters. */
struct scene_arrange_overlap {
    struct cloth_path over[2]; /* closed */
    const char *amount;        /* or NULL */
};

struct scene_arrange {
    const char *title;
    const char *const *lines; /* sentences; a NULL ends them */
    const struct cloth_spread *spread;
    const char *near_edge, *far_edge; /* what the cloth's long edges are: "Fold", "Selvedge"; NULL: nothing is said */
    struct cloth_path block;          /* fused before anything is cut; without points: nothing is */
    double needs_mm;                  /* where the last piece ends */
    const char *needs;                /* the same in words, or NULL */
    const struct scene_arrange_piece *pieces;
    size_t piece_count;
    const struct scene_arrange_overlap *overlaps;
    size_t overlap_count;
    enum units_length unit;    /* of the ruler */
    struct scene_names *names; /* where names stood in the picture before (scene/names.h); NULL: all are placed anew */
};

/* The frame's draw list, all in pixels; everything lives in `a`. Of the view: map, font, look, side, strip and notice.
 * The cloth's length runs to her right, its near edge lies near her, from wherever she stands. */
struct paint_scene scene_arrange(struct arena *a, const struct scene_view *view, const struct scene_arrange *arrange);

#endif
