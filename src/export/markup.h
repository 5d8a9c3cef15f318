/* Text that grows piece by piece, and what XML 1.0 wants of the texts in it. */
#ifndef EXPORT_MARKUP_H
#define EXPORT_MARKUP_H

#include "base/arena.h"

/* Zero but for the arena: nothing yet. */
struct export_markup {
    struct arena *a;
    char *text; /* ended by a zero byte; NULL before anything is added */
    size_t count, cap;
};

/* printf at the end. */
void export_markup_add(struct export_markup *m, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Text for between tags or between quotes: & < > " escaped, control characters as question marks. Lives in `a`. */
const char *export_markup_escape(struct arena *a, const char *text);

#endif
