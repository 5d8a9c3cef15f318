/* The figure's alterations of a piece: every place of its plane gets a shift of its own. Lengthening and a fuller bust
 * move whole parts of the piece; a seam that is taken in moves single points, and curves keep their tangents there. */
#include "draft/alter.h"

#define ON_LINE_MM 0.05 /* of a lengthen line: what lies on it stays */

static const struct err_kind no_room = {
    "draft.no_room", ERR_FAULT,
    BASE_TR("piece “{0}” cannot be made {2} shorter at its line in size {1}: its outline "
            "has a point within that; shorten it less")
};
static const struct err_kind no_level = { "draft.no_level", ERR_WARNING,
                                          BASE_TR("piece “{0}” is joined at seam “{2}”, but has no point of that seam "
                                                  "at the level that is altered; it stays as it is") };

static const struct pattern_piece *written_piece(const struct sizer *z, int piece)
{
    return &z->pattern->pieces[piece];
}

static const vec2 *point_of(struct sizer *z, int piece, int point)
{
    return sizer_point_at(z, (struct pattern_ref){ piece, point });
}

static bool is_on_outline(const struct pattern_piece *piece, int point)
{
    for (size_t e = 0; e < piece->edge_count; e++)
        if (draft_edge_has_point(&piece->edges[e], point))
            return true;
    return false;
}

/* The line's strip: all that lengthens it is one. */
static struct sizer_strip *strip_of(struct sizer_change *change, const struct pattern_line *line)
{
    size_t i = 0;
    while (i < change->strip_count && change->strips[i].line != line)
        i++;
    change->strip_count += i == change->strip_count;
    return &change->strips[i];
}

/* The part of the piece that lies against the grain from the line moves that way. */
static bool add_strip(struct sizer *z, int piece, const struct pattern_line *line, double amount_mm,
                      struct sizer_change *change)
{
    const vec2 *from = point_of(z, piece, line->ends[0]), *to = from ? point_of(z, piece, line->ends[1]) : NULL;
    if (!to)
        return false;
    vec2 down = vec2_right(vec2_unit(vec2_sub(*to, *from)));
    if (vec2_dot(down, change->up) > 0)
        down = vec2_scale(down, -1);
    struct sizer_strip *strip = strip_of(change, line);
    amount_mm += strip->amount_mm;
    *strip = (struct sizer_strip){ line, *from, down, amount_mm };
    for (int i = 0; amount_mm < 0 && i < (int)written_piece(z, piece)->point_count; i++) {
        const vec2 *at = is_on_outline(written_piece(z, piece), i) ? point_of(z, piece, i) : NULL;
        double below = at ? vec2_dot(down, vec2_sub(*at, *from)) : 0;
        if (below > ON_LINE_MM && below < -amount_mm)
            return sizer_refuse(z, &no_room, line->place, written_piece(z, piece)->name, ERR_MM(-amount_mm));
    }
    return true;
}

static bool is_name(const char *a, const char *b)
{
    return a && b && strcmp(a, b) == 0;
}

static bool lengthen(struct sizer *z, int piece, const struct draft_alteration *alteration, struct sizer_change *change)
{
    const struct pattern_piece *p = written_piece(z, piece);
    for (size_t i = 0; i < p->line_count; i++)
        if (p->lines[i].kind == PATTERN_LINE_LENGTHEN && is_name(p->lines[i].name, alteration->what) &&
            !add_strip(z, piece, &p->lines[i], alteration->amount_mm, change))
            return false;
    return true;
}

static vec2 middle_of(struct sizer *z, int piece)
{
    vec2 sum = { 0, 0 };
    size_t count = 0;
    for (int i = 0; i < (int)written_piece(z, piece)->point_count; i++) {
        const vec2 *p = is_on_outline(written_piece(z, piece), i) ? point_of(z, piece, i) : NULL;
        sum = p ? vec2_add(sum, *p) : sum;
        count += p != NULL;
    }
    return vec2_scale(sum, 1.0 / (double)(count ? count : 1));
}

/* Across the grain or along it, whichever is more nearly square to the edge, towards the middle of the piece: a side
 * seam moves across, the end of a band whose grain runs along it moves along. */
static vec2 inwards(struct sizer *z, int piece, const struct pattern_edge *edge, vec2 at, vec2 up)
{
    vec2 across = vec2_right(up);
    const vec2 *from = point_of(z, piece, edge->start);
    const vec2 *to = from ? point_of(z, piece, edge->steps[edge->step_count - 1].end) : NULL;
    vec2 run = to ? vec2_sub(*to, *from) : up;
    vec2 way = fabs(vec2_dot(run, up)) >= fabs(vec2_dot(run, across)) ? across : up;
    return vec2_dot(way, vec2_sub(middle_of(z, piece), at)) < 0 ? vec2_scale(way, -1) : way;
}

/* Moves the points of one edge that lie at the level, each to its place in `moved`; whether there were any. */
static bool take_in_edge(struct sizer *z, int piece, int edge, const struct draft_alteration *alteration, vec2 up,
                         vec2 *moved)
{
    const struct pattern_piece *p = written_piece(z, piece);
    bool found = false;
    for (int i = 0; p->levels && i < (int)p->point_count; i++) {
        const vec2 *at = NULL;
        if (p->levels[i] == alteration->row && draft_edge_has_point(&p->edges[edge], i))
            at = point_of(z, piece, i);
        if (!at)
            continue;
        found = true;
        moved[i] = vec2_scale(inwards(z, piece, &p->edges[edge], *at, up), alteration->amount_mm);
    }
    return found;
}

/* A point that edges of the seam share is moved once; what other alterations move it by is added. */
static void take_in(struct sizer *z, int piece, const struct draft_alteration *alteration, struct sizer_change *change)
{
    size_t point_count = written_piece(z, piece)->point_count;
    vec2 *moved = base_arena_alloc(z->a, point_count, sizeof *moved);
    for (size_t s = 0; s < z->pattern->seam_count; s++) {
        const struct pattern_seam *seam = &z->pattern->seams[s];
        bool joined = false, found = false;
        for (int side = 0; side < 2 && draft_is_seam(seam, alteration->what); side++)
            for (size_t i = 0; i < seam->sides[side].count; i++) {
                const struct pattern_edge_ref *ref = &seam->sides[side].edges[i];
                if (ref->piece != piece)
                    continue;
                joined = true;
                found = take_in_edge(z, piece, ref->edge, alteration, change->up, moved) || found;
            }
        if (joined && !found)
            sizer_refuse(z, &no_level, written_piece(z, piece)->place, written_piece(z, piece)->name,
                         ERR_TEXT(seam->name));
    }
    for (size_t i = 0; i < point_count; i++)
        change->taken_in[i] = vec2_add(change->taken_in[i], moved[i]);
}

/* Half of it on either side of the body. */
static bool spread(struct sizer *z, int piece, double amount_mm, struct sizer_change *change)
{
    change->spread_mm += amount_mm / 2;
    return !written_piece(z, piece)->bust_spread || sizer_spread_bust(z, piece, change);
}

static bool make_change(struct sizer *z, int piece, const struct draft_alteration *alteration,
                        struct sizer_change *change)
{
    switch (alteration->kind) {
    case DRAFT_LENGTHEN:
        return lengthen(z, piece, alteration, change);
    case DRAFT_BUST:
        return spread(z, piece, alteration->amount_mm, change);
    case DRAFT_TAKE_IN:
        take_in(z, piece, alteration, change);
        return true;
    case DRAFT_WIDTH:
        return !is_name(written_piece(z, piece)->name, alteration->what) ||
               sizer_widen(z, piece, alteration->amount_mm, change);
    case DRAFT_ALLOWANCE:
        return true; /* moves nothing */
    }
    return true;
}

/* The direction of the grain, up where it has none. */
static bool find_up(struct sizer *z, int piece, vec2 *up)
{
    const int *grain = written_piece(z, piece)->grain;
    *up = (vec2){ 0, 1 };
    if (grain[0] == PATTERN_NONE)
        return true;
    const vec2 *from = point_of(z, piece, grain[0]), *to = from ? point_of(z, piece, grain[1]) : NULL;
    if (to && vec2_length(vec2_sub(*to, *from)) > 0)
        *up = vec2_unit(vec2_sub(*to, *from));
    return to != NULL;
}

/* Worked out once for each piece, with the piece on the trail. */
static const struct sizer_change *change_of(struct sizer *z, int piece)
{
    if (z->pieces[piece].change)
        return z->pieces[piece].change;
    const struct pattern_piece *p = written_piece(z, piece);
    struct sizer_change *change = base_arena_alloc(z->a, 1, sizeof *change);
    change->strips = base_arena_alloc(z->a, p->line_count, sizeof *change->strips);
    change->taken_in = base_arena_alloc(z->a, p->point_count, sizeof *change->taken_in);
    change->can_be_made = find_up(z, piece, &change->up);
    for (size_t i = 0; change->can_be_made && i < z->figure.alteration_count; i++)
        change->can_be_made = make_change(z, piece, &z->figure.alterations[i], change);
    z->pieces[piece].change = change;
    return change;
}

static vec2 shift_of_strips(const struct sizer_change *change, vec2 at)
{
    vec2 shift = { 0, 0 };
    for (size_t i = 0; i < change->strip_count; i++)
        if (vec2_dot(change->strips[i].down, vec2_sub(at, change->strips[i].at)) > ON_LINE_MM)
            shift = vec2_sub(shift, vec2_scale(change->up, change->strips[i].amount_mm));
    return shift;
}

static vec2 shift_of_width(const struct sizer_change *change, vec2 at)
{
    double past = vec2_dot(change->widen_across, at) - change->widen_from;
    return vec2_scale(change->widen_across, past * change->widen_share);
}

/* How the part of the piece moves that a place belongs to; a point may belong to one by its name. */
static vec2 shift_of_part(const struct sizer_change *change, vec2 at, int point)
{
    vec2 shift = vec2_add(shift_of_strips(change, at), shift_of_width(change, at));
    return change->spread ? vec2_add(shift, sizer_spread_shift(change->spread, at, point)) : shift;
}

bool sizer_alter_point(struct sizer *z, struct pattern_ref ref, vec2 *at)
{
    const vec2 *written = point_of(z, ref.piece, ref.index);
    const struct sizer_change *change = written ? change_of(z, ref.piece) : NULL;
    if (!change || !change->can_be_made)
        return false;
    *at = vec2_add(vec2_add(*written, shift_of_part(change, *written, ref.index)), change->taken_in[ref.index]);
    return true;
}

/* A curve's control moves with its part of the piece and with the end it belongs to. */
static vec2 altered_control(const struct sizer_change *change, vec2 control, int end)
{
    vec2 at = vec2_add(control, shift_of_part(change, control, PATTERN_NONE));
    return end == PATTERN_NONE ? at : vec2_add(at, change->taken_in[end]);
}

bool sizer_alter_edge(struct sizer *z, struct pattern_ref ref, const struct sizer_curve *written,
                      struct sizer_curve *out)
{
    struct geometry_cubic *parts = base_arena_alloc(z->a, written->count, sizeof *parts);
    const struct sizer_change *change = change_of(z, ref.piece);
    int from = written_piece(z, ref.piece)->edges[ref.index].start;
    vec2 at;
    if (!change->can_be_made || !sizer_alter_point(z, (struct pattern_ref){ ref.piece, from }, &at))
        return false;
    for (size_t i = 0; i < written->count; i++) {
        struct geometry_cubic c = written->parts[i];
        bool straight = sizer_is_straight(c);
        int to = written->ends[i];
        vec2 end = vec2_add(c.p[3], shift_of_part(change, c.p[3], PATTERN_NONE));
        if (to != PATTERN_NONE && !sizer_alter_point(z, (struct pattern_ref){ ref.piece, to }, &end))
            return false;
        vec2 leave = straight ? at : altered_control(change, c.p[1], from);
        vec2 arrive = straight ? end : altered_control(change, c.p[2], to);
        parts[i] = (struct geometry_cubic){ { at, leave, arrive, end } };
        at = end;
        from = to;
    }
    *out = (struct sizer_curve){ parts, written->ends, written->count };
    return true;
}

vec2 sizer_alter_place(struct sizer *z, int piece, vec2 at)
{
    const struct sizer_change *change = change_of(z, piece);
    return vec2_add(at, shift_of_part(change, at, PATTERN_NONE));
}
