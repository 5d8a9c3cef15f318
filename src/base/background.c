#include "base/background.h"

#include "base/arena.h"
#include "base/priority.h"

#include <assert.h>
#include <pthread.h>
#include <string.h>

struct base_background {
    struct arena *arena; /* owns this */
    struct base_background_work work;
    struct base_pool *pool;
    pthread_t thread;
    pthread_mutex_t lock;
    pthread_cond_t changed;
    void *question;       /* asked last; NULL: none, or that was dropped */
    unsigned long number; /* of that question: an answer to another one is dropped */
    bool rests, finished; /* nothing is to be done on it now; nothing is left to be done */
    bool first;           /* no step was made since it was asked */
    void *under_way;      /* what the step under way works on, or NULL … */
    bool ends;            /* … and whether that was dropped meanwhile */
    atomic_bool stop;
    void *answer, *made; /* to be taken; being made */
    bool fresh;          /* there is one that was not taken */
    bool closing;
};

/* With the lock held on both ends. */
static void make_step(struct base_background *b)
{
    void *question = b->under_way = b->question;
    unsigned long number = b->number;
    struct base_background_turn turn = { b->pool, &b->stop, b->first, b->made };
    b->first = false;
    atomic_store(&b->stop, false);
    pthread_mutex_unlock(&b->lock);
    enum base_background_news news = b->work.step(question, &turn);
    pthread_mutex_lock(&b->lock);
    bool ends = b->ends, tell = number == b->number && news != BASE_NO_NEWS;
    if (tell) {
        memcpy(b->answer, b->made, b->work.answer_bytes);
        b->fresh = true;
        b->finished = news == BASE_LAST_NEWS;
    }
    b->under_way = NULL;
    b->ends = false;
    pthread_mutex_unlock(&b->lock);
    if (ends)
        b->work.end(question);
    if (tell)
        b->work.wake(b->work.user);
    pthread_mutex_lock(&b->lock);
}

static void *run(void *user)
{
    struct base_background *b = user;
    base_lower_priority();
    pthread_mutex_lock(&b->lock);
    while (!b->closing) {
        if (b->question && !b->rests && !b->finished)
            make_step(b);
        else
            pthread_cond_wait(&b->changed, &b->lock);
    }
    pthread_mutex_unlock(&b->lock);
    return NULL;
}

/* All but the thread. */
static void finish(struct base_background *b)
{
    base_pool_destroy(b->pool);
    pthread_cond_destroy(&b->changed);
    pthread_mutex_destroy(&b->lock);
    base_arena_destroy(b->arena);
}

struct base_background *base_background_create(const struct base_background_work *work)
{
    struct arena *arena = base_arena_create();
    struct base_background *b = base_arena_alloc(arena, 1, sizeof *b);
    b->arena = arena;
    b->work = *work;
    b->answer = base_arena_alloc(arena, 1, work->answer_bytes);
    b->made = base_arena_alloc(arena, 1, work->answer_bytes);
    b->pool = base_pool_create_low(work->threads);
    pthread_mutex_init(&b->lock, NULL);
    pthread_cond_init(&b->changed, NULL);
    if (pthread_create(&b->thread, NULL, run, b) == 0)
        return b;
    finish(b);
    return NULL;
}

void base_background_destroy(struct base_background *b)
{
    if (!b)
        return;
    pthread_mutex_lock(&b->lock);
    b->closing = true;
    atomic_store(&b->stop, true);
    pthread_cond_signal(&b->changed);
    pthread_mutex_unlock(&b->lock);
    pthread_join(b->thread, NULL);
    finish(b);
}

/* Another question, or none. */
static void turn_to(struct base_background *b, void *question)
{
    b->question = question;
    b->number++;
    b->fresh = b->finished = false;
}

void base_background_ask(struct base_background *b, void *question)
{
    pthread_mutex_lock(&b->lock);
    if (question && question != b->question) {
        turn_to(b, question);
        b->first = true;
    }
    b->rests = !question;
    pthread_cond_signal(&b->changed);
    pthread_mutex_unlock(&b->lock);
}

void base_background_drop(struct base_background *b, void *question)
{
    pthread_mutex_lock(&b->lock);
    if (b->question == question)
        turn_to(b, NULL);
    bool now = b->under_way != question;
    if (!now) {
        b->ends = true;
        atomic_store(&b->stop, true);
    }
    pthread_mutex_unlock(&b->lock);
    if (now)
        b->work.end(question);
}

bool base_background_take(struct base_background *b, void *answer)
{
    pthread_mutex_lock(&b->lock);
    bool fresh = b->fresh;
    if (fresh)
        memcpy(answer, b->answer, b->work.answer_bytes);
    b->fresh = false;
    pthread_mutex_unlock(&b->lock);
    return fresh;
}
