#include "app/sheet_truth.h"

#include "app/amount.h"
#include "base/words.h"

#include <string.h>

#define ROUND_MM 1e-6

static const char *share_text(struct arena *a, double share)
{
    return base_arena_print(a, "%s %%", app_decimal(a, 100 * share, 2));
}

static bool is_round(double mm, double step_mm)
{
    return fabs(mm - round(mm / step_mm) * step_mm) <= ROUND_MM;
}

/* The unit that a side is written in: whole mm are cm, else eighths of an inch. */
static enum units_length unit_of(double side_mm, enum units_length unit)
{
    if (is_round(side_mm, 1))
        return UNITS_CM;
    return is_round(side_mm, UNITS_MM_PER_IN / 8) ? UNITS_IN : unit;
}

/* To a hundredth of a cm or inch, a tenth of a mm: never as a fraction, for these are drawn lengths that are compared.
 */
static const char *drawn_text(struct arena *a, double mm, enum units_length unit)
{
    return base_arena_print(a, "%s %s", app_decimal(a, mm / units_mm_per(unit), unit == UNITS_MM ? 1 : 2),
                            units_shown_name(unit));
}

static const char *side_text(struct arena *a, double side_mm, enum units_length unit)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, side_mm, unit_of(side_mm, unit)));
}

static bool is_even(struct drawing_scale saved)
{
    return saved.across == saved.up;
}

static const char *saved_text(struct arena *a, struct drawing_scale saved)
{
    if (is_even(saved))
        return base_arena_print(a, base_tr("saved at %s"), share_text(a, saved.across));
    return base_arena_print(a, base_tr("saved at %s across and %s up"), share_text(a, saved.across),
                            share_text(a, saved.up));
}

/* "1 % too large"; "" when it is not. */
static const char *off_text(struct arena *a, double share)
{
    if (share == 1)
        return "";
    return base_arena_print(a, share > 1 ? base_tr("%s too large") : base_tr("%s too small"),
                            share_text(a, fabs(share - 1)));
}

/* Nobody saved a scan at another scale. */
static const char *scanned_text(struct arena *a, struct drawing_scale saved)
{
    const char *across = off_text(a, saved.across), *up = off_text(a, saved.up);
    if (is_even(saved))
        return *across ? across : base_tr("true to scale");
    if (*across && *up) /* To: “1 % too large across and 2 % too small up” */
        return base_arena_print(a, base_tr("%s across and %s up"), across, up);
    return *across ? base_arena_print(a, base_tr("%s across"), across) : base_arena_print(a, base_tr("%s up"), up);
}

const char *app_sheet_saved_text(struct arena *a, const struct drawing_truth *truth)
{
    return truth->square->dot_mm > 0 ? scanned_text(a, truth->saved) : saved_text(a, truth->saved);
}

/* "this sheet was saved at 94 %", "this scan is 1 % too large". */
static const char *clause_text(struct arena *a, const struct drawing_truth *truth)
{
    /* To: “this scan is 1 % too large”, “this sheet was saved at 94 %”; behind a colon or “then” */
    return base_arena_print(a, truth->square->dot_mm > 0 ? base_tr("this scan is %s") : base_tr("this sheet was %s"),
                            app_sheet_saved_text(a, truth));
}

/* "3.76 in", or "3.88 in across and 4 in up". */
static const char *measure_text(struct arena *a, const struct drawing_square *s, double side_mm, bool even,
                                enum units_length unit)
{
    enum units_length own = side_mm > 0 ? unit_of(side_mm, unit) : unit;
    if (even)
        return drawn_text(a, (s->width_mm + s->height_mm) / 2, own);
    return base_arena_print(a, base_tr("%s across and %s up"), drawn_text(a, s->width_mm, own),
                            drawn_text(a, s->height_mm, own));
}

/* "4 in (then it was saved at 94 %)". */
static const char *likely_text(struct arena *a, const struct drawing_square *s, double side_mm, enum units_length unit)
{
    struct drawing_truth as = drawing_judge_as(s, side_mm);
    return base_arena_print(a, base_tr("%s (then %s)"), side_text(a, side_mm, unit), clause_text(a, &as));
}

static const char *ask_text(struct arena *a, const struct drawing_square *s, enum units_length unit)
{
    const char *measure = measure_text(a, s, 0, true, unit);
    if (!(s->likely_mm[1] > 0))
        return base_arena_print(
            a, base_tr("A square on page %d measures %s here. Is it meant as %s? Say what it is meant as."),
            s->page + 1, measure, likely_text(a, s, s->likely_mm[0], unit));
    return base_arena_print(a, base_tr("A square on page %d measures %s here. Is it meant as %s or as %s? Say which."),
                            s->page + 1, measure, likely_text(a, s, s->likely_mm[0], unit),
                            likely_text(a, s, s->likely_mm[1], unit));
}

const char *app_sheet_truth_text(struct arena *a, const struct drawing_truth *truth, enum units_length unit)
{
    const char *side = side_text(a, truth->side_mm, unit);
    switch (truth->kind) {
    case DRAWING_NO_SQUARE:
        return base_tr(
            "No test square was found. Mark two points on the sheet and type how far apart they truly are, or "
            "use it as it is drawn.");
    case DRAWING_ASK_SIZE:
        return ask_text(a, truth->square, unit);
    case DRAWING_TRUE:
        return base_arena_print(a,
                                truth->square->dot_mm > 0
                                    ? base_tr("The %s square is true: this scan is at true size.")
                                    : base_tr("The %s square is true: this sheet is at true size."),
                                side);
    case DRAWING_OFF:
        return base_arena_print(a, base_tr("The %s square measures %s here: %s."), side,
                                measure_text(a, truth->square, truth->side_mm, is_even(truth->saved), unit),
                                clause_text(a, truth));
    case DRAWING_DISAGREE:
        return base_arena_print(a,
                                base_tr("The test squares do not agree. By the %s square on page %d %s. Say which "
                                        "square holds."),
                                side, truth->square->page + 1, clause_text(a, truth));
    }
    return "";
}

const char *app_sheet_square_text(struct arena *a, const struct drawing_square *s, enum units_length unit)
{
    if (!(s->written_mm > 0))
        return base_arena_print(a, base_tr("square on page %d: %s"), s->page + 1, measure_text(a, s, 0, true, unit));
    bool even = is_even(drawing_judge_as(s, s->written_mm).saved);
    return base_arena_print(a, base_tr("%s square on page %d: %s"), side_text(a, s->written_mm, unit), s->page + 1,
                            measure_text(a, s, s->written_mm, even, unit));
}
