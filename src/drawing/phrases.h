/* What stands written in one row, put together again: files have it word by word or letter by letter, some twice over
 * each other for bold. Nothing here knows what words mean. */
#ifndef DRAWING_PHRASES_H
#define DRAWING_PHRASES_H

#include "drawing/drawing.h"

struct drawing_phrase {
    const char *words;       /* UTF-8 */
    vec2 along;              /* the way it runs, length 1 */
    double size_mm;          /* of its font */
    double length_mm;        /* along its baseline */
    struct geometry_box box; /* of its letters without what hangs below the baseline, mm on its page */
    int page, layer;         /* layer of its first run */
    bool doubtful;           /* one of its letters may be another */
    size_t first_text;       /* the run that it begins with, in the drawing's texts */
};

/* All rows of a drawing, page after page. How many; in `a`. */
size_t drawing_phrases(struct arena *a, const struct drawing *d, const struct drawing_phrase **out);

/* The same of some of its texts, by their indices. */
size_t drawing_phrases_of(struct arena *a, const struct drawing *d, const size_t *texts, size_t count,
                          const struct drawing_phrase **out);

#endif
