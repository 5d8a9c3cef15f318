/* cmocka with the headers it wants before it, and the comparisons it lacks (cmocka 1.1.5 compares only as float). */
#ifndef TESTS_SUPPORT_CMOCKA_ALL_H
#define TESTS_SUPPORT_CMOCKA_ALL_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

/* |got - want| <= tol, told with all three when not. */
#define assert_near(got, want, tol)                                                                                    \
    do {                                                                                                               \
        double near_got = (got), near_want = (want), near_tol = (tol);                                                 \
        if (!(fabs(near_got - near_want) <= near_tol))                                                                 \
            fail_msg("%s is %.17g, not %.17g within %g", #got, near_got, near_want, near_tol);                         \
    } while (0)

#endif
