/* Arenas: memory with one lifetime. Whatever a stage makes lives in its arena and goes in one step.
 * They do not free single blocks, and they never return NULL: out of memory ends in the handler that the
 * command line installed (sizes that come from files are checked before they get here). */
#ifndef BASE_ARENA_H
#define BASE_ARENA_H

#include <stdarg.h>
#include <stddef.h>

struct arena;

/* An empty arena; the caller owns it. */
struct arena *base_arena_create(void);

/* Frees the arena and all that lives in it. NULL is allowed. */
void base_arena_destroy(struct arena *a);

/* Forgets all that lives in the arena and keeps one block of its memory for the next round. */
void base_arena_reset(struct arena *a);

/* How much memory it holds, in bytes; what was asked for is at most that. */
size_t base_arena_bytes(const struct arena *a);

/* `count` zeroed elements of `size` bytes, aligned for any type; never NULL, also for nothing. */
void *base_arena_alloc(struct arena *a, size_t count, size_t size);

/* Room for `need` elements in an array that holds `*cap`: the same array, or a larger copy in `a` with *cap raised. */
void *base_arena_grow(struct arena *a, void *data, size_t *cap, size_t need, size_t size);

/* Copies of text, ended by a zero byte. */
char *base_arena_copy_text(struct arena *a, const char *text);
char *base_arena_copy_bytes(struct arena *a, const char *bytes, size_t count);

/* printf into the arena. */
char *base_arena_print(struct arena *a, const char *format, ...) __attribute__((format(printf, 2, 3)));
char *base_arena_vprint(struct arena *a, const char *format, va_list args) __attribute__((format(printf, 2, 0)));

/* What happens when memory runs out; the handler must not return. Without one the program aborts. */
void base_on_out_of_memory(void (*handler)(void));

#endif
