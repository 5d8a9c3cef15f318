#include "text/run.h"

#include "base/text.h"
#include "geometry/cubic.h"
#include "text/face.h"

#include <assert.h>
#include <freetype/ftoutln.h>

#define FLATNESS (1.0 / 400) /* of the cap height */

/* Contours under work: those of the glyph at hand start at `x`. All in the caller's unit. */
struct pen {
    struct arena *arena;
    struct text_run *run;
    size_t contour_cap, point_cap;
    double scale; /* unit per font unit */
    double x, tolerance;
    vec2 at; /* where the pen is */
};

static vec2 placed(const struct pen *pen, const FT_Vector *v)
{
    return (vec2){ pen->x + (double)v->x * pen->scale, (double)v->y * pen->scale };
}

static void put(struct pen *pen, vec2 p)
{
    struct geometry_path *contour = &pen->run->contours[pen->run->count - 1];
    contour->points = base_arena_grow(pen->arena, contour->points, &pen->point_cap, contour->count + 1, sizeof(vec2));
    contour->points[contour->count++] = p;
    pen->at = p;
}

static int move_to(const FT_Vector *to, void *user)
{
    struct pen *pen = user;
    struct text_run *run = pen->run;
    run->contours =
        base_arena_grow(pen->arena, run->contours, &pen->contour_cap, run->count + 1, sizeof *run->contours);
    run->contours[run->count++] = (struct geometry_path){ NULL, 0, true };
    pen->point_cap = 0;
    put(pen, placed(pen, to));
    return 0;
}

static int line_to(const FT_Vector *to, void *user)
{
    put(user, placed(user, to));
    return 0;
}

static void put_curve(struct pen *pen, vec2 first, vec2 second, vec2 to)
{
    struct geometry_cubic curve = {
        {pen->at, first, second, to}
    };
    size_t steps = geometry_cubic_steps(curve, pen->tolerance);
    for (size_t i = 1; i < steps; i++)
        put(pen, geometry_cubic_at(curve, (double)i / (double)steps));
    put(pen, to);
}

/* A parabola as a cubic: its controls lie two thirds of the way to the parabola's own. */
static int conic_to(const FT_Vector *control, const FT_Vector *to, void *user)
{
    struct pen *pen = user;
    vec2 middle = placed(pen, control), end = placed(pen, to);
    put_curve(pen, vec2_lerp(pen->at, middle, 2.0 / 3), vec2_lerp(end, middle, 2.0 / 3), end);
    return 0;
}

static int cubic_to(const FT_Vector *first, const FT_Vector *second, const FT_Vector *to, void *user)
{
    put_curve(user, placed(user, first), placed(user, second), placed(user, to));
    return 0;
}

static const FT_Outline_Funcs pen_moves = { move_to, line_to, conic_to, cubic_to, 0, 0 };

static bool same(vec2 a, vec2 b)
{
    return a.x == b.x && a.y == b.y;
}

/* The outlines of the glyph just loaded, outer contours counter-clockwise whichever way the font's format runs. */
static void draw_glyph(struct pen *pen, FT_Outline *outline)
{
    size_t first = pen->run->count;
    FT_Outline_Decompose(outline, &pen_moves, pen);
    bool clockwise = FT_Outline_Get_Orientation(outline) == FT_ORIENTATION_TRUETYPE;
    for (size_t i = first; i < pen->run->count; i++) {
        struct geometry_path *contour = &pen->run->contours[i];
        if (contour->count > 1 && same(contour->points[0], contour->points[contour->count - 1]))
            contour->count--;
        if (clockwise)
            geometry_path_reverse(*contour);
    }
}

/* Way between two neighbours beyond the first one's advance: the `kern` table's, the only one FreeType reads. */
static double kerning(FT_Face face, FT_UInt left, FT_UInt right)
{
    FT_Vector delta = { 0, 0 };
    if (left && right && FT_HAS_KERNING(face) && FT_Get_Kerning(face, left, right, FT_KERNING_UNSCALED, &delta) == 0)
        return (double)delta.x;
    return 0;
}

/* Walks the pen along the text; draws when `pen` has a run to draw into. Returns the way in font units. */
static double walk(FT_Face face, const char *utf8, struct pen *pen)
{
    double way = 0;
    FT_UInt before = 0;
    for (unsigned long c = base_text_next(&utf8); c; c = base_text_next(&utf8)) {
        FT_UInt glyph = FT_Get_Char_Index(face, c);
        if (FT_Load_Glyph(face, glyph, FT_LOAD_NO_SCALE | FT_LOAD_NO_HINTING) != 0)
            continue; /* a broken glyph takes no room */
        way += kerning(face, before, glyph);
        if (pen) {
            pen->x = way * pen->scale;
            draw_glyph(pen, &face->glyph->outline);
        }
        way += (double)face->glyph->advance.x;
        before = glyph;
    }
    return way;
}

struct text_run text_run_outline(struct arena *a, struct text_font *font, const char *utf8, double cap_height)
{
    assert(cap_height > 0);
    struct text_run run = { NULL, 0, 0 };
    struct pen pen = {
        .arena = a, .run = &run, .scale = cap_height / font->cap_units, .tolerance = cap_height * FLATNESS
    };
    run.width = walk(font->face, utf8, &pen) * pen.scale;
    return run;
}

double text_run_width(struct text_font *font, const char *utf8, double cap_height)
{
    assert(cap_height > 0);
    return walk(font->face, utf8, NULL) * (cap_height / font->cap_units);
}
