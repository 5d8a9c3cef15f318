#include "sheet_reader/centre_in.h"

#include <math.h>
#include <stdlib.h>

/* Common practice, no source: how far back a line's direction is taken, and how much less than straight on (30°) two
 * lines that meet are one. */
enum { REACH = 8, ENDS_MOST = 64, JOINT = 16, MEETING = 32, SEEN = THIN_MARK };
#define STRAIGHT_ON 0.866

double centre_length(double x, double y)
{
    return sqrt(x * x + y * y);
}

struct dot centre_dot(const struct net *n, uint32_t at)
{
    size_t across = at % n->map->width, down = at / n->map->width;
    return (struct dot){ (double)across - 0.5, (double)down - 0.5 };
}

/* ------------------------------------------------------------------------------------------------------------ joints
 */

static bool touches(const struct net *n, size_t at, uint8_t what)
{
    ptrdiff_t steps[8];
    bool any = n->map->dots[at] & what;
    thin_neighbours(n->map, steps);
    for (int k = 0; k < 8; k++)
        any = any || n->map->dots[(ptrdiff_t)at + steps[k]] & what;
    return any;
}

/* Where lines meet, and around: no way passes a joint by. */
static void find_joint_dots(struct net *n)
{
    for (size_t i = 0; i < n->map->count; i++) {
        int begins;
        thin_degree(n->map, n->map->ink[i], THIN_LINE, &begins);
        if (begins >= 3)
            n->map->dots[n->map->ink[i]] |= MEETING;
    }
    for (size_t i = 0; i < n->map->count; i++) {
        uint32_t at = n->map->ink[i];
        if (!touches(n, at, MEETING))
            continue;
        n->map->dots[at] |= JOINT;
        n->joint_dots =
            base_arena_grow(n->a, n->joint_dots, &n->joint_dot_cap, n->joint_dot_count + 1, sizeof *n->joint_dots);
        n->joint_dots[n->joint_dot_count++] = (struct joint_dot){ at, NO_JOINT };
    }
}

static struct joint_dot *joint_dot_at(const struct net *n, size_t at)
{
    size_t low = 0, high = n->joint_dot_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (n->joint_dots[middle].at < at)
            low = middle + 1;
        else
            high = middle;
    }
    return &n->joint_dots[low];
}

/* All joint dots that touch each other; `todo` has room for all there are. */
static void gather_joint(struct net *n, size_t first, size_t *todo)
{
    ptrdiff_t steps[8];
    size_t count = 0;
    struct joint j = { .into = n->joint_count };
    thin_neighbours(n->map, steps);
    n->joint_dots[first].joint = n->joint_count;
    todo[count++] = first;
    for (; j.count < count; j.count++) {
        uint32_t at = n->joint_dots[todo[j.count]].at;
        struct dot d = centre_dot(n, at);
        j.x += d.x;
        j.y += d.y;
        for (int k = 0; k < 8; k++) {
            size_t next = (size_t)((ptrdiff_t)at + steps[k]);
            struct joint_dot *found = n->map->dots[next] & JOINT ? joint_dot_at(n, next) : NULL;
            if (!found || found->joint != NO_JOINT)
                continue;
            found->joint = n->joint_count;
            todo[count++] = (size_t)(found - n->joint_dots);
        }
    }
    j.x /= (double)j.count;
    j.y /= (double)j.count;
    n->joints = base_arena_grow(n->a, n->joints, &n->joint_cap, n->joint_count + 1, sizeof *n->joints);
    n->joints[n->joint_count++] = j;
}

static void find_joints(struct net *n)
{
    find_joint_dots(n);
    size_t *todo = base_arena_alloc(n->a, n->joint_dot_count, sizeof *todo);
    for (size_t i = 0; i < n->joint_dot_count; i++)
        if (n->joint_dots[i].joint == NO_JOINT)
            gather_joint(n, i, todo);
}

/* -------------------------------------------------------------------------------------------------------------- ways
 */

/* The next dot of a way; across and up before aslant. 0: none. */
static size_t next_dot(const struct net *n, size_t at)
{
    static const int order[8] = { 0, 2, 4, 6, 1, 3, 5, 7 };
    ptrdiff_t steps[8];
    thin_neighbours(n->map, steps);
    for (int k = 0; k < 8; k++) {
        size_t next = (size_t)((ptrdiff_t)at + steps[order[k]]);
        if ((n->map->dots[next] & (THIN_LINE | JOINT | SEEN)) == THIN_LINE)
            return next;
    }
    return 0;
}

/* Neighbours on the same way. */
static int degree(const struct net *n, size_t at)
{
    ptrdiff_t steps[8];
    int count = 0;
    thin_neighbours(n->map, steps);
    for (int k = 0; k < 8; k++)
        count += (n->map->dots[(ptrdiff_t)at + steps[k]] & (THIN_LINE | JOINT)) == THIN_LINE;
    return count;
}

static bool touch(const struct net *n, size_t a, size_t b)
{
    size_t w = n->map->width, dx = a % w > b % w ? a % w - b % w : b % w - a % w;
    size_t dy = a / w > b / w ? a / w - b / w : b / w - a / w;
    return dx <= 1 && dy <= 1;
}

static void follow(struct net *n, size_t from)
{
    uint32_t *dots = NULL;
    size_t count = 0, cap = 0;
    for (size_t at = from; at; at = next_dot(n, at)) {
        dots = base_arena_grow(n->a, dots, &cap, count + 1, sizeof *dots);
        dots[count++] = (uint32_t)at;
        n->map->dots[at] |= SEEN;
    }
    n->ways = base_arena_grow(n->a, n->ways, &n->way_cap, n->way_count + 1, sizeof *n->ways);
    n->ways[n->way_count++] = (struct way){ .dots = dots, .count = count };
}

/* From all ends first; what is left then goes round. */
static void find_ways(struct net *n)
{
    for (int round = 0; round < 2; round++)
        for (size_t i = 0; i < n->map->count; i++) {
            size_t at = n->map->ink[i];
            if ((n->map->dots[at] & (THIN_LINE | JOINT | SEEN)) != THIN_LINE || (round == 0 && degree(n, at) > 1))
                continue;
            follow(n, at);
            struct way *way = &n->ways[n->way_count - 1];
            way->closed = round == 1 && way->count > 4 && touch(n, way->dots[0], way->dots[way->count - 1]);
        }
}

/* -------------------------------------------------------------------------------------------------------------- ends
 */

/* The joint that a dot touches, another one than `but` if there is one. */
static size_t joint_beside(const struct net *n, size_t at, size_t but)
{
    ptrdiff_t steps[8];
    size_t found = NO_JOINT;
    thin_neighbours(n->map, steps);
    for (int k = 0; k < 8; k++) {
        size_t next = (size_t)((ptrdiff_t)at + steps[k]);
        if (!(n->map->dots[next] & JOINT))
            continue;
        size_t joint = joint_dot_at(n, next)->joint;
        if (found == NO_JOINT || found == but)
            found = joint;
    }
    return found;
}

static struct end end_of(const struct net *n, const struct way *way, bool last, size_t joint)
{
    size_t back = way->count > REACH ? REACH : way->count - 1;
    struct dot tip = centre_dot(n, way->dots[last ? way->count - 1 : 0]);
    struct dot from = centre_dot(n, way->dots[last ? way->count - 1 - back : back]);
    if (joint != NO_JOINT)
        tip = (struct dot){ n->joints[joint].x, n->joints[joint].y };
    double dx = tip.x - from.x, dy = tip.y - from.y, far = centre_length(dx, dy);
    return (struct end){ joint, NO_JOINT, far > 0 ? dx / far : 0, far > 0 ? dy / far : 0 };
}

double centre_width(const struct net *n, size_t at)
{
    ptrdiff_t steps[8];
    double least = INFINITY;
    thin_neighbours(n->map, steps);
    for (int k = 0; k < 4; k++) {
        size_t count = 1;
        for (ptrdiff_t go = (ptrdiff_t)at + steps[k]; n->map->dots[go] & THIN_INK; go += steps[k])
            count++;
        for (ptrdiff_t go = (ptrdiff_t)at + steps[k + 4]; n->map->dots[go] & THIN_INK; go += steps[k + 4])
            count++;
        least = fmin(least, (double)count * (k % 2 ? sqrt(2) : 1));
    }
    return least;
}

/* Where the ways end. */
static void find_ends(struct net *n)
{
    n->ends = base_arena_alloc(n->a, 2 * n->way_count, sizeof *n->ends);
    for (size_t i = 0; i < n->way_count; i++) {
        const struct way *way = &n->ways[i];
        size_t first = way->closed ? NO_JOINT : joint_beside(n, way->dots[0], NO_JOINT);
        size_t last = way->closed ? NO_JOINT : joint_beside(n, way->dots[way->count - 1], first);
        if (way->count == 1 && last == first)
            last = NO_JOINT;
        n->ends[2 * i].joint = first;
        n->ends[2 * i + 1].joint = last;
    }
}

static size_t whole_joint(const struct net *n, size_t joint)
{
    while (joint != NO_JOINT && n->joints[joint].into != joint)
        joint = n->joints[joint].into;
    return joint;
}

static void merge_joints(struct net *n, size_t a, size_t b)
{
    struct joint *to = &n->joints[a], *from = &n->joints[b];
    double all = (double)(to->count + from->count);
    to->x = (to->x * (double)to->count + from->x * (double)from->count) / all;
    to->y = (to->y * (double)to->count + from->y * (double)from->count) / all;
    to->count += from->count;
    from->into = a;
}

/* A way no longer than the ink is wide is no line: one from a joint to nowhere is the corner of an end or a rough
 * place, and one between two joints tells that lines cross there aslant, in one joint. */
static void leave_out_short(struct net *n)
{
    for (size_t i = 0; i < n->way_count; i++) {
        struct way *way = &n->ways[i];
        size_t first = whole_joint(n, n->ends[2 * i].joint), last = whole_joint(n, n->ends[2 * i + 1].joint);
        if (first == last || (double)way->count > centre_width(n, way->dots[way->count / 2]))
            continue;
        way->left_out = true;
        if (first != NO_JOINT && last != NO_JOINT)
            merge_joints(n, first, last);
    }
}

static void aim_ends(struct net *n)
{
    for (size_t end = 0; end < 2 * n->way_count; end++)
        n->ends[end] = end_of(n, &n->ways[end / 2], end % 2, whole_joint(n, n->ends[end].joint));
}

struct row {
    size_t joint, end;
};

static int by_joint(const void *left, const void *right)
{
    const struct row *a = left, *b = right;
    if (a->joint != b->joint)
        return a->joint < b->joint ? -1 : 1;
    return (a->end > b->end) - (a->end < b->end);
}

/* The two of a joint's ends that go on straightest are one line, then the next two. */
static void pair_ends(struct net *n, const struct row *rows, size_t count)
{
    for (;;) {
        double best = count == 2 ? -2 : STRAIGHT_ON;
        size_t one = NO_JOINT, two = NO_JOINT;
        for (size_t i = 0; i < count; i++)
            for (size_t k = i + 1; k < count; k++) {
                const struct end *a = &n->ends[rows[i].end], *b = &n->ends[rows[k].end];
                double straight = -(a->dx * b->dx + a->dy * b->dy);
                if (a->mate != NO_JOINT || b->mate != NO_JOINT || straight <= best)
                    continue;
                best = straight;
                one = rows[i].end;
                two = rows[k].end;
            }
        if (one == NO_JOINT)
            return;
        n->ends[one].mate = two;
        n->ends[two].mate = one;
    }
}

static void join_ends(struct net *n)
{
    struct row *rows = base_arena_alloc(n->a, 2 * n->way_count, sizeof *rows);
    size_t count = 0;
    for (size_t i = 0; i < 2 * n->way_count; i++)
        if (n->ends[i].joint != NO_JOINT && !n->ways[i / 2].left_out)
            rows[count++] = (struct row){ n->ends[i].joint, i };
    if (count)
        qsort(rows, count, sizeof *rows, by_joint);
    for (size_t i = 0, next; i < count; i = next) {
        for (next = i + 1; next < count && rows[next].joint == rows[i].joint;)
            next++;
        if (next - i <= ENDS_MOST)
            pair_ends(n, rows + i, next - i);
    }
}

void centre_net_find(struct net *n)
{
    find_joints(n);
    find_ways(n);
    find_ends(n);
    leave_out_short(n);
    aim_ends(n);
    join_ends(n);
}
