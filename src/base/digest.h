/* Numbers that tell bytes apart: other bytes hardly give the same. Not against someone who means to. */
#ifndef BASE_DIGEST_H
#define BASE_DIGEST_H

#include <stddef.h>
#include <stdint.h>

/* Of nothing. */
#define BASE_DIGEST_NONE UINT64_C(0xcbf29ce484222325)

/* Of what came before and these bytes behind it: FNV-1a, 64 bits (Fowler, Noll, Vo; RFC 9923). */
uint64_t base_digest(uint64_t before, const void *bytes, size_t count);

/* Of a whole text. */
uint64_t base_digest_text(const char *text);

#endif
