#include "fit/mismatch.h"

#include "fit/seam.h"

#include <math.h>

#include <string.h>

#define AS_DRAWN_MM 0.1 /* rounding of what was off before: no change worth a sentence */
#define MUCH_MM 10.0    /* less is told in millimetres, as what is off always is; more in the unit of the reader */

static const struct err_kind off = {
    "fit.mismatch", ERR_WARNING,
    BASE_TR("seam “{0}” no longer matches: its first side is {1} {2} than it should be{3}; "
            "what was changed on one side did not reach the other")
};

static const struct err_kind fuller = { "fit.fullness", ERR_WARNING,
                                        BASE_TR(
                                            "seam “{0}” goes with the width that was given: {1} are gathered to {2} "
                                            "({3} : 1)") };

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
    return base_arena_print(a, base_tr(", in interval %zu of %zu"), m->worst_interval + 1, m->interval_count);
}

/* What the seam misses as it is drawn; 0 where it cannot be measured so. */
static double miss_as_drawn(struct arena *a, const struct draft_sized *drawn, const struct pattern_seam *seam)
{
    return fit_seam_can_be_measured(drawn, seam) ? fit_seam_measure(a, drawn, seam).worst_mm : 0;
}

static const struct draft_sized *as_drawn(struct arena *a, const struct draft_sized *sized)
{
    struct draft_figure figure = draft_figure_at(sized->figure.position, sized->figure.cup_group);
    struct err_list *told = base_err_list_create();
    const struct draft_sized *drawn = draft_size(a, sized->pattern, &figure, told);
    base_err_list_destroy(told);
    return drawn;
}

static bool is_given_width(const struct draft_sized *sized, const struct pattern_piece *piece)
{
    for (size_t i = 0; i < sized->figure.alteration_count; i++) {
        const struct draft_alteration *a = &sized->figure.alterations[i];
        if (a->kind == DRAFT_WIDTH && strcmp(a->what, piece->name) == 0)
            return true;
    }
    return false;
}

/* Whether an edge of the seam is as long as the width that somebody gave a rectangle. */
static bool goes_with_width(const struct draft_sized *sized, const struct pattern_seam *seam)
{
    for (int side = 0; side < 2; side++)
        for (size_t i = 0; i < seam->sides[side].count; i++) {
            struct pattern_edge_ref ref = seam->sides[side].edges[i];
            bool across = ref.edge % 2 == 0; /* bottom and top of a rectangle */
            if (across && is_given_width(sized, &sized->pattern->pieces[ref.piece]))
                return true;
        }
    return false;
}

/* More or less fullness was meant by the width; what was to be gathered and is now too short was not. */
static bool is_fullness(const struct draft_sized *sized, const struct pattern_seam *seam, const struct fit_seam *m)
{
    const struct draft_sized_seam *of = draft_seam_at(sized, seam);
    double meant = of->ratio > 0 ? of->ratio - 1 : of->difference_mm, is = m->length_mm[0] - m->length_mm[1];
    return goes_with_width(sized, seam) && meant * is >= 0;
}

static void tell_fullness(const struct pattern_seam *seam, const struct fit_seam *m, struct err_list *errs)
{
    double more = fmax(m->length_mm[0], m->length_mm[1]), less = fmin(m->length_mm[0], m->length_mm[1]);
    char ratio[UNITS_TEXT];
    units_print_decimal(ratio, more / less, 2);
    base_err(errs, &fuller, seam->place, ERR_TEXT(seam->label), ERR_TAPE_MM(more), ERR_TAPE_MM(less),
             ERR_TEXT(base_arena_copy_text(errs->arena, ratio)));
}

static void tell_off(const struct pattern_seam *seam, const struct fit_seam *m, struct err_list *errs)
{
    bool one = m->worst_interval < m->interval_count;
    double miss = one ? m->intervals[m->worst_interval].off_mm : m->off_mm, by = fabs(miss);
    base_err(errs, &off, seam->place, ERR_TEXT(seam->label), by < MUCH_MM ? ERR_OFF_MM(by) : ERR_MM(by),
             ERR_TEXT(miss < 0 ? base_tr("shorter") : base_tr("longer")), ERR_TEXT(where(errs->arena, m)));
}

void fit_tell_mismatches(const struct draft_sized *sized, const bool *is_cut, struct err_list *errs)
{
    struct arena *a = base_arena_create();
    const struct draft_sized *drawn = as_drawn(a, sized);
    for (size_t s = 0; s < sized->pattern->seam_count; s++) {
        const struct pattern_seam *seam = &sized->pattern->seams[s];
        if (!are_cut(seam, is_cut) || !fit_seam_can_be_measured(sized, seam))
            continue;
        struct fit_seam m = fit_seam_measure(errs->arena, sized, seam);
        if (m.worst_mm <= fmax(FIT_SEAM_TOLERANCE_MM, miss_as_drawn(a, drawn, seam) + AS_DRAWN_MM))
            continue;
        if (is_fullness(sized, seam, &m))
            tell_fullness(seam, &m, errs);
        else
            tell_off(seam, &m, errs);
    }
    base_arena_destroy(a);
}
