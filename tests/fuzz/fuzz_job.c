/* Any text as a job; one that is read holds choices that its own copies allow, and comes back as it was written. */
#include "fuzz/fuzz.h"
#include "job/job.h"

#include <string.h>

static void check_choices(const struct job *job)
{
    const struct pattern *p = job->pattern;
    fuzz_must(job->view >= 0 && job->view < (int)p->view_count);
    fuzz_must(job->position >= 0 && job->position <= (double)(p->size_count - 1));
    fuzz_must(job->cup_group < (int)p->cup_group_count);
    fuzz_must((job->cup_group == PATTERN_NONE) == (p->cup_group_count == 0));
    fuzz_must(!job->body || job->body->count > 0);
    fuzz_must(calibration_surface_is_valid(&job->surface));
    fuzz_must(job->has_table == (job->table_source.path != NULL));
    fuzz_must(!job->has_table || geometry_map_is_valid(&job->table.map));
}

static void same_cloths(const struct job *back, const struct job *job)
{
    fuzz_must(back->cloth_count == job->cloth_count);
    for (size_t i = 0; i < job->cloth_count; i++) {
        const struct job_cloth *was = &job->cloths[i], *is = &back->cloths[i];
        fuzz_must(is->material == was->material && is->cloth.width_mm == was->cloth.width_mm);
        fuzz_must(is->laid_count == was->laid_count);
        fuzz_must(is->torn.is_kept == was->torn.is_kept && is->torn.along == was->torn.along &&
                  is->torn.off_square_mm == was->torn.off_square_mm && is->torn.margin_mm == was->torn.margin_mm);
        for (size_t k = 0; k < was->laid_count; k++)
            fuzz_must(strcmp(is->laid[k].piece, was->laid[k].piece) == 0 && is->laid[k].number == was->laid[k].number &&
                      is->laid[k].motion.shift.x == was->laid[k].motion.shift.x);
    }
}

static void print_and_read_back(struct arena *a, const struct job *job, struct err_list *errs)
{
    struct job back;
    const char *text = job_print(a, job);
    fuzz_must(job_parse(a, "again", text, strlen(text), &back, errs));
    fuzz_must(back.view == job->view && back.cup_group == job->cup_group && back.position == job->position);
    fuzz_must(back.surface.layers == job->surface.layers && back.surface.mat == job->surface.mat);
    fuzz_must(strcmp(back.pattern_source.text.data, job->pattern_source.text.data) == 0);
    fuzz_must(!job->body_source.path || strcmp(back.body_source.text.data, job->body_source.text.data) == 0);
    same_cloths(&back, job);
    fuzz_must(strcmp(back.pattern_source.path, job->pattern_source.path) == 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct job job;
    bool taken = job_parse(a, "fuzz", (const char *)data, size, &job, errs);
    fuzz_must(taken == (errs->faults == 0));
    if (taken) {
        check_choices(&job);
        print_and_read_back(a, &job, errs);
    }
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
