/* A legible installed font, found by fontconfig and read by FreeType. No font comes with the program. */
#ifndef TEXT_FONT_H
#define TEXT_FONT_H

#include "base/err_list.h"

struct text_font;

/* Opens the heavy sans-serif of the table's letters: Lato Heavy, else Carlito Bold, else DejaVu Sans Bold, else what
 * fontconfig takes for a bold sans-serif. The caller owns it. NULL, with the reason, when no outline font is there. */
struct text_font *text_font_open(struct err_list *errs);
void text_font_close(struct text_font *font);

/* The family name of what was found; lives as long as the font. */
const char *text_font_family(const struct text_font *font);

#endif
