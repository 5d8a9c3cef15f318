/* Any bytes as one piece: points on a grid of half millimetres or of centimetres, straight and curved edges,
 * allowances, a fold and a folded dart. It comes out sound or is told, and its edges, where no dart is folded, add up
 * to its outline.
 */
#include "fuzz/sound_piece.h"
#include "support/at_size.h"

#include <string.h>

enum { MOST_POINTS = 24, SIZES = 2, DART_POINTS = 3 };

struct bytes {
    const uint8_t *data;
    size_t left;
};

/* The next byte; 0 at the end. */
static int next(struct bytes *b)
{
    if (!b->left)
        return 0;
    b->left--;
    return *b->data++;
}

static struct pattern_value value(struct arena *a, double first, double second)
{
    double *mm = base_arena_alloc(a, SIZES, sizeof *mm);
    mm[0] = first;
    mm[1] = second;
    return (struct pattern_value){ .mm = mm, .count = SIZES };
}

static struct pattern_value coordinate(struct arena *a, struct bytes *b, double grid_mm)
{
    double first = (next(b) - 128) * grid_mm;
    return value(a, first, first + next(b) % 4 * grid_mm);
}

static struct pattern_point *read_points(struct arena *a, struct bytes *b, size_t count)
{
    struct pattern_point *points = base_arena_alloc(a, count + DART_POINTS, sizeof *points);
    double grid_mm = next(b) % 2 ? 0.5 : 10;
    for (size_t i = 0; i < count; i++) {
        points[i].name = "point";
        points[i].v[0] = coordinate(a, b, grid_mm);
        points[i].v[1] = coordinate(a, b, grid_mm);
    }
    return points;
}

/* Edge i leads from point 3 i to point 3 (i + 1), by a line or with the two points between as its controls. */
static struct pattern_edge *read_edges(struct arena *a, struct bytes *b, int count)
{
    struct pattern_edge *edges = base_arena_alloc(a, (size_t)count, sizeof *edges);
    for (int i = 0; i < count; i++) {
        struct pattern_step *step = base_arena_alloc(a, 1, sizeof *step);
        bool curved = next(b) % 2;
        *step = (struct pattern_step){ .kind = curved ? PATTERN_STEP_CUBIC : PATTERN_STEP_LINE,
                                       .control = { 3 * i + 1, 3 * i + 2 },
                                       .end = 3 * ((i + 1) % count) };
        edges[i] = (struct pattern_edge){ .name = "edge",
                                          .start = 3 * i,
                                          .steps = step,
                                          .step_count = 1,
                                          .allowance = value(a, next(b) % 50, next(b) % 50) };
    }
    return edges;
}

static void lay_on_fold(struct pattern_piece *piece, struct pattern_edge *edges, int fold)
{
    if (fold >= (int)piece->edge_count || edges[fold].steps[0].kind != PATTERN_STEP_LINE)
        return;
    edges[fold].allowance = (struct pattern_value){ .mm = NULL };
    piece->fold = fold;
}

/* A dart, its legs anywhere on an edge, whose points follow the piece's; none when the bytes are at their end. */
static void add_dart(struct arena *a, struct bytes *b, struct pattern_piece *piece, struct pattern_point *points)
{
    enum pattern_dart_fold fold = (enum pattern_dart_fold)(next(b) % 3);
    struct pattern_dart *dart = base_arena_alloc(a, 1, sizeof *dart);
    int first = (int)piece->point_count, edge = next(b) % (int)piece->edge_count;
    if (fold == PATTERN_NOT_FOLDED)
        return;
    for (int leg = 0; leg < 2; leg++)
        points[first + leg] = (struct pattern_point){ .name = "leg",
                                                      .kind = PATTERN_POINT_ON,
                                                      .of = { { 0, edge } },
                                                      .v = { value(a, next(b), next(b)), value(a, 0, 0) } };
    points[first + 2] = (struct pattern_point){ .name = "apex" };
    points[first + 2].v[0] = coordinate(a, b, 1);
    points[first + 2].v[1] = coordinate(a, b, 1);
    *dart = (struct pattern_dart){ .edge = edge, .legs = { first, first + 1 }, .apex = first + 2, .fold = fold };
    piece->point_count += DART_POINTS;
    piece->darts = dart;
    piece->dart_count = 1;
}

/* How the allowances end; mitres when the bytes are at their end. */
static void shape_ends(struct bytes *b, struct pattern_edge *edges, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (int end = 0; end < 2; end++)
            edges[i].ends[end] = (enum pattern_end)(next(b) % 4);
}

static struct pattern_piece read_piece(struct arena *a, struct bytes *b)
{
    int edge_count = 1 + next(b) % (MOST_POINTS / 3);
    struct pattern_edge *edges = read_edges(a, b, edge_count);
    struct pattern_piece piece = { .name = "piece",
                                   .label = "piece",
                                   .cup_group = PATTERN_NONE,
                                   .fold = PATTERN_NONE,
                                   .grain = { PATTERN_NONE, PATTERN_NONE },
                                   .label_at = PATTERN_NONE,
                                   .edges = edges,
                                   .edge_count = (size_t)edge_count };
    lay_on_fold(&piece, edges, next(b) % 16);
    piece.point_count = 3 * piece.edge_count;
    struct pattern_point *points = read_points(a, b, piece.point_count);
    piece.points = points;
    add_dart(a, b, &piece, points);
    shape_ends(b, edges, piece.edge_count);
    return piece;
}

static void draft_at(struct arena *a, const struct pattern *p, double position)
{
    struct err_list *errs = base_err_list_create();
    struct draft draft;
    bool ok = make_at_size(a, p, position, PATTERN_NONE, PATTERN_NONE, &draft, errs);
    fuzz_must(ok == (errs->faults == 0) && ok == (draft.piece_count == 1));
    fuzz_must(!base_err_list_has(errs, "draft.cannot_grow")); /* a sound outline can always be grown */
    if (ok) {
        double around = 0;
        sound_piece(&draft.pieces[0]);
        sound_unfolded(a, &draft.pieces[0]);
        for (size_t e = 0; e < draft.pieces[0].edge_count; e++)
            around += draft.pieces[0].edges[e].length_mm;
        fuzz_must(p->pieces[0].dart_count || fabs(around - geometry_path_length(draft.pieces[0].seam.path)) < 1e-3);
        fuzz_must(draft.pieces[0].has_fold == (p->pieces[0].fold != PATTERN_NONE));
    }
    base_err_list_destroy(errs);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const char *const sizes[SIZES] = { "S", "M" };
    struct arena *a = base_arena_create();
    struct bytes b = { data, size };
    struct pattern_piece piece = read_piece(a, &b);
    enum pattern_outline outline = next(&b) % 2 ? PATTERN_CUTTING_LINE : PATTERN_STITCHING_LINE;
    struct pattern p = {
        .outline = outline, .sizes = sizes, .size_count = SIZES, .pieces = &piece, .piece_count = 1
    };
    for (double position = 0; position <= SIZES - 1; position += 0.5)
        draft_at(a, &p, position);
    base_arena_destroy(a);
    return 0;
}
