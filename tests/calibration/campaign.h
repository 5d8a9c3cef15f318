/* Many calibrations on the virtual table, each from a seed: what a person would read there, mistakes included, and how
 * the solved table compares with where the light truly falls. */
#ifndef TESTS_CALIBRATION_CAMPAIGN_H
#define TESTS_CALIBRATION_CAMPAIGN_H

#include "calibration/solve.h"
#include "virtual_table.h"

/* How the readings are made. */
enum campaign_walk {
    CAMPAIGN_NINE,        /* three by three, 3 % in from the frame's edges, typed */
    CAMPAIGN_TWELVE,      /* four by three, typed */
    CAMPAIGN_THIRTEEN,    /* the crosses of the standard walk, typed */
    CAMPAIGN_TWENTY,      /* five by four, typed */
    CAMPAIGN_NUDGED,      /* the standard walk, nudged in quarter pixels onto rulings a centimetre apart */
    CAMPAIGN_FOUR_PLACES, /* nudged, a mat of three fifths by seven tenths of the light laid in each corner in turn,
                             five crosses each: the light's corner twice, two of the mat's other corners, and one
                             between the light's corner and the far one of these */
    CAMPAIGN_WALKS
};

/* Where the solved table is compared with the true light: columns by rows over the frame, edges included. */
enum { CAMPAIGN_COLUMNS = 9, CAMPAIGN_ROWS = 5, CAMPAIGN_PLACES = CAMPAIGN_COLUMNS * CAMPAIGN_ROWS };

/* A set-up drawn from the seed: 1280 x 720 or 1920 x 1080, the light some 1 to 1.4 m wide where straight, tilted by up
 * to 25°, rolled by up to 5°, turned any way, the lens's axis from the picture's centre to its edge, radial term up to
 * 0.01 either way. */
struct vt_setup campaign_setup(struct vt_noise *noise);

/* Readings on a set-up with normal errors of that size where they are typed (nudges have their own); in `a`. */
struct calibration_readings campaign_read(struct arena *a, const struct vt_setup *setup, enum campaign_walk walk,
                                          double typed_mm, struct vt_noise *noise);

struct campaign_tally {
    int tables, refused;
    int within[CAMPAIGN_PLACES]; /* in how many tables the true place lies within its 95 % ellipse */
    int circled;                 /* … within the circle that is shown, over all places */
    double squares, bound;       /* mean square error of a place and its bound, summed over the tables */
    double *largest_mm;          /* one a table: the largest error over the frame, in the campaign's arena; of the
                                    refused ones, which come last, infinite. They count as missed everywhere, too */
    double squares_moved;        /* as squares and largest_mm, after the best turn and shift */
    double *largest_moved_mm;
};

/* Solves seeds 1 to `seeds` of a walk; what it needs lives in `a`. The bound is that of Cramer and Rao: the trace of
 * the covariance that the rows have at the solution (pseudo-readings included). */
struct campaign_tally campaign_truth(struct arena *a, enum campaign_walk walk, int seeds);

/* Share of the tables' true places within their ellipse: over all, and at the worst place; in per cent. */
double campaign_coverage_pct(const struct campaign_tally *tally);
double campaign_worst_coverage_pct(const struct campaign_tally *tally);

/* The same of the circles that are shown, over all. */
double campaign_circled_pct(const struct campaign_tally *tally);

/* The value that 95 % of them do not exceed; sorts them. */
double campaign_95(double *values, int count);

struct campaign_mistakes {
    int made;   /* calibrations with mistakes */
    int found;  /* refused, or all that is wrong set aside */
    int named;  /* the wrong ones and no others set aside, and what was meant is told, of one without a name nothing */
    int sorry;  /* solved with a good reading set aside */
    int clean;  /* calibrations without */
    int alarms; /* … that were refused or lost a reading */
};

/* Typed readings of seeds 1 to `seeds`, `wrong` of them (0 to 2) misread: exchanged, a line, inch or centimetre off,
 * inches as centimetres, digits exchanged, another cross's, or 5 mm off in any direction; never by less than 5 mm. True
 * errors are typed_mm, the solve thinks of 0.3 mm. */
struct campaign_mistakes campaign_mistakes(enum campaign_walk walk, int seeds, int wrong, double typed_mm);

struct campaign_questions {
    int walks, asked; /* walks without a mistake, and in how many any reading was questioned as it was made */
    int made,
        found; /* misread readings, the sixth or a later one of their walk, and how many were questioned at once */
    int named; /* … with what was meant */
};

/* Typed walks of seeds 1 to `seeds`, questioned after each reading from the fourth on; then with one misread. */
struct campaign_questions campaign_questions(enum campaign_walk walk, int seeds);

#endif
