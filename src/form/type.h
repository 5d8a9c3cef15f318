/* Letters on the bench: which styles there are, and how wide a text is in one of them. Whoever draws them measures
 * them. */
#ifndef FORM_TYPE_H
#define FORM_TYPE_H

#include <stdbool.h>
#include <stddef.h>

enum form_style {
    FORM_TITLE,
    FORM_TICKET,
    FORM_WRITTEN, /* what stands in a field */
    FORM_LABEL,
    FORM_STRONG, /* a label where she is */
    FORM_SENTENCE,
    FORM_HEADING,
    FORM_NOTE,
    FORM_NOTE_STRONG,
    FORM_SMALL,
    FORM_FIGURE,
    FORM_STYLES
};

struct form_style_row {
    double size_u; /* the em */
    bool semibold;
};

const struct form_style_row *form_style(enum form_style style);

/* u from one line to the next, and from a line's middle down to its baseline: capitals of Lato are 0.7255 em high. */
double form_line_step(enum form_style style);
double form_drop(enum form_style style);

/* Measures text: how many u wide the first `bytes` bytes of it are. */
struct form_type {
    double (*width)(const void *of, enum form_style style, const char *text, size_t bytes);
    const void *of;
};

double form_width(const struct form_type *type, enum form_style style, const char *text);

#endif
