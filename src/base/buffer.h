/* A text that grows, for files that are written line by line. */
#ifndef BASE_BUFFER_H
#define BASE_BUFFER_H

#include "base/arena.h"

/* {.a = arena} is an empty one; it lives in that arena. */
struct base_buffer {
    struct arena *a;
    char *data; /* NULL while it is empty; else ended by a zero byte that is not counted */
    size_t count, cap;
};

/* printf behind what is there. */
void base_buffer_print(struct base_buffer *b, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* The whole text, never NULL; good until the next print. */
const char *base_buffer_text(const struct base_buffer *b);

#endif
