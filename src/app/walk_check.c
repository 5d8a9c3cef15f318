/* The table is put to the test before it is saved: lines of light measured with a tape, against what they may be off.
 */
#include "app/amount.h"
#include "app/walk_state.h"
#include "base/words.h"
#include "scene/page.h"
#include "units/typed.h"

#include <math.h>
#include <string.h>

#define LIGHT_SHARE 0.97 /* of the largest rectangle in the light: ends stay clear of its edge */
#define WITHIN_95 1.96
#define FAR_OFF 0.15 /* a print "fitted to the page" is off by up to a tenth (common practice) */
#define STEP_MM 0.5  /* a presenter's press */

static const struct app_walk_effects redraw = { .redraw = true };

static const char *const names[APP_WALK_LINES] = { BASE_TR("the long side"), BASE_TR("one diagonal"),
                                                   BASE_TR("the other diagonal"), BASE_TR("the short line") };

const char *app_walk_line_name(int line)
{
    return base_tr(names[line]);
}

/* A round length at most that long: whole 50 mm, or whole 2 in. */
static double round_length(const struct app_walk *w, double mm)
{
    double step = w->start.unit == UNITS_IN ? 2 * UNITS_MM_PER_IN : 50;
    return fmax(floor(mm / step), 1) * step;
}

/* The line's ends on the table and, by the map, in the frame. False when an end lies outside the light. */
static bool set_line(struct app_walk *w, int line, vec2 from, vec2 to)
{
    struct app_walk_line *l = &w->lines[line];
    const struct calibration_solution *s = &w->solution;
    l->drawn_mm = vec2_length(vec2_sub(to, from));
    l->measured = false;
    l->from = from;
    l->to = to;
    if (!geometry_map_to_px(&s->map, (struct table_pt){ from.x, from.y }, &l->ends[0]) ||
        !geometry_map_to_px(&s->map, (struct table_pt){ to.x, to.y }, &l->ends[1]))
        return false;
    double light = calibration_doubt_line_mm(&s->map, &s->doubt, l->ends[0], l->ends[1]);
    l->may_be_off_mm = hypot(light, WITHIN_95 * CALIBRATION_TAPE_SIGMA_MM);
    return true;
}

struct app_walk_effects app_walk_begin_check(struct app_walk *w)
{
    struct geometry_box light = scene_light_box(&w->solution.map);
    vec2 middle = vec2_lerp(light.min, light.max, 0.5);
    double across = round_length(w, LIGHT_SHARE * (light.max.x - light.min.x)) / 2;
    double up = round_length(w, LIGHT_SHARE * (light.max.y - light.min.y)) / 2;
    double half = (w->start.unit == UNITS_IN ? 4 * UNITS_MM_PER_IN : 100) / 2;
    const vec2 ends[APP_WALK_LINES][2] = { { { -across, -up }, { across, -up } },
                                           { { -across, -up }, { across, up } },
                                           { { across, -up }, { -across, up } },
                                           { { -half, 0 }, { half, 0 } } };
    bool lit = true;
    for (int i = 0; i < APP_WALK_LINES; i++)
        lit = set_line(w, i, vec2_add(middle, ends[i][0]), vec2_add(middle, ends[i][1])) && lit;
    app_walk_show_line(w, 0);
    w->page = APP_WALK_CHECK;
    return lit ? redraw : app_walk_show_checked(w);
}

void app_walk_show_line(struct app_walk *w, int line)
{
    w->line = line;
    w->field = 0;
    memset(w->typed, 0, sizeof w->typed);
    w->refusal = NULL;
    w->adjusted_mm = 0;
}

static struct app_walk_effects next_line(struct app_walk *w)
{
    if (w->line + 1 < APP_WALK_LINES)
        app_walk_show_line(w, w->line + 1);
    else
        app_walk_show_checked(w);
    return redraw;
}

struct app_walk_effects app_walk_measured(struct app_walk *w)
{
    struct app_walk_line *l = &w->lines[w->line];
    double mm = l->drawn_mm + w->adjusted_mm;
    if (w->presenter ? !w->touched : !w->typed[0][0])
        return next_line(w); /* not measured */
    if (!w->presenter && !units_typed_length(w->typed[0], w->start.unit, &mm)) {
        w->refusal = app_no_length(w->said, w->typed[0], base_tr("That is not a length: write 135.2 or 53 1/4"));
        return redraw;
    }
    if (!(fabs(mm - l->drawn_mm) < FAR_OFF * l->drawn_mm)) {
        w->refusal = base_tr("That is another length by far: read it again, its unit too");
        return redraw;
    }
    l->read_mm = mm;
    l->measured = true;
    w->touched = false;
    return next_line(w);
}

struct app_walk_effects app_walk_adjust(struct app_walk *w, double steps)
{
    w->adjusted_mm += w->touched ? steps * STEP_MM : 0; /* the first press only shows the length */
    w->touched = true;
    return redraw;
}

/* The readings and, as distances, the lines that were measured. */
static struct calibration_readings with_lines(const struct app_walk *w, struct arena *a)
{
    struct calibration_readings r = app_walk_readings(w, a), all = r;
    int number = app_walk_new_number(w);
    all.items = base_arena_alloc(a, r.count + APP_WALK_LINES, sizeof *all.items);
    for (size_t i = 0; i < r.count; i++)
        all.items[i] = r.items[i];
    for (int i = 0; i < APP_WALK_LINES; i++)
        if (w->lines[i].measured)
            all.items[all.count++] = (struct calibration_reading){ .kind = CALIBRATION_DISTANCE,
                                                                   .cross = number + 2 * i,
                                                                   .px = w->lines[i].ends[0],
                                                                   .other = number + 2 * i + 1,
                                                                   .other_px = w->lines[i].ends[1],
                                                                   .distance_mm = w->lines[i].read_mm };
    return all;
}

struct app_walk_effects app_walk_show_checked(struct app_walk *w)
{
    struct arena *scratch = base_arena_create();
    struct calibration_readings all = with_lines(w, scratch);
    w->page = APP_WALK_CHECKED;
    w->scale_is_off = !w->follows && !w->by_tape &&
                      calibration_matscale(scratch, &all, CALIBRATION_LENS_WEAK, &w->scale) &&
                      calibration_matscale_is_off(&w->scale);
    base_arena_destroy(scratch);
    return redraw;
}

/* The lines stay where they are in the picture; how long they are drawn is said anew. */
struct app_walk_effects app_walk_follow_tape(struct app_walk *w)
{
    if (!w->scale_is_off)
        return redraw;
    w->follows = true;
    w->scale_is_off = false;
    app_walk_solve(w);
    for (int i = 0; i < APP_WALK_LINES && w->solved; i++) {
        struct table_pt a = geometry_map_to_table(&w->solution.map, w->lines[i].ends[0]);
        struct table_pt b = geometry_map_to_table(&w->solution.map, w->lines[i].ends[1]);
        w->lines[i].drawn_mm = hypot(a.x - b.x, a.y - b.y);
    }
    return redraw;
}

bool app_walk_line_is_true(const struct app_walk_line *line)
{
    return fabs(line->read_mm - line->drawn_mm) <= line->may_be_off_mm;
}
