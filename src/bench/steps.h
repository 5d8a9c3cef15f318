/* What is done with a piece at the table, step by step, beside its picture. */
#ifndef BENCH_STEPS_H
#define BENCH_STEPS_H

#include "app/progress.h"
#include "bench/cut_list.h"
#include "form/picture.h"

/* How high they are, and drawing them, from the top left. Of the piece in hand `progress` tells which are done. */
double bench_steps_height(const struct form_picture *p, double width, const struct bench_cut_line *line);
void bench_draw_steps(struct form_picture *p, struct bench_box box, const struct bench_cut_line *line,
                      const struct app_progress *progress);

#endif
