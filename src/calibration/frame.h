/* The "frame" of a readings or table file: the projector's own pixels. */
#ifndef CALIBRATION_FRAME_H
#define CALIBRATION_FRAME_H

#include "base/err_list.h"
#include "json/tree.h"
#include "json/write.h"

/* Reads an object's "frame". False, with a complaint, when missing or not so; what could not be read is then 0. */
bool calibration_frame_from(const struct json_node *object, int *width_px, int *height_px, struct err_list *errs);

void calibration_frame_write(struct json_out *object, int width_px, int height_px);

#endif
