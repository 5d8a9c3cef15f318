#include "slide.h"

#include <math.h>

#define SLID_OFF_MM 5.0
#define SLID_OFF_DEG 0.5
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
static struct table_pt nudge_onto(vec2 from, vec2 mat, const struct slide_light *light,
                                  const struct slide_person *person, struct vt_noise *noise)
{
    vec2 seen = noisy(mat, person->eye_mm, noise);
    for (int i = 0; i < NUDGES; i++) {
        vec2 way = vec2_sub(seen, slide_falls(light, from));
        from.x += stepped(way.x, person->step_mm);
        from.y += stepped(way.y, person->step_mm);
    }
    return (struct table_pt){ from.x, from.y };
}

/* She moves the light across only, until it lies on the fold. */
static struct table_pt nudge_across(vec2 from, struct geometry_motion lies, const struct slide_light *light,
                                    const struct slide_person *person, struct vt_noise *noise)
{
    vec2 seen = noisy((vec2){ 0, 0 }, person->eye_mm, noise),
         up = moved((struct geometry_motion){ .turn_deg = lies.turn_deg }, (vec2){ 0, 1 });
    for (int i = 0; i < NUDGES; i++) {
        double off = moved_back(lies, slide_falls(light, from)).y + seen.y;
        from.y -= stepped(off / up.y, person->step_mm);
    }
    return (struct table_pt){ from.x, from.y };
}

struct slide slide_first(const struct spans_span *span, struct table_pt corner)
{
    struct geometry_motion seat = { .shift = { corner.x - span->from_mm, corner.y } };
    return (struct slide){ seat, seat };
}

/* Where a mark comes to be on the cloth: chalked at its light. */
static vec2 chalked(const struct slide *slide, struct cloth_pt mark, const struct slide_light *light,
                    const struct slide_person *person, struct vt_noise *noise)
{
    vec2 falls = slide_falls(light, moved(slide->seat, (vec2){ mark.x, mark.y }));
    return moved_back(slide->lies, noisy(falls, person->chalk_mm, noise));
}

/* The cloth slid to the next span: what was planned, and more. */
static struct geometry_motion slid(const struct slide *slide, const struct spans_span *next, struct vt_noise *noise)
{
    vec2 middle = moved(slide->seat, (vec2){ (next->from_mm + next->to_mm) / 2, 0 });
    middle.x -= next->slide_mm;
    vec2 off = noisy((vec2){ 0, 0 }, 1, noise);
    off = vec2_scale(vec2_unit(off), SLID_OFF_MM);
    struct geometry_motion to = slide->lies;
    to.shift.x -= next->slide_mm;
    return moved_on(to, middle, vt_noise_draw(noise) > 0 ? SLID_OFF_DEG : -SLID_OFF_DEG, off);
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
static void look_at(struct slide_outcome *out, const struct slide *before, const struct slide *now,
                    const struct spans_seat *seat, struct cloth_path outline, const struct slide_light *light)
{
    double most = 0, doubt = doubt_of(seat, outline);
    for (size_t i = 0; i < outline.path.count; i++) {
        vec2 c = outline.path.points[i], falls = slide_falls(light, slide_told(now, c));
        most = fmax(most, vec2_length(vec2_sub(falls, slide_meant(before, now, c))));
    }
    out->is_inside = out->is_inside && most <= doubt;
    out->off_mm = fmax(out->off_mm, most);
    out->doubt_mm = fmax(out->doubt_mm, doubt);
}

struct slide_outcome slide_on(struct slide *slide, const struct spans_cloth *cloth, const struct spans_span *next,
                              const struct slide_light *light, const struct slide_person *person,
                              struct vt_noise *noise, struct err_list *errs)
{
    struct spans_sighting s[SPANS_MARKS + 2];
    size_t count = 0;
    struct slide now = { .lies = slid(slide, next, noise), .seat = slide->seat };
    now.seat.shift.x -= next->slide_mm; /* as planned: from there she nudges */
    double sigma = sqrt(person->chalk_mm * person->chalk_mm + NUDGED_MM * NUDGED_MM);
    for (int i = 0; i < next->mark_count; i++) {
        struct cloth_pt mark = next->marks[i];
        vec2 chalk = moved(now.lies, chalked(slide, mark, light, person, noise));
        vec2 from = moved(now.seat, (vec2){ mark.x, mark.y });
        s[count++] = (struct spans_sighting){ SPANS_MARK, mark, nudge_onto(from, chalk, light, person, noise), sigma };
    }
    for (int end = 0; end < 2 && person->sights_the_fold; end++) {
        struct cloth_pt at = { end ? next->to_mm - FROM_END_MM : next->from_mm + FROM_END_MM, 0 };
        vec2 from = moved(now.seat, (vec2){ at.x, 0 });
        s[count++] = (struct spans_sighting){ SPANS_ALONG_LINE, at, nudge_across(from, now.lies, light, person, noise),
                                              NUDGED_MM };
    }
    struct spans_seat seat;
    struct slide_outcome out = { .is_told = spans_sit(s, count, &seat, errs), .is_inside = true };
    now.seat = seat.to_table;
    for (size_t i = 0; i < next->item_count && out.is_told; i++)
        look_at(&out, slide, &now, &seat, cloth->outlines[next->items[i]], light);
    *slide = now;
    return out;
}
