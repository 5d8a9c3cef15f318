/* The files a job was made from, and its copies of them. Not for other folders. */
#ifndef JOB_SOURCES_H
#define JOB_SOURCES_H

#include "job/job.h"
#include "json/tree.h"
#include "json/write.h"

/* Reads a file for the job to keep. */
bool job_source_load(struct arena *a, const char *path, struct job_source *out, struct err_list *errs);

bool job_source_is_given(const struct job_source *source);

/* Parses the copies that the job holds; job_file, which complaints name, is NULL while the job is being made. */
bool job_sources_parse(struct arena *a, const char *job_file, struct job *job, struct err_list *errs);

/* Warns of each whose file has changed since. */
void job_sources_compare(const struct job *job, struct err_list *errs);

/* From and into a job file. */
bool job_sources_from(const struct json_node *top, struct job *out, struct err_list *errs);
void job_sources_write(struct json_out *top, const struct job *job);

#endif
