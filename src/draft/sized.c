#include "draft/sized.h"

#include "draft/blend.h"
#include "draft/sizer.h"
#include "draft/work.h"

#include <string.h>

#define WHOLE 1e-6 /* a count may miss a whole number by rounding */

static const struct err_kind no_count = { "draft.no_count", ERR_FAULT,
                                          BASE_TR("the formula “{0}” comes to {2} in size {1}; a count is a whole "
                                                  "number from 1 to {3}: round it by ceil or floor") };

static const struct err_kind seam_ratio = {
    "draft.seam_ratio", ERR_FAULT,
    BASE_TR("the ratio of seam “{0}” comes to {2} in size {1}; it lies between 0.01 and "
            "100")
};

static struct sizer_piece cells_of(struct arena *a, const struct pattern_piece *piece)
{
    struct sizer_piece cells = { .values = base_arena_alloc(a, piece->value_count, sizeof *cells.values) };
    for (int view = 0; view < SIZER_VIEWS; view++) {
        cells.points[view] = base_arena_alloc(a, piece->point_count, sizeof *cells.points[view]);
        cells.edges[view] = base_arena_alloc(a, piece->edge_count + piece->curve_count, sizeof *cells.edges[view]);
    }
    return cells;
}

static struct sizer *sizer_create(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure,
                                  struct err_list *errs)
{
    struct sizer *z = base_arena_alloc(a, 1, sizeof *z);
    *z = (struct sizer){ .a = a, .pattern = pattern, .figure = *figure, .errs = errs, .home = PATTERN_NONE };
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
    double *lengths = base_arena_alloc(z->a, count, sizeof *lengths);
    bool ok = true;
    for (int e = 0; e < (int)count; e++) {
        const struct sizer_edge *edge = sizer_sewn_edge_of(z, (struct pattern_ref){ index, e });
        ok = ok && edge;
        if (!edge)
            continue;
        paths[e] = edge->path;
        lengths[e] = edge->length_mm;
    }
    out->edge_paths = paths;
    out->edge_mm = lengths;
    if (ok && sizer_cuts_as_drawn(z, index))
        out->cut_paths = sizer_drawn_edges(z, index);
    return ok;
}

/* By "piece.edge". */
const struct draft_alteration *sizer_own_allowance(const struct sizer *z, const struct pattern_piece *piece,
                                                   const struct pattern_edge *edge)
{
    const struct draft_alteration *found = NULL;
    size_t length = strlen(piece->name);
    for (size_t i = 0; i < z->figure.alteration_count; i++) {
        const struct draft_alteration *a = &z->figure.alterations[i];
        if (a->kind == DRAFT_ALLOWANCE && strncmp(a->what, piece->name, length) == 0 && a->what[length] == '.' &&
            strcmp(a->what + length + 1, edge->name) == 0)
            found = a;
    }
    return found;
}

static bool reckon_allowance(struct sizer *z, int index, int edge, double *mm)
{
    const struct pattern_piece *piece = &z->pattern->pieces[index];
    *mm = 0;
    if (z->pieces[index].sewn[SIZER_ALTERED].none)
        return true;
    const struct draft_alteration *own = sizer_own_allowance(z, piece, &piece->edges[edge]);
    if (edge == piece->fold || (!own && !z->figure.trial))
        return sizer_written_allowance(z, (struct pattern_ref){ index, edge }, mm);
    *mm = own ? own->amount_mm : DRAFT_TRIAL_ALLOWANCE_MM;
    return true;
}

static bool take_allowances(struct sizer *z, int index, struct draft_sized_piece *out)
{
    size_t count = z->pattern->pieces[index].edge_count;
    double *allowance = base_arena_alloc(z->a, count, sizeof *allowance);
    bool ok = true;
    for (int e = 0; e < (int)count; e++)
        ok = reckon_allowance(z, index, e, &allowance[e]) && ok;
    out->allowance_mm = allowance;
    return ok;
}

/* In a blend a notch follows the middle of its edge's ends, as the notch it meets does. */
static double position_of_edge(const struct sizer *z, int index, const struct pattern_edge *edge)
{
    double start = sizer_position_of(z, (struct pattern_ref){ index, edge->start });
    double end = sizer_position_of(z, (struct pattern_ref){ index, edge->steps[edge->step_count - 1].end });
    return (start + end) / 2;
}

/* A notch is placed on its edge as that is written, and goes where the cloth there goes. */
static bool reckon_notch(struct sizer *z, int index, const struct pattern_notch *notch, double *mm)
{
    struct pattern_ref ref = { index, notch->edge };
    const struct pattern_edge *written_edge = &z->pattern->pieces[index].edges[notch->edge];
    z->home = PATTERN_NONE;
    const struct sizer_edge *final = sizer_sewn_edge_of(z, ref);
    z->home = index;
    const struct sizer_edge *written = final ? sizer_sewn_edge_of(z, ref) : NULL;
    if (!written || !sizer_reckon(z, &notch->at, position_of_edge(z, index, written_edge), mm))
        return false;
    if (notch->from_end)
        *mm = written->length_mm - *mm;
    if (written == final || *mm < 0 || *mm > written->length_mm)
        return true; /* nothing is altered, or it lies off the edge, which is told when it is drafted */
    vec2 ahead, at = sizer_alter_place(z, index, geometry_path_at(written->path, *mm, &ahead));
    geometry_path_distance(final->path, at, mm);
    return true;
}

static bool take_notches(struct sizer *z, int index, struct draft_sized_piece *out)
{
    const struct pattern_piece *piece = &z->pattern->pieces[index];
    double *along = base_arena_alloc(z->a, piece->notch_count, sizeof *along);
    bool ok = true;
    for (size_t i = 0; i < piece->notch_count; i++)
        ok = reckon_notch(z, index, &piece->notches[i], &along[i]) && ok;
    out->notch_mm = along;
    return ok;
}

static bool reckon_count(struct sizer *z, const struct pattern_count *count, int *out)
{
    const struct pattern_value value = { .count = 1, .formulas = &count->formula };
    double number;
    *out = count->number;
    if (!count->formula)
        return true;
    if (!sizer_reckon(z, &value, z->figure.position, &number))
        return false;
    *out = (int)floor(number + 0.5);
    if (fabs(number - *out) <= WHOLE && *out >= 1 && *out <= count->most)
        return true;
    const char *size = pattern_size_shown(z->errs->arena, z->pattern, z->figure.position);
    base_err(z->errs, &no_count, count->formula->place, ERR_TEXT(count->formula->text), ERR_TEXT(size),
             ERR_NUMBER(number), ERR_NUMBER(count->most));
    return false;
}

static bool take_buttons(struct sizer *z, int index, struct draft_sized_piece *out)
{
    const struct pattern_piece *piece = &z->pattern->pieces[index];
    struct draft_sized_buttons *rows = base_arena_alloc(z->a, piece->button_row_count, sizeof *rows);
    bool ok = true;
    for (size_t i = 0; i < piece->button_row_count; i++) {
        const struct pattern_buttons *row = &piece->button_rows[i];
        ok = reckon_count(z, &row->count, &rows[i].count) && ok;
        ok = sizer_reckon(z, &row->first, z->figure.position, &rows[i].first_mm) && ok;
        ok = sizer_reckon(z, &row->last, z->figure.position, &rows[i].last_mm) && ok;
        ok = sizer_reckon(z, &row->length, z->figure.position, &rows[i].length_mm) && ok;
    }
    out->button_rows = rows;
    return ok;
}

/* Within a cutting line, a dart's leg that is drawn from there begins where it meets the stitching line. */
static void take_legs(struct sizer *z, int index, struct draft_sized_piece *out)
{
    const struct pattern_piece *piece = &z->pattern->pieces[index];
    if (z->pattern->outline == PATTERN_STITCHING_LINE || !piece->dart_count)
        return;
    vec2 *points = base_arena_alloc(z->a, piece->point_count, sizeof *points);
    memcpy(points, out->points, piece->point_count * sizeof *points);
    for (size_t i = 0; i < 2 * piece->dart_count; i++) {
        const struct pattern_dart *dart = &piece->darts[i / 2];
        vec2 *leg = &points[dart->legs[i % 2]], way = vec2_unit(vec2_sub(out->points[dart->apex], *leg));
        struct draft_barrier edge = draft_barrier_of(z->a, out->edge_paths[dart->edge]);
        *leg = draft_first_meeting(&edge, *leg, way);
    }
    out->points = points;
}

static bool take_piece(struct sizer *z, int index, struct draft_sized_piece *out)
{
    z->home = PATTERN_NONE;
    bool points = take_points(z, index, out), edges = take_edges(z, index, out);
    if (points && edges)
        take_legs(z, index, out);
    z->home = index;
    bool ok =
        points && edges && take_allowances(z, index, out) && take_notches(z, index, out) && take_buttons(z, index, out);
    z->home = PATTERN_NONE;
    return ok;
}

static bool take_intervals(struct sizer *z, const struct pattern_seam *seam, struct draft_sized_seam *out)
{
    if (!seam->intervals)
        return true;
    double *mm = base_arena_alloc(z->a, seam->interval_count, sizeof *mm);
    for (size_t i = 0; i < seam->interval_count; i++) {
        if (!sizer_reckon(z, &seam->intervals[i], z->figure.position, &mm[i]))
            return false;
        out->difference_mm += mm[i];
    }
    out->interval_mm = mm;
    return true;
}

static bool take_seam(struct sizer *z, const struct pattern_seam *seam, struct draft_sized_seam *out)
{
    if (!sizer_reckon(z, &seam->difference, z->figure.position, &out->difference_mm) || !take_intervals(z, seam, out))
        return false;
    if (!pattern_value_is_given(seam->ratio))
        return true;
    if (!sizer_reckon(z, &seam->ratio, z->figure.position, &out->ratio))
        return false;
    return pattern_is_seam_ratio(out->ratio) ||
           sizer_refuse(z, &seam_ratio, seam->place, seam->name, ERR_NUMBER(out->ratio));
}

static const struct draft_sized_seam *take_seams(struct sizer *z)
{
    struct draft_sized_seam *seams = base_arena_alloc(z->a, z->pattern->seam_count, sizeof *seams);
    for (size_t i = 0; i < z->pattern->seam_count; i++)
        if (pattern_in_cup_group(z->pattern->seams[i].cup_group, z->figure.cup_group))
            seams[i].is_sound = take_seam(z, &z->pattern->seams[i], &seams[i]);
    return seams;
}

/* Where the points of a blend's pieces stand follows from where they lie in the figure's own size. */
static bool place_levels(struct sizer *z)
{
    if (!z->figure.level_position)
        return true;
    struct draft_figure plain = draft_figure_at(z->figure.position, z->figure.cup_group);
    plain.body_mm = z->figure.body_mm;
    struct sizer *own = sizer_create(z->a, z->pattern, &plain, z->errs);
    for (int i = 0; i < (int)z->pattern->piece_count; i++) {
        struct draft_sized_piece piece;
        if (!z->pattern->pieces[i].levels ||
            !pattern_in_cup_group(z->pattern->pieces[i].cup_group, z->figure.cup_group))
            continue;
        if (!take_points(own, i, &piece))
            return false;
        z->pieces[i].position = draft_blend_positions(z->a, &z->pattern->pieces[i], &z->figure, piece.points);
    }
    return true;
}

/* After what is wanted, so that whatever both rest on is told. */
static void take_others(struct sizer *z, const bool *wanted, struct draft_sized_piece *pieces)
{
    struct err_list *errs = z->errs, *untold = base_err_list_create();
    z->errs = untold;
    for (int i = 0; i < (int)z->pattern->piece_count; i++)
        if (!wanted[i] && pattern_in_cup_group(z->pattern->pieces[i].cup_group, z->figure.cup_group))
            pieces[i].is_sound = take_piece(z, i, &pieces[i]);
    z->errs = errs;
    base_err_list_destroy(untold);
}

const struct draft_sized *draft_size_wanted(struct arena *a, const struct pattern *pattern,
                                            const struct draft_figure *figure, const bool *wanted,
                                            struct err_list *errs)
{
    struct sizer *z = sizer_create(a, pattern, figure, errs);
    struct draft_sized_piece *pieces = base_arena_alloc(a, pattern->piece_count, sizeof *pieces);
    struct draft_sized *sized = base_arena_alloc(a, 1, sizeof *sized);
    bool placed = place_levels(z);
    for (int i = 0; placed && i < (int)pattern->piece_count; i++)
        if (wanted[i])
            pieces[i].is_sound = take_piece(z, i, &pieces[i]);
    if (placed)
        take_others(z, wanted, pieces);
    *sized = (struct draft_sized){ pattern, *figure, pieces, take_seams(z), z };
    return sized;
}

const struct draft_sized *draft_size(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure,
                                     struct err_list *errs)
{
    bool *wanted = base_arena_alloc(a, pattern->piece_count, sizeof *wanted);
    for (size_t i = 0; i < pattern->piece_count; i++)
        wanted[i] = pattern_in_cup_group(pattern->pieces[i].cup_group, figure->cup_group);
    return draft_size_wanted(a, pattern, figure, wanted, errs);
}

const struct draft_sized_seam *draft_seam_at(const struct draft_sized *sized, const struct pattern_seam *seam)
{
    return &sized->seams[seam - sized->pattern->seams];
}

bool draft_value_mm(const struct draft_sized *sized, const struct pattern_value *value, double *out,
                    struct err_list *errs)
{
    sized->sizer->errs = errs;
    return sizer_reckon(sized->sizer, value, sized->figure.position, out);
}

bool draft_count(const struct draft_sized *sized, const struct pattern_count *count, int *out, struct err_list *errs)
{
    struct arena *scratch = base_arena_create();
    struct sizer *z = sizer_create(scratch, sized->pattern, &sized->figure, errs);
    bool ok = reckon_count(z, count, out);
    base_arena_destroy(scratch);
    return ok;
}
