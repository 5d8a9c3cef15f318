/* What kind of file the bytes are, by what they hold rather than by a name, and the reader for it. */
#ifndef SHEET_READER_KIND_H
#define SHEET_READER_KIND_H

#include "sheet_reader/collect.h"

enum kind { KIND_NONE, KIND_PDF, KIND_SVG, KIND_PICTURE };

enum kind kind_of(const char *bytes, size_t count);

struct kind_orders {
    const char *password; /* UTF-8 or NULL */
    double dpi;           /* of a picture; 0: what it says */
};

/* Reads a whole file from memory. */
enum sheet_exit kind_read(struct collect *c, const char *bytes, size_t count, const struct kind_orders *orders);

#endif
