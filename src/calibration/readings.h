/* What the person said of the projected crosses. */
#ifndef CALIBRATION_READINGS_H
#define CALIBRATION_READINGS_H

#include "base/arena.h"
#include "base/err_list.h"
#include "calibration/mat.h"
#include "geometry/space.h"

enum {
    CALIBRATION_READINGS_VERSION = 2, /* 1: positions only, all of one place */
    CALIBRATION_MOST_READINGS = 500,
    CALIBRATION_MOST_PLACES = 8,
    CALIBRATION_MOST_PX = 16000
};

/* How well a person reads a ruling, sees a cross sit on one, and measures with a tape (DEVELOPERS.md, Calibration).
 * A cross is moved in quarters of a pixel: spread evenly over one, the root of its mean square is a quarter / √12. */
#define CALIBRATION_TYPED_SIGMA_MM 0.3
#define CALIBRATION_EYE_SIGMA_MM 0.19
#define CALIBRATION_NUDGE_SIGMA_PX 0.0722
#define CALIBRATION_TAPE_SIGMA_MM 0.7

enum calibration_kind {
    CALIBRATION_POSITION, /* the cross falls at a place that was read off the rulings */
    CALIBRATION_NUDGE,    /* the cross was moved until it sat on a ruling */
    CALIBRATION_DISTANCE  /* two crosses lie so far apart by the tape */
};

struct calibration_reading {
    int cross; /* the number projected beside it */
    struct px_pt px;
    struct table_pt at; /* by the rulings of the mat as it lay then; not of a distance */
    enum calibration_kind kind;
    double sigma_mm; /* 0: the usual one of its kind */
    int place;       /* where the mat lay when it was read, from 0; not of a distance */
    int other;       /* of a distance alone: the other cross, its pixel and how far it is */
    struct px_pt other_px;
    double distance_mm;
};

struct calibration_readings {
    const char *name;
    enum units_length unit;
    int width_px, height_px; /* the frame the crosses were projected in */
    double sigma_mm;         /* the usual one of a position */
    double eye_mm, nudge_px; /* the two parts of a nudge's usual one; 0: as above */
    double tape_mm;          /* the usual one of a distance; 0: as above */
    struct calibration_mat mat;
    struct calibration_reading *items;
    size_t count;
    int *beside; /* crosses that fall beside the mat: not to be asked for again */
    size_t beside_count;
};

/* A position at the mat's first place, with the usual sigma. */
static inline struct calibration_reading calibration_position(int cross, struct px_pt px, struct table_pt at)
{
    return (struct calibration_reading){ .cross = cross, .px = px, .at = at };
}

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
