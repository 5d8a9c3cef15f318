/* Between the files that read a pattern: the pattern under construction and what each part of the file is read by.
 * Not for other folders. */
#ifndef PATTERN_READER_H
#define PATTERN_READER_H

#include "pattern/names.h"
#include "pattern/pattern.h"
#include "json/want.h"

/* A rectangle's corners and sides, counter-clockwise from the near left. */
struct pattern_corner {
    const char *point, *edge;
    bool right, top;
};
extern const struct pattern_corner pattern_corners[4];

/* What of a piece is filled in after the survey has named it. */
struct pattern_drawing {
    struct pattern_point *points;
    size_t written_count; /* points that the file lists; arcs' ends follow */
    struct pattern_edge *edges;
    struct pattern_named *values;
};

struct pattern_reader {
    struct arena *a;
    struct err_list *errs;
    struct pattern *p;
    int faults_before; /* in `errs`, of other files */
    int piece; /* the one at hand, whose names come without its own; PATTERN_NONE: none */
    struct pattern_piece *pieces;
    struct pattern_drawing *drawings; /* one for each piece */
    struct pattern_names *names;      /* of all measurements, values, pieces and their parts */
};

/* A value: a length or a formula, or a list with one of them for each size; false, with a complaint, when it is none
 * of that. */
bool pattern_read_value(const struct pattern_reader *r, const struct json_node *node, enum pattern_bound bound,
                        struct pattern_value *out);

/* The same without formulas: what formulas and sizes themselves rest on. */
bool pattern_read_graded(const struct pattern_reader *r, const struct json_node *node, enum pattern_bound bound,
                         struct pattern_value *out);

/* The same of a plain number or an angle in degrees. */
bool pattern_read_number(const struct pattern_reader *r, const struct json_node *node, struct pattern_value *out);

/* What a value comes to in each size of the chart for a body of that cup group, without formulas. Told, once: what has
 * no outcome, or does not rest on the chart alone. Not worked out where the file has a fault already. */
struct pattern_value pattern_by_size(const struct pattern_reader *r, const struct pattern_value *value, int cup_group);

/* A member that says how many, a whole number from 1 to `most` or a formula; complained of when missing or neither. */
void pattern_need_count(const struct pattern_reader *r, const struct json_node *object, const char *name, int most,
                        struct pattern_count *out);

/* The formula in a text, whose outcome counts in the file's unit or else as a plain number or degrees; NULL, with a
 * complaint, when it is none. */
const struct pattern_formula *pattern_read_formula(const struct pattern_reader *r, const struct json_node *node,
                                                   enum pattern_bound bound, bool is_length);

/* "front.side", or "side" in the piece at hand, as an edge or curve, or as a point; false when there is none. */
bool pattern_find_edge_ref(const struct pattern_reader *r, const char *text, struct pattern_ref *out);
bool pattern_find_point_ref(const struct pattern_reader *r, const char *text, struct pattern_ref *out);

/* What a text that names no edge (or curve), or no point, may have meant: a name of the piece that it names, else of
 * the piece at hand, as it would be written here; NULL when none is near. Lives in the arenas. */
const char *pattern_nearest_edge(const struct pattern_reader *r, const char *text);
const char *pattern_nearest_point(const struct pattern_reader *r, const char *text);

/* The same out of a text in the file, with a complaint. */
bool pattern_read_edge_ref(const struct pattern_reader *r, const struct json_node *node, struct pattern_ref *out);
bool pattern_read_point_ref(const struct pattern_reader *r, const struct json_node *node, struct pattern_ref *out);

/* The names of all pieces, their points, edges and values, before any of them is read: formulas and points may look
 * ahead. Names that are wrong are left for whoever reads them. */
void pattern_survey(struct pattern_reader *r, const struct json_node *pieces);

/* The names of an object's values, and later the values themselves. */
struct pattern_named *pattern_survey_values(const struct pattern_reader *r, const struct json_node *object, int piece,
                                            size_t *count);
void pattern_read_values(const struct pattern_reader *r, const struct json_node *object, struct pattern_named *named);

/* A point's construction, and an edge's path. */
void pattern_read_point(const struct pattern_reader *r, const struct json_node *node, struct pattern_point *point);
void pattern_read_path(const struct pattern_reader *r, const struct json_node *path, struct pattern_edge *edge);

/* How an edge's allowance ends; and, once the piece's edges and fold are read, whether neighbours agree. */
void pattern_read_ends(const struct pattern_reader *r, const struct json_node *node, struct pattern_edge *edge);
void pattern_check_ends(const struct pattern_reader *r, const struct pattern_piece *piece);

/* The wordings of all languages; those of the one in use are what pattern_shown knows. */
void pattern_read_wordings(const struct pattern_reader *r, const struct json_node *object);

/* A text of the file as a person is to read it. pattern_calls: a name that is only told. NULL is passed over. */
const char *pattern_shown(const struct pattern_reader *r, const char *text);
void pattern_calls(const struct pattern_reader *r, const char *name);

/* Once all else is read: warns of wordings for what the pattern does not have. */
void pattern_check_wordings(const struct pattern_reader *r, const struct json_node *object);

/* A name that other parts refer to: a text without "." unlike those before it in `taken` (which may be NULL). */
const char *pattern_read_name(const struct pattern_reader *r, const struct json_node *object);

/* A point's or an edge's index in the piece at hand by the name in `node`; PATTERN_NONE, with a complaint, when there
 * is none. */
int pattern_read_point_name(const struct pattern_reader *r, const struct json_node *node);
int pattern_read_edge_name(const struct pattern_reader *r, const struct json_node *node);

/* The piece that an object's member "piece" names; PATTERN_NONE, with a complaint, when there is none. */
int pattern_read_piece_name(const struct pattern_reader *r, const struct json_node *object);

/* The same of a point that an object's member names; complained of when it is missing, too. */
int pattern_need_point(const struct pattern_reader *r, const struct json_node *object, const char *name);

/* Complains that the piece at hand has no such edge. */
void pattern_tell_no_edge(const struct pattern_reader *r, const struct json_node *node, const char *name);

/* A member that is true, or false or not there; complained of when it is anything else. */
bool pattern_read_yes(const struct pattern_reader *r, const struct json_node *object, const char *name);

/* Which of words[first] to words[last] a text is; `first`, with a complaint of that kind ({0}: the text), when it is
 * none. */
unsigned pattern_read_word(const struct pattern_reader *r, const struct json_node *text, const char *const *words,
                           unsigned first, unsigned last, const struct err_kind *wrong);

/* The words of the file by the enums of pattern.h, which has the functions that other folders ask. */
extern const char *const pattern_outline_words[];
extern const char *const pattern_cloth_words[];
extern const char *const pattern_side_words[];
extern const char *const pattern_line_words[];
extern const char *const pattern_button_words[];
extern const char *const pattern_dart_fold_words[];

/* Notches, drill marks, darts and lines of a piece whose points, edges and fold are read. */
void pattern_read_marks(const struct pattern_reader *r, const struct json_node *object, struct pattern_piece *piece);

void pattern_read_buttons(const struct pattern_reader *r, const struct json_node *list, struct pattern_piece *piece);

/* How the piece at hand is fitted: its levels, its slashes, whether a trial garment has it. */
void pattern_read_fitting(const struct pattern_reader *r, const struct json_node *object);

/* The parts of the file. Each complains by itself and leaves what it could read in r->p. */
void pattern_read_finished(const struct pattern_reader *r, const struct json_node *object); /* after the values */
void pattern_read_pieces(const struct pattern_reader *r, const struct json_node *list);
void pattern_read_girths(const struct pattern_reader *r, const struct json_node *object); /* after figures and pieces */
void pattern_read_ease(const struct pattern_reader *r, const struct json_node *object);   /* after finished, girths */
void pattern_read_seams(const struct pattern_reader *r, const struct json_node *list);
void pattern_read_views(const struct pattern_reader *r, const struct json_node *list);

/* What else is needed to sew, for all views or for one. */
void pattern_read_notions(const struct pattern_reader *r, const struct json_node *list, struct pattern_notions *out);

#endif
