#include "sheet_reader/centre.h"
#include "sheet_reader/centre_in.h"

#include <math.h>
#include <stdlib.h>

/* Common practice, no source. */
enum { SAMPLES = 32, SMOOTH = 2 };
#define TAKEN_WITHIN 0.5 /* of a dot */

/* A line that is put together. */
struct line {
    struct dot *dots;
    size_t count, cap;
    double widths[SAMPLES];
    size_t sampled;
    bool closed;
};

static void add_dot(struct net *n, struct line *l, struct dot d)
{
    l->dots = base_arena_grow(n->a, l->dots, &l->cap, l->count + 1, sizeof *l->dots);
    l->dots[l->count++] = d;
}

/* From one end of a way to the other. */
static void add_way(struct net *n, struct line *l, size_t from)
{
    struct way *way = &n->ways[from / 2];
    way->used = true;
    for (size_t i = 0; i < way->count; i++)
        add_dot(n, l, centre_dot(n, way->dots[from % 2 ? way->count - 1 - i : i]));
    if (l->sampled < SAMPLES)
        l->widths[l->sampled++] = centre_width(n, way->dots[way->count / 2]);
    if (l->sampled < SAMPLES)
        l->widths[l->sampled++] = centre_width(n, way->dots[way->count / 4]);
}

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static double width_of(struct line *l)
{
    qsort(l->widths, l->sampled, sizeof *l->widths, by_size);
    return l->widths[l->sampled / 2];
}

static uint32_t tip_dot(const struct net *n, size_t end)
{
    const struct way *way = &n->ways[end / 2];
    return way->dots[end % 2 ? way->count - 1 : 0];
}

/* Thinning eats the end of a line: it goes on to the end of the ink, but not far. */
static struct dot tip_beyond(const struct net *n, size_t end)
{
    const struct end *e = &n->ends[end];
    uint32_t at = tip_dot(n, end);
    struct dot tip = centre_dot(n, at), on = tip;
    double most = 2 * centre_width(n, at);
    for (double far = 0.5; far <= most; far += 0.5) {
        on = (struct dot){ tip.x + e->dx * far, tip.y + e->dy * far };
        if (!(n->map->dots[(size_t)(on.y + 1) * n->map->width + (size_t)(on.x + 1)] & THIN_INK))
            break;
    }
    return on;
}

static void add_tip(struct net *n, struct line *l, size_t end)
{
    size_t joint = n->ends[end].joint;
    add_dot(n, l, joint == NO_JOINT ? tip_beyond(n, end) : (struct dot){ n->joints[joint].x, n->joints[joint].y });
}

/* From an end on through all that is joined to it. */
static struct line line_from(struct net *n, size_t end)
{
    struct line l = { 0 };
    size_t from = end;
    l.closed = n->ways[end / 2].closed;
    if (!l.closed && n->ends[end].mate == NO_JOINT)
        add_tip(n, &l, end);
    for (;;) {
        add_way(n, &l, from);
        size_t out = from ^ 1, mate = n->ends[out].mate;
        if (mate == NO_JOINT) {
            if (!l.closed)
                add_tip(n, &l, out);
            return l;
        }
        const struct joint *j = &n->joints[n->ends[out].joint];
        add_dot(n, &l, (struct dot){ j->x, j->y });
        if (n->ways[mate / 2].used) {
            l.closed = true;
            return l;
        }
        from = mate;
    }
}

static double distance(struct dot p, struct dot a, struct dot b)
{
    double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
    double t = square > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / square : 0;
    t = t < 0 ? 0 : t > 1 ? 1 : t;
    return centre_length(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/* D. H. Douglas and T. K. Peucker, The Canadian Cartographer 10 (1973): of each stretch the dot that is furthest off
 * stays. Those that stay are marked in `kept`; `todo` has room for two ends a dot. */
static void thin_out(const struct dot *dots, size_t from, size_t to, bool *kept, size_t *todo)
{
    size_t count = 0;
    kept[from] = kept[to] = true;
    todo[count++] = from;
    todo[count++] = to;
    while (count) {
        size_t b = todo[--count], a = todo[--count], at = a;
        double most = TAKEN_WITHIN;
        for (size_t i = a + 1; i < b; i++) {
            double off = distance(dots[i], dots[a], dots[b]);
            if (off <= most)
                continue;
            most = off;
            at = i;
        }
        if (at == a)
            continue;
        kept[at] = true;
        todo[count++] = a;
        todo[count++] = at;
        todo[count++] = at;
        todo[count++] = b;
    }
}

/* Each dot between the ends becomes the middle of the five around it: steps and rough places are no corners. */
static void smooth(struct net *n, struct line *l)
{
    struct dot *out = base_arena_alloc(n->a, l->count, sizeof *out);
    for (size_t i = 0; i < l->count; i++) {
        size_t reach = i < l->count - 1 - i ? i : l->count - 1 - i;
        reach = l->closed || reach > SMOOTH ? SMOOTH : reach;
        for (size_t k = 0; k < 2 * reach + 1; k++) {
            struct dot d = l->dots[(i + l->count + k - reach) % l->count];
            out[i].x += d.x / (double)(2 * reach + 1);
            out[i].y += d.y / (double)(2 * reach + 1);
        }
    }
    l->dots = out;
}

/* The dots that stay; of one that goes round the dot furthest from its first is one of them. */
static bool *kept_of(struct net *n, const struct line *l)
{
    bool *kept = base_arena_alloc(n->a, l->count, sizeof *kept);
    size_t *todo = base_arena_alloc(n->a, 4 * l->count + 4, sizeof *todo), far = 0;
    double most = 0;
    for (size_t i = 0; l->closed && i < l->count; i++) {
        double off = centre_length(l->dots[i].x - l->dots[0].x, l->dots[i].y - l->dots[0].y);
        if (off <= most)
            continue;
        most = off;
        far = i;
    }
    thin_out(l->dots, 0, far, kept, todo);
    thin_out(l->dots, far, l->count - 1, kept, todo);
    return kept;
}

static void put_line(struct net *n, struct collect *c, uint32_t layer, const struct sheet_image *image, struct line *l)
{
    double across = centre_length(image->across[0], image->across[1]) / image->width;
    double up = centre_length(image->up[0], image->up[1]) / image->height;
    const struct collect_style style = { .width_mm = width_of(l) * sqrt(across * up),
                                         .flags = SHEET_STROKED | SHEET_TRACED };
    smooth(n, l);
    const bool *kept = kept_of(n, l);
    bool begun = false;
    collect_begin(c, layer, &style);
    for (size_t i = 0; i < l->count; i++) {
        double s = l->dots[i].x / image->width, t = 1 - l->dots[i].y / image->height;
        if (!kept[i])
            continue;
        (begun ? collect_line : collect_move)(c, image->origin[0] + s * image->across[0] + t * image->up[0],
                                              image->origin[1] + s * image->across[1] + t * image->up[1]);
        begun = true;
    }
    if (l->closed)
        collect_close(c);
    collect_end(c);
}

/* Lines with an end first; those that are left go round. */
static void put_lines(struct net *n, struct collect *c, uint32_t layer, const struct sheet_image *image)
{
    for (int round = 0; round < 2; round++)
        for (size_t end = 0; end < 2 * n->way_count && !collect_failed(c); end++) {
            const struct way *way = &n->ways[end / 2];
            if (way->used || way->left_out || (round == 0 && n->ends[end].mate != NO_JOINT))
                continue;
            struct line line = line_from(n, end);
            put_line(n, c, layer, image, &line);
        }
}

void centre_put(struct collect *c, uint32_t layer, const struct sheet_image *image, struct thin_map *m)
{
    struct net n = { .map = m, .a = base_arena_create() };
    centre_net_find(&n);
    put_lines(&n, c, layer, image);
    base_arena_destroy(n.a);
}
