/* Writes the pattern that a sheet's truth (pattern_sheets.py) would be lifted to if nothing on the way there erred: its
 * outlines as the drawing has them, flattened, with its marks and words. What lifting_write makes of that is held
 * against the truth by truth.py.
 *
 *     write_truth TRUTH PATTERN [CHORD GRID [ROUNDS]]
 *
 * Curves are drawn in chords that lie so near to them (mm), points rounded to a grid of so many mm. With rounds the
 * pattern is written so often, and the processor time of the quickest is printed, in ms. */
#include "base/file.h"
#include "geometry/cubic.h"
#include "lifting/write.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "json/tree.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { MARKS_MOST = 2000 };

struct reader {
    struct arena *a;
    const struct json_node *top;
    size_t size_count;
    const char **sizes;
    double chord_mm, grid_mm; /* grid 0: none */
};

static vec2 point_of(const struct json_node *pair)
{
    return (vec2){ pair->first->number, pair->first->next->number };
}

static struct geometry_path path_of(struct arena *a, const struct json_node *list)
{
    struct geometry_path p = { base_arena_alloc(a, list->count, sizeof(vec2)), list->count, false };
    for (const struct json_node *n = list->first; n; n = n->next)
        p.points[n->index] = point_of(n);
    return p;
}

static vec2 on_grid(const struct reader *r, vec2 p)
{
    if (!(r->grid_mm > 0))
        return p;
    return (vec2){ round(p.x / r->grid_mm) * r->grid_mm, round(p.y / r->grid_mm) * r->grid_mm };
}

/* An outline without its edges' ends twice. */
static struct geometry_path outline_of(const struct reader *r, const struct json_node *edges)
{
    struct arena *a = r->a;
    struct geometry_path out = { NULL, 0, true };
    size_t cap = 0;
    for (const struct json_node *e = edges->first; e; e = e->next) {
        struct geometry_path p = path_of(a, json_find(e, "points"));
        struct geometry_cubic c = { { p.points[0] } };
        for (size_t i = 1; i < 4 && p.count == 4; i++)
            c.p[i] = p.points[i];
        size_t steps = p.count == 4 ? geometry_cubic_steps(c, r->chord_mm) : 1;
        for (size_t i = 0; i < steps; i++) {
            vec2 at = on_grid(r, geometry_cubic_at(c, (double)i / (double)steps));
            if (out.count && vec2_length(vec2_sub(at, out.points[out.count - 1])) < 1e-9)
                continue;
            out.points = base_arena_grow(a, out.points, &cap, out.count + 1, sizeof(vec2));
            out.points[out.count++] = at;
        }
    }
    return out;
}

static struct lifting_mark *add_mark(struct lifting_piece *piece, enum lifting_mark_kind kind, int size,
                                     struct geometry_path path)
{
    struct lifting_mark *marks = (struct lifting_mark *)piece->marks, *mark = &marks[piece->mark_count++];
    *mark = (struct lifting_mark){ .kind = kind, .size = size, .path = { path } };
    return mark;
}

static struct geometry_path one_point(struct arena *a, vec2 at)
{
    struct geometry_path p = { base_arena_alloc(a, 1, sizeof(vec2)), 1, false };
    p.points[0] = at;
    return p;
}

static void read_notches(struct arena *a, const struct json_node *list, int size, struct lifting_piece *piece)
{
    for (const struct json_node *n = list->first; n; n = n->next) {
        const char *kind = json_find(n, "kind")->text;
        struct lifting_mark *mark = add_mark(piece, LIFTING_NOTCH, size, one_point(a, point_of(json_find(n, "at"))));
        mark->is_v = strcmp(kind, "v") == 0;
        mark->apart_mm = strcmp(kind, "double") == 0 ? 6 : 0;
    }
}

static void read_size(const struct reader *r, const struct json_node *one, int size, const char *fold,
                      struct lifting_piece *piece)
{
    struct lifting_outline *outlines = (struct lifting_outline *)piece->outlines;
    const struct json_node *edges = json_find(one, "outline");
    outlines[size] = (struct lifting_outline){ .there = true, .path = { outline_of(r, edges) } };
    read_notches(r->a, json_find(one, "notches"), size, piece);
    for (const struct json_node *n = json_find(one, "drills")->first; n; n = n->next)
        add_mark(piece, LIFTING_DRILL, size, one_point(r->a, point_of(n)));
    for (const struct json_node *n = json_find(one, "darts")->first; n; n = n->next)
        add_mark(piece, LIFTING_DART, size, path_of(r->a, n));
    for (const struct json_node *e = edges->first; e && fold; e = e->next)
        if (strcmp(json_find(e, "edge")->text, fold) == 0)
            add_mark(piece, LIFTING_FOLD, size, path_of(r->a, json_find(e, "points")));
}

static void read_cuts(const struct json_node *list, struct lifting_words *words)
{
    static const char *const cloths[] = { "fabric", "interfacing", "lining" };
    for (const struct json_node *n = list->first; n; n = n->next) {
        const struct json_node *material = json_find(n, "material");
        unsigned cloth = 0;
        for (unsigned c = 0; c < 3 && material->type == JSON_TEXT; c++)
            if (strcmp(material->text, cloths[c]) == 0)
                cloth = c;
        words->cloths |= 1u << cloth;
        words->counts[cloth] = (int)json_find(n, "count")->number;
        words->count = words->counts[cloth];
        words->pairs = json_find(n, "pairs")->type == JSON_TRUE;
        words->on_fold = words->on_fold || json_find(n, "on_fold")->type == JSON_TRUE;
    }
}

static void read_piece(const struct reader *r, const struct json_node *n, struct lifting_piece *piece)
{
    const struct json_node *grain = json_find(n, "grain"), *fold = json_find(n, "fold_edge");
    const struct json_node *lengthen = json_find(n, "lengthen");
    *piece = (struct lifting_piece){ .cup_group = LIFTING_NONE, .grain = { 0, 1 } };
    piece->one_size = json_find(n, "common")->type == JSON_TRUE;
    piece->outlines = base_arena_alloc(r->a, r->size_count, sizeof *piece->outlines);
    piece->marks = base_arena_alloc(r->a, MARKS_MOST, sizeof *piece->marks);
    piece->words.name = json_find(n, "name")->text;
    read_cuts(json_find(n, "cuts"), &piece->words);
    if (grain->type == JSON_LIST)
        piece->grain = vec2_unit(vec2_sub(point_of(grain->first->next), point_of(grain->first)));
    if (lengthen->type == JSON_LIST)
        add_mark(piece, LIFTING_LENGTHEN, LIFTING_NONE, path_of(r->a, lengthen));
    for (size_t k = 0; k < r->size_count; k++) {
        const struct json_node *one = json_find(json_find(n, "sizes"), r->sizes[k]);
        if (one)
            read_size(r, one, (int)k, fold->type == JSON_TEXT ? fold->text : NULL, piece);
    }
}

static struct lifting read_truth(struct reader *r, struct lifting_division *division)
{
    const struct json_node *sizes = json_find(r->top, "sizes"), *list = json_find(r->top, "pieces");
    r->size_count = sizes->count;
    r->sizes = base_arena_alloc(r->a, sizes->count, sizeof(const char *));
    for (const struct json_node *n = sizes->first; n; n = n->next)
        r->sizes[n->index] = n->text;
    *division = (struct lifting_division){ .sizes = r->sizes, .size_count = r->size_count };
    struct lifting_piece *pieces = base_arena_alloc(r->a, list->count, sizeof *pieces);
    for (const struct json_node *n = list->first; n; n = n->next)
        read_piece(r, n, &pieces[n->index]);
    return (struct lifting){ .division = division, .pieces = pieces, .piece_count = list->count };
}

static void print_time(struct arena *a, const struct lifting *l, const struct lifting_wish *wish, int rounds,
                       struct err_list *errs)
{
    double best = 1e9;
    for (int i = 0; i < rounds; i++) {
        clock_t from = clock();
        lifting_write(a, l, wish, errs);
        double ms = 1e3 * (double)(clock() - from) / CLOCKS_PER_SEC;
        best = ms < best ? ms : best;
    }
    printf("%.1f\n", best);
}

/* Whether the program itself reads the file and drafts it in every size. */
static bool can_be_drafted(struct arena *a, const char *text, struct err_list *errs)
{
    const struct pattern *p = pattern_parse(a, "lifted", text, strlen(text), errs);
    struct draft draft;
    for (size_t k = 0; p && k < p->size_count; k++)
        make_at_size(a, p, (double)k, PATTERN_NONE, PATTERN_NONE, &draft, errs);
    return errs->faults == 0;
}

int main(int argc, char **argv)
{
    struct arena *a = base_arena_create();
    struct err_list *errs = base_err_list_create();
    struct reader r = { .a = a, .top = argc > 2 ? json_read_file(a, argv[1], errs) : NULL };
    struct lifting_division division;
    bool ok = false;
    r.chord_mm = argc > 4 ? atof(argv[3]) : DRAWING_FLAT_MM;
    r.grid_mm = argc > 4 ? atof(argv[4]) : 0;
    if (r.top) {
        struct lifting l = read_truth(&r, &division);
        struct lifting_wish wish = { .name = "Sheet", .unit = UNITS_MM, .cutting_line = true };
        const char *text = lifting_write(a, &l, &wish, errs);
        ok = text && base_file_save(argv[2], text, strlen(text), errs) && can_be_drafted(a, text, errs);
        if (argc > 5)
            print_time(a, &l, &wish, atoi(argv[5]), errs);
    }
    for (int i = 0; i < errs->count; i++)
        fprintf(stderr, "%s: %s, %s\n", errs->items[i].kind->code, errs->items[i].args[0].text,
                errs->items[i].args[1].text);
    base_err_list_destroy(errs);
    base_arena_destroy(a);
    return ok ? 0 : 1;
}
