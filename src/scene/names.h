/* Where the names of a picture stand, kept for the next one: a name about which nothing has changed is not placed anew.
 * To look for room takes longer than to draw all the rest. */
#ifndef SCENE_NAMES_H
#define SCENE_NAMES_H

#include "scene/label.h"

#include <stdint.h>

struct scene_names;

/* Where a name stands; nowhere unless `found`. */
struct scene_name {
    bool found;
    bool beside; /* its piece, with a leader */
    struct scene_label label;
    bool has_grain;
    vec2 grain[2]; /* the arrow, in the piece */
};

/* The caller owns it. NULL is allowed to be destroyed, and knows of nothing. */
struct scene_names *scene_names_create(void);
void scene_names_destroy(struct scene_names *names);

/* Another picture begins: what the last one had no use for is forgotten. */
void scene_names_begin(struct scene_names *names);

/* By the digest (base/digest.h) of all that its place depends on. Until the picture after this one begins; NULL: not
 * known. */
const struct scene_name *scene_names_find(struct scene_names *names, uint64_t digest);

/* With copies of its texts. */
void scene_names_keep(struct scene_names *names, uint64_t digest, const struct scene_name *name);

#endif
