/* How a job's pattern is fitted to its person, from words and from a job file. Not for other folders. */
#ifndef JOB_FITTING_H
#define JOB_FITTING_H

#include "job/job.h"
#include "json/tree.h"
#include "json/write.h"

/* Fits a job whose size is chosen: to the body or the chart, blended, altered, as a trial garment. False with the
 * reasons. */
bool job_fit(struct arena *a, const struct job_choices *choices, struct job *job, struct err_list *errs);

/* What the person has of the pattern's figures; 0 where she has not measured. NULL without a body. In `a`. */
const double *job_own_figures(struct arena *a, const struct job *job);

/* Whether any piece can be blended. */
bool job_has_levels(const struct pattern *p);

/* Every level where the body lies along its row, of the bust that of her cup group; what she has not measured, and what
 * is the same in all sizes, follows the size. In `a`. */
const double *job_levels_of_body(struct arena *a, const struct job *job);

/* Of each piece, whether it is of the job's view, or of its cup group where it has no view. In `a`. */
const bool *job_cut_pieces(struct arena *a, const struct job *job);

/* Adds an alteration to a job that is not finished. */
void job_alter_later(struct arena *a, struct job *job, const char *text, enum units_length unit);

/* The same from a job file whose other choices are read, and into one. */
void job_read_fitting(struct arena *a, const struct json_node *top, struct job *job, struct err_list *errs);
/* A job that is made to a body has none. */
void job_tell_no_body(const struct json_node *top, struct err_list *errs);
void job_write_fitting(struct json_out *top, const struct job *job);

#endif
