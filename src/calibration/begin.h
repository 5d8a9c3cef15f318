/* Where a fit begins its walk: near enough that downhill leads to the best map. Not: any weights, or the best map. */
#ifndef CALIBRATION_BEGIN_H
#define CALIBRATION_BEGIN_H

#include "calibration/model.h"

/* From the positions of the mat's place that has most of them, by direct linear transform; the mat's other places are
 * laid where this map puts their crosses. False when those positions do not fix a map. */
bool calibration_begin_direct(struct arena *scratch, const struct calibration_model *model,
                              struct calibration_unknowns *out);

/* From any readings: a picture of their scale, not mirrored, seen from straight above but for its horizon's two terms
 * (`tilt`). False when nothing gives a scale. */
bool calibration_begin_plain(struct arena *scratch, const struct calibration_model *model, vec2 tilt,
                             struct calibration_unknowns *out);

#endif
