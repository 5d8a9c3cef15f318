/* What the person said of the projected crosses. */
#ifndef CALIBRATION_READINGS_H
#define CALIBRATION_READINGS_H

#include "base/arena.h"
#include "base/err_list.h"
#include "calibration/mat.h"
#include "geometry/space.h"

enum { CALIBRATION_READINGS_VERSION = 1, CALIBRATION_MOST_READINGS = 500, CALIBRATION_MOST_PX = 16000 };

#define CALIBRATION_TYPED_SIGMA_MM 0.3 /* how well a person reads a ruling (DEVELOPERS.md, Calibration) */

struct calibration_reading {
    int cross; /* the number projected beside it */
    struct px_pt px;
    struct table_pt at;
};

struct calibration_readings {
    const char *name;
    enum units_length unit;
    int width_px, height_px; /* the frame the crosses were projected in */
    double sigma_mm;
    struct calibration_mat mat;
    struct calibration_reading *items;
    size_t count;
    int *beside; /* crosses that fall beside the mat: not to be asked for again */
    size_t beside_count;
};

/* Reads a readings file; everything lives in `a`. All faults are told at once; false when there was any. Crosses that
 * are not filled in yet are one fault together. */
bool calibration_readings_read(struct arena *a, const char *path, struct calibration_readings *out,
                               struct err_list *errs);

/* The same from text in memory, `file` naming it. */
bool calibration_readings_parse(struct arena *a, const char *file, const char *bytes, size_t count,
                                struct calibration_readings *out, struct err_list *errs);

/* Whether a place can be read on the mat: on its ruled field or the margin around it; without a mat within 10 m. */
bool calibration_on_mat(const struct calibration_mat *mat, struct table_pt at);

/* The readings as their file's text, in `a`. One whose place is not a number is not filled in yet: its "at" asks for
 * it, and reading the file tells so. */
const char *calibration_readings_print(struct arena *a, const struct calibration_readings *readings);

#endif
