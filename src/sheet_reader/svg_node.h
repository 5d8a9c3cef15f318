/* Elements and attributes of a document, through libxml2. */
#ifndef SHEET_READER_SVG_NODE_H
#define SHEET_READER_SVG_NODE_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

/* libxml2's own names (libxml/tree.h), so that this header needs none of its. */
typedef struct _xmlNode xmlNode; /* NOLINT(bugprone-reserved-identifier) */
typedef struct _xmlAttr xmlAttr; /* NOLINT(bugprone-reserved-identifier) */

/* Whether it is an element of that name and of the root's name space. */
bool svg_node_is(const xmlNode *node, const char *name);

/* Whether it is an element of the root's name space. */
bool svg_node_counts(const xmlNode *node);

/* The value of an attribute, whatever its prefix; NULL without one. Lives in the document or in `a`. */
const char *svg_attribute(struct arena *a, const xmlNode *node, const char *name);
const char *svg_attribute_value(struct arena *a, const xmlAttr *attribute);

/* All text within an element, runs of white space as one space, none at its ends. Lives in `a`. */
const char *svg_node_text(struct arena *a, const xmlNode *node);

/* Elements by their id; the first of an id counts. */
struct svg_ids {
    const struct svg_id *rows;
    size_t count;
    size_t elements; /* in the whole document */
};

struct svg_id {
    const char *id;
    const xmlNode *node;
    size_t order;
};

struct svg_ids svg_ids_of(struct arena *a, const xmlNode *root);
const xmlNode *svg_ids_find(const struct svg_ids *ids, const char *id);

/* The next node in the order of the document, within `root`; NULL at its end. */
const xmlNode *svg_node_next(const xmlNode *node, const xmlNode *root);

#endif
