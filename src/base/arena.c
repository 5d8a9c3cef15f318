#include "base/arena.h"

#include <assert.h>
#include <stdalign.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK_BYTES = 64 * 1024 };

struct block {
    struct block *older;
    size_t used, size;
    size_t soiled; /* so many of its first bytes may not be zero */
    alignas(max_align_t) unsigned char bytes[];
};

struct arena {
    struct block *newest;
    size_t bytes; /* of all blocks */
};

/* The one setting of the whole process in this folder: set once by main before any arena exists. */
static void (*out_of_memory)(void) = abort;

void base_on_out_of_memory(void (*handler)(void))
{
    out_of_memory = handler ? handler : abort;
}

static void *must(void *memory)
{
    if (!memory) {
        out_of_memory();
        abort();
    }
    return memory;
}

struct arena *base_arena_create(void)
{
    return must(calloc(1, sizeof(struct arena)));
}

static void free_blocks(struct block *b)
{
    while (b) {
        struct block *older = b->older;
        free(b);
        b = older;
    }
}

void base_arena_destroy(struct arena *a)
{
    if (!a)
        return;
    free_blocks(a->newest);
    free(a);
}

void base_arena_reset(struct arena *a)
{
    if (!a->newest)
        return;
    free_blocks(a->newest->older);
    a->newest->older = NULL;
    a->bytes = a->newest->size;
    a->newest->used = 0;
}

size_t base_arena_bytes(const struct arena *a)
{
    return a->bytes;
}

#if defined(__has_feature)
#if __has_feature(address_sanitizer) /* clang's way to say so */
#define EVERY_STEP_IS_WATCHED 1
#endif
#endif
#if defined(__SANITIZE_ADDRESS__)
#define EVERY_STEP_IS_WATCHED 1
#endif

/* Under the address sanitizer every allocation gets a block of its own size, so that a step past its end is seen. */
static size_t block_size_for(size_t bytes)
{
#if defined(EVERY_STEP_IS_WATCHED)
    return bytes;
#else
    return bytes > BLOCK_BYTES ? bytes : BLOCK_BYTES;
#endif
}

/* A large block is made of fresh pages, which the system has zeroed; one of the usual size has lain about, and of that
 * only what is handed out gets zeroed. */
static struct block *add_block(struct arena *a, size_t bytes)
{
    size_t size = block_size_for(bytes);
    bool is_fresh = size > BLOCK_BYTES;
    struct block *b = must(is_fresh ? calloc(1, sizeof *b + size) : malloc(sizeof *b + size));
    *b = (struct block){ .older = a->newest, .size = size, .soiled = is_fresh ? 0 : size };
    a->newest = b;
    a->bytes += size;
    return b;
}

static void *hand_out(struct block *b, size_t start, size_t bytes)
{
    size_t end = start + bytes;
    if (start < b->soiled)
        memset(b->bytes + start, 0, (end < b->soiled ? end : b->soiled) - start);
    if (end > b->soiled)
        b->soiled = end;
    b->used = end;
    return b->bytes + start;
}

void *base_arena_alloc(struct arena *a, size_t count, size_t size)
{
    assert(a);
    if (size && count > (SIZE_MAX - sizeof(struct block) - 64) / size) {
        out_of_memory();
        abort();
    }
    size_t bytes = count * size;
    struct block *b = a->newest;
    size_t start = b ? (b->used + alignof(max_align_t) - 1) / alignof(max_align_t) * alignof(max_align_t) : 0;
    if (!b || start > b->size || b->size - start < bytes) {
        b = add_block(a, bytes);
        start = 0;
    }
    return hand_out(b, start, bytes);
}

void *base_arena_grow(struct arena *a, void *data, size_t *cap, size_t need, size_t size)
{
    if (need <= *cap)
        return data;
    size_t wanted = *cap * 2 > need ? *cap * 2 : need;
    if (wanted < 8)
        wanted = 8;
    void *larger = base_arena_alloc(a, wanted, size);
    if (data)
        memcpy(larger, data, *cap * size);
    *cap = wanted;
    return larger;
}

char *base_arena_copy_bytes(struct arena *a, const char *bytes, size_t count)
{
    char *copy = base_arena_alloc(a, count + 1, 1);
    if (count)
        memcpy(copy, bytes, count);
    return copy;
}

char *base_arena_copy_text(struct arena *a, const char *text)
{
    return base_arena_copy_bytes(a, text, strlen(text));
}

char *base_arena_vprint(struct arena *a, const char *format, va_list args)
{
    va_list again;
    va_copy(again, args);
    int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    assert(length >= 0);
    char *text = base_arena_alloc(a, (size_t)length + 1, 1);
    vsnprintf(text, (size_t)length + 1, format, args);
    return text;
}

char *base_arena_print(struct arena *a, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    char *text = base_arena_vprint(a, format, args);
    va_end(args);
    return text;
}
