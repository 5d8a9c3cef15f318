/* Where stripes and checks want a piece: for this folder alone. */
#ifndef LAY_MATCH_H
#define LAY_MATCH_H

#include "lay/lay.h"
#include "packing/packing.h"

/* Places of a piece that have to come to lie on a line of the repeat. */
struct lay_match {
    bool has_along, has_across;
    vec2 along, across; /* piece mm: which place lies on a line that runs across the cloth, or along it */
};

struct lay_match lay_match_of(const struct lay_task *task, const struct lay_item *item);

/* Where the cloth's lines lie: at `first` + any number of steps. A step of 0: there are none. */
struct packing_range lay_lines_along(const struct lay_task *task);
struct packing_range lay_lines_across(const struct lay_task *task);

#endif
