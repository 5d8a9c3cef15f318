/* Names for sentences. Not for other folders. */
#ifndef JOB_NAMES_H
#define JOB_NAMES_H

#include "base/arena.h"

#include <stddef.h>

/* Names of a table of structs that begin with their name: “A”, “B”; "none" of an empty one. In `a`. */
const char *job_names_of(struct arena *a, const void *items, size_t count, size_t size);

#endif
