/* How things look on the table: widths and patterns of each kind of line, letter sizes, chalks. Lengths in mm on the
 * cloth; what a projector's pixels cannot carry grows until they can. Kinds of line are told apart by drawing alone,
 * after ISO 128's whole, dashed and long-short lines. */
#ifndef SCENE_LOOK_H
#define SCENE_LOOK_H

#include "paint/draw_list.h"

enum scene_line {
    SCENE_CUT,
    SCENE_SEAM,
    SCENE_FOLD,
    SCENE_GRAIN,
    SCENE_DART,
    SCENE_FOLD_LINE, /* pressed or folded along, within the piece */
    SCENE_LENGTHEN,
    SCENE_MATCH,
    SCENE_NOTCH,
    SCENE_DRILL,
    SCENE_BUTTON,
    SCENE_SQUARE,
    SCENE_RULING,
    SCENE_CROSS,
    SCENE_STICKER,
    SCENE_CLOTH_EDGE,
    SCENE_CUT_LATER,  /* the cut line of a piece that is not its turn yet … */
    SCENE_CUT_BEFORE, /* … and of one that is cut */
    SCENE_OVERLAP,    /* hatching of what two pieces share */
    SCENE_FLAW,       /* outline and hatching of a flaw of the cloth */
    SCENE_TICK,
    SCENE_SPAN_MARK,
    SCENE_LEADER, /* from letters beside a piece to the piece */
    SCENE_RULE,   /* the thin line that parts the strip from the cloth */
    SCENE_LINES
};

/* Two chalks: the main one for what is cut and written, the second for what is only told. */
struct scene_chalks {
    const char *name; /* of the main one */
    uint32_t main, second;
    double least_level, least_second_level; /* of full light, below which they are not seen; 0: not known */
    double dimmed;                          /* by how much of their light lines are dimmer while they pulse */
};

/* Every colour of light as the main one, with the second that it usually has. */
enum { SCENE_CHALKS = 6 };
extern const struct scene_chalks scene_chalks[SCENE_CHALKS];

#define SCENE_CUT_WIDTH_MM 3.0
#define SCENE_LEAST_STROKE_PX 1.5 /* thinner lines beat against the pixels */

/* Everything a frame's look is computed from. */
struct scene_look {
    double mm_per_px; /* the coarsest place of the frame */
    double weight_mm; /* of the cut line, as asked for */
    const struct scene_chalks *chalks;
};

/* The pen and ink of a kind of line: its own width and dashes, never finer than the pixels carry. */
struct paint_pen scene_pen(const struct scene_look *look, enum scene_line line);
struct paint_ink scene_ink(const struct scene_look *look, enum scene_line line);

/* The ink of letters. */
struct paint_ink scene_letter_ink(const struct scene_look *look);

/* The width a cut line really gets, mm. */
double scene_cut_width(const struct scene_look *look);

#define SCENE_LEAST_CAP_MM 12.0

/* Height of capitals, mm: at least 12 mm and high enough that the thinnest stroke of the letters, 0.141 of it in the
 * heavy face that was measured, is at least 1.5 mm and 2 px. */
double scene_cap_height(const struct scene_look *look);

#endif
