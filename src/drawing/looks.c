#include "drawing/looks.h"

#include <stdlib.h>
#include <string.h>

#define WIDTH_STEP_MM 0.01 /* weights nearer than that are one: pages may be scaled by rounded numbers */

struct sorting {
    const struct drawing *d;
    int index;
};

static int by_number(double a, double b)
{
    return (a > b) - (a < b);
}

static double weight(double mm)
{
    return floor(mm / WIDTH_STEP_MM + 0.5);
}

static int by_dashes(const struct drawing_style *a, const struct drawing_style *b)
{
    int order = by_number((double)a->dash_count, (double)b->dash_count);
    for (size_t i = 0; order == 0 && i < a->dash_count; i++)
        order = by_number(weight(a->dash_mm[i]), weight(b->dash_mm[i]));
    return order;
}

static int kind_of(const struct drawing_style *s)
{
    return (s->stroked ? 1 : 0) | (s->filled ? 2 : 0) | (s->lettering ? 4 : 0);
}

static int same_look(const struct drawing_style *a, const struct drawing_style *b)
{
    int order = by_number(a->rgb, b->rgb);
    if (order == 0)
        order = kind_of(a) - kind_of(b);
    if (order == 0)
        order = by_number(weight(a->width_mm), weight(b->width_mm));
    return order ? order : by_dashes(a, b);
}

static int by_look(const void *x, const void *y)
{
    const struct sorting *a = x, *b = y;
    int order = same_look(&a->d->styles[a->index], &b->d->styles[b->index]);
    return order ? order : a->index - b->index;
}

static int by_name(const void *x, const void *y)
{
    const struct sorting *a = x, *b = y;
    const struct drawing_layer *p = &a->d->layers[a->index], *q = &b->d->layers[b->index];
    int order = p->parent - q->parent;
    if (order == 0)
        order = strcmp(p->name, q->name);
    return order ? order : a->index - b->index;
}

static struct sorting *numbered(struct arena *a, const struct drawing *d, size_t count)
{
    struct sorting *s = base_arena_alloc(a, count, sizeof *s);
    for (size_t i = 0; i < count; i++)
        s[i] = (struct sorting){ .d = d, .index = (int)i };
    return s;
}

static const int *same_styles(struct arena *a, const struct drawing *d)
{
    struct sorting *s = numbered(a, d, d->style_count);
    int *same = base_arena_alloc(a, d->style_count, sizeof *same);
    qsort(s, d->style_count, sizeof *s, by_look);
    for (size_t i = 0, first = 0; i < d->style_count; i++) {
        if (same_look(&d->styles[s[first].index], &d->styles[s[i].index]) != 0)
            first = i;
        same[s[i].index] = s[first].index;
    }
    return same;
}

/* Layers of other trees are not brought together: only those below the very same parent. */
static const int *same_layers(struct arena *a, const struct drawing *d)
{
    struct sorting *s = numbered(a, d, d->layer_count);
    int *same = base_arena_alloc(a, d->layer_count, sizeof *same);
    qsort(s, d->layer_count, sizeof *s, by_name);
    for (size_t i = 0, first = 0; i < d->layer_count; i++) {
        const struct drawing_layer *p = &d->layers[s[first].index], *q = &d->layers[s[i].index];
        if (p->parent != q->parent || strcmp(p->name, q->name) != 0)
            first = i;
        same[s[i].index] = s[first].index;
    }
    return same;
}

struct drawing_looks drawing_find_looks(struct arena *a, const struct drawing *d)
{
    return (struct drawing_looks){ same_layers(a, d), same_styles(a, d), d->style_count };
}

long drawing_look_of(const struct drawing_looks *looks, const struct drawing_line *line)
{
    long layer = line->layer == DRAWING_NONE ? 0 : looks->layers[line->layer] + 1L;
    return layer * (long)looks->style_count + looks->styles[line->style];
}
