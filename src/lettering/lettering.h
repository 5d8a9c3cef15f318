/* Words read from the outlines of their letters: text that was drawn instead of written. Small closed shapes that stand
 * in a row are held against the letters of the fonts that are installed. It knows nothing of sheets or pieces. Lengths
 * in mm; y up. */
#ifndef LETTERING_LETTERING_H
#define LETTERING_LETTERING_H

#include "base/arena.h"
#include "geometry/path.h"

/* A shape that may be (part of) a letter: filled, or the line around one. */
struct lettering_shape {
    struct geometry_path path;
    size_t kind; /* letters of one row are of one kind: page, layer and look */
};

/* Words that are likely where a letter may be two: `is_known` gets one word, UTF-8, as it may stand there. */
struct lettering_vocabulary {
    bool (*is_known)(const char *word, void *user);
    void *user;
};

/* A row of words. */
struct lettering_row {
    const char *words; /* UTF-8 */
    vec2 at, along;    /* start of its baseline, and the way it runs, length 1 */
    double cap_mm;     /* height of its capitals */
    double length_mm;  /* along its baseline */
    bool doubtful;     /* a letter may be another one */
    size_t kind;
    const size_t *shapes; /* those that are its letters */
    size_t shape_count;
};

/* All rows that are found, at least two letters each; where there are some, figures of their kind that stand alone,
 * too. Shapes that are no letters are in none. Rows in the order of their first shapes. `vocabulary` may be NULL. How
 * many; in `a`. Where no outline font is installed nothing is read. */
size_t lettering_read(struct arena *a, const struct lettering_shape *shapes, size_t count,
                      const struct lettering_vocabulary *vocabulary, const struct lettering_row **out);

#endif
