/* Heads of arrows. Inside lifting alone. */
#ifndef LIFTING_ARROWS_H
#define LIFTING_ARROWS_H

#include "lifting/finding.h"

/* Ends and corners of small lines, to find heads among. */
struct lifting_heads {
    struct lifting_spots corners; /* of: the stroke */
};

struct lifting_heads lifting_gather_heads(const struct lifting_finding *m);

/* Whether a head sits at the end of a shaft that arrives there from `from`: a triangle, a V or two short strokes that
 * lie on both sides of the shaft behind its tip. `take`: they are taken with it. `shaft` itself may have the head in
 * it. */
bool lifting_head_at(struct lifting_finding *m, const struct lifting_heads *heads, const struct lifting_stroke *shaft,
                     vec2 from, vec2 end, bool take);

#endif
