/* A sheet drawn in a test and divided by hand: layer 0 is common to all sizes, the next ones are sizes, one each, and
 * the last is unused. */
#ifndef TESTS_LIFTING_STAGED_H
#define TESTS_LIFTING_STAGED_H

#include "drawing/drawn.h"
#include "lifting/outlines.h"
#include "support/cmocka_all.h"

enum { COMMON, FIRST, SECOND, THIRD, STAGED_LAYERS_MOST = 16 };

struct staged {
    struct arena *a;
    struct collect *c;
    uint32_t sizes;
    uint32_t cup_groups; /* layers behind the sizes: of the first size in each cup group */
    struct drawing d;
    struct lifting_division division;
    const struct lifting_shape *shapes;
    size_t count, loose;
    struct err_list *errs;
};

/* A page of 1200 × 900 mm with so many sizes. */
static inline struct staged staged_begin(struct arena *a, uint32_t sizes, uint32_t cup_groups)
{
    struct staged s = { .a = a, .c = collect_create(-1), .sizes = sizes, .cup_groups = cup_groups };
    for (uint32_t i = 0; i < sizes + cup_groups + 2; i++)
        collect_layer(s.c, SHEET_NONE, base_arena_print(a, "%u", i), SHEET_LAYER_ON);
    collect_page(s.c, 1200, 900, NULL);
    return s;
}

/* Draws a line through points. */
#define DRAW(staged, layer, closed, ...)                                                                               \
    drawn_line((staged)->c, (layer), (const double[]){ __VA_ARGS__ },                                                  \
               sizeof((const double[]){ __VA_ARGS__ }) / sizeof(double) / 2, (closed))

static inline void staged_rectangle(struct staged *s, uint32_t layer, double x, double y, double width, double height)
{
    DRAW(s, layer, true, x, y, x + width, y, x + width, y + height, x, y + height);
}

/* A strand for each layer and look. */
static inline int staged_strand(struct staged *s, struct lifting_strand *strands, const struct drawing_line *line)
{
    const struct drawing_style *style = &s->d.styles[line->style];
    if (style->lettering)
        return LIFTING_NONE;
    for (size_t i = 0; i < s->division.strand_count; i++)
        if (strands[i].layer == line->layer && strands[i].dash_mm == style->dash_mm)
            return (int)i;
    int size = line->layer - 1, cup = size - (int)s->sizes;
    struct lifting_strand strand = { .layer = line->layer, .size = LIFTING_NONE, .cup_group = LIFTING_NONE };
    strand.dash_mm = style->dash_mm;
    strand.dash_count = style->dash_count;
    if (line->layer == COMMON)
        strand.role = LIFTING_COMMON;
    else if (size < (int)(s->sizes + s->cup_groups)) {
        strand.role = LIFTING_SIZE;
        strand.size = cup >= 0 ? 0 : size;
        strand.cup_group = cup >= 0 ? cup : LIFTING_NONE;
    }
    strands[s->division.strand_count] = strand;
    return (int)s->division.strand_count++;
}

/* Draws no more, divides, and finds the shapes. */
static inline void staged_find(struct staged *s)
{
    static const char *const names[STAGED_LAYERS_MOST] = { "S", "M", "L", "XL" };
    s->d = drawn_drawing(s->a, s->c);
    struct lifting_strand *strands = base_arena_alloc(s->a, s->d.line_count, sizeof *strands);
    int *of = base_arena_alloc(s->a, s->d.line_count, sizeof *of);
    s->division = (struct lifting_division){ .strands = strands, .strand_of_line = of, .sizes = names };
    s->division.size_count = s->sizes;
    s->division.cup_groups = names;
    s->division.cup_group_count = s->cup_groups;
    for (size_t i = 0; i < s->d.line_count; i++)
        of[i] = staged_strand(s, strands, &s->d.lines[i]);
    s->errs = base_err_list_create();
    s->count = lifting_find_shapes(s->a, &s->d, &s->division, &s->shapes, &s->loose, s->errs);
}

static inline void staged_end(struct staged *s)
{
    base_err_list_destroy(s->errs);
}

#endif
