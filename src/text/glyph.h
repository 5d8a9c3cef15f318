/* Inside text: the outline of a glyph, read from the font once and kept. */
#ifndef TEXT_GLYPH_H
#define TEXT_GLYPH_H

#include "geometry/path.h"
#include "text/face.h"

/* In font units: contours to be filled by the non-zero rule, outer ones counter-clockwise, y up, curves flattened to
 * within 1/400 of the cap height. */
struct text_glyph {
    const struct geometry_path *contours;
    size_t count;
    double advance;
};

/* Lives as long as the font. NULL: the font's glyph is broken. */
const struct text_glyph *text_glyph_of(struct text_font *font, FT_UInt index);

#endif
