/* Bands and layers of each way to spread a length of cloth.
 *
 * Opened out, y runs from the near selvedge over the usable width U. Which line of it becomes y = 0 of the spread:
 *   single            the near edge
 *   folded            the middle, U / 2, is the fold; both selvedges lie at the far side. A repeat may want it beside
 *                     the middle: what then is left over is single, or, where its wrong side would be up, not used
 *   folded to depth d the near part is folded over, the fold at d; what is left over beyond it is single
 *   to the middle     folds at U / 4 and 3 U / 4; the selvedges meet in the middle
 *   folded across     the near edge; the far half of the length is folded over onto the near half
 * A repeat shifts each of those folds (folds.c); what lies between the selvedges in the middle is single, and what is
 * left past the upper half of cloth folded across is not used.
 * Right sides lie together wherever there are two layers. */
#include "cloth/folds.h"
#include "cloth/shapes.h"

#define LEAST_MM 1.0     /* of width or length, that anything may lie on */
#define ROUNDING_MM 1e-6 /* a band no wider than that is none */

static const struct err_kind no_width = {
    "cloth.no_width", ERR_FAULT,
    BASE_TR("cloth {0} wide has nothing left to cut from once {1} of selvedge is taken off "
            "on either side: measure both again")
};
static const struct err_kind deep_fold = {
    "cloth.deep_fold", ERR_FAULT,
    BASE_TR("cloth {0} wide, {1} of it to be cut from, cannot be folded to a depth of {2}: at most {3}, half of it")
};
static const struct err_kind no_depth = {
    "cloth.no_depth", ERR_FAULT, BASE_TR("cloth that is folded to a depth needs that depth: give one up to {0}")
};
static const struct err_kind folded_scrap = {
    "cloth.folded_scrap", ERR_FAULT,
    BASE_TR("a scrap cannot be laid {0}, as its edges would not meet: lay it in a "
            "single layer")
};
static const struct err_kind uneven_doubled = {
    "cloth.uneven_doubled", ERR_FAULT,
    BASE_TR("an uneven repeat does not match through two layers: lay the cloth in a single layer")
};
static const struct err_kind wide_repeat = { "cloth.wide_repeat", ERR_FAULT,
                                             BASE_TR("a repeat of {0} across is wider than the cloth, which has {1}, "
                                                     "so that one line at most lies on it: take wider "
                                                     "cloth, or leave the repeat out and match by eye") };
static const struct err_kind long_repeat = { "cloth.long_repeat", ERR_FAULT,
                                             BASE_TR("a repeat of {0} along is longer than the cloth at hand, {1}, so "
                                                     "that one line at most lies on it: take a longer "
                                                     "length, or leave the repeat out and match by eye") };
static const struct err_kind no_fold_across = {
    "cloth.no_fold_across", ERR_FAULT,
    BASE_TR(
        "a repeat of {0} along does not come to match through two layers in {1} of cloth: lay it in a single layer")
};
static const struct err_kind wide_gap = { "cloth.wide_gap", ERR_FAULT,
                                          BASE_TR(
                                              "a gap of {0} between pieces leaves no room on cloth that lies {1} wide: "
                                              "choose a smaller one") };
static const struct err_kind faults_across = { "cloth.faults_across", ERR_FAULT,
                                               BASE_TR("on cloth that is folded crosswise a fault lies over another "
                                                       "place by how long the cloth is: give its length") };

static const struct err_place nowhere = { NULL, NULL, 0 };

static bool has_width(const struct cloth *cloth, struct err_list *errs)
{
    if (cloth_usable_width(cloth) >= LEAST_MM)
        return true;
    base_err(errs, &no_width, nowhere, ERR_MM(cloth_washed_width(cloth)), ERR_MM(cloth->selvedge_mm));
    return false;
}

static void check_depth(const struct cloth *cloth, double usable, struct err_list *errs)
{
    if (cloth->spread != CLOTH_FOLDED_TO || cloth->outline.path.count) /* a scrap is not folded at all */
        return;
    if (cloth->fold_depth_mm < LEAST_MM)
        base_err(errs, &no_depth, nowhere, ERR_MM(usable / 2));
    else if (cloth->fold_depth_mm > usable / 2)
        base_err(errs, &deep_fold, nowhere, ERR_MM(cloth->width_mm), ERR_MM(usable), ERR_MM(cloth->fold_depth_mm),
                 ERR_MM(usable / 2));
}

static void check_repeat(const struct cloth *cloth, double usable, struct err_list *errs)
{
    const struct cloth_repeat washed = cloth_washed_repeat(cloth), *r = &washed;
    double length = cloth_washed_length(cloth);
    if (r->uneven && cloth->spread != CLOTH_SINGLE)
        base_err(errs, &uneven_doubled, nowhere, ERR_NONE);
    if (r->across_mm > usable)
        base_err(errs, &wide_repeat, nowhere, ERR_MM(r->across_mm), ERR_MM(usable));
    if (length > 0 && r->along_mm > length)
        base_err(errs, &long_repeat, nowhere, ERR_MM(r->along_mm), ERR_MM(length));
    else if (length > 0 && cloth->spread == CLOTH_FOLDED_ACROSS && cloth_folds_of(cloth).at_mm < LEAST_MM)
        base_err(errs, &no_fold_across, nowhere, ERR_MM(r->along_mm), ERR_MM(length));
}

static void check_rest(const struct cloth *cloth, const struct cloth_spread *s, struct err_list *errs)
{
    if (cloth->outline.path.count && cloth->spread != CLOTH_SINGLE)
        base_err(errs, &folded_scrap, nowhere, ERR_TEXT(base_tr(cloth_spread_name(cloth->spread))));
    if (cloth->gap_mm >= s->width_mm)
        base_err(errs, &wide_gap, nowhere, ERR_MM(cloth->gap_mm), ERR_MM(s->width_mm));
    if (cloth->spread == CLOTH_FOLDED_ACROSS && cloth->fault_count && !(cloth->length_mm > 0))
        base_err(errs, &faults_across, nowhere, ERR_NONE);
}

/* How the cloth lies: its bands, and its layers for what is blocked on any of them. */
struct folding {
    struct cloth_spread *out;
    struct cloth_layer layers[3];
    size_t layer_count;
    struct geometry_box all; /* the cloth opened out */
};

static void add_layer(struct folding *f, double from, double to, double turn_y, double shift_y)
{
    struct geometry_box of = { { f->all.min.x, from }, { f->all.max.x, to } };
    f->layers[f->layer_count++] = (struct cloth_layer){ of, 1, turn_y, { 0, shift_y } };
}

static void add_band(struct folding *f, struct cloth_band band)
{
    if (band.to_mm > band.from_mm + ROUNDING_MM)
        f->out->bands[f->out->band_count++] = band;
    f->out->width_mm = fmax(f->out->width_mm, band.to_mm);
}

static void single(struct folding *f, double usable)
{
    add_band(f, (struct cloth_band){ .to_mm = usable, .layers = 1 });
    /* the outline of a scrap may begin anywhere: its box is the cloth */
    add_layer(f, f->all.min.y, f->all.max.y, 1, -f->all.min.y);
    f->layers[0].shift.x = -f->all.min.x;
}

/* Up to a depth of half the width the far part lies below, its right side up, and what is left of it is single. Folded
 * beyond, what is left of the near part would lie single with its wrong side up. */
static void folded(struct folding *f, double usable, double at)
{
    double depth = fmin(at, usable - at);
    add_band(f, (struct cloth_band){ .to_mm = depth, .layers = 2, .fold_at_from = true });
    add_band(f, (struct cloth_band){ .from_mm = depth, .to_mm = usable - at, .layers = 1 });
    add_layer(f, at, usable, 1, -at);
    add_layer(f, at - depth, at, -1, at);
}

static void to_middle(struct folding *f, double usable, double near, double far)
{
    double width = far - near, flap = usable - far;
    add_band(f, (struct cloth_band){ .to_mm = near, .layers = 2, .fold_at_from = true });
    add_band(f, (struct cloth_band){ .from_mm = near, .to_mm = width - flap, .layers = 1 });
    add_band(f, (struct cloth_band){ .from_mm = width - flap, .to_mm = width, .layers = 2, .fold_at_to = true });
    add_layer(f, near, far, 1, -near);
    add_layer(f, 0, near, -1, near);
    add_layer(f, far, usable, -1, 2 * far - near);
}

/* The upper half is folded over or, of one-way cloth, cut off and turned round in the plane after that. Where it lies
 * does not matter without a length: then there are no faults. */
static void folded_across(struct folding *f, double usable, const struct cloth_folds *folds, bool is_cut)
{
    double at = folds->at_mm, slip = folds->slip_mm;
    add_band(f, (struct cloth_band){ .from_mm = fmax(slip, 0), .to_mm = usable + fmin(slip, 0), .layers = 2 });
    f->out->layers_long = 2;
    f->out->most_length_mm = at;
    if (!(at > 0))
        return;
    const struct geometry_box lower = { { 0, 0 }, { at, usable } }, upper = { { at, 0 }, { 2 * at, usable } };
    f->layers[0] = (struct cloth_layer){ lower, 1, 1, { 0, 0 } };
    f->layers[1] = is_cut ? (struct cloth_layer){ upper, 1, -1, { -at, usable + slip } }
                          : (struct cloth_layer){ upper, -1, 1, { 2 * at, 0 } };
    f->layer_count = 2;
}

static struct geometry_box opened(struct arena *a, const struct cloth *cloth, double usable)
{
    if (cloth->outline.path.count)
        return geometry_path_box(cloth_washed_path(a, cloth, cloth->outline.path));
    double length = cloth_washed_length(cloth);
    return (struct geometry_box){ { 0, 0 }, { length > 0 ? length : UNITS_FARTHEST_MM, usable } };
}

static void fold(struct folding *f, const struct cloth *cloth, double usable, const struct cloth_folds *folds)
{
    switch (cloth->spread) {
    case CLOTH_SINGLE:
        single(f, usable);
        break;
    case CLOTH_FOLDED:
    case CLOTH_FOLDED_TO:
        folded(f, usable, folds->at_mm);
        break;
    case CLOTH_TO_MIDDLE:
        to_middle(f, usable, folds->at_mm, folds->next_mm);
        break;
    case CLOTH_FOLDED_ACROSS:
        folded_across(f, usable, folds, cloth->one_way);
        break;
    }
}

/* Its lines counted as the lowest layer lies: that of a scrap begins anywhere, that of folded cloth at its fold. */
static struct cloth_repeat as_it_lies(const struct cloth *cloth, const struct folding *f,
                                      const struct cloth_folds *folds)
{
    struct cloth_repeat r = cloth_washed_repeat(cloth);
    bool from_fold = cloth->spread != CLOTH_SINGLE && cloth->spread != CLOTH_FOLDED_ACROSS;
    r.line_along_mm -= f->all.min.x;
    r.line_across_mm -= from_fold ? folds->at_mm : f->all.min.y;
    return r;
}

bool cloth_spread(struct arena *a, const struct cloth *cloth, struct cloth_spread *out, struct err_list *errs)
{
    int before = errs->faults;
    *out = (struct cloth_spread){ .layers_long = 1, .top_is_mirrored = cloth->spread != CLOTH_SINGLE };
    if (!has_width(cloth, errs))
        return false;
    double usable = cloth_usable_width(cloth);
    struct folding f = { .out = out, .all = opened(a, cloth, usable) };
    check_depth(cloth, usable, errs);
    check_repeat(cloth, usable, errs);
    if (errs->faults != before)
        return false;
    out->usable_mm = usable;
    out->most_length_mm = cloth_washed_length(cloth);
    const struct cloth_folds folds = cloth_folds_of(cloth);
    fold(&f, cloth, usable, &folds);
    out->repeat = as_it_lies(cloth, &f, &folds);
    check_rest(cloth, out, errs);
    if (errs->faults != before)
        return false;
    cloth_tell_folds(cloth, &folds, errs);
    cloth_block(a, cloth, f.all, f.layers, f.layer_count, out, errs);
    return true;
}
