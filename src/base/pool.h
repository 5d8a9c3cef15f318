/* Threads that share out numbered parts of one job.
 *
 * What a job makes of a part must depend on the part alone, and the number of parts on the problem alone: then the
 * result is the same at any number of threads. */
#ifndef BASE_POOL_H
#define BASE_POOL_H

#include <stddef.h>

struct base_pool;

/* `threads` in all, 1 to BASE_POOL_MOST, the caller's among them. Fewer when the system gives no more. */
struct base_pool *base_pool_create(int threads);

/* The same, the other threads of low priority (base/priority.h): for a caller who is, too. */
struct base_pool *base_pool_create_low(int threads);

/* NULL is allowed. No job may be running. */
void base_pool_destroy(struct base_pool *pool);

enum { BASE_POOL_MOST = 16 };

/* Threads that may work at once; 1 for NULL. */
int base_pool_threads(const struct base_pool *pool);

/* One part of a job; `worker`, 0 to threads - 1, is no other part's meanwhile. */
typedef void base_pool_job(void *user, size_t part, int worker);

/* Runs all parts and comes back when they are done. Jobs must not run jobs of the same pool. NULL: one after the
 * other. */
void base_pool_run(struct base_pool *pool, size_t parts, base_pool_job *job, void *user);

#endif
