/* Any bytes as an SVG drawing. */
#include "fuzz/read_kind.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_read_kind(KIND_SVG, data, size);
    return 0;
}
