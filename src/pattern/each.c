#include "pattern/each.h"
#include "base/words.h"

/* On the way from value to value. */
struct visiting {
    struct arena *a;
    const struct pattern *p;
    int piece;
    bool is_of_garment;
    bool is_of_body;
    void (*visit)(void *user, const struct pattern_given *value);
    void *user;
};

/* What is visited next: one thing's values share all but the member. */
static void visit(const struct visiting *v, const struct pattern_value *value, bool is_length, const char *of,
                  const char *member, struct err_place place)
{
    struct pattern_given found = { value, v->piece, of, member, is_length, v->is_of_garment, v->is_of_body, place };
    const struct pattern_formula *first = NULL;
    for (size_t i = 0; value->formulas && !first; i++)
        first = value->formulas[i];
    if (first)
        found.place = first->place;
    if (pattern_value_is_given(*value))
        v->visit(v->user, &found);
}

/* A construction's two values: what they are called, and whether they are lengths. */
static const struct {
    const char *member[2];
    bool is_length[2];
} point_rows[] = {
    [PATTERN_POINT_AT] = { { "across", "up" }, { true, true } },
    [PATTERN_POINT_BY] = { { "across", "up" }, { true, true } },
    [PATTERN_POINT_POLAR] = { { "angle", "distance" }, { false, true } },
    [PATTERN_POINT_TOWARDS] = { { "distance", "" }, { true, false } },
    [PATTERN_POINT_SHARE] = { { "share", "" }, { false, false } },
    [PATTERN_POINT_ON] = { { "distance", "beside" }, { true, true } },
    [PATTERN_POINT_ON_END] = { { "distance", "beside" }, { true, true } },
    [PATTERN_POINT_MEET] = { { "", "" }, { false, false } },
    [PATTERN_POINT_CROSS] = { { "", "" }, { false, false } },
    [PATTERN_POINT_FOOT] = { { "", "" }, { false, false } },
    [PATTERN_POINT_TURN] = { { "angle", "" }, { false, false } },
    [PATTERN_POINT_MIRROR] = { { "", "" }, { false, false } },
    [PATTERN_POINT_REACH] = { { "reach", "" }, { true, false } },
    [PATTERN_POINT_SAME] = { { "", "" }, { false, false } },
};

static void visit_points(const struct visiting *v, const struct pattern_piece *piece)
{
    for (size_t i = 0; i < piece->point_count; i++) {
        const struct pattern_point *point = &piece->points[i];
        const char *of = base_arena_print(v->a, base_tr("point “%s” of piece “%s”"), point->name, piece->name);
        for (int n = 0; n < 2; n++)
            visit(v, &point->v[n], point_rows[point->kind].is_length[n], of, point_rows[point->kind].member[n],
                  point->place);
    }
}

static void visit_step(const struct visiting *v, const struct pattern_step *step, const char *of)
{
    const struct {
        const struct pattern_value *value;
        const char *member;
        bool is_length;
    } rows[] = {
        { &step->angle, "angle", false },  { &step->leave, "leave", false },  { &step->arrive, "arrive", false },
        { &step->pull[0], "pull", false }, { &step->pull[1], "pull", false }, { &step->beside, "beside", true },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        visit(v, rows[i].value, rows[i].is_length, of, rows[i].member, step->place);
}

static void visit_edges(const struct visiting *v, const struct pattern_piece *piece)
{
    for (size_t e = 0; e < piece->edge_count + piece->curve_count; e++) {
        const struct pattern_edge *edge = &piece->edges[e];
        const char *of = base_arena_print(v->a, base_tr("edge “%s” of piece “%s”"), edge->name, piece->name);
        visit(v, &edge->allowance, true, of, "allowance", edge->place);
        for (size_t s = 0; s < edge->step_count; s++)
            visit_step(v, &edge->steps[s], of);
    }
}

static void visit_notches(const struct visiting *v, const struct pattern_piece *piece)
{
    for (size_t i = 0; i < piece->notch_count; i++) {
        const struct pattern_notch *notch = &piece->notches[i];
        const char *of = base_arena_print(v->a, base_tr("notch on edge “%s” of piece “%s”"),
                                          piece->edges[notch->edge].name, piece->name);
        visit(v, &notch->at, true, of, notch->from_end ? "from_end" : "at", notch->place);
    }
}

/* How many, where a formula tells. */
static void visit_count(const struct visiting *v, const struct pattern_count *count, const char *of)
{
    struct pattern_value value = { .count = 1, .formulas = &count->formula };
    if (count->formula)
        visit(v, &value, false, of, "count", count->formula->place);
}

static void visit_buttons(const struct visiting *v, const struct pattern_piece *piece)
{
    for (size_t i = 0; i < piece->button_row_count; i++) {
        const struct pattern_buttons *row = &piece->button_rows[i];
        const char *of = base_arena_print(v->a,
                                          row->kind == PATTERN_BUTTON ? base_tr("row of buttons of piece “%s”")
                                                                      : base_tr("row of buttonholes of piece “%s”"),
                                          piece->name);
        visit(v, &row->first, true, of, "first", row->place);
        visit(v, &row->last, true, of, "last", row->place);
        visit(v, &row->length, true, of, "length", row->place);
        visit_count(v, &row->count, of);
    }
}

static void visit_named(const struct visiting *v, const struct pattern_named *values, size_t count)
{
    for (size_t i = 0; i < count; i++)
        visit(v, &values[i].value, true, base_arena_print(v->a, base_tr("value “%s”"), values[i].name), NULL,
              values[i].place);
}

/* Finished measurements, or ease. */
static void visit_finished(struct visiting *v, const struct pattern_finished *finished, size_t count, const char *what)
{
    v->is_of_garment = true;
    for (size_t i = 0; i < count; i++)
        for (size_t g = 0; g < (v->p->cup_group_count ? v->p->cup_group_count : 1); g++)
            visit(v, &finished[i].written[g], true, base_arena_print(v->a, what, finished[i].name), NULL,
                  finished[i].place);
    v->is_of_garment = false;
}

static void visit_cuts(const struct visiting *v, const struct pattern_view *view)
{
    const char *of = base_arena_print(v->a, base_tr("cutting list of view “%s”"), view->name);
    for (size_t i = 0; i < view->cut_count; i++)
        visit_count(v, &view->cuts[i].count, of);
}

static void visit_notions(const struct visiting *v, const struct pattern_notions *notions)
{
    for (size_t i = 0; i < notions->count; i++) {
        const struct pattern_notion *notion = &notions->items[i];
        const char *of = base_arena_print(v->a, base_tr("notion “%s”"), notion->name);
        visit(v, &notion->size, true, of, "size", notion->place);
        visit(v, &notion->length, true, of, "length", notion->place);
        visit_count(v, &notion->count, of);
    }
}

static void visit_measurements(const struct visiting *v)
{
    const struct pattern *p = v->p;
    for (size_t i = 0; i < p->row_count; i++)
        visit(v, &p->chart[i].value, true, base_arena_print(v->a, "row “%s” of the chart", p->chart[i].name), NULL,
              p->chart[i].place);
    for (size_t i = 0; i < p->cup_group_count; i++)
        visit(v, &p->cup_groups[i].bust, true, base_arena_print(v->a, base_tr("cup group “%s”"), p->cup_groups[i].name),
              "bust", p->cup_groups[i].place);
}

static void visit_seams(const struct visiting *v)
{
    for (size_t i = 0; i < v->p->seam_count; i++) {
        const struct pattern_seam *seam = &v->p->seams[i];
        const char *of = base_arena_print(v->a, base_tr("seam “%s”"), seam->name);
        visit(v, &seam->difference, true, of, "difference", seam->place);
        visit(v, &seam->ratio, false, of, "ratio", seam->place);
        for (size_t n = 0; n < seam->interval_count; n++)
            visit(v, &seam->intervals[n], true, of, "intervals", seam->place);
    }
}

/* What no piece has. */
static void visit_whole(struct visiting *v)
{
    const struct pattern *p = v->p;
    visit_finished(v, p->finished, p->finished_count, base_tr("finished “%s”"));
    visit_finished(v, p->ease, p->ease_count, base_tr("ease “%s”"));
    visit_named(v, p->values, p->value_count);
    visit_seams(v);
    visit_notions(v, &p->notions);
    for (size_t i = 0; i < p->view_count; i++) {
        visit_cuts(v, &p->views[i]);
        visit_notions(v, &p->views[i].notions);
    }
}

void pattern_each_value(struct arena *a, const struct pattern *p,
                        void (*visit_one)(void *user, const struct pattern_given *value), void *user)
{
    struct visiting v = { .a = a, .p = p, .piece = PATTERN_NONE, .is_of_body = true, .visit = visit_one, .user = user };
    visit_measurements(&v);
    v.is_of_body = false;
    visit_whole(&v);
    for (size_t i = 0; i < p->piece_count; i++) {
        v.piece = (int)i;
        visit_points(&v, &p->pieces[i]);
        visit_named(&v, p->pieces[i].values, p->pieces[i].value_count);
        visit_edges(&v, &p->pieces[i]);
        visit_notches(&v, &p->pieces[i]);
        visit_buttons(&v, &p->pieces[i]);
    }
}

/* Which terms, and whom they go to. */
struct term_visit {
    bool drafted_only;
    void (*visit)(void *user, const struct pattern_term *term);
    void *user;
};

static void visit_terms(void *user, const struct pattern_given *value)
{
    const struct term_visit *to = user;
    bool is_asked = value->value->formulas && !(to->drafted_only && value->is_of_garment);
    for (size_t i = 0; is_asked && i < value->value->count; i++) {
        const struct pattern_formula *f = value->value->formulas[i];
        for (size_t n = 0; f && n < f->term_count; n++)
            to->visit(to->user, &f->terms[n]);
    }
}

void pattern_each_term(struct arena *a, const struct pattern *p, bool drafted_only,
                       void (*visit_one)(void *user, const struct pattern_term *term), void *user)
{
    struct term_visit to = { drafted_only, visit_one, user };
    pattern_each_value(a, p, visit_terms, &to);
}

static void note_figures(void *user, const struct pattern_term *term)
{
    bool *read = user;
    if (term->op == PATTERN_OP_FIGURE)
        read[term->ref.index] = true;
}

const bool *pattern_figures_read(struct arena *a, const struct pattern *p)
{
    struct arena *scratch = base_arena_create();
    bool *read = base_arena_alloc(a, p->figure_count, sizeof *read);
    pattern_each_term(scratch, p, true, note_figures, read);
    base_arena_destroy(scratch);
    return read;
}

bool pattern_reads_bust(const struct pattern *p)
{
    int bust = pattern_find_figure(p, PATTERN_BUST);
    struct arena *scratch = base_arena_create();
    bool found = bust != PATTERN_NONE && pattern_figures_read(scratch, p)[bust];
    base_arena_destroy(scratch);
    return found;
}
