#include "scene/names.h"

struct entry {
    uint64_t digest;
    struct scene_name name;
};

/* Of one picture: some dozens, so that looking through them all is quick. */
struct picture {
    struct arena *a;
    struct entry *entries;
    size_t count, cap;
};

struct scene_names {
    struct arena *a; /* owns this */
    struct picture last, now;
};

struct scene_names *scene_names_create(void)
{
    struct arena *a = base_arena_create();
    struct scene_names *names = base_arena_alloc(a, 1, sizeof *names);
    *names = (struct scene_names){ .a = a, .last = { .a = base_arena_create() }, .now = { .a = base_arena_create() } };
    return names;
}

void scene_names_destroy(struct scene_names *names)
{
    if (!names)
        return;
    base_arena_destroy(names->last.a);
    base_arena_destroy(names->now.a);
    base_arena_destroy(names->a);
}

void scene_names_begin(struct scene_names *names)
{
    if (!names)
        return;
    struct arena *oldest = names->last.a;
    base_arena_reset(oldest);
    names->last = names->now;
    names->now = (struct picture){ .a = oldest };
}

static const struct scene_name *find(const struct picture *in, uint64_t digest)
{
    for (size_t i = 0; i < in->count; i++)
        if (in->entries[i].digest == digest)
            return &in->entries[i].name;
    return NULL;
}

const struct scene_name *scene_names_find(struct scene_names *names, uint64_t digest)
{
    if (!names)
        return NULL;
    const struct scene_name *name = find(&names->last, digest);
    if (name)
        scene_names_keep(names, digest, name);
    return name;
}

void scene_names_keep(struct scene_names *names, uint64_t digest, const struct scene_name *name)
{
    if (!names)
        return;
    struct picture *now = &names->now;
    now->entries = base_arena_grow(now->a, now->entries, &now->cap, now->count + 1, sizeof *now->entries);
    struct entry *kept = &now->entries[now->count++];
    *kept = (struct entry){ digest, *name };
    for (size_t i = 0; i < name->label.count; i++)
        kept->name.label.text[i] = base_arena_copy_text(now->a, name->label.text[i]);
}
