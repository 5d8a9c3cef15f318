#include "draft/draft.h"

#include "draft/work.h"
#include "geometry/offset.h"

#include <math.h>

#define ON_FOLD_MM 1e-3     /* grown corners land on the fold's line within rounding; real edges lie millimetres away */
#define FLAT_MM 1e-6        /* farther from one line than rounding, far less than any thread */
#define GRAIN_SHARE 0.7     /* of the piece's extent that the grain arrow takes */
#define GRAIN_CLEAR_MM 10.0 /* from a line that runs along it */

enum { MOST_CROSSINGS = 32 };

static const struct err_kind nothing_to_cut = { "draft.nothing_to_cut", ERR_FAULT,
                                                BASE_TR("view “{0}” has no piece to cut for this cup group") };
static const struct err_kind no_area = { "draft.no_area", ERR_FAULT, BASE_TR("piece “{0}” has no area in size {1}") };
static const struct err_kind crosses = {
    "draft.crosses", ERR_FAULT,
    BASE_TR("the outline of piece “{0}” crosses or touches itself in size {1}, at {2} across "
            "and {3} up")
};
static const struct err_kind cannot_grow = {
    "draft.cannot_grow", ERR_FAULT,
    BASE_TR("no cut line can be drawn round piece “{0}” in size {1}; check its outline "
            "and allowances")
};

static const struct err_kind no_fold = {
    "draft.no_fold", ERR_FAULT,
    BASE_TR("piece “{0}” has nothing to lay on the fold in size {1}; give its fold edge a "
            "length and keep other edges away from it")
};
static const struct err_kind past_fold = {
    "draft.past_fold", ERR_FAULT,
    BASE_TR("piece “{0}” reaches past its own fold in size {1}; a piece cut on the fold "
            "lies on one side of it")
};
static const struct err_kind no_grain = {
    "draft.no_grain", ERR_FAULT, BASE_TR("the two points of the grain of piece “{0}” are one place in size {1}")
};

const char *draft_size_name(const struct draft_work *w)
{
    return pattern_size_shown(w->errs->arena, w->sized->pattern, w->sized->figure.position);
}

bool draft_refuse_mark(const struct draft_work *w, const struct err_kind *kind, struct err_place place,
                       const char *part, struct err_arg more)
{
    base_err(w->errs, kind, place, ERR_TEXT(w->piece->name), ERR_TEXT(draft_size_name(w)), ERR_TEXT(part), more);
    return false;
}

bool draft_refuse_part(const struct draft_work *w, const struct err_kind *kind, const char *part)
{
    return draft_refuse_mark(w, kind, w->piece->place, part, ERR_NONE);
}

static bool refuse(const struct draft_work *w, const struct err_kind *kind)
{
    return draft_refuse_part(w, kind, NULL);
}

/* The stitching line of the fold edge, as a place and the unit direction the outline runs in there. */
struct fold_line {
    vec2 from, along;
    double length;
};

static struct fold_line fold_line_of(const struct draft_outline *o, int fold)
{
    vec2 from = o->path.points[o->edges[fold].first];
    vec2 to = o->path.points[(o->edges[fold].first + o->edges[fold].count) % o->path.count];
    vec2 run = vec2_sub(to, from);
    return (struct fold_line){ from, vec2_unit(run), vec2_length(run) };
}

static double left_of(const struct fold_line *fold, vec2 p)
{
    return vec2_cross(fold->along, vec2_sub(p, fold->from));
}

static bool reaches_past(const struct fold_line *fold, struct geometry_path cut)
{
    for (size_t i = 0; i < cut.count; i++)
        if (left_of(fold, cut.points[i]) < -ON_FOLD_MM)
            return true;
    return false;
}

/* The fold is the side of the cut outline on which the middle of the fold's edge lies: it runs past the stitching line
 * by the neighbours' allowances. False when there is no such side. */
static bool find_fold(struct draft_piece *d, const struct fold_line *fold, size_t *side)
{
    const struct geometry_path cut = d->cut.path;
    for (size_t i = 0; i < cut.count; i++) {
        vec2 a = cut.points[i], b = cut.points[i + 1 < cut.count ? i + 1 : 0];
        bool on_line = fabs(left_of(fold, a)) <= ON_FOLD_MM && fabs(left_of(fold, b)) <= ON_FOLD_MM;
        double before = vec2_dot(fold->along, vec2_sub(a, fold->from));
        double after = vec2_dot(fold->along, vec2_sub(b, fold->from));
        if (!on_line || before >= fold->length / 2 || after <= fold->length / 2)
            continue;
        d->has_fold = true;
        d->fold[0] = draft_as_pt(a);
        d->fold[1] = draft_as_pt(b);
        *side = i;
        return true;
    }
    return false;
}

/* All sides but one: from its end around the piece to its beginning. */
static struct geometry_path opened_at(struct arena *a, struct geometry_path path, size_t side)
{
    struct geometry_path open = { base_arena_alloc(a, path.count, sizeof(vec2)), path.count, false };
    for (size_t i = 0, from = side; i < path.count; i++) {
        from = from + 1 < path.count ? from + 1 : 0;
        open.points[i] = path.points[from];
    }
    return open;
}

static bool open_at_fold(const struct draft_work *w, struct draft_piece *d)
{
    const struct draft_outline *o = &w->outline;
    int edge = w->piece->fold;
    struct fold_line fold = fold_line_of(o, edge);
    size_t side;
    if (reaches_past(&fold, d->cut.path))
        return refuse(w, &past_fold);
    if (!find_fold(d, &fold, &side))
        return refuse(w, &no_fold);
    d->fold_edge = edge;
    d->cut_line.path = opened_at(w->a, d->cut.path, side);
    d->seam_line.path = opened_at(w->a, d->seam.path, o->edges[edge].first % o->path.count);
    return true;
}

vec2 draft_grain_of(const struct pattern_piece *piece, const struct draft_sized_piece *at)
{
    const int *grain = piece->grain;
    if (grain[0] == PATTERN_NONE)
        return (vec2){ 0, 1 };
    return vec2_unit(vec2_sub(at->points[grain[1]], at->points[grain[0]]));
}

/* Where a line through `at` enters and leaves a closed path, as places along it, in order; returns how many. */
static size_t crossings(struct geometry_path path, vec2 at, vec2 along, double places[MOST_CROSSINGS])
{
    size_t count = 0;
    vec2 a, b = vec2_sub(path.points[0], at);
    double left, right = vec2_cross(along, b);
    for (size_t i = 0; i < path.count && count < MOST_CROSSINGS; i++) {
        a = b;
        left = right;
        b = vec2_sub(path.points[i + 1 < path.count ? i + 1 : 0], at);
        right = vec2_cross(along, b);
        if ((left < 0) == (right < 0))
            continue;
        double place = vec2_dot(along, vec2_lerp(a, b, left / (left - right)));
        size_t slot = count++;
        for (; slot > 0 && places[slot - 1] > place; slot--)
            places[slot] = places[slot - 1];
        places[slot] = place;
    }
    return count;
}

/* Whether an arrow there would lie on one of the piece's lines and hide it. */
static bool hides_a_line(const struct draft_piece *d, vec2 at, vec2 along)
{
    for (size_t i = 0; i < d->line_count; i++) {
        double from = vec2_cross(along, vec2_sub(draft_as_vec2(d->lines[i].ends[0]), at));
        double to = vec2_cross(along, vec2_sub(draft_as_vec2(d->lines[i].ends[1]), at));
        if (fabs(from) < GRAIN_CLEAR_MM && fabs(to) < GRAIN_CLEAR_MM)
            return true;
    }
    return false;
}

/* The middle of the piece, or half way from there to a side where a line (the fold of a strap) runs through it. */
static vec2 grain_place(const struct draft_piece *d, vec2 middle, vec2 along)
{
    vec2 across = vec2_right(along);
    if (!hides_a_line(d, middle, along))
        return middle;
    double places[MOST_CROSSINGS];
    size_t count = crossings(d->seam.path, middle, across, places);
    for (size_t i = 0; i < count; i++) {
        vec2 at = vec2_add(middle, vec2_scale(across, places[i] / 2));
        if (!hides_a_line(d, at, along))
            return at;
    }
    return middle;
}

/* The arrow takes part of the longest way that lies inside the piece. */
void draft_place_grain(struct draft_piece *d, vec2 middle, vec2 along)
{
    double places[MOST_CROSSINGS], from = 0, to = 0;
    vec2 at = grain_place(d, middle, along);
    size_t count = crossings(d->seam.path, at, along, places);
    for (size_t i = 0; i + 1 < count; i += 2) {
        if (places[i + 1] - places[i] <= to - from)
            continue;
        from = places[i];
        to = places[i + 1];
    }
    double shorter = (to - from) * (1 - GRAIN_SHARE) / 2;
    d->grain[0] = draft_as_pt(vec2_add(at, vec2_scale(along, from + shorter)));
    d->grain[1] = draft_as_pt(vec2_add(at, vec2_scale(along, to - shorter)));
}

/* Whether all points lie in one line. A bow, whose halves have areas of opposite sign, is not flat though its area may
 * be nought. */
static bool is_flat(struct geometry_path p)
{
    vec2 farthest = { 0, 0 };
    for (size_t i = 1; i < p.count; i++) {
        vec2 off = vec2_sub(p.points[i], p.points[0]);
        if (vec2_dot(off, off) > vec2_dot(farthest, farthest))
            farthest = off;
    }
    farthest = vec2_unit(farthest);
    for (size_t i = 1; i < p.count; i++)
        if (fabs(vec2_cross(farthest, vec2_sub(p.points[i], p.points[0]))) > FLAT_MM)
            return false;
    return true;
}

/* What is wrong with an outline that no cut line can be grown from; told at the piece. */
static bool refuse_outline(const struct draft_work *w)
{
    vec2 where = { 0, 0 };
    if (!geometry_path_crosses_itself(w->outline.path, &where))
        return refuse(w, geometry_path_area(w->outline.path) > 0 ? &cannot_grow : &no_area);
    base_err(w->errs, &crosses, w->piece->place, ERR_TEXT(w->piece->name), ERR_TEXT(draft_size_name(w)),
             ERR_MM(where.x), ERR_MM(where.y));
    return false;
}

/* Where it is cut: as it is drawn, or grown from the stitching line. */
static bool cut_line(const struct draft_work *w, struct geometry_path *cut)
{
    vec2 where;
    if (!w->at->cut_paths)
        return geometry_offset(w->a, w->outline.path, w->outline.allowance_mm, w->outline.corners, cut);
    *cut = draft_outline_join(w->a, w->at->cut_paths, w->at->allowance_mm, w->piece->edge_count).path;
    return !geometry_path_crosses_itself(*cut, &where);
}

static bool draft_piece(struct draft_work *w, struct draft_piece *d)
{
    const struct pattern_piece *piece = w->piece;
    vec2 grain = draft_grain_of(piece, w->at);
    struct geometry_path cut;
    if (is_flat(w->outline.path))
        return refuse(w, &no_area);
    if (!cut_line(w, &cut))
        return refuse_outline(w);
    if (grain.x == 0 && grain.y == 0)
        return refuse(w, &no_grain);
    *d = (struct draft_piece){ .name = piece->name,
                               .label = piece->label,
                               .index = w->index,
                               .seam = { w->outline.path },
                               .cut = { cut },
                               .edges = w->outline.edges,
                               .edge_count = piece->edge_count,
                               .fold_edge = PATTERN_NONE };
    d->seam_line = d->seam;
    d->cut_line = d->cut;
    if (piece->fold != PATTERN_NONE && !open_at_fold(w, d))
        return false;
    vec2 middle = geometry_path_centre(d->seam.path);
    d->label_at = draft_as_pt(piece->label_at != PATTERN_NONE ? w->at->points[piece->label_at] : middle);
    w->cut = draft_barrier_of(w->a, cut);
    draft_check_tips(w);
    draft_check_allowances(w, d);
    if (!draft_place_marks(w, d))
        return false;
    draft_place_grain(d, middle, grain);
    return true;
}

/* A trial garment is cut of its main pieces alone, in one cloth. */
static bool is_cut(const struct pattern *pattern, const struct draft_figure *figure, const struct pattern_cut *cut)
{
    return !figure->trial || (cut->cloth == PATTERN_FABRIC && !pattern->pieces[cut->piece].left_out_of_trial);
}

static bool is_wanted(const struct pattern *pattern, int piece, const struct draft_figure *figure, int view)
{
    if (!pattern_in_cup_group(pattern->pieces[piece].cup_group, figure->cup_group))
        return false;
    if (view == PATTERN_NONE)
        return true;
    for (size_t c = 0; c < pattern->views[view].cut_count; c++)
        if (pattern->views[view].cuts[c].piece == piece && is_cut(pattern, figure, &pattern->views[view].cuts[c]))
            return true;
    return false;
}

static bool add_cut(struct draft *out, struct draft_cut *cuts, const struct pattern_cut *written, int piece,
                    struct err_list *errs)
{
    struct draft_cut *cut = &cuts[out->cut_count++];
    *cut = (struct draft_cut){ .piece = piece, .cloth = written->cloth, .hand = written->hand, .fuse = written->fuse };
    bool ok = draft_count(out->sized, &written->count, &cut->count, errs);
    cut->count *= cut->hand == PATTERN_PAIRS ? 2 : 1;
    return ok;
}

static bool list_cuts(struct arena *a, const struct pattern_view *view, struct draft *out, struct err_list *errs)
{
    const struct draft_sized *sized = out->sized;
    struct draft_cut *cuts = base_arena_alloc(a, view->cut_count, sizeof *cuts);
    bool ok = true;
    for (size_t c = 0; c < view->cut_count; c++)
        for (size_t i = 0; i < out->piece_count; i++)
            if (out->pieces[i].index == view->cuts[c].piece && is_cut(sized->pattern, &sized->figure, &view->cuts[c]))
                ok = add_cut(out, cuts, &view->cuts[c], (int)i, errs) && ok;
    out->cuts = cuts;
    return ok;
}

static bool add_notions(struct draft *out, struct draft_notion *to, const struct pattern_notions *from,
                        struct err_list *errs)
{
    bool ok = true;
    for (size_t i = 0; i < from->count; i++) {
        struct draft_notion *notion = &to[out->notion_count++];
        *notion = (struct draft_notion){ .name = from->items[i].name };
        ok = draft_count(out->sized, &from->items[i].count, &notion->count, errs) && ok;
        ok = draft_value_mm(out->sized, &from->items[i].size, &notion->size_mm, errs) && ok;
        ok = draft_value_mm(out->sized, &from->items[i].length, &notion->length_mm, errs) && ok;
    }
    return ok;
}

static bool list_notions(struct arena *a, const struct pattern_notions *of_all, const struct pattern_notions *of_view,
                         struct draft *out, struct err_list *errs)
{
    struct draft_notion *notions = base_arena_alloc(a, of_all->count + of_view->count, sizeof *notions);
    out->notions = notions;
    if (out->sized->figure.trial)
        return true;
    bool ok = add_notions(out, notions, of_all, errs);
    return add_notions(out, notions, of_view, errs) && ok;
}

bool draft_make(struct arena *a, const struct pattern *pattern, const struct draft_figure *figure, int view,
                struct draft *out, struct err_list *errs)
{
    struct draft_piece *pieces = base_arena_alloc(a, pattern->piece_count, sizeof *pieces);
    bool *wanted = base_arena_alloc(a, pattern->piece_count, sizeof *wanted), ok = true;
    for (int i = 0; i < (int)pattern->piece_count; i++)
        wanted[i] = is_wanted(pattern, i, figure, view);
    const struct draft_sized *sized = draft_size_wanted(a, pattern, figure, wanted, errs);
    *out = (struct draft){ .sized = sized, .pieces = pieces };
    for (int i = 0; i < (int)pattern->piece_count; i++) {
        if (!wanted[i])
            continue;
        struct draft_work w = {
            .a = a, .sized = sized, .index = i, .piece = &pattern->pieces[i], .at = &sized->pieces[i], .errs = errs
        };
        if (w.at->is_sound)
            w.outline = draft_outline_of(a, sized, i);
        if (w.at->is_sound && draft_piece(&w, &pieces[out->piece_count]))
            out->piece_count++;
        else
            ok = false;
    }
    if (view != PATTERN_NONE) {
        ok = list_cuts(a, &pattern->views[view], out, errs) && ok;
        ok = list_notions(a, &pattern->notions, &pattern->views[view].notions, out, errs) && ok;
    }
    if (view != PATTERN_NONE && ok && !out->cut_count) {
        base_err(errs, &nothing_to_cut, base_err_in_file(pattern->pieces[0].place.file),
                 ERR_TEXT(pattern->views[view].shown));
        ok = false;
    }
    return ok;
}
