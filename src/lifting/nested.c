#include "lifting/sizes_by_look.h"

#include <math.h>
#include <stdlib.h>

/* Sizes lie within so much of each other; and between the largest and the smallest there is so much more line. Common
 * practice of grading: some millimetres a size, no source. */
#define CELL_MM 20.0
#define LENGTHS_ALIKE 1.8
#define COVERED 0.75
#define LEAST_MM 300.0
#define LONG_MM 40.0 /* shorter lines are marks */

enum { DIRECTIONS = 4, CELLS_MOST = 1 << 14, LOOKS_MOST = 100, SIZES_LEAST = 2 };

/* Where lines of each look run, and how: a bit for each cell of the sheet and direction. */
struct field {
    struct arena *a;
    vec2 min;
    double cell_mm;
    size_t columns, rows;
    unsigned char **of_look; /* NULL: the look is no candidate */
};

static int quarter(vec2 v)
{
    double x = fabs(v.x), y = fabs(v.y);
    if (y < 0.4142 * x) /* tan 22.5 degrees */
        return 0;
    if (x < 0.4142 * y)
        return 2;
    return v.x * v.y > 0 ? 1 : 3;
}

static void spread(const struct field *f, unsigned char *cells)
{
    for (int way = 0; way < 2; way++) {
        size_t step = way ? f->columns : 1, count = f->columns * f->rows;
        unsigned char *copy = base_arena_alloc(f->a, count, 1);
        for (size_t i = 0; i < count; i++)
            copy[i] = (unsigned char)(cells[i] | (i >= step ? cells[i - step] : 0) |
                                      (i + step < count ? cells[i + step] : 0));
        for (size_t i = 0; i < count; i++)
            cells[i] = copy[i];
    }
}

static size_t clamped(double at, size_t count)
{
    return at <= 0 ? 0 : at >= (double)count ? count - 1 : (size_t)at;
}

static void mark(const struct field *f, unsigned char *cells, vec2 at, int direction)
{
    size_t x = clamped((at.x - f->min.x) / f->cell_mm, f->columns);
    size_t y = clamped((at.y - f->min.y) / f->cell_mm, f->rows);
    cells[y * f->columns + x] |= (unsigned char)(1U << direction);
}

static void mark_side(const struct field *f, unsigned char *cells, vec2 a, vec2 b)
{
    vec2 way = vec2_sub(b, a);
    double length = vec2_length(way);
    size_t steps = clamped(2 * length / f->cell_mm, CELLS_MOST) + 1;
    int direction = quarter(way);
    for (size_t k = 0; k <= steps; k++)
        mark(f, cells, vec2_lerp(a, b, (double)k / (double)steps), direction);
}

static void mark_line(const struct field *f, unsigned char *cells, struct geometry_path p)
{
    for (size_t i = 0; i + 1 < p.count + (p.closed ? 1 : 0); i++)
        mark_side(f, cells, p.points[i], p.points[(i + 1) % p.count]);
}

static size_t count_bits(const unsigned char *cells, const unsigned char *of, size_t count)
{
    size_t bits = 0;
    for (size_t i = 0; i < count; i++)
        for (unsigned both = of ? cells[i] & of[i] : cells[i]; both; both &= both - 1)
            bits++;
    return bits;
}

static struct field field_of(struct arena *a, const struct drawing *d)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t i = 0; i < d->line_count; i++)
        box = geometry_box_join(box, geometry_path_box(d->lines[i].path.path));
    double wide = fmax(box.max.x - box.min.x, 1), high = fmax(box.max.y - box.min.y, 1);
    struct field f = { .a = a, .min = box.min, .cell_mm = fmax(CELL_MM, sqrt(wide * high / CELLS_MOST)) };
    f.cell_mm = fmax(f.cell_mm, fmax(wide, high) / 8000);
    f.columns = (size_t)(wide / f.cell_mm) + 1;
    f.rows = (size_t)(high / f.cell_mm) + 1;
    return f;
}

/* Looks with enough line, longest first. */
struct ranked {
    int look;
    double length_mm;
};

static int by_length(const void *pa, const void *pb)
{
    const struct ranked *a = pa, *b = pb;
    if (a->length_mm != b->length_mm)
        return a->length_mm < b->length_mm ? -1 : 1;
    return a->look - b->look;
}

static size_t rank(struct arena *a, const struct lifting_strands *s, const bool *open, struct ranked **out)
{
    double *length = base_arena_alloc(a, s->look_count, sizeof *length);
    size_t count = 0;
    for (size_t i = 0; i < s->count; i++)
        if (open[i] && !s->items[i].filled)
            length[s->looks[i]] += s->items[i].length_mm;
    *out = base_arena_alloc(a, s->look_count, sizeof **out);
    for (size_t i = 0; i < s->look_count; i++)
        if (length[i] >= LEAST_MM)
            (*out)[count++] = (struct ranked){ (int)i, length[i] };
    qsort(*out, count, sizeof **out, by_length);
    return count;
}

static void fill_field(struct field *f, const struct drawing *d, const struct lifting_strands *s, const bool *open,
                       const struct ranked *ranked, size_t count)
{
    f->of_look = base_arena_alloc(f->a, s->look_count, sizeof(void *));
    for (size_t i = 0; i < count; i++)
        f->of_look[ranked[i].look] = base_arena_alloc(f->a, f->columns * f->rows, 1);
    for (size_t i = 0; i < d->line_count; i++) {
        int strand = s->of_line[i];
        if (strand != LIFTING_NONE && open[strand] && f->of_look[s->looks[strand]])
            mark_line(f, f->of_look[s->looks[strand]], d->lines[i].path.path);
    }
}

/* Those of ranked looks that run beside the one at `middle` and are as long. */
static size_t beside(const struct field *f, const struct ranked *ranked, size_t count, size_t middle,
                     struct lifting_look_size *out)
{
    size_t cells = f->columns * f->rows, found = 0;
    unsigned char *wide = base_arena_alloc(f->a, cells, 1);
    const unsigned char *own = f->of_look[ranked[middle].look];
    for (size_t i = 0; i < cells; i++)
        wide[i] = own[i];
    spread(f, wide);
    for (size_t i = 0; i < count; i++) {
        double longer = ranked[i].length_mm / ranked[middle].length_mm;
        const unsigned char *other = f->of_look[ranked[i].look];
        bool alike = longer < LENGTHS_ALIKE && longer > 1 / LENGTHS_ALIKE;
        if (i == middle ||
            (alike && (double)count_bits(other, wide, cells) >= COVERED * (double)count_bits(other, NULL, cells)))
            out[found++] = (struct lifting_look_size){ ranked[i].look, NULL };
    }
    return found;
}

/* How large what a look draws is. */
struct extent {
    double area_mm2, closed_mm, long_mm; /* of closed outlines; their length; of all that is long */
};

static struct extent extent_of(const struct drawing *d, const struct lifting_strands *s, const bool *open, int look)
{
    struct extent e = { 0 };
    for (size_t i = 0; i < d->line_count; i++) {
        int strand = s->of_line[i];
        if (strand == LIFTING_NONE || !open[strand] || s->looks[strand] != look)
            continue;
        struct geometry_path p = d->lines[i].path.path;
        double length = geometry_path_length(p);
        if (length < LONG_MM)
            continue;
        e.long_mm += length;
        e.closed_mm += p.closed ? length : 0;
        e.area_mm2 += p.closed ? fabs(geometry_path_area(p)) : 0;
    }
    return e;
}

/* From small to large: by area where outlines are closed, else by length. */
static void set_in_order(struct arena *work, const struct drawing *d, const struct lifting_strands *s, const bool *open,
                         struct lifting_look_size *sizes, size_t count)
{
    struct ranked *by = base_arena_alloc(work, count, sizeof *by);
    struct extent *extents = base_arena_alloc(work, count, sizeof *extents);
    bool closed = true;
    for (size_t i = 0; i < count; i++) {
        extents[i] = extent_of(d, s, open, sizes[i].look);
        closed = closed && extents[i].closed_mm > extents[i].long_mm / 2;
    }
    for (size_t i = 0; i < count; i++)
        by[i] = (struct ranked){ sizes[i].look, closed ? extents[i].area_mm2 : extents[i].long_mm };
    qsort(by, count, sizeof *by, by_length);
    for (size_t i = 0; i < count; i++)
        sizes[i].look = by[i].look;
}

size_t lifting_sizes_by_nesting(struct arena *a, const struct drawing *d, const struct lifting_strands *s,
                                const bool *open, const struct lifting_look_size **out)
{
    struct arena *work = base_arena_create();
    struct ranked *ranked;
    size_t count = rank(work, s, open, &ranked), most = 0;
    struct lifting_look_size *best = base_arena_alloc(a, count, sizeof *best);
    if (count >= SIZES_LEAST && count <= LOOKS_MOST) {
        struct field f = field_of(work, d);
        struct lifting_look_size *now = base_arena_alloc(work, count, sizeof *now);
        fill_field(&f, d, s, open, ranked, count);
        for (size_t middle = 0; middle < count; middle++) {
            size_t found = beside(&f, ranked, count, middle, now);
            for (size_t i = 0; found > most && i < found; i++)
                best[i] = now[i];
            most = found > most ? found : most;
        }
        set_in_order(work, d, s, open, best, most);
        if (most == SIZES_LEAST && lifting_is_stitching_line(work, d, s, open, best[0].look, best[1].look))
            most = 0;
    }
    base_arena_destroy(work);
    *out = best;
    return most >= SIZES_LEAST ? most : 0;
}
