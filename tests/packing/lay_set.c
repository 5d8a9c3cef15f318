#include "packing/lay_set.h"

#include "geometry/turn.h"
#include "json/tree.h"

#include <stdio.h>

static double number(const struct json_node *node)
{
    return node && node->type == JSON_NUMBER ? node->number : 0;
}

static size_t length(const struct json_node *node)
{
    return node && node->type == JSON_LIST ? node->count : 0;
}

static struct geometry_path read_outline(struct arena *a, const struct json_node *list)
{
    struct geometry_path path = { base_arena_alloc(a, length(list), sizeof(vec2)), 0, true };
    for (const struct json_node *n = length(list) ? list->first : NULL; n; n = n->next)
        path.points[path.count++] = (vec2){ number(n->first), number(n->first ? n->first->next : NULL) };
    if (path.count > 1) {
        vec2 *p = path.points, *last = &p[path.count - 1];
        if (p->x == last->x && p->y == last->y)
            path.count--;
    }
    if (geometry_path_area(path) < 0)
        geometry_path_reverse(path);
    return path;
}

static struct geometry_path turned(struct arena *a, struct geometry_path path, double degrees)
{
    struct geometry_path out = geometry_path_copy(a, path);
    struct geometry_mover mover = geometry_mover_of((struct geometry_motion){ .turn_deg = degrees });
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = geometry_move(&mover, out.points[i]);
    return out;
}

struct reading {
    struct arena *a;
    struct packing_shape *shapes;
    struct lay_shape *what;
    struct packing_item *items;
    size_t shape_count, item_count;
};

static int half_turn_of(const struct reading *r, size_t first, size_t count, size_t i)
{
    for (size_t k = first; k < first + count; k++)
        if (fabs(fabs(r->what[k].turn_deg - r->what[i].turn_deg) - 180) < 1e-9)
            return (int)k;
    return PACKING_NONE;
}

static void read_piece(struct reading *r, const struct json_node *piece, int number_of_piece)
{
    const struct json_node *turns = json_find(piece, "rotations_deg");
    struct geometry_path outline = read_outline(r->a, json_find(piece, "outline"));
    size_t first = r->shape_count, count = length(turns);
    int *as = base_arena_alloc(r->a, count, sizeof *as);
    for (const struct json_node *turn = count ? turns->first : NULL; turn; turn = turn->next) {
        as[r->shape_count - first] = (int)r->shape_count;
        r->what[r->shape_count] = (struct lay_shape){ number_of_piece, turn->number };
        r->shapes[r->shape_count++] = (struct packing_shape){ .outline = turned(r->a, outline, turn->number) };
    }
    for (size_t i = first; i < first + count; i++)
        r->shapes[i].half_turn = half_turn_of(r, first, count, i);
    for (double copies = number(json_find(piece, "count")); copies > 0; copies--)
        r->items[r->item_count++] = (struct packing_item){ as, count };
}

static void count_all(const struct json_node *pieces, size_t *shapes, size_t *items)
{
    for (const struct json_node *p = length(pieces) ? pieces->first : NULL; p; p = p->next) {
        *shapes += length(json_find(p, "rotations_deg"));
        *items += (size_t)number(json_find(p, "count"));
    }
}

bool lay_set_read(struct arena *a, const char *path, struct lay_set *out)
{
    struct err_list errs = { 0 };
    const struct json_node *root = json_read_file(a, path, &errs), *pieces = json_find(root, "pieces");
    size_t shapes = 0, items = 0;
    count_all(pieces, &shapes, &items);
    if (!items || !(number(json_find(root, "strip_width")) > 0)) {
        fprintf(stderr, "%s: no strip_width or no pieces\n", path);
        return false;
    }
    struct reading r = { .a = a,
                         .shapes = base_arena_alloc(a, shapes, sizeof *r.shapes),
                         .what = base_arena_alloc(a, shapes, sizeof *r.what),
                         .items = base_arena_alloc(a, items, sizeof *r.items) };
    int index = 0;
    for (const struct json_node *p = pieces->first; p; p = p->next)
        read_piece(&r, p, index++);
    out->problem = (struct packing_problem){ .width = number(json_find(root, "strip_width")),
                                             .shapes = r.shapes,
                                             .shape_count = r.shape_count,
                                             .items = r.items,
                                             .item_count = r.item_count };
    out->shapes = r.what;
    return true;
}
