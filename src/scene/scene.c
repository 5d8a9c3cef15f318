#include "scene/scene.h"

#include "scene/parts.h"
#include "scene/rows.h"

#include <math.h>
#include <string.h>

#define STRIP_INSET_MM 12.0
#define TEST_FRAME_SHARE 0.98 /* of the light: the frame stays clear of its edge */
#define HELP_LINE 1.9         /* of the cap height */

static double inset_px(const struct scene_canvas *c)
{
    return STRIP_INSET_MM * c->page.px_per_mm;
}

/* The thin rule at the near edge with what to do now on the left and what is left on the right. */
static void draw_strip(const struct scene_canvas *c)
{
    double inset = inset_px(c), cap = scene_page_cap(c);
    double rule = scene_pen(&c->view->look, SCENE_RULE).width * c->page.px_per_mm;
    double base = inset + 0.5 * cap;
    scene_page_box(c, 0, 0, c->page.width, base + 2.1 * cap, (struct paint_ink){ 0, 0 }); /* pieces end above it */
    scene_page_box(c, inset, base + 1.6 * cap, c->page.width - inset, base + 1.6 * cap + rule,
                   scene_ink(&c->view->look, SCENE_RULE));
    struct paint_ink ink = scene_letter_ink(&c->view->look);
    scene_page_words(c, c->view->strip_left, SCENE_START, inset, base, cap, ink);
    scene_page_words(c, c->view->strip_right, SCENE_END, c->page.width - inset, base, cap, ink);
}

/* Unlit letters on a lit band across the far edge: what must not be overlooked. */
static void draw_notice(const struct scene_canvas *c)
{
    if (!c->view->notice)
        return;
    double cap = scene_page_cap(c), top = c->page.height;
    struct paint_ink lit = scene_letter_ink(&c->view->look), unlit = { 0, 0 };
    scene_page_box(c, 0, top - 2.2 * cap, c->page.width, top, lit);
    scene_page_words(c, c->view->notice, SCENE_MIDDLE, c->page.width / 2, top - 1.6 * cap, cap, unlit);
}

static double widest_key(const struct scene_canvas *c, double cap)
{
    double widest = 0;
    for (size_t i = 0; i < c->view->help_count; i++)
        widest = fmax(widest, scene_words_width(c, c->view->help[i].key, cap));
    return widest;
}

/* As large as the frame allows, up to the size of a piece's name. */
static void draw_help(const struct scene_canvas *c)
{
    double room = c->page.height - inset_px(c) - 7 * scene_page_cap(c);
    double cap = fmin(1.35 * scene_page_cap(c), room / (HELP_LINE * (double)c->view->help_count));
    double up = c->page.height - inset_px(c) - 4 * scene_page_cap(c), left = 2 * inset_px(c);
    double right = left + widest_key(c, cap) + 2 * cap;
    struct paint_ink ink = scene_letter_ink(&c->view->look);
    for (size_t i = 0; i < c->view->help_count; i++, up -= HELP_LINE * cap) {
        scene_page_words(c, c->view->help[i].key, SCENE_START, left, up, cap, ink);
        scene_page_words(c, c->view->help[i].what, SCENE_START, c->view->help[i].key ? right : left, up, cap, ink);
    }
}

/* The middle of the light that pieces may use: what the strip takes at the person's side is not for them. */
static struct geometry_box usable_light(const struct scene_canvas *c)
{
    struct geometry_box box = scene_light_box(c->view->map);
    double strip = 2.5 * scene_cap_height(&c->view->look) + STRIP_INSET_MM;
    vec2 away = scene_side_away(c->view->side);
    if (away.x + away.y > 0)
        box.min = vec2_add(box.min, vec2_scale(away, strip));
    else
        box.max = vec2_add(box.max, vec2_scale(away, strip));
    return box;
}

static void draw_pieces(const struct scene_canvas *c)
{
    size_t count = c->view->piece_count;
    struct geometry_box *boxes = base_arena_alloc(c->a, count, sizeof *boxes), light = usable_light(c);
    vec2 *shifts = base_arena_alloc(c->a, count, sizeof *shifts);
    for (size_t i = 0; i < count; i++)
        boxes[i] = geometry_path_box(c->view->pieces[i].piece->cut.path);
    struct geometry_box all = scene_rows(boxes, count, light.max.x - light.min.x, shifts);
    vec2 middle = vec2_lerp(all.min, all.max, 0.5);
    struct geometry_motion motion = c->view->motion;
    motion.shift = vec2_add(motion.shift, vec2_lerp(light.min, light.max, 0.5));
    struct geometry_mover mover = geometry_mover_of(motion);
    for (size_t i = 0; i < count; i++)
        scene_draw_piece(c, &c->view->pieces[i], vec2_sub(shifts[i], middle), &mover);
}

static void test_stroke(const struct scene_canvas *c, const vec2 *points, size_t count)
{
    const struct scene_look *look = &c->view->look;
    struct table_path path = { { base_arena_alloc(c->a, count, sizeof(vec2)), count, count > 2 } };
    memcpy(path.path.points, points, count * sizeof *points);
    paint_table_stroke(&c->out->table, path, scene_pen(look, SCENE_SQUARE), scene_ink(look, SCENE_SQUARE));
}

static void test_words(const struct scene_canvas *c, double mm, vec2 at, vec2 right)
{
    char text[UNITS_TEXT];
    scene_table_words(c, units_print_length(text, mm, c->view->test_unit), (struct table_pt){ at.x, at.y }, right,
                      scene_cap_height(&c->view->look));
}

static void draw_square(const struct scene_canvas *c)
{
    struct geometry_box light = usable_light(c);
    vec2 m = vec2_lerp(light.min, light.max, 0.5);
    double half = c->view->square_mm / 2;
    test_stroke(c,
                (const vec2[]){ { m.x - half, m.y - half },
                                { m.x + half, m.y - half },
                                { m.x + half, m.y + half },
                                { m.x - half, m.y + half } },
                4);
    test_words(c, c->view->square_mm, m, scene_side_right(c->view->side));
}

/* A round length at most that long: whole 50 mm, or whole 2 in. */
static double round_length(const struct scene_canvas *c, double mm)
{
    double step = c->view->test_unit == UNITS_IN ? 2 * UNITS_MM_PER_IN : 50;
    return floor(mm * TEST_FRAME_SHARE / step) * step;
}

/* The lengths stand beside their lines, those of the diagonals beside the middle where they cross. */
static void draw_test_frame(const struct scene_canvas *c)
{
    struct geometry_box light = usable_light(c);
    double width = round_length(c, light.max.x - light.min.x), height = round_length(c, light.max.y - light.min.y);
    vec2 m = vec2_lerp(light.min, light.max, 0.5), half = { width / 2, height / 2 };
    const vec2 corner[] = { { m.x - half.x, m.y - half.y },
                            { m.x + half.x, m.y - half.y },
                            { m.x + half.x, m.y + half.y },
                            { m.x - half.x, m.y + half.y } };
    double cap = scene_cap_height(&c->view->look);
    test_stroke(c, corner, 4);
    test_stroke(c, (const vec2[]){ corner[0], corner[2] }, 2);
    test_stroke(c, (const vec2[]){ corner[1], corner[3] }, 2);
    vec2 right = scene_side_right(c->view->side);
    test_words(c, width, (vec2){ m.x, corner[0].y + 1.5 * cap }, right);
    test_words(c, height, (vec2){ corner[0].x + 5 * cap, m.y }, right);
    test_words(c, vec2_length((vec2){ width, height }), (vec2){ m.x, m.y + height / 4 }, right);
}

struct paint_scene scene_make(struct arena *a, const struct scene_view *view)
{
    struct paint_scene scene = paint_scene_create(a);
    struct scene_canvas c = { a, view, scene_page_of(view->map, view->side), &scene };
    if (view->rulings && (view->mode != SCENE_HELP && view->mode != SCENE_BLANK))
        scene_draw_rulings(&c);
    switch (view->mode) {
    case SCENE_PIECES:
        draw_pieces(&c);
        break;
    case SCENE_TEST_SQUARE:
        draw_square(&c);
        break;
    case SCENE_TEST_FRAME:
        draw_test_frame(&c);
        break;
    case SCENE_HELP:
        draw_help(&c);
        break;
    case SCENE_BLANK:
        break;
    }
    draw_strip(&c);
    if (view->mode != SCENE_BLANK)
        draw_notice(&c);
    return scene;
}
