#include "draft/figure.h"

#include <string.h>

struct draft_figure draft_figure_at(double position, int cup_group)
{
    return (struct draft_figure){ .position = position, .cup_group = cup_group };
}

bool draft_is_fitted(const struct draft_figure *figure)
{
    return figure->body_mm || figure->level_position || figure->alteration_count;
}

double draft_figure_mm(const struct pattern *pattern, const struct draft_figure *figure, int index, double position)
{
    if (figure->body_mm && figure->body_mm[index] > 0)
        return figure->body_mm[index];
    return pattern_value_at(pattern_drawn_for(pattern, pattern->figures[index], figure->cup_group), position);
}

bool draft_is_seam(const struct pattern_seam *seam, const char *name)
{
    size_t length = strlen(name);
    return seam->name && strncmp(seam->name, name, length) == 0 &&
           (!seam->name[length] || strncmp(seam->name + length, ", ", 2) == 0);
}

const char *draft_figure_text(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure)
{
    const char *size = figure->body_mm
                           ? base_tr("To the body")
                           : base_arena_print(a, base_tr("Size %s"), pattern_size_shown(a, pattern, figure->position));
    if (figure->cup_group != PATTERN_NONE)
        size = base_arena_print(a, base_tr("%s, cup %s"), size, pattern->cup_groups[figure->cup_group].name);
    if (figure->level_position)
        size = base_arena_print(a, base_tr("%s, blended"), size);
    if (figure->alteration_count)
        size = base_arena_print(a, base_tr("%s, altered"), size);
    return figure->trial ? base_arena_print(a, base_tr("%s, trial"), size) : size;
}

bool draft_edge_has_point(const struct pattern_edge *edge, int point)
{
    if (edge->start == point)
        return true;
    for (size_t s = 0; s < edge->step_count; s++) {
        if (edge->steps[s].end == point)
            return true;
        for (size_t i = 0; i < edge->steps[s].through_count; i++)
            if (edge->steps[s].through[i] == point)
                return true;
    }
    return false;
}

bool draft_edge_has_level(const struct pattern_piece *piece, int edge, int row)
{
    for (int i = 0; piece->levels && i < (int)piece->point_count; i++)
        if (piece->levels[i] == row && draft_edge_has_point(&piece->edges[edge], i))
            return true;
    return false;
}
