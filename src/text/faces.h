/* Which open fonts are installed to know letters by: common families, each in its weights, upright and slanted. */
#ifndef TEXT_FACES_H
#define TEXT_FACES_H

#include "base/arena.h"
#include "text/font.h"

struct text_face_file {
    const char *path;
    int index;    /* of the face in the file */
    bool slanted; /* an italic or oblique face */
};

/* The outline faces of common families that are installed, family by family in one order, at most `most`; where none
 * of them is there, what fontconfig takes for sans-serif, serif and monospace. How many; paths live in `a`. */
size_t text_find_faces(struct arena *a, struct text_face_file *out, size_t most);

/* Opens one of them. The caller owns it. NULL: it cannot be read. */
struct text_font *text_font_open_face(const struct text_face_file *file);

/* Whether the font has that letter (a Unicode code point). */
bool text_font_has(const struct text_font *font, unsigned long letter);

#endif
