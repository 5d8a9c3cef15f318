#include "base/words.h"
#include "base/text.h"
#include "scene/parts.h"

#include <string.h>

static unsigned long capital_of(unsigned long point)
{
    if (point >= 'a' && point <= 'z')
        return point - 0x20;
    if (point >= 0xe0 && point <= 0xfe && point != 0xf7) /* à to þ, the division sign aside */
        return point - 0x20;
    return point;
}

/* The text as it is drawn: in English in capitals (ASCII and Latin-1 letters; ß stays as it is), in `a`; other
 * languages tell words apart by them. */
static const char *drawn_of(struct arena *a, const char *text)
{
    if (strcmp(base_words_language(), "en") != 0)
        return text;
    char *capitals = base_arena_alloc(a, strlen(text) + 1, 1), *out = capitals;
    while (*text)
        out += base_text_put(out, capital_of(base_text_next(&text)));
    return capitals;
}

struct geometry_path *scene_carried(struct arena *a, const struct text_run *run, vec2 at, vec2 right, vec2 up)
{
    struct geometry_path *paths = base_arena_alloc(a, run->count, sizeof *paths);
    for (size_t i = 0; i < run->count; i++) {
        paths[i] = geometry_path_copy(a, run->contours[i]);
        for (size_t p = 0; p < paths[i].count; p++) {
            vec2 v = paths[i].points[p];
            paths[i].points[p] = vec2_add(at, vec2_add(vec2_scale(right, v.x), vec2_scale(up, v.y)));
        }
    }
    return paths;
}

double scene_letters_width(const struct scene_canvas *c, const char *text, double cap_mm)
{
    return c->view->font && text ? text_run_width(c->view->font, text, cap_mm) : 0;
}

double scene_words_width(const struct scene_canvas *c, const char *text, double cap_mm)
{
    return text ? scene_letters_width(c, drawn_of(c->a, text), cap_mm) : 0;
}

#define BAND_AIR 0.2 /* of the cap height, all round letters on a band: lines of them do not touch */

static bool stands_on_band(const struct scene_canvas *c, struct paint_ink ink)
{
    return c->view->band && ink.level > 0;
}

/* About letters that begin at `start`. */
static struct geometry_path band_of(struct arena *a, vec2 start, vec2 right, vec2 up, double width, double cap)
{
    double air = BAND_AIR * cap;
    const vec2 corner[] = { { -air, -air }, { width + air, -air }, { width + air, cap + air }, { -air, cap + air } };
    struct geometry_path box = { base_arena_alloc(a, 4, sizeof(vec2)), 4, true };
    for (int i = 0; i < 4; i++)
        box.points[i] = vec2_add(start, vec2_add(vec2_scale(right, corner[i].x), vec2_scale(up, corner[i].y)));
    return box;
}

void scene_table_words(const struct scene_canvas *c, const char *text, struct table_pt at, vec2 right, double cap_mm)
{
    scene_table_words_in(c, text, at, right, cap_mm, scene_letter_ink(&c->view->look));
}

void scene_table_words_in(const struct scene_canvas *c, const char *text, struct table_pt at, vec2 right, double cap_mm,
                          struct paint_ink ink)
{
    if (!c->view->font || !*text)
        return;
    struct text_run run = text_run_outline(c->a, c->view->font, drawn_of(c->a, text), cap_mm);
    vec2 up = vec2_scale(vec2_right(right), -1);
    vec2 start = vec2_sub((vec2){ at.x, at.y }, vec2_add(vec2_scale(right, run.width / 2), vec2_scale(up, cap_mm / 2)));
    if (stands_on_band(c, ink)) {
        struct table_path band = { band_of(c->a, start, right, up, run.width, cap_mm) };
        paint_table_fill(&c->out->table, &band, 1, ink);
        ink.level = 0;
    }
    struct geometry_path *paths = scene_carried(c->a, &run, start, right, up);
    struct table_path *contours = base_arena_alloc(c->a, run.count, sizeof *contours);
    for (size_t i = 0; i < run.count; i++)
        contours[i].path = paths[i];
    paint_table_fill(&c->out->table, contours, run.count, ink);
}

void scene_page_words(const struct scene_canvas *c, const char *text, enum scene_align align, double across, double up,
                      double cap_px, struct paint_ink ink)
{
    if (text)
        scene_page_letters(c, drawn_of(c->a, text), align, across, up, cap_px, ink);
}

/* A direction of the page in the frame. */
static vec2 px_way(const struct scene_page *page, vec2 way)
{
    return vec2_add(vec2_scale(page->right, way.x), vec2_scale(page->up, way.y));
}

static void fill_run(const struct scene_canvas *c, const struct text_run *run, vec2 start, vec2 along, double cap,
                     struct paint_ink ink)
{
    struct px_pt px = scene_page_px(&c->page, start.x, start.y);
    vec2 right = px_way(&c->page, along), up = px_way(&c->page, vec2_scale(vec2_right(along), -1));
    if (stands_on_band(c, ink)) {
        struct px_path band = { band_of(c->a, (vec2){ px.x, px.y }, right, up, run->width, cap) };
        paint_px_fill(&c->out->px, &band, 1, ink);
        ink.level = 0;
    }
    struct geometry_path *paths = scene_carried(c->a, run, (vec2){ px.x, px.y }, right, up);
    struct px_path *contours = base_arena_alloc(c->a, run->count, sizeof *contours);
    for (size_t i = 0; i < run->count; i++)
        contours[i].path = paths[i];
    paint_px_fill(&c->out->px, contours, run->count, ink);
}

void scene_page_letters(const struct scene_canvas *c, const char *text, enum scene_align align, double across,
                        double up, double cap_px, struct paint_ink ink)
{
    if (!c->view->font || !*text)
        return;
    static const double shares[] = { [SCENE_START] = 0, [SCENE_MIDDLE] = 0.5, [SCENE_END] = 1 };
    struct text_run run = text_run_outline(c->a, c->view->font, text, cap_px);
    fill_run(c, &run, (vec2){ across - run.width * shares[align], up }, (vec2){ 1, 0 }, cap_px, ink);
}

void scene_page_words_along(const struct scene_canvas *c, const char *text, vec2 start, vec2 along, double cap_px,
                            struct paint_ink ink)
{
    if (!c->view->font || !text || !*text)
        return;
    struct text_run run = text_run_outline(c->a, c->view->font, drawn_of(c->a, text), cap_px);
    fill_run(c, &run, start, along, cap_px, ink);
}

void scene_page_box(const struct scene_canvas *c, double left, double near, double right, double far,
                    struct paint_ink ink)
{
    const double across[] = { left, right, right, left }, up[] = { near, near, far, far };
    struct px_path box = { { base_arena_alloc(c->a, 4, sizeof(vec2)), 4, true } };
    for (int i = 0; i < 4; i++) {
        struct px_pt p = scene_page_px(&c->page, across[i], up[i]);
        box.path.points[i] = (vec2){ p.x, p.y };
    }
    paint_px_fill(&c->out->px, &box, 1, ink);
}

void scene_page_line(const struct scene_canvas *c, vec2 from, vec2 to, struct paint_pen pen, struct paint_ink ink)
{
    struct px_path path = { { base_arena_alloc(c->a, 2, sizeof(vec2)), 2, false } };
    struct px_pt a = scene_page_px(&c->page, from.x, from.y), b = scene_page_px(&c->page, to.x, to.y);
    path.path.points[0] = (vec2){ a.x, a.y };
    path.path.points[1] = (vec2){ b.x, b.y };
    paint_px_stroke(&c->out->px, path, pen, ink);
}

double scene_page_cap(const struct scene_canvas *c)
{
    return scene_cap_height(&c->view->look) * c->page.px_per_mm;
}
