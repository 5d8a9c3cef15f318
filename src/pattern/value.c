#include "pattern/value.h"

#include <assert.h>

double pattern_value_at(struct pattern_value v, double position)
{
    assert(!v.formula);
    if (v.count == 0)
        return 0;
    double last = (double)(v.count - 1);
    double at = position < 0 ? 0 : position > last ? last : position;
    size_t below = (size_t)at;
    double part = at - (double)below;
    if (part == 0)
        return v.mm[below];
    return v.mm[below] + part * (v.mm[below + 1] - v.mm[below]);
}

bool pattern_value_is_given(struct pattern_value v)
{
    return v.count || v.formula;
}
