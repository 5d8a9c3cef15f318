/* Inside paint: eight numbers side by side, worked on together. Vector extensions of gcc and clang, which run on any
 * processor; operators work lane by lane. Lanes stay within one function of BASE_WIDE (base/wide.h), which gives them
 * the widest registers: all that takes or gives them is BASE_WITHIN. */
#ifndef PAINT_LANES_H
#define PAINT_LANES_H

#include "base/wide.h"

#include <stdint.h>
#include <string.h>

enum { PAINT_LANES = 8 };

typedef float paint_lanes __attribute__((vector_size(PAINT_LANES * sizeof(float))));
typedef int32_t paint_lanes_int __attribute__((vector_size(PAINT_LANES * sizeof(int32_t))));
typedef uint32_t paint_lanes_uint __attribute__((vector_size(PAINT_LANES * sizeof(uint32_t))));
typedef uint16_t paint_lanes_ushort __attribute__((vector_size(PAINT_LANES * sizeof(uint16_t))));
typedef int16_t paint_lanes_short __attribute__((vector_size(PAINT_LANES * sizeof(int16_t))));

/* gcc unrolls a short loop before it sees that it is one instruction. */
#if defined(__GNUC__) && !defined(__clang__)
#define PAINT_LANES_TOGETHER _Pragma("GCC unroll 1")
#else
#define PAINT_LANES_TOGETHER
#endif

static BASE_WITHIN paint_lanes paint_lanes_least(paint_lanes a, paint_lanes b)
{
    float left[PAINT_LANES], right[PAINT_LANES];
    memcpy(left, &a, sizeof left);
    memcpy(right, &b, sizeof right);
    PAINT_LANES_TOGETHER
    for (int i = 0; i < PAINT_LANES; i++)
        left[i] = left[i] < right[i] ? left[i] : right[i];
    memcpy(&a, left, sizeof left);
    return a;
}

static BASE_WITHIN paint_lanes paint_lanes_most(paint_lanes a, paint_lanes b)
{
    float left[PAINT_LANES], right[PAINT_LANES];
    memcpy(left, &a, sizeof left);
    memcpy(right, &b, sizeof right);
    PAINT_LANES_TOGETHER
    for (int i = 0; i < PAINT_LANES; i++)
        left[i] = left[i] > right[i] ? left[i] : right[i];
    memcpy(&a, left, sizeof left);
    return a;
}

/* `yes` where a comparison holds, else `no`. */
static BASE_WITHIN paint_lanes paint_lanes_pick(paint_lanes_int holds, paint_lanes yes, paint_lanes no)
{
    return (paint_lanes)((holds & (paint_lanes_int)yes) | (~holds & (paint_lanes_int)no));
}

/* Cut off towards 0; numbers are under 2^31. */
static BASE_WITHIN paint_lanes_int paint_lanes_cut(paint_lanes a)
{
    return __builtin_convertvector(a, paint_lanes_int);
}

static BASE_WITHIN paint_lanes paint_lanes_whole(paint_lanes a)
{
    return __builtin_convertvector(paint_lanes_cut(a), paint_lanes);
}

static BASE_WITHIN paint_lanes paint_lanes_of_shorts(const int16_t *numbers)
{
    paint_lanes_short some;
    memcpy(&some, numbers, sizeof some);
    return __builtin_convertvector(some, paint_lanes);
}

static BASE_WITHIN paint_lanes_int paint_lanes_of_ints(const int32_t *numbers)
{
    paint_lanes_int some;
    memcpy(&some, numbers, sizeof some);
    return some;
}

static BASE_WITHIN float paint_lanes_largest(paint_lanes a)
{
    paint_lanes b = paint_lanes_most(a, __builtin_shufflevector(a, a, 4, 5, 6, 7, 0, 1, 2, 3));
    b = paint_lanes_most(b, __builtin_shufflevector(b, b, 2, 3, 0, 1, 6, 7, 4, 5));
    return b[0] > b[1] ? b[0] : b[1];
}

#endif
