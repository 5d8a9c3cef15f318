#include "slide.h"

#include <math.h>

#define SLID_OFF_MM 5.0
#define SLID_OFF_DEG 0.5
#define PULLED_MM 30.0
#define PULLED_DEG 2.0
#define FROM_END_MM 30.0 /* of the light: there she looks at the fold */
#define NUDGED_MM 0.2    /* sigma of a nudge that the program is told (calibration/stickers.h has the same) */

enum { NUDGES = 4 };

static vec2 moved(struct geometry_motion motion, vec2 p)
{
    struct geometry_mover m = geometry_mover_of(motion);
    return geometry_move(&m, p);
}

static vec2 moved_back(struct geometry_motion motion, vec2 p)
{
    struct geometry_motion back = { .turn_deg = -motion.turn_deg };
    return moved(back, vec2_sub(p, motion.shift));
}

/* The motion followed by a turn about a place of the table and a shift. */
static struct geometry_motion moved_on(struct geometry_motion motion, vec2 about, double turn_deg, vec2 shift)
{
    struct geometry_motion turn = { .turn_deg = turn_deg };
    motion.shift = vec2_add(vec2_add(about, moved(turn, vec2_sub(motion.shift, about))), shift);
    motion.turn_deg += turn_deg;
    return motion;
}

static vec2 noisy(vec2 p, double sigma, struct vt_noise *noise)
{
    p.x += sigma * vt_noise_draw(noise);
    p.y += sigma * vt_noise_draw(noise);
    return p;
}

vec2 slide_falls(const struct slide_light *light, vec2 at)
{
    struct px_pt px;
    vec2 mat = { NAN, NAN };
    if (!light->map)
        return at;
    if (geometry_map_to_px(light->map, (struct table_pt){ at.x, at.y }, &px))
        vt_px_to_mat(light->setup, px.x, px.y, &mat.x, &mat.y);
    return mat;
}

static double stepped(double way, double step)
{
    return step > 0 ? step * round(way / step) : way;
}

/* Where the program has the light when it lies on a place of the mat, as well as she can tell. */
static struct table_pt nudge_onto(struct slide_work *w, vec2 from, vec2 mat)
{
    vec2 seen = noisy(mat, w->person.eye_mm, &w->noise);
    for (int i = 0; i < NUDGES; i++) {
        vec2 way = vec2_sub(seen, slide_falls(&w->light, from));
        from.x += stepped(way.x, w->person.step_mm);
        from.y += stepped(way.y, w->person.step_mm);
    }
    return (struct table_pt){ from.x, from.y };
}

/* She moves the light across only, until it lies on the fold. */
static struct table_pt nudge_across(struct slide_work *w, vec2 from, struct geometry_motion lies)
{
    vec2 seen = noisy((vec2){ 0, 0 }, w->person.eye_mm, &w->noise);
    double up = moved((struct geometry_motion){ .turn_deg = lies.turn_deg }, (vec2){ 0, 1 }).y;
    for (int i = 0; i < NUDGES; i++) {
        double off = moved_back(lies, slide_falls(&w->light, from)).y + seen.y;
        from.y -= stepped(off / up, w->person.step_mm);
    }
    return (struct table_pt){ from.x, from.y };
}

struct slide slide_first(const struct spans_span *span, struct table_pt corner)
{
    struct geometry_motion seat = { .shift = { corner.x - span->from_mm, corner.y } };
    return (struct slide){ seat, seat };
}

/* Where a mark comes to be on the cloth: chalked at its light. */
static vec2 chalked(struct slide_work *w, const struct slide *slide, struct cloth_pt mark)
{
    vec2 falls = slide_falls(&w->light, moved(slide->seat, (vec2){ mark.x, mark.y }));
    return moved_back(slide->lies, noisy(falls, w->person.chalk_mm, &w->noise));
}

/* Off in any direction, and turned one way or the other about the middle of the light. */
static struct geometry_motion astray(struct slide_work *w, struct geometry_motion lies, const struct spans_span *span,
                                     double off_mm, double turn_deg)
{
    vec2 middle = moved(lies, (vec2){ (span->from_mm + span->to_mm) / 2, 0 });
    vec2 off = vec2_scale(vec2_unit(noisy((vec2){ 0, 0 }, 1, &w->noise)), off_mm);
    return moved_on(lies, middle, vt_noise_draw(&w->noise) > 0 ? turn_deg : -turn_deg, off);
}

/* ---- What became of it ---- */

vec2 slide_meant(const struct slide *before, const struct slide *now, vec2 cloth)
{
    return moved(now->lies, moved_back(before->lies, moved(before->seat, cloth)));
}

vec2 slide_told(const struct slide *now, vec2 cloth)
{
    return moved(now->seat, cloth);
}

/* What is told of a piece. A place's shift by the seat's error is linear in the place, so its spread is convex, and
 * corners have the most. */
static double doubt_of(const struct spans_seat *seat, struct cloth_path outline)
{
    double most = 0;
    for (size_t i = 0; i < outline.path.count; i++)
        most = fmax(most, spans_doubt(seat, (struct cloth_pt){ outline.path.points[i].x, outline.path.points[i].y }));
    return most;
}

/* The corners are off the most. */
static void look_at(struct slide_outcome *out, const struct slide_work *w, const struct slide *before,
                    const struct slide *now, const struct spans_seat *seat, struct cloth_path outline)
{
    double most = 0, doubt = doubt_of(seat, outline);
    for (size_t i = 0; i < outline.path.count; i++) {
        vec2 c = outline.path.points[i], falls = slide_falls(&w->light, slide_told(now, c));
        most = fmax(most, vec2_length(vec2_sub(falls, slide_meant(before, now, c))));
    }
    out->pieces++;
    out->inside += most <= doubt;
    out->off_mm = fmax(out->off_mm, most);
    out->doubt_mm = fmax(out->doubt_mm, doubt);
}

/* ---- Lined up again ---- */

struct seen {
    struct spans_sighting s[SPANS_MARKS + 2];
    size_t count;
};

/* A mark that was chalked before, nudged onto now. */
static void see_mark(struct seen *seen, struct slide_work *w, const struct slide *before, const struct slide *now,
                     struct cloth_pt mark)
{
    double sigma = sqrt(w->person.chalk_mm * w->person.chalk_mm + NUDGED_MM * NUDGED_MM);
    vec2 chalk = moved(now->lies, chalked(w, before, mark)), from = moved(now->seat, (vec2){ mark.x, mark.y });
    seen->s[seen->count++] = (struct spans_sighting){ SPANS_MARK, mark, nudge_onto(w, from, chalk), sigma };
}

static void see_fold(struct seen *seen, struct slide_work *w, const struct slide *now, double along_mm)
{
    vec2 from = moved(now->seat, (vec2){ along_mm, 0 });
    seen->s[seen->count++] =
        (struct spans_sighting){ SPANS_ALONG_LINE, { along_mm, 0 }, nudge_across(w, from, now->lies), NUDGED_MM };
}

/* Sits by what was seen; *slide becomes what is so. */
static struct slide_outcome line_up(struct slide *slide, struct slide now, const struct slide_work *w,
                                    const struct seen *seen, const struct spans_span *span)
{
    struct spans_seat seat;
    struct slide_outcome out = { .is_told = spans_sit(seen->s, seen->count, &seat, w->errs) };
    now.seat = seat.to_table;
    for (size_t i = 0; i < span->item_count && out.is_told; i++)
        look_at(&out, w, slide, &now, &seat, w->cloth->outlines[span->items[i]]);
    *slide = now;
    return out;
}

struct slide_outcome slide_on(struct slide *slide, struct slide_work *work, const struct spans_span *next)
{
    struct seen seen = { .count = 0 };
    struct slide now = *slide;
    now.seat.shift.x -= next->slide_mm; /* as planned: from there she nudges */
    now.lies.shift.x -= next->slide_mm;
    now.lies = astray(work, now.lies, next, SLID_OFF_MM, SLID_OFF_DEG);
    for (int i = 0; i < next->mark_count; i++)
        see_mark(&seen, work, slide, &now, next->marks[i]);
    for (int end = 0; end < 2 && work->person.sights_the_fold; end++)
        see_fold(&seen, work, &now, end ? next->to_mm - FROM_END_MM : next->from_mm + FROM_END_MM);
    return line_up(slide, now, work, &seen, next);
}

struct slide_outcome slide_pulled(struct slide *slide, struct slide_work *work, const struct spans_span *span)
{
    struct seen seen = { .count = 0 };
    struct slide now = { .lies = astray(work, slide->lies, span, PULLED_MM, PULLED_DEG), .seat = slide->seat };
    for (int i = 0; i < span->witness_count; i++)
        see_mark(&seen, work, slide, &now, span->witnesses[i]);
    return line_up(slide, now, work, &seen, span);
}
