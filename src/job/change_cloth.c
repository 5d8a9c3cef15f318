/* Changes of the cloths. */
#include "job/change.h"

#include "job/changed.h"
#include "job/cloth.h"
#include "job/laid.h"

#include <assert.h>
#include <string.h>

static const struct err_kind torn_anew = {
    "job.torn_anew", ERR_WARNING,
    BASE_TR(
        "what is torn off the {0} first has changed, so the layout of what is left was taken off; arrange it anew")
};

const struct job *job_with_cloth(struct arena *a, const struct job *job, enum pattern_cloth material,
                                 const struct cloth *cloth, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    const struct job_cloth *before = job_find_cloth(job, material);
    struct job_cloth put = { .material = material };
    if (before)
        put = *before;
    put.cloth = cloth_copy(a, cloth);
    job_put_cloth(a, out, &put);
    if (out->pattern)
        job_judge_layouts(a, job, (int)material, out, errs);
    return out;
}

const struct job *job_without_cloth(struct arena *a, const struct job *job, enum pattern_cloth material)
{
    struct job *out = job_changed(a, job);
    struct job_cloth *rest = base_arena_alloc(a, job->cloth_count, sizeof *rest);
    out->cloth_count = 0;
    for (size_t i = 0; i < job->cloth_count; i++)
        if (job->cloths[i].material != material)
            rest[out->cloth_count++] = job->cloths[i];
    out->cloths = rest;
    memset(out->ticket.ready[material], 0, sizeof out->ticket.ready[material]);
    return out;
}

const struct job *job_with_torn(struct arena *a, const struct job *job, enum pattern_cloth material,
                                struct job_torn torn, struct err_list *errs)
{
    struct job *out = job_changed(a, job);
    assert(job_find_cloth(job, material));
    assert(torn.off_square_mm >= 0 && torn.off_square_mm <= JOB_MOST_OFF_SQUARE_MM);
    assert(torn.margin_mm >= 0 && torn.margin_mm <= JOB_MOST_MARGIN_MM);
    struct job_cloth put = *job_find_cloth(job, material);
    put.torn = torn;
    job_put_cloth(a, out, &put);
    if (put.laid_count) {
        job_clear_layout(a, out, material);
        base_err(errs, &torn_anew, base_err_in_file(NULL), ERR_TEXT(base_tr(pattern_cloth_name(material))));
    }
    return out;
}
