/* A layout on its cloth, as the table shows it: pieces where they lie, the cloth's edges, marks to be chalked, and
 * crosses that are nudged onto the cloth. */
#ifndef SCENE_LAYOUT_H
#define SCENE_LAYOUT_H

#include "geometry/turn.h"
#include "scene/scene.h"

enum scene_laid_state {
    SCENE_TO_COME, /* its cut line, thin, and its name */
    SCENE_TO_CUT,  /* all of it */
    SCENE_IS_CUT   /* dashed and dim, with a tick and its name */
};

/* A piece where it lies. */
struct scene_laid {
    struct scene_piece piece; /* not mirrored: the mover is */
    struct geometry_mover to_table;
    enum scene_laid_state state;
    bool parted; /* longer than the light reaches: part of it lies outside, and that is right */
};

enum scene_layout_line_kind {
    SCENE_EDGE_FOLD, /* the fold's line … */
    SCENE_EDGE_TORN, /* … or an edge of the cloth, with teeth toward the cloth at its left */
    SCENE_EDGE_PART, /* as far as a piece is cut before the cloth is slid */
    SCENE_EDGE_TAPE, /* to be measured, with bars at its ends */
    SCENE_EDGE_GRAIN /* the cloth's grain, with an arrow's heads */
};

struct scene_layout_line {
    enum scene_layout_line_kind kind;
    struct table_pt ends[2];
    const char *label; /* at its middle, or NULL */
};

enum scene_layout_mark_kind {
    SCENE_MARK_CHALK, /* to be chalked on the cloth, or chalked: bars along and across the cloth */
    SCENE_MARK_LINE   /* a point of light that is nudged onto a line of the cloth: a bar across that line */
};

struct scene_layout_mark {
    enum scene_layout_mark_kind kind;
    const char *name;
    struct table_pt at;
    vec2 along; /* unit vector of the cloth's length on the table; of SCENE_MARK_LINE: of its line */
    bool in_hand;
};

/* Two pieces that lie over each other: what they share is hatched. */
struct scene_layout_overlap {
    size_t laid[2];
    const char *amount;
};

struct scene_layout {
    const struct scene_laid *laid;
    size_t laid_count;
    const struct scene_layout_line *lines;
    size_t line_count;
    const struct scene_layout_mark *marks;
    size_t mark_count;
    const struct scene_layout_overlap *overlaps;
    size_t overlap_count;
    const struct table_path *flaws; /* of the cloth: nothing is cut out of them */
    size_t flaw_count;
    const char *flaw_label;
    bool one_way; /* the cloth has a nap: arrows of the grain have one head */
};

#endif
