/* The marks of light on the check stickers: always in the picture, over all else, so that a bump is seen at once. */
#include "scene/parts.h"

#include <math.h>

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

static void draw_mark(const struct scene_canvas *c, int number, const struct mark *m, bool in_hand)
{
    double cap = scene_page_cap(c), half = (SIDE_MM / 2 + CLEAR_MM) * m->mm;
    double foot = m->at.y - (SIDE_MM / 2 + GAP_MM) * m->mm - cap;
    struct paint_ink ink = scene_ink(&c->view->look, SCENE_STICKER);
    scene_page_box(c, m->at.x - half, foot - CLEAR_MM * m->mm, m->at.x + half, m->at.y + half,
                   (struct paint_ink){ 0, 0 });
    for (int corner = 0; corner < 4; corner++)
        draw_corner(c, m, corner % 2 ? 1 : -1, corner / 2 ? 1 : -1);
    struct px_path dot = ring(c, m, fmax(DOT_MM, 2 * SCENE_LEAST_STROKE_PX / m->mm) / 2);
    paint_px_fill(&c->out->px, &dot, 1, ink);
    if (in_hand)
        paint_px_stroke(&c->out->px, ring(c, m, HAND_MM), pen_px(c), ink);
    scene_page_words(c, base_arena_print(c->a, "S%d", number), SCENE_MIDDLE, m->at.x, foot, cap, ink);
}

void scene_draw_stickers(const struct scene_canvas *c)
{
    for (int i = 0; i < c->view->sticker_count; i++) {
        struct mark m = { scene_page_at(&c->page, c->view->stickers[i]), c->page.px_per_mm };
        draw_mark(c, i + 1, &m, i == c->view->sticker_in_hand);
    }
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
