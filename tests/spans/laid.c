#include "laid.h"

#include "geometry/random.h"

#include <math.h>
#include <string.h>

enum { MOST = 24 };

struct spans_cloth laid_cloth(struct arena *a, double length_mm, double width_mm, size_t most)
{
    return (struct spans_cloth){ .outlines = base_arena_alloc(a, most, sizeof(struct cloth_path)),
                                 .width_mm = width_mm,
                                 .length_mm = length_mm };
}

void laid_add(struct arena *a, struct spans_cloth *cloth, const vec2 *points, size_t count)
{
    struct cloth_path *to = (struct cloth_path *)cloth->outlines; /* the arena's, made above */
    struct geometry_path path = { base_arena_alloc(a, count, sizeof *points), count, true };
    memcpy(path.points, points, count * sizeof *points);
    to[cloth->count++].path = path;
}

void laid_add_box(struct arena *a, struct spans_cloth *cloth, double x, double y, double length, double width)
{
    const vec2 corners[] = { { x, y }, { x + length, y }, { x + length, y + width }, { x, y + width } };
    laid_add(a, cloth, corners, 4);
}

struct spans_cloth laid_three_spans(struct arena *a)
{
    struct spans_cloth cloth = laid_cloth(a, 2750, 800, 8);
    laid_add_box(a, &cloth, 1800, 50, 950, 500);
    laid_add_box(a, &cloth, 500, 50, 450, 700);
    laid_add_box(a, &cloth, 50, 50, 400, 300);
    laid_add_box(a, &cloth, 1000, 50, 700, 300);
    laid_add_box(a, &cloth, 1000, 400, 700, 300);
    return cloth;
}

static bool are_apart(struct geometry_box p, struct geometry_box q)
{
    return p.max.x < q.min.x || q.max.x < p.min.x || p.max.y < q.min.y || q.max.y < p.min.y;
}

struct spans_cloth laid_random(struct arena *a, uint64_t *seed)
{
    struct spans_cloth cloth = laid_cloth(a, 3600, 800, MOST);
    for (int i = 0; i < 400 && cloth.count < MOST; i++) {
        double length = random_between(seed, 80, i % 50 ? 600 : 1500), width = random_between(seed, 80, 500);
        vec2 at = { random_between(seed, 0, 3600 - length), random_between(seed, 0, 800 - width) };
        struct geometry_box box = { at, { at.x + length, at.y + width } };
        bool is_free = true;
        for (size_t k = 0; k < cloth.count && is_free; k++)
            is_free = are_apart(box, geometry_path_box(cloth.outlines[k].path));
        if (!is_free)
            continue;
        const vec2 corners[] = { at, { box.max.x, at.y }, { box.max.x, box.max.y }, { at.x, box.max.y } };
        laid_add(a, &cloth, corners, i % 2 ? 4 : 3);
    }
    return cloth;
}

struct spans_cloth laid_close(struct arena *a, uint64_t *seed)
{
    enum { CLOSE = 160, GAP_MM = 8 };
    struct spans_cloth cloth = laid_cloth(a, 2600, 800, CLOSE);
    for (double y = 0; y < 700;) {
        double width = fmin(random_between(seed, 100, 400), 800 - y);
        for (double x = 0; x < 2500;) {
            double length = fmin(random_between(seed, 80, 900), 2600 - x);
            laid_add_box(a, &cloth, x, y, length, width);
            x += length + random_between(seed, 0, GAP_MM);
        }
        y += width + random_between(seed, 0, GAP_MM);
    }
    return cloth;
}
