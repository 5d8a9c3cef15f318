/* View, size and cup group by name, from a job file. Not for other folders. */
#ifndef JOB_CHOOSE_H
#define JOB_CHOOSE_H

#include "job/job.h"
#include "json/tree.h"

/* Reads the choices of a job whose sources are read; those that are not made yet may be left out. */
void job_read_choices(const struct json_node *top, struct job *job, struct err_list *errs);

#endif
