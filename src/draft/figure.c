#include "draft/figure.h"

struct draft_figure draft_figure_at(double position, int cup_group)
{
    return (struct draft_figure){ .position = position, .cup_group = cup_group };
}

double draft_figure_mm(const struct pattern *pattern, const struct draft_figure *figure, int index, double position)
{
    if (figure->body_mm && figure->body_mm[index] > 0)
        return figure->body_mm[index];
    return pattern_value_at(pattern_drawn_for(pattern, pattern->figures[index], figure->cup_group), position);
}
