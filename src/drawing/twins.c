#include "drawing/twins.h"

#include <stdlib.h>

#define LARGE_MM 4.0       /* smaller shapes are notches and arrows, of which there are many alike */
#define SAME_SIZE_MM 0.02  /* what rounding leaves of equal sizes */
#define SAME_PLACE_MM 0.05 /* not moved at all: of the page, not of the sheet */
#define AGREE_MM 0.1
enum { ALIKE_MOST = 16, AGREE_LEAST = 2, AGREEING_MOST = 200 };

struct shape {
    long look;
    size_t count;
    vec2 size, first; /* of its box; its first point, from the tile's origin */
    vec2 middle;      /* a point half way, from the first */
    size_t tile;
};

static int by_number(double a, double b)
{
    return (a > b) - (a < b);
}

static int by_shape(const void *x, const void *y)
{
    const struct shape *a = x, *b = y;
    if (a->look != b->look)
        return a->look < b->look ? -1 : 1;
    if (a->count != b->count)
        return a->count < b->count ? -1 : 1;
    int order = by_number(a->size.x, b->size.x);
    if (order == 0)
        order = by_number(a->size.y, b->size.y);
    if (order == 0)
        order = (a->tile > b->tile) - (a->tile < b->tile);
    return order ? order : by_number(a->first.x, b->first.x);
}

static vec2 scaled(const struct drawing_tiling *t, vec2 p)
{
    return (vec2){ p.x * t->scale.across, p.y * t->scale.up };
}

static struct shape shape_of(const struct drawing_tiling *t, size_t tile, const struct drawing_line *line)
{
    struct geometry_path path = line->path.path;
    struct geometry_box box = geometry_path_box(path);
    vec2 first = scaled(t, path.points[0]);
    return (struct shape){ .look = drawing_look_of(&t->looks, line),
                           .count = path.count,
                           .size = scaled(t, vec2_sub(box.max, box.min)),
                           .first = vec2_sub(first, t->tiles[tile].origin),
                           .middle = vec2_sub(scaled(t, path.points[path.count / 2]), first),
                           .tile = tile };
}

/* Where every page holds the whole sheet most of its lines lie elsewhere. */
static bool is_seen(const struct drawing_tiling *t, const struct drawing_line *line)
{
    struct geometry_box seen = drawing_seen_box(t->d, line->page, line->clip), box = geometry_path_box(line->path.path);
    return !t->d->styles[line->style].lettering && box.min.x <= seen.max.x && box.max.x >= seen.min.x &&
           box.min.y <= seen.max.y && box.max.y >= seen.min.y;
}

static struct shape *shapes_of(const struct drawing_tiling *t, size_t *count)
{
    struct shape *shapes = base_arena_alloc(t->a, t->d->line_count, sizeof *shapes);
    *count = 0;
    for (size_t k = 0; k < t->count; k++) {
        const struct drawing_page *page = &t->d->pages[t->tiles[k].page];
        for (size_t i = page->first_line; i < page->first_line + page->line_count; i++) {
            if (t->furniture[i] || !is_seen(t, &t->d->lines[i]))
                continue;
            shapes[*count] = shape_of(t, k, &t->d->lines[i]);
            *count += fmax(shapes[*count].size.x, shapes[*count].size.y) >= LARGE_MM;
        }
    }
    if (*count)
        qsort(shapes, *count, sizeof *shapes, by_shape);
    return shapes;
}

static bool near(vec2 a, vec2 b, double most)
{
    return fabs(a.x - b.x) <= most && fabs(a.y - b.y) <= most;
}

static bool are_alike(const struct shape *a, const struct shape *b)
{
    return a->look == b->look && a->count == b->count && near(a->size, b->size, SAME_SIZE_MM) &&
           near(a->middle, b->middle, SAME_SIZE_MM);
}

static void add_twin(const struct drawing_tiling *t, struct drawing_twins *out, const struct shape *a,
                     const struct shape *b)
{
    const struct shape *p = a->tile < b->tile ? a : b, *q = a->tile < b->tile ? b : a;
    vec2 apart = vec2_sub(p->first, q->first);
    if (p->tile == q->tile || near(apart, (vec2){ 0, 0 }, SAME_PLACE_MM))
        return;
    out->all = base_arena_grow(t->a, out->all, &out->cap, out->count + 1, sizeof *out->all);
    out->all[out->count++] = (struct drawing_twin){ p->tile, q->tile, apart };
}

static int by_pair(const void *x, const void *y)
{
    const struct drawing_twin *a = x, *b = y;
    if (a->p != b->p)
        return a->p < b->p ? -1 : 1;
    if (a->q != b->q)
        return a->q < b->q ? -1 : 1;
    int order = by_number(a->apart.x, b->apart.x);
    return order ? order : by_number(a->apart.y, b->apart.y);
}

/* The twin of a pair that most others agree with. */
static size_t best_of_pair(const struct drawing_twin *all, size_t first, size_t next, size_t *agree)
{
    size_t best = first;
    *agree = 0;
    for (size_t i = first; i < next; i++) {
        size_t count = 0;
        for (size_t k = i; k < next && all[k].apart.x - all[i].apart.x <= AGREE_MM && k < i + AGREEING_MOST; k++)
            count += near(all[k].apart, all[i].apart, AGREE_MM);
        if (count > *agree) {
            best = i;
            *agree = count;
        }
    }
    return best;
}

/* Two pages lie in one way: of their twins those stay that say the same. */
static void keep_agreeing(struct drawing_twins *t)
{
    size_t kept = 0;
    for (size_t first = 0, next; first < t->count; first = next) {
        size_t agree;
        for (next = first + 1;
             next < t->count && t->all[next].p == t->all[first].p && t->all[next].q == t->all[first].q;)
            next++;
        vec2 apart = t->all[best_of_pair(t->all, first, next, &agree)].apart;
        for (size_t i = first; agree >= AGREE_LEAST && i < next; i++)
            if (near(t->all[i].apart, apart, AGREE_MM))
                t->all[kept++] = t->all[i];
    }
    t->count = kept;
}

struct drawing_twins drawing_find_twins(const struct drawing_tiling *t)
{
    size_t count;
    struct shape *shapes = shapes_of(t, &count);
    struct drawing_twins out = { NULL, 0, 0 };
    for (size_t first = 0, next; first < count; first = next) {
        for (next = first + 1; next < count && shapes[next].look == shapes[first].look &&
                               shapes[next].count == shapes[first].count &&
                               shapes[next].size.x - shapes[next - 1].size.x <= SAME_SIZE_MM;)
            next++;
        /* Straight lines and squares come in many sizes close together: each is held against the next few. */
        for (size_t i = first; i < next; i++)
            for (size_t k = i + 1; k < next && k <= i + ALIKE_MOST; k++)
                if (are_alike(&shapes[i], &shapes[k]))
                    add_twin(t, &out, &shapes[i], &shapes[k]);
    }
    if (out.count)
        qsort(out.all, out.count, sizeof *out.all, by_pair);
    keep_agreeing(&out);
    return out;
}
