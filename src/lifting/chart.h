/* The size chart that comes with a drawn sheet on paper, written down as a small file: the body's measurements in each
 * size, and at what height of a piece each runs across it. Lengths in mm. */
#ifndef LIFTING_CHART_H
#define LIFTING_CHART_H

#include "base/err_list.h"
#include "lifting/lifting.h"
#include "units/length.h"

enum { LIFTING_CHART_VERSION = 1, LIFTING_CHART_ROWS_MOST = 100 };

/* Levels of one piece lie so far apart at least: nearer ones would want the same corner. */
#define LIFTING_LEVELS_APART_MM 10.0

struct lifting_row {
    const char *name;
    const double *mm; /* one for each size, rising or equal */
};

/* How high on a piece a row of the chart runs across it: along the grain from the lowest point of the piece as it is
 * drawn in its smallest size (the left end, where the grain runs more across the sheet than up it). */
struct lifting_level {
    size_t row;
    double mm;
    struct err_place place;
};

struct lifting_levels {
    const char *piece; /* as the pattern calls it */
    const struct lifting_level *levels;
    size_t count;
    struct err_place place;
};

struct lifting_chart {
    enum units_length unit;
    const char *const *sizes; /* NULL: not named, they are the sheet's in their order */
    size_t size_count;        /* how many lengths a row has */
    const struct lifting_row *rows;
    size_t row_count;
    size_t main_row; /* the one that picks the size */
    const struct lifting_levels *pieces;
    size_t piece_count;
    struct err_place place; /* of the sizes, else of the rows */
};

/* Reads a chart file; everything lives in `a`. All faults are told at once; NULL when there was any. */
const struct lifting_chart *lifting_chart_read(struct arena *a, const char *path, struct err_list *errs);

/* The same from text in memory, `file` naming it. */
const struct lifting_chart *lifting_chart_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                                struct err_list *errs);

/* Whether it is of that sheet's sizes and of pieces with these names; faults are told where they stand in its file. */
bool lifting_chart_suits(const struct lifting_chart *chart, const struct lifting_division *division,
                         const char *const *pieces, size_t piece_count, struct err_list *errs);

/* The levels of the piece of that name, or NULL; `chart` may be NULL. */
const struct lifting_levels *lifting_chart_levels(const struct lifting_chart *chart, const char *piece);

#endif
