#include "fit/mismatch.h"

#include "fit/seam.h"

#include <math.h>

static const struct err_kind off = { "fit.mismatch", ERR_WARNING,
                                     "seam “{0}” no longer matches: its first side is {1} {2} than it should be{3}; "
                                     "what was changed on one side did not reach the other" };

static bool are_cut(const struct pattern_seam *seam, const bool *is_cut)
{
    for (int side = 0; is_cut && side < 2; side++)
        for (size_t i = 0; i < seam->sides[side].count; i++)
            if (!is_cut[seam->sides[side].edges[i].piece])
                return false;
    return true;
}

/* The worst interval, where the seam has several. */
static const char *where(struct arena *a, const struct fit_seam *m)
{
    if (m->interval_count < 2 || m->worst_interval == m->interval_count)
        return "";
    return base_arena_print(a, ", in interval %zu of %zu", m->worst_interval + 1, m->interval_count);
}

void fit_tell_mismatches(const struct draft_sized *sized, const bool *is_cut, struct err_list *errs)
{
    for (size_t s = 0; s < sized->pattern->seam_count; s++) {
        const struct pattern_seam *seam = &sized->pattern->seams[s];
        if (!are_cut(seam, is_cut) || !fit_seam_can_be_measured(sized, seam))
            continue;
        struct fit_seam m = fit_seam_measure(errs->arena, sized, seam);
        if (m.worst_mm <= FIT_SEAM_TOLERANCE_MM)
            continue;
        bool one = m.worst_interval < m.interval_count;
        double miss = one ? m.intervals[m.worst_interval].off_mm : m.off_mm;
        base_err(errs, &off, seam->place, ERR_TEXT(seam->name), ERR_OFF_MM(fabs(miss)),
                 ERR_TEXT(miss < 0 ? "shorter" : "longer"), ERR_TEXT(where(errs->arena, &m)));
    }
}
