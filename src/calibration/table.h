/* A table: a solved map with the readings it came from, saved under a name. */
#ifndef CALIBRATION_TABLE_H
#define CALIBRATION_TABLE_H

#include "calibration/height.h"
#include "calibration/solve.h"
#include "calibration/stickers.h"

enum { CALIBRATION_TABLE_VERSION = 2 }; /* 1: without doubt */

enum { CALIBRATION_MOST_CHECKED = 4 };

/* A line of light that a tape was held to when the table was set up. */
struct calibration_checked {
    double drawn_mm, taped_mm, may_be_off_mm;
};

struct calibration_table {
    const char *name;
    const char *made;    /* date, "2026-11-25"; given by the caller */
    const char *display; /* the name of the display it was set up on, or NULL */
    bool sample;         /* not measured by the person: shown with a warning */
    enum units_length unit;
    struct calibration_mat mat;
    struct geometry_map map;
    double rms_mm, worst_mm;
    size_t readings;
    struct calibration_checked checked[CALIBRATION_MOST_CHECKED];
    int checked_count;
    struct calibration_stickers stickers; /* none where count is 0 */
    struct calibration_lens_place lens;   /* a height of zero: not known */
    bool has_doubt;                       /* false: made by an older program, and nothing is known of it */
    struct calibration_doubt doubt;
};

/* A table from a solution; `made` in ISO 8601. Lives in `a`. */
struct calibration_table calibration_table_of(struct arena *a, const struct calibration_readings *readings,
                                              const struct calibration_solution *solution, const char *made);

/* The same projector's table for a frame of another size: the terms are in shares of the frame's diagonal. */
void calibration_table_reframe(struct calibration_table *table, int width_px, int height_px);

/* The table as its file's text, in `a`. */
const char *calibration_table_print(struct arena *a, const struct calibration_table *table);

bool calibration_table_read(struct arena *a, const char *path, struct calibration_table *out, struct err_list *errs);
bool calibration_table_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                             struct calibration_table *out, struct err_list *errs);

#endif
