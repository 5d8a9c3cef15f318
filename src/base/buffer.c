#include "base/buffer.h"

#include <assert.h>
#include <stdio.h>

void base_buffer_print(struct base_buffer *b, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    int length = vsnprintf(NULL, 0, format, args);
    assert(length >= 0);
    b->data = base_arena_grow(b->a, b->data, &b->cap, b->count + (size_t)length + 1, 1);
    vsnprintf(b->data + b->count, (size_t)length + 1, format, again);
    b->count += (size_t)length;
    va_end(again);
    va_end(args);
}

const char *base_buffer_text(const struct base_buffer *b)
{
    return b->data ? b->data : "";
}
