/* Interfacing is cut smaller than its piece, so that it ends within the seams; not at a fold, where it goes on. */
#include "lay/items.h"

#include "geometry/inset.h"

#define ON_FOLD_MM 0.01
#define SAME_MM 1e-6

/* The side of the cut outline that lies on the fold; count: there is none. */
static size_t fold_side(const struct draft_piece *piece)
{
    struct geometry_path cut = piece->cut.path;
    for (size_t i = 0; piece->has_fold && i < cut.count; i++) {
        vec2 from = cut.points[i], to = cut.points[(i + 1) % cut.count];
        if (vec2_length(vec2_sub(from, (vec2){ piece->fold[0].x, piece->fold[0].y })) < ON_FOLD_MM &&
            vec2_length(vec2_sub(to, (vec2){ piece->fold[1].x, piece->fold[1].y })) < ON_FOLD_MM)
            return i;
    }
    return cut.count;
}

/* From point `first` once around to it, without points that are there twice in a row. */
static struct geometry_path cleaned(struct arena *a, struct geometry_path p, size_t first)
{
    struct geometry_path out = { base_arena_alloc(a, p.count, sizeof *out.points), 0, true };
    for (size_t i = 0; i < p.count; i++) {
        vec2 at = p.points[(first + i) % p.count];
        if (!out.count || vec2_length(vec2_sub(at, out.points[out.count - 1])) > SAME_MM)
            out.points[out.count++] = at;
    }
    while (out.count > 1 && vec2_length(vec2_sub(out.points[0], out.points[out.count - 1])) <= SAME_MM)
        out.count--;
    return out;
}

bool lay_trimmed(struct arena *a, const struct draft_piece *piece, double trim_mm, struct draft_piece *out)
{
    struct geometry_path cut = piece->cut.path, inner;
    double *dist = base_arena_alloc(a, cut.count, sizeof *dist);
    size_t *starts = base_arena_alloc(a, cut.count, sizeof *starts), fold = fold_side(piece);
    for (size_t i = 0; i < cut.count; i++)
        dist[i] = i == fold ? 0 : trim_mm;
    *out = *piece;
    if ((piece->has_fold && fold == cut.count) || !geometry_inset(a, cut, dist, &inner, starts))
        return false;
    /* after the fold's end the cut line begins, open along the fold */
    size_t first = fold < cut.count ? (starts[fold] + 1) % inner.count : 0;
    out->cut.path = cleaned(a, inner, first);
    out->cut_line = out->cut;
    out->cut_line.path.closed = fold == cut.count;
    if (fold < cut.count) {
        vec2 to = out->cut.path.points[0], from = out->cut.path.points[out->cut.path.count - 1];
        out->fold[0] = (struct piece_pt){ from.x, from.y };
        out->fold[1] = (struct piece_pt){ to.x, to.y };
    }
    out->notch_count = 0;
    return out->cut.path.count >= 3;
}
