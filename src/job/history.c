#include "job/history.h"

#include "job/change.h"
#include "job/copy.h"

#include <string.h>

/* A job, and what was done to come to it from the one before. */
struct step {
    const struct job *job;
    const char *what;
};

struct job_history {
    struct arena *own; /* of this struct itself */
    struct arena *a;   /* of the jobs */
    size_t most_bytes;
    struct step steps[JOB_HISTORY_STEPS + 1];
    size_t count, now;
};

struct job_history *job_history_create(size_t most_bytes)
{
    struct arena *own = base_arena_create();
    struct job_history *h = base_arena_alloc(own, 1, sizeof *h);
    h->own = own;
    h->a = base_arena_create();
    h->most_bytes = most_bytes;
    h->steps[0].job = job_begin(h->a);
    h->count = 1;
    return h;
}

void job_history_destroy(struct job_history *h)
{
    if (!h)
        return;
    base_arena_destroy(h->a);
    base_arena_destroy(h->own);
}

const struct job *job_history_now(const struct job_history *h)
{
    return h->steps[h->now].job;
}

struct arena *job_history_arena(struct job_history *h)
{
    return h->a;
}

static void forget_oldest(struct job_history *h, size_t count)
{
    h->count -= count;
    h->now -= count;
    memmove(h->steps, h->steps + count, h->count * sizeof *h->steps);
}

/* All that can be gone to, in an arena without what cannot. */
static void move_all(struct job_history *h)
{
    struct job_copying to = { .a = base_arena_create() };
    for (size_t i = 0; i < h->count; i++) {
        h->steps[i].job = job_copy(&to, h->steps[i].job);
        h->steps[i].what = h->steps[i].what ? base_arena_copy_text(to.a, h->steps[i].what) : NULL;
    }
    base_arena_destroy(h->a);
    h->a = to.a;
}

/* Half of it is left for what comes, so that it does not move again at each step. */
static void make_room(struct job_history *h)
{
    if (base_arena_bytes(h->a) <= h->most_bytes)
        return;
    move_all(h);
    while (base_arena_bytes(h->a) > h->most_bytes / 2 && h->now > 0) {
        forget_oldest(h, (h->now + 1) / 2);
        move_all(h);
    }
}

void job_history_step(struct job_history *h, const struct job *job, const char *what)
{
    if (job == job_history_now(h))
        return;
    h->count = h->now + 1;
    if (h->count > JOB_HISTORY_STEPS)
        forget_oldest(h, 1);
    h->steps[h->count] = (struct step){ job, base_arena_copy_text(h->a, what) };
    h->now = h->count++;
    make_room(h);
}

void job_history_replace(struct job_history *h, const struct job *job)
{
    h->steps[h->now].job = job;
    make_room(h);
}

void job_history_restart(struct job_history *h, const struct job *job)
{
    h->steps[0] = (struct step){ job, NULL };
    h->count = 1;
    h->now = 0;
    move_all(h);
}

void job_history_read_anew(struct job_history *h)
{
    move_all(h);
}

bool job_history_undo(struct job_history *h)
{
    if (!h->now)
        return false;
    h->now--;
    return true;
}

bool job_history_redo(struct job_history *h)
{
    if (h->now + 1 == h->count)
        return false;
    h->now++;
    return true;
}

const char *job_history_undo_text(const struct job_history *h)
{
    return h->now ? h->steps[h->now].what : NULL;
}

const char *job_history_redo_text(const struct job_history *h)
{
    return h->now + 1 < h->count ? h->steps[h->now + 1].what : NULL;
}
