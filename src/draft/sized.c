#include "draft/sized.h"

#include "draft/sizer.h"

static struct sizer_piece cells_of(struct arena *a, const struct pattern_piece *piece)
{
    return (struct sizer_piece){
        .points = base_arena_alloc(a, piece->point_count, sizeof(struct sizer_point)),
        .edges = base_arena_alloc(a, piece->edge_count + piece->curve_count, sizeof(struct sizer_edge)),
        .values = base_arena_alloc(a, piece->value_count, sizeof(struct sizer_value *)),
    };
}

static struct sizer *sizer_create(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure,
                                  struct err_list *errs)
{
    struct sizer *z = base_arena_alloc(a, 1, sizeof *z);
    *z = (struct sizer){ .a = a, .pattern = pattern, .figure = *figure, .errs = errs };
    z->values = base_arena_alloc(a, pattern->value_count, sizeof *z->values);
    z->pieces = base_arena_alloc(a, pattern->piece_count, sizeof *z->pieces);
    for (size_t i = 0; i < pattern->piece_count; i++)
        z->pieces[i] = cells_of(a, &pattern->pieces[i]);
    return z;
}

static bool take_points(struct sizer *z, int index, struct draft_sized_piece *out)
{
    size_t count = z->pattern->pieces[index].point_count;
    vec2 *points = base_arena_alloc(z->a, count, sizeof *points);
    bool ok = true;
    for (int i = 0; i < (int)count; i++) {
        const vec2 *at = sizer_point_at(z, (struct pattern_ref){ index, i });
        ok = ok && at;
        if (at)
            points[i] = *at;
    }
    out->points = points;
    return ok;
}

static bool take_edges(struct sizer *z, int index, struct draft_sized_piece *out)
{
    const struct pattern_piece *piece = &z->pattern->pieces[index];
    size_t count = piece->edge_count + piece->curve_count;
    struct geometry_path *paths = base_arena_alloc(z->a, count, sizeof *paths);
    double *allowance = base_arena_alloc(z->a, piece->edge_count, sizeof *allowance);
    bool ok = true;
    for (int e = 0; e < (int)count; e++) {
        const struct sizer_edge *edge = sizer_edge_of(z, (struct pattern_ref){ index, e });
        ok = ok && edge;
        if (edge)
            paths[e] = edge->path;
        if (e < (int)piece->edge_count)
            ok = sizer_reckon(z, &piece->edges[e].allowance, z->figure.position, &allowance[e]) && ok;
    }
    out->edge_paths = paths;
    out->allowance_mm = allowance;
    return ok;
}

static bool take_notches(struct sizer *z, int index, struct draft_sized_piece *out)
{
    const struct pattern_piece *piece = &z->pattern->pieces[index];
    double *along = base_arena_alloc(z->a, piece->notch_count, sizeof *along);
    bool ok = true;
    for (size_t i = 0; i < piece->notch_count; i++) {
        const struct pattern_notch *notch = &piece->notches[i];
        ok = sizer_reckon(z, &notch->at, z->figure.position, &along[i]) && ok;
        if (notch->from_end)
            along[i] = geometry_path_length(out->edge_paths[notch->edge]) - along[i];
    }
    out->notch_mm = along;
    return ok;
}

const struct draft_sized *draft_size(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure,
                                     struct err_list *errs)
{
    struct sizer *z = sizer_create(a, pattern, figure, errs);
    struct draft_sized_piece *pieces = base_arena_alloc(a, pattern->piece_count, sizeof *pieces);
    struct draft_sized *sized = base_arena_alloc(a, 1, sizeof *sized);
    for (int i = 0; i < (int)pattern->piece_count; i++) {
        if (!pattern_in_cup_group(pattern->pieces[i].cup_group, figure->cup_group))
            continue;
        bool points = take_points(z, i, &pieces[i]), edges = take_edges(z, i, &pieces[i]);
        pieces[i].is_sound = points && edges && take_notches(z, i, &pieces[i]);
    }
    *sized = (struct draft_sized){ pattern, *figure, pieces };
    return sized;
}
