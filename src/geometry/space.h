/* One point type for each space, so that mixing two spaces does not compile (DEVELOPERS.md: Spaces). */
#ifndef GEOMETRY_SPACE_H
#define GEOMETRY_SPACE_H

#include "geometry/path.h"

/* mm; the piece's own drafting plane; x right, y up; the grain runs along +y unless the piece says otherwise */
struct piece_pt {
    double x, y;
};

/* mm; origin at the mat's ruled zero; x along the table, y away from the person */
struct table_pt {
    double x, y;
};

/* the projector's own pixels; origin top left of the frame, y down; pixel centres at n + 0.5 */
struct px_pt {
    double x, y;
};

/* u, the bench window's own unit (a whole or quarter multiple of a pixel); origin top left, y down */
struct bench_pt {
    double x, y;
};

struct bench_box {
    double x, y, width, height; /* u; x, y the upper left corner */
};

/* mm at true scale on a drawn sheet, its pages joined; origin at its lower left corner; x right, y up */
struct sheet_pt {
    double x, y;
};

/* mm; on a length of cloth as it is spread, washed and without selvedges; origin at the near corner of its cut end; x
 * along the length, y from the near edge, which is the fold where there is one */
struct cloth_pt {
    double x, y;
};

struct piece_path {
    struct geometry_path path;
};

struct cloth_path {
    struct geometry_path path;
};

struct table_path {
    struct geometry_path path;
};

struct sheet_path {
    struct geometry_path path;
};

struct px_path {
    struct geometry_path path;
};

#endif
