/* The marks of light on the check stickers: always in the picture, so that a bump is seen at once. */
#include "scene/parts.h"

#include <math.h>
#include <string.h>

#define SIDE_MM 36.0
#define LEG_MM 10.0
#define DOT_MM 4.0
#define HAND_MM 13.0 /* radius of the ring around the one that is being moved */
#define GAP_MM 8.0   /* from the square to its number */
#define CLEAR_MM 4.0

enum { RING_CORNERS = 24 };

/* A mark on the page: its middle and the length of a mm, px. */
struct mark {
    vec2 at;
    double mm;
};

static vec2 at_mm(const struct scene_canvas *c, const struct mark *m, double across, double up)
{
    struct px_pt px = scene_page_px(&c->page, m->at.x + across * m->mm, m->at.y + up * m->mm);
    return (vec2){ px.x, px.y };
}

static struct paint_pen pen_px(const struct scene_canvas *c)
{
    return (struct paint_pen){ .width = scene_pen(&c->view->look, SCENE_STICKER).width * c->page.px_per_mm };
}

/* A corner of the square, its legs toward the neighbouring corners. */
static void draw_corner(const struct scene_canvas *c, const struct mark *m, double across, double up)
{
    double half = SIDE_MM / 2, in = half - LEG_MM;
    struct px_path path = { { base_arena_alloc(c->a, 3, sizeof(vec2)), 3, false } };
    path.path.points[0] = at_mm(c, m, across * in, up * half);
    path.path.points[1] = at_mm(c, m, across * half, up * half);
    path.path.points[2] = at_mm(c, m, across * half, up * in);
    paint_px_stroke(&c->out->px, path, pen_px(c), scene_ink(&c->view->look, SCENE_STICKER));
}

static struct px_path ring(const struct scene_canvas *c, const struct mark *m, double radius_mm)
{
    struct px_path path = { { base_arena_alloc(c->a, RING_CORNERS, sizeof(vec2)), RING_CORNERS, true } };
    for (int i = 0; i < RING_CORNERS; i++) {
        double sine, cosine;
        geometry_sincos(360.0 * i / RING_CORNERS, &sine, &cosine);
        path.path.points[i] = at_mm(c, m, radius_mm * cosine, radius_mm * sine);
    }
    return path;
}

/* --- their numbers ----------------------------------------------------------------------------------------------- */

/* Below its square as she sees it, above it, and at either side: the middle of the foot, px. */
static vec2 number_foot(const struct scene_canvas *c, const struct mark *m, double wide, int way)
{
    double cap = scene_page_cap(c), off = (SIDE_MM / 2 + GAP_MM) * m->mm;
    const vec2 feet[] = { { 0, -off - cap }, { 0, off }, { off + wide / 2, -cap / 2 }, { -off - wide / 2, -cap / 2 } };
    return vec2_add(m->at, feet[way]);
}

static vec2 on_table(const struct scene_canvas *c, double across, double up)
{
    struct table_pt at = geometry_map_to_table(c->view->map, scene_page_px(&c->page, across, up));
    return (vec2){ at.x, at.y };
}

/* Whether nothing is drawn where the number would stand, in the light that strip and notice leave. */
static bool is_free(const struct scene_canvas *c, vec2 foot, double wide)
{
    double cap = scene_page_cap(c);
    vec2 from = on_table(c, foot.x - wide / 2, foot.y + cap / 2), to = on_table(c, foot.x + wide / 2, foot.y + cap / 2);
    const struct scene_obstacles drawn = { c->out->table.in.paths, c->out->table.in.path_count };
    double length = vec2_length(vec2_sub(to, from)), beside = cap / c->page.px_per_mm;
    return scene_is_lit(c, from) && scene_is_lit(c, to) && length > 0 &&
           scene_is_uncrossed(c, from, vec2_unit(vec2_sub(to, from)), length, beside, &drawn);
}

static void write_number(const struct scene_canvas *c, int number, const struct mark *m, bool yields)
{
    enum { WAYS = 4 };
    const char *text = base_arena_print(c->a, "S%d", number);
    double cap = scene_page_cap(c), wide = scene_words_width(c, text, cap);
    int way = 0;
    while (yields && way < WAYS && !is_free(c, number_foot(c, m, wide, way), wide))
        way++;
    if (way == WAYS)
        return;
    vec2 foot = number_foot(c, m, wide, way);
    scene_page_words(c, text, SCENE_MIDDLE, foot.x, foot.y, cap, scene_ink(&c->view->look, SCENE_STICKER));
}

/* --- the marks --------------------------------------------------------------------------------------------------- */

static void clear_ground(const struct scene_canvas *c, const struct mark *m)
{
    double half = (SIDE_MM / 2 + CLEAR_MM) * m->mm, foot = number_foot(c, m, 0, 0).y;
    scene_page_box(c, m->at.x - half, foot - CLEAR_MM * m->mm, m->at.x + half, m->at.y + half,
                   (struct paint_ink){ 0, 0 });
}

static void draw_mark(const struct scene_canvas *c, int number, const struct mark *m, bool in_hand, bool yields)
{
    struct paint_ink ink = scene_ink(&c->view->look, SCENE_STICKER);
    if (!yields)
        clear_ground(c, m);
    for (int corner = 0; corner < 4; corner++)
        draw_corner(c, m, corner % 2 ? 1 : -1, corner / 2 ? 1 : -1);
    struct px_path dot = ring(c, m, fmax(DOT_MM, 2 * SCENE_LEAST_STROKE_PX / m->mm) / 2);
    paint_px_fill(&c->out->px, &dot, 1, ink);
    if (in_hand)
        paint_px_stroke(&c->out->px, ring(c, m, HAND_MM), pen_px(c), ink);
    write_number(c, number, m, yields);
}

static struct mark mark_at(const struct scene_canvas *c, int i)
{
    return (struct mark){ scene_page_at(&c->page, c->view->stickers[i]), c->page.px_per_mm };
}

/* Whether strip and notice leave it alone: on those it needs its dark ground. */
static bool is_on_work(const struct scene_canvas *c, const struct mark *m)
{
    struct scene_room room = scene_room_of(c);
    double half = SIDE_MM / 2 * m->mm;
    return m->at.x - half > room.left && m->at.x + half < room.right && m->at.y - half > room.near &&
           m->at.y + half < room.far;
}

void scene_draw_stickers(const struct scene_canvas *c, bool yields)
{
    for (int i = 0; i < c->view->sticker_count; i++) {
        struct mark m = mark_at(c, i);
        draw_mark(c, i + 1, &m, i == c->view->sticker_in_hand, yields && is_on_work(c, &m));
    }
}

/* --- what keeps off them ----------------------------------------------------------------------------------------- */

struct scene_obstacles scene_sticker_boxes(const struct scene_canvas *c)
{
    static const int corners[4][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 } };
    size_t count = (size_t)c->view->sticker_count;
    struct geometry_path *boxes = base_arena_alloc(c->a, count, sizeof *boxes);
    for (size_t i = 0; i < count; i++) {
        struct mark m = mark_at(c, (int)i);
        double half = (SIDE_MM / 2 + CLEAR_MM) * m.mm;
        boxes[i] = (struct geometry_path){ base_arena_alloc(c->a, 4, sizeof(vec2)), 4, true };
        for (int k = 0; k < 4; k++)
            boxes[i].points[k] = on_table(c, m.at.x + corners[k][0] * half, m.at.y + corners[k][1] * half);
    }
    return (struct scene_obstacles){ boxes, count };
}

struct scene_obstacles scene_joined(struct arena *a, struct scene_obstacles these, struct scene_obstacles more,
                                    struct geometry_box box)
{
    if (!more.count)
        return these;
    struct geometry_path *all = base_arena_alloc(a, these.count + more.count, sizeof *all);
    size_t count = these.count;
    if (count)
        memcpy(all, these.paths, count * sizeof *all);
    for (size_t i = 0; i < more.count; i++)
        if (geometry_boxes_meet(geometry_path_box(more.paths[i]), box))
            all[count++] = more.paths[i];
    return (struct scene_obstacles){ all, count };
}

struct scene_room scene_room_between_stickers(const struct scene_canvas *c)
{
    struct scene_room room = scene_room_of(c);
    double half = (SIDE_MM / 2 + CLEAR_MM) * c->page.px_per_mm, quarter = c->page.width / 4;
    for (int i = 0; i < c->view->sticker_count; i++) {
        double x = scene_page_at(&c->page, c->view->stickers[i]).x;
        if (x < quarter)
            room.left = fmax(room.left, x + half);
        else if (x > c->page.width - quarter)
            room.right = fmin(room.right, x - half);
    }
    return room;
}
