/* Processor time, and putting measurements in order for their median. */
#ifndef TESTS_BENCH_CLOCK_H
#define TESTS_BENCH_CLOCK_H

#include <stdlib.h>
#include <time.h>

/* Of this thread, ms. */
static inline double cpu_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

/* Of all threads, s. */
static inline double process_cpu_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

/* For qsort. */
static inline int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

#endif
