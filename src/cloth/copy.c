#include "cloth/cloth.h"

static const char *text_copy(struct arena *a, const char *text)
{
    return text ? base_arena_copy_text(a, text) : NULL;
}

struct cloth cloth_copy(struct arena *a, const struct cloth *cloth)
{
    struct cloth copy = *cloth;
    struct cloth_path *faults = base_arena_alloc(a, cloth->fault_count, sizeof *faults);
    copy.name = text_copy(a, cloth->name);
    copy.colour = text_copy(a, cloth->colour);
    if (cloth->outline.path.count)
        copy.outline.path = geometry_path_copy(a, cloth->outline.path);
    for (size_t i = 0; i < cloth->fault_count; i++)
        faults[i].path = geometry_path_copy(a, cloth->faults[i].path);
    copy.faults = faults;
    return copy;
}
