/* The mouth of a dart that is folded to one side: what its cloth must be cut to, so that folded it ends where its
 * neighbour does. */
#include "draft/outline.h"

#include <math.h>

#define ON_LINE_MM 0.05 /* another dart's leg may begin where this one's does */

/* A dart as it lies in the cloth. */
struct fold {
    vec2 apex, near; /* the leg it is folded over begins there */
    vec2 leg;        /* unit direction of that leg, from the apex out */
    vec2 crease;     /* and of the dart's middle, which becomes the fold */
};

static vec2 mirrored(vec2 at, vec2 along, vec2 p)
{
    vec2 from = vec2_sub(p, at);
    return vec2_add(at, vec2_sub(vec2_scale(along, 2 * vec2_dot(from, along)), from));
}

/* How far from the crease, on one side below zero. */
static double beside_crease(const struct fold *f, vec2 p)
{
    return vec2_cross(f->crease, vec2_sub(p, f->apex));
}

/* Where on its edge the neighbour's line ends on that side: at the edge's end, or at the next dart's mouth. */
static double neighbours_end(const struct pattern_piece *piece, const struct draft_sized_piece *at,
                             const struct pattern_dart *dart, const double mouth[2])
{
    bool to_start = dart->fold == PATTERN_FOLD_TO_START;
    double end = to_start ? 0 : at->edge_mm[dart->edge], other[2];
    for (size_t i = 0; i < piece->dart_count; i++) {
        if (&piece->darts[i] == dart || piece->darts[i].edge != dart->edge ||
            !draft_dart_mouth(at, &piece->darts[i], other))
            continue;
        if (to_start && other[1] <= mouth[0] + ON_LINE_MM)
            end = fmax(end, other[1]);
        if (!to_start && other[0] >= mouth[1] - ON_LINE_MM)
            end = fmin(end, other[0]);
    }
    return end;
}

/* The neighbour's line laid over the dart, from the leg to the crease: what the upper half of the folded cloth is cut
 * to. `line` becomes that; false when it ends before the crease. */
static bool lay_over(const struct fold *f, struct geometry_path *line)
{
    double before = beside_crease(f, f->near);
    for (size_t i = 1; i < line->count && before != 0; i++) {
        vec2 p = mirrored(f->apex, f->leg, line->points[i]);
        double after = beside_crease(f, p);
        line->points[i] = p;
        if ((before < 0) == (after < 0)) {
            before = after;
            continue;
        }
        line->points[i] = vec2_lerp(line->points[i - 1], p, before / (before - after));
        line->count = i + 1;
        return vec2_dot(f->crease, vec2_sub(line->points[i], f->apex)) > 0;
    }
    return false;
}

/* The whole mouth, from the near leg over the crease to the far leg. That one is met also where the legs differ a
 * little: what they differ by is shared out over its half. */
static struct geometry_path both_halves(struct arena *a, const struct fold *f, struct geometry_path upper, vec2 far)
{
    struct geometry_path whole = { base_arena_alloc(a, 2 * upper.count, sizeof(vec2)), 0, false };
    vec2 off = vec2_sub(far, mirrored(f->apex, f->crease, f->near));
    double length = geometry_path_length(upper), come = 0;
    for (size_t i = 0; i < upper.count; i++)
        whole.points[whole.count++] = upper.points[i];
    for (size_t i = upper.count - 1; i-- > 0;) {
        come += vec2_length(vec2_sub(upper.points[i], upper.points[i + 1]));
        vec2 p = mirrored(f->apex, f->crease, upper.points[i]);
        whole.points[whole.count++] = vec2_add(p, vec2_scale(off, come / length));
    }
    return whole;
}

bool draft_dart_cap(struct arena *a, const struct pattern_piece *piece, const struct draft_sized_piece *at,
                    const struct pattern_dart *dart, struct geometry_path *cap)
{
    struct geometry_path edge = at->edge_paths[dart->edge];
    double mouth[2];
    vec2 legs[2], out[2], direction;
    struct fold f = { .apex = at->points[dart->apex] };
    if (dart->fold == PATTERN_NOT_FOLDED || !draft_dart_mouth(at, dart, mouth))
        return false;
    for (int i = 0; i < 2; i++) {
        legs[i] = geometry_path_at(edge, mouth[i], &direction);
        out[i] = vec2_unit(vec2_sub(legs[i], f.apex));
    }
    int near = dart->fold == PATTERN_FOLD_TO_START ? 0 : 1;
    f.near = legs[near];
    f.leg = out[near];
    f.crease = vec2_unit(vec2_add(out[0], out[1]));
    *cap = geometry_path_part(a, edge, mouth[near], neighbours_end(piece, at, dart, mouth));
    if (!lay_over(&f, cap))
        return false;
    *cap = both_halves(a, &f, *cap, legs[1 - near]);
    if (near == 1)
        geometry_path_reverse(*cap);
    return true;
}
