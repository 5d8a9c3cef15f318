/* Inks that stand in one row. Inside lettering alone. */
#ifndef LETTERING_ROWS_H
#define LETTERING_ROWS_H

#include "lettering/ink.h"

/* An ink's place in the plane in which the row runs to the right. */
struct lettering_cell {
    size_t ink;
    double left, right, low, high;
};

/* Cells from left to right. */
struct lettering_line {
    struct lettering_cell *cells;
    size_t count;
};

struct lettering_cell lettering_cell_of(const struct lettering_ink *inks, size_t ink, vec2 along);

/* The rows of some inks, given by their indices, in one direction; in `a`. Dots and dashes are with the letters that
 * they stand beside. How many. */
size_t lettering_find_lines(struct arena *a, const struct lettering_ink *inks, const size_t *which, size_t count,
                            vec2 along, struct lettering_line **out);

/* From left to right. */
void lettering_sort_cells(struct lettering_cell *cells, size_t count);

#endif
