/* The pieces of a pattern file: drawn ones and rectangles; both become points and edges. */
#include "pattern/reader.h"

#include <string.h>

static const struct err_kind no_pieces = { "pattern.no_pieces", ERR_FAULT, "the pattern has no piece" };
static const struct err_kind piece_twice = { "pattern.piece_twice", ERR_FAULT, "a piece “{0}” is there already" };
static const struct err_kind no_cup_group = { "pattern.no_cup_group", ERR_FAULT, "the pattern has no cup group “{0}”" };
static const struct err_kind no_point = { "pattern.no_point", ERR_FAULT, "piece “{0}” has no point “{1}”" };
static const struct err_kind no_edge = { "pattern.no_edge", ERR_FAULT, "piece “{0}” has no edge “{1}”" };
static const struct err_kind point_twice = { "pattern.point_twice", ERR_FAULT,
                                             "“{0}” is the name of one of the rectangle's corners" };
static const struct err_kind edge_twice = { "pattern.edge_twice", ERR_FAULT, "an edge “{0}” is there already" };
static const struct err_kind point_form = { "pattern.point_form", ERR_FAULT,
                                            "a point is a list of two values, across and up" };
static const struct err_kind step_form = {
    "pattern.step_form", ERR_FAULT, "a step is a point's name, or a list of three names: control, control, end"
};
static const struct err_kind path_short = { "pattern.path_short", ERR_FAULT,
                                            "a path needs a starting point and at least one step" };
static const struct err_kind gap = {
    "pattern.gap", ERR_FAULT, "starts at point “{0}”, but edge “{1}” before it ends at “{2}”; an outline has no gap"
};
static const struct err_kind too_few_edges = {
    "pattern.too_few_edges", ERR_FAULT, "an outline needs at least {0} edges, or one that curves back to its start"
};
static const struct err_kind fold_curved = { "pattern.fold_curved", ERR_FAULT,
                                             "edge “{0}” lies on the fold: it must be one straight line" };
static const struct err_kind fold_allowance = { "pattern.fold_allowance", ERR_FAULT,
                                                "edge “{0}” lies on the fold: it has no allowance" };
static const struct err_kind grain_form = { "pattern.grain_form", ERR_FAULT,
                                            "the grain is a list of two different points' names" };
static const struct err_kind both_forms = { "pattern.both_forms", ERR_FAULT,
                                            "a piece has an outline or is a rectangle, not both" };

int pattern_read_point_name(const struct pattern_reader *r, const struct pattern_piece *piece,
                            const struct json_node *node)
{
    if (!json_is(node, JSON_TEXT, r->errs))
        return PATTERN_NONE;
    int found = pattern_find_point(piece, node->text);
    if (found == PATTERN_NONE)
        json_fault(r->errs, node, &no_point, ERR_TEXT(piece->name), ERR_TEXT(node->text));
    return found;
}

int pattern_read_edge_name(const struct pattern_reader *r, const struct pattern_piece *piece,
                           const struct json_node *node)
{
    if (!json_is(node, JSON_TEXT, r->errs))
        return PATTERN_NONE;
    int found = pattern_find_edge(piece, node->text);
    if (found == PATTERN_NONE)
        json_fault(r->errs, node, &no_edge, ERR_TEXT(piece->name), ERR_TEXT(node->text));
    return found;
}

/* Adds to the points there are: a rectangle has its corners already. */
static void read_points(const struct pattern_reader *r, const struct json_node *object, struct pattern_piece *piece)
{
    struct pattern_point *points = base_arena_alloc(r->a, piece->point_count + object->count, sizeof *points);
    if (piece->point_count)
        memcpy(points, piece->points, piece->point_count * sizeof *points);
    piece->points = points;
    for (const struct json_node *n = object->first; n; n = n->next) {
        if (pattern_find_point(piece, n->key) != PATTERN_NONE)
            json_fault(r->errs, n, &point_twice, ERR_TEXT(n->key));
        struct pattern_point *point = &points[piece->point_count++];
        point->name = n->key;
        if (n->type != JSON_LIST || n->count != 2) {
            json_fault(r->errs, n, &point_form, ERR_NONE);
            continue;
        }
        pattern_read_value(r, n->first, PATTERN_ANY, &point->x);
        pattern_read_value(r, n->first->next, PATTERN_ANY, &point->y);
    }
}

static struct pattern_step read_step(const struct pattern_reader *r, const struct pattern_piece *piece,
                                     const struct json_node *node)
{
    struct pattern_step step = { { PATTERN_NONE, PATTERN_NONE }, PATTERN_NONE };
    if (node->type == JSON_TEXT) {
        step.end = pattern_read_point_name(r, piece, node);
    } else if (node->type == JSON_LIST && node->count == 3) {
        step.control[0] = pattern_read_point_name(r, piece, node->first);
        step.control[1] = pattern_read_point_name(r, piece, node->first->next);
        step.end = pattern_read_point_name(r, piece, node->first->next->next);
    } else {
        json_fault(r->errs, node, &step_form, ERR_NONE);
    }
    return step;
}

static void read_path(const struct pattern_reader *r, const struct json_node *path, const struct pattern_piece *piece,
                      struct pattern_edge *edge)
{
    if (path->count < 2) {
        json_fault(r->errs, path, &path_short, ERR_NONE);
        return;
    }
    struct pattern_step *steps = base_arena_alloc(r->a, path->count - 1, sizeof *steps);
    edge->start = pattern_read_point_name(r, piece, path->first);
    for (const struct json_node *n = path->first->next; n; n = n->next)
        steps[edge->step_count++] = read_step(r, piece, n);
    edge->steps = steps;
}

static void read_edge(const struct pattern_reader *r, const struct json_node *n, struct pattern_value piece_allowance,
                      const struct pattern_piece *piece, struct pattern_edge *edge)
{
    static const char *const fields[] = { "name", "path", "allowance", NULL };
    edge->start = PATTERN_NONE;
    edge->allowance = piece_allowance;
    edge->place = json_place(r->a, n);
    json_only(n, fields, r->errs);
    const char *name = pattern_read_name(r, n);
    if (name && pattern_find_edge(piece, name) != PATTERN_NONE)
        json_fault(r->errs, n, &edge_twice, ERR_TEXT(name));
    edge->name = name;
    const struct json_node *path = json_need(n, "path", JSON_LIST, r->errs);
    if (path)
        read_path(r, path, piece, edge);
    const struct json_node *allowance = json_find(n, "allowance");
    if (allowance)
        pattern_read_value(r, allowance, PATTERN_ALLOWANCE, &edge->allowance);
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
            if (piece->edges[e].steps[s].control[0] == PATTERN_NONE)
                lines++;
            else
                curves++;
    return curves > 0 || lines >= 3;
}

static void read_outline(const struct pattern_reader *r, const struct json_node *list,
                         struct pattern_value piece_allowance, struct pattern_piece *piece)
{
    struct pattern_edge *edges = base_arena_alloc(r->a, list->count, sizeof *edges);
    piece->edges = edges;
    int before = r->errs->faults;
    for (const struct json_node *n = list->first; n; n = n->next)
        if (json_is(n, JSON_OBJECT, r->errs)) {
            read_edge(r, n, piece_allowance, piece, &edges[piece->edge_count]);
            piece->edge_count++;
        }
    check_closed(r, list, piece);
    if (r->errs->faults == before && !can_enclose(piece))
        json_fault(r->errs, list, &too_few_edges, ERR_NUMBER(3));
}

/* Corners and edges of a rectangle, counter-clockwise from the near left corner. */
static const struct {
    const char *point, *edge;
    bool right, top;
} corner_rows[] = {
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
                           struct pattern_value piece_allowance, struct pattern_piece *piece)
{
    struct pattern_value width, height;
    if (!read_sides(r, object, &width, &height))
        return;
    static const struct pattern_value zero = { NULL, 0 };
    struct pattern_point *points = base_arena_alloc(r->a, 4, sizeof *points);
    struct pattern_edge *edges = base_arena_alloc(r->a, 4, sizeof *edges);
    for (int i = 0; i < 4; i++) {
        struct pattern_step *step = base_arena_alloc(r->a, 1, sizeof *step);
        *step = (struct pattern_step){ { PATTERN_NONE, PATTERN_NONE }, (i + 1) % 4 };
        points[i] = (struct pattern_point){ corner_rows[i].point, corner_rows[i].right ? width : zero,
                                            corner_rows[i].top ? height : zero };
        edges[i] = (struct pattern_edge){ corner_rows[i].edge, i, step, 1, piece_allowance, piece->place };
    }
    piece->points = points;
    piece->point_count = 4;
    piece->edges = edges;
    piece->edge_count = 4;
    piece->grain[0] = 0; /* near left to far left: along the height */
    piece->grain[1] = 3;
}

/* Allowances named by edge, for a rectangle's four. */
static void read_allowances(const struct pattern_reader *r, const struct json_node *object, struct pattern_piece *piece)
{
    struct pattern_edge *edges = base_arena_alloc(r->a, piece->edge_count, sizeof *edges);
    memcpy(edges, piece->edges, piece->edge_count * sizeof *edges);
    for (const struct json_node *n = object->first; n; n = n->next) {
        int edge = pattern_find_edge(piece, n->key);
        if (edge == PATTERN_NONE)
            json_fault(r->errs, n, &no_edge, ERR_TEXT(piece->name), ERR_TEXT(n->key));
        else
            pattern_read_value(r, n, PATTERN_ALLOWANCE, &edges[edge].allowance);
    }
    piece->edges = edges;
}

/* Whether an allowance was given to this edge by itself rather than to the whole piece. */
static bool allowance_is_own(struct pattern_value own, struct pattern_value piece_allowance)
{
    bool lit = false;
    for (size_t i = 0; i < own.count; i++)
        lit = lit || own.mm[i] > 0;
    return lit && own.mm != piece_allowance.mm;
}

static void read_fold(const struct pattern_reader *r, const struct json_node *node,
                      struct pattern_value piece_allowance, struct pattern_piece *piece)
{
    int fold = pattern_read_edge_name(r, piece, node);
    if (fold == PATTERN_NONE)
        return;
    struct pattern_edge *edges = base_arena_alloc(r->a, piece->edge_count, sizeof *edges);
    memcpy(edges, piece->edges, piece->edge_count * sizeof *edges);
    if (edges[fold].step_count != 1 || edges[fold].steps[0].control[0] != PATTERN_NONE)
        json_fault(r->errs, node, &fold_curved, ERR_TEXT(node->text));
    if (allowance_is_own(edges[fold].allowance, piece_allowance))
        json_fault(r->errs, node, &fold_allowance, ERR_TEXT(node->text));
    edges[fold].allowance = (struct pattern_value){ NULL, 0 };
    piece->edges = edges;
    piece->fold = fold;
}

static void read_grain(const struct pattern_reader *r, const struct json_node *list, struct pattern_piece *piece)
{
    if (list->count != 2) {
        json_fault(r->errs, list, &grain_form, ERR_NONE);
        return;
    }
    piece->grain[0] = pattern_read_point_name(r, piece, list->first);
    piece->grain[1] = pattern_read_point_name(r, piece, list->first->next);
    if (piece->grain[0] == piece->grain[1] && piece->grain[0] != PATTERN_NONE)
        json_fault(r->errs, list, &grain_form, ERR_NONE);
}

static void read_cup_group_of(const struct pattern_reader *r, const struct json_node *node, struct pattern_piece *piece)
{
    piece->cup_group = pattern_find_cup_group(r->p, node->text);
    if (piece->cup_group == PATTERN_NONE)
        json_fault(r->errs, node, &no_cup_group, ERR_TEXT(node->text));
}

static void read_shape(const struct pattern_reader *r, const struct json_node *n, struct pattern_value allowance,
                       struct pattern_piece *piece)
{
    static const char *const drawn[] = { "name",        "label", "cup_group", "points",   "outline",
                                         "allowance",   "fold",  "grain",     "label_at", "notches",
                                         "drill_marks", "darts", "lines",     NULL };
    static const char *const rectangle[] = { "name",        "label",      "cup_group", "rectangle", "points",
                                             "allowance",   "allowances", "fold",      "label_at",  "notches",
                                             "drill_marks", "darts",      "lines",     NULL };
    if (json_find(n, "rectangle") && json_find(n, "outline")) {
        json_fault(r->errs, n, &both_forms, ERR_NONE);
        return;
    }
    if (json_find(n, "rectangle")) {
        const struct json_node *sides = json_need(n, "rectangle", JSON_OBJECT, r->errs);
        const struct json_node *allowances = json_maybe(n, "allowances", JSON_OBJECT, r->errs);
        const struct json_node *points = json_maybe(n, "points", JSON_OBJECT, r->errs);
        json_only(n, rectangle, r->errs);
        if (sides)
            read_rectangle(r, sides, allowance, piece);
        if (points)
            read_points(r, points, piece);
        if (allowances && piece->edge_count)
            read_allowances(r, allowances, piece);
        return;
    }
    json_only(n, drawn, r->errs);
    const struct json_node *points = json_need(n, "points", JSON_OBJECT, r->errs);
    const struct json_node *outline = json_need(n, "outline", JSON_LIST, r->errs);
    if (points)
        read_points(r, points, piece);
    if (points && outline)
        read_outline(r, outline, allowance, piece);
}

static void read_piece(const struct pattern_reader *r, const struct json_node *n, struct pattern_piece *piece)
{
    *piece = (struct pattern_piece){ .cup_group = PATTERN_NONE,
                                     .fold = PATTERN_NONE,
                                     .grain = { PATTERN_NONE, PATTERN_NONE },
                                     .label_at = PATTERN_NONE,
                                     .place = json_place(r->a, n) };
    const char *name = pattern_read_name(r, n);
    if (name && pattern_find_piece(r->p, name) != PATTERN_NONE)
        json_fault(r->errs, n, &piece_twice, ERR_TEXT(name));
    piece->name = name ? name : "";
    piece->label = json_maybe(n, "label", JSON_TEXT, r->errs) ? json_need_text(n, "label", r->errs) : piece->name;
    struct pattern_value allowance = { NULL, 0 };
    const struct json_node *given = json_find(n, "allowance");
    if (given)
        pattern_read_value(r, given, PATTERN_ALLOWANCE, &allowance);
    read_shape(r, n, allowance, piece);

    const struct json_node *cup = json_maybe(n, "cup_group", JSON_TEXT, r->errs);
    const struct json_node *fold = json_maybe(n, "fold", JSON_TEXT, r->errs);
    const struct json_node *grain = json_maybe(n, "grain", JSON_LIST, r->errs);
    const struct json_node *label_at = json_maybe(n, "label_at", JSON_TEXT, r->errs);
    if (cup)
        read_cup_group_of(r, cup, piece);
    if (fold && piece->edge_count)
        read_fold(r, fold, allowance, piece);
    if (grain)
        read_grain(r, grain, piece);
    if (label_at)
        piece->label_at = pattern_read_point_name(r, piece, label_at);
    if (piece->edge_count)
        pattern_read_marks(r, n, piece);
}

void pattern_read_pieces(const struct pattern_reader *r, const struct json_node *list)
{
    if (!list->count)
        json_fault(r->errs, list, &no_pieces, ERR_NONE);
    struct pattern_piece *pieces = base_arena_alloc(r->a, list->count, sizeof *pieces);
    r->p->pieces = pieces;
    for (const struct json_node *n = list->first; n; n = n->next) {
        if (!json_is(n, JSON_OBJECT, r->errs))
            continue;
        read_piece(r, n, &pieces[r->p->piece_count]);
        r->p->piece_count++;
    }
}
