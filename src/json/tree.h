/* Text into a tree of JSON values (RFC 8259) that know their line and their path. Read only; not for writing, and not
 * from two threads at once (cJSON keeps its last fault in one place). */
#ifndef JSON_TREE_H
#define JSON_TREE_H

#include "base/arena.h"
#include "base/err_list.h"

#include <stdbool.h>
#include <stddef.h>

enum { JSON_MOST_BYTES = 16 * 1024 * 1024 };

enum json_type { JSON_NULL, JSON_FALSE, JSON_TRUE, JSON_NUMBER, JSON_TEXT, JSON_LIST, JSON_OBJECT };

struct json_node {
    enum json_type type;
    int line;         /* of the value's first character, from 1 */
    const char *file; /* as given to json_parse */
    const char *key;  /* name in its object; NULL in a list or at the top */
    const char *text; /* JSON_TEXT */
    double number;    /* JSON_NUMBER, finite */
    size_t count;     /* members of a list or object */
    size_t index;     /* place among its siblings */
    const struct json_node *parent, *first, *next;
};

/* Parses at most JSON_MOST_BYTES; the tree and a copy of `file` live in `a`. Refused, each with its line: text that is
 * no JSON or is not UTF-8, anything after the value, a name twice in an object, a number that is not finite, a zero
 * character in a text, and what passes the bounds of json/lines.h. NULL, with the reasons recorded, when refused. */
const struct json_node *json_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                   struct err_list *errs);

/* Reads and parses a file. */
const struct json_node *json_read_file(struct arena *a, const char *path, struct err_list *errs);

/* The member of that name, or NULL; `object` may be NULL or no object. */
const struct json_node *json_find(const struct json_node *object, const char *name);

/* Where a value stands, for complaints; the path lives in `a` ("pieces[2].points.a"). */
struct err_place json_place(struct arena *a, const struct json_node *node);

/* A text out of a file, short enough for a sentence: itself, or its first 60 or so bytes and an ellipsis, in `a`. */
const char *json_shown(struct arena *a, const char *text);

/* Records a fault of that kind at the value's place. */
void json_complain(const struct json_node *node, const struct err_kind *kind, const struct err_arg args[ERR_ARGS],
                   struct err_list *errs);

#define json_fault(errs, node, kind, ...)                                                                              \
    json_complain((node), (kind), (const struct err_arg[ERR_ARGS]){ __VA_ARGS__ }, (errs))

#endif
