/* Random numbers of a seed, the same on every machine: Steele, Lea, Flood, "Fast splittable pseudorandom number
 * generators" (2014), SplitMix64. */
#ifndef PACKING_RANDOM_H
#define PACKING_RANDOM_H

#include <stddef.h>
#include <stdint.h>

static inline uint64_t random_next(uint64_t *state)
{
    uint64_t z = *state += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

/* 0 to 1, without 1. */
static inline double random_share(uint64_t *state)
{
    return (double)(random_next(state) >> 11) * 0x1p-53;
}

/* 0 to count - 1. */
static inline size_t random_below(uint64_t *state, size_t count)
{
    return (size_t)(random_next(state) % count);
}

/* Numbers into random order. */
static inline void random_shuffle(uint64_t *state, size_t *numbers, size_t count)
{
    for (size_t i = count; i > 1; i--) {
        size_t k = random_below(state, i), keep = numbers[i - 1];
        numbers[i - 1] = numbers[k];
        numbers[k] = keep;
    }
}

#endif
