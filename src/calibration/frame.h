/* The "frame" of a readings or table file: the projector's own pixels. */
#ifndef CALIBRATION_FRAME_H
#define CALIBRATION_FRAME_H

#include "base/err_list.h"
#include "geometry/space.h"
#include "json/tree.h"
#include "json/write.h"

/* Reads an object's "frame". False, with a complaint, when missing or not so; what could not be read is then 0. */
bool calibration_frame_from(const struct json_node *object, int *width_px, int *height_px, struct err_list *errs);

void calibration_frame_write(struct json_out *object, int width_px, int height_px);

/* A list of two values, or NULL with a complaint; NULL is allowed. */
const struct json_node *calibration_pair_from(const struct json_node *node, struct err_list *errs);

/* A list [u, v] as a place of the frame, which is of that size when that is known (not 0). False, with a complaint,
 * when it is not so; NULL, complained of before, is not so. */
bool calibration_pixel_from(const struct json_node *node, int width_px, int height_px, struct px_pt *out,
                            struct err_list *errs);

void calibration_pixel_write(struct json_out *list, struct px_pt px);

#endif
