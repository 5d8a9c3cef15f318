/* First pass over the pieces: what everything is called. The second pass finds any name, also further down the file. */
#include "pattern/reader.h"

#include "pattern/word.h"

static const struct err_kind is_figure = { "pattern.value_is_figure", ERR_FAULT,
                                           BASE_TR("“{0}” is a measurement already; give the value another name") };
static const struct err_kind value_name = {
    "pattern.value_name", ERR_FAULT,
    BASE_TR("no formula can call a value “{0}”; a name is words of letters, digits and "
            "_ with one space between, and begins with a letter")
};

struct pattern_named *pattern_survey_values(const struct pattern_reader *r, const struct json_node *object, int piece,
                                            size_t *count)
{
    *count = 0;
    if (!object || object->type != JSON_OBJECT)
        return NULL;
    struct pattern_named *named = base_arena_alloc(r->a, object->count, sizeof *named);
    for (const struct json_node *n = object->first; n; n = n->next) {
        pattern_names_add(r->names, PATTERN_NAME_VALUE, piece, n->key, (int)*count);
        named[(*count)++].name = n->key;
    }
    return named;
}

void pattern_read_values(const struct pattern_reader *r, const struct json_node *object, struct pattern_named *named)
{
    for (const struct json_node *n = object->first; n; n = n->next) {
        if (pattern_names_find(r->names, PATTERN_NAME_FIGURE, PATTERN_NONE, n->key) != PATTERN_NONE)
            json_fault(r->errs, n, &is_figure, ERR_TEXT(n->key));
        if (!pattern_is_formula_name(n->key))
            json_fault(r->errs, n, &value_name, ERR_TEXT(json_shown(r->errs->arena, n->key)));
        named[n->index].place = json_place(r->a, n);
        pattern_read_value(r, n, PATTERN_ANY, &named[n->index].value);
    }
}

static const char *text_of(const struct json_node *object, const char *name)
{
    const struct json_node *node = json_find(object, name);
    return node && node->type == JSON_TEXT ? node->text : NULL;
}

/* The first member of a list; NULL of anything else. */
static const struct json_node *first_of(const struct json_node *list)
{
    return list && list->type == JSON_LIST ? list->first : NULL;
}

static size_t count_of(const struct json_node *node, enum json_type type)
{
    return node && node->type == type ? node->count : 0;
}

/* Every step of a list of edges that is written as an object may be an arc, whose end needs no place among the points.
 */
static size_t steps_in(const struct json_node *edges)
{
    size_t steps = 0;
    for (const struct json_node *e = first_of(edges); e; e = e->next)
        steps += count_of(json_find(e, "path"), JSON_LIST);
    return steps;
}

/* A piece whose parts are being named. */
struct naming {
    const struct pattern_reader *r;
    int index;
    struct pattern_piece *piece;
    struct pattern_drawing *d;
};

static void name_point(const struct naming *g, const char *name)
{
    size_t i = g->piece->point_count++;
    g->d->points[i].name = name;
    pattern_names_add(g->r->names, PATTERN_NAME_POINT, g->index, name, (int)i);
}

static void name_edge(const struct naming *g, size_t *count, const char *name)
{
    size_t i = g->piece->edge_count + g->piece->curve_count;
    g->d->edges[i].name = name;
    pattern_names_add(g->r->names, PATTERN_NAME_EDGE, g->index, name, (int)i);
    (*count)++;
}

static void name_points(const struct naming *g, const struct json_node *n)
{
    const struct json_node *list = json_find(n, "points");
    if (json_find(n, "rectangle"))
        for (int i = 0; i < 4; i++)
            name_point(g, pattern_corners[i].point);
    if (count_of(list, JSON_OBJECT))
        for (const struct json_node *p = list->first; p; p = p->next)
            name_point(g, p->key);
}

static void name_arc_ends(const struct naming *g, const struct json_node *edges)
{
    for (const struct json_node *e = first_of(edges); e; e = e->next) {
        for (const struct json_node *s = first_of(json_find(e, "path")); s; s = s->next) {
            const char *end = text_of(s, "end");
            bool is_new = end && pattern_names_find(g->r->names, PATTERN_NAME_POINT, g->index, end) == PATTERN_NONE;
            if (is_new && json_find(s, "centre"))
                name_point(g, end);
        }
    }
}

static void name_edges(const struct naming *g, const struct json_node *list, size_t *count)
{
    for (const struct json_node *e = first_of(list); e; e = e->next)
        if (e->type == JSON_OBJECT)
            name_edge(g, count, text_of(e, "name"));
}

static void name_parts(const struct pattern_reader *r, const struct json_node *n, int index)
{
    struct pattern_piece *piece = &r->pieces[index];
    struct pattern_drawing *d = &r->drawings[index];
    const struct naming g = { r, index, piece, d };
    const struct json_node *outline = json_find(n, "outline"), *curves = json_find(n, "curves");
    size_t points = 4 + count_of(json_find(n, "points"), JSON_OBJECT) + steps_in(outline) + steps_in(curves);
    size_t edges = 4 + count_of(outline, JSON_LIST) + count_of(curves, JSON_LIST);
    d->points = base_arena_alloc(r->a, points, sizeof *d->points);
    d->edges = base_arena_alloc(r->a, edges, sizeof *d->edges);
    piece->points = d->points;
    piece->edges = d->edges;
    name_points(&g, n);
    d->written_count = piece->point_count;
    name_arc_ends(&g, outline);
    name_arc_ends(&g, curves);
    if (json_find(n, "rectangle"))
        for (int i = 0; i < 4; i++)
            name_edge(&g, &piece->edge_count, pattern_corners[i].edge);
    else
        name_edges(&g, outline, &piece->edge_count);
    name_edges(&g, curves, &piece->curve_count);
    d->values = pattern_survey_values(r, json_find(n, "values"), index, &piece->value_count);
    piece->values = d->values;
}

void pattern_survey(struct pattern_reader *r, const struct json_node *pieces)
{
    r->pieces = base_arena_alloc(r->a, pieces->count, sizeof *r->pieces);
    r->drawings = base_arena_alloc(r->a, pieces->count, sizeof *r->drawings);
    r->p->pieces = r->pieces;
    for (const struct json_node *n = pieces->first; n; n = n->next) {
        if (n->type != JSON_OBJECT)
            continue;
        size_t i = r->p->piece_count++;
        const char *name = text_of(n, "name");
        r->pieces[i] = (struct pattern_piece){ .name = name ? name : "",
                                               .cup_group = PATTERN_NONE,
                                               .fold = PATTERN_NONE,
                                               .grain = { PATTERN_NONE, PATTERN_NONE },
                                               .label_at = PATTERN_NONE,
                                               .place = json_place(r->a, n) };
        pattern_names_add(r->names, PATTERN_NAME_PIECE, PATTERN_NONE, name, (int)i);
        name_parts(r, n, (int)i);
    }
}
