/* Which layers are sizes, by their names and those of the groups they lie in. Inside lifting alone. */
#ifndef LIFTING_SIZES_BY_NAME_H
#define LIFTING_SIZES_BY_NAME_H

#include "lifting/layer_name.h"
#include "lifting/lifting.h"

/* What a layer is for. */
struct lifting_layer_role {
    enum lifting_named kind;
    const char *size, *cup; /* or NULL */
    bool sure;
};

/* For each layer of the drawing; in `a`. */
const struct lifting_layer_role *lifting_roles_by_name(struct arena *a, const struct drawing *d);

#endif
