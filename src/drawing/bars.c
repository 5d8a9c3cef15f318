/* Squares of four lines: lines along the axes are gathered, dashes joined, and each that could be a lower side is
 * followed round by lines that end where the one before ends. A line that goes on past the corner is none of a square:
 * rulings and page frames cross. */
#include "drawing/frames.h"

#include <stdlib.h>

#define LEVEL_MM 0.01      /* how far an end may lie beside the other, and as a share of the length: */
#define LEVEL_SHARE 0.0015 /* so a square that stands askew by a tenth of a degree is one */
#define LEAST_MM 0.3       /* of a dash */
#define BAR_LEAST_MM 8.0   /* of a side */
#define DASH_MOST_MM 15.0  /* longer ones are no dashes */
#define GAP_MOST_MM 3.0    /* between dashes */
#define TOUCH_MM 0.1       /* between longer lines that are one */
#define LINE_APART_MM 0.02 /* across */
#define CORNER_MM 0.3      /* by which lines may miss each other at a corner */
#define THIN_MOST_MM 2.0   /* a filled rectangle that thin is a line */

enum { LOOKS_MOST = 256, LEFTS_MOST = 8 }; /* lines about one coordinate, and about one corner, that are looked at */

/* A line along one axis. */
struct bar {
    double at, from, to; /* across the axis; along it */
    double slack;        /* what it may miss a corner by beyond CORNER_MM */
    int page, layer, style, clip;
    uint32_t item;
};

struct bars {
    struct arena *a;
    struct bar *rows;
    size_t count, cap;
};

/* [0] lie across the page, [1] go up it. */
struct gathered {
    struct bars ways[2];
};

static void put(struct bars *to, struct bar bar)
{
    to->rows = base_arena_grow(to->a, to->rows, &to->cap, to->count + 1, sizeof *to->rows);
    to->rows[to->count++] = bar;
}

static void put_segment(struct gathered *g, const struct drawing_line *line, vec2 a, vec2 b)
{
    double across = fabs(b.x - a.x), up = fabs(b.y - a.y);
    int way = up > across;
    double length = way ? up : across, beside = way ? across : up;
    if (length < LEAST_MM || beside > LEVEL_MM + LEVEL_SHARE * length)
        return;
    double one = way ? a.y : a.x, other = way ? b.y : b.x;
    put(&g->ways[way], (struct bar){ .at = way ? (a.x + b.x) / 2 : (a.y + b.y) / 2,
                                     .from = fmin(one, other),
                                     .to = fmax(one, other),
                                     .slack = beside,
                                     .page = line->page,
                                     .layer = line->layer,
                                     .style = line->style,
                                     .clip = line->clip,
                                     .item = line->item });
}

/* A filled rectangle that is a line: its middle. Other closed paths have no ends that could meet. */
static void put_closed(struct gathered *g, const struct drawing_line *line, bool stroked)
{
    struct geometry_path path = line->path.path;
    if (path.count == 2)
        put_segment(g, line, path.points[0], path.points[1]);
    if (path.count != 4 || stroked)
        return;
    vec2 one = vec2_lerp(path.points[0], path.points[1], 0.5), other = vec2_lerp(path.points[2], path.points[3], 0.5);
    double width = vec2_length(vec2_sub(path.points[1], path.points[0])),
           length = vec2_length(vec2_sub(path.points[2], path.points[1]));
    if (length < width) {
        one = vec2_lerp(path.points[1], path.points[2], 0.5);
        other = vec2_lerp(path.points[3], path.points[0], 0.5);
    }
    if (fmin(width, length) > THIN_MOST_MM)
        return;
    size_t before[] = { g->ways[0].count, g->ways[1].count };
    put_segment(g, line, one, other);
    for (int way = 0; way < 2; way++)
        if (g->ways[way].count > before[way])
            g->ways[way].rows[before[way]].slack += fmin(width, length);
}

static void gather(struct gathered *g, const struct drawing *d)
{
    for (size_t i = 0; i < d->line_count; i++) {
        const struct drawing_line *line = &d->lines[i];
        const struct drawing_style *style = &d->styles[line->style];
        struct geometry_path path = line->path.path;
        if (style->lettering)
            continue;
        if (path.closed)
            put_closed(g, line, style->stroked);
        else
            for (size_t k = 1; k < path.count; k++)
                put_segment(g, line, path.points[k - 1], path.points[k]);
    }
}

static int by_number(double a, double b)
{
    return (a > b) - (a < b);
}

static int by_kind(const struct bar *a, const struct bar *b)
{
    if (a->page != b->page)
        return a->page < b->page ? -1 : 1;
    return (a->layer > b->layer) - (a->layer < b->layer);
}

static int by_line(const void *left, const void *right)
{
    const struct bar *a = left, *b = right;
    int order = by_kind(a, b);
    if (!order)
        order = (a->style > b->style) - (a->style < b->style);
    if (!order)
        order = by_number(a->at, b->at);
    return order ? order : by_number(a->from, b->from);
}

static int by_start(const void *left, const void *right)
{
    const struct bar *a = left, *b = right;
    int order = by_number(a->from, b->from);
    return order ? order : by_number(a->to, b->to);
}

static int by_at(const void *left, const void *right)
{
    const struct bar *a = left, *b = right;
    int order = by_kind(a, b);
    if (!order)
        order = by_number(a->at, b->at);
    return order ? order : by_number(a->from, b->from);
}

static double length_of(const struct bar *bar)
{
    return bar->to - bar->from;
}

static bool goes_on(const struct bar *run, const struct bar *last, const struct bar *next)
{
    bool dashes = length_of(last) <= DASH_MOST_MM && length_of(next) <= DASH_MOST_MM;
    return next->from - run->to <= (dashes ? GAP_MOST_MM : TOUCH_MM);
}

/* Joins what goes on along one line, and keeps single lines too: a small square may lie in a large one's corner. */
static void put_runs(struct bars *to, struct bar *rows, size_t count)
{
    qsort(rows, count, sizeof *rows, by_start);
    for (size_t first = 0, next; first < count; first = next) {
        struct bar run = rows[first];
        for (next = first + 1; next < count && goes_on(&run, &rows[next - 1], &rows[next]); next++) {
            run.slack = fmax(fmax(run.slack, rows[next].slack), rows[next].from - run.to);
            run.to = fmax(run.to, rows[next].to);
        }
        for (size_t i = first; i < next; i++)
            if (length_of(&rows[i]) >= BAR_LEAST_MM && length_of(&rows[i]) <= DRAWING_FRAME_MOST_MM)
                put(to, rows[i]);
        if (next > first + 1 && length_of(&run) >= BAR_LEAST_MM && length_of(&run) <= DRAWING_FRAME_MOST_MM)
            put(to, run);
    }
}

static bool is_twice(const struct bar *a, const struct bar *b)
{
    return by_kind(a, b) == 0 && fabs(a->at - b->at) < LINE_APART_MM && fabs(a->from - b->from) < LINE_APART_MM &&
           fabs(a->to - b->to) < LINE_APART_MM;
}

/* Lines long enough for a side, by where they lie across; each once. */
static struct bars sides_of(const struct bars *all)
{
    struct bars out = { .a = all->a };
    if (all->count)
        qsort(all->rows, all->count, sizeof *all->rows, by_line);
    for (size_t first = 0, end; first < all->count; first = end) {
        const struct bar *rows = all->rows;
        for (end = first + 1; end < all->count && by_kind(&rows[end], &rows[first]) == 0 &&
                              rows[end].style == rows[first].style && rows[end].at - rows[end - 1].at <= LINE_APART_MM;)
            end++;
        put_runs(&out, all->rows + first, end - first);
    }
    if (out.count)
        qsort(out.rows, out.count, sizeof *out.rows, by_at);
    size_t kept = 0;
    for (size_t i = 0; i < out.count; i++)
        if (!kept || !is_twice(&out.rows[kept - 1], &out.rows[i]))
            out.rows[kept++] = out.rows[i];
    out.count = kept;
    return out;
}

/* The first of the bar's page and layer that lies at `at` or beyond. */
static size_t first_at(const struct bars *bars, const struct bar *like, double at)
{
    size_t low = 0, high = bars->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = by_kind(&bars->rows[middle], like);
        if (order < 0 || (order == 0 && bars->rows[middle].at < at))
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

static bool meets(double a, double b, const struct bar *one, const struct bar *other)
{
    return fabs(a - b) <= CORNER_MM + one->slack + other->slack;
}

/* The next bar from *look on that lies across at `at` and begins at `from`, up to `to` if that is not below it; NULL:
 * there is none. */
static const struct bar *next_side(const struct bars *bars, const struct bar *like, double at, double from, double to,
                                   size_t *look)
{
    double reach = CORNER_MM + like->slack + GAP_MOST_MM;
    size_t first = first_at(bars, like, at - reach);
    for (size_t i = first + *look; i < bars->count && i < first + LOOKS_MOST; i++) {
        const struct bar *bar = &bars->rows[i];
        if (by_kind(bar, like) != 0 || bar->at > at + reach)
            return NULL;
        if (!meets(bar->at, at, bar, like) || !meets(bar->from, from, bar, like))
            continue;
        if (to >= from && !meets(bar->to, to, bar, like))
            continue;
        *look = i - first + 1;
        return bar;
    }
    return NULL;
}

static bool is_near_square(const struct bar *lower, double height)
{
    return length_of(lower) <= DRAWING_FRAME_ASPECT * height + GAP_MOST_MM &&
           height <= DRAWING_FRAME_ASPECT * length_of(lower) + GAP_MOST_MM;
}

/* Follows a lower side round: left side, right side as long, upper side. */
static void follow(struct drawing_frames *to, const struct bars sides[2], const struct bar *lower)
{
    size_t look = 0;
    for (int k = 0; k < LEFTS_MOST; k++) {
        size_t none = 0, one = 0;
        const struct bar *left = next_side(&sides[1], lower, lower->from, lower->at, lower->at - 1, &look);
        if (!left)
            return;
        if (!is_near_square(lower, length_of(left)))
            continue;
        const struct bar *right = next_side(&sides[1], lower, lower->to, left->from, left->to, &none);
        if (!right)
            continue;
        const struct bar *upper = next_side(&sides[0], left, left->to, lower->from, lower->to, &one);
        if (!upper)
            continue;
        drawing_add_frame(to, (struct drawing_frame){ .box = { { left->at, lower->at }, { right->at, upper->at } },
                                                      .page = lower->page,
                                                      .layer = lower->layer,
                                                      .style = lower->style,
                                                      .clip = lower->clip,
                                                      .item = lower->item });
    }
}

void drawing_find_bar_frames(struct drawing_frames *to, const struct drawing *d)
{
    struct gathered g = { { { .a = to->a }, { .a = to->a } } };
    gather(&g, d);
    const struct bars sides[2] = { sides_of(&g.ways[0]), sides_of(&g.ways[1]) };
    for (size_t i = 0; i < sides[0].count; i++)
        follow(to, sides, &sides[0].rows[i]);
}
