#include "app/lens.h"
#include "base/words.h"

#include <math.h>
#include <string.h>

#define RULER_MM 3.0 /* a usual cutting ruler */
#define HAND_MM 100.0
#define METRE_MM 1000.0

static const char *const side_names[CALIBRATION_SIDES] = { "near", "right", "far", "left" };

/* The same for a person. */
static const char *const side_words[CALIBRATION_SIDES] = { BASE_TR_IN("side of the table", "near"),
                                                           BASE_TR_IN("side of the table", "right"),
                                                           BASE_TR_IN("side of the table", "far"),
                                                           BASE_TR_IN("side of the table", "left") };

static const char *side_word(enum calibration_side side)
{
    return base_tr_in("side of the table", side_words[side]);
}

static const char *length_text(struct arena *a, double mm, enum units_length unit)
{
    char text[UNITS_TEXT];
    return base_arena_copy_text(a, units_print_length(text, mm, unit));
}

/* How far light moves at the corner where it moves most. */
static double most_moved_mm(const struct calibration_table *t, double up_mm)
{
    struct table_pt corner = calibration_farthest_corner(&t->map, &t->lens);
    return calibration_light_moves_mm(&t->lens, corner, up_mm);
}

/* How far beyond a hand over that corner its shadow lies; of a low lens, a hand half-way up. */
static double hand_mm(const struct calibration_table *t)
{
    return fmin(HAND_MM, t->lens.height_mm / 2);
}

static double hand_shadow_mm(const struct calibration_table *t)
{
    struct table_pt corner = calibration_farthest_corner(&t->map, &t->lens);
    struct table_pt shade = calibration_shadow(&t->lens, corner, hand_mm(t));
    return hypot(shade.x - corner.x, shade.y - corner.y);
}

/* Whether head and arm of someone there throw their shadows back towards her (calibration/height.h). */
static bool shadow_falls_back(const struct calibration_table *t, enum calibration_side side)
{
    return calibration_head_shadow_mm(&t->map, &t->lens, side) <= CALIBRATION_LEAN_MM;
}

/* "near or right", of the sides where shadows fall back, or of those where they do not; empty when there are none. */
static const char *side_list(struct arena *a, const struct calibration_table *t, bool back)
{
    const char *list = "";
    int left = 0;
    for (enum calibration_side s = CALIBRATION_NEAR; s < CALIBRATION_SIDES; s++)
        left += shadow_falls_back(t, s) == back;
    for (enum calibration_side s = CALIBRATION_NEAR; s < CALIBRATION_SIDES; s++) {
        if (shadow_falls_back(t, s) != back)
            continue;
        left--;
        if (!*list)
            list = side_word(s);
        else
            list = base_arena_print(a, left ? "%s, %s" : base_tr("%s or %s"), list, side_word(s));
    }
    return list;
}

static const char *stand_text(struct arena *a, const struct calibration_table *t)
{
    const char *best = side_word(calibration_best_side(&t->map, &t->lens)), *bad = side_list(a, t, false);
    if (!*bad)
        return base_arena_print(
            a,
            base_tr("From every side the shadows of head and arm fall back towards you; they cover least at the %s "
                    "side.\n"),
            best);
    return base_arena_print(
        a,
        base_tr("Stand at the %s side, best at the %s one: there the shadows of head and arm fall back "
                "towards you. At the %s side they fall on the work before you.\n"),
        side_list(a, t, true), best, bad);
}

const char *app_lens_report(struct arena *a, const struct calibration_table *t, enum units_length unit)
{
    const struct calibration_lens_place *lens = &t->lens;
    const char *text = base_arena_print(
        a,
        base_tr("The lens hangs %s above the table, over the spot %s along and %s away.\n"
                "Each mm of cloth draws a metre %s short, and puts the light up to %s off, most in the corner farthest "
                "from that spot. Say how thick the cloth is when you begin a job (--cloth), and that is made up for.\n"
                "On a ruler 3 mm thick the light lies up to %s nearer to that spot: line the ruler up with the light "
                "beside "
                "it, not with the light on it.\n"
                "Shadows fall away from that spot: that of a hand %s above the table up to %s farther out.\n"),
        length_text(a, lens->height_mm, unit), length_text(a, lens->foot.x, unit), length_text(a, lens->foot.y, unit),
        length_text(a, METRE_MM / lens->height_mm, UNITS_MM), length_text(a, most_moved_mm(t, 1), UNITS_MM),
        length_text(a, most_moved_mm(t, RULER_MM), UNITS_MM), length_text(a, hand_mm(t), unit),
        length_text(a, round(hand_shadow_mm(t)), unit));
    return base_arena_print(a, "%s%s", text, stand_text(a, t));
}

void app_lens_json(struct json_out *to, const struct calibration_table *t)
{
    json_out_number(to, "height_mm", t->lens.height_mm);
    struct json_out *foot = json_out_list(to, "foot_mm");
    json_out_number(foot, NULL, t->lens.foot.x);
    json_out_number(foot, NULL, t->lens.foot.y);
    json_out_number(to, "off_by_mm_for_each_mm_of_cloth", most_moved_mm(t, 1));
    json_out_number(to, "off_by_on_a_3_mm_ruler_mm", most_moved_mm(t, RULER_MM));
    json_out_text(to, "best_side", side_names[calibration_best_side(&t->map, &t->lens)]);
    struct json_out *shadow = json_out_object(to, "head_shadow_reaches_mm");
    for (enum calibration_side s = CALIBRATION_NEAR; s < CALIBRATION_SIDES; s++)
        json_out_number(shadow, side_names[s], calibration_head_shadow_mm(&t->map, &t->lens, s));
}

const char *app_surface_text(struct arena *a, const struct calibration_surface *surface)
{
    double raise = calibration_raise_mm(surface);
    if (raise == 0)
        return base_tr("where the table was set up");
    return base_arena_print(a, raise > 0 ? base_tr("%s above the table") : base_tr("%s below the table"),
                            length_text(a, fabs(raise), UNITS_MM));
}

const char *app_surface_warning(struct arena *a, const struct calibration_table *table,
                                const struct calibration_surface *surface)
{
    if (calibration_lens_is_known(&table->lens))
        return NULL;
    struct calibration_lens_place lens = calibration_usual_lens(&table->map);
    struct table_pt corner = calibration_farthest_corner(&table->map, &lens);
    double off = calibration_light_moves_mm(&lens, corner, calibration_raise_mm(surface));
    if (off <= APP_LEAST_HEIGHT_ERROR_MM)
        return NULL;
    /* To: “Cloth 6 mm above the table, lens not told: light about 3 mm off at the edges” */
    return base_arena_print(a, base_tr("Cloth %s, lens not told: light about %s off at the edges"),
                            app_surface_text(a, surface), length_text(a, off, UNITS_MM));
}

const char *app_surface_told(struct arena *a, const struct calibration_table *table,
                             const struct calibration_surface *surface)
{
    const char *warning = table ? app_surface_warning(a, table, surface) : NULL;
    if (warning)
        return base_arena_print(a, base_tr("%s. “chalklight lens” tells the table where its lens is."), warning);
    if (!table || !calibration_lens_is_known(&table->lens) || calibration_raise_mm(surface) == 0)
        return NULL;
    return base_arena_print(a, base_tr("Drawn true on the cloth, %s."), app_surface_text(a, surface));
}
