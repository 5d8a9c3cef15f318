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

/* It is also a frame when several outlines in it tell how often they are cut and it does not itself; and when it is
 * nearly as large as the page, where one such outline is enough, or two, whatever stands between them. A patch pocket
 * is placed in a panel that tells its own count. */
#define PAGE_SHARE 0.9
enum { PIECES_IN_FRAME = 2 };

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
    bool *sized;    /* whether one that lies in it, at any level, is drawn for one size */
    bool *beside;   /* whether one of them is a stitching line */
    bool *told;     /* whether it tells a count that none within it tells */
    int *pieces;    /* how many within, at any level, do so; stitching lines not */
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

static bool is_stitching_line(const struct nesting *n, size_t inner, size_t in)
{
    const struct nest_outline *outer = &n->outlines[in];
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
        n->beside[in] = n->beside[in] || (2 * n->outlines[i].area_mm2 > n->outlines[in].area_mm2 &&
                                          is_stitching_line(n, i, (size_t)in));
    }
    for (size_t i = n->count; i-- > 0;)
        if (n->outlines[i].in != NEST_NONE)
            n->sized[n->outlines[i].in] = n->sized[n->outlines[i].in] || n->sized[i] || n->outlines[i].of_size;
}

/* Each count is told by the smallest outline that it stands in. */
static bool find_told(struct nesting *n, const struct nest_asked *asked, size_t *work)
{
    for (size_t k = 0; k < asked->count_count; k++)
        for (size_t i = n->count; i-- > 0;) {
            if (*work == 0)
                return false;
            --*work;
            if (box_holds(n->outlines[i].box, asked->counts[k]) &&
                geometry_path_holds(n->outlines[i].path, asked->counts[k])) {
                n->told[i] = true;
                break;
            }
        }
    return true;
}

static bool count_pieces(struct nesting *n, size_t *work)
{
    for (size_t i = 0; i < n->count; i++)
        for (int in = n->outlines[i].in; n->told[i] && in != NEST_NONE; in = n->outlines[in].in) {
            if (*work < SAMPLES)
                return false;
            *work -= SAMPLES;
            n->pieces[in] += !is_stitching_line(n, i, (size_t)in);
        }
    return true;
}

static bool is_as_large_as(const struct nest_outline *o, vec2 page)
{
    vec2 size = vec2_sub(o->box.max, o->box.min);
    return page.x > 0 && size.x >= PAGE_SHARE * page.x && size.y >= PAGE_SHARE * page.y;
}

/* What is the same in all sizes cannot have a closed line within that is not, unless it is around pieces. */
static bool is_frame(const struct nesting *n, size_t i, vec2 page)
{
    const struct nest_outline *o = &n->outlines[i];
    if (n->children[i] == 0)
        return false;
    if (!o->of_size && n->sized[i])
        return true;
    if (!nest_is_rectangle(o))
        return false;
    int least = is_as_large_as(o, page) && !n->told[i] ? 1 : PIECES_IN_FRAME;
    if (n->pieces[i] >= least && (!n->told[i] || is_as_large_as(o, page)))
        return true;
    return !n->beside[i] && n->within[i] > FRAME_FULL * o->area_mm2;
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

/* Outlines at any level within a piece that tell a count, where it tells one too. */
static void find_rooms(struct arena *a, const struct nesting *n, size_t piece)
{
    struct nest_outline *rooms = NULL, *o = &n->outlines[piece];
    size_t cap = 0;
    for (size_t i = piece + 1; n->told[piece] && n->pieces[piece] && i < n->count; i++) {
        int in = n->outlines[i].in;
        while (n->told[i] && in != NEST_NONE && in > (int)piece)
            in = n->outlines[in].in;
        if (!n->told[i] || in != (int)piece || is_stitching_line(n, i, piece))
            continue;
        rooms = base_arena_grow(a, rooms, &cap, o->room_count + 1, sizeof *rooms);
        rooms[o->room_count++] = n->outlines[i];
    }
    o->rooms = rooms;
}

bool nest_find(struct arena *a, struct nest_outline *outlines, size_t count, const struct nest_asked *asked,
               size_t *work)
{
    struct nesting n = { .outlines = outlines, .count = count };
    if (count)
        qsort(outlines, count, sizeof *outlines, largest_first);
    n.samples = base_arena_alloc(a, count, sizeof *n.samples);
    n.within = base_arena_alloc(a, count, sizeof *n.within);
    n.children = base_arena_alloc(a, count, sizeof *n.children);
    n.sized = base_arena_alloc(a, count, sizeof *n.sized);
    n.beside = base_arena_alloc(a, count, sizeof *n.beside);
    n.told = base_arena_alloc(a, count, sizeof *n.told);
    n.pieces = base_arena_alloc(a, count, sizeof *n.pieces);
    for (size_t i = 0; i < count; i++) {
        outlines[i].in = NEST_NONE;
        take_samples(&outlines[i], n.samples[i]);
        if (!find_outer(&n, i, work))
            return false;
    }
    count_children(&n);
    if (!find_told(&n, asked, work) || !count_pieces(&n, work))
        return false;
    bool *frame = base_arena_alloc(a, count, sizeof *frame);
    for (size_t i = 0; i < count; i++) {
        bool outermost = outlines[i].in == NEST_NONE || frame[outlines[i].in];
        frame[i] = outermost && is_frame(&n, i, asked->page);
        outlines[i].piece = outermost && !frame[i] && !is_test_square(&outlines[i], asked->squares, asked->square_count);
        if (outlines[i].piece)
            find_rooms(a, &n, i);
    }
    return true;
}
