#include "scene/sheet.h"

#include "scene/parts.h"

#include <string.h>

#define ARM_FROM_MM 3.0
#define ARM_TO_MM 30.0
#define DOT_MM 8.0
#define LEAST_DASH_PX 4.0
#define COMMON_MM 1.5
#define PLAIN_LEVEL 0.6

/* A sheet on its way to the table. */
struct laying {
    const struct scene_canvas *c;
    struct geometry_mover mover;
    vec2 middle;
    struct geometry_box light;
};

static struct geometry_mover mover_of(const struct scene_canvas *c)
{
    struct geometry_box light = scene_usable_light(c->view);
    struct geometry_motion motion = c->view->motion;
    motion.shift = vec2_add(motion.shift, vec2_lerp(light.min, light.max, 0.5));
    return geometry_mover_of(motion);
}

static struct table_path laid(const struct laying *l, struct geometry_path path)
{
    struct table_path out = { geometry_path_copy(l->c->a, path) };
    for (size_t i = 0; i < path.count; i++)
        out.path.points[i] = geometry_move(&l->mover, vec2_sub(path.points[i], l->middle));
    return out;
}

static bool is_lit(const struct laying *l, struct geometry_path path)
{
    struct geometry_box box = geometry_path_box(path);
    return box.max.x >= l->light.min.x && box.min.x <= l->light.max.x && box.max.y >= l->light.min.y &&
           box.min.y <= l->light.max.y;
}

/* As many of its dashes as a pen has room for, none finer than the pixels carry; of an odd number, twice through. */
static void dash(const struct scene_canvas *c, const struct scene_sheet_line *line, struct paint_pen *pen)
{
    if (!line->dash_count)
        return;
    size_t count = line->dash_count % 2 ? 2 * line->dash_count : line->dash_count;
    for (size_t i = 0; i < PAINT_DASHES; i++)
        pen->dash[i] = fmax(line->dash_mm[i % count % line->dash_count], LEAST_DASH_PX * c->view->look.mm_per_px);
    if (count < PAINT_DASHES)
        memcpy(pen->dash + count, pen->dash, (PAINT_DASHES - count) * sizeof *pen->dash);
}

static void stroke(const struct laying *l, const struct scene_sheet_line *line, struct table_path path)
{
    const struct scene_look *look = &l->c->view->look;
    struct paint_pen pen = { .width = fmax(COMMON_MM, SCENE_LEAST_STROKE_PX * look->mm_per_px) };
    struct paint_ink ink = scene_ink(look, SCENE_SEAM);
    if (line->kind == SCENE_SHEET_CUT) {
        pen = scene_pen(look, SCENE_CUT);
        ink = scene_ink(look, SCENE_CUT);
    } else if (line->kind == SCENE_SHEET_PLAIN) {
        pen.width = SCENE_LEAST_STROKE_PX * look->mm_per_px;
        ink.level = PLAIN_LEVEL;
    }
    dash(l->c, line, &pen);
    paint_table_stroke(&l->c->out->table, path, pen, ink);
}

/* Letters that are painted as one; how many lines they are. */
static size_t fill(const struct laying *l, const struct scene_sheet_line *lines, size_t most)
{
    struct table_path *contours = base_arena_alloc(l->c->a, most, sizeof *contours);
    size_t count = 0;
    bool lit = false;
    while (count < most && lines[count].kind == SCENE_SHEET_LETTERS && lines[count].item == lines[0].item) {
        contours[count] = laid(l, lines[count].path);
        lit = lit || is_lit(l, contours[count].path);
        count++;
    }
    if (lit)
        paint_table_fill(&l->c->out->table, contours, count, scene_ink(&l->c->view->look, SCENE_SEAM));
    return count;
}

/* The lines of one kind, that of letters among them. */
static void draw_kind(const struct laying *l, const struct scene_sheet *sheet, enum scene_sheet_kind kind)
{
    for (size_t i = 0; i < sheet->count;) {
        const struct scene_sheet_line *line = &sheet->lines[i];
        if (line->kind != kind) {
            i++;
        } else if (kind == SCENE_SHEET_LETTERS) {
            i += fill(l, line, sheet->count - i);
        } else {
            struct table_path path = laid(l, line->path);
            if (is_lit(l, path.path))
                stroke(l, line, path);
            i++;
        }
    }
}

/* Whether words that are no wider than high for each letter may be seen. */
static bool may_be_lit(const struct laying *l, const struct scene_sheet_words *words)
{
    double cap = words->cap_mm, reach = cap * (double)strlen(words->text);
    vec2 end = vec2_add(words->at, vec2_scale(words->along, reach));
    vec2 corners[] = { vec2_sub(words->at, (vec2){ cap, cap }), vec2_add(words->at, (vec2){ cap, cap }),
                       vec2_sub(end, (vec2){ cap, cap }), vec2_add(end, (vec2){ cap, cap }) };
    return is_lit(l, laid(l, (struct geometry_path){ corners, 4, false }).path);
}

static void write_words(const struct laying *l, const struct scene_sheet_words *words)
{
    const struct scene_canvas *c = l->c;
    if (!c->view->font || !*words->text || !may_be_lit(l, words))
        return;
    struct text_run run = text_run_outline(c->a, c->view->font, words->text, words->cap_mm);
    vec2 up = vec2_scale(vec2_right(words->along), -1);
    struct geometry_path *letters = scene_carried(c->a, &run, words->at, words->along, up);
    struct table_path *contours = base_arena_alloc(c->a, run.count, sizeof *contours);
    for (size_t i = 0; i < run.count; i++)
        contours[i] = laid(l, letters[i]);
    paint_table_fill(&c->out->table, contours, run.count, scene_ink(&c->view->look, SCENE_SEAM));
}

struct paint_scene scene_sheet(struct arena *a, const struct scene_view *view, const struct scene_sheet *sheet)
{
    struct paint_scene scene = paint_scene_create(a);
    struct scene_canvas c = scene_canvas_of(a, view, scene_page_of(view->map, view->side), &scene);
    struct laying l = { &c, mover_of(&c), sheet->middle, geometry_path_box(geometry_map_frame(a, view->map, 16).path) };
    draw_kind(&l, sheet, SCENE_SHEET_PLAIN);
    draw_kind(&l, sheet, SCENE_SHEET_LETTERS);
    for (size_t i = 0; i < sheet->word_count; i++)
        write_words(&l, &sheet->words[i]);
    draw_kind(&l, sheet, SCENE_SHEET_COMMON);
    draw_kind(&l, sheet, SCENE_SHEET_CUT); /* what is cut lies over all */
    if (view->rulings)
        scene_draw_rulings(&c);
    scene_draw_strip(&c);
    scene_draw_notice(&c);
    scene_draw_stickers(&c, false);
    return scene;
}

void scene_draw_inner(struct arena *a, const struct scene_view *view, const struct geometry_path *lines, size_t count,
                      vec2 middle, struct paint_scene *scene)
{
    struct scene_canvas c = scene_canvas_of(a, view, scene_page_of(view->map, view->side), scene);
    struct laying l = { .c = &c, .mover = mover_of(&c), .middle = middle };
    for (size_t i = 0; i < count; i++)
        paint_table_stroke(&scene->table, laid(&l, lines[i]), scene_pen(&view->look, SCENE_SEAM),
                           scene_ink(&view->look, SCENE_SEAM));
}

static void line(const struct scene_canvas *c, vec2 from, vec2 to)
{
    const struct scene_look *look = &c->view->look;
    struct table_path path = { { base_arena_alloc(c->a, 2, sizeof(vec2)), 2, false } };
    path.path.points[0] = from;
    path.path.points[1] = to;
    paint_table_stroke(&c->out->table, path, scene_pen(look, SCENE_LEADER), scene_letter_ink(look));
}

/* Four arms from a dark middle: the place itself stays to be seen. */
static void draw_arms(const struct scene_canvas *c, vec2 at, double from, double to)
{
    static const vec2 directions[] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
    for (int d = 0; d < 4; d++)
        line(c, vec2_add(at, vec2_scale(directions[d], from)), vec2_add(at, vec2_scale(directions[d], to)));
}

void scene_draw_marks(struct arena *a, const struct scene_view *view, const struct scene_marks *marks,
                      struct paint_scene *scene)
{
    struct scene_canvas c = scene_canvas_of(a, view, scene_page_of(view->map, view->side), scene);
    struct geometry_box light = scene_usable_light(c.view);
    draw_arms(&c, vec2_lerp(light.min, light.max, 0.5), ARM_FROM_MM, ARM_TO_MM);
    scene_draw_marked(a, view, marks, scene);
}

void scene_draw_marked(struct arena *a, const struct scene_view *view, const struct scene_marks *marks,
                       struct paint_scene *scene)
{
    struct scene_canvas c = scene_canvas_of(a, view, scene_page_of(view->map, view->side), scene);
    struct geometry_mover mover = mover_of(&c);
    for (size_t i = 0; i < marks->count; i++)
        draw_arms(&c, geometry_move(&mover, marks->at[i]), 0, DOT_MM);
    if (marks->count == 2)
        line(&c, geometry_move(&mover, marks->at[0]), geometry_move(&mover, marks->at[1]));
}
