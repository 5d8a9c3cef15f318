#include "scene/crosses.h"

#include "scene/parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define ARM_FROM_PX 6.0
#define ARM_TO_PX 50.0
#define NUMBER_PX 38.0
#define READ_PX 18.0    /* radius of the ring that a read cross leaves */
#define READ_NUMBER 0.6 /* of a shown cross's number */
#define READ_LEVEL 0.5
#define GUESSED_WIDTH_MM 1500.0 /* of the light: only for the size of letters */
#define FIRST_LINE 1.8          /* of the cap height */
#define OTHER_LINES 1.2
#define LINE_STEP 1.8
#define LINES_WIDTH 0.94 /* of the page, at most */

enum { RING_CORNERS = 24 };

static void px_line(const struct scene_canvas *c, vec2 from, vec2 to, struct paint_ink ink)
{
    struct px_path line = { { base_arena_alloc(c->a, 2, sizeof(vec2)), 2, false } };
    line.path.points[0] = from;
    line.path.points[1] = to;
    paint_px_stroke(&c->out->px, line, (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX }, ink);
}

/* Four arms about a dark middle: the place itself stays to be seen. */
static void draw_arms(const struct scene_canvas *c, vec2 at, double from, double to, struct paint_ink ink)
{
    static const vec2 directions[] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
    for (int d = 0; d < 4; d++)
        px_line(c, vec2_add(at, vec2_scale(directions[d], from)), vec2_add(at, vec2_scale(directions[d], to)), ink);
}

static void draw_ring(const struct scene_canvas *c, vec2 at, struct paint_ink ink)
{
    struct px_path ring = { { base_arena_alloc(c->a, RING_CORNERS, sizeof(vec2)), RING_CORNERS, true } };
    for (int i = 0; i < RING_CORNERS; i++) {
        double s, k;
        geometry_sincos(360.0 * i / RING_CORNERS, &s, &k);
        ring.path.points[i] = vec2_add(at, (vec2){ READ_PX * k, READ_PX * s });
    }
    paint_px_stroke(&c->out->px, ring, (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX }, ink);
}

/* A frame place as she sees it: across and up on the page. */
static vec2 on_page(const struct scene_page *page, struct px_pt at)
{
    vec2 off = vec2_sub((vec2){ at.x, at.y }, page->origin);
    return (vec2){ vec2_dot(off, page->right), vec2_dot(off, page->up) };
}

/* The number stands beside its cross, toward the middle where there is light to show it. */
static void draw_number(const struct scene_canvas *c, const struct scene_cross *cross, double cap, struct paint_ink ink)
{
    char text[16];
    vec2 at = on_page(&c->page, cross->at);
    snprintf(text, sizeof text, "%d", cross->number);
    double width = scene_words_width(c, text, cap);
    double left = at.x + (at.x > c->page.width - 3 * NUMBER_PX ? -width - 0.5 * cap : 0.5 * cap);
    double foot = at.y + (at.y > c->page.height - 2 * NUMBER_PX ? -1.5 * cap : 0.8 * cap);
    scene_page_words(c, text, SCENE_START, left, foot, cap, ink);
    if (text[strspn(text, "69")] == '\0')
        scene_page_box(c, left, foot - 0.32 * cap, left + width, foot - 0.22 * cap, ink);
}

static void draw_cross(const struct scene_canvas *c, const struct scene_cross *cross)
{
    struct paint_ink full = { scene_chalks[0].main, 1 }, half = { scene_chalks[0].main, READ_LEVEL };
    vec2 at = { cross->at.x, cross->at.y };
    switch (cross->state) {
    case SCENE_CROSS_SHOWN:
        draw_arms(c, at, ARM_FROM_PX, ARM_TO_PX, full);
        draw_number(c, cross, NUMBER_PX, full);
        break;
    case SCENE_CROSS_READ:
        draw_ring(c, at, half);
        draw_arms(c, at, 0, READ_PX / 2, half);
        draw_number(c, cross, NUMBER_PX * READ_NUMBER, half);
        break;
    case SCENE_CROSS_HIDDEN:
        break;
    }
}

static double shown_up(const struct scene_canvas *c, const struct scene_cross_view *view)
{
    for (size_t i = 0; i < view->count; i++)
        if (view->crosses[i].state == SCENE_CROSS_SHOWN)
            return on_page(&c->page, view->crosses[i].at).y;
    return c->page.height;
}

/* How far the letters shrink so that the longest sentence fits between the edges of a narrow page. */
static double fitting(const struct scene_canvas *c, const char *const *lines)
{
    double share = FIRST_LINE, widest = 1;
    for (const char *const *line = lines; *line; line++, share = OTHER_LINES)
        widest = fmax(widest, scene_words_width(c, *line, share * scene_page_cap(c)));
    return fmin(1, LINES_WIDTH * c->page.width / widest);
}

/* The sentences stand in the half of the page where the cross is not. */
static void draw_lines(const struct scene_canvas *c, const struct scene_cross_view *view)
{
    if (!view->lines)
        return;
    double unit = scene_page_cap(c) * fitting(c, view->lines), cap = FIRST_LINE * unit;
    double up = c->page.height * (shown_up(c, view) < c->page.height / 2 ? 0.8 : 0.38);
    for (const char *const *line = view->lines; *line; line++) {
        scene_page_words(c, *line, SCENE_MIDDLE, c->page.width / 2, up, cap,
                         (struct paint_ink){ scene_chalks[0].main, 1 });
        up -= LINE_STEP * cap;
        cap = OTHER_LINES * unit;
    }
}

struct paint_scene scene_crosses(struct arena *a, const struct scene_cross_view *view)
{
    struct paint_scene scene = paint_scene_create(a);
    double mm_per_px = GUESSED_WIDTH_MM / view->width_px;
    struct scene_view words = { .font = view->font, .look = { mm_per_px, SCENE_CUT_WIDTH_MM, &scene_chalks[0] } };
    struct scene_page page = scene_page_turned(view->width_px, view->height_px, view->quarter, 1 / mm_per_px);
    struct scene_canvas c = { a, &words, page, &scene };
    for (size_t i = 0; i < view->count; i++)
        draw_cross(&c, &view->crosses[i]);
    draw_lines(&c, view);
    return scene;
}
