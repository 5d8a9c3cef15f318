/* Inside text: what an open font is made of. */
#ifndef TEXT_FACE_H
#define TEXT_FACE_H

#include "base/arena.h"
#include "text/font.h"

#include <freetype/freetype.h>

struct text_glyph;

struct text_font {
    struct arena *arena; /* owns the font, its name and its glyphs */
    FT_Library library;
    FT_Face face;
    const char *family;
    double cap_units;                 /* height of the capitals, font units */
    const struct text_glyph **glyphs; /* by index, NULL where one was not asked for; NULL: none was */
};

#endif
