#include "base/saving.h"

#include "base/file.h"

#include <pthread.h>
#include <string.h>

struct base_saving {
    struct arena *arena; /* owns this and the copies; the thread takes nothing from it */
    const char *path, *text;
    struct err_list *errs; /* of the thread */
    pthread_t thread;
    bool has_thread, good;
};

static void *save(void *user)
{
    struct base_saving *s = user;
    s->good = base_file_save(s->path, s->text, strlen(s->text), s->errs);
    return NULL;
}

struct base_saving *base_saving_begin(const char *path, const char *text)
{
    struct arena *arena = base_arena_create();
    struct base_saving *s = base_arena_alloc(arena, 1, sizeof *s);
    *s = (struct base_saving){ .arena = arena,
                               .path = base_arena_copy_text(arena, path),
                               .text = base_arena_copy_text(arena, text),
                               .errs = base_err_list_create() };
    /* A new file's rights go by the umask, which is the whole program's and can only be read by setting it. */
    s->has_thread = base_file_exists(path) && pthread_create(&s->thread, NULL, save, s) == 0;
    if (!s->has_thread)
        save(s);
    return s;
}

const char *base_saving_text(const struct base_saving *s)
{
    return s->text;
}

bool base_saving_end(struct base_saving *s, struct err_list *errs)
{
    if (s->has_thread)
        pthread_join(s->thread, NULL);
    for (int i = 0; i < s->errs->count; i++)
        base_err_add(errs, s->errs->items[i].kind, s->errs->items[i].place, s->errs->items[i].args);
    bool good = s->good;
    base_err_list_destroy(s->errs);
    base_arena_destroy(s->arena);
    return good;
}
