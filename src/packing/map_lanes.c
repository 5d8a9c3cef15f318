#include "packing/map_lanes.h"

#if defined(__x86_64__)
#include <immintrin.h>
#endif

/* Parts that are asked of memory ahead of the one that is added: tables are larger than the processor's caches. */
enum { AHEAD = 4, CACHE_LINE = 64 };

static void ask_for(const struct map_part *p)
{
    size_t bytes = (p->rows - 1) * p->depth_stride + p->lanes * MAP_LANES;
    for (size_t i = 0; i < bytes; i += CACHE_LINE)
        __builtin_prefetch(p->depth + i);
}

static void add_anywhere(const struct map_part *p)
{
    for (size_t row = 0; row < p->rows; row++) {
        float *restrict cost = p->cost + row * p->stride;
        const uint8_t *restrict depth = p->depth + row * p->depth_stride;
        for (size_t i = 0; i < p->lanes * MAP_LANES; i++)
            cost[i] += p->weight * (float)depth[i];
    }
}

static size_t next_anywhere(const float *cost, size_t from, size_t columns, float most)
{
    for (size_t i = from; i < columns; i++)
        if (cost[i] < most && cost[i] <= cost[i - 1] && cost[i] <= cost[i + 1])
            return i;
    return columns;
}

/* The same, eight at a time. */
#if defined(__x86_64__)
__attribute__((target("avx2"))) static void add_wide(const struct map_part *p)
{
    __m256 weight = _mm256_set1_ps(p->weight);
    size_t columns = p->lanes * MAP_LANES, rows = p->rows, stride = p->stride, depth_stride = p->depth_stride;
    float *cost = p->cost;
    const uint8_t *depth = p->depth;
    for (size_t row = 0; row < rows; row++, cost += stride, depth += depth_stride)
        for (size_t i = 0; i < columns; i += MAP_LANES) {
            __m128i bytes = _mm_loadl_epi64((const __m128i *)(const void *)(depth + i));
            __m256 depths = _mm256_cvtepi32_ps(_mm256_cvtepu8_epi32(bytes));
            __m256 sums = _mm256_add_ps(_mm256_loadu_ps(cost + i), _mm256_mul_ps(weight, depths));
            _mm256_storeu_ps(cost + i, sums);
        }
}

__attribute__((target("avx2"))) static size_t next_wide(const float *cost, size_t from, size_t columns, float most)
{
    __m256 limit = _mm256_set1_ps(most);
    for (size_t i = from; i < columns; i += MAP_LANES) {
        __m256 here = _mm256_loadu_ps(cost + i);
        unsigned found = (unsigned)_mm256_movemask_ps(_mm256_cmp_ps(here, limit, _CMP_LT_OQ));
        if (!found)
            continue;
        __m256 beside = _mm256_min_ps(_mm256_loadu_ps(cost + i - 1), _mm256_loadu_ps(cost + i + 1));
        found &= (unsigned)_mm256_movemask_ps(_mm256_cmp_ps(here, beside, _CMP_LE_OQ));
        if (found)
            return i + (size_t)__builtin_ctz(found);
    }
    return columns;
}

static bool is_wide(void)
{
    return __builtin_cpu_supports("avx2");
}
#else
static void add_wide(const struct map_part *p)
{
    add_anywhere(p);
}

static size_t next_wide(const float *cost, size_t from, size_t columns, float most)
{
    return next_anywhere(cost, from, columns, most);
}

static bool is_wide(void)
{
    return false;
}
#endif

void map_lanes_add(const struct map_part *parts, size_t count)
{
    bool wide = is_wide();
    for (size_t i = 0; i < count; i++) {
        if (i + AHEAD < count)
            ask_for(&parts[i + AHEAD]);
        if (wide)
            add_wide(&parts[i]);
        else
            add_anywhere(&parts[i]);
    }
}

size_t map_lanes_next(const float *cost, size_t from, size_t columns, float most)
{
    return is_wide() ? next_wide(cost, from, columns, most) : next_anywhere(cost, from, columns, most);
}
