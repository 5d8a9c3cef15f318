/* A fuzz target: one file with this function, which gives a room of the house any bytes at all and must() say what
 * holds whatever they are. fuzz_must does not go away in a release build, as assert does. */
#ifndef TESTS_FUZZ_FUZZ_H
#define TESTS_FUZZ_FUZZ_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

/* The entry that libFuzzer and replay.c call. Returns 0. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define fuzz_must(holds)                                                                                               \
    do {                                                                                                               \
        if (!(holds)) {                                                                                                \
            fprintf(stderr, "%s:%d: must hold: %s\n", __FILE__, __LINE__, #holds);                                     \
            abort();                                                                                                   \
        }                                                                                                              \
    } while (0)

#endif
