#include "text/glyph.h"

#include "geometry/cubic.h"

#include <freetype/ftoutln.h>

#define FLATNESS (1.0 / 400) /* of the cap height */

/* Contours under work. */
struct pen {
    struct arena *arena;
    struct geometry_path *contours;
    size_t count, contour_cap, point_cap;
    double tolerance;
    vec2 at; /* where the pen is */
};

static vec2 point_of(const FT_Vector *v)
{
    return (vec2){ (double)v->x, (double)v->y };
}

static void put(struct pen *pen, vec2 p)
{
    struct geometry_path *contour = &pen->contours[pen->count - 1];
    contour->points = base_arena_grow(pen->arena, contour->points, &pen->point_cap, contour->count + 1, sizeof(vec2));
    contour->points[contour->count++] = p;
    pen->at = p;
}

static int move_to(const FT_Vector *to, void *user)
{
    struct pen *pen = user;
    pen->contours =
        base_arena_grow(pen->arena, pen->contours, &pen->contour_cap, pen->count + 1, sizeof *pen->contours);
    pen->contours[pen->count++] = (struct geometry_path){ NULL, 0, true };
    pen->point_cap = 0;
    put(pen, point_of(to));
    return 0;
}

static int line_to(const FT_Vector *to, void *user)
{
    put(user, point_of(to));
    return 0;
}

static void put_curve(struct pen *pen, vec2 first, vec2 second, vec2 to)
{
    struct geometry_cubic curve = { { pen->at, first, second, to } };
    size_t steps = geometry_cubic_steps(curve, pen->tolerance);
    for (size_t i = 1; i < steps; i++)
        put(pen, geometry_cubic_at(curve, (double)i / (double)steps));
    put(pen, to);
}

/* A parabola as a cubic: its controls lie two thirds of the way to the parabola's own. */
static int conic_to(const FT_Vector *control, const FT_Vector *to, void *user)
{
    struct pen *pen = user;
    vec2 middle = point_of(control), end = point_of(to);
    put_curve(pen, vec2_lerp(pen->at, middle, 2.0 / 3), vec2_lerp(end, middle, 2.0 / 3), end);
    return 0;
}

static int cubic_to(const FT_Vector *first, const FT_Vector *second, const FT_Vector *to, void *user)
{
    put_curve(user, point_of(first), point_of(second), point_of(to));
    return 0;
}

static const FT_Outline_Funcs pen_moves = { move_to, line_to, conic_to, cubic_to, 0, 0 };

static bool same(vec2 a, vec2 b)
{
    return a.x == b.x && a.y == b.y;
}

/* Outer contours counter-clockwise whichever way the font's format runs. */
static void draw(struct pen *pen, FT_Outline *outline)
{
    FT_Outline_Decompose(outline, &pen_moves, pen);
    bool clockwise = FT_Outline_Get_Orientation(outline) == FT_ORIENTATION_TRUETYPE;
    for (size_t i = 0; i < pen->count; i++) {
        struct geometry_path *contour = &pen->contours[i];
        if (contour->count > 1 && same(contour->points[0], contour->points[contour->count - 1]))
            contour->count--;
        if (clockwise)
            geometry_path_reverse(*contour);
    }
}

static const struct text_glyph *read_glyph(struct text_font *font, FT_UInt index)
{
    if (FT_Load_Glyph(font->face, index, FT_LOAD_NO_SCALE | FT_LOAD_NO_HINTING) != 0)
        return NULL;
    struct pen pen = { .arena = font->arena, .tolerance = font->cap_units * FLATNESS };
    draw(&pen, &font->face->glyph->outline);
    struct text_glyph *glyph = base_arena_alloc(font->arena, 1, sizeof *glyph);
    *glyph = (struct text_glyph){ pen.contours, pen.count, (double)font->face->glyph->advance.x };
    return glyph;
}

const struct text_glyph *text_glyph_of(struct text_font *font, FT_UInt index)
{
    size_t all = (size_t)font->face->num_glyphs;
    if (index >= all)
        return NULL;
    if (!font->glyphs)
        font->glyphs = base_arena_alloc(font->arena, all, sizeof *font->glyphs);
    struct text_glyph_place *place = &font->glyphs[index];
    if (!place->is_known)
        *place = (struct text_glyph_place){ true, read_glyph(font, index) };
    return place->glyph;
}
