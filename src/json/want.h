/* Questions to a tree that complain by themselves: "pieces[2].ease: has to be a number, but a list stands here". An
 * `object` of NULL has no members and is not complained of: whoever could not find it has done so. */
#ifndef JSON_WANT_H
#define JSON_WANT_H

#include "json/tree.h"

/* Opens one of our own files: reads it, checks "chalklight" is `kind` and "version" is from 1 to `newest`.
 * NULL, with the reason recorded, when it is not. */
const struct json_node *json_open_ours(struct arena *a, const char *path, const char *kind, int newest,
                                       struct err_list *errs);

/* The same for text already in memory; `file` names it in complaints. */
const struct json_node *json_parse_ours(struct arena *a, const char *file, const char *bytes, size_t count,
                                        const char *kind, int newest, struct err_list *errs);

/* Complains of every member of an object whose name is not among the names (a NULL ends them), with the nearest known
 * name or, when none is near, with all of them. */
void json_only(const struct json_node *object, const char *const *names, struct err_list *errs);

/* The member, complained of when missing or of another type; NULL then. */
const struct json_node *json_need(const struct json_node *object, const char *name, enum json_type type,
                                  struct err_list *errs);

/* The member or NULL; complained of only when there and of another type (NULL then too). */
const struct json_node *json_maybe(const struct json_node *object, const char *name, enum json_type type,
                                   struct err_list *errs);

/* A member that is a text of at least one character and at most 200; NULL when missing or not so, with a complaint. */
const char *json_need_text(const struct json_node *object, const char *name, struct err_list *errs);

/* A whole number within the bounds; false, with a complaint, when missing or not so. */
bool json_need_whole(const struct json_node *object, const char *name, int least, int most, int *out,
                     struct err_list *errs);

/* The same of a value. */
bool json_is_whole(const struct json_node *node, int least, int most, int *out, struct err_list *errs);

/* Whether the value is of the type; a complaint when not. JSON_TRUE is asked for where false has been taken already. */
bool json_is(const struct json_node *node, enum json_type type, struct err_list *errs);

/* "a list", "a number", "nothing": for complaints. */
const char *json_type_name(enum json_type type);

#endif
