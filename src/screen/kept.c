#include "screen/kept.h"

#include "base/arena.h"
#include "base/digest.h"

#include <string.h>

/* All of one picture. */
struct picture {
    struct arena *arena; /* owns keys, dabs and the list */
    struct screen_drawn *drawn;
    size_t count, cap;
};

struct screen_kept {
    struct arena *arena; /* owns this */
    struct picture now, last;
};

struct screen_kept *screen_kept_create(void)
{
    struct arena *arena = base_arena_create();
    struct screen_kept *kept = base_arena_alloc(arena, 1, sizeof *kept);
    kept->arena = arena;
    kept->now.arena = base_arena_create();
    kept->last.arena = base_arena_create();
    return kept;
}

static void forget(struct picture *picture)
{
    for (size_t i = 0; i < picture->count; i++)
        SDL_FreeSurface(picture->drawn[i].text);
    base_arena_reset(picture->arena);
    *picture = (struct picture){ .arena = picture->arena };
}

void screen_kept_destroy(struct screen_kept *kept)
{
    if (!kept)
        return;
    forget(&kept->now);
    forget(&kept->last);
    base_arena_destroy(kept->now.arena);
    base_arena_destroy(kept->last.arena);
    base_arena_destroy(kept->arena);
}

void screen_kept_begin(struct screen_kept *kept)
{
    struct picture before = kept->now;
    forget(&kept->last);
    kept->now = kept->last;
    kept->last = before;
}

static struct screen_drawn *find_in(const struct picture *picture, const void *key, size_t bytes, uint64_t digest)
{
    for (size_t i = 0; i < picture->count; i++) {
        struct screen_drawn *drawn = &picture->drawn[i];
        if (drawn->digest == digest && drawn->bytes == bytes && memcmp(drawn->key, key, bytes) == 0)
            return drawn;
    }
    return NULL;
}

static void *copy(struct arena *a, const void *from, size_t bytes)
{
    void *to = base_arena_alloc(a, 1, bytes);
    if (bytes)
        memcpy(to, from, bytes);
    return to;
}

static const struct screen_drawn *add(struct picture *to, const struct screen_drawn *drawn)
{
    to->drawn = base_arena_grow(to->arena, to->drawn, &to->cap, to->count + 1, sizeof *to->drawn);
    struct screen_drawn *added = &to->drawn[to->count++];
    *added = *drawn;
    added->key = copy(to->arena, drawn->key, drawn->bytes);
    added->dabs = copy(to->arena, drawn->dabs, drawn->dab_count * sizeof *drawn->dabs);
    return added;
}

const struct screen_drawn *screen_kept_find(struct screen_kept *kept, const void *key, size_t bytes)
{
    uint64_t digest = base_digest(BASE_DIGEST_NONE, key, bytes);
    const struct screen_drawn *here = find_in(&kept->now, key, bytes, digest);
    struct screen_drawn *before = here ? NULL : find_in(&kept->last, key, bytes, digest);
    if (!before)
        return here;
    here = add(&kept->now, before);
    before->text = NULL; /* has moved */
    return here;
}

const struct screen_drawn *screen_kept_add(struct screen_kept *kept, const struct screen_drawn *drawn)
{
    struct screen_drawn one = *drawn;
    one.digest = base_digest(BASE_DIGEST_NONE, drawn->key, drawn->bytes);
    return add(&kept->now, &one);
}
