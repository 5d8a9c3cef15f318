/* A pattern on its way to its sizes: what is worked out already, and what is being worked out. Not for other folders.
 */
#ifndef DRAFT_SIZER_H
#define DRAFT_SIZER_H

#include "draft/sized.h"
#include "geometry/cubic.h"

enum sizer_state { SIZER_UNTOUCHED, SIZER_BUSY, SIZER_DONE, SIZER_FAILED };

struct sizer_point {
    enum sizer_state state;
    vec2 at;
};

/* An edge as it runs: cubics end to start; a straight one has its controls on its ends. */
struct sizer_curve {
    const struct geometry_cubic *parts;
    const int *ends; /* the point that each part ends at, or PATTERN_NONE between the points of a step */
    size_t count;
};

struct sizer_edge {
    enum sizer_state state;
    struct sizer_curve curve;
    struct geometry_path path; /* flattened */
    double length_mm;
};

/* A named value at one size position: in a blend every point asks at its own. */
struct sizer_value {
    double position, number;
    enum sizer_state state;
    struct sizer_value *next;
};

/* All that are known of one named value. */
struct sizer_values {
    struct sizer_value *first;
};

/* A piece sees its own points and edges as they are written; other pieces, and who cuts it, see them altered. */
enum sizer_view { SIZER_WRITTEN, SIZER_ALTERED, SIZER_VIEWS };

struct sizer_change;

/* The edges as they are sewn, where they are drawn as they are cut. */
struct sizer_sewn {
    enum sizer_state state;
    struct sizer_edge *edges; /* without curves */
    bool none;                /* no stitching line can be drawn: they are where it is cut */
};

struct sizer_piece {
    struct sizer_point *points[SIZER_VIEWS];
    struct sizer_edge *edges[SIZER_VIEWS];
    struct sizer_sewn sewn[SIZER_VIEWS];
    struct sizer_values *values; /* one for each */
    const double *position;      /* of each point; NULL: the figure's */
    struct sizer_change *change; /* how it is altered; NULL: not known yet */
};

enum sizer_kind { SIZER_POINT, SIZER_EDGE, SIZER_NAMED };

/* Curves are made of points, and some constructions look at every point of an edge; all that looking is bounded, so
 * that no file keeps the program busy for minutes. A pattern of 50 pieces comes to less than a hundredth. A point that
 * is made counts more than one looked at, for what comes later. */
enum { SIZER_MOST = 20000000, SIZER_MADE = 10 };

/* What leans on what, from the first that was asked for to the one at hand. */
struct sizer_step {
    enum sizer_kind kind;
    struct pattern_ref ref;
    const struct pattern_formula *asked_by; /* NULL: a construction or a path asks for it */
};

enum { SIZER_DEEPEST = 1200 }; /* what leans on what, in a row: more than any pattern has, less than the stack holds */

struct sizer {
    struct arena *a;
    const struct pattern *pattern;
    struct draft_figure figure;
    struct err_list *errs;
    struct sizer_piece *pieces;
    struct sizer_values *values; /* of the pattern */
    struct sizer_step trail[SIZER_DEEPEST];
    size_t depth;
    const struct pattern_formula *formula; /* that is worked out for the trail's end, or NULL */
    int home;     /* whose values are asked for while the trail is empty; PATTERN_NONE: nobody's */
    size_t spent; /* of SIZER_MOST */
};

/* Whether that may be worked out now: puts it on the trail, or tells that it leans on itself or that the trail is too
 * long. Whoever got true takes it off again by sizer_leave. */
bool sizer_enter(struct sizer *z, enum sizer_state *state, enum sizer_kind kind, struct pattern_ref ref);
void sizer_leave(struct sizer *z);

/* What a value comes to, in mm or as a plain number; false when it was told that it has no answer. */
bool sizer_reckon(struct sizer *z, const struct pattern_value *value, double position, double *out);

/* A point's place, an edge with its path, as whoever is at work on the trail sees it; NULL when it was told that there
 * is none. */
const vec2 *sizer_point_at(struct sizer *z, struct pattern_ref ref);
const struct sizer_edge *sizer_edge_of(struct sizer *z, struct pattern_ref ref);

/* An edge of the outline on the stitching line, of which there is but path and length where the outline is drawn as the
 * cutting line; any other edge as it is drawn. */
const struct sizer_edge *sizer_sewn_edge_of(struct sizer *z, struct pattern_ref ref);

/* The edges of a piece as they are drawn; NULL when it was told that one of them cannot be. */
const struct geometry_path *sizer_drawn_edges(struct sizer *z, int piece);

/* Whether a piece is cut on the very line that is drawn: that is its cutting line, and neither a trial, nor allowances
 * of the person's own, nor ends or a folded dart want another one. */
bool sizer_cuts_as_drawn(const struct sizer *z, int piece);

/* The allowance that the person wants for one edge, or NULL; the last word counts. */
const struct draft_alteration *sizer_own_allowance(const struct sizer *z, const struct pattern_piece *piece,
                                                   const struct pattern_edge *edge);

/* The allowance of an edge of the outline as it is written, none on the fold; false when it was told that it has no
 * answer. */
bool sizer_written_allowance(struct sizer *z, struct pattern_ref ref, double *mm);

/* How whoever is at work on the trail sees that piece. */
enum sizer_view sizer_view_of(const struct sizer *z, int piece);

/* The unit direction in which a curve that is flattened to `path` runs, `along` mm from its start: its own, not its
 * chord's, which beside a curve of 20 cm radius would miss the square by half a degree. */
vec2 sizer_direction(struct sizer_curve curve, struct geometry_path path, double along);

/* What those two are made by, once all they rest on is there. */
bool sizer_build_point(struct sizer *z, const struct pattern_point *point, double position, vec2 *out);
bool sizer_build_edge(struct sizer *z, int piece, const struct pattern_edge *edge, struct sizer_curve *out);

/* A point, and an edge, of the piece at the trail's end as the figure's alterations leave it; false when it was told
 * that they cannot be made. */
bool sizer_alter_point(struct sizer *z, struct pattern_ref ref, vec2 *at);
bool sizer_alter_edge(struct sizer *z, struct pattern_ref ref, const struct sizer_curve *written,
                      struct sizer_curve *out);

/* Whether its controls lie on its ends. */
bool sizer_is_straight(struct geometry_cubic c);

/* Where what lies at `at` on an edge as it is written comes to lie, but for a seam that is taken in. */
vec2 sizer_alter_place(struct sizer *z, int piece, vec2 at);

/* A named value as written: of a piece, or, with PATTERN_NONE, of the pattern. */
const struct pattern_named *sizer_named(const struct sizer *z, struct pattern_ref ref);

/* The size position a point follows. */
double sizer_position_of(const struct sizer *z, struct pattern_ref point);

/* Takes so much off what may be looked at; false, told once for the whole pattern, when that is used up. `name` is what
 * is being worked out. */
bool sizer_spend(struct sizer *z, size_t count, struct err_place place, const char *name);

/* Whether a place is within 100 m of the origin, across and up; not when it is no number. */
bool sizer_is_near(vec2 at);

/* Tells what has no answer, at its place; {0} of the kind's sentence is its name, {1} the size, {2} `part`. False. */
bool sizer_refuse(const struct sizer *z, const struct err_kind *kind, struct err_place place, const char *name,
                  struct err_arg part);

#endif
