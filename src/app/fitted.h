/* A job's draft, fitted to its person, and what that came to, in words. */
#ifndef APP_FITTED_H
#define APP_FITTED_H

#include "draft/draft.h"
#include "job/job.h"
#include "json/write.h"

/* Drafts a job's view. Where it is fitted (to the body, blended, altered) seams that no longer match are warned of by
 * name. As draft_make otherwise. */
bool app_draft(struct arena *a, const struct job *job, struct draft *out, struct err_list *errs);

/* Lines that say how a job is fitted: whose figures, which of them the chart had to give, the levels of a blend, each
 * alteration with its number; "" of a job in one size as drawn. In `a`. */
const char *app_fitted_report(struct arena *a, const struct job *job, enum units_length unit);
void app_fitted_json(struct arena *a, struct json_out *to, const struct job *job);

#endif
