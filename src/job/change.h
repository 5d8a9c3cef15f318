/* Changes of a job, each from the job as it was to a new one: what was stays as it is, so that it can be gone back to.
 * The new job and all that is new in it live in `a`; what has not changed is shared, so the old one has to live as
 * long.
 *
 * A change that cannot be made is told and gives back the job itself. What follows from what was changed follows at
 * once: while she has not chosen it by hand the size, and the cup group, are where her measurements lie, as are a
 * blend's levels while it goes by the body; alterations are read anew. What fell away with it is told as warnings: an
 * alteration that can no longer be made, the layout of a cloth on which pieces no longer fit where they lay. */
#ifndef JOB_CHANGE_H
#define JOB_CHANGE_H

#include "job/job.h"

#define JOB_MOST_NAME 200 /* letters of a name, as files have them */

/* A blank job. */
const struct job *job_begin(struct arena *a);

/* --- her measurements: a body that was read from a file is a typed one from the first change on --- */

/* Whose they are, well-formed UTF-8 of at most JOB_MOST_NAME letters; "": not told. */
const struct job *job_with_person(struct arena *a, const struct job *job, const char *name);

/* A measurement, in mm, above 0; 0 takes it out. */
const struct job *job_with_measurement(struct arena *a, const struct job *job, const char *name, double mm,
                                       struct err_list *errs);

/* The unit that they are written in and that bare numbers of alterations are in; lengths stay as they are. */
const struct job *job_with_unit(struct arena *a, const struct job *job, enum units_length unit, struct err_list *errs);

/* The body of a file, in place of what was typed; NULL: none. */
const struct job *job_with_body(struct arena *a, const struct job *job, const char *path, struct err_list *errs);

/* --- pattern, view, size and how it is fitted --- */

/* The pattern of a file. View, size, cup group and levels that were chosen stay where the new one has them by name, as
 * do alterations that can be made in it and notes on pieces that it has; what falls away is warned of. */
const struct job *job_with_pattern(struct arena *a, const struct job *job, const char *path, struct err_list *errs);

/* An index of the pattern's views; PATTERN_NONE: none. */
const struct job *job_with_view(struct arena *a, const struct job *job, int view, struct err_list *errs);

/* A place of the size chart that she chose, and so confirmed; or the one where her measurements lie. */
const struct job *job_with_size(struct arena *a, const struct job *job, double position, struct err_list *errs);
const struct job *job_with_size_by_body(struct arena *a, const struct job *job, struct err_list *errs);

/* She agrees to the size, or no longer does. */
const struct job *job_with_size_confirmed(struct arena *a, const struct job *job, bool confirmed);

/* A cup group that she chose; PATTERN_NONE: the one nearest to her full bust. */
const struct job *job_with_cup_group(struct arena *a, const struct job *job, int group, struct err_list *errs);

/* One level of a blend, a row of the chart, by hand: the others stay, or begin where the size is. PATTERN_NONE as the
 * position: at the size. */
const struct job *job_with_blend(struct arena *a, const struct job *job, int level, double position,
                                 struct err_list *errs);

/* All levels where her measurements lie, and following them; told where the pattern cannot be blended. Or none. */
const struct job *job_with_blend_by_body(struct arena *a, const struct job *job, struct err_list *errs);
const struct job *job_without_blend(struct arena *a, const struct job *job, struct err_list *errs);

/* Drafted to her own measurements, or to the size. */
const struct job *job_with_made_to(struct arena *a, const struct job *job, bool to_body, struct err_list *errs);

/* One more alteration in words (job/alterations.h); a job whose view or size is missing cannot be altered, which is
 * told. Or without that one, from 0. */
const struct job *job_with_alteration(struct arena *a, const struct job *job, const char *text, struct err_list *errs);
const struct job *job_without_alteration(struct arena *a, const struct job *job, size_t which, struct err_list *errs);

const struct job *job_with_trial(struct arena *a, const struct job *job, bool trial, struct err_list *errs);

/* --- cloth --- */

/* What a material is cut from; what is torn, made ready and laid stays, the last as far as it fits. The job takes a
 * copy of what the cloth points at. */
const struct job *job_with_cloth(struct arena *a, const struct job *job, enum pattern_cloth material,
                                 const struct cloth *cloth, struct err_list *errs);
const struct job *job_without_cloth(struct arena *a, const struct job *job, enum pattern_cloth material);

/* A step of making it ready is done, or not. */
const struct job *job_with_ready(struct arena *a, const struct job *job, enum pattern_cloth material,
                                 enum cloth_step step, bool done);

/* How rectangles are torn off a cloth that the job has. A layout of what is left then is taken off, which is told. */
const struct job *job_with_torn(struct arena *a, const struct job *job, enum pattern_cloth material,
                                struct job_torn torn, struct err_list *errs);

/* --- the table, and the ticket itself --- */

/* The table of a file; NULL: none. */
const struct job *job_with_table(struct arena *a, const struct job *job, const char *path, struct err_list *errs);

/* Valid. */
const struct job *job_with_surface(struct arena *a, const struct job *job, struct calibration_surface surface);

/* "" or NULL: made of the person's and the pattern's again. */
const struct job *job_with_name(struct arena *a, const struct job *job, const char *name);

/* The words that stand unread in a field, in place of those before; NULL: they were read, or taken out. */
const struct job *job_with_unread(struct arena *a, const struct job *job, const char *field, const char *text);

/* What she writes of a piece, by its name in the pattern; NULL or "": nothing. */
const struct job *job_with_note(struct arena *a, const struct job *job, const char *piece, const char *text);

/* Where she is. */
const struct job *job_with_page(struct arena *a, const struct job *job, enum job_page page);

const struct job *job_with_way(struct arena *a, const struct job *job, enum job_way way);

#endif
