#include "app/lay_words.h"

#include "base/text.h"

#include <ctype.h>
#include <math.h>

#define CM_MM 10.0
#define EIGHTH_YD_MM (36 * UNITS_MM_PER_IN / 8)
#define ROUNDING 1e-9 /* of a mark: what reckoning may add to a length that is one */

/* The marks of a tape that lengths of cloth are told by: centimetres, or eighths of an inch. */
static double mark_mm(enum units_length unit)
{
    return unit == UNITS_IN ? UNITS_MM_PER_IN / 8 : CM_MM;
}

static const char *marks_text(struct arena *a, double marks, enum units_length unit)
{
    char text[UNITS_TEXT];
    if (unit == UNITS_IN)
        return base_arena_copy_text(a, units_print_length(text, marks * mark_mm(unit), unit));
    return base_arena_print(a, "%.2f m", marks / 100);
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
        return base_arena_print(a, "%.2f m", mm / 1000);
    int count = (int)floor(mm / EIGHTH_YD_MM + 0.5), whole = count / 8;
    const char *part = eighths[count % 8];
    const char *yards = whole || !*part ? base_arena_print(a, "%d%s", whole, *part ? " " : "") : "";
    return base_arena_print(a, "%s%s yd", yards, part);
}

const char *app_lay_because(struct arena *a, const struct cloth *cloth)
{
    if (cloth->is_washed || cloth->shrink_warp <= 0)
        return "";
    return base_arena_print(a, ", because it shrinks by %g %%", round(1000 * cloth->shrink_warp) / 10);
}

static const char *capital(struct arena *a, const char *word)
{
    char *text = base_arena_copy_text(a, word);
    text[0] = (char)toupper((unsigned char)text[0]);
    return text;
}

const char *app_lay_cloth(struct arena *a, const struct lay_task *task, enum units_length unit)
{
    const struct cloth *cloth = task->cloth;
    const char *name = cloth->name ? base_arena_print(a, " “%s”", base_text_one_line(a, cloth->name)) : "";
    const char *width = "a scrap";
    char text[UNITS_TEXT];
    if (!cloth->outline.path.count)
        width = base_arena_print(a, "%s wide", units_print_length(text, units_on_tape(cloth->width_mm, unit), unit));
    return base_arena_print(a, "%s%s, %s, %s", capital(a, pattern_cloth_name(task->material)), name, width,
                            cloth_spread_name(cloth->spread));
}

const char *app_lay_kept(const struct lay *lay, size_t item)
{
    static const char *const words[] = { [LAY_KEEPS_ALL] = NULL,
                                         [LAY_KEEPS_EITHER] = "keep one",
                                         [LAY_KEEPS_LOWER] = "keep the lower",
                                         [LAY_KEEPS_UPPER] = "keep the upper" };
    return words[lay_kept_of(lay, item)];
}

const char *app_lay_near_edge(const struct lay_task *task)
{
    const struct cloth_spread *s = &task->spread;
    if (!s->bands[0].fold_at_from)
        return "the near edge";
    return s->bands[s->band_count - 1].fold_at_to ? "the near fold" : "the fold";
}
