/* Points that are nudged onto an edge of the cloth once it was slid or has moved: the near edge, the one across from
 * it, or the cut end, whichever of them is left and in the light. */
#include "app/place_state.h"
#include "base/words.h"
#include "units/typed.h"

#include <math.h>

#define FROM_END_MM 30.0 /* a point on an edge stays clear of the cloth's corners and of what is cut out */
#define APART_MM 100.0   /* of points that are nudged: their tags stand side by side; our own choice */
#define FAR_SIGMA_MM 1.5 /* how well the edge across is known, by a tape from edge to edge; our own choice */
#define AS_TOLD_MM 5.0   /* the cloth may measure so much other than it is told; our own choice */

enum edge { NEAR_EDGE, FAR_EDGE, CUT_END, EDGES };

enum { ROWS = 4 /* coordinates that tell how the cloth lies and confirm it */ };

/* Whether cloth is still there about a place of an edge: no piece that is cut took it away. What is only chalked did
 * not.
 */
static bool is_whole_at(const struct app_place_cloth *cloth, struct cloth_pt at)
{
    struct arena *a = base_arena_create();
    bool whole = true;
    for (size_t i = 0; i < cloth->lay->task->item_count && whole && !cloth->chalks_all; i++) {
        if (app_place_cut_to(cloth, i) == -INFINITY)
            continue;
        struct geometry_box box = geometry_path_box(lay_outline(a, cloth->lay->task, i, &cloth->lay->places[i]).path);
        whole = at.x < box.min.x - FROM_END_MM || at.x > box.max.x + FROM_END_MM || at.y < box.min.y - FROM_END_MM ||
                at.y > box.max.y + FROM_END_MM;
    }
    base_arena_destroy(a);
    return whole;
}

/* Where the edge across is, by her tape from edge to edge; false where that says nothing of it: not measured, or of
 * another cloth. */
static bool far_edge_mm(const struct app *app, const struct app_place_cloth *cloth, double *mm)
{
    double measured[2], near = app_place_near_mm(cloth), told = app_place_far_mm(cloth) - near;
    for (int i = 0; i < 2; i++)
        if (!units_typed_length(cloth->typed[i], app->unit, &measured[i]) || fabs(measured[i] - told) > AS_TOLD_MM)
            return false;
    *mm = near + (measured[0] + measured[1]) / 2;
    return true;
}

/* How far a place on the table is from the nearest point that is nudged already. */
static double from_aims(const struct app_place_cloth *cloth, struct table_pt at)
{
    double nearest = INFINITY;
    for (int i = 0; i < cloth->aim_count; i++) {
        struct table_pt aim = cloth->aims[i].sighting.table;
        nearest = fmin(nearest, vec2_length((vec2){ aim.x - at.x, aim.y - at.y }));
    }
    return nearest;
}

/* The first place on the way that is whole, and in the light where it is expected; where that can be, so far from other
 * points that their tags are told apart. */
static bool find_place(const struct app *app, const struct app_place_cloth *cloth,
                       const struct geometry_motion *expected, vec2 from, vec2 to, struct cloth_pt *out)
{
    double length = vec2_length(vec2_sub(to, from));
    bool found = false;
    for (double far = 0; far <= length; far += FROM_END_MM) {
        vec2 at = vec2_lerp(from, to, length > 0 ? far / length : 0);
        struct table_pt lies = app_place_at(expected, (struct cloth_pt){ at.x, at.y });
        bool apart = from_aims(cloth, lies) >= APART_MM;
        if ((found && !apart) || !is_whole_at(cloth, (struct cloth_pt){ at.x, at.y }) || !app_place_is_lit(app, lies))
            continue;
        *out = (struct cloth_pt){ at.x, at.y };
        found = true;
        if (apart)
            break;
    }
    return found;
}

/* A point on an edge of what a section shows: of an edge along the cloth, as far on as may be or, `first`, as little.
 * False when there is none. */
static bool find_point(struct app *app, const struct app_place_cloth *cloth, size_t span,
                       const struct geometry_motion *expected, enum edge edge, bool first, struct spans_sighting *out)
{
    const struct spans_span *shown = &cloth->plan.spans[span];
    double y = app_place_near_mm(cloth), width = cloth->lay->task->spread.width_mm;
    vec2 begin = { fmax(shown->from_mm, 0) + FROM_END_MM, 0 };
    vec2 end = { fmin(shown->to_mm, cloth->lay->length_mm) - FROM_END_MM, 0 };
    if (edge == CUT_END) {
        y = 0;
        begin = (vec2){ 0, FROM_END_MM };
        end = (vec2){ 0, width - FROM_END_MM };
    } else if (end.x <= begin.x || (edge == FAR_EDGE && !far_edge_mm(app, cloth, &y))) {
        return false;
    }
    begin.y += y;
    end.y += y;
    *out = (struct spans_sighting){ .sign = edge == CUT_END ? SPANS_ACROSS_LINE : SPANS_ALONG_LINE,
                                    .sigma_mm = edge == FAR_EDGE ? FAR_SIGMA_MM : APP_PLACE_LINE_SIGMA_MM };
    bool found = find_place(app, cloth, expected, first ? begin : end, first ? end : begin, &out->cloth);
    if (found)
        out->table = app_place_at(expected, out->cloth);
    return found;
}

static int rows_of(const struct app_place_cloth *cloth)
{
    int rows = 0;
    for (int i = 0; i < cloth->aim_count; i++)
        rows += cloth->aims[i].sighting.sign == SPANS_MARK ? 2 : 1;
    return rows;
}

/* A point on an edge at the end that lies farther from the points there are: the turn comes from the longest line. */
static bool find_farther(struct app *app, const struct app_place_cloth *cloth, size_t span,
                         const struct geometry_motion *expected, enum edge edge, struct spans_sighting *out)
{
    struct spans_sighting first;
    if (!find_point(app, cloth, span, expected, edge, false, out))
        return false;
    if (find_point(app, cloth, span, expected, edge, true, &first) &&
        from_aims(cloth, first.table) > from_aims(cloth, out->table))
        *out = first;
    return true;
}

/* On the near edge, or the one across where that is gone: at the end that lies farthest from a section's marks and,
 * where there are too few marks, at both. Where even that confirms nothing, on the cut end. */
void app_place_aim_edges(struct app *app, struct app_place_cloth *cloth, size_t span,
                         const struct geometry_motion *expected)
{
    struct spans_sighting point;
    bool few = cloth->aim_count < 2;
    if (app_place_is_scrap(cloth))
        return;
    enum edge edge = find_point(app, cloth, span, expected, NEAR_EDGE, false, &point) ? NEAR_EDGE : FAR_EDGE;
    if (few && find_point(app, cloth, span, expected, edge, true, &point))
        app_place_aim_point(app, cloth, point);
    if (find_farther(app, cloth, span, expected, edge, &point))
        app_place_aim_point(app, cloth, point);
    if (rows_of(cloth) < ROWS && find_point(app, cloth, span, expected, CUT_END, false, &point))
        app_place_aim_point(app, cloth, point);
}

static enum edge edge_of(const struct spans_sighting *sighting)
{
    return sighting->sign == SPANS_ACROSS_LINE ? CUT_END : sighting->cloth.y > 0 ? FAR_EDGE : NEAR_EDGE;
}

bool app_place_is_far_edge(const struct spans_sighting *sighting)
{
    return sighting->sign == SPANS_ALONG_LINE && edge_of(sighting) == FAR_EDGE;
}

void app_place_other_edge(struct app *app, struct app_place_cloth *cloth)
{
    struct spans_sighting *hand = &cloth->aims[cloth->in_hand].sighting;
    struct geometry_motion expected = app_place_expected(cloth);
    size_t span = cloth->span + (cloth->stage == APP_PLACE_SLIDE);
    double y;
    if (hand->sign == SPANS_MARK) {
        app->told = base_tr("This point is a chalk mark's");
        return;
    }
    for (int i = 1; i < EDGES; i++)
        if (find_point(app, cloth, span, &expected, (enum edge)(((int)edge_of(hand) + i) % EDGES), false, hand))
            return;
    if (far_edge_mm(app, cloth, &y))
        app->told = base_tr("No other edge is left in the light");
    else if (*cloth->typed[0])
        app->told = base_tr("No other edge is in the light; the one across was measured other than the cloth is told");
    else
        app->told = base_tr("No other edge is in the light; the one across was not measured");
}
