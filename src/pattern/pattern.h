/* A pattern as it is written: names resolved to indices, lengths in mm, nothing evaluated or drafted yet. */
#ifndef PATTERN_PATTERN_H
#define PATTERN_PATTERN_H

#include "base/err_list.h"
#include "pattern/value.h"
#include "units/length.h"

#include <stdbool.h>

enum { PATTERN_VERSION = 2 /* 1: the outline is always the stitching line */, PATTERN_NONE = -1 };

#define PATTERN_BUST "bust" /* the body measurement that picks the cup group */

/* What the outlines of a pattern's pieces are: where they are sewn, the allowances outside, or where they are cut, the
 * allowances inside. */
enum pattern_outline { PATTERN_STITCHING_LINE, PATTERN_CUTTING_LINE };

/* A row of the size chart: a body measurement with one length for each size. */
struct pattern_row {
    const char *name;
    struct pattern_value value;
    struct err_place place;
};

struct pattern_cup_group {
    const char *name;
    struct pattern_value bust; /* the full bust it is drawn for; given for all groups or for none */
    struct err_place place;
};

/* Of the sewn garment where the body has the measurement of that name: what it measures, or the ease it is meant to
 * have there. */
struct pattern_finished {
    const char *name;
    const struct pattern_value *written;  /* one for each cup group, or a single one in a pattern without */
    const struct pattern_value *by_group; /* what they come to in the sizes of the chart: no formulas */
    struct err_place place;
};

/* A share of a girth: how wide a piece is along a level line, square to its grain, or how long an edge or curve is. */
struct pattern_girth_part {
    int piece;
    int level; /* a point of the piece on the line, or PATTERN_NONE: an edge */
    int edge;  /* an edge or curve of the piece, or PATTERN_NONE: a level line */
    int times; /* that it goes into the girth */
    struct err_place place;
};

/* How the sewn garment is measured on its pieces where the body has the measurement of that name. */
struct pattern_girth {
    const char *name;
    const struct pattern_girth_part *parts;
    size_t part_count;
    struct err_place place;
};

/* A value that formulas call by name. */
struct pattern_named {
    const char *name;
    struct pattern_value value;
    struct err_place place;
};

/* How a point is found: the constructions of plane geometry. `of` and `v` are what the comment says, in that order. */
enum pattern_point_kind {
    PATTERN_POINT_AT,      /* v: across, up, in piece space */
    PATTERN_POINT_BY,      /* of: a point; v: how far across and up from it */
    PATTERN_POINT_POLAR,   /* of: a point; v: direction in degrees, distance */
    PATTERN_POINT_TOWARDS, /* of: a point, another; v: distance from the first on the way to the second */
    PATTERN_POINT_SHARE,   /* the same; v: share of the way */
    PATTERN_POINT_ON,      /* of: an edge; v: distance from its start, distance to its left */
    PATTERN_POINT_ON_END,  /* the same from its end backwards */
    PATTERN_POINT_MEET,    /* of: two points of a line, two of another: where the lines meet */
    PATTERN_POINT_CROSS,   /* of: an edge, two points of a line: where the edge first meets it */
    PATTERN_POINT_FOOT,    /* of: a point, two points of a line: the foot of the perpendicular on it */
    PATTERN_POINT_TURN,    /* of: a point, a centre; v: degrees, counter-clockwise */
    PATTERN_POINT_MIRROR,  /* of: a point, two points of the line it is mirrored in */
    PATTERN_POINT_REACH,   /* of: a centre, two points of a line; v: radius: where the circle meets the line, nearer
                              to the second point */
    PATTERN_POINT_SAME     /* of: a point, often another piece's */
};

struct pattern_point {
    const char *name;
    enum pattern_point_kind kind;
    struct pattern_ref of[4];
    struct pattern_value v[2];
    struct err_place place;
};

enum pattern_step_kind {
    PATTERN_STEP_LINE,
    PATTERN_STEP_CUBIC,    /* Bézier with two controls */
    PATTERN_STEP_TANGENTS, /* the same, told by the directions it leaves and arrives in */
    PATTERN_STEP_ARC,      /* about a centre, by an angle */
    PATTERN_STEP_THROUGH,  /* a smooth curve through points */
    PATTERN_STEP_ALONG     /* along another edge, or beside it */
};

/* One step of an edge, from where the one before ended to `end`. Points are indices in the piece. */
struct pattern_step {
    enum pattern_step_kind kind;
    int end;
    int control[2];     /* cubic */
    int centre;         /* arc */
    const int *through; /* through: the points on the way, `end` last */
    size_t through_count;
    struct pattern_value angle;         /* arc: degrees, counter-clockwise */
    struct pattern_value leave, arrive; /* tangents, through: direction of travel in degrees; through: may be absent */
    struct pattern_value pull[2];       /* tangents: the controls' distances as shares of the way; absent: a third */
    struct pattern_ref along;           /* along: the edge */
    struct pattern_value beside;        /* along: distance to the edge's left, as it is written */
    bool backwards;                     /* along: from its end to its start */
    struct err_place place;
};

/* How an edge's allowance ends at its corner with the next: what a person cuts there. */
enum pattern_end {
    PATTERN_END_MITRE,       /* both cut lines run on to where they meet; as the neighbour says, where that says more */
    PATTERN_END_SQUARE,      /* square to this edge's stitching line, from there on as long as the neighbour's seam */
    PATTERN_END_FOLDED_BACK, /* so that it lies on the neighbour's cut line when it is folded up */
    PATTERN_END_CLIPPED      /* across the corner */
};

/* An edge of the outline, or a curve that is drawn to measure and construct by. */
struct pattern_edge {
    const char *name;
    int start; /* point index */
    const struct pattern_step *steps;
    size_t step_count;
    struct pattern_value allowance;
    struct err_place place;   /* of a rectangle's edges the piece's */
    enum pattern_end ends[2]; /* at its start, at its end; at the fold they are mitres */
};

/* One cut, or two that meet inside the allowance. */
enum pattern_notch_shape { PATTERN_SLIT, PATTERN_V };

/* A snip into the allowance that meets another piece's. Its place is a distance along the stitching line of its edge,
 * any dart's mouth on the way included. */
struct pattern_notch {
    int edge;
    struct pattern_value at; /* from the edge's start, or, from_end, back from its end */
    bool from_end;
    enum pattern_notch_shape shape;
    bool is_double;
    double apart_mm; /* between the two places of a double notch, half to either side */
    struct err_place place;
};

/* A hole for the awl: where a dart ends, a pocket is set on. */
struct pattern_drill_mark {
    int point;
    struct err_place place;
};

/* To which side a sewn dart lies, by the way its edge is written; its mouth is cut to that. Not told: the mouth is cut
 * as it is drawn. */
enum pattern_dart_fold { PATTERN_NOT_FOLDED, PATTERN_FOLD_TO_START, PATTERN_FOLD_TO_END };

/* A fold sewn into the piece; the stitching line between its legs (the mouth) is sewn away. */
struct pattern_dart {
    int edge;    /* both legs begin on it */
    int legs[2]; /* points */
    int apex;    /* point */
    enum pattern_dart_fold fold;
    struct err_place place;
};

enum pattern_line_kind {
    PATTERN_LINE_DART,
    PATTERN_LINE_FOLD,
    PATTERN_LINE_LENGTHEN,
    PATTERN_LINE_MATCH,
    PATTERN_LINE_PLACEMENT,
    PATTERN_LINE_BUTTONHOLE
};

/* A line that is marked, not cut: folded along, lengthened or shortened at, laid on another piece's for the cloth's
 * stripes to meet, or where something is set on. */
struct pattern_line {
    enum pattern_line_kind kind; /* a dart's are drafted from struct pattern_dart, buttonholes from pattern_buttons */
    int ends[2];                 /* points */
    const char *name;            /* of a lengthen line, or NULL: all of one name are lengthened together */
    int measure;                 /* of a lengthen line: the figure whose length it changes, or PATTERN_NONE */
    const char *label;           /* what is written beside it, or NULL */
    struct err_place place;
};

enum pattern_button_kind { PATTERN_BUTTON, PATTERN_BUTTONHOLE };

enum { PATTERN_MOST_BUTTONS = 100 }; /* in a row; a bridal back has about 60 (common practice, no source) */

/* How many: a whole number from 1 on, or a formula that must come to one. */
struct pattern_count {
    int number;
    const struct pattern_formula *formula; /* or NULL */
    int most;                              /* that a formula may come to */
};

/* Buttons or buttonholes in a row, at equal distances. */
struct pattern_buttons {
    enum pattern_button_kind kind;
    int ends[2];                      /* points; the line they stand on */
    struct pattern_count count;       /* at most PATTERN_MOST_BUTTONS; a single one stands at `first` */
    struct pattern_value first, last; /* how far the first is from its start, the last from its end; absent: 0 */
    struct pattern_value length;      /* of a buttonhole, half of it to either side of the place */
    bool across;                      /* a buttonhole runs square to the line, not along it */
    struct err_place place;
};

/* Slashes for a fuller bust, all from the apex: to the hinge in the armhole, which stays whole, to the side seam and to
 * the waist, which open. Point indices; `side` is the slash's upper and lower end on the side seam, `waist` its outer
 * and inner end on the lower edge: legs of darts, or of darts that are not there yet. */
struct pattern_bust_spread {
    int apex, hinge, side[2], waist[2];
};

struct pattern_piece {
    const char *name, *label;
    int cup_group; /* PATTERN_NONE: in every cup group */
    const struct pattern_point *points;
    size_t point_count;
    const struct pattern_named *values;
    size_t value_count;
    const struct pattern_edge *edges; /* in order around the piece: the outline; then the curves */
    size_t edge_count;                /* without the curves */
    size_t curve_count;
    bool is_rectangle; /* given by width and height */
    int fold;          /* edge lying on the fold, or PATTERN_NONE */
    int grain[2];      /* two points the grain runs through; PATTERN_NONE: not given, along +y */
    int label_at;      /* point, or PATTERN_NONE: the centre of area */
    const struct pattern_notch *notches;
    size_t notch_count;
    const struct pattern_drill_mark *drill_marks;
    size_t drill_mark_count;
    const struct pattern_dart *darts;
    size_t dart_count;
    const struct pattern_line *lines;
    size_t line_count;
    const int *levels;                             /* of each point: the row of the chart it follows in a blend, or
                                                      PATTERN_NONE: as its neighbours on the outline do; NULL: none has */
    const struct pattern_bust_spread *bust_spread; /* NULL: it is not marked */
    bool left_out_of_trial;                        /* no part of a trial garment: facings, pockets */
    const struct pattern_buttons *button_rows;
    size_t button_row_count;
    struct err_place place;
};

/* An edge on a side of a seam, and how the seam walks it. */
struct pattern_edge_ref {
    int piece, edge;
    bool backwards;  /* from its end to its start */
    bool mark_after; /* where it meets the next edge is a mark of the seam, as a notch is */
};

/* Whether a seam's ratio may be that: from 0.01 to 100. */
bool pattern_is_seam_ratio(double ratio);

/* Two rows of edges sewn together. Both are walked from the same end of the seam; their marks meet in order and divide
 * it into intervals. */
struct pattern_seam {
    const char *name, *label;
    struct {
        const struct pattern_edge_ref *edges; /* as walked */
        size_t count;
    } sides[2];
    struct pattern_value ratio;            /* first side over second; given: neither of the others is */
    struct pattern_value difference;       /* first side minus second; shared out by length */
    const struct pattern_value *intervals; /* first side minus second, one for each interval, or NULL */
    size_t interval_count;
    int cup_group; /* the one it holds in, or PATTERN_NONE */
    struct err_place place;
};

enum pattern_cloth { PATTERN_FABRIC, PATTERN_INTERFACING, PATTERN_LINING };

/* A piece is drawn as the right hand one; its mirror image is the left. */
enum pattern_hand { PATTERN_AS_DRAWN, PATTERN_LEFT, PATTERN_RIGHT, PATTERN_PAIRS };

/* The side of the cloth that a piece's interfacing is fused on. */
enum pattern_side { PATTERN_WRONG_SIDE, PATTERN_RIGHT_SIDE };

enum { PATTERN_MOST_COPIES = 999 }; /* of one line of a list */

struct pattern_cut {
    int piece;
    struct pattern_count count; /* of pieces, or, of pairs, of pairs */
    enum pattern_cloth cloth;
    enum pattern_hand hand; /* PATTERN_PAIRS: half of them mirrored */
    enum pattern_side fuse; /* of interfacing */
};

/* What else is needed to sew: buttons, elastic. */
struct pattern_notion {
    const char *name;
    struct pattern_count count;        /* of pieces that long, of that size */
    struct pattern_value size, length; /* how wide a button is, how long an elastic; often not given */
    struct err_place place;
};

struct pattern_notions {
    const struct pattern_notion *items;
    size_t count;
};

/* One version of the garment with its cutting list. */
struct pattern_view {
    const char *name, *label;
    const char *shown; /* the name as a person reads it */
    const struct pattern_cut *cuts;
    size_t cut_count;
    struct pattern_notions notions; /* besides those of all views */
};

/* What the maker calls something in another language than the file's own. */
struct pattern_wording {
    const char *text, *words;
};

/* Names are as the file has them, and what is told apart by. Labels, the pattern's own name and notions' are as a
 * person reads them: in her language, where the file words them in it. */
struct pattern {
    const char *name;
    enum units_length unit;
    enum pattern_outline outline;
    const char *const *sizes;
    size_t size_count;
    const struct pattern_row *chart;
    size_t row_count;
    int main_row;               /* the row that picks the size; PATTERN_NONE: there is no chart, sizes are named */
    bool made_to_body;          /* drafted to the body's own figures unless the person wants a size */
    const char *const *figures; /* what formulas see of a body: the chart's rows, in its order, then the full bust of
                                   the cup groups where no row has it, then measurements without a row */
    size_t figure_count;
    const struct pattern_named *values;
    size_t value_count;
    const struct pattern_cup_group *cup_groups;
    size_t cup_group_count;
    const struct pattern_finished *finished;
    size_t finished_count;
    const struct pattern_finished *ease; /* intended: finished less body */
    size_t ease_count;
    const struct pattern_girth *girths;
    size_t girth_count;
    const struct pattern_piece *pieces;
    size_t piece_count;
    const struct pattern_seam *seams;
    size_t seam_count;
    const struct pattern_view *views;
    size_t view_count;
    struct pattern_notions notions;         /* of all views */
    const struct pattern_wording *wordings; /* in the language in use when it was read, by their texts */
    size_t wording_count;
};

/* Whether sizes can be picked by measurements, and cup groups by the full bust. */
bool pattern_has_chart(const struct pattern *p);
bool pattern_has_group_busts(const struct pattern *p);

/* Index of that name, or PATTERN_NONE. */
int pattern_find_row(const struct pattern *p, const char *name);
int pattern_find_size(const struct pattern *p, const char *name);
int pattern_find_cup_group(const struct pattern *p, const char *name);
int pattern_find_piece(const struct pattern *p, const char *name);
int pattern_find_view(const struct pattern *p, const char *name);
int pattern_find_figure(const struct pattern *p, const char *name);
int pattern_find_edge(const struct pattern_piece *piece, const char *name);
int pattern_find_edge_or_curve(const struct pattern_piece *piece, const char *name);
int pattern_find_point(const struct pattern_piece *piece, const char *name);

/* A place of the size chart by its name: a size ("12"), half way between two neighbours ("12 to 14"), or another share
 * of the way in whole percent ("12 to 14 at 40%"). A size that is called so itself goes first. Sizes' names are free
 * texts, so that "12.4" says nothing of what lies between 12 and 14. False, *position untouched, when it is none. */
bool pattern_find_position(const struct pattern *p, const char *name, double *position);

/* That many percent of the way from a size to the next. */
double pattern_position_between(size_t lower, int percent);

/* The name of a place of the chart, in `a` where it lies between two sizes; rounded to whole percent. */
const char *pattern_size_text(struct arena *a, const struct pattern *p, double position);

/* The same as a person reads it, in her language. */
const char *pattern_size_shown(struct arena *a, const struct pattern *p, double position);

/* What the maker calls a name in the language in use, a name with commas part by part ("side, knee"), in `a` then;
 * itself where the file does not word it. */
const char *pattern_worded(struct arena *a, const struct pattern *p, const char *name);

/* The body measurement that the pattern is drawn for: the full bust by cup group (when there are any and one is
 * given), anything else by the row of the chart. Its count is 0 when the pattern says nothing of it. */
struct pattern_value pattern_drawn_for(const struct pattern *p, const char *name, int cup_group);

/* The finished measurement at the same place of the garment; its count is 0 when it is not given. */
struct pattern_value pattern_finished(const struct pattern *p, const char *name, int cup_group);

/* The ease that is meant there, finished less body, below zero for a garment closer than it; likewise. */
struct pattern_value pattern_intended_ease(const struct pattern *p, const char *name, int cup_group);

/* "stitching line", "cutting line". */
const char *pattern_outline_name(enum pattern_outline outline);

/* How that measurement is taken on the pieces, or NULL. */
const struct pattern_girth *pattern_find_girth(const struct pattern *p, const char *name);

/* "fabric", "interfacing", "lining". */
const char *pattern_cloth_name(enum pattern_cloth cloth);

/* "wrong side", "right side". */
const char *pattern_side_name(enum pattern_side side);

/* "dart", "fold", "lengthen", "match", "placement", "buttonhole". */
const char *pattern_line_name(enum pattern_line_kind kind);

/* "button", "buttonhole". */
const char *pattern_button_name(enum pattern_button_kind kind);

/* "start", "end"; of a dart that is not folded "". */
const char *pattern_dart_fold_name(enum pattern_dart_fold fold);

/* How many marks a side of a seam has: the notches of its edges, and the joints that count. */
size_t pattern_seam_marks(const struct pattern *p, const struct pattern_seam *seam, int side);

/* Whether a piece of that cup group takes part when `chosen` is cut. */
bool pattern_in_cup_group(int group, int chosen);

#endif
