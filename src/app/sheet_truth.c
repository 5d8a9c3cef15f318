#include "app/sheet_truth.h"
#include "base/words.h"

#include <string.h>

#define ROUND_MM 1e-6

/* Up to so many decimals, without zeros at the end. */
static const char *number_text(struct arena *a, double value, int decimals)
{
    char *text = base_arena_print(a, "%.*f", decimals, value), *end = text + strlen(text);
    while (decimals && end[-1] == '0')
        *--end = '\0';
    if (end[-1] == '.')
        end[-1] = '\0';
    return text;
}

static const char *share_text(struct arena *a, double share)
{
    return base_arena_print(a, "%s %%", number_text(a, 100 * share, 2));
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
    return base_arena_print(a, "%s %s", number_text(a, mm / units_mm_per(unit), unit == UNITS_MM ? 1 : 2),
                            units_name(unit));
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
    return base_arena_print(a, base_tr("saved at %s across and %s up"), share_text(a, saved.across), share_text(a, saved.up));
}

/* "1 % too large"; "" when it is not. */
static const char *off_text(struct arena *a, double share)
{
    if (share == 1)
        return "";
    return base_arena_print(a, base_tr("%s too %s"), share_text(a, fabs(share - 1)), share > 1 ? base_tr("large") : base_tr("small"));
}

/* Nobody saved a scan at another scale. */
static const char *scanned_text(struct arena *a, struct drawing_scale saved)
{
    const char *across = off_text(a, saved.across), *up = off_text(a, saved.up);
    if (is_even(saved))
        return *across ? across : base_tr("true to scale");
    return base_arena_print(a, "%s%s%s%s%s", across, *across ? base_tr(" across") : "", *across && *up ? base_tr(" and ") : "", up,
                            *up ? base_tr(" up") : "");
}

const char *app_sheet_saved_text(struct arena *a, const struct drawing_truth *truth)
{
    return truth->square->dot_mm > 0 ? scanned_text(a, truth->saved) : saved_text(a, truth->saved);
}

/* What the words of its scale go on from. */
static const char *subject_of(const struct drawing_square *s)
{
    return s->dot_mm > 0 ? base_tr("scan is") : base_tr("sheet was");
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
    return base_arena_print(a, base_tr("%s (then this %s %s)"), side_text(a, side_mm, unit), subject_of(s),
                            app_sheet_saved_text(a, &as));
}

static const char *ask_text(struct arena *a, const struct drawing_square *s, enum units_length unit)
{
    const char *measure = measure_text(a, s, 0, true, unit);
    if (!(s->likely_mm[1] > 0))
        return base_arena_print(a, base_tr("A square on page %d measures %s here. Is it meant as %s? Say what it is meant as."),
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
        return base_tr("No test square was found. Mark two points on the sheet and type how far apart they truly are, or use "
               "it "
               "as it is drawn.");
    case DRAWING_ASK_SIZE:
        return ask_text(a, truth->square, unit);
    case DRAWING_TRUE:
        return base_arena_print(a, base_tr("The %s square is true: this %s at true size."), side,
                                truth->square->dot_mm > 0 ? base_tr("scan is") : base_tr("sheet is"));
    case DRAWING_OFF:
        return base_arena_print(a, base_tr("The %s square measures %s here: this %s %s."), side,
                                measure_text(a, truth->square, truth->side_mm, is_even(truth->saved), unit),
                                subject_of(truth->square), app_sheet_saved_text(a, truth));
    case DRAWING_DISAGREE:
        return base_arena_print(a,
                                base_tr("The test squares do not agree. By the %s square on page %d this %s %s. Say "
                                "which square holds."),
                                side, truth->square->page + 1, subject_of(truth->square),
                                app_sheet_saved_text(a, truth));
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
