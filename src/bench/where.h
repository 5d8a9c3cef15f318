/* Where a piece lies in its layout: the cloth, small, with that piece bright. Not true to scale. */
#ifndef BENCH_WHERE_H
#define BENCH_WHERE_H

#include "app/progress.h"
#include "bench/cloth_picture.h"

/* How high it is in that width, at most `most`; 0: nothing is laid out. */
double bench_where_height(const struct bench_lying *lying, double width, double most);

/* `cut`: the line of the cutting list; `progress` of that cloth, NULL: none of it is cut. */
void bench_draw_where(struct form_picture *p, struct bench_box box, const struct bench_lying *lying, int cut,
                      const struct app_cloth_progress *progress);

#endif
