/* A seam's two sides match when the same place of it has the same phase of the stripes on both. The first mark that
 * both sides have (a notch, or where edges meet) tells which place that is, in a seam without marks its beginning. How
 * far that place lies along the grain from the match line of the one piece is how far the other piece's line, which is
 * not drawn, lies from it. */
#include "lay/sewn.h"

#include "lay/items.h"

static vec2 middle(const struct draft_line *line)
{
    return (vec2){ (line->ends[0].x + line->ends[1].x) / 2, (line->ends[0].y + line->ends[1].y) / 2 };
}

void lay_own_match(const struct draft_piece *piece, struct lay_match *out)
{
    vec2 grain = lay_lengthwise(piece, false);
    for (size_t i = 0; i < piece->line_count; i++) {
        const struct draft_line *line = &piece->lines[i];
        if (line->kind != PATTERN_LINE_MATCH)
            continue;
        vec2 way = { line->ends[1].x - line->ends[0].x, line->ends[1].y - line->ends[0].y };
        bool across_grain = fabs(vec2_cross(grain, way)) > fabs(vec2_dot(grain, way));
        if (across_grain && !out->has_along) {
            out->has_along = true;
            out->along = middle(line);
        } else if (!across_grain && !out->has_across) {
            out->has_across = true;
            out->across = middle(line);
        }
    }
}

/* How far along the path of an edge the first mark of a side lies from where the seam begins to walk it, if it lies on
 * the side's first edge: sides that carry it further on are matched at their beginning. */
static bool first_mark(const struct draft_sized *sized, const struct pattern_edge_ref *ref, double length, double *at)
{
    const struct pattern_piece *piece = &sized->pattern->pieces[ref->piece];
    bool found = false;
    for (size_t i = 0; i < piece->notch_count; i++) {
        if (piece->notches[i].edge != ref->edge)
            continue;
        double mm = sized->pieces[ref->piece].notch_mm[i];
        double walked = ref->backwards ? length - mm : mm;
        if (!found || walked < *at)
            *at = walked;
        found = true;
    }
    return found;
}

/* The place of the seam that is matched on either side. */
static void seam_places(const struct draft_sized *sized, const struct pattern_edge_ref *refs[2], vec2 out[2])
{
    double at[2] = { 0, 0 }, length[2];
    bool marked = true;
    for (int i = 0; i < 2; i++) {
        length[i] = sized->pieces[refs[i]->piece].edge_mm[refs[i]->edge];
        marked = first_mark(sized, refs[i], length[i], &at[i]) && marked;
    }
    for (int i = 0; i < 2; i++) {
        double walked = marked ? at[i] : 0;
        vec2 direction;
        out[i] = geometry_path_at(sized->pieces[refs[i]->piece].edge_paths[refs[i]->edge],
                                  refs[i]->backwards ? length[i] - walked : walked, &direction);
    }
}

static const struct draft_piece *drafted(const struct draft *draft, int index)
{
    for (size_t i = 0; i < draft->piece_count; i++)
        if (draft->pieces[i].index == index)
            return &draft->pieces[i];
    return NULL;
}

/* The partner's match line carried over the seam. */
static bool carry(const struct lay_task *task, const struct draft_piece *piece, const struct pattern_edge_ref *own,
                  const struct pattern_edge_ref *other, vec2 *out)
{
    const struct draft_piece *partner = drafted(task->draft, other->piece);
    struct lay_match theirs = { 0 };
    if (!partner || other->piece == own->piece || !task->draft->sized->pieces[own->piece].is_sound ||
        !task->draft->sized->pieces[other->piece].is_sound)
        return false;
    lay_own_match(partner, &theirs);
    if (!theirs.has_along)
        return false;
    vec2 places[2];
    seam_places(task->draft->sized, (const struct pattern_edge_ref *[]){ own, other }, places);
    double off = vec2_dot(vec2_sub(theirs.along, places[1]), lay_lengthwise(partner, false));
    *out = vec2_add(places[0], vec2_scale(lay_lengthwise(piece, false), off));
    return true;
}

static bool is_laid(const struct lay_task *task, int piece)
{
    size_t i = 0;
    while (i < task->item_count && task->items[i].piece->index != piece)
        i++;
    return i < task->item_count;
}

bool lay_is_sewn(const struct lay_task *task, const struct draft_piece *piece)
{
    const struct pattern *pattern = task->draft->sized->pattern;
    for (size_t s = 0; s < pattern->seam_count; s++)
        for (int side = 0; side < 2; side++) {
            const struct pattern_seam *seam = &pattern->seams[s];
            if (!seam->sides[side].count || !seam->sides[1 - side].count ||
                seam->sides[side].edges[0].piece != piece->index)
                continue;
            int other = seam->sides[1 - side].edges[0].piece;
            if (other != piece->index && is_laid(task, other))
                return true;
        }
    return false;
}

bool lay_sewn_match(const struct lay_task *task, const struct draft_piece *piece, vec2 *out)
{
    const struct pattern *pattern = task->draft->sized->pattern;
    for (size_t s = 0; s < pattern->seam_count; s++)
        for (int side = 0; side < 2; side++) {
            const struct pattern_seam *seam = &pattern->seams[s];
            if (seam->sides[side].count && seam->sides[1 - side].count &&
                seam->sides[side].edges[0].piece == piece->index &&
                carry(task, piece, &seam->sides[side].edges[0], &seam->sides[1 - side].edges[0], out))
                return true;
        }
    return false;
}
