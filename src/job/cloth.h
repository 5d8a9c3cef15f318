/* The cloths of a job, one a material at most: what each piece is cut from, and where it lies on that. */
#ifndef JOB_CLOTH_H
#define JOB_CLOTH_H

#include "job/job.h"
#include "json/tree.h"
#include "json/write.h"

/* The cloth of a material; NULL: none was told. */
const struct job_cloth *job_find_cloth(const struct job *job, enum pattern_cloth material);

/* Gives a material its cloth, in place of the one it had, with nothing laid on it; what is torn first of the one is of
 * the other. The job keeps what the cloth points at; the list lives in `a`. */
void job_set_cloth(struct arena *a, struct job *job, enum pattern_cloth material, const struct cloth *cloth);

/* The same with what is laid on it. */
void job_put_cloth(struct arena *a, struct job *job, const struct job_cloth *cloth);

/* Takes all pieces off all cloths, as they no longer are what was laid; whether there were any. */
bool job_clear_places(struct arena *a, struct job *job);

/* The cloth of a material as a text, with what is torn off it and without what is laid; in `a`. */
const char *job_print_cloth(struct arena *a, const struct job_cloth *cloth);

/* From and into a job file: the list “cloths”. Not for other folders. */
void job_cloths_from(struct arena *a, const struct json_node *list, struct job *job, struct err_list *errs);
void job_cloths_write(struct json_out *top, const struct job *job);

#endif
