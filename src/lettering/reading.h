/* A row read: its glyphs, the letters that each may be, and where its baseline lies. Inside lettering alone. */
#ifndef LETTERING_READING_H
#define LETTERING_READING_H

#include "lettering/guess.h"
#include "lettering/rows.h"

enum { GLYPH_INKS_MOST = 6 };

/* What is one letter, dots and all. */
struct lettering_glyph {
    size_t inks[GLYPH_INKS_MOST];
    size_t ink_count;
    struct lettering_cell cell; /* of all of them */
    struct lettering_guesses guesses;
    double costs[GUESSES_MOST]; /* of each guess: how far apart, in form and in place on the row */
    size_t best;                /* the guess of the lowest cost */
};

struct lettering_reading {
    struct lettering_glyph *glyphs;
    size_t count;
    vec2 along;
    double cap, base; /* height of capitals; how far left of the origin the baseline passes */
    double cost;      /* of a glyph, on average */
};

/* Reads cells as they lie along a direction. With no glyphs there is no reading: cost is INFINITY. In `a`. */
struct lettering_reading lettering_read_line(struct arena *a, struct lettering_reader *reader,
                                             const struct lettering_ink *inks, const struct lettering_line *line,
                                             vec2 along);

#endif
