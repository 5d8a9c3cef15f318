/* A layout drawn on the bench: the cloth as it lies, its pieces, how long it is. Not true to scale. */
#ifndef BENCH_LAY_PICTURE_H
#define BENCH_LAY_PICTURE_H

#include "app/arrange_look.h"
#include "form/picture.h"

/* Into a box, with a rule above; returns how much of the box's height it took. */
double bench_draw_lay(struct form_picture *p, struct bench_box box, const struct app_arrange_look *look,
                      enum units_length unit);

/* What torn strips leave and pieces are cut of, one or more, beside each other and each with its name; all of one
 * scale. */
void bench_draw_rests(struct form_picture *p, struct bench_box box, const struct tearing_rest *rests, size_t count);

#endif
