#include "text/run.h"

#include "base/text.h"
#include "text/glyph.h"

#include <assert.h>

/* A run under work. */
struct pen {
    struct arena *arena;
    struct text_run *run;
    size_t contour_cap;
    double scale; /* the caller's unit per font unit */
};

static vec2 *placed(struct arena *a, const struct geometry_path *contour, double x, double scale)
{
    vec2 *points = base_arena_alloc(a, contour->count, sizeof *points);
    for (size_t i = 0; i < contour->count; i++)
        points[i] = (vec2){ x + contour->points[i].x * scale, contour->points[i].y * scale };
    return points;
}

/* A glyph that starts at `x`. */
static void put_glyph(struct pen *pen, const struct text_glyph *glyph, double x)
{
    struct text_run *run = pen->run;
    run->contours =
        base_arena_grow(pen->arena, run->contours, &pen->contour_cap, run->count + glyph->count, sizeof *run->contours);
    for (size_t i = 0; i < glyph->count; i++) {
        const struct geometry_path *contour = &glyph->contours[i];
        run->contours[run->count++] =
            (struct geometry_path){ placed(pen->arena, contour, x, pen->scale), contour->count, true };
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
static double walk(struct text_font *font, const char *utf8, struct pen *pen)
{
    double way = 0;
    FT_UInt before = 0;
    for (unsigned long c = base_text_next(&utf8); c; c = base_text_next(&utf8)) {
        FT_UInt index = FT_Get_Char_Index(font->face, c);
        const struct text_glyph *glyph = text_glyph_of(font, index);
        if (!glyph)
            continue; /* a broken glyph takes no room */
        way += kerning(font->face, before, index);
        if (pen)
            put_glyph(pen, glyph, way * pen->scale);
        way += glyph->advance;
        before = index;
    }
    return way;
}

struct text_run text_run_outline(struct arena *a, struct text_font *font, const char *utf8, double cap_height)
{
    assert(cap_height > 0);
    struct text_run run = { NULL, 0, 0 };
    struct pen pen = { .arena = a, .run = &run, .scale = cap_height / font->cap_units };
    run.width = walk(font, utf8, &pen) * pen.scale;
    return run;
}

double text_run_width(struct text_font *font, const char *utf8, double cap_height)
{
    assert(cap_height > 0);
    return walk(font, utf8, NULL) * (cap_height / font->cap_units);
}
