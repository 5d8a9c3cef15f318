#include "paint/image.h"

#include <assert.h>

struct paint_image paint_image_create(struct arena *a, int width, int height)
{
    assert(width > 0 && height > 0);
    size_t count = (size_t)width * (size_t)height;
    return (struct paint_image){ width, height, (size_t)width, base_arena_alloc(a, count, sizeof(uint32_t)) };
}
