#include "pattern/value.h"

#include <assert.h>

struct pattern_between pattern_value_between(size_t count, double position)
{
    double last = (double)(count - 1);
    double at = position < 0 ? 0 : position > last ? last : position;
    size_t below = (size_t)at;
    return (struct pattern_between){ below, at - (double)below };
}

double pattern_value_at(struct pattern_value v, double position)
{
    assert(!v.formulas);
    if (v.count == 0)
        return 0;
    struct pattern_between at = pattern_value_between(v.count, position);
    if (at.part == 0)
        return v.mm[at.below];
    return v.mm[at.below] + at.part * (v.mm[at.below + 1] - v.mm[at.below]);
}

bool pattern_value_is_given(struct pattern_value v)
{
    return v.count > 0;
}
