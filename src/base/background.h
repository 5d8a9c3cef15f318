/* A thread of low priority that works on one question, step by step, until it is given another one or none. Nobody
 * waits for a step: the answer to a question that is no longer asked is dropped. */
#ifndef BASE_BACKGROUND_H
#define BASE_BACKGROUND_H

#include "base/pool.h"

#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>

struct base_background;

/* What came of a step. */
enum base_background_news {
    BASE_NO_NEWS,
    BASE_NEWS,     /* an answer, better than those before */
    BASE_LAST_NEWS /* an answer, and there is nothing more to do */
};

/* What a step is given. */
struct base_background_turn {
    struct base_pool *pool;  /* threads of low priority, the one of the step among them */
    const atomic_bool *stop; /* once it is set nothing will come of the step: it may end early */
    bool first;              /* of this question since it was asked: an answer should come even if it is no news */
    void *answer;            /* room for one */
};

struct base_background_work {
    /* A part of the work on a question; it alone uses the question meanwhile. */
    enum base_background_news (*step)(void *question, const struct base_background_turn *turn);
    void (*end)(void *question); /* of one that was dropped; by either thread */
    void (*wake)(void *user);    /* called by the background's thread once an answer is there to be taken */
    void *user;                  /* of `wake` */
    size_t answer_bytes;
    int threads; /* 1 to BASE_POOL_MOST */
};

/* NULL: the system gives no thread. */
struct base_background *base_background_create(const struct base_background_work *work);

/* Lets a step under way end early and waits for that; nothing wakes afterwards. A question that was not dropped is its
 * owner's. NULL is allowed. */
void base_background_destroy(struct base_background *b);

/* Works on that question from now on, the step under way ended; the same one goes on. NULL: rests. */
void base_background_ask(struct base_background *b, void *question);

/* Ends a question as soon as no step works on it, which may be at once. It is the background's from now on. */
void base_background_drop(struct base_background *b, void *question);

/* Copies the newest answer to the question asked last. False: none has come since one was taken. */
bool base_background_take(struct base_background *b, void *answer);

#endif
