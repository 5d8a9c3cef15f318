/* A rectangle that is to be as wide as was said: all that lies on it keeps its share of the width, so that marks that
 * part a gathered edge go on parting it alike. */
#include "draft/alter.h"

#define LEAST_MM 1.0 /* of what is left between the allowances: less is nothing to sew (our own choice) */

enum { NEAR_LEFT, NEAR_RIGHT, FAR_RIGHT, FAR_LEFT }; /* corners of a rectangle */
enum { RIGHT_EDGE = 1, LEFT_EDGE = 3 };

static const struct err_kind too_narrow = {
    "draft.too_narrow", ERR_FAULT,
    BASE_TR("piece “{0}” cannot be cut as narrow as that in size {1}: its allowances "
            "alone take {2}; make it wider")
};

/* How much wider than drawn the piece is cut at that side. */
static bool beside(struct sizer *z, int piece, int edge, double *mm)
{
    const struct pattern_piece *p = &z->pattern->pieces[piece];
    double written;
    if (!sizer_written_allowance(z, (struct pattern_ref){ piece, edge }, &written))
        return false;
    const struct draft_alteration *own = edge == p->fold ? NULL : sizer_own_allowance(z, p, &p->edges[edge]);
    *mm = own ? own->amount_mm : written;
    if (z->pattern->outline == PATTERN_CUTTING_LINE)
        *mm -= written;
    return true;
}

/* From corner to corner across the grain. */
static bool side_mm(struct sizer *z, int piece, int left, int right, vec2 across, double *mm)
{
    const vec2 *from = sizer_point_at(z, (struct pattern_ref){ piece, left });
    const vec2 *to = from ? sizer_point_at(z, (struct pattern_ref){ piece, right }) : NULL;
    if (to)
        *mm = vec2_dot(across, vec2_sub(*to, *from));
    return to != NULL;
}

bool sizer_widen(struct sizer *z, int piece, double cut_mm, struct sizer_change *change)
{
    const struct pattern_piece *p = &z->pattern->pieces[piece];
    vec2 across = vec2_right(change->up);
    double near_mm, far_mm, left, right;
    if (!side_mm(z, piece, NEAR_LEFT, NEAR_RIGHT, across, &near_mm) ||
        !side_mm(z, piece, FAR_LEFT, FAR_RIGHT, across, &far_mm) || !beside(z, piece, LEFT_EDGE, &left) ||
        !beside(z, piece, RIGHT_EDGE, &right))
        return false;
    double halves = p->fold == LEFT_EDGE || p->fold == RIGHT_EDGE ? 2 : 1;
    double drawn = fmax(near_mm, far_mm), wanted = cut_mm / halves - left - right;
    if (wanted < LEAST_MM || drawn < LEAST_MM)
        return sizer_refuse(z, &too_narrow, p->place, p->name, ERR_MM(halves * (left + right)));
    change->widen_across = across;
    change->widen_from = vec2_dot(across, *sizer_point_at(z, (struct pattern_ref){ piece, NEAR_LEFT }));
    change->widen_share = wanted / drawn - 1;
    return true;
}
