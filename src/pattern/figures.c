#include "pattern/figures.h"

#include "pattern/each.h"

#include <string.h>

/* That something reads all that another thing reads. Pieces come first, then the pattern's named values. */
struct link {
    size_t from, to;
};

struct reading {
    struct arena *a;
    const struct pattern *p;
    bool *rows; /* of each thing: the figures that it reads */
    struct link *links;
    size_t count, cap;
};

static void add_link(struct reading *r, size_t from, size_t to)
{
    r->links = base_arena_grow(r->a, r->links, &r->cap, r->count + 1, sizeof *r->links);
    r->links[r->count++] = (struct link){ from, to };
}

static void add_term(struct reading *r, size_t from, const struct pattern_term *term)
{
    if (term->op == PATTERN_OP_FIGURE)
        r->rows[from * r->p->figure_count + (size_t)term->ref.index] = true;
    else if (term->op == PATTERN_OP_VALUE && term->ref.piece == PATTERN_NONE)
        add_link(r, from, r->p->piece_count + (size_t)term->ref.index);
    else if (term->op >= PATTERN_OP_VALUE && term->op <= PATTERN_OP_POINT)
        add_link(r, from, (size_t)term->ref.piece);
}

/* Whose value it is: a piece's, or one of those that formulas of all pieces call; false: neither. */
static bool find_reader(const struct pattern *p, const struct pattern_given *given, size_t *from)
{
    *from = (size_t)given->piece;
    for (size_t i = 0; given->piece == PATTERN_NONE && i < p->value_count; i++)
        if (given->value == &p->values[i].value) {
            *from = p->piece_count + i;
            return true;
        }
    return given->piece != PATTERN_NONE;
}

static void add_value(void *user, const struct pattern_given *given)
{
    struct reading *r = user;
    size_t from;
    if (!given->value->formulas || !find_reader(r->p, given, &from))
        return;
    for (size_t i = 0; i < given->value->count; i++) {
        const struct pattern_formula *f = given->value->formulas[i];
        for (size_t n = 0; f && n < f->term_count; n++)
            add_term(r, from, &f->terms[n]);
    }
}

/* How many things a construction takes, of pieces; others are of no meaning. */
static size_t taken(enum pattern_point_kind kind)
{
    static const size_t counts[] = {
        [PATTERN_POINT_AT] = 0,    [PATTERN_POINT_BY] = 1,   [PATTERN_POINT_POLAR] = 1,  [PATTERN_POINT_TOWARDS] = 2,
        [PATTERN_POINT_SHARE] = 2, [PATTERN_POINT_ON] = 1,   [PATTERN_POINT_ON_END] = 1, [PATTERN_POINT_MEET] = 4,
        [PATTERN_POINT_CROSS] = 3, [PATTERN_POINT_FOOT] = 3, [PATTERN_POINT_TURN] = 2,   [PATTERN_POINT_MIRROR] = 3,
        [PATTERN_POINT_REACH] = 3, [PATTERN_POINT_SAME] = 1,
    };
    return counts[kind];
}

/* Points and edges of other pieces that a piece is drawn by. */
static void add_drawn(struct reading *r, size_t index)
{
    const struct pattern_piece *piece = &r->p->pieces[index];
    for (size_t i = 0; i < piece->point_count; i++)
        for (size_t n = 0; n < taken(piece->points[i].kind); n++)
            add_link(r, index, (size_t)piece->points[i].of[n].piece);
    for (size_t e = 0; e < piece->edge_count + piece->curve_count; e++)
        for (size_t s = 0; s < piece->edges[e].step_count; s++)
            if (piece->edges[e].steps[s].kind == PATTERN_STEP_ALONG)
                add_link(r, index, (size_t)piece->edges[e].steps[s].along.piece);
}

/* Once along all links; whether anything came to anything. */
static bool pass_on(struct reading *r)
{
    size_t width = r->p->figure_count;
    bool any = false;
    for (size_t i = 0; i < r->count; i++)
        for (size_t f = 0; f < width; f++) {
            bool *to = &r->rows[r->links[i].from * width + f];
            if (!r->rows[r->links[i].to * width + f] || *to)
                continue;
            *to = any = true;
        }
    return any;
}

const bool *pattern_figures_by_piece(struct arena *a, const struct pattern *p)
{
    struct arena *scratch = base_arena_create();
    struct reading r = { .a = scratch, .p = p };
    r.rows = base_arena_alloc(scratch, (p->piece_count + p->value_count) * p->figure_count, sizeof *r.rows);
    pattern_each_value(scratch, p, add_value, &r);
    for (size_t i = 0; i < p->piece_count; i++)
        add_drawn(&r, i);
    while (pass_on(&r))
        continue;
    bool *rows = base_arena_alloc(a, p->piece_count * p->figure_count, sizeof *rows);
    memcpy(rows, r.rows, p->piece_count * p->figure_count * sizeof *rows);
    base_arena_destroy(scratch);
    return rows;
}
