#include "fit/fullness.h"

#include "fit/seam.h"

#include <math.h>

#define FOLDED_RATIO 2.0
#define FOLDED_SLACK 0.02 /* of the ratio: a millimetre in 50 */
#define AT_MIDDLE_MM 1.0  /* as near as a fold line's end has to be to the edge's middle */

/* One look at a piece of a draft. */
struct look {
    struct arena *a;
    const struct pattern *pattern;
    const struct draft *draft;
    const struct draft_piece *piece;
    struct fit_fullness *found;
    size_t count, cap;
};

static bool is_drafted(const struct draft *draft, int piece)
{
    for (size_t i = 0; i < draft->piece_count; i++)
        if (draft->pieces[i].index == piece)
            return true;
    return false;
}

static bool is_sewn(const struct draft *draft, const struct pattern_seam *seam)
{
    for (int side = 0; side < 2; side++)
        for (size_t i = 0; i < seam->sides[side].count; i++)
            if (!is_drafted(draft, seam->sides[side].edges[i].piece))
                return false;
    return true;
}

static int edge_end(const struct pattern_edge *edge)
{
    return edge->steps[edge->step_count - 1].end;
}

static bool ends_at_fold(const struct pattern_piece *piece, int edge)
{
    if (piece->fold == PATTERN_NONE)
        return false;
    const struct pattern_edge *fold = &piece->edges[piece->fold], *e = &piece->edges[edge];
    return e->start == edge_end(fold) || edge_end(e) == fold->start;
}

static bool is_folded_in_its_middle(const struct look *l, int edge)
{
    const struct draft_sized_piece *at = &l->draft->sized->pieces[l->piece->index];
    vec2 direction, middle = geometry_path_at(at->edge_paths[edge], at->edge_mm[edge] / 2, &direction);
    for (size_t i = 0; i < l->piece->line_count; i++)
        for (int end = 0; end < 2 && l->piece->lines[i].kind == PATTERN_LINE_FOLD; end++) {
            struct piece_pt p = l->piece->lines[i].ends[end];
            if (vec2_length(vec2_sub((vec2){ p.x, p.y }, middle)) < AT_MIDDLE_MM)
                return true;
        }
    return false;
}

static enum fit_fullness_kind kind_of(const struct look *l, const struct fit_fullness *f)
{
    double ratio = f->from_mm / f->to_mm;
    if (!f->with_others && fabs(ratio - FOLDED_RATIO) < FOLDED_SLACK && is_folded_in_its_middle(l, f->edge))
        return FIT_FOLDED;
    return ratio > FIT_MOST_EASE ? FIT_GATHERED : FIT_EASED;
}

static bool is_found(const struct look *l, const struct fit_fullness *f)
{
    for (size_t i = 0; i < l->count; i++)
        if (l->found[i].seam == f->seam && l->found[i].edge == f->edge && l->found[i].interval == f->interval)
            return true;
    return false;
}

static size_t times_in(const struct pattern_edge_ref *edges, size_t count, struct pattern_edge_ref edge)
{
    size_t times = 0;
    for (size_t i = 0; i < count; i++)
        times += edges[i].piece == edge.piece && edges[i].edge == edge.edge;
    return times;
}

/* A stretch of a seam whose side `longer` is meant to be the longer one, for every edge of the piece on that side. */
static void note_stretch(struct look *l, struct fit_fullness f, int longer, const double length_mm[2])
{
    const struct pattern_seam *seam = &l->pattern->seams[f.seam];
    f.from_mm = length_mm[longer];
    f.to_mm = length_mm[!longer];
    if (f.from_mm - f.to_mm < FIT_SEAM_TOLERANCE_MM || f.to_mm <= 0)
        return;
    for (size_t i = 0; i < seam->sides[longer].count; i++) {
        struct pattern_edge_ref ref = seam->sides[longer].edges[i];
        f.edge = ref.edge;
        if (ref.piece != l->piece->index || is_found(l, &f))
            continue;
        size_t times = times_in(seam->sides[longer].edges, seam->sides[longer].count, ref);
        f.with_others = seam->sides[longer].count > times;
        f.is_half = times == 1 && ends_at_fold(&l->pattern->pieces[ref.piece], ref.edge);
        f.kind = kind_of(l, &f);
        l->found = base_arena_grow(l->a, l->found, &l->cap, l->count + 1, sizeof *l->found);
        l->found[l->count++] = f;
    }
}

static void look_at_seam(struct look *l, int index)
{
    const struct pattern_seam *seam = &l->pattern->seams[index];
    const struct draft_sized_seam *of = draft_seam_at(l->draft->sized, seam);
    if (!of->is_sound)
        return;
    struct fit_seam m = fit_seam_measure(l->a, l->draft->sized, seam);
    struct fit_fullness f = { .seam = index };
    if (!of->interval_mm || m.interval_count != seam->interval_count) {
        double meant = of->ratio > 0 ? of->ratio - 1 : of->difference_mm;
        if (meant != 0)
            note_stretch(l, f, meant < 0, m.length_mm);
        return;
    }
    f.interval_count = m.interval_count > 1 ? m.interval_count : 0;
    for (f.interval = 0; f.interval < m.interval_count; f.interval++)
        if (of->interval_mm[f.interval] != 0)
            note_stretch(l, f, of->interval_mm[f.interval] < 0, m.intervals[f.interval].length_mm);
}

size_t fit_fullness_of(struct arena *a, const struct pattern *pattern, const struct draft *draft, size_t piece,
                       const struct fit_fullness **out)
{
    struct look l = { .a = a, .pattern = pattern, .draft = draft, .piece = &draft->pieces[piece] };
    for (size_t s = 0; s < pattern->seam_count; s++)
        if (is_sewn(draft, &pattern->seams[s]))
            look_at_seam(&l, (int)s);
    *out = l.found;
    return l.count;
}

const char *fit_fullness_name(enum fit_fullness_kind kind)
{
    static const char *const names[] = { [FIT_EASED] = "eased", [FIT_GATHERED] = "gathered", [FIT_FOLDED] = "folded" };
    return names[kind];
}
