/* The letters that outlines are held against: those of the fonts that are installed. Inside lettering alone. */
#ifndef LETTERING_ALPHABET_H
#define LETTERING_ALPHABET_H

#include "base/arena.h"
#include "lettering/form.h"

/* The letter for what is like none. */
enum { LETTERING_UNKNOWN = 0 };

/* One letter as one font has it; lengths in heights of the font's capitals, up from the baseline. */
struct lettering_sort {
    int letter; /* in lettering_letter_text */
    struct lettering_form form;
    double bottom, top;
};

struct lettering_alphabet {
    const struct lettering_sort *sorts;
    size_t count;
    int letter_count;
};

/* Reads the installed fonts; without any it is empty. In `a`. */
struct lettering_alphabet lettering_alphabet_of_fonts(struct arena *a);

/* A letter as text; several of them for one that is drawn in one with its neighbour (“fi”). */
const char *lettering_letter_text(int letter);

#endif
