/* How a job's pattern is fitted to its person, from words and from a job file. Not for other folders. */
#ifndef JOB_FITTING_H
#define JOB_FITTING_H

#include "job/job.h"
#include "json/tree.h"
#include "json/write.h"

/* Fits a job whose size is chosen: to the body or the chart, blended, altered, as a trial garment. False with the
 * reasons. */
bool job_fit(struct arena *a, const struct job_choices *choices, struct job *job, struct err_list *errs);

/* The same from a job file whose other choices are read, and into one. */
void job_read_fitting(struct arena *a, const struct json_node *top, struct job *job, struct err_list *errs);
/* A finished job that is made to a body has one. */
void job_check_body(const struct json_node *top, const struct job *job, struct err_list *errs);
void job_write_fitting(struct json_out *top, const struct job *job);

#endif
