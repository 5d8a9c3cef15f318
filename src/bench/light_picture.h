/* How true the table is, drawn on the bench: the light over the mat as she stands at its near side, lines of equal
 * doubt, and what was not measured. Not true to scale. */
#ifndef BENCH_LIGHT_PICTURE_H
#define BENCH_LIGHT_PICTURE_H

#include "calibration/table.h"
#include "form/picture.h"

/* Into a box. */
void bench_draw_light(struct form_picture *p, struct bench_box box, const struct calibration_table *table);

#endif
