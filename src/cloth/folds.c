/* Folds on a repeat. An even repeat is its own mirror image about each of its lines and midway between two: folded
 * there, both layers match. Of those places the one nearest to where the cloth would be folded is taken.
 *
 * Folded crosswise and cut at the fold, the upper layer is turned round and begins at the cut: its lines lie on the
 * lower one's where whole repeats are cut off, and across where it is slipped sideways until they do. */
#include "cloth/folds.h"

#define LEAST_MM 1.0  /* of a layer */
#define ROUNDING 1e-9 /* of a step */

static const struct err_kind fold_along = { "cloth.fold_on_line", ERR_WARNING,
                                            BASE_TR("so that the repeat matches through both layers, fold the cloth "
                                                    "{0} from its near edge, selvedge not counted, on a "
                                                    "line or midway between two: {1} lie double") };
static const struct err_kind fold_twice = { "cloth.fold_on_lines", ERR_WARNING,
                                            BASE_TR("so that the repeat matches through both layers, fold the cloth "
                                                    "{0} from its near edge and {1} from its far one, "
                                                    "selvedges not counted, on lines or midway between two") };
static const struct err_kind fold_across = { "cloth.fold_across_on_line", ERR_WARNING,
                                             BASE_TR("so that the repeat matches through both layers, fold the cloth "
                                                     "{0} from the cut end, on a line or midway between "
                                                     "two") };
static const struct err_kind fold_past = {
    "cloth.fold_past_on_line", ERR_WARNING,
    BASE_TR("so that the repeat matches through both layers, fold the cloth on a line or midway between two, past "
            "the last piece; how far from the cut end is told with the layout")
};
static const struct err_kind cut_across = {
    "cloth.cut_at_repeats", ERR_WARNING,
    BASE_TR(
        "so that the repeat matches through both layers, cut the cloth {0} from the cut end, after whole repeats")
};
static const struct err_kind cut_past = {
    "cloth.cut_past_repeats", ERR_WARNING,
    BASE_TR("so that the repeat matches through both layers, cut the cloth past the last "
            "piece, whole repeats from the cut end: how far is told with the layout")
};
static const struct err_kind slip = { "cloth.slip_layer", ERR_WARNING,
                                      BASE_TR("so that the repeat matches through both layers, shift the upper one {0} "
                                              "towards the {1} edge of the lower one") };

static const struct err_place nowhere = { NULL, NULL, 0 };

/* Places first + k step. A step of 0: anywhere. */
struct places {
    double first, step;
};

static double last_before(struct places p, double at)
{
    return p.step > 0 ? p.first + floor((at - p.first) / p.step + ROUNDING) * p.step : at;
}

static double first_past(struct places p, double at)
{
    return p.step > 0 ? p.first + ceil((at - p.first) / p.step - ROUNDING) * p.step : at;
}

static double nearest(struct places p, double at)
{
    return p.step > 0 ? p.first + floor((at - p.first) / p.step + 0.5) * p.step : at;
}

static struct places across_of(const struct cloth_repeat *washed)
{
    return (struct places){ washed->line_across_mm, washed->across_mm / 2 };
}

/* Where it may be folded crosswise, or cut. */
static struct places along_of(const struct cloth *cloth)
{
    struct cloth_repeat r = cloth_washed_repeat(cloth);
    return cloth->one_way ? (struct places){ 0, r.along_mm } : (struct places){ r.line_along_mm, r.along_mm / 2 };
}

/* No deeper than half the cloth, or the rest would lie the other way up. */
static double depth(struct places p, double wanted, double usable)
{
    double at = nearest(p, wanted);
    if (at > usable / 2 * (1 + ROUNDING))
        at -= p.step;
    return at < LEAST_MM ? at + p.step : at;
}

/* The turned layer's lines lie at usable - line: by how much they miss the lower one's. */
static double slip_of(const struct cloth *cloth, const struct cloth_repeat *washed, double usable)
{
    double step = washed->across_mm, miss = usable - 2 * washed->line_across_mm;
    return cloth->one_way && step > 0 ? floor(miss / step + 0.5) * step - miss : 0;
}

struct cloth_folds cloth_folds_of(const struct cloth *cloth)
{
    struct cloth_repeat washed = cloth_washed_repeat(cloth);
    double usable = cloth_usable_width(cloth), length = cloth_washed_length(cloth);
    struct places across = across_of(&washed);
    switch (cloth->spread) {
    case CLOTH_SINGLE:
        break;
    case CLOTH_FOLDED:
        return (struct cloth_folds){ .at_mm = nearest(across, usable / 2) };
    case CLOTH_FOLDED_TO:
        return (struct cloth_folds){ .at_mm = depth(across, cloth->fold_depth_mm, usable) };
    case CLOTH_TO_MIDDLE: /* the selvedges may not lie over each other */
        return (struct cloth_folds){ .at_mm = fmax(last_before(across, usable / 4), 0),
                                     .next_mm = fmin(first_past(across, usable * 3 / 4), usable) };
    case CLOTH_FOLDED_ACROSS:
        return (struct cloth_folds){ .at_mm = length > 0 ? fmax(last_before(along_of(cloth), length / 2), 0) : 0,
                                     .slip_mm = slip_of(cloth, &washed, usable) };
    }
    return (struct cloth_folds){ 0 };
}

/* Where faults of a length at hand lie in the upper layer rests on where it was folded. */
static bool is_fold_fixed(const struct cloth *cloth)
{
    return cloth->repeat.along_mm > 0 && cloth->length_mm > 0 && cloth->fault_count > 0;
}

double cloth_fold_past(const struct cloth *cloth, double lies_mm)
{
    if (cloth->spread != CLOTH_FOLDED_ACROSS)
        return lies_mm;
    return is_fold_fixed(cloth) ? cloth_folds_of(cloth).at_mm : first_past(along_of(cloth), lies_mm);
}

static void tell_across(const struct cloth *cloth, const struct cloth_folds *folds, struct err_list *errs)
{
    if (is_fold_fixed(cloth))
        base_err(errs, cloth->one_way ? &cut_across : &fold_across, nowhere, ERR_TAPE_MM(folds->at_mm));
    else if (cloth->repeat.along_mm > 0)
        base_err(errs, cloth->one_way ? &cut_past : &fold_past, nowhere, ERR_NONE);
    if (folds->slip_mm != 0)
        base_err(errs, &slip, nowhere, ERR_TAPE_MM(fabs(folds->slip_mm)),
                 ERR_TEXT(folds->slip_mm > 0 ? base_tr_in("edge of the cloth", "far")
                                             : base_tr_in("edge of the cloth", "near")));
}

void cloth_tell_folds(const struct cloth *cloth, const struct cloth_folds *folds, struct err_list *errs)
{
    double usable = cloth_usable_width(cloth);
    if (cloth->spread == CLOTH_FOLDED_ACROSS)
        tell_across(cloth, folds, errs);
    else if (cloth->spread == CLOTH_SINGLE || !(cloth->repeat.across_mm > 0))
        return;
    else if (cloth->spread == CLOTH_TO_MIDDLE)
        base_err(errs, &fold_twice, nowhere, ERR_TAPE_MM(folds->at_mm), ERR_TAPE_MM(usable - folds->next_mm));
    else
        base_err(errs, &fold_along, nowhere, ERR_TAPE_MM(folds->at_mm),
                 ERR_TAPE_MM(fmin(folds->at_mm, usable - folds->at_mm)));
}
