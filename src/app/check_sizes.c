/* Sizes held against one another: outlines that cross where they should nest, pieces that shrink. What a slip in a list
 * explains was told with the list. */
#include "app/check_state.h"

#include <math.h>

static const struct err_kind sizes_cross = {
    "check.sizes_cross", ERR_WARNING,
    BASE_TR(
        "edge {0} moves {3} from size {1} to size {2}, against the way of all other sizes, so that the two cross; is a "
        "number wrong?")
};
static const struct err_kind shrinks = {
    "check.shrinks", ERR_WARNING, BASE_TR("piece “{0}” is smaller in size {2} than in size {1}; is a number wrong?")
};

#define AREA_SHARE 1e-6 /* of the area: rounding of what is the same in both sizes */
#define AREA_MM2 10.0   /* what nobody sees of a piece */
#define CROSS_MM                                                                                                       \
    1.0 /* sizes that lie this much the wrong way cross: more than lists rounded to 1 mm show (our own)                \
         */

enum { PLACES = 9 }; /* along an edge, ends included, at which sizes are held against one another */

/* How an edge grows sideways, from each size to the next, at one place of it. */
struct growth {
    double *mm; /* to the left of the edge */
    size_t count;
};

/* The step that goes against all others by more than CROSS_MM, if there is no more than one among four or more; else
 * the count. */
static size_t odd_step(struct growth g)
{
    double whole = 0;
    size_t against = 0, odd = g.count;
    for (size_t i = 0; i < g.count; i++)
        whole += g.mm[i];
    for (size_t i = 0; i < g.count; i++) {
        if (whole * g.mm[i] >= 0)
            continue;
        against++;
        if (fabs(g.mm[i]) > CROSS_MM)
            odd = i;
    }
    return against == 1 && g.count >= 4 ? odd : g.count;
}

static const struct geometry_path *edge_at(const struct check_pattern *k, int piece, size_t edge, size_t size)
{
    size_t group = check_first_group(k->p->pieces[piece].cup_group);
    const struct draft_sized_piece *at = &check_draft_at(k, group, size)->sized->pieces[piece];
    return at->is_sound ? &at->edge_paths[edge] : NULL;
}

static double sideways(struct geometry_path from, struct geometry_path to, double share)
{
    vec2 ahead, along;
    vec2 at = geometry_path_at(from, share * geometry_path_length(from), &ahead);
    vec2 next = geometry_path_at(to, share * geometry_path_length(to), &along);
    return vec2_cross(ahead, vec2_sub(next, at));
}

/* False when the piece could not be worked out in all sizes. */
static bool measure_growth(const struct check_pattern *k, int piece, size_t edge, struct growth growth[PLACES])
{
    for (size_t s = 0; s + 1 < k->p->size_count; s++) {
        const struct geometry_path *from = edge_at(k, piece, edge, s), *to = edge_at(k, piece, edge, s + 1);
        if (!from || !to)
            return false;
        for (int i = 0; i < PLACES; i++)
            growth[i].mm[s] = sideways(*from, *to, (double)i / (PLACES - 1));
    }
    return true;
}

static void tell_crossing(const struct check_pattern *k, int piece, size_t edge, size_t step, double mm)
{
    const struct pattern_piece *of = &k->p->pieces[piece];
    const char *name = base_arena_print(k->c->a, base_tr("“%s” of piece “%s”"), of->edges[edge].name, of->name);
    base_err(k->c->errs, &sizes_cross, of->edges[edge].place, ERR_TEXT(name), ERR_TEXT(k->p->sizes[step]),
             ERR_TEXT(k->p->sizes[step + 1]), ERR_OFF_MM(mm));
}

/* Tells the worst place of an edge; whether there was one. */
static bool check_edge(const struct check_pattern *k, int piece, size_t edge, struct growth growth[PLACES])
{
    size_t worst = 0;
    double most = 0;
    if (!measure_growth(k, piece, edge, growth))
        return false;
    for (int i = 0; i < PLACES; i++) {
        size_t odd = odd_step(growth[i]);
        if (odd == growth[i].count || fabs(growth[i].mm[odd]) <= most)
            continue;
        worst = odd;
        most = fabs(growth[i].mm[odd]);
    }
    if (most > 0)
        tell_crossing(k, piece, edge, worst, most);
    return most > 0;
}

/* Tells the first edge of a piece at which sizes cross: its neighbours cross for the same reason. */
static bool check_nesting(const struct check_pattern *k, int piece, struct growth growth[PLACES])
{
    for (size_t e = 0; e < k->p->pieces[piece].edge_count; e++)
        if (check_edge(k, piece, e, growth))
            return true;
    return false;
}

/* 0 when it was not drafted. */
static double area_at(const struct check_pattern *k, int piece, size_t size)
{
    const struct draft *draft = check_draft_at(k, check_first_group(k->p->pieces[piece].cup_group), size);
    for (size_t i = 0; i < draft->piece_count; i++)
        if (draft->pieces[i].index == piece)
            return geometry_path_area(draft->pieces[i].seam.path);
    return 0;
}

/* A size with a smaller piece than the one before it is nearly always a slip in one number of a list. */
static void check_areas(const struct check_pattern *k, int piece)
{
    double before = area_at(k, piece, 0);
    for (size_t s = 1; s < k->p->size_count; s++) {
        double area = area_at(k, piece, s);
        if (area > 0 && area < before - fmax(AREA_MM2, AREA_SHARE * before)) {
            base_err(k->c->errs, &shrinks, k->p->pieces[piece].place, ERR_TEXT(k->p->pieces[piece].name),
                     ERR_TEXT(k->p->sizes[s - 1]), ERR_TEXT(k->p->sizes[s]));
            return;
        }
        before = area;
    }
}

void check_sizes(struct check_pattern *k)
{
    struct growth growth[PLACES];
    for (int i = 0; i < PLACES; i++)
        growth[i] =
            (struct growth){ base_arena_alloc(k->c->a, k->p->size_count, sizeof(double)), k->p->size_count - 1 };
    for (int i = 0; i < (int)k->p->piece_count; i++)
        if (!k->pattern_has_slip && !k->has_slip[i] && !check_nesting(k, i, growth))
            check_areas(k, i);
}
