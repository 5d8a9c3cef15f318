/* Any bytes as a PDF: it is read or not, without the jail, and what is made of it is a sound result. */
#include "fuzz/fuzz.h"
#include "sheet/drawn.h"
#include "sheet/sheet.h"
#include "sheet_reader/kind.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct collect *c = collect_create(-1);
    struct sheet s;
    const char *flaw = NULL;
    size_t count = 0;
    if (kind_of((const char *)data, size) == KIND_PDF &&
        kind_read(c, (const char *)data, size, NULL) == SHEET_EXIT_DONE) {
        void *bytes = drawn_bytes(c, &count);
        fuzz_must(bytes && sheet_validate(bytes, count, &s, &flaw));
        free(bytes);
    }
    collect_destroy(c);
    return 0;
}
