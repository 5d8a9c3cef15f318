/* Which places of the waste are chalked. For this folder alone. */
#ifndef SPANS_MARKS_H
#define SPANS_MARKS_H

#include "geometry/path.h"
#include "spans/waste.h"

/* Two marks by which the cloth is found again, or one, or none. */
struct spans_pair {
    struct cloth_pt at[2];
    int count;
    double off;  /* by how much the place that they tell least of may be off; INFINITY below two */
    double cost; /* the same, more for new ones */
};

/* Those by which places of `told` may be off the least (within some 2 %), where marks of before are not nearly as good:
 * they serve again, and new ones keep SPANS_APART_MM off them where they can. None is nearer than that to the other. */
struct spans_pair spans_marks_choose(const struct spans_waste *waste, struct geometry_box told);

#endif
