/* What a pattern holds that nothing uses, and seams that no view can sew. */
#include "app/check_state.h"
#include "pattern/each.h"

static const struct err_kind never_cut = { "check.never_cut", ERR_WARNING,
                                           BASE_TR("piece “{0}” is in no view's cutting list") };
static const struct err_kind never_together = {
    "check.never_together", ERR_WARNING,
    BASE_TR("seam “{0}” joins pieces that no view cuts together; add them to a cutting list, or take the seam away")
};
static const struct err_kind unused_point = {
    "check.unused_point", ERR_WARNING, BASE_TR("nothing uses point “{1}” of piece “{0}”; take it away, or use it")
};
static const struct err_kind unused_value = { "check.unused_value", ERR_WARNING,
                                              BASE_TR("no formula uses the value “{0}”; take it away, or use it") };

/* What of a pattern is used by something. Curves are not looked at: they are drawn to be measured. */
struct uses {
    const struct check_pattern *k;
    struct piece_uses {
        bool *points, *values;
    } * pieces;
    bool *values; /* of the pattern */
};

static struct uses uses_create(const struct check_pattern *k)
{
    struct arena *a = k->c->a;
    struct uses u = { .k = k };
    u.pieces = base_arena_alloc(a, k->p->piece_count, sizeof *u.pieces);
    u.values = base_arena_alloc(a, k->p->value_count, sizeof *u.values);
    for (size_t i = 0; i < k->p->piece_count; i++) {
        const struct pattern_piece *piece = &k->p->pieces[i];
        u.pieces[i] = (struct piece_uses){ base_arena_alloc(a, piece->point_count, sizeof(bool)),
                                           base_arena_alloc(a, piece->value_count, sizeof(bool)) };
    }
    return u;
}

static void use(bool *list, int index)
{
    if (index != PATTERN_NONE)
        list[index] = true;
}

enum part { NO_PART, A_POINT };

/* What a construction rests on. */
static const enum part point_rows[][4] = {
    [PATTERN_POINT_AT] = { NO_PART },
    [PATTERN_POINT_BY] = { A_POINT },
    [PATTERN_POINT_POLAR] = { A_POINT },
    [PATTERN_POINT_TOWARDS] = { A_POINT, A_POINT },
    [PATTERN_POINT_SHARE] = { A_POINT, A_POINT },
    [PATTERN_POINT_ON] = { NO_PART },
    [PATTERN_POINT_ON_END] = { NO_PART },
    [PATTERN_POINT_MEET] = { A_POINT, A_POINT, A_POINT, A_POINT },
    [PATTERN_POINT_CROSS] = { NO_PART, A_POINT, A_POINT },
    [PATTERN_POINT_FOOT] = { A_POINT, A_POINT, A_POINT },
    [PATTERN_POINT_TURN] = { A_POINT, A_POINT },
    [PATTERN_POINT_MIRROR] = { A_POINT, A_POINT, A_POINT },
    [PATTERN_POINT_REACH] = { A_POINT, A_POINT, A_POINT },
    [PATTERN_POINT_SAME] = { A_POINT },
};

static void use_ref(struct uses *u, enum part part, struct pattern_ref ref)
{
    if (part == A_POINT)
        use(u->pieces[ref.piece].points, ref.index);
}

static void use_constructions(struct uses *u, const struct pattern_piece *piece)
{
    for (size_t i = 0; i < piece->point_count; i++)
        for (int n = 0; n < 4; n++)
            use_ref(u, point_rows[piece->points[i].kind][n], piece->points[i].of[n]);
}

static void use_step(bool *points, const struct pattern_step *step)
{
    use(points, step->end);
    for (int n = 0; n < 2 && step->kind == PATTERN_STEP_CUBIC; n++)
        use(points, step->control[n]);
    for (size_t i = 0; i < step->through_count; i++)
        use(points, step->through[i]);
    if (step->kind == PATTERN_STEP_ARC)
        use(points, step->centre);
}

static void use_edges(const struct pattern_piece *piece, bool *points)
{
    for (size_t e = 0; e < piece->edge_count + piece->curve_count; e++) {
        use(points, piece->edges[e].start);
        for (size_t s = 0; s < piece->edges[e].step_count; s++)
            use_step(points, &piece->edges[e].steps[s]);
    }
}

static void use_marks(const struct pattern_piece *piece, bool *points)
{
    use(points, piece->grain[0]);
    use(points, piece->grain[1]);
    use(points, piece->label_at);
    for (size_t i = 0; i < piece->drill_mark_count; i++)
        use(points, piece->drill_marks[i].point);
    for (size_t i = 0; i < piece->dart_count; i++) {
        use(points, piece->darts[i].legs[0]);
        use(points, piece->darts[i].legs[1]);
        use(points, piece->darts[i].apex);
    }
    for (size_t i = 0; i < piece->button_row_count; i++) {
        use(points, piece->button_rows[i].ends[0]);
        use(points, piece->button_rows[i].ends[1]);
    }
    for (size_t i = 0; i < piece->line_count; i++) {
        use(points, piece->lines[i].ends[0]);
        use(points, piece->lines[i].ends[1]);
    }
}

static void use_slashes(const struct pattern_bust_spread *spread, bool *points)
{
    if (!spread)
        return;
    use(points, spread->apex);
    use(points, spread->hinge);
    for (int end = 0; end < 2; end++) {
        use(points, spread->side[end]);
        use(points, spread->waist[end]);
    }
}

static void use_term(void *user, const struct pattern_term *term)
{
    struct uses *u = user;
    static const enum part parts[] = {
        [PATTERN_OP_X] = A_POINT,     [PATTERN_OP_Y] = A_POINT,     [PATTERN_OP_DISTANCE] = A_POINT,
        [PATTERN_OP_ANGLE] = A_POINT, [PATTERN_OP_POINT] = A_POINT,
    };
    if (term->op == PATTERN_OP_VALUE)
        use(term->ref.piece == PATTERN_NONE ? u->values : u->pieces[term->ref.piece].values, term->ref.index);
    if ((size_t)term->op < sizeof parts / sizeof parts[0])
        use_ref(u, parts[term->op], term->ref);
}

static void use_girths(struct uses *u, const struct pattern *p)
{
    for (size_t i = 0; i < p->girth_count; i++)
        for (size_t n = 0; n < p->girths[i].part_count; n++) {
            const struct pattern_girth_part *part = &p->girths[i].parts[n];
            use(u->pieces[part->piece].points, part->level);
        }
}

static void tell_unused_values(const struct check_pattern *k, const struct pattern_named *values, size_t count,
                               const bool *used)
{
    for (size_t i = 0; i < count; i++)
        if (!used[i])
            base_err(k->c->errs, &unused_value, values[i].place, ERR_TEXT(values[i].name));
}

static void tell_unused_parts(const struct check_pattern *k, const struct pattern_piece *piece,
                              const struct piece_uses *u)
{
    for (size_t i = 0; i < piece->point_count; i++)
        if (!u->points[i])
            base_err(k->c->errs, &unused_point, piece->points[i].place, ERR_TEXT(piece->name),
                     ERR_TEXT(piece->points[i].name));
    tell_unused_values(k, piece->values, piece->value_count, u->values);
}

static void check_parts_used(const struct check_pattern *k)
{
    const struct pattern *p = k->p;
    struct uses u = uses_create(k);
    pattern_each_term(k->c->a, p, false, use_term, &u);
    use_girths(&u, p);
    for (size_t i = 0; i < p->piece_count; i++) {
        use_constructions(&u, &p->pieces[i]);
        use_edges(&p->pieces[i], u.pieces[i].points);
        use_marks(&p->pieces[i], u.pieces[i].points);
        use_slashes(p->pieces[i].bust_spread, u.pieces[i].points);
    }
    tell_unused_values(k, p->values, p->value_count, u.values);
    for (size_t i = 0; i < p->piece_count; i++)
        tell_unused_parts(k, &p->pieces[i], &u.pieces[i]);
}

static bool view_cuts(const struct pattern_view *view, int piece)
{
    for (size_t i = 0; i < view->cut_count; i++)
        if (view->cuts[i].piece == piece)
            return true;
    return false;
}

static bool is_cut(const struct pattern *p, int piece)
{
    for (size_t v = 0; v < p->view_count; v++)
        if (view_cuts(&p->views[v], piece))
            return true;
    return false;
}

/* Whether every edge of the seam is of a piece that the view cuts; with no view, of one that any view cuts. */
static bool has_all(const struct pattern *p, const struct pattern_seam *seam, const struct pattern_view *view)
{
    for (int side = 0; side < 2; side++)
        for (size_t i = 0; i < seam->sides[side].count; i++) {
            int piece = seam->sides[side].edges[i].piece;
            if (view ? !view_cuts(view, piece) : !is_cut(p, piece))
                return false;
        }
    return true;
}

static bool is_sewn_in_a_view(const struct pattern *p, const struct pattern_seam *seam)
{
    for (size_t v = 0; v < p->view_count; v++)
        if (has_all(p, seam, &p->views[v]))
            return true;
    return false;
}

/* A piece that is never cut was told by itself. */
static void check_cutting(const struct check_pattern *k)
{
    const struct pattern *p = k->p;
    for (size_t i = 0; i < p->piece_count; i++)
        if (!is_cut(p, (int)i))
            base_err(k->c->errs, &never_cut, p->pieces[i].place, ERR_TEXT(p->pieces[i].name));
    for (size_t s = 0; s < p->seam_count; s++)
        if (has_all(p, &p->seams[s], NULL) && !is_sewn_in_a_view(p, &p->seams[s]))
            base_err(k->c->errs, &never_together, p->seams[s].place, ERR_TEXT(p->seams[s].label));
}

/* The edges of a piece that no seam names, the fold aside: no fault, for hems and bound edges are such. */
static const char *free_edges(const struct check_pattern *k, int index)
{
    const struct pattern_piece *piece = &k->p->pieces[index];
    const char *list = "";
    for (int e = 0; e < (int)piece->edge_count; e++)
        if (e != piece->fold && k->sewn[index].seams[e] == PATTERN_NONE)
            list = check_listed(k->c->a, list, piece->edges[e].name);
    return list;
}

static void say_free_edges(struct check_pattern *k)
{
    struct json_out *to = k->c->json ? json_out_object(k->c->json, "free_edges") : NULL;
    bool is_headed = false;
    for (int i = 0; i < (int)k->p->piece_count; i++) {
        const char *edges = free_edges(k, i);
        if (*edges && !is_headed)
            check_say(k->c, base_tr("Edges in no seam"));
        if (*edges)
            check_say(k->c, base_arena_print(k->c->a, "  %s: %s", k->p->pieces[i].name, edges));
        is_headed = is_headed || *edges;
        if (to)
            json_out_text(to, k->p->pieces[i].name, edges);
    }
}

void check_use(struct check_pattern *k)
{
    check_cutting(k);
    check_parts_used(k);
    say_free_edges(k);
}
