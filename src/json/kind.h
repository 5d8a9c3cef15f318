/* What one of our own files is, from its first bytes. */
#ifndef JSON_KIND_H
#define JSON_KIND_H

#include "base/arena.h"

/* The kind that a file opens with ("pattern", "body", "job" …), in `a`; NULL when it does not open like one of ours or
 * cannot be read, which is not told. Whether the rest is right is for its reader to say. */
const char *json_kind(struct arena *a, const char *path);

#endif
