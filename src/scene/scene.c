#include "scene/scene.h"

#include "geometry/rows.h"
#include "scene/parts.h"

#include <math.h>
#include <string.h>

#define HELP_INSET_MM 12.0
#define TEST_FRAME_SHARE 0.98 /* of the light: the frame stays clear of its edge */
#define LENGTH_AWAY 1.2       /* of the cap height: from a line to the middle of its length's letters */
#define DIAGONAL_SHARE 0.25   /* of a diagonal: where its length stands, clear of the other one and of the sides */
#define HELP_GAP 2.0          /* of the cap height, between keys and what they do */
#define HELP_LINE 1.9         /* of the cap height */
#define ROW_GAP_MM 32.0       /* notch triangles that point at each other: 15 mm each, behind the widest cut line */

static double inset_px(const struct scene_canvas *c)
{
    return HELP_INSET_MM * c->page.px_per_mm;
}

/* How wide keys and what they do are at a cap height of 1 px; a line without a key runs over both columns. */
static void measure_help(const struct scene_canvas *c, double *keys, double *whats)
{
    double whole = 0;
    *keys = *whats = 0;
    for (size_t i = 0; i < c->view->help_count; i++) {
        const struct scene_help_line *line = &c->view->help[i];
        double *what = line->key ? whats : &whole;
        *keys = fmax(*keys, scene_words_width(c, line->key, 1));
        *what = fmax(*what, scene_words_width(c, line->what, 1));
    }
    *whats = fmax(*whats, whole - *keys - HELP_GAP);
}

void scene_draw_help(const struct scene_canvas *c)
{
    struct scene_room free = scene_room_of(c);
    double left = free.left + 2 * inset_px(c), right_end = free.right - 2 * inset_px(c), keys, whats;
    measure_help(c, &keys, &whats);
    double room = c->page.height - inset_px(c) - 7 * scene_page_cap(c);
    double cap = fmin(1.35 * scene_page_cap(c), room / (HELP_LINE * (double)c->view->help_count));
    cap = fmin(cap, (right_end - left) / (keys + HELP_GAP + whats));
    double up = c->page.height - inset_px(c) - 4 * scene_page_cap(c), right = left + (keys + HELP_GAP) * cap;
    struct paint_ink ink = scene_letter_ink(&c->view->look);
    for (size_t i = 0; i < c->view->help_count; i++, up -= HELP_LINE * cap) {
        scene_page_words(c, c->view->help[i].key, SCENE_START, left, up, cap, ink);
        scene_page_words(c, c->view->help[i].what, SCENE_START, c->view->help[i].key ? right : left, up, cap, ink);
    }
}

static struct geometry_box piece_box(const struct scene_piece *piece)
{
    struct geometry_box box = geometry_path_box(piece->piece->cut.path);
    vec2 a = scene_piece_place(piece, box.min), b = scene_piece_place(piece, box.max);
    return (struct geometry_box){ { fmin(a.x, b.x), a.y }, { fmax(a.x, b.x), b.y } };
}

/* Moves the pieces into rows about the middle of the light. */
static void place_in_rows(const struct scene_canvas *c, struct scene_placed *placed, size_t count, double width)
{
    struct geometry_box *boxes = base_arena_alloc(c->a, count, sizeof *boxes);
    vec2 *shifts = base_arena_alloc(c->a, count, sizeof *shifts);
    for (size_t i = 0; i < count; i++)
        boxes[i] = piece_box(placed[i].piece);
    struct geometry_box all = geometry_rows(boxes, count, width, ROW_GAP_MM, shifts);
    for (size_t i = 0; i < count; i++)
        placed[i].shift = vec2_sub(shifts[i], vec2_lerp(all.min, all.max, 0.5));
}

/* The pieces as they lie, and their outlines. */
static struct scene_obstacles place_pieces(const struct scene_canvas *c, struct scene_placed *placed)
{
    size_t count = c->view->piece_count;
    struct geometry_box light = scene_usable_light(c->view);
    struct geometry_mover *mover = base_arena_alloc(c->a, 1, sizeof *mover);
    struct geometry_motion motion = c->view->motion;
    motion.shift = vec2_add(motion.shift, vec2_lerp(light.min, light.max, 0.5));
    *mover = geometry_mover_of(motion);
    struct geometry_path *outlines = base_arena_alloc(c->a, count, sizeof *outlines);
    for (size_t i = 0; i < count; i++)
        placed[i] = (struct scene_placed){ .piece = &c->view->pieces[i], .mover = mover };
    place_in_rows(c, placed, count, light.max.x - light.min.x);
    for (size_t i = 0; i < count; i++)
        outlines[i] = scene_piece_outline(c, &placed[i]);
    return (struct scene_obstacles){ outlines, count };
}

static void draw_pieces(struct scene_canvas *c)
{
    size_t count = c->view->piece_count, first = c->out->table.in.path_count;
    struct scene_placed *placed = base_arena_alloc(c->a, count, sizeof *placed);
    struct scene_obstacles outlines = place_pieces(c, placed);
    const char **labels = base_arena_alloc(c->a, count, sizeof *labels);
    for (size_t i = 0; i < count; i++)
        labels[i] = c->view->pieces[i].piece->label;
    scene_keep_in_light(c, &(struct scene_to_cut){ outlines, labels, { NULL, 0 } });
    for (size_t i = 0; i < count; i++)
        scene_draw_piece(c, &placed[i]);
    for (size_t i = 0; i < count; i++)
        if (!placed[i].lettered)
            scene_letter_beside(c, &placed[i], first, &outlines);
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
    double on_tape_mm = units_to_sixteenth(mm, c->view->test_unit);
    scene_table_words(c, units_print_length(text, on_tape_mm, c->view->test_unit), (struct table_pt){ at.x, at.y },
                      right, scene_cap_height(&c->view->look));
}

static void draw_square(const struct scene_canvas *c)
{
    struct geometry_box light = scene_usable_light(c->view);
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

/* A line's length along it, so turned that she reads it, at a share of its way and on the side of it that `toward`
 * points at. */
static void length_beside(const struct scene_canvas *c, vec2 from, vec2 to, double share, vec2 toward)
{
    vec2 line = vec2_sub(to, from), along = vec2_unit(line), across = vec2_right(along);
    double reads = vec2_dot(along, scene_side_right(c->view->side));
    if (reads < 0 || (reads == 0 && vec2_dot(along, scene_side_away(c->view->side)) < 0))
        along = vec2_scale(along, -1);
    if (vec2_dot(across, toward) < 0)
        across = vec2_scale(across, -1);
    vec2 away = vec2_scale(across, LENGTH_AWAY * scene_cap_height(&c->view->look));
    test_words(c, vec2_length(line), vec2_add(vec2_lerp(from, to, share), away), along);
}

/* A diagonal with its length beyond it, at its end near her. */
static void draw_diagonal(const struct scene_canvas *c, vec2 from, vec2 to)
{
    vec2 away = scene_side_away(c->view->side);
    bool near = vec2_dot(from, away) < vec2_dot(to, away);
    test_stroke(c, (const vec2[]){ from, to }, 2);
    length_beside(c, from, to, near ? DIAGONAL_SHARE : 1 - DIAGONAL_SHARE, away);
}

/* The lengths of the sides stand inside, at their middles. */
static void draw_test_frame(const struct scene_canvas *c)
{
    struct geometry_box light = scene_usable_light(c->view);
    double width = round_length(c, light.max.x - light.min.x), height = round_length(c, light.max.y - light.min.y);
    vec2 m = vec2_lerp(light.min, light.max, 0.5), half = { width / 2, height / 2 };
    const vec2 corner[] = { { m.x - half.x, m.y - half.y },
                            { m.x + half.x, m.y - half.y },
                            { m.x + half.x, m.y + half.y },
                            { m.x - half.x, m.y + half.y } };
    test_stroke(c, corner, 4);
    for (int i = 0; i < 4; i++) {
        vec2 next = corner[(i + 1) % 4];
        length_beside(c, corner[i], next, 0.5, vec2_sub(m, vec2_lerp(corner[i], next, 0.5)));
    }
    draw_diagonal(c, corner[0], corner[2]);
    draw_diagonal(c, corner[1], corner[3]);
}

#define BEYOND_PX 2.0 /* how far all light reaches beyond the frame: pixels look a little to either side */

static void light_all(const struct scene_canvas *c)
{
    scene_page_box(c, -BEYOND_PX, -BEYOND_PX, c->page.width + BEYOND_PX, c->page.height + BEYOND_PX,
                   (struct paint_ink){ 0xffffff, 1 });
}

/* Whether a mode shows nothing but the strip. */
static bool is_empty(enum scene_mode mode)
{
    return mode == SCENE_BLANK || mode == SCENE_WORK_LIGHT;
}

/* Whether it shows lines of words alone. */
static bool is_page(enum scene_mode mode)
{
    return mode == SCENE_HELP || mode == SCENE_LIST;
}

struct paint_scene scene_make(struct arena *a, const struct scene_view *view)
{
    struct paint_scene scene = paint_scene_create(a);
    struct scene_canvas c = scene_canvas_of(a, view, scene_page_of(view->map, view->side), &scene);
    if (view->rulings && !is_page(view->mode) && !is_empty(view->mode))
        scene_draw_rulings(&c);
    switch (view->mode) {
    case SCENE_PIECES:
        c.kept = scene_sticker_boxes(&c);
        if (view->layout)
            scene_draw_layout(&c);
        else
            draw_pieces(&c);
        break;
    case SCENE_TEST_SQUARE:
        draw_square(&c);
        break;
    case SCENE_TEST_FRAME:
        draw_test_frame(&c);
        break;
    case SCENE_LIST:
    case SCENE_HELP:
        scene_draw_help(&c);
        break;
    case SCENE_DOUBT:
        scene_draw_doubt(&c, view->map, view->doubt, view->doubt_of);
        break;
    case SCENE_TRIAL:
        scene_draw_trial(&c);
        break;
    case SCENE_WORK_LIGHT:
        light_all(&c);
        break;
    case SCENE_STICKERS:
    case SCENE_BLANK:
        break;
    }
    scene_draw_strip(&c);
    if (!is_empty(view->mode))
        scene_draw_notice(&c);
    if (!is_empty(view->mode) && !is_page(view->mode))
        scene_draw_stickers(&c, view->mode == SCENE_PIECES);
    return scene;
}
