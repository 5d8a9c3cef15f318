/* Loops that do the same to many numbers, for the processor's widest registers.
 *
 * BASE_WIDE before a function: it is compiled twice, for any processor and for those with AVX2, and the loader takes
 * the one that fits. Both give the same bits: sums and products are rounded one by one (-ffp-contract=off). What such a
 * function calls is compiled with it only if it is BASE_WITHIN. */
#ifndef BASE_WIDE_H
#define BASE_WIDE_H

#if defined(__GNUC__)
#define BASE_WITHIN inline __attribute__((always_inline))
#else
#define BASE_WITHIN inline
#endif

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__linux__) && defined(__OPTIMIZE__) &&  \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define BASE_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define BASE_WIDE
#endif

#endif
