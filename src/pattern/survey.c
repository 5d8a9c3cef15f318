/* First pass over the pieces: what everything is called. The second pass finds any name, also further down the file. */
#include "pattern/reader.h"

#include "pattern/word.h"

#include <string.h>

static const struct err_kind is_figure = { "pattern.value_is_figure", ERR_FAULT,
                                           "“{0}” is a measurement already; give the value another name" };
static const struct err_kind value_name = { "pattern.value_name", ERR_FAULT,
                                            "no formula can call a value “{0}”; a name is words of letters, digits and "
                                            "_ with one space between, and begins with a letter" };

struct pattern_named *pattern_survey_values(const struct pattern_reader *r, const struct json_node *object,
                                            size_t *count)
{
    *count = 0;
    if (!object || object->type != JSON_OBJECT)
        return NULL;
    struct pattern_named *named = base_arena_alloc(r->a, object->count, sizeof *named);
    for (const struct json_node *n = object->first; n; n = n->next)
        named[(*count)++].name = n->key;
    return named;
}

void pattern_read_values(const struct pattern_reader *r, const struct json_node *object, struct pattern_named *named)
{
    for (const struct json_node *n = object->first; n; n = n->next) {
        if (pattern_find_figure(r->p, n->key) != PATTERN_NONE)
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

static void name_points(const struct json_node *n, struct pattern_piece *piece, struct pattern_point *points)
{
    const struct json_node *list = json_find(n, "points");
    if (json_find(n, "rectangle"))
        for (int i = 0; i < 4; i++)
            points[piece->point_count++].name = pattern_corners[i].point;
    if (count_of(list, JSON_OBJECT))
        for (const struct json_node *p = list->first; p; p = p->next)
            points[piece->point_count++].name = p->key;
}

static void name_arc_ends(const struct json_node *edges, struct pattern_piece *piece, struct pattern_point *points)
{
    for (const struct json_node *e = first_of(edges); e; e = e->next) {
        for (const struct json_node *s = first_of(json_find(e, "path")); s; s = s->next) {
            const char *end = text_of(s, "end");
            if (end && json_find(s, "centre") && pattern_find_point(piece, end) == PATTERN_NONE)
                points[piece->point_count++].name = end;
        }
    }
}

static void name_edges(const struct json_node *list, struct pattern_edge *edges, size_t *count)
{
    for (const struct json_node *e = first_of(list); e; e = e->next)
        if (e->type == JSON_OBJECT)
            edges[(*count)++].name = text_of(e, "name");
}

static void name_parts(const struct pattern_reader *r, const struct json_node *n, struct pattern_piece *piece,
                       struct pattern_drawing *d)
{
    const struct json_node *outline = json_find(n, "outline"), *curves = json_find(n, "curves");
    size_t points = 4 + count_of(json_find(n, "points"), JSON_OBJECT) + steps_in(outline) + steps_in(curves);
    size_t edges = 4 + count_of(outline, JSON_LIST) + count_of(curves, JSON_LIST);
    d->points = base_arena_alloc(r->a, points, sizeof *d->points);
    d->edges = base_arena_alloc(r->a, edges, sizeof *d->edges);
    piece->points = d->points;
    piece->edges = d->edges;
    name_points(n, piece, d->points);
    d->written_count = piece->point_count;
    name_arc_ends(outline, piece, d->points);
    name_arc_ends(curves, piece, d->points);
    if (json_find(n, "rectangle"))
        for (int i = 0; i < 4; i++)
            d->edges[piece->edge_count++].name = pattern_corners[i].edge;
    else
        name_edges(outline, d->edges, &piece->edge_count);
    name_edges(curves, d->edges + piece->edge_count, &piece->curve_count);
    d->values = pattern_survey_values(r, json_find(n, "values"), &piece->value_count);
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
        name_parts(r, n, &r->pieces[i], &r->drawings[i]);
    }
}
