/* What the fuzz targets of foreign files share: bytes are read or not, without the jail, and what is made of them is a
 * sound result. */
#ifndef TESTS_FUZZ_READ_KIND_H
#define TESTS_FUZZ_READ_KIND_H

#include "fuzz/fuzz.h"
#include "sheet/drawn.h"
#include "sheet/sheet.h"
#include "sheet_reader/kind.h"

/* Reads the bytes where they are of that kind. */
static inline void fuzz_read_kind(enum kind kind, const uint8_t *data, size_t size)
{
    struct collect *c = collect_create(-1);
    struct sheet s;
    const char *flaw = NULL;
    size_t count = 0;
    const struct kind_orders orders = { NULL, 0 };
    if (kind_of((const char *)data, size) == kind &&
        kind_read(c, (const char *)data, size, &orders) == SHEET_EXIT_DONE) {
        void *bytes = drawn_bytes(c, &count);
        fuzz_must(bytes && sheet_validate(bytes, count, &s, &flaw));
        free(bytes);
    }
    collect_destroy(c);
}

#endif
