/* Any text as a job, begun or finished; one that is read holds choices that its own copies allow, comes back as it was
 * written, and takes changes. */
#include "fuzz/fuzz.h"
#include "job/change.h"
#include "job/job.h"

#include <string.h>

/* What is chosen of the pattern; of a job without one nothing is. */
static void check_choices(const struct job *job)
{
    const struct pattern *p = job->pattern;
    fuzz_must(job->view < (p ? (int)p->view_count : 0) && job->view >= PATTERN_NONE);
    fuzz_must(job->position == PATTERN_NONE ||
              (p && job->position >= 0 && job->position <= (double)(p->size_count - 1)));
    fuzz_must(job->cup_group < (p ? (int)p->cup_group_count : 0) && job->cup_group >= PATTERN_NONE);
    fuzz_must(!job->alteration_count || p);
}

static void check_rest(const struct job *job)
{
    fuzz_must(!job->body || job->body->count > 0 || !job->body_source.path);
    fuzz_must(calibration_surface_is_valid(&job->surface));
    fuzz_must(job->has_table == (job->table_source.path != NULL));
    fuzz_must(!job->has_table || geometry_map_is_valid(&job->table.map));
}

static void check_finished(const struct job *job)
{
    fuzz_must(job->pattern && job->view != PATTERN_NONE && job->position != PATTERN_NONE);
    fuzz_must((job->cup_group == PATTERN_NONE) == (job->pattern->cup_group_count == 0));
    fuzz_must(!job->to_body || job->body);
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

static void same_source(const struct job_source *back, const struct job_source *was)
{
    fuzz_must((back->text.data == NULL) == (was->text.data == NULL) && (back->path == NULL) == (was->path == NULL));
    fuzz_must(!was->text.data || strcmp(back->text.data, was->text.data) == 0);
    fuzz_must(!was->path || strcmp(back->path, was->path) == 0);
}

static void print_and_read_back(struct arena *a, const struct job *job, struct err_list *errs)
{
    struct job back;
    const char *text = job_print(a, job);
    fuzz_must(job_parse_begun(a, "again", text, strlen(text), &back, errs));
    fuzz_must(back.view == job->view && back.cup_group == job->cup_group && back.position == job->position);
    fuzz_must(back.surface.layers == job->surface.layers && back.surface.mat == job->surface.mat);
    fuzz_must(back.alteration_count == job->alteration_count);
    fuzz_must(back.ticket.unread.count == job->ticket.unread.count);
    same_source(&back.pattern_source, &job->pattern_source);
    same_source(&back.body_source, &job->body_source);
    same_source(&back.table_source, &job->table_source);
    same_cloths(&back, job);
    fuzz_must(strcmp(job_print(a, &back), text) == 0);
}

/* A change is of a job that can be read again, whatever falls away with it. */
static void change(struct arena *a, const struct job *job)
{
    struct err_list *told = base_err_list_create();
    const struct job *out = job_with_measurement(a, job, "waist", 700, told);
    out = job_with_unread(a, job_with_trial(a, out, !job->trial, told), "waist", NULL);
    if (job->pattern)
        out = job_with_size_by_body(a, job_with_view(a, out, 0, told), told);
    fuzz_must(told->faults == 0);
    check_choices(out);
    print_and_read_back(a, out, told);
    base_err_list_destroy(told);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create(), *told = base_err_list_create();
    struct job job, finished;
    bool taken = job_parse_begun(a, "fuzz", (const char *)data, size, &job, errs);
    fuzz_must(taken == (errs->faults == 0));
    if (taken) {
        check_choices(&job);
        check_rest(&job);
        print_and_read_back(a, &job, errs);
        change(a, &job);
    }
    bool whole = job_parse(a, "fuzz", (const char *)data, size, &finished, told);
    fuzz_must(whole == (told->faults == 0) && whole == (taken && job_is_finished(&job)));
    if (whole)
        check_finished(&finished);
    base_err_list_destroy(told);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return 0;
}
