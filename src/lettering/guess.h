/* Which letters a form may be. Inside lettering alone. */
#ifndef LETTERING_GUESS_H
#define LETTERING_GUESS_H

#include "lettering/alphabet.h"

enum { GUESSES_MOST = 8 };

struct lettering_guess {
    int letter;
    double apart;
    double bottom, top; /* of that letter, as the font has it that comes nearest; in heights of capitals */
};

/* Different letters, the nearest first; at least one. */
struct lettering_guesses {
    struct lettering_guess items[GUESSES_MOST];
    size_t count;
};

struct lettering_reader;

/* Letters that were met before are known again. In `a`, as is all that it remembers. */
struct lettering_reader *lettering_reader_create(struct arena *a, struct lettering_alphabet alphabet);

struct lettering_guesses lettering_guess(struct lettering_reader *r, const struct lettering_form *form);

#endif
