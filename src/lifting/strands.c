#include "lifting/strands.h"

#include <math.h>
#include <stdlib.h>

#define SAME_MM 0.02 /* widths and dashes: files round them */

/* A style under its number, to be sorted. */
struct styled {
    const struct drawing_style *style;
    int index;
};

/* A line under what it is sorted by. */
struct sorted {
    int layer, look;
    size_t line;
};

static int by_number(double a, double b)
{
    return fabs(a - b) < SAME_MM ? 0 : a < b ? -1 : 1;
}

static bool is_filled(const struct drawing_style *s)
{
    return s->filled && !s->stroked;
}

static double width_of(const struct drawing_style *s)
{
    return s->stroked ? s->width_mm : 0;
}

static int compare_dashes(const struct drawing_style *a, const struct drawing_style *b)
{
    if (a->dash_count != b->dash_count)
        return a->dash_count < b->dash_count ? -1 : 1;
    for (size_t i = 0; i < a->dash_count; i++) {
        int order = by_number(a->dash_mm[i], b->dash_mm[i]);
        if (order)
            return order;
    }
    return 0;
}

static int compare_looks(const struct drawing_style *a, const struct drawing_style *b)
{
    if (is_filled(a) != is_filled(b))
        return is_filled(a) ? 1 : -1;
    if (a->rgb != b->rgb)
        return a->rgb < b->rgb ? -1 : 1;
    int order = by_number(width_of(a), width_of(b));
    return order ? order : compare_dashes(a, b);
}

static int by_look(const void *pa, const void *pb)
{
    const struct styled *a = pa, *b = pb;
    int order = compare_looks(a->style, b->style);
    return order ? order : (a->index > b->index) - (a->index < b->index);
}

/* For each style its look, by number. */
static int *looks_of_styles(struct arena *a, const struct drawing *d, size_t *count)
{
    struct styled *sorted = base_arena_alloc(a, d->style_count, sizeof *sorted);
    int *looks = base_arena_alloc(a, d->style_count, sizeof *looks), met = 0;
    for (size_t i = 0; i < d->style_count; i++)
        sorted[i] = (struct styled){ &d->styles[i], (int)i };
    qsort(sorted, d->style_count, sizeof *sorted, by_look);
    for (size_t i = 0; i < d->style_count; i++) {
        met += i == 0 || compare_looks(sorted[i - 1].style, sorted[i].style) != 0;
        looks[sorted[i].index] = met - 1;
    }
    *count = (size_t)met;
    return looks;
}

static int by_layer_and_look(const void *pa, const void *pb)
{
    const struct sorted *a = pa, *b = pb;
    if (a->layer != b->layer)
        return a->layer < b->layer ? -1 : 1;
    if (a->look != b->look)
        return a->look < b->look ? -1 : 1;
    return (a->line > b->line) - (a->line < b->line);
}

static int by_first(const void *pa, const void *pb)
{
    const struct sorted *a = *(const struct sorted *const *)pa, *b = *(const struct sorted *const *)pb;
    if (a->layer != b->layer)
        return a->layer < b->layer ? -1 : 1;
    return (a->line > b->line) - (a->line < b->line);
}

static bool same_strand(const struct sorted *a, const struct sorted *b)
{
    return a->layer == b->layer && a->look == b->look;
}

static void put_strand(struct lifting_strands *s, const struct drawing *d, const struct sorted *first,
                       const struct sorted *end)
{
    const struct drawing_style *style = &d->styles[d->lines[first->line].style];
    struct lifting_strand strand = { .layer = first->layer,
                                     .rgb = style->rgb,
                                     .dash_mm = style->dash_mm,
                                     .dash_count = style->dash_count,
                                     .width_mm = width_of(style),
                                     .filled = is_filled(style),
                                     .size = LIFTING_NONE,
                                     .cup_group = LIFTING_NONE };
    for (; first < end && same_strand(first, end - 1); first++) {
        s->of_line[first->line] = (int)s->count;
        s->looks[s->count] = first->look;
        strand.line_count++;
        strand.length_mm += geometry_path_length(d->lines[first->line].path.path);
    }
    s->items[s->count++] = strand;
}

struct lifting_strands lifting_sort_strands(struct arena *a, const struct drawing *d)
{
    struct lifting_strands s = { .of_line = base_arena_alloc(a, d->line_count, sizeof *s.of_line) };
    const int *looks = looks_of_styles(a, d, &s.look_count);
    struct sorted *lines = base_arena_alloc(a, d->line_count, sizeof *lines);
    const struct sorted **firsts = base_arena_alloc(a, d->line_count, sizeof(void *));
    size_t count = 0, strands = 0;
    for (size_t i = 0; i < d->line_count; i++) {
        s.of_line[i] = LIFTING_NONE;
        if (!d->styles[d->lines[i].style].lettering)
            lines[count++] = (struct sorted){ d->lines[i].layer, looks[d->lines[i].style], i };
    }
    qsort(lines, count, sizeof *lines, by_layer_and_look);
    for (size_t i = 0; i < count; i++)
        if (i == 0 || !same_strand(&lines[i - 1], &lines[i]))
            firsts[strands++] = &lines[i];
    qsort(firsts, strands, sizeof(void *), by_first);
    s.items = base_arena_alloc(a, strands, sizeof *s.items);
    s.looks = base_arena_alloc(a, strands, sizeof *s.looks);
    for (size_t i = 0; i < strands; i++) {
        const struct sorted *end = firsts[i] + 1;
        while (end < lines + count && same_strand(firsts[i], end))
            end++;
        put_strand(&s, d, firsts[i], end);
    }
    return s;
}
