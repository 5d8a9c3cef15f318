/* Inside text: what an open font is made of. */
#ifndef TEXT_FACE_H
#define TEXT_FACE_H

#include "base/arena.h"
#include "text/font.h"

#include <freetype/freetype.h>

#include <stdbool.h>

struct text_glyph;

/* Of one index of the font. */
struct text_glyph_place {
    bool is_known;                  /* it was asked for */
    const struct text_glyph *glyph; /* NULL: it is broken */
};

struct text_font {
    struct arena *arena; /* owns the font, its name and its glyphs */
    FT_Library library;
    FT_Face face;
    const char *family;
    double cap_units;                /* height of the capitals, font units */
    struct text_glyph_place *glyphs; /* by index; NULL: none was asked for */
};

#endif
