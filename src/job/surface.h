/* The "surface" of a job file: what is cut on, above the surface that the table was set up on. */
#ifndef JOB_SURFACE_H
#define JOB_SURFACE_H

#include "base/err_list.h"
#include "calibration/height.h"
#include "json/tree.h"
#include "json/write.h"

/* Reads it; a bare number is in mm. Faults are told; what could not be read is then zero. */
void job_surface_from(const struct json_node *object, struct calibration_surface *out, struct err_list *errs);

/* Adds it, unless it is the table's own. */
void job_surface_write(struct json_out *to, const struct calibration_surface *surface);

#endif
