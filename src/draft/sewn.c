/* The stitching line within an outline that is drawn as the cutting line. */
#include "draft/outline.h"
#include "draft/sizer.h"
#include "geometry/inset.h"

static const struct err_kind no_inset = {
    "draft.no_inset", ERR_FAULT,
    BASE_TR("no stitching line can be drawn within the cutting line of piece “{0}” in size {1}: that crosses itself, "
            "or its "
            "allowances are wider than the piece or the radius of a curve; check both")
};

static const struct err_kind not_sewn = { "draft.not_sewn", ERR_WARNING,
                                          BASE_TR("piece “{0}” has no stitching line in size {1}: its allowances are "
                                                  "wider than the piece or the radius of a curve. "
                                                  "It is cut on the line that is drawn") };

static const struct err_kind not_as_drawn = {
    "draft.not_as_drawn", ERR_WARNING,
    BASE_TR("piece “{0}” is cut up to {2} off its cutting line in size {1}: a corner "
            "is too sharp, or a curve too narrow, for its "
            "allowances; blunt it, or draw the stitching line")
};

#define AS_DRAWN_MM 0.5 /* as near as anyone cuts (common practice, no source) */

bool sizer_written_allowance(struct sizer *z, struct pattern_ref ref, double *mm)
{
    const struct pattern_piece *piece = &z->pattern->pieces[ref.piece];
    *mm = 0;
    return ref.index == piece->fold || sizer_reckon(z, &piece->edges[ref.index].allowance, z->figure.position, mm);
}

/* Asked before the piece itself is on the trail, whose view they are seen in. */
const struct geometry_path *sizer_drawn_edges(struct sizer *z, int piece)
{
    size_t count = z->pattern->pieces[piece].edge_count;
    struct geometry_path *paths = base_arena_alloc(z->a, count, sizeof *paths);
    for (size_t e = 0; e < count; e++) {
        const struct sizer_edge *edge = sizer_edge_of(z, (struct pattern_ref){ piece, (int)e });
        if (!edge)
            return NULL;
        paths[e] = edge->path;
    }
    return paths;
}

bool sizer_cuts_as_drawn(const struct sizer *z, int index)
{
    const struct pattern_piece *piece = &z->pattern->pieces[index];
    bool plain = z->pattern->outline == PATTERN_CUTTING_LINE && !z->figure.trial;
    for (size_t e = 0; plain && e < piece->edge_count; e++)
        plain = piece->edges[e].ends[0] == PATTERN_END_MITRE && piece->edges[e].ends[1] == PATTERN_END_MITRE &&
                !sizer_own_allowance(z, piece, &piece->edges[e]);
    for (size_t d = 0; plain && d < piece->dart_count; d++)
        plain = piece->darts[d].fold == PATTERN_NOT_FOLDED;
    return plain;
}

static const double *written_allowances(struct sizer *z, int piece)
{
    size_t count = z->pattern->pieces[piece].edge_count;
    double *mm = base_arena_alloc(z->a, count, sizeof *mm);
    for (size_t e = 0; e < count; e++)
        if (!sizer_written_allowance(z, (struct pattern_ref){ piece, (int)e }, &mm[e]))
            return NULL;
    return mm;
}

/* An edge's part of the ring that its outline became, as it is written: to where the next edge's part begins. */
static struct sizer_edge part_of(struct arena *a, struct geometry_path ring, const size_t *starts,
                                 const struct draft_outline *drawn, size_t edge)
{
    const struct draft_edge *e = &drawn->edges[edge];
    size_t from = starts[e->first], to = starts[(e->first + e->count) % drawn->path.count];
    size_t sides = (to + ring.count - from) % ring.count;
    if (e->count > 0 && sides == 0)
        sides = ring.count; /* one edge all around */
    struct geometry_path path = { base_arena_alloc(a, sides + 1, sizeof(vec2)), 0, false };
    for (size_t i = 0; i <= sides; i++) {
        vec2 p = ring.points[(from + i) % ring.count];
        if (!path.count || !draft_is_same_point(p, path.points[path.count - 1]))
            path.points[path.count++] = p;
    }
    if (drawn->turned)
        geometry_path_reverse(path);
    return (struct sizer_edge){ .state = SIZER_DONE, .path = path, .length_mm = geometry_path_length(path) };
}

static double farthest_from(struct geometry_path line, struct geometry_path points)
{
    double most = 0, along;
    for (size_t i = 0; i < points.count; i++)
        most = fmax(most, geometry_path_distance(line, points.points[i], &along));
    return most;
}

/* Warns where the line that is grown from the stitching line again does not come back to what is drawn. */
static void compare_with_drawn(struct sizer *z, const struct pattern_piece *piece, const struct sizer_edge *sewn,
                               const double *allowance, struct geometry_path drawn)
{
    struct geometry_path *paths = base_arena_alloc(z->a, piece->edge_count, sizeof *paths), cut;
    for (size_t e = 0; e < piece->edge_count; e++)
        paths[e] = sewn[e].path;
    struct draft_outline o = draft_outline_join(z->a, paths, allowance, piece->edge_count);
    if (!geometry_offset(z->a, o.path, o.allowance_mm, NULL, &cut))
        return; /* told when it is drafted */
    double off = fmax(farthest_from(cut, drawn), farthest_from(drawn, cut));
    if (off > AS_DRAWN_MM)
        sizer_refuse(z, &not_as_drawn, piece->place, piece->name, ERR_OFF_MM(off));
}

/* No stitching line fits in: one that is cut as it is drawn can be cut all the same. */
static bool do_without(struct sizer *z, struct pattern_ref ref, const struct geometry_path *drawn, bool final,
                       const struct draft_outline *o, struct sizer_sewn *out)
{
    const struct pattern_piece *piece = &z->pattern->pieces[ref.piece];
    vec2 where;
    if (!sizer_cuts_as_drawn(z, ref.piece) || geometry_path_crosses_itself(o->path, &where))
        return sizer_refuse(z, &no_inset, piece->place, piece->name, ERR_NONE);
    out->none = true;
    out->edges = base_arena_alloc(z->a, piece->edge_count, sizeof *out->edges);
    for (size_t e = 0; e < piece->edge_count; e++)
        out->edges[e] =
            (struct sizer_edge){ .state = SIZER_DONE, .path = drawn[e], .length_mm = geometry_path_length(drawn[e]) };
    if (final)
        sizer_refuse(z, &not_sewn, piece->place, piece->name, ERR_NONE);
    return true;
}

static bool build(struct sizer *z, struct pattern_ref ref, const struct geometry_path *drawn, bool final,
                  struct sizer_sewn *out)
{
    const struct pattern_piece *piece = &z->pattern->pieces[ref.piece];
    const double *allowance = written_allowances(z, ref.piece);
    if (!allowance)
        return false;
    struct draft_outline o = draft_outline_join(z->a, drawn, allowance, piece->edge_count);
    size_t *starts = base_arena_alloc(z->a, o.path.count, sizeof *starts);
    struct geometry_path ring;
    if (!sizer_spend(z, SIZER_MADE * o.path.count, piece->place, piece->name))
        return false;
    if (!geometry_inset(z->a, o.path, o.allowance_mm, &ring, starts))
        return do_without(z, ref, drawn, final, &o, out);
    out->edges = base_arena_alloc(z->a, piece->edge_count, sizeof *out->edges);
    for (size_t e = 0; e < piece->edge_count; e++)
        out->edges[e] = part_of(z->a, ring, starts, &o, e);
    if (final && !sizer_cuts_as_drawn(z, ref.piece))
        compare_with_drawn(z, piece, out->edges, allowance, o.path);
    return true;
}

const struct sizer_edge *sizer_sewn_edge_of(struct sizer *z, struct pattern_ref ref)
{
    if (z->pattern->outline == PATTERN_STITCHING_LINE || ref.index >= (int)z->pattern->pieces[ref.piece].edge_count)
        return sizer_edge_of(z, ref);
    enum sizer_view view = sizer_view_of(z, ref.piece);
    bool final = view == SIZER_ALTERED || !z->figure.alteration_count; /* as it is cut, not as a step on the way */
    struct sizer_sewn *sewn = &z->pieces[ref.piece].sewn[view];
    if (sewn->state == SIZER_DONE)
        return &sewn->edges[ref.index];
    const struct geometry_path *drawn = sizer_drawn_edges(z, ref.piece);
    if (!drawn || !sizer_enter(z, &sewn->state, SIZER_EDGE, ref))
        return NULL;
    bool ok = build(z, ref, drawn, final, sewn);
    sewn->state = ok ? SIZER_DONE : SIZER_FAILED;
    sizer_leave(z);
    return ok ? &sewn->edges[ref.index] : NULL;
}
