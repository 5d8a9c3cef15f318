/* A projector hanging over a cutting table, and instruments that measure its light on the mat in millimetres.
 *
 * The model is plain physics, written without sight of the program under test: a pinhole lens sends a ray through every
 * place of the picture, and the ray is followed to the table. No projective map is fitted or composed anywhere. Tests
 * hand a painted frame to it and learn where the lines really fall, so that a frame is proved true to scale instead of
 * being compared with itself.
 *
 * It does not draw, calibrate or read files, and it holds no state: equal arguments give equal answers.
 *
 * Spaces
 *   mat    mm on the table (the plane z = 0); x along the table, y away from the person, z up: right-handed.
 *   pixel  origin top left of the frame, x right, y down; the centre of pixel n is at n + 0.5.
 *
 * Angles are degrees, right-handed about their axis. What comes through an out parameter means something only when the
 * function returns true, save where a comment says otherwise. */
#ifndef VIRTUAL_TABLE_H
#define VIRTUAL_TABLE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct vt_pt {
    double x, y; /* mm on the mat */
};

/* How the projector hangs. With all angles zero the lens looks straight down, the picture's right is +x and its top is
 * +y, away from the person. The attitude is then tilt, roll and turn, in this order, about the fixed mat axes. By the
 * lens term a place of the panel at the distance r from the optical axis, in half frame diagonals, leaves the lens as
 * if it were at r (1 + k1 r^2). */
struct vt_setup {
    const char *name;        /* for messages; may be NULL */
    int width_px, height_px; /* the frame; pixels are square */
    double throw_ratio;      /* distance over picture width, for a picture square to the axis */
    double height_mm;        /* the lens over the table */
    double tilt_deg;         /* about x: above zero swings the light away from the person */
    double roll_deg;         /* about y: above zero swings the light towards -x */
    double turn_deg;         /* about the vertical: above zero turns the picture anticlockwise, seen from above */
    double foot_x_mm;        /* the place on the mat straight under the lens */
    double foot_y_mm;
    double shift; /* in half frame heights: 0, the optical axis at the picture's centre; 1, at its lower edge */
    double k1;    /* radial lens term; below zero: barrel */
};

/* A painted frame, borrowed: 0x00RRGGBB, sRGB encoded; its size must be that of the set-up. */
struct vt_frame {
    const uint32_t *xrgb;
    int width, height;
    int stride; /* pixels from one row to the next */
};

/* --- rays ------------------------------------------------------------------------------------------------------- */

/* Sizes and throw above zero, all numbers finite, the lens above the table. The functions below assert it. */
bool vt_setup_is_valid(const struct vt_setup *setup);

/* Where the light of a place of the frame falls; the place may lie outside the frame. False when the ray never meets
 * the table. */
bool vt_px_to_mat(const struct vt_setup *setup, double px_x, double px_y, double *x, double *y);

/* Which place of the frame (or outside it) lights a place on the mat: Newton's method on vt_px_to_mat, to 1e-9 mm.
 * False when it does not converge, or when not even the centre of the frame falls on the table. */
bool vt_mat_to_px(const struct vt_setup *setup, double x, double y, double *px_x, double *px_y);

/* mm on the mat for a step of one pixel at a place of the frame, along the picture's x or y, whichever is longer;
 * infinite when the light misses the table. */
double vt_mm_per_px(const struct vt_setup *setup, double px_x, double px_y);

/* A table of named set-ups that every claim about true scale should hold for: tilted, turned, off centre, with and
 * without a lens term, with the axis at the picture's edge. The whole frame falls on the table in each, at less
 * than 1.6 mm a pixel. */
const struct vt_setup *vt_standard_setups(size_t *count);

/* --- light ------------------------------------------------------------------------------------------------------ */

/* Relative luminance of an sRGB colour, 0 to 1 (IEC 61966-2-1: the transfer curve, then the Rec. 709 weights). */
double vt_luminance(uint32_t xrgb);

/* A small window on the mat, across a line that is expected to run through its centre. */
struct vt_probe {
    struct vt_pt centre;
    double nx, ny;        /* unit direction across the line */
    double reach_mm;      /* half the window's length, across the line */
    double half_width_mm; /* half its width, along the line; light counts less towards the sides, down to nothing, so
                             that what lies just beyond them hardly matters */
};

struct vt_glow {
    double offset_mm; /* centroid of the light, from the probe's centre along n */
    double light;     /* integral of luminance across the line, in mm of full light */
    double peak;      /* luminance of the brightest pixel met */
    double width_mm;  /* light over peak: how wide a sharp line of that peak would be */
};

/* The light in a window. Each pixel lights the patch of mat between its traced corners evenly with its luminance; the
 * integral is taken over 8 x 8 cells of each patch. False, with *out set all the same, when there is no light (a peak
 * under 1 % of full light, or less than 0.2 mm of line), when more than 0.5 % of it lies in the outer tenth of the
 * window at either end: a line that leaves the window is a fault, never a biased reading; or when the window lies where
 * no light can fall. */
bool vt_probe_light(const struct vt_setup *setup, const struct vt_frame *frame, const struct vt_probe *probe,
                    struct vt_glow *out);

/* --- lines ------------------------------------------------------------------------------------------------------ */

struct vt_line {
    struct vt_pt a, b;          /* the fitted line, at the feet of the two expected ends on it */
    double max_off_fit_mm;      /* the centroids' distances from the fitted line */
    double rms_off_fit_mm;      /* … their root mean square */
    double max_off_expected_mm; /* the centroids' distances from the expected line */
    double rms_off_expected_mm;
    double width_mm;   /* mean of the apparent widths */
    int found, missed; /* probes that read the line, and probes that did not; set whatever is returned */
};

/* Measure a straight line expected from a to b, both on the mat: 8 to 48 probes of reach search_mm about 10 mm apart,
 * and a straight line through their centroids by total least squares. The ends are left out over 2 search_mm + 5 mm (at
 * most a quarter of the length), where other lines may meet. A whole line has missed == 0; a dashed one has some. False
 * when fewer than half of the probes read a line. */
bool vt_measure_line(const struct vt_setup *setup, const struct vt_frame *frame, double ax, double ay, double bx,
                     double by, double search_mm, struct vt_line *out);

struct vt_quad {
    struct vt_pt corner[4];
    double side_mm[4];     /* from corner i to corner i + 1 */
    double diagonal_mm[2]; /* corner 0 to 2, corner 1 to 3 */
    struct vt_line side[4];
};

/* Measure a drawn quadrilateral: each side as a line, each corner where neighbouring fitted lines meet. The corners
 * come in order, either way round. False when a side is not found. */
bool vt_measure_quad(const struct vt_setup *setup, const struct vt_frame *frame, const struct vt_pt corner[4],
                     double search_mm, struct vt_quad *out);

/* An expected line of any shape. Neighbouring points differ; a closed path does not repeat its first point. */
struct vt_path {
    const struct vt_pt *pts;
    int count; /* at least 2, or 3 when closed */
    bool closed;
};

struct vt_walk {
    double step_mm;   /* from one probe to the next along the path; the first lies half a step in */
    double search_mm; /* reach of a probe */
    double corner_mm; /* no probe nearer than this, along the path, to a turn over 20 degrees or to an open end */
};

struct vt_path_report {
    double max_off_mm;  /* the centroids' distances from the path */
    double rms_off_mm;  /* … their root mean square */
    double mean_off_mm; /* … their mean; above zero lies to the left of the path's direction */
    struct vt_pt worst; /* place on the path with the greatest distance */
    int found, missed;  /* probes that read the line, and probes that did not; set whatever is returned */
};

/* Walk along an expected path and measure the line on it. A probe is 4 mm wide with light counting less to its sides,
 * so on a curve of radius R it reads 0.33 mm^2 / R towards the inside (0.011 mm at R = 30 mm). False when fewer than
 * half of the probes read a line. */
bool vt_measure_path(const struct vt_setup *setup, const struct vt_frame *frame, const struct vt_path *path,
                     const struct vt_walk *walk, struct vt_path_report *out);

/* --- a person's readings ---------------------------------------------------------------------------------------- */

struct vt_noise {
    uint64_t state; /* any seed */
};

/* One draw of a standard normal deviate. The same seed gives the same draws. */
double vt_noise_draw(struct vt_noise *noise);

/* What a person reads off the mat for a cross projected at a pixel place: where it falls, each coordinate with
 * independent Gaussian noise of sigma_mm. False when its light misses the table. */
bool vt_reading(const struct vt_setup *setup, double px_x, double px_y, double sigma_mm, struct vt_noise *noise,
                double *x, double *y);

/* --- a look ----------------------------------------------------------------------------------------------------- */

/* Light is counted in shares of that in which white cloth would be photographed as FFFFFF. */
struct vt_cloth {
    uint32_t colour; /* reflectance, as the sRGB colour of the cloth in full light */
    double room;     /* light of the room on the cloth */
    double lamp;     /* the projector's full white on the cloth */
};

/* A buffer to fill, seen from straight above; rows go from far to near, as the person sees the table. */
struct vt_photo {
    uint32_t *xrgb;
    int width, height, stride;
    struct vt_pt far_left; /* the photo's top left corner on the mat */
    double mm_per_px;
};

/* Photograph the table: cloth x (room + lamp x frame) in linear light, channel by channel. For people to look at;
 * nothing is measured on it. */
void vt_picture(const struct vt_setup *setup, const struct vt_frame *frame, const struct vt_cloth *cloth,
                const struct vt_photo *photo);

#endif
