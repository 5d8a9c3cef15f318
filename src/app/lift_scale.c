/* What the lengths on the sheet are corrected by: a square that says what it is meant as, or two points. */
#include "app/lift_state.h"
#include "app/sheet_truth.h"
#include "base/words.h"

#include <math.h>

enum { MOST_SQUARES = 6, SIDES = 2 };

/* What a square may be meant as: what is written in it, else round sides near it. */
static double side_of(const struct drawing_square *square, int which)
{
    if (square->written_mm > 0)
        return which == 0 ? square->written_mm : 0;
    return square->likely_mm[which];
}

static bool holds(const struct app_lift *lift, const struct app_lift_way *way)
{
    const struct app_import *im = lift->im;
    const struct app_import_choices *c = &im->choices;
    if (c->scale == APP_IMPORT_BY_SQUARE)
        return way->scale == APP_IMPORT_BY_SQUARE && way->square == c->square && way->side_mm == c->side_mm;
    if (c->scale != APP_IMPORT_AS_FOUND)
        return way->scale == c->scale;
    if (im->found.kind == DRAWING_NO_SQUARE)
        return way->scale == APP_IMPORT_BY_POINTS;
    return way->scale == APP_IMPORT_BY_SQUARE && &im->squares[way->square] == im->found.square &&
           (way->side_mm == im->found.side_mm || im->found.side_mm == 0);
}

size_t app_lift_ways(const struct app_lift *lift, struct arena *a, const struct app_lift_way **out, size_t *now)
{
    const struct app_import *im = lift->im;
    struct app_lift_way *ways = base_arena_alloc(a, SIDES * MOST_SQUARES + 2, sizeof *ways);
    size_t count = 0;
    for (size_t i = 0; i < im->square_count && i < MOST_SQUARES; i++)
        for (int which = 0; which < SIDES; which++) {
            double side = side_of(&im->squares[i], which);
            if (side > 0)
                ways[count++] = (struct app_lift_way){ APP_IMPORT_BY_SQUARE, i, side };
        }
    ways[count++] = (struct app_lift_way){ .scale = APP_IMPORT_AS_DRAWN };
    if (im->flat.line_count)
        ways[count++] = (struct app_lift_way){ .scale = APP_IMPORT_BY_POINTS };
    *now = 0;
    for (size_t i = count; i-- > 0;)
        if (holds(lift, &ways[i]))
            *now = i;
    *out = ways;
    return count;
}

/* A square's side is told in what it was meant in. */
static enum units_length unit_of(const struct app_lift *lift, double side_mm)
{
    double inches = side_mm / UNITS_MM_PER_IN, centimetres = side_mm / 10;
    if (fabs(inches - round(inches)) < 1e-6)
        return UNITS_IN;
    return fabs(centimetres - round(centimetres)) < 1e-6 ? UNITS_CM : lift->start.unit;
}

const char *app_lift_way_text(const struct app_lift *lift, struct arena *a, const struct app_lift_way *way)
{
    if (way->scale == APP_IMPORT_AS_DRAWN)
        return base_tr("As it is drawn, nothing corrected");
    if (way->scale == APP_IMPORT_BY_POINTS)
        return base_tr("Mark two points, and type how far apart they truly are");
    const struct drawing_square *square = &lift->im->squares[way->square];
    const char *text = app_sheet_square_text(a, square, lift->start.unit);
    char side[UNITS_TEXT];
    if (!(square->written_mm > 0))
        text = base_arena_print(a, base_tr("%s, meant as %s"), text,
                                units_print_length(side, way->side_mm, unit_of(lift, way->side_mm)));
    struct drawing_truth as = drawing_judge_as(square, way->side_mm);
    if (as.kind == DRAWING_TRUE)
        return base_arena_print(a, base_tr("%s: true to scale"), text);
    /* To: “4 in square on page 1: 3.76 in: saved at 94 %, corrected” */
    return base_arena_print(a, base_tr("%s: %s, corrected"), text, app_sheet_saved_text(a, &as));
}

static struct app_lift_effects by(struct app_lift *lift)
{
    app_import_changed(lift->im, APP_IMPORT_TRUTH);
    app_lift_go(lift, APP_LIFT_CHECK);
    return app_lift_keep;
}

struct app_lift_effects app_lift_take_way(struct app_lift *lift)
{
    const struct app_lift_way *ways;
    size_t now, count = app_lift_ways(lift, lift->told_in, &ways, &now);
    const struct app_lift_way *way = &ways[lift->row < count ? lift->row : 0];
    struct app_import_choices *c = &lift->im->choices;
    if (way->scale == APP_IMPORT_BY_POINTS)
        return app_lift_go(lift, APP_LIFT_POINTS);
    c->scale = way->scale;
    c->square = way->square;
    c->side_mm = way->side_mm;
    return by(lift);
}

struct app_lift_effects app_lift_take_apart(struct app_lift *lift, double true_mm)
{
    struct app_import_choices *c = &lift->im->choices;
    const struct drawing_page *page = &lift->im->flat.pages[lift->page_in_hand];
    vec2 middle = { page->width_mm / 2, page->height_mm / 2 };
    vec2 from = vec2_add(middle, lift->marks.at[0]), to = vec2_add(middle, lift->marks.at[1]);
    struct drawing_scale scale;
    if (!drawing_scale_by_points(from, to, true_mm, &scale)) {
        app_lift_tell(lift, base_tr("That cannot be: they would be drawn more than ten times too large or too small"));
        return app_lift_redraw;
    }
    c->scale = APP_IMPORT_BY_POINTS;
    c->page = lift->page_in_hand;
    c->points[0] = from;
    c->points[1] = to;
    c->true_mm = true_mm;
    return by(lift);
}
