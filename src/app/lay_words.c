#include "app/lay_words.h"

#include "app/amount.h"
#include "base/text.h"
#include "base/words.h"

#include <math.h>
#include <string.h>

#define CM_MM 10.0
#define STEP_MM 100.0 /* by which shops sell that cut by the metre */
#define EIGHTH_YD_MM (36 * UNITS_MM_PER_IN / 8)
#define ROUNDING 1e-9 /* of a mark: what reckoning may add to a length that is one */

/* The marks of a tape that lengths of cloth are told by: centimetres, or eighths of an inch. */
static double mark_mm(enum units_length unit)
{
    return unit == UNITS_IN ? UNITS_MM_PER_IN / 8 : CM_MM;
}

/* Always to the centimetre: "1.60 m". */
static const char *metres_text(struct arena *a, double metres)
{
    return base_arena_print(a, "%s m", app_fixed(a, metres, 2));
}

static const char *marks_text(struct arena *a, double marks, enum units_length unit)
{
    char text[UNITS_TEXT];
    if (unit == UNITS_IN)
        return base_arena_copy_text(a, units_print_length(text, marks * mark_mm(unit), unit));
    return metres_text(a, marks / 100);
}

const char *app_lay_length(struct arena *a, double mm, enum units_length unit)
{
    return marks_text(a, ceil(mm / mark_mm(unit) - ROUNDING) + 0.0, unit); /* + 0.0: nothing is not below nothing */
}

const char *app_lay_left(struct arena *a, double mm, enum units_length unit)
{
    return marks_text(a, floor(mm / mark_mm(unit) + ROUNDING), unit);
}

const char *app_lay_off(struct arena *a, double mm)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, mm < 1 ? mm : round(mm), UNITS_MM));
}

const char *app_lay_to_buy(struct arena *a, double mm, enum units_length unit)
{
    static const char *const eighths[] = { "", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8" };
    if (unit != UNITS_IN)
        return metres_text(a, mm / 1000);
    int count = (int)floor(mm / EIGHTH_YD_MM + 0.5), whole = count / 8;
    const char *part = eighths[count % 8];
    const char *yards = whole || !*part ? base_arena_print(a, "%d%s", whole, *part ? " " : "") : "";
    if (strcmp(base_words_language(), "de") == 0) /* no shop there sells by the yard */
        return base_arena_print(a, "%s%s yd (%s)", yards, part,
                                metres_text(a, ceil(mm / STEP_MM - ROUNDING) * STEP_MM / 1000));
    return base_arena_print(a, "%s%s yd", yards, part);
}

const char *app_lay_buy(struct arena *a, const struct cloth *cloth, double mm, enum units_length unit)
{
    const char *length = app_lay_to_buy(a, mm, unit);
    if (cloth->is_washed || cloth->shrink_warp <= 0)
        return base_arena_print(a, base_tr("Buy %s."), length);
    return base_arena_print(a, base_tr("Buy %s, because it shrinks by %s %%."), length,
                            app_decimal(a, 100 * cloth->shrink_warp, 1));
}

const char *app_lay_cloth(struct arena *a, const struct lay_task *task, enum units_length unit)
{
    const struct cloth *cloth = task->cloth;
    const char *name = cloth->name ? base_arena_print(a, base_tr(" “%s”"), base_text_one_line(a, cloth->name)) : "";
    const char *width = base_tr("a scrap");
    char text[UNITS_TEXT];
    if (!cloth->outline.path.count)
        width = base_arena_print(a, base_tr("%s wide"),
                                 units_print_length(text, units_on_tape(cloth->width_mm, unit), unit));
    return base_arena_print(a, "%s%s, %s, %s", base_text_capital(a, base_tr(pattern_cloth_name(task->material))), name,
                            width, base_tr(cloth_spread_name(cloth->spread)));
}

const char *app_lay_near_edge(const struct lay_task *task)
{
    const struct cloth_spread *s = &task->spread;
    if (!s->bands[0].fold_at_from)
        return base_tr_in("measured from", "the near edge");
    return s->bands[s->band_count - 1].fold_at_to ? base_tr_in("measured from", "the near fold")
                                                  : base_tr_in("measured from", "the fold");
}
