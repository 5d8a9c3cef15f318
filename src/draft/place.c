/* Where a point lies: the constructions of plane geometry. */
#include "draft/sizer.h"
#include "geometry/turn.h"

#define SAME_MM 1e-9     /* two places this near tell no direction */
#define PARALLEL 1e-9    /* sine of an angle too flat for a meeting */
#define OFF_EDGE_MM 0.05 /* past an edge's end by rounding */

static const struct err_kind no_way = {
    "draft.no_way", ERR_FAULT,
    BASE_TR("point “{0}” needs a direction, but in size {1} the two points that tell it are "
            "one place")
};
static const struct err_kind off_edge = { "draft.point_off_edge", ERR_FAULT,
                                          BASE_TR(
                                              "point “{0}” lies off its edge in size {1}, where the edge is {2} long; "
                                              "change how far along it lies, or lengthen the edge") };
static const struct err_kind parallel = { "draft.no_meeting", ERR_FAULT,
                                          BASE_TR("point “{0}” is where two lines meet, but in size {1} they do not") };
static const struct err_kind no_crossing = {
    "draft.no_crossing", ERR_FAULT, BASE_TR("point “{0}” is where an edge meets a line, but in size {1} they do not")
};
static const struct err_kind no_side = {
    "draft.no_side", ERR_FAULT, BASE_TR("point “{0}” lies beside its edge, but in size {1} that edge has no length")
};
static const struct err_kind far_away = {
    "draft.far_away", ERR_FAULT,
    BASE_TR("point “{0}” comes to lie more than 100 m from the origin in size {1}; check "
            "what it is built from")
};
static const struct err_kind too_far = {
    "draft.out_of_reach", ERR_FAULT, BASE_TR("point “{0}” is {2} away from its line in size {1}, more than it reaches")
};

/* A point under construction. */
struct building {
    struct sizer *z;
    const struct pattern_point *point;
    vec2 of[4];  /* where the points it rests on lie */
    double v[2]; /* what its values come to */
};

static bool refuse(const struct building *b, const struct err_kind *kind, struct err_arg part)
{
    return sizer_refuse(b->z, kind, b->point->place, b->point->name, part);
}

static bool direction(const struct building *b, int from, int to, vec2 *unit)
{
    vec2 way = vec2_sub(b->of[to], b->of[from]);
    *unit = vec2_unit(way);
    return vec2_length(way) > SAME_MM || refuse(b, &no_way, ERR_NONE);
}

static bool build_at(const struct building *b, vec2 *out)
{
    *out = (vec2){ b->v[0], b->v[1] };
    return true;
}

static bool build_by(const struct building *b, vec2 *out)
{
    *out = vec2_add(b->of[0], (vec2){ b->v[0], b->v[1] });
    return true;
}

static bool build_polar(const struct building *b, vec2 *out)
{
    double sine, cosine;
    geometry_sincos(b->v[0], &sine, &cosine);
    *out = vec2_add(b->of[0], vec2_scale((vec2){ cosine, sine }, b->v[1]));
    return true;
}

static bool build_towards(const struct building *b, vec2 *out)
{
    vec2 unit;
    if (!direction(b, 0, 1, &unit))
        return false;
    *out = vec2_add(b->of[0], vec2_scale(unit, b->v[0]));
    return true;
}

static bool build_share(const struct building *b, vec2 *out)
{
    *out = vec2_lerp(b->of[0], b->of[1], b->v[0]);
    return true;
}

static bool build_on(const struct building *b, vec2 *out)
{
    const struct sizer_edge *edge = sizer_edge_of(b->z, b->point->of[0]);
    if (!edge || !sizer_spend(b->z, edge->path.count, b->point->place, b->point->name))
        return false;
    double along = b->point->kind == PATTERN_POINT_ON_END ? edge->length_mm - b->v[0] : b->v[0];
    if (along < -OFF_EDGE_MM || along > edge->length_mm + OFF_EDGE_MM)
        return refuse(b, &off_edge, ERR_MM(edge->length_mm));
    vec2 chord, at = geometry_path_at(edge->path, along, &chord);
    vec2 ahead = sizer_direction(edge->curve, edge->path, along);
    if (b->v[1] != 0 && ahead.x == 0 && ahead.y == 0)
        return refuse(b, &no_side, ERR_NONE);
    *out = vec2_sub(at, vec2_scale(vec2_right(ahead), b->v[1]));
    return true;
}

static bool build_meet(const struct building *b, vec2 *out)
{
    vec2 one, other;
    if (!direction(b, 0, 1, &one) || !direction(b, 2, 3, &other))
        return false;
    double turn = vec2_cross(one, other);
    if (fabs(turn) < PARALLEL)
        return refuse(b, &parallel, ERR_NONE);
    *out = vec2_add(b->of[0], vec2_scale(one, vec2_cross(vec2_sub(b->of[2], b->of[0]), other) / turn));
    return true;
}

/* The first side of the edge whose ends lie on both sides of the line, or on it. */
static bool build_cross(const struct building *b, vec2 *out)
{
    vec2 unit;
    const struct sizer_edge *edge = sizer_edge_of(b->z, b->point->of[0]);
    if (!edge || !direction(b, 1, 2, &unit) || !sizer_spend(b->z, edge->path.count, b->point->place, b->point->name))
        return false;
    for (size_t i = 0; i + 1 < edge->path.count; i++) {
        vec2 from = edge->path.points[i], to = edge->path.points[i + 1];
        double left = vec2_cross(unit, vec2_sub(from, b->of[1])), right = vec2_cross(unit, vec2_sub(to, b->of[1]));
        if (left * right > 0 || left == right)
            continue;
        *out = vec2_lerp(from, to, left / (left - right));
        return true;
    }
    return refuse(b, &no_crossing, ERR_NONE);
}

static vec2 foot(const struct building *b, vec2 unit)
{
    return vec2_add(b->of[1], vec2_scale(unit, vec2_dot(unit, vec2_sub(b->of[0], b->of[1]))));
}

static bool build_foot(const struct building *b, vec2 *out)
{
    vec2 unit;
    if (!direction(b, 1, 2, &unit))
        return false;
    *out = foot(b, unit);
    return true;
}

static bool build_turn(const struct building *b, vec2 *out)
{
    struct geometry_mover turn = geometry_mover_of((struct geometry_motion){ .turn_deg = b->v[0] });
    *out = vec2_add(b->of[1], geometry_move(&turn, vec2_sub(b->of[0], b->of[1])));
    return true;
}

static bool build_mirror(const struct building *b, vec2 *out)
{
    vec2 unit;
    if (!direction(b, 1, 2, &unit))
        return false;
    *out = vec2_sub(vec2_scale(foot(b, unit), 2), b->of[0]);
    return true;
}

static bool build_reach(const struct building *b, vec2 *out)
{
    vec2 unit;
    if (!direction(b, 1, 2, &unit))
        return false;
    vec2 nearest = foot(b, unit);
    double off = vec2_length(vec2_sub(nearest, b->of[0])), square = b->v[0] * b->v[0] - off * off;
    if (square < 0)
        return refuse(b, &too_far, ERR_MM(off));
    *out = vec2_add(nearest, vec2_scale(unit, sqrt(square)));
    return true;
}

static bool build_same(const struct building *b, vec2 *out)
{
    *out = b->of[0];
    return true;
}

/* What a construction rests on: points from `first` to `last` of `of`, and how many values. */
static const struct build_row {
    bool (*build)(const struct building *b, vec2 *out);
    int first, last, values;
} build_rows[] = {
    [PATTERN_POINT_AT] = { build_at, 0, 0, 2 },       [PATTERN_POINT_BY] = { build_by, 0, 1, 2 },
    [PATTERN_POINT_POLAR] = { build_polar, 0, 1, 2 }, [PATTERN_POINT_TOWARDS] = { build_towards, 0, 2, 1 },
    [PATTERN_POINT_SHARE] = { build_share, 0, 2, 1 }, [PATTERN_POINT_ON] = { build_on, 0, 0, 2 },
    [PATTERN_POINT_ON_END] = { build_on, 0, 0, 2 },   [PATTERN_POINT_MEET] = { build_meet, 0, 4, 0 },
    [PATTERN_POINT_CROSS] = { build_cross, 1, 3, 0 }, [PATTERN_POINT_FOOT] = { build_foot, 0, 3, 0 },
    [PATTERN_POINT_TURN] = { build_turn, 0, 2, 1 },   [PATTERN_POINT_MIRROR] = { build_mirror, 0, 3, 0 },
    [PATTERN_POINT_REACH] = { build_reach, 0, 3, 1 }, [PATTERN_POINT_SAME] = { build_same, 0, 1, 0 },
};

bool sizer_build_point(struct sizer *z, const struct pattern_point *point, double position, vec2 *out)
{
    const struct build_row *row = &build_rows[point->kind];
    struct building b = { .z = z, .point = point };
    for (int i = row->first; i < row->last; i++) {
        const vec2 *at = sizer_point_at(z, point->of[i]);
        if (!at)
            return false;
        b.of[i] = *at;
    }
    for (int i = 0; i < row->values; i++)
        if (!sizer_reckon(z, &point->v[i], position, &b.v[i]))
            return false;
    return row->build(&b, out) && (sizer_is_near(*out) || refuse(&b, &far_away, ERR_NONE));
}
