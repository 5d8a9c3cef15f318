#include "sizing/ease.h"

double sizing_ease_mm(const struct sizing_reason *reason)
{
    return reason->finished_mm - reason->body_mm;
}

double sizing_tighter_mm(const struct sizing_reason *reason)
{
    double tighter_mm = reason->intended_mm - sizing_ease_mm(reason);
    return reason->finished_mm > 0 && reason->has_intended && tighter_mm > SIZING_TIE_MM ? tighter_mm : 0;
}

bool sizing_is_smaller_than_body(const struct sizing_reason *reason)
{
    return reason->finished_mm > 0 && reason->has_intended && reason->intended_mm >= 0 && sizing_ease_mm(reason) < 0;
}
