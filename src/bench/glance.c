#include "bench/glance.h"

#include <math.h>
#include <string.h>

/* Of the brightest stroke: what is no less than this share of it is in hand where nothing else tells. */
static const double nearly = 0.9;
static const double least_step = 1.0 / 700; /* points nearer to each other than this are one */

struct taking {
    struct arena *a;
    struct bench_glance out;
    const struct geometry_map *map; /* NULL: paths are in px */
    double width_px;
    bool bright;
    vec2 *points; /* of the line that is being made */
    size_t count;
};

/* --- which strokes are in hand ------------------------------------------------------------------------------------ */

static double most_level(const struct paint_items *in)
{
    double most = 0;
    for (size_t i = 0; i < in->count; i++)
        if (in->items[i].kind == PAINT_STROKE)
            most = fmax(most, in->items[i].ink.level);
    return most;
}

/* --- lines within the light --------------------------------------------------------------------------------------- */

static void end_line(struct taking *t)
{
    if (t->count > 1)
        t->out.lines[t->out.count++] = (struct bench_glance_line){ { t->points, t->count, false }, t->bright };
    t->points += t->count;
    t->count = 0;
}

static void add_point(struct taking *t, vec2 at)
{
    bool near = t->count > 1 && vec2_length(vec2_sub(at, t->points[t->count - 1])) < least_step;
    if (near)
        t->count--;
    t->points[t->count++] = at;
}

/* Narrows the part of a segment that is used to where one of its places is between 0 and `most`. */
static bool narrow(double from, double to, double most, double share[2])
{
    double way = to - from, low = -from, high = most - from;
    if (way == 0)
        return low <= 0 && high >= 0;
    double enter = (way > 0 ? low : high) / way, leave = (way > 0 ? high : low) / way;
    share[0] = fmax(share[0], enter);
    share[1] = fmin(share[1], leave);
    return share[0] < share[1];
}

static void add_segment(struct taking *t, vec2 from, vec2 to)
{
    double share[2] = { 0, 1 };
    vec2 way = vec2_sub(to, from);
    if (!narrow(from.x, to.x, 1, share) || !narrow(from.y, to.y, t->out.height, share)) {
        end_line(t);
        return;
    }
    if (share[0] > 0)
        end_line(t);
    if (!t->count)
        t->points[t->count++] = vec2_add(from, vec2_scale(way, share[0]));
    add_point(t, vec2_add(from, vec2_scale(way, share[1])));
    if (share[1] < 1)
        end_line(t);
}

/* False where it cannot be told. */
static bool place_of(const struct taking *t, vec2 at, vec2 *out)
{
    struct px_pt px = { at.x, at.y };
    bool good = !t->map || geometry_map_to_px(t->map, (struct table_pt){ at.x, at.y }, &px);
    *out = (vec2){ px.x / t->width_px, px.y / t->width_px };
    return good;
}

static void take_path(struct taking *t, struct geometry_path path)
{
    vec2 before = { 0 }, now;
    bool had = false;
    size_t ends = path.closed ? path.count + 1 : path.count;
    t->points = base_arena_alloc(t->a, 2 * ends + 2, sizeof *t->points);
    for (size_t i = 0; i < ends; i++) {
        bool good = place_of(t, path.points[i % path.count], &now);
        if (good && had)
            add_segment(t, before, now);
        else
            end_line(t);
        before = now;
        had = good;
    }
    end_line(t);
}

/* `least`: the level from which a stroke is in hand. */
static void take_items(struct taking *t, const struct paint_items *in, double least)
{
    for (size_t i = 0; i < in->count; i++) {
        const struct paint_item *item = &in->items[i];
        t->bright = item->ink.level >= least;
        for (size_t k = 0; item->kind == PAINT_STROKE && k < item->paths; k++)
            take_path(t, in->paths[item->first_path + k]);
    }
}

static size_t most_lines(const struct paint_items *in)
{
    size_t count = 0;
    for (size_t i = 0; i < in->path_count; i++)
        count += in->paths[i].count + 1;
    return count;
}

struct bench_glance bench_glance_of(struct arena *a, const struct paint_scene *scene, const struct geometry_map *map,
                                    int width_px, int height_px, struct table_path in_hand)
{
    struct taking t = { .a = a, .out.height = (double)height_px / width_px, .width_px = width_px };
    size_t most = most_lines(&scene->table.in) + most_lines(&scene->px.in) + in_hand.path.count + 1;
    bool told = map && in_hand.path.count > 0;
    t.out.lines = base_arena_alloc(a, most, sizeof *t.out.lines);
    double level = fmax(map ? most_level(&scene->table.in) : 0, most_level(&scene->px.in));
    double least = told ? INFINITY : nearly * level;
    t.map = map;
    if (map)
        take_items(&t, &scene->table.in, least);
    t.bright = true;
    if (told)
        take_path(&t, in_hand.path);
    t.map = NULL;
    take_items(&t, &scene->px.in, least);
    return t.out;
}

/* --- and on the bench --------------------------------------------------------------------------------------------- */

bool bench_glance_same(const struct bench_glance *one, const struct bench_glance *other)
{
    bool same = one->count == other->count && one->height == other->height;
    for (size_t i = 0; same && i < one->count; i++) {
        const struct bench_glance_line *x = &one->lines[i], *y = &other->lines[i];
        same = x->bright == y->bright && x->path.count == y->path.count &&
               memcmp(x->path.points, y->path.points, x->path.count * sizeof *x->path.points) == 0;
    }
    return same;
}

static void draw_lines(struct form_picture *p, struct bench_box box, const struct bench_glance *glance, bool bright)
{
    for (size_t i = 0; i < glance->count; i++) {
        struct geometry_path path = glance->lines[i].path;
        if (glance->lines[i].bright != bright)
            continue;
        struct bench_pt *points = base_arena_alloc(p->a, path.count, sizeof *points);
        for (size_t k = 0; k < path.count; k++)
            points[k] = (struct bench_pt){ box.x + path.points[k].x * box.width, box.y + path.points[k].y * box.width };
        form_stroke(p, points, path.count, false, bright ? 2 : 1, bright ? FORM_BLUE : FORM_INK_2);
    }
}

double bench_draw_glance(struct form_picture *p, struct bench_box box, const struct bench_glance *glance)
{
    double width = fmin(box.width, box.height / glance->height);
    struct bench_box light = { box.x + (box.width - width) / 2, box.y, width, width * glance->height };
    form_fill_box(p, light, FORM_WELL);
    draw_lines(p, light, glance, false);
    draw_lines(p, light, glance, true);
    form_frame_box(p, light, 1.5, FORM_LINE);
    return light.height;
}
