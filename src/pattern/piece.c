/* The pieces of a pattern file: drawn ones and rectangles; both become points and edges. */
#include "pattern/reader.h"

static const struct err_kind no_pieces = { "pattern.no_pieces", ERR_FAULT, BASE_TR("the pattern has no piece") };
static const struct err_kind piece_twice = { "pattern.piece_twice", ERR_FAULT,
                                             BASE_TR("a piece “{0}” is there already") };
static const struct err_kind no_cup_group = { "pattern.no_cup_group", ERR_FAULT,
                                              BASE_TR("the pattern has no cup group “{0}”") };
static const struct err_kind point_twice = { "pattern.point_twice", ERR_FAULT,
                                             BASE_TR("“{0}” is the name of one of the rectangle's corners") };
static const struct err_kind edge_twice = { "pattern.edge_twice", ERR_FAULT,
                                            BASE_TR("an edge “{0}” is there already") };
static const struct err_kind curve_allowance = { "pattern.curve_allowance", ERR_FAULT,
                                                 BASE_TR("a curve is no edge of the outline; it has no allowance") };
static const struct err_kind gap = {
    "pattern.gap", ERR_FAULT,
    BASE_TR("starts at point “{0}”, but edge “{1}” before it ends at “{2}”; an outline has no gap")
};
static const struct err_kind too_few_edges = {
    "pattern.too_few_edges", ERR_FAULT,
    BASE_TR("an outline needs at least {0} edges, or one that curves back to its start")
};
static const struct err_kind fold_curved = { "pattern.fold_curved", ERR_FAULT,
                                             BASE_TR("edge “{0}” lies on the fold: it must be one straight line") };
static const struct err_kind fold_allowance = { "pattern.fold_allowance", ERR_FAULT,
                                                BASE_TR("edge “{0}” lies on the fold: it has no allowance") };
static const struct err_kind grain_form = { "pattern.grain_form", ERR_FAULT,
                                            BASE_TR("the grain is a list of two different points' names") };
static const struct err_kind both_forms = { "pattern.both_forms", ERR_FAULT,
                                            BASE_TR("a piece has an outline or is a rectangle, not both") };

static bool is_corner(const struct pattern_reader *r, size_t first, const char *name)
{
    int found = pattern_names_find(r->names, PATTERN_NAME_POINT, r->piece, name);
    return found != PATTERN_NONE && (size_t)found < first;
}

/* After the corners, where the piece is a rectangle. */
static void read_points(const struct pattern_reader *r, const struct json_node *object, size_t first)
{
    for (const struct json_node *n = object->first; n; n = n->next) {
        if (is_corner(r, first, n->key))
            json_fault(r->errs, n, &point_twice, ERR_TEXT(n->key));
        pattern_read_point(r, n, &r->drawings[r->piece].points[first + n->index]);
    }
}

static void read_edge(const struct pattern_reader *r, const struct json_node *n, struct pattern_value piece_allowance,
                      struct pattern_edge *edge)
{
    static const char *const fields[] = { "name", "path", "allowance", "ends", NULL };
    const struct pattern_piece *piece = &r->pieces[r->piece];
    edge->start = PATTERN_NONE;
    edge->allowance = piece_allowance;
    edge->place = json_place(r->a, n);
    json_only(n, fields, r->errs);
    const char *name = pattern_read_name(r, n);
    if (name && &piece->edges[pattern_names_find(r->names, PATTERN_NAME_EDGE, r->piece, name)] != edge)
        json_fault(r->errs, n, &edge_twice, ERR_TEXT(name));
    pattern_calls(r, name);
    const struct json_node *path = json_need(n, "path", JSON_LIST, r->errs);
    if (path)
        pattern_read_path(r, path, edge);
    const struct json_node *allowance = json_find(n, "allowance");
    if (allowance)
        pattern_read_value(r, allowance, PATTERN_ALLOWANCE, &edge->allowance);
    if (json_find(n, "ends"))
        pattern_read_ends(r, json_find(n, "ends"), edge);
}

/* Lines to measure and construct by; they are no part of the outline. */
static void read_curves(const struct pattern_reader *r, const struct json_node *list)
{
    static const struct pattern_value none = { .mm = NULL };
    struct pattern_edge *curve = r->drawings[r->piece].edges + r->pieces[r->piece].edge_count;
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (!json_is(n, JSON_OBJECT, r->errs))
            continue;
        read_edge(r, n, none, curve);
        if (pattern_value_is_given(curve->allowance))
            json_fault(r->errs, json_find(n, "allowance"), &curve_allowance, ERR_NONE);
        if (json_find(n, "ends"))
            json_fault(r->errs, json_find(n, "ends"), &curve_allowance, ERR_NONE);
        curve++;
    }
}

static int edge_end(const struct pattern_edge *edge)
{
    return edge->step_count ? edge->steps[edge->step_count - 1].end : PATTERN_NONE;
}

static void check_closed(const struct pattern_reader *r, const struct json_node *list,
                         const struct pattern_piece *piece)
{
    if (piece->edge_count != list->count)
        return; /* something in the list was no edge, which was told */
    size_t i = 0;
    for (const struct json_node *n = list->first; n && i < piece->edge_count; n = n->next, i++) {
        const struct pattern_edge *before = &piece->edges[(i + piece->edge_count - 1) % piece->edge_count];
        int start = piece->edges[i].start, end = edge_end(before);
        if (start == end || start == PATTERN_NONE || end == PATTERN_NONE || !before->name)
            continue;
        json_fault(r->errs, n, &gap, ERR_TEXT(piece->points[start].name), ERR_TEXT(before->name),
                   ERR_TEXT(piece->points[end].name));
    }
}

/* A shape needs three lines, or a curve among fewer. */
static bool can_enclose(const struct pattern_piece *piece)
{
    size_t lines = 0, curves = 0;
    for (size_t e = 0; e < piece->edge_count; e++)
        for (size_t s = 0; s < piece->edges[e].step_count; s++)
            if (piece->edges[e].steps[s].kind == PATTERN_STEP_LINE)
                lines++;
            else
                curves++;
    return curves > 0 || lines >= 3;
}

static void read_outline(const struct pattern_reader *r, const struct json_node *list,
                         struct pattern_value piece_allowance)
{
    const struct pattern_piece *piece = &r->pieces[r->piece];
    struct pattern_edge *edge = r->drawings[r->piece].edges;
    int before = r->errs->faults;
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs))
            read_edge(r, n, piece_allowance, edge++);
    check_closed(r, list, piece);
    if (r->errs->faults == before && !can_enclose(piece))
        json_fault(r->errs, list, &too_few_edges, ERR_NUMBER(3));
}

const struct pattern_corner pattern_corners[4] = {
    { "near left", "bottom", false, false },
    { "near right", "right", true, false },
    { "far right", "top", true, true },
    { "far left", "left", false, true },
};

static const struct json_node *need_value(const struct pattern_reader *r, const struct json_node *object,
                                          const char *name)
{
    const struct json_node *node = json_find(object, name);
    return node ? node : json_need(object, name, JSON_NUMBER, r->errs);
}

static bool read_sides(const struct pattern_reader *r, const struct json_node *object, struct pattern_value *width,
                       struct pattern_value *height)
{
    static const char *const fields[] = { "width", "height", NULL };
    json_only(object, fields, r->errs);
    const struct json_node *w = need_value(r, object, "width"), *h = need_value(r, object, "height");
    bool ok = w && pattern_read_value(r, w, PATTERN_POSITIVE, width);
    return h && pattern_read_value(r, h, PATTERN_POSITIVE, height) && ok;
}

static void read_rectangle(const struct pattern_reader *r, const struct json_node *object,
                           struct pattern_value piece_allowance)
{
    static const struct pattern_value zero = { .mm = NULL };
    struct pattern_piece *piece = &r->pieces[r->piece];
    struct pattern_drawing *d = &r->drawings[r->piece];
    struct pattern_value width, height;
    if (!read_sides(r, object, &width, &height))
        return;
    for (int i = 0; i < 4; i++) {
        const struct pattern_corner *corner = &pattern_corners[i];
        struct pattern_step *step = base_arena_alloc(r->a, 1, sizeof *step);
        *step = (struct pattern_step){ .kind = PATTERN_STEP_LINE, .end = (i + 1) % 4 };
        d->points[i].v[0] = corner->right ? width : zero;
        d->points[i].v[1] = corner->top ? height : zero;
        d->points[i].place = piece->place;
        d->edges[i] = (struct pattern_edge){ .name = corner->edge,
                                             .start = i,
                                             .steps = step,
                                             .step_count = 1,
                                             .allowance = piece_allowance,
                                             .place = piece->place };
    }
    piece->is_rectangle = true;
    piece->grain[0] = 0; /* near left to far left: along the height */
    piece->grain[1] = 3;
}

static void read_allowance(const struct pattern_reader *r, const struct json_node *n, struct pattern_edge *edge)
{
    pattern_read_value(r, n, PATTERN_ALLOWANCE, &edge->allowance);
}

/* What is named by edge, for a rectangle's four. */
static void read_by_edge(const struct pattern_reader *r, const struct json_node *object,
                         void (*read)(const struct pattern_reader *, const struct json_node *, struct pattern_edge *))
{
    const struct pattern_piece *piece = &r->pieces[r->piece];
    for (const struct json_node *n = object->first; n; n = n->next) {
        int edge = pattern_find_edge(piece, n->key);
        if (edge == PATTERN_NONE)
            pattern_tell_no_edge(r, n, n->key);
        else
            read(r, n, &r->drawings[r->piece].edges[edge]);
    }
}

/* Whether an allowance was given to this edge by itself rather than to the whole piece. */
static bool allowance_is_own(struct pattern_value own, struct pattern_value piece_allowance)
{
    bool lit = own.formulas != NULL;
    for (size_t i = 0; i < own.count; i++)
        lit = lit || own.mm[i] > 0;
    return lit && own.mm != piece_allowance.mm;
}

static void read_fold(const struct pattern_reader *r, const struct json_node *node,
                      struct pattern_value piece_allowance)
{
    int fold = pattern_read_edge_name(r, node);
    if (fold == PATTERN_NONE)
        return;
    struct pattern_edge *edge = &r->drawings[r->piece].edges[fold];
    if (edge->step_count != 1 || edge->steps[0].kind != PATTERN_STEP_LINE)
        json_fault(r->errs, node, &fold_curved, ERR_TEXT(node->text));
    if (allowance_is_own(edge->allowance, piece_allowance))
        json_fault(r->errs, node, &fold_allowance, ERR_TEXT(node->text));
    edge->allowance = (struct pattern_value){ .mm = NULL };
    r->pieces[r->piece].fold = fold;
}

static void read_grain(const struct pattern_reader *r, const struct json_node *list)
{
    struct pattern_piece *piece = &r->pieces[r->piece];
    if (list->count != 2) {
        json_fault(r->errs, list, &grain_form, ERR_NONE);
        return;
    }
    piece->grain[0] = pattern_read_point_name(r, list->first);
    piece->grain[1] = pattern_read_point_name(r, list->first->next);
    if (piece->grain[0] == piece->grain[1] && piece->grain[0] != PATTERN_NONE)
        json_fault(r->errs, list, &grain_form, ERR_NONE);
}

static void read_cup_group_of(const struct pattern_reader *r, const struct json_node *node)
{
    int group = pattern_find_cup_group(r->p, node->text);
    r->pieces[r->piece].cup_group = group;
    if (group == PATTERN_NONE)
        json_fault(r->errs, node, &no_cup_group, ERR_TEXT(node->text));
}

static void read_rectangle_piece(const struct pattern_reader *r, const struct json_node *n,
                                 struct pattern_value allowance)
{
    const struct json_node *sides = json_need(n, "rectangle", JSON_OBJECT, r->errs);
    const struct json_node *allowances = json_maybe(n, "allowances", JSON_OBJECT, r->errs);
    const struct json_node *ends = json_maybe(n, "ends", JSON_OBJECT, r->errs);
    const struct json_node *points = json_maybe(n, "points", JSON_OBJECT, r->errs);
    if (sides)
        read_rectangle(r, sides, allowance);
    if (points)
        read_points(r, points, 4);
    if (allowances)
        read_by_edge(r, allowances, read_allowance);
    if (ends)
        read_by_edge(r, ends, pattern_read_ends);
}

static void read_drawn_piece(const struct pattern_reader *r, const struct json_node *n, struct pattern_value allowance)
{
    const struct json_node *points = json_need(n, "points", JSON_OBJECT, r->errs);
    const struct json_node *outline = json_need(n, "outline", JSON_LIST, r->errs);
    if (points)
        read_points(r, points, 0);
    if (points && outline)
        read_outline(r, outline, allowance);
}

static void read_shape(const struct pattern_reader *r, const struct json_node *n, struct pattern_value allowance)
{
    static const char *const drawn[] = { "level",     "levels",  "bust_spread", "trial",   "name",        "label",
                                         "cup_group", "values",  "points",      "outline", "curves",      "allowance",
                                         "fold",      "grain",   "label_at",    "notches", "drill_marks", "darts",
                                         "lines",     "buttons", NULL };
    static const char *const rectangle[] = { "level",      "levels", "trial",     "name",    "label",
                                             "cup_group",  "values", "rectangle", "points",  "allowance",
                                             "allowances", "fold",   "label_at",  "notches", "drill_marks",
                                             "darts",      "lines",  "buttons",   "curves",  "ends",
                                             NULL };
    bool is_rectangle = json_find(n, "rectangle") != NULL;
    if (is_rectangle && json_find(n, "outline")) {
        json_fault(r->errs, n, &both_forms, ERR_NONE);
        return;
    }
    json_only(n, is_rectangle ? rectangle : drawn, r->errs);
    if (is_rectangle)
        read_rectangle_piece(r, n, allowance);
    else
        read_drawn_piece(r, n, allowance);
    const struct json_node *curves = json_maybe(n, "curves", JSON_LIST, r->errs);
    if (curves)
        read_curves(r, curves);
}

/* Whether all edges could be read: marks and fold stand on them. */
static bool has_edges(const struct pattern_piece *piece)
{
    for (size_t e = 0; e < piece->edge_count; e++)
        if (!piece->edges[e].step_count)
            return false;
    return piece->edge_count > 0;
}

static void read_details(const struct pattern_reader *r, const struct json_node *n, struct pattern_value allowance)
{
    struct pattern_piece *piece = &r->pieces[r->piece];
    const struct json_node *cup = json_maybe(n, "cup_group", JSON_TEXT, r->errs);
    const struct json_node *fold = json_maybe(n, "fold", JSON_TEXT, r->errs);
    const struct json_node *grain = json_maybe(n, "grain", JSON_LIST, r->errs);
    const struct json_node *label_at = json_maybe(n, "label_at", JSON_TEXT, r->errs);
    if (cup)
        read_cup_group_of(r, cup);
    if (fold && has_edges(piece))
        read_fold(r, fold, allowance);
    pattern_check_ends(r, piece);
    if (grain)
        read_grain(r, grain);
    if (label_at)
        piece->label_at = pattern_read_point_name(r, label_at);
    if (piece->edge_count)
        pattern_read_marks(r, n, piece);
    pattern_read_fitting(r, n);
}

static void read_piece(const struct pattern_reader *r, const struct json_node *n)
{
    struct pattern_piece *piece = &r->pieces[r->piece];
    const char *name = pattern_read_name(r, n);
    if (name && pattern_names_find(r->names, PATTERN_NAME_PIECE, PATTERN_NONE, name) != r->piece)
        json_fault(r->errs, n, &piece_twice, ERR_TEXT(name));
    pattern_calls(r, piece->name);
    piece->label = pattern_shown(r, json_maybe(n, "label", JSON_TEXT, r->errs) ? json_need_text(n, "label", r->errs)
                                                                               : piece->name);
    struct pattern_value allowance = { .mm = NULL };
    const struct json_node *given = json_find(n, "allowance"), *values = json_maybe(n, "values", JSON_OBJECT, r->errs);
    if (given)
        pattern_read_value(r, given, PATTERN_ALLOWANCE, &allowance);
    if (values)
        pattern_read_values(r, values, r->drawings[r->piece].values);
    read_shape(r, n, allowance);
    read_details(r, n, allowance);
}

void pattern_read_pieces(const struct pattern_reader *r, const struct json_node *list)
{
    struct pattern_reader in_piece = *r;
    if (!list->count)
        json_fault(r->errs, list, &no_pieces, ERR_NONE);
    in_piece.piece = 0;
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (!json_is(n, JSON_OBJECT, r->errs))
            continue;
        read_piece(&in_piece, n);
        in_piece.piece++;
    }
}
