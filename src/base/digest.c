#include "base/digest.h"

#include <string.h>

uint64_t base_digest(uint64_t before, const void *bytes, size_t count)
{
    const unsigned char *at = bytes;
    for (size_t i = 0; i < count; i++)
        before = (before ^ at[i]) * UINT64_C(0x100000001b3);
    return before;
}

uint64_t base_digest_text(const char *text)
{
    return base_digest(BASE_DIGEST_NONE, text, strlen(text));
}
