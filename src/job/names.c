#include "job/names.h"

#include "base/words.h"

const char *job_names_of(struct arena *a, const void *items, size_t count, size_t size)
{
    const char *list = count ? "" : base_tr_in("nothing in a list", "none");
    for (size_t i = 0; i < count; i++) {
        const char *const *name = (const void *)((const char *)items + i * size);
        list = base_arena_print(a, "%s%s%s", list, i ? ", " : "", base_arena_print(a, base_tr("“%s”"), *name));
    }
    return list;
}
