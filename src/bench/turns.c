#include "bench/turns.h"

#include "bench/inside.h"
#include "scene/page.h"

struct bench_turns {
    bool known;
    unsigned long of; /* the changes after which it was */
    int side, strip;
    int turns[JOB_MATERIALS];
    struct arena *in; /* owns the sentences */
    const char *troubles[JOB_MATERIALS];
};

struct bench_turns *bench_turns_create(struct arena *a)
{
    struct bench_turns *turns = base_arena_alloc(a, 1, sizeof *turns);
    turns->in = base_arena_create();
    return turns;
}

void bench_turns_destroy(struct bench_turns *turns)
{
    base_arena_destroy(turns->in);
}

static const struct app_cloth_progress *cloth_of(const struct app_progress *progress, enum pattern_cloth material)
{
    for (size_t i = 0; i < progress->cloth_count; i++)
        if (progress->cloths[i].material == material)
            return &progress->cloths[i];
    return NULL;
}

static void note(struct bench_turns *turns, const struct app_progress *progress)
{
    for (int m = 0; m < JOB_MATERIALS; m++) {
        const struct app_cloth_progress *cloth = cloth_of(progress, (enum pattern_cloth)m);
        turns->turns[m] = cloth ? cloth->turn : 0;
        turns->troubles[m] = cloth && cloth->trouble ? base_arena_copy_text(turns->in, cloth->trouble) : NULL;
    }
}

/* The table's own planning, for nobody to see. */
static void find_out(const struct bench *b, struct bench_turns *turns)
{
    const struct job *job = bench_now(b);
    const struct app_start start = { .job = job, .table = job->table, .unit = b->manner.unit };
    struct arena *a = base_arena_create();
    struct err_list *untold = base_err_list_create();
    struct app *app = job->has_table && job_is_finished(job) ? app_create(a, &start, untold) : NULL;
    struct app_progress progress = { .cloth_count = 0 };
    if (app) {
        app_set_side(app, scene_side_name((enum scene_side)b->manner.side));
        app_set_strip(app, scene_side_name((enum scene_side)b->manner.strip));
        app_stand(app);
        progress = app_progress_of(app, a);
    }
    note(turns, &progress);
    base_err_list_destroy(untold);
    base_arena_destroy(a);
}

/* As it is known, or found out anew. */
static const struct bench_turns *known(const struct bench *b)
{
    struct bench_turns *turns = b->turns;
    if (turns->known && turns->of == b->changes && turns->side == b->manner.side && turns->strip == b->manner.strip)
        return turns;
    base_arena_reset(turns->in);
    *turns = (struct bench_turns){
        .known = true, .of = b->changes, .side = b->manner.side, .strip = b->manner.strip, .in = turns->in
    };
    find_out(b, turns);
    return turns;
}

int bench_turn_of(const struct bench *b, enum pattern_cloth material)
{
    const struct app_cloth_progress *lies = cloth_of(&b->progress, material);
    return lies && lies->is_placed ? lies->turn : known(b)->turns[material];
}

const char *bench_table_trouble(const struct bench *b, enum pattern_cloth material)
{
    const struct app_cloth_progress *lies = cloth_of(&b->progress, material);
    return lies && lies->is_placed ? NULL : known(b)->troubles[material];
}
