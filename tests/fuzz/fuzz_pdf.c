/* Any bytes as a PDF. */
#include "fuzz/read_kind.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_read_kind(KIND_PDF, data, size);
    return 0;
}
