/* The projector of a set-up made ready to trace many rays. Private to the virtual table. */
#ifndef VT_TRACE_H
#define VT_TRACE_H

#include "virtual_table.h"

struct vt_vec {
    double x, y, z; /* mat axes */
};

struct vt_aim {
    struct vt_vec lens;             /* mm */
    struct vt_vec right, up, ahead; /* unit directions of the picture and the optical axis */
    double centre_x_px, centre_y_px;
    double slope_per_px; /* sideways travel for unit travel along the axis */
    double shift_slope;  /* the frame's centre above the optical axis */
    double k1_slope;     /* the lens term for r measured as a slope */
};

struct vt_aim vt_aim_at(const struct vt_setup *setup);
bool vt_aim_hit(const struct vt_aim *aim, double px_x, double px_y, double *x, double *y);
bool vt_aim_find(const struct vt_aim *aim, double x, double y, double *px_x, double *px_y);

#endif
