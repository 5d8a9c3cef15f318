/* A pattern at a size position, for tests that need no other figure. */
#ifndef TESTS_SUPPORT_AT_SIZE_H
#define TESTS_SUPPORT_AT_SIZE_H

#include "draft/draft.h"

static inline bool make_at_size(struct arena *a, const struct pattern *p, double position, int cup_group, int view,
                                struct draft *out, struct err_list *errs)
{
    struct draft_figure figure = draft_figure_at(position, cup_group);
    return draft_make(a, p, &figure, view, out, errs);
}

static inline const struct draft_sized *size_at(struct arena *a, const struct pattern *p, double position,
                                                int cup_group, struct err_list *errs)
{
    struct draft_figure figure = draft_figure_at(position, cup_group);
    return draft_size(a, p, &figure, errs);
}

#endif
