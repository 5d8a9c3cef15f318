/* First placing: the cloth is laid along lines of light, or the light is brought to the cloth; then the grain. */
#include "app/amount.h"
#include "app/place_state.h"
#include "base/words.h"
#include "units/typed.h"

#include <math.h>
#include <string.h>

#define LAID_SIGMA_MM 0.5 /* how well cloth is laid along a line of light; common practice, no source */
#define TRUE_MM 2.0       /* edge to edge may differ by so much at both ends; common practice, no source */
#define NARROW_MM 5.0    /* the cloth may be narrower, without selvedges, for tapes begin at either edge of those … */
#define WIDE_MM 25.0     /* … and wider, with them, than told by so much; our own choice */
#define FROM_END_MM 30.0 /* points stay clear of corners of the cloth */

/* The part of the edge that is in the light and has cloth for certain. */
static double edge_end(const struct app_place_cloth *cloth)
{
    return fmin(app_place_reach(cloth).along_mm, cloth->lay->length_mm) - FROM_END_MM;
}

static bool aim_at_cloth(struct app *app, struct app_place_cloth *cloth)
{
    if (app_place_is_scrap(cloth))
        return app_place_aim_corners(app, cloth);
    struct geometry_motion straight = app_place_straight(cloth, 0);
    double half = fmin(app_place_reach(cloth).across_mm, cloth->lay->task->spread.width_mm) / 2;
    app_place_aim_anew(cloth);
    double near = app_place_near_mm(cloth);
    app_place_aim_line(app, cloth, &straight, SPANS_ALONG_LINE, (struct cloth_pt){ FROM_END_MM, near });
    app_place_aim_line(app, cloth, &straight, SPANS_ALONG_LINE, (struct cloth_pt){ edge_end(cloth), near });
    app_place_aim_line(app, cloth, &straight, SPANS_ACROSS_LINE, (struct cloth_pt){ 0, half });
    return true;
}

/* What the strip says of a layout that is too large for the light holds whatever is pressed. */
static bool tell_trouble(struct app *app, const struct app_place_cloth *cloth)
{
    if (cloth->trouble)
        app->told = base_tr("This layout cannot be cut here as it is: fold the cloth and arrange it anew, "
                            "hang the projector higher, or press L for pieces one by one");
    return cloth->trouble != NULL;
}

void app_place_exchange(struct app *app, struct app_place_cloth *cloth)
{
    if (tell_trouble(app, cloth))
        return;
    if (cloth->stage == APP_PLACE_LINES) {
        if (aim_at_cloth(app, cloth))
            cloth->stage = APP_PLACE_EDGE;
    } else {
        app_place_to_lines(cloth);
    }
}

void app_place_to_lines(struct app_place_cloth *cloth)
{
    cloth->stage = APP_PLACE_LINES;
    cloth->seen_count = 0;
}

/* Of cloth that the light does not reach it is told before she measures. */
void app_place_to_grain(struct app *app, struct app_place_cloth *cloth)
{
    cloth->stage = APP_PLACE_GRAIN;
    cloth->typed[0][0] = cloth->typed[1][0] = '\0';
    cloth->field = 0;
    cloth->grain_told = false;
    const char *outside = app_place_outside_text(app, cloth, app->a);
    if (*outside)
        app->told = outside;
}

/* Where the lines are is known exactly; how the cloth was laid along them is what is seen of it. */
void app_place_lies(struct app *app, struct app_place_cloth *cloth)
{
    struct spans_sighting seen[APP_PLACE_AIMS];
    if (tell_trouble(app, cloth) || !aim_at_cloth(app, cloth))
        return;
    for (int i = 0; i < cloth->aim_count; i++) {
        seen[i] = cloth->aims[i].sighting;
        seen[i].sigma_mm = fmax(seen[i].sigma_mm, LAID_SIGMA_MM);
    }
    if (app_place_sit(app, cloth, seen, cloth->aim_count))
        app_place_to_grain(app, cloth);
}

void app_place_turn(struct app *app, struct app_place_cloth *cloth)
{
    struct app_place_cloth before = *cloth;
    if (tell_trouble(app, cloth)) /* the other way was tried already */
        return;
    for (int quarters = 1; quarters < 4; quarters++)
        if (app_place_plan_in(app, cloth, before.light, (before.quarter + quarters) % 4))
            return;
    *cloth = before;
    app->told = base_tr("The cloth is wider than the light reaches the other way");
}

static const char *bias_text(struct app *app, const struct app_place_cloth *cloth, double left, double right)
{
    const char *by = app_place_amount(app, app->a, fabs(right - left));
    const char *where = app_place_end_text(app, cloth, right > left);
    if (app_place_on_fold(cloth))
        return base_arena_print(
            app->a,
            base_tr("Off the grain: %s wider %s. Open it out, pull it along the bias, fold it again "
                    "and measure again · Enter: go on all the same"),
            by, where);
    return base_arena_print(
        app->a,
        base_tr("Off the grain: %s wider %s. Smooth it, pull it along the bias, and measure again · "
                "Enter: go on all the same"),
        by, where);
}

/* How far across the cloth pieces lie, the near selvedge not counted. */
static double pieces_across(const struct app_place_cloth *cloth)
{
    struct arena *scratch = base_arena_create();
    double most = 0;
    for (size_t i = 0; i < cloth->lay->task->item_count; i++)
        if (cloth->lay->places[i].is_laid)
            most = fmax(
                most, geometry_path_box(lay_outline(scratch, cloth->lay->task, i, &cloth->lay->places[i]).path).max.y);
    base_arena_destroy(scratch);
    return most;
}

/* How wide it was measured, and which of its ends is wider where they differ. */
static const char *width_text(struct app *app, const struct app_place_cloth *cloth, double told, double is,
                              const double mm[2])
{
    const char *was = app_place_amount(app, app->a, told), *now = app_place_amount(app, app->a, is);
    double off = fabs(mm[1] - mm[0]);
    if (off <= TRUE_MM)
        return base_arena_print(app->a, base_tr("The cloth is told %s wide as it lies; this is %s"), was, now);
    /* To: “The cloth is told 700 mm wide as it lies; this is 690 mm, and 8 mm wider at your left” */
    return base_arena_print(app->a, base_tr("The cloth is told %s wide as it lies; this is %s, and %s wider %s"), was,
                            now, app_place_amount(app, app->a, off), app_place_end_text(app, cloth, mm[1] > mm[0]));
}

/* The cloth as it lies is another than the layout was made for. Where pieces have no room on it there is no going on:
 * nothing typed, which measures nothing, is how. */
static bool is_as_wide(struct app *app, struct app_place_cloth *cloth, const double mm[2])
{
    double near = app_place_near_mm(cloth), told = app_place_far_mm(cloth) - near;
    double least = fmin(mm[0], mm[1]), most = fmax(mm[0], mm[1]);
    double reach = pieces_across(cloth) - TRUE_MM; /* wherever the tape began, this much there must be */
    bool past = least < reach - fmax(near, 0);
    bool narrow = past || least < cloth->lay->task->spread.width_mm - NARROW_MM;
    bool lacks = past || (narrow && least < reach - near);
    if (!narrow && most <= told + WIDE_MM)
        return true;
    cloth->grain_told = !lacks;
    cloth->field = 0;
    app->told =
        base_arena_print(app->a, "%s. %s", width_text(app, cloth, told, narrow ? least : most, mm),
                         lacks ? base_tr("Measure again, or arrange on its true width: pieces would lie past its edge")
                               : base_tr("Measure again, or Enter: go on all the same"));
    return false;
}

static void judge(struct app *app, struct app_place_cloth *cloth, double left, double right)
{
    if (fabs(right - left) > TRUE_MM) {
        cloth->grain_told = true;
        cloth->field = 0;
        app->told = bias_text(app, cloth, left, right);
        return;
    }
    app_place_begin(app, cloth);
    app->told = base_arena_print(app->a, "%s. %s", base_tr("Within 2 mm: the grain is true"),
                                 app_place_doubt_text(app, cloth, app->a));
}

void app_place_measured(struct app *app, struct app_place_cloth *cloth)
{
    double mm[2] = { 0, 0 };
    if (app_place_is_scrap(cloth)) {
        app_place_begin(app, cloth);
        app->told = app_place_doubt_text(app, cloth, app->a);
        return;
    }
    bool nothing = !cloth->typed[0][0] && !cloth->typed[1][0];
    if (cloth->grain_told || nothing) {
        app_place_begin(app, cloth);
        app->told = app_place_doubt_text(app, cloth, app->a);
        if (nothing)
            app->told = base_arena_print(app->a, "%s. %s", base_tr("The grain is not measured"), app->told);
        return;
    }
    for (int i = 0; i <= cloth->field; i++)
        if (!units_typed_length(cloth->typed[i], app->unit, &mm[i]) || mm[i] <= 0) {
            app->told = app_no_length(app->a, cloth->typed[i],
                                      app->unit == UNITS_IN ? base_tr("That is not a length: write 28 or 28 1/4")
                                                            : base_tr("That is not a length: write 71 or 71.2"));
            cloth->field = i;
            return;
        }
    if (cloth->field++ == 0)
        return;
    cloth->field = 1;
    if (is_as_wide(app, cloth, mm))
        judge(app, cloth, mm[0], mm[1]);
}
