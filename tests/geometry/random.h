/* Numbers that look random and are the same on every run: the splitmix64 sequence (G. Steele, D. Lea and C. Flood, Fast
 * Splittable Pseudorandom Number Generators, 2014). */
#ifndef TESTS_GEOMETRY_RANDOM_H
#define TESTS_GEOMETRY_RANDOM_H

#include <stdint.h>

/* The next number between low and high; `seed` moves on. */
static inline double random_between(uint64_t *seed, double low, double high)
{
    uint64_t z = *seed += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    z ^= z >> 31;
    return low + (high - low) * ((double)(z >> 11) / 9007199254740992.0); /* 2^53 */
}

#endif
