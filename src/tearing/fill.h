/* Strips being filled. Not for other folders. */
#ifndef TEARING_FILL_H
#define TEARING_FILL_H

#include "tearing/strips.h"

/* What is to be laid, highest first, of equal height the widest first, and what was laid. A row is begun, then a column
 * of it, then its rectangles. */
struct tearing_filling {
    struct arena *a;
    const struct tearing_kind *kinds; /* in order of height */
    const int *order;                 /* which kind of the caller's each of them is */
    size_t count;
    double width_mm, extra_mm;
    double most_steps; /* that may be looked at for the least length */
    struct tearing_row *rows;
    size_t row_count, row_cap;
    struct tearing_spot *spots; /* of the row at hand */
    size_t spot_cap;
    double column_mm, stack_mm; /* how wide the column at hand is, how high it is filled */
};

void tearing_begin_row(struct tearing_filling *f, double height_mm);
void tearing_begin_column(struct tearing_filling *f);
void tearing_add(struct tearing_filling *f, size_t kind);

/* Looks at every way. False, with nothing laid, when that takes too many steps. */
bool tearing_fill_least(struct tearing_filling *f);

/* Lays one after the other where it leaves least. */
void tearing_fill_in_turn(struct tearing_filling *f);

#endif
