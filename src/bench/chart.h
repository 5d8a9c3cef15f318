/* The size chart with the person in it: a dot on each row's rule between the two sizes that she lies between. */
#ifndef BENCH_CHART_H
#define BENCH_CHART_H

#include "form/picture.h"
#include "job/job.h"

/* u; 0 for a pattern without a chart. */
double bench_chart_height(const struct pattern *pattern);

void bench_draw_chart(struct form_picture *p, struct bench_box box, const struct job *job, enum units_length unit);

#endif
