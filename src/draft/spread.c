/* The spread for a fuller bust: three slashes from the apex and the parts between them. */
#include "draft/alter.h"
#include "geometry/turn.h"

enum part { PART_MIDDLE, PART_UPPER, PART_LOWER };

enum { MOST_TIPS = 2 };

static const struct err_kind slashes = {
    "draft.slashes", ERR_FAULT,
    BASE_TR("the slashes of piece “{0}” for a fuller bust do not follow one another as "
            "waist, side and armhole around its apex in "
            "size {1}")
};
static const struct err_kind too_full = {
    "draft.too_full", ERR_FAULT,
    BASE_TR("piece “{0}” cannot be spread by {2} in size {1}: the slash from apex to armhole is too short for it")
};

/* A dart's tip that a slash opens: it goes where its legs stay equal. */
struct tip {
    int point;
    vec2 shift;
};

struct sizer_spread {
    const struct pattern_bust_spread *written;
    vec2 apex, hinge, up, out;  /* out: square to the grain, towards the side */
    vec2 waist;                 /* the middle of the slash's ends there */
    double side_deg, hinge_deg; /* from the slash to the waist, the way that the side lies */
    bool clockwise;
    double cosine, sine; /* of the upper part's turn, from `out` to `up` */
    vec2 lower;          /* how the lower part moves */
    vec2 drop;           /* how the middle moves below the level */
    vec2 level_at, level_down;
    struct tip tips[MOST_TIPS];
    size_t tip_count;
};

static double degrees_from_waist(const struct sizer_spread *s, vec2 at)
{
    vec2 to = vec2_sub(at, s->apex), from = vec2_sub(s->waist, s->apex);
    double turn = geometry_direction(vec2_cross(from, to), vec2_dot(from, to));
    turn = s->clockwise ? -turn : turn;
    return turn < 0 ? turn + 360 : turn;
}

static enum part part_of(const struct sizer_spread *s, vec2 at, int point)
{
    if (point != PATTERN_NONE) {
        if (point == s->written->side[0])
            return PART_UPPER;
        if (point == s->written->side[1] || point == s->written->waist[0])
            return PART_LOWER;
        if (point == s->written->waist[1] || point == s->written->apex || point == s->written->hinge)
            return PART_MIDDLE;
    }
    double degrees = degrees_from_waist(s, at);
    return degrees <= 0 || degrees >= s->hinge_deg ? PART_MIDDLE : degrees < s->side_deg ? PART_LOWER : PART_UPPER;
}

static vec2 shift_of_upper(const struct sizer_spread *s, vec2 at)
{
    vec2 from = vec2_sub(at, s->hinge);
    double out = vec2_dot(from, s->out), up = vec2_dot(from, s->up);
    vec2 turned =
        vec2_add(vec2_scale(s->out, out * s->cosine - up * s->sine), vec2_scale(s->up, out * s->sine + up * s->cosine));
    return vec2_sub(turned, from);
}

static vec2 shift_with_part(const struct sizer_spread *s, vec2 at, int point)
{
    switch (part_of(s, at, point)) {
    case PART_UPPER:
        return shift_of_upper(s, at);
    case PART_LOWER:
        return s->lower;
    case PART_MIDDLE:
        break;
    }
    return vec2_dot(s->level_down, vec2_sub(at, s->level_at)) > 0 ? s->drop : (vec2){ 0, 0 };
}

vec2 sizer_spread_shift(const struct sizer_spread *s, vec2 at, int point)
{
    for (size_t i = 0; i < s->tip_count; i++)
        if (s->tips[i].point == point)
            return s->tips[i].shift;
    return shift_with_part(s, at, point);
}

static bool find_places(struct sizer *z, int piece, const struct pattern_bust_spread *w, vec2 place[6])
{
    const int points[6] = { w->apex, w->hinge, w->side[0], w->side[1], w->waist[0], w->waist[1] };
    for (int i = 0; i < 6; i++) {
        const vec2 *at = sizer_point_at(z, (struct pattern_ref){ piece, points[i] });
        if (!at)
            return false;
        place[i] = *at;
    }
    return true;
}

/* The middle comes down below the piece's lengthen line, or without one below the apex. */
static bool find_level(struct sizer *z, int piece, struct sizer_spread *s)
{
    const struct pattern_piece *p = &z->pattern->pieces[piece];
    s->level_at = s->apex;
    s->level_down = vec2_scale(s->up, -1);
    for (size_t i = 0; i < p->line_count; i++) {
        if (p->lines[i].kind != PATTERN_LINE_LENGTHEN)
            continue;
        const vec2 *at = sizer_point_at(z, (struct pattern_ref){ piece, p->lines[i].ends[0] });
        if (at)
            s->level_at = *at;
        return at != NULL;
    }
    return true;
}

/* Turns the upper part until the apex stands `amount_mm` farther out: the hinge's circle through the apex meets that
 * distance on the side of the hinge that the apex lies on. */
static bool turn_upper(struct sizer_spread *s, double amount_mm)
{
    vec2 from = vec2_sub(s->apex, s->hinge);
    double out = vec2_dot(from, s->out), up = vec2_dot(from, s->up), square = out * out + up * up;
    double to = out + amount_mm, rest = square - to * to;
    if (!(square > 0) || rest < 0)
        return false;
    double height = up < 0 ? -sqrt(rest) : sqrt(rest);
    s->cosine = (out * to + up * height) / square;
    s->sine = (out * height - up * to) / square;
    s->lower = vec2_add(vec2_scale(s->out, amount_mm), vec2_scale(s->up, height - up));
    s->drop = vec2_scale(s->up, height - up);
    return true;
}

/* The tip of a dart whose legs are a slash's two ends: as far from their middle as it was, square to their line. */
static bool add_tip(struct sizer *z, int piece, const struct pattern_dart *dart, const int legs[2],
                    struct sizer_spread *s)
{
    bool same = (dart->legs[0] == legs[0] && dart->legs[1] == legs[1]) ||
                (dart->legs[0] == legs[1] && dart->legs[1] == legs[0]);
    if (!same || s->tip_count == MOST_TIPS)
        return true;
    const vec2 *one = sizer_point_at(z, (struct pattern_ref){ piece, legs[0] });
    const vec2 *other = one ? sizer_point_at(z, (struct pattern_ref){ piece, legs[1] }) : NULL;
    const vec2 *tip = other ? sizer_point_at(z, (struct pattern_ref){ piece, dart->apex }) : NULL;
    if (!tip)
        return false;
    vec2 a = vec2_add(*one, shift_with_part(s, *one, legs[0]));
    vec2 b = vec2_add(*other, shift_with_part(s, *other, legs[1]));
    vec2 was = vec2_sub(*tip, vec2_lerp(*one, *other, 0.5)), square = vec2_right(vec2_unit(vec2_sub(b, a)));
    double length = vec2_dot(square, was) < 0 ? -vec2_length(was) : vec2_length(was);
    vec2 now = vec2_add(vec2_lerp(a, b, 0.5), vec2_scale(square, length));
    s->tips[s->tip_count++] = (struct tip){ dart->apex, vec2_sub(now, *tip) };
    return true;
}

static bool add_tips(struct sizer *z, int piece, struct sizer_spread *s)
{
    const struct pattern_piece *p = &z->pattern->pieces[piece];
    for (size_t i = 0; i < p->dart_count; i++)
        if (!add_tip(z, piece, &p->darts[i], s->written->side, s) ||
            !add_tip(z, piece, &p->darts[i], s->written->waist, s))
            return false;
    return true;
}

bool sizer_spread_bust(struct sizer *z, int piece, struct sizer_change *change)
{
    const struct pattern_piece *p = &z->pattern->pieces[piece];
    struct sizer_spread *s = base_arena_alloc(z->a, 1, sizeof *s);
    vec2 place[6];
    if (!find_places(z, piece, p->bust_spread, place))
        return false;
    vec2 side = vec2_lerp(place[2], place[3], 0.5), across = vec2_right(change->up);
    *s = (struct sizer_spread){ .written = p->bust_spread,
                                .apex = place[0],
                                .hinge = place[1],
                                .up = change->up,
                                .waist = vec2_lerp(place[4], place[5], 0.5) };
    s->out = vec2_dot(across, vec2_sub(side, s->apex)) < 0 ? vec2_scale(across, -1) : across;
    s->clockwise = vec2_cross(vec2_sub(s->waist, s->apex), vec2_sub(side, s->apex)) < 0;
    s->side_deg = degrees_from_waist(s, side);
    s->hinge_deg = degrees_from_waist(s, s->hinge);
    if (!(s->side_deg > 0 && s->side_deg < s->hinge_deg))
        return sizer_refuse(z, &slashes, p->place, p->name, ERR_NONE);
    if (!turn_upper(s, change->spread_mm))
        return sizer_refuse(z, &too_full, p->place, p->name, ERR_MM(change->spread_mm));
    if (!find_level(z, piece, s) || !add_tips(z, piece, s))
        return false;
    change->spread = s;
    return true;
}
