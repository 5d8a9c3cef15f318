/* The ease that is meant against the one that the finished garment has on the chart's body. */
#include "app/check_state.h"

#include <math.h>

static const struct err_kind ease_differs = { "check.ease_differs", ERR_WARNING,
                                              BASE_TR("“{0}” in size {1}: the finished garment less the chart is {2}, "
                                                      "but an ease of {3} is meant; one of them is wrong") };

#define SAME_EASE_MM 1.0 /* a girth is sewn no truer (our own, no source) */

static void check_one(const struct check_pattern *k, const struct pattern_finished *ease, int group, size_t size,
                      struct err_list *found)
{
    const struct pattern *p = k->p;
    double position = (double)size;
    if (!pattern_value_is_given(pattern_finished(p, ease->name, group)))
        return; /* its girth is measured on the pieces */
    double has_mm = pattern_value_at(pattern_finished(p, ease->name, group), position) -
                    pattern_value_at(pattern_drawn_for(p, ease->name, group), position);
    double meant_mm = pattern_value_at(pattern_intended_ease(p, ease->name, group), position);
    const char *where = base_arena_print(k->c->a, "%s%s", p->sizes[size], check_group_text(k, group));
    if (fabs(has_mm - meant_mm) > SAME_EASE_MM)
        base_err(found, &ease_differs, ease->place, ERR_TEXT(ease->name), ERR_TEXT(where), ERR_MM(has_mm),
                 ERR_MM(meant_mm));
}

void check_ease(struct check_pattern *k)
{
    struct err_list *found = base_err_list_create();
    for (size_t g = 0; g < k->group_count; g++)
        for (size_t i = 0; i < k->p->ease_count; i++)
            for (size_t size = 0; size < k->p->size_count; size++)
                check_one(k, &k->p->ease[i], check_group(k, g), size, found);
    check_tell_new(k->c, found, 0);
    base_err_list_destroy(found);
}
