/* A hash table with open addressing, at most half full. */
#include "pattern/names.h"

#include "pattern/pattern.h"

#include <stdint.h>
#include <string.h>

enum { FIRST_CAP = 256 }; /* a power of two, as all that follow */

struct slot {
    const char *name; /* NULL: free */
    enum pattern_name_kind kind;
    int piece, index;
};

struct pattern_names {
    struct arena *a;
    struct slot *slots;
    size_t count, cap;
};

/* FNV-1a (Fowler, Noll and Vo), with the kind and the piece before the name. */
static uint64_t hash_of(enum pattern_name_kind kind, int piece, const char *name)
{
    const uint64_t prime = 0x100000001b3u;
    uint64_t hash = (0xcbf29ce484222325u ^ (uint64_t)kind) * prime;
    hash = (hash ^ (uint64_t)(uint32_t)piece) * prime;
    for (; *name; name++)
        hash = (hash ^ (unsigned char)*name) * prime;
    return hash ^ hash >> 32;
}

static struct slot *slot_of(const struct pattern_names *names, enum pattern_name_kind kind, int piece, const char *name)
{
    size_t at = (size_t)hash_of(kind, piece, name) & (names->cap - 1);
    for (;; at = (at + 1) & (names->cap - 1)) {
        struct slot *s = &names->slots[at];
        if (!s->name || (s->kind == kind && s->piece == piece && strcmp(s->name, name) == 0))
            return s;
    }
}

struct pattern_names *pattern_names_create(struct arena *a)
{
    struct pattern_names *names = base_arena_alloc(a, 1, sizeof *names);
    *names = (struct pattern_names){ .a = a, .cap = FIRST_CAP };
    names->slots = base_arena_alloc(a, names->cap, sizeof *names->slots);
    return names;
}

static void grow(struct pattern_names *names)
{
    struct pattern_names larger = { .a = names->a, .count = names->count, .cap = 2 * names->cap };
    larger.slots = base_arena_alloc(names->a, larger.cap, sizeof *larger.slots);
    for (size_t i = 0; i < names->cap; i++) {
        const struct slot *s = &names->slots[i];
        if (s->name)
            *slot_of(&larger, s->kind, s->piece, s->name) = *s;
    }
    *names = larger;
}

void pattern_names_add(struct pattern_names *names, enum pattern_name_kind kind, int piece, const char *name, int index)
{
    if (!name)
        return;
    if (2 * names->count >= names->cap)
        grow(names);
    struct slot *s = slot_of(names, kind, piece, name);
    if (s->name)
        return;
    *s = (struct slot){ name, kind, piece, index };
    names->count++;
}

int pattern_names_find(const struct pattern_names *names, enum pattern_name_kind kind, int piece, const char *name)
{
    const struct slot *s = slot_of(names, kind, piece, name);
    return s->name ? s->index : PATTERN_NONE;
}
