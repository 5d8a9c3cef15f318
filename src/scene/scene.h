/* What each view of the table shows, as a draw list: pieces at true scale and the words about them. */
#ifndef SCENE_SCENE_H
#define SCENE_SCENE_H

#include "calibration/doubt.h"
#include "calibration/mat.h"
#include "draft/draft.h"
#include "geometry/map.h"
#include "geometry/turn.h"
#include "scene/look.h"
#include "scene/page.h"
#include "text/font.h"
#include "units/length.h"

enum scene_mode {
    SCENE_PIECES,
    SCENE_TEST_SQUARE,
    SCENE_TEST_FRAME,
    SCENE_STICKERS,
    SCENE_DOUBT,
    SCENE_TRIAL,
    SCENE_BLANK,
    SCENE_WORK_LIGHT,
    SCENE_LIST,
    SCENE_HELP
};

/* SCENE_TEST_SQUARE: a small square for a rule. SCENE_TEST_FRAME: the largest rectangle of round lengths that the light
 * holds, with both diagonals, for a tape: a small square cannot judge a wide light. SCENE_STICKERS: nothing but the
 * marks on the check stickers, one of them in hand. SCENE_DOUBT: how true the table is, all over the light.
 * SCENE_TRIAL: a bar of each colour of light. SCENE_BLANK: dark. SCENE_WORK_LIGHT: white all over, to work by.
 * SCENE_LIST: lines as help has them, of what is left. */

/* One piece to draw with what is written on it, lines of which may be NULL. */
struct scene_piece {
    const struct draft_piece *piece;
    bool mirrored; /* the left one of a piece that is drawn as the right one */
    const char *lines[2];
    bool must_tell; /* the first of them, wherever the letters come to stand: without it the wrong copy is kept */
    bool in_hand;   /* its letters stand unlit on a lit ground */
};

/* One line of the help page: key on the left, what it does on the right; no key: a sentence over both. */
struct scene_help_line {
    const char *key, *what;
};

struct scene_layout; /* scene/layout.h */

struct scene_view {
    const struct geometry_map *map;
    const struct calibration_mat *mat; /* its rulings are drawn when asked for; without a name there are none */
    struct text_font *font;            /* NULL: no letters */
    struct scene_look look;
    enum scene_side side;
    enum scene_mode mode;
    bool rulings;
    enum scene_side strip_edge; /* where the strip stands, as she sees it: at her left and right its words run away from
                                   her; near as a rule */
    bool left_handed;           /* what stands beside marks stands at their other side */
    bool band;                  /* words stand unlit on a lit band: prints run through letters of light */
    const struct scene_piece *pieces;
    size_t piece_count;
    const struct scene_layout *layout; /* pieces where they lie on their cloth, instead of those above; or NULL */
    bool cut_outer_edge; /* the cut line's outer edge is to be cut, not its middle: its light lies all inside */
    struct geometry_motion motion; /* of the group of pieces about the middle of the light */
    double square_mm;              /* side of the test square */
    enum units_length test_unit;   /* in which its length, and those of the test frame, are written */
    const struct scene_help_line *help;
    size_t help_count;
    const char *strip_left, *strip_right;  /* what to do now; what is left */
    const char *strip_less;                /* what to do now in fewer words, where there is little room; or NULL */
    const char *outside;                   /* what to do where a piece lies partly outside the light */
    const char *notice;                    /* a warning across the far edge, or NULL */
    bool notice_in_a_row;                  /* less of it where that is too short: more would cover what is cut */
    const struct calibration_doubt *doubt; /* of the table, for SCENE_DOUBT … */
    enum scene_doubt_of doubt_of;          /* … of places or of lines */
    const struct px_pt *stickers;       /* where marks of light lie on check stickers; in all but help and darkness */
    int sticker_count, sticker_in_hand; /* in hand: the one that is moved, from 0; -1 when none is */
};

/* From the middle of the mark on a check sticker as far as words and cloth keep off it. */
#define SCENE_STICKER_MM 25.0

/* The frame's draw list; everything lives in `a`. Pieces in rows (geometry/rows.h), their group's middle on the middle
 * of the light. */
struct paint_scene scene_make(struct arena *a, const struct scene_view *view);

/* The middle of the light that pieces may use, by the view's map, look, side and strip's edge: what the strip takes is
 * not for them. */
struct geometry_box scene_usable_light(const struct scene_view *view);

/* What of it a notice leaves, which stands across the far side, or across the near one where the strip is there. */
struct geometry_box scene_clear_light(const struct scene_view *view);

#endif
