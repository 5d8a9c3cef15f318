#include "base/pool.h"

#include "base/arena.h"
#include "base/priority.h"

#include <assert.h>
#include <pthread.h>
#include <stdbool.h>

struct worker {
    struct base_pool *pool;
    pthread_t thread;
    int number;
};

/* One job at a time. Parts are handed out under the lock: they are few and long. */
struct base_pool {
    struct arena *arena;
    struct worker *workers; /* without the caller */
    int count;
    pthread_mutex_t lock;
    pthread_cond_t work, done;
    base_pool_job *job;
    void *user;
    size_t next, parts, unfinished;
    bool low; /* their priority */
    bool closing;
};

/* Works until no part is left to start. The lock is held on both ends. */
static void work_off(struct base_pool *pool, int worker)
{
    while (pool->next < pool->parts) {
        size_t part = pool->next++;
        base_pool_job *job = pool->job;
        void *user = pool->user;
        pthread_mutex_unlock(&pool->lock);
        job(user, part, worker);
        pthread_mutex_lock(&pool->lock);
        if (--pool->unfinished == 0)
            pthread_cond_signal(&pool->done);
    }
}

static void *run_worker(void *user)
{
    struct worker *worker = user;
    struct base_pool *pool = worker->pool;
    if (pool->low)
        base_lower_priority();
    pthread_mutex_lock(&pool->lock);
    while (!pool->closing) {
        work_off(pool, worker->number);
        if (!pool->closing)
            pthread_cond_wait(&pool->work, &pool->lock);
    }
    pthread_mutex_unlock(&pool->lock);
    return NULL;
}

static struct base_pool *create(int threads, bool low)
{
    assert(threads >= 1 && threads <= BASE_POOL_MOST);
    struct arena *arena = base_arena_create();
    struct base_pool *pool = base_arena_alloc(arena, 1, sizeof *pool);
    pool->arena = arena;
    pool->low = low;
    pool->workers = base_arena_alloc(arena, (size_t)threads, sizeof *pool->workers);
    pthread_mutex_init(&pool->lock, NULL);
    pthread_cond_init(&pool->work, NULL);
    pthread_cond_init(&pool->done, NULL);
    for (int i = 1; i < threads; i++) {
        struct worker *worker = &pool->workers[i - 1];
        *worker = (struct worker){ .pool = pool, .number = i };
        if (pthread_create(&worker->thread, NULL, run_worker, worker) != 0)
            break;
        pool->count++;
    }
    return pool;
}

struct base_pool *base_pool_create(int threads)
{
    return create(threads, false);
}

struct base_pool *base_pool_create_low(int threads)
{
    return create(threads, true);
}

void base_pool_destroy(struct base_pool *pool)
{
    if (!pool)
        return;
    pthread_mutex_lock(&pool->lock);
    pool->closing = true;
    pthread_cond_broadcast(&pool->work);
    pthread_mutex_unlock(&pool->lock);
    for (int i = 0; i < pool->count; i++)
        pthread_join(pool->workers[i].thread, NULL);
    pthread_cond_destroy(&pool->done);
    pthread_cond_destroy(&pool->work);
    pthread_mutex_destroy(&pool->lock);
    base_arena_destroy(pool->arena);
}

int base_pool_threads(const struct base_pool *pool)
{
    return pool ? pool->count + 1 : 1;
}

void base_pool_run(struct base_pool *pool, size_t parts, base_pool_job *job, void *user)
{
    if (!pool) {
        for (size_t part = 0; part < parts; part++)
            job(user, part, 0);
        return;
    }
    pthread_mutex_lock(&pool->lock);
    assert(pool->unfinished == 0);
    pool->job = job;
    pool->user = user;
    pool->next = 0;
    pool->parts = pool->unfinished = parts;
    pthread_cond_broadcast(&pool->work);
    work_off(pool, 0);
    while (pool->unfinished)
        pthread_cond_wait(&pool->done, &pool->lock);
    pthread_mutex_unlock(&pool->lock);
}
