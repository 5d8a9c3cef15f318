/* A JSON text built member by member. Numbers are written so that reading gives the same double. Caller mistakes, all
 * asserted: a name twice in one object, a text that is not UTF-8, more than JSON_DEEPEST levels. */
#ifndef JSON_WRITE_H
#define JSON_WRITE_H

#include "base/arena.h"
#include "json/tree.h"

#include <stdbool.h>

struct json_out; /* a list or an object under construction */

/* A new top-level object; the caller owns it and destroys it when done (with all that was added below it). */
struct json_out *json_out_create(void);
void json_out_destroy(struct json_out *top);

/* Adds a member to an object (`key` given) or to a list (`key` NULL); texts are copied. The returned list or object
 * lives in the top. */
void json_out_text(struct json_out *to, const char *key, const char *value); /* NULL is written as null */
void json_out_number(struct json_out *to, const char *key, double value);    /* finite */
void json_out_bool(struct json_out *to, const char *key, bool value);
struct json_out *json_out_list(struct json_out *to, const char *key);
struct json_out *json_out_object(struct json_out *to, const char *key);

/* Adds a value that was read, with all below it, as it was. It lies less deep than JSON_DEEPEST in the end. */
void json_out_node(struct json_out *to, const char *key, const struct json_node *value);

/* The whole text, ended by a newline; lives in `a`. One member a line, indented, but a list of plain values in one. */
const char *json_out_print(struct arena *a, const struct json_out *top);

/* The same in one line, without a newline; lives in `a`. */
const char *json_out_print_line(struct arena *a, const struct json_out *top);

#endif
