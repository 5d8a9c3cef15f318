#include "lifting/nest.h"

#include <math.h>
#include <stdlib.h>

/* An outline lies in another when most of its samples do. They are taken a hair within it: lines that two outlines
 * share lie on both. */
#define SAMPLE_WITHIN_MM 0.05
enum { SAMPLES = 24 };

/* A frame around pieces is a rectangle with its sides along the page's, so much of its box, and what lies in it is so
 * much of it: pockets on a rectangular skirt are less (a tenth, own drafts), pieces on a page more. */
#define FRAME_SQUARE 0.97
#define FRAME_FULL 0.25

/* An outline that keeps this near to the one around it is its stitching line: the widest allowances and hems that are
 * drawn are 4 cm (common practice, no source). */
#define STITCHING_MM 45.0

/* Of a test square's sides, which are told by the middle of its lines. */
#define SQUARE_NEAR_MM 1.0

struct nesting {
    struct nest_outline *outlines;
    size_t count;
    vec2 (*samples)[SAMPLES];
    double *within; /* areas of what lies in each, one level down */
    int *children;  /* how many these are */
    bool *sized;    /* whether one of them is drawn for one size */
    bool *beside;   /* whether one of them is a stitching line */
};

bool nest_is_same(const struct nest_outline *a, const struct nest_outline *b, double near_mm)
{
    vec2 low = vec2_sub(a->box.min, b->box.min), high = vec2_sub(a->box.max, b->box.max);
    return fabs(low.x) < near_mm && fabs(low.y) < near_mm && fabs(high.x) < near_mm && fabs(high.y) < near_mm &&
           fabs(a->area_mm2 - b->area_mm2) < near_mm * a->length_mm;
}

static int largest_first(const void *a, const void *b)
{
    const struct nest_outline *p = a, *q = b;
    if (p->area_mm2 < q->area_mm2 || p->area_mm2 > q->area_mm2)
        return p->area_mm2 > q->area_mm2 ? -1 : 1;
    if (p->box.min.x < q->box.min.x || p->box.min.x > q->box.min.x)
        return p->box.min.x < q->box.min.x ? -1 : 1;
    return p->box.min.y < q->box.min.y ? -1 : p->box.min.y > q->box.min.y;
}

/* At equal distances along it. */
static void take_samples(const struct nest_outline *o, vec2 *samples)
{
    for (int k = 0; k < SAMPLES; k++) {
        vec2 way, at = geometry_path_at(o->path, o->length_mm * (k + 0.5) / SAMPLES, &way);
        samples[k] = vec2_sub(at, vec2_scale(vec2_right(way), SAMPLE_WITHIN_MM));
    }
}

static bool box_holds(struct geometry_box b, vec2 p)
{
    return p.x >= b.min.x && p.x <= b.max.x && p.y >= b.min.y && p.y <= b.max.y;
}

static bool lies_in(const struct nesting *n, size_t inner, size_t outer)
{
    const struct nest_outline *o = &n->outlines[outer];
    int left = SAMPLES / 2, in = 0;
    for (int k = 0; k < SAMPLES && in + SAMPLES - k > left; k++)
        in += box_holds(o->box, n->samples[inner][k]) && geometry_path_holds(o->path, n->samples[inner][k]);
    return in > left;
}

/* In the smallest that is larger. */
static bool find_outer(struct nesting *n, size_t i, size_t *work)
{
    for (size_t j = i; j-- > 0;) {
        if (*work == 0)
            return false;
        --*work;
        struct geometry_box a = n->outlines[i].box, b = n->outlines[j].box;
        if (a.min.x <= b.max.x && b.min.x <= a.max.x && a.min.y <= b.max.y && b.min.y <= a.max.y && lies_in(n, i, j)) {
            n->outlines[i].in = (int)j;
            return true;
        }
    }
    return true;
}

bool nest_is_rectangle(const struct nest_outline *o)
{
    vec2 size = vec2_sub(o->box.max, o->box.min);
    return o->area_mm2 >= FRAME_SQUARE * size.x * size.y;
}

static bool is_stitching_line(const struct nesting *n, size_t inner)
{
    const struct nest_outline *outer = &n->outlines[n->outlines[inner].in];
    for (int k = 0; k < SAMPLES; k++)
        if (geometry_path_distance(outer->path, n->samples[inner][k], &(double){ 0 }) > STITCHING_MM)
            return false;
    return true;
}

static void count_children(struct nesting *n)
{
    for (size_t i = 0; i < n->count; i++) {
        int in = n->outlines[i].in;
        if (in == NEST_NONE)
            continue;
        n->within[in] += n->outlines[i].area_mm2;
        n->children[in]++;
        n->sized[in] = n->sized[in] || n->outlines[i].of_size;
        n->beside[in] =
            n->beside[in] || (2 * n->outlines[i].area_mm2 > n->outlines[in].area_mm2 && is_stitching_line(n, i));
    }
}

/* What is the same in all sizes cannot have a closed line within that is not, unless it is around pieces. */
static bool is_frame(const struct nesting *n, size_t i)
{
    const struct nest_outline *o = &n->outlines[i];
    if (n->children[i] == 0)
        return false;
    if (!o->of_size && n->sized[i])
        return true;
    return nest_is_rectangle(o) && !n->beside[i] && n->within[i] > FRAME_FULL * o->area_mm2;
}

bool nest_is_square(const struct nest_outline *o, const struct drawing_square *s)
{
    vec2 corner = { s->corner.x, s->corner.y }, size = { s->width_mm, s->height_mm };
    vec2 low = vec2_sub(o->box.min, corner), high = vec2_sub(o->box.max, vec2_add(corner, size));
    return fabs(low.x) < SQUARE_NEAR_MM && fabs(low.y) < SQUARE_NEAR_MM && fabs(high.x) < SQUARE_NEAR_MM &&
           fabs(high.y) < SQUARE_NEAR_MM;
}

static bool is_test_square(const struct nest_outline *o, const struct drawing_square *squares, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (squares[i].written_mm > 0 && nest_is_square(o, &squares[i]))
            return true;
    return false;
}
bool nest_find(struct arena *a, struct nest_outline *outlines, size_t count, const struct drawing_square *squares,
               size_t square_count, size_t *work)
{
    struct nesting n = { .outlines = outlines, .count = count };
    if (count)
        qsort(outlines, count, sizeof *outlines, largest_first);
    n.samples = base_arena_alloc(a, count, sizeof *n.samples);
    n.within = base_arena_alloc(a, count, sizeof *n.within);
    n.children = base_arena_alloc(a, count, sizeof *n.children);
    n.sized = base_arena_alloc(a, count, sizeof *n.sized);
    n.beside = base_arena_alloc(a, count, sizeof *n.beside);
    for (size_t i = 0; i < count; i++) {
        outlines[i].in = NEST_NONE;
        take_samples(&outlines[i], n.samples[i]);
        if (!find_outer(&n, i, work))
            return false;
    }
    count_children(&n);
    bool *frame = base_arena_alloc(a, count, sizeof *frame);
    for (size_t i = 0; i < count; i++) {
        bool outermost = outlines[i].in == NEST_NONE || frame[outlines[i].in];
        frame[i] = outermost && is_frame(&n, i);
        outlines[i].piece = outermost && !frame[i] && !is_test_square(&outlines[i], squares, square_count);
    }
    return true;
}
