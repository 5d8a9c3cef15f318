/* Between the files that read a pattern: the pattern under construction and what each part of the file is read by.
 * Not for other folders. */
#ifndef PATTERN_READER_H
#define PATTERN_READER_H

#include "pattern/pattern.h"
#include "json/want.h"

struct pattern_reader {
    struct arena *a;
    struct err_list *errs;
    struct pattern *p;
};

/* Bounds of a graded value. */
enum pattern_bound { PATTERN_ANY, PATTERN_NOT_NEGATIVE, PATTERN_POSITIVE, PATTERN_ALLOWANCE };

/* A value: a length, or a list with one for each size; false, with a complaint, when it is neither. */
bool pattern_read_value(const struct pattern_reader *r, const struct json_node *node, enum pattern_bound bound,
                        struct pattern_value *out);

/* A name that other parts refer to: a text without "." unlike those before it in `taken` (which may be NULL). */
const char *pattern_read_name(const struct pattern_reader *r, const struct json_node *object);

/* A point's or an edge's index by the name in `node`; PATTERN_NONE, with a complaint, when there is none. */
int pattern_read_point_name(const struct pattern_reader *r, const struct pattern_piece *piece,
                            const struct json_node *node);
int pattern_read_edge_name(const struct pattern_reader *r, const struct pattern_piece *piece,
                           const struct json_node *node);

/* Notches, drill marks, darts and lines of a piece whose points, edges and fold are read. */
void pattern_read_marks(const struct pattern_reader *r, const struct json_node *object, struct pattern_piece *piece);

/* The parts of the file. Each complains by itself and leaves what it could read in r->p. */
void pattern_read_finished(const struct pattern_reader *r, const struct json_node *object); /* after the cup groups */
void pattern_read_pieces(const struct pattern_reader *r, const struct json_node *list);
void pattern_read_seams(const struct pattern_reader *r, const struct json_node *list);
void pattern_read_views(const struct pattern_reader *r, const struct json_node *list);

#endif
