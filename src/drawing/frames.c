#include "drawing/frames.h"

#include <stdlib.h>

#define ASIDE_MM 0.3     /* how far a side may lean from end to end */
#define SIDE_SHARE 0.75  /* of a side that is straight: the rest is rounded corners */
#define PATH_SHARE 0.85  /* of the path that lies on its four sides */
#define TURN_SHARE 0.8   /* of a path whose sides lie along its two directions */
#define ASKEW_MOST 0.052 /* sine of three degrees: more than a sheet lies askew on a scanner */
#define SAME_MM 0.02     /* frames nearer to each other are one */
#define CENTRE_MM 0.1    /* of the outlines of one filled frame */
#define RING_MOST_MM 6.0 /* by which the outer outline of a filled frame is larger, its line twice */

enum { POINTS_MOST = 4096, LOOK_AHEAD = 64 }; /* frames about one place; more are nobody's test squares */

enum side { LEFT, RIGHT, BOTTOM, TOP, SIDES };

/* What of a path lies along the sides of its box. Where a side lies is a mean by squared lengths, so that the first
 * chords of a rounded corner hardly count. */
struct sides {
    double length[SIDES], weight[SIDES], sum[SIDES];
};

static double larger(vec2 size)
{
    return fmax(size.x, size.y);
}

void drawing_add_frame(struct drawing_frames *to, struct drawing_frame frame)
{
    vec2 size = vec2_sub(frame.box.max, frame.box.min);
    double least = fmin(size.x, size.y), most = larger(size);
    if (least < DRAWING_FRAME_LEAST_MM || most > DRAWING_FRAME_MOST_MM || most > DRAWING_FRAME_ASPECT * least)
        return;
    to->rows = base_arena_grow(to->a, to->rows, &to->cap, to->count + 1, sizeof *to->rows);
    to->rows[to->count++] = frame;
}

static void take_part(struct sides *s, struct geometry_box box, vec2 from, vec2 to)
{
    const struct {
        double one, other, at;
    } rows[SIDES] = { [LEFT] = { from.x, to.x, box.min.x },
                      [RIGHT] = { from.x, to.x, box.max.x },
                      [BOTTOM] = { from.y, to.y, box.min.y },
                      [TOP] = { from.y, to.y, box.max.y } };
    double length = vec2_length(vec2_sub(to, from));
    for (int i = 0; i < SIDES; i++) {
        if (fabs(rows[i].one - rows[i].at) > ASIDE_MM || fabs(rows[i].other - rows[i].at) > ASIDE_MM)
            continue;
        s->length[i] += length;
        s->weight[i] += length * length;
        s->sum[i] += length * length * (rows[i].one + rows[i].other) / 2;
    }
}

static struct sides sides_of(struct geometry_path path, struct geometry_box box)
{
    struct sides s = { 0 };
    for (size_t i = 1; i < path.count; i++)
        take_part(&s, box, path.points[i - 1], path.points[i]);
    if (path.closed)
        take_part(&s, box, path.points[path.count - 1], path.points[0]);
    return s;
}

/* Whether the path goes along all four sides of its box and hardly anywhere else; the box is then that of the middle of
 * its sides. */
static bool is_frame(struct geometry_path path, struct geometry_box *box)
{
    struct sides s = sides_of(path, *box);
    vec2 size = vec2_sub(box->max, box->min);
    double whole = 0;
    for (int i = 0; i < SIDES; i++) {
        if (s.length[i] < SIDE_SHARE * (i == LEFT || i == RIGHT ? size.y : size.x))
            return false;
        whole += s.length[i];
    }
    if (whole < PATH_SHARE * geometry_path_length(path))
        return false;
    for (int i = 0; i < SIDES; i++)
        s.sum[i] /= s.weight[i];
    *box = (struct geometry_box){ { s.sum[LEFT], s.sum[BOTTOM] }, { s.sum[RIGHT], s.sum[TOP] } };
    return true;
}

static vec2 squared(vec2 z)
{
    return (vec2){ z.x * z.x - z.y * z.y, 2 * z.x * z.y };
}

/* Half the angle, between a quarter turn either way. */
static vec2 halved(vec2 z)
{
    return z.x > -1 ? vec2_unit((vec2){ 1 + z.x, z.y }) : (vec2){ 0, 1 };
}

/* Along its sides to the right, at most an eighth of a turn up or down: four times the directions of all sides of a
 * square are one. Null when hardly any are. */
static vec2 direction_of(struct geometry_path path)
{
    vec2 sum = { 0, 0 };
    double length = geometry_path_length(path);
    for (size_t i = path.closed ? 0 : 1; i < path.count; i++) {
        vec2 side = vec2_sub(path.points[i], path.points[i ? i - 1 : path.count - 1]);
        sum = vec2_add(sum, vec2_scale(squared(squared(vec2_unit(side))), vec2_length(side)));
    }
    if (vec2_length(sum) < TURN_SHARE * length)
        return (vec2){ 0, 0 };
    return halved(halved(vec2_unit(sum)));
}

static struct geometry_path turned(struct arena *a, struct geometry_path path, vec2 along)
{
    struct geometry_path out = geometry_path_copy(a, path);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = (vec2){ vec2_dot(along, path.points[i]), vec2_cross(along, path.points[i]) };
    return out;
}

/* A frame that stands askew, as on a scan; the box is as large about the same centre. */
static bool is_askew(struct arena *a, struct geometry_path path, struct geometry_box *box, bool *far)
{
    vec2 along = direction_of(path);
    if (!(along.x > 0))
        return false;
    struct geometry_path straight = turned(a, path, along);
    struct geometry_box own = geometry_path_box(straight);
    if (!is_frame(straight, &own))
        return false;
    vec2 middle = vec2_lerp(own.min, own.max, 0.5), half = vec2_scale(vec2_sub(own.max, own.min), 0.5);
    vec2 centre = vec2_add(vec2_scale(along, middle.x), vec2_scale(vec2_right(along), -middle.y));
    *box = (struct geometry_box){ vec2_sub(centre, half), vec2_add(centre, half) };
    *far = fabs(along.y) > ASKEW_MOST;
    return true;
}

static bool may_be_frame(struct geometry_box box)
{
    vec2 size = vec2_sub(box.max, box.min);
    double least = fmin(size.x, size.y);
    return least >= DRAWING_FRAME_LEAST_MM && larger(size) <= 2 * DRAWING_FRAME_MOST_MM &&
           larger(size) <= DRAWING_FRAME_ASPECT * least;
}

void drawing_find_path_frames(struct drawing_frames *to, const struct drawing *d)
{
    for (size_t i = 0; i < d->line_count; i++) {
        const struct drawing_line *line = &d->lines[i];
        const struct drawing_style *style = &d->styles[line->style];
        struct geometry_path path = line->path.path;
        if (style->lettering || path.count < 4 || path.count > POINTS_MOST)
            continue;
        struct geometry_box box = geometry_path_box(path);
        bool far = false;
        if (may_be_frame(box) && (is_frame(path, &box) || is_askew(to->a, path, &box, &far)))
            drawing_add_frame(to, (struct drawing_frame){ .box = box,
                                                          .page = line->page,
                                                          .layer = line->layer,
                                                          .style = line->style,
                                                          .clip = line->clip,
                                                          .item = line->item,
                                                          .filled = !style->stroked,
                                                          .askew = far });
    }
}

static vec2 centre_of(const struct drawing_frame *f)
{
    return vec2_lerp(f->box.min, f->box.max, 0.5);
}

static int by_number(double a, double b)
{
    return (a > b) - (a < b);
}

static int by_place(const void *left, const void *right)
{
    const struct drawing_frame *a = left, *b = right;
    if (a->page != b->page)
        return a->page < b->page ? -1 : 1;
    int order = by_number(centre_of(a).x, centre_of(b).x);
    if (!order)
        order = by_number(centre_of(a).y, centre_of(b).y);
    return order ? order : (a->item > b->item) - (a->item < b->item);
}

static bool is_near(vec2 a, vec2 b, double mm)
{
    return fabs(a.x - b.x) <= mm && fabs(a.y - b.y) <= mm;
}

/* The outer and the inner outline of one line that is filled, or of a dark square and a light one upon it. */
static bool is_ring(const struct drawing_frame *a, const struct drawing_frame *b)
{
    vec2 a_size = vec2_sub(a->box.max, a->box.min), b_size = vec2_sub(b->box.max, b->box.min);
    return a->filled && b->filled && is_near(centre_of(a), centre_of(b), CENTRE_MM) &&
           is_near(a_size, b_size, RING_MOST_MM) && fabs(a_size.x - b_size.x) > SAME_MM;
}

static bool is_same(const struct drawing_frame *a, const struct drawing_frame *b)
{
    return is_near(a->box.min, b->box.min, SAME_MM) && is_near(a->box.max, b->box.max, SAME_MM);
}

/* Takes the other frame into this one if they are one; whether it did. */
static bool take_in(struct drawing_frame *a, const struct drawing_frame *b)
{
    if (is_same(a, b)) {
        a->filled = a->filled && b->filled;
        return true;
    }
    if (!is_ring(a, b))
        return false;
    a->box = (struct geometry_box){ vec2_lerp(a->box.min, b->box.min, 0.5), vec2_lerp(a->box.max, b->box.max, 0.5) };
    a->filled = false;
    return true;
}

static struct drawing_frames each_once(struct arena *a, struct drawing_frame *rows, size_t count)
{
    struct drawing_frames out = { .a = a };
    bool *gone = base_arena_alloc(a, count, sizeof *gone);
    if (count)
        qsort(rows, count, sizeof *rows, by_place);
    for (size_t i = 0; i < count; i++) {
        for (size_t k = i + 1; k < count && k <= i + LOOK_AHEAD && !gone[i]; k++) {
            if (rows[k].page != rows[i].page || centre_of(&rows[k]).x - centre_of(&rows[i]).x > CENTRE_MM)
                break;
            if (!gone[k])
                gone[k] = take_in(&rows[i], &rows[k]);
        }
        if (!gone[i])
            drawing_add_frame(&out, rows[i]);
    }
    return out;
}

struct drawing_frames drawing_find_frames(struct arena *a, const struct drawing *d)
{
    struct drawing_frames all = { .a = a };
    drawing_find_path_frames(&all, d);
    drawing_find_bar_frames(&all, d);
    return each_once(a, all.rows, all.count);
}
