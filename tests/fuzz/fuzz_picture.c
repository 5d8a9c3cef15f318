/* Any bytes as a PNG or JPEG. Seeds: written by tests/sheet_reader/picture_write.py, a block of ink on each. */
#include "fuzz/read_kind.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_read_kind(KIND_PICTURE, data, size);
    return 0;
}
