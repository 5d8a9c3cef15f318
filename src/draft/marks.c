/* Notches, drill marks, darts and marked lines of one piece at one size. */
#include "draft/work.h"

#include <math.h>

#define ON_LINE_MM 0.05   /* a leg may miss its edge by this: rounding in the file, flattening here */
#define LEGS_MM 1.0       /* legs may differ by this; as a seam may (common practice, no source) */
#define NOTCH_MM 3.0      /* how deep a notch is snipped, at most */
#define NOTCH_SHARE 0.5   /* of the allowance, at most: a seam pressed open keeps half of it whole */
#define V_SHARE 1.0       /* half the width of a V to its depth: its sides meet at a right angle */
#define ROUNDING_MM 1e-9  /* Vs that touch do not overlap */
#define MEETING_MM 1e-6   /* rounding of a line that meets a corner */
#define ASTRAY_MM 0.5     /* from an edge's allowance: square to the edge another edge's cut line is met */
#define SAME_NOTCH_MM 1.0 /* nearer along an edge two notches are one */
#define NO_TURN 1e-6      /* sine of a turn that is none */
#define SWALLOWED_MM 1.0  /* farther out than an edge's own allowance: another edge's allowance covers it */

static const struct err_kind notch_off = {
    "draft.notch_off", ERR_FAULT,
    BASE_TR("a notch of piece “{0}” lies off the {3} of edge “{2}” in size {1}; place it on the edge")
};
static const struct err_kind notch_in_dart = {
    "draft.notch_in_dart", ERR_FAULT,
    BASE_TR("a notch of piece “{0}” lies in a dart's mouth on edge “{2}” in size {1}; move it beside the dart")
};
static const struct err_kind dart_off = {
    "draft.dart_off", ERR_FAULT,
    BASE_TR("a dart of piece “{0}” does not begin on edge “{2}” in size {1}; both its "
            "legs start on the stitching line")
};
static const struct err_kind dart_legs = { "draft.dart_legs", ERR_WARNING,
                                           BASE_TR("the legs of a dart of piece “{0}” differ by {3} in size {1}, on "
                                                   "edge “{2}”; sewn together they must be equal") };
static const struct err_kind dart_room = { "draft.dart_room", ERR_FAULT,
                                           BASE_TR(
                                               "a dart on edge “{2}” of piece “{0}” cannot be folded to the edge's {3} "
                                               "in size {1}: the stitching line beside it "
                                               "ends before it covers the dart; fold it the other way, or move it") };
static const struct err_kind darts_meet = { "draft.darts_meet", ERR_WARNING,
                                            BASE_TR("a dart on edge “{2}” of piece “{0}” overlaps another in size {1}, "
                                                    "which cannot both be sewn; move them apart") };
static const struct err_kind notches_meet = {
    "draft.notches_meet", ERR_WARNING,
    BASE_TR("two notches of piece “{0}” take up one place of edge “{2}” in size {1}; take one away, or move it")
};
static const struct err_kind apex_outside = {
    "draft.apex_outside", ERR_FAULT,
    BASE_TR(
        "the apex “{2}” of a dart of piece “{0}” lies outside the piece in size {1}; a dart ends within its piece")
};
static const struct err_kind line_outside = {
    "draft.line_outside", ERR_FAULT,
    BASE_TR(
        "a {3} line of piece “{0}” ends outside it in size {1}, at “{2}”; end it at the cut line at the farthest")
};
static const struct err_kind drill_outside = {
    "draft.drill_outside", ERR_FAULT,
    BASE_TR("drill mark “{2}” of piece “{0}” lies outside the piece in size {1}; move it "
            "into the piece")
};
static const struct err_kind swallowed = { "draft.swallowed", ERR_WARNING,
                                           BASE_TR("the allowances of piece “{0}” close over edge “{2}” in size {1}, "
                                                   "so that it is not cut; make them narrower there") };
static const struct err_kind wide_allowance = {
    "draft.wide_allowance", ERR_WARNING,
    BASE_TR(
        "the allowance of edge “{2}” of piece “{0}” is wider than the piece itself in size {1}; is its unit right?")
};

static const char *edge_name(const struct draft_work *w, int edge)
{
    return w->piece->edges[edge].name;
}

/* Out of the piece, from an edge that runs in this direction as it is written. */
static vec2 outwards(const struct draft_work *w, vec2 direction)
{
    vec2 right = vec2_right(direction);
    return w->outline.turned ? vec2_scale(right, -1) : right;
}

/* Where the grown sides on both hands of an outline's point meet: the solution of "a out from the side before, b out
 * from the side after". Where the two sides run as one line that is straight out. */
static vec2 grown_corner(const struct draft_outline *o, size_t point)
{
    size_t count = o->path.count, before = (point + count - 1) % count, after = (point + 1) % count;
    vec2 p = o->path.points[point];
    vec2 n = vec2_right(vec2_unit(vec2_sub(p, o->path.points[before])));
    vec2 m = vec2_right(vec2_unit(vec2_sub(o->path.points[after], p)));
    double a = o->allowance_mm[before], b = o->allowance_mm[point], turn = vec2_cross(n, m);
    if (fabs(turn) < NO_TURN)
        return vec2_add(p, vec2_scale(n, fmax(a, b)));
    return vec2_add(p, (vec2){ (a * m.y - b * n.y) / turn, (b * n.x - a * m.x) / turn });
}

/* Whether the hem that is squared or folded back at a point of the outline is the side before it, or after it. */
static bool has_hem(const struct draft_work *w, size_t point, bool before)
{
    enum geometry_corner_kind kind = w->outline.corners[point].kind;
    return before ? kind == GEOMETRY_CORNER_SQUARE_BEFORE || kind == GEOMETRY_CORNER_FOLD_BACK_BEFORE
                  : kind == GEOMETRY_CORNER_SQUARE_AFTER || kind == GEOMETRY_CORNER_FOLD_BACK_AFTER;
}

/* Where the stitching line of a hem that is squared or folded back at that point, led on past it, meets the cut line:
 * there the other side's cut line ends. False when there is no such hem. */
static bool hem_corner(const struct draft_work *w, size_t point, vec2 *at)
{
    const struct draft_outline *o = &w->outline;
    size_t count = o->path.count, before = (point + count - 1) % count, after = (point + 1) % count;
    bool hem_before = has_hem(w, point, true);
    if (!hem_before && !has_hem(w, point, false))
        return false;
    vec2 p = o->path.points[point];
    vec2 come = vec2_unit(vec2_sub(p, o->path.points[before])), go = vec2_unit(vec2_sub(o->path.points[after], p));
    if (vec2_cross(come, go) < NO_TURN)
        return false; /* a corner that turns inwards is a mitre */
    *at = draft_first_meeting(&w->cut, p, hem_before ? come : vec2_scale(go, -1));
    return true;
}

static struct draft_notch_place square_place(const struct draft_work *w, struct geometry_path path, double along)
{
    vec2 direction, on_seam = geometry_path_at(path, along, &direction), out = outwards(w, direction);
    vec2 at = draft_first_meeting(&w->cut, on_seam, out);
    return (struct draft_notch_place){ .at = draft_as_pt(at),
                                       .on_seam = draft_as_pt(on_seam),
                                       .inward = vec2_scale(out, -1) };
}

/* From the cut line's corner to the outline's, of a hem along its stitching line; false when there is no way between
 * them. */
static bool corner_place(const struct draft_work *w, const struct draft_piece *d, size_t point,
                         struct draft_notch_place *place)
{
    double along = 0;
    vec2 direction, at, on_seam = w->outline.path.points[point];
    if (!hem_corner(w, point, &at)) {
        geometry_path_distance(d->cut_line.path, grown_corner(&w->outline, point), &along);
        at = geometry_path_at(d->cut_line.path, along, &direction);
    }
    vec2 in = vec2_sub(on_seam, at);
    *place =
        (struct draft_notch_place){ .at = draft_as_pt(at), .on_seam = draft_as_pt(on_seam), .inward = vec2_unit(in) };
    return vec2_length(in) > ON_LINE_MM;
}

/* Square to the stitching line. At the end of an edge, where that lies on the fold or where the next edge's cut line
 * runs across that way, from the cut line's own corner: on the fold that is along the fold. */
static struct draft_notch_place notch_place(const struct draft_work *w, const struct draft_piece *d, int edge,
                                            struct geometry_path path, double along)
{
    const struct draft_edge *in_outline = &w->outline.edges[edge];
    struct draft_notch_place square = square_place(w, path, along), corner;
    double allowance = w->at->allowance_mm[edge];
    double way = vec2_length(vec2_sub(draft_as_vec2(square.at), draft_as_vec2(square.on_seam)));
    bool at_start = along <= ON_LINE_MM, at_end = along >= in_outline->length_mm - ON_LINE_MM;
    size_t before = at_start != w->outline.turned ? 0 : in_outline->count;
    size_t point = (in_outline->first + before) % w->outline.path.count;
    if (allowance > 0 && (at_start || at_end) &&
        (draft_is_fold_end(&w->outline, w->piece, point) || fabs(way - allowance) > ASTRAY_MM) &&
        corner_place(w, d, point, &corner))
        return corner;
    return square;
}

/* The place so far along the cut line; not beyond the fold, where that is open. */
static struct piece_pt along_cut(struct geometry_path line, double length, double along)
{
    vec2 direction;
    if (line.closed && along < 0)
        along += length;
    else if (line.closed && along > length)
        along -= length;
    return draft_as_pt(geometry_path_at(line, along, &direction));
}

static void open_mouth(const struct draft_piece *d, const struct draft_notch *notch, struct draft_notch_place *place)
{
    double half = V_SHARE * notch->depth_mm, along;
    place->mouth[0] = place->mouth[1] = place->at;
    if (notch->shape != PATTERN_V || !(half > 0))
        return;
    struct geometry_path line = d->cut_line.path;
    double length = geometry_path_length(line);
    geometry_path_distance(line, draft_as_vec2(place->at), &along);
    place->mouth[0] = along_cut(line, length, along - half);
    place->mouth[1] = along_cut(line, length, along + half);
}

static bool place_notch(const struct draft_work *w, const struct draft_piece *d, const struct pattern_notch *written,
                        struct geometry_path edge, double along, struct draft_notch *notch)
{
    double length = w->outline.edges[notch->edge].length_mm;
    if (!(length > 0) || along < -ON_LINE_MM || along > length + ON_LINE_MM)
        return draft_refuse_mark(
            w, &notch_off, written->place, edge_name(w, notch->edge),
            ERR_TEXT(along < 0 ? base_tr_in("of an edge", "start") : base_tr_in("of an edge", "end")));
    for (size_t i = 0; i < w->piece->dart_count; i++) {
        double mouth[2];
        if (w->piece->darts[i].edge == notch->edge && draft_dart_mouth(w->at, &w->piece->darts[i], mouth) &&
            along > mouth[0] + ON_LINE_MM && along < mouth[1] - ON_LINE_MM)
            return draft_refuse_mark(w, &notch_in_dart, written->place, edge_name(w, notch->edge), ERR_NONE);
    }
    struct draft_notch_place place = notch_place(w, d, notch->edge, edge, along);
    double way = vec2_length(vec2_sub(draft_as_vec2(place.at), draft_as_vec2(place.on_seam)));
    notch->depth_mm = fmin(notch->depth_mm, NOTCH_SHARE * way);
    notch->places[notch->place_count++] = place;
    return true;
}

static bool make_notch(const struct draft_work *w, const struct draft_piece *d, const struct pattern_notch *written,
                       struct draft_notch *notch)
{
    struct geometry_path edge = w->at->edge_paths[written->edge];
    double along = w->at->notch_mm[written - w->piece->notches];
    double allowance = w->at->allowance_mm[written->edge];
    *notch = (struct draft_notch){ .edge = written->edge,
                                   .shape = written->shape,
                                   .depth_mm = fmin(NOTCH_MM, NOTCH_SHARE * allowance) };
    double apart = written->is_double ? written->apart_mm : 0;
    for (int i = 0; i < (written->is_double ? 2 : 1); i++)
        if (!place_notch(w, d, written, edge, along + (i - 0.5) * apart, notch))
            return false;
    for (size_t i = 0; i < notch->place_count; i++) /* both as deep as the shallower */
        open_mouth(d, notch, &notch->places[i]);
    return true;
}

/* How much of its edge a notch takes up on either side. */
static double half_width(const struct draft_notch *notch)
{
    return fmax(SAME_NOTCH_MM / 2, notch->shape == PATTERN_V ? V_SHARE * notch->depth_mm : 0);
}

/* Whether a notch stands where one before it does, or both places of a double one are the same. */
static bool meets_another(const struct draft_notch *notches, size_t index)
{
    const struct draft_notch *notch = &notches[index];
    for (size_t i = 0; i <= index; i++)
        for (size_t p = 0; notches[i].edge == notch->edge && p < notches[i].place_count; p++)
            for (size_t q = i == index ? p + 1 : 0; q < notch->place_count; q++)
                if (vec2_length(vec2_sub(draft_as_vec2(notches[i].places[p].on_seam),
                                         draft_as_vec2(notch->places[q].on_seam))) <
                    half_width(&notches[i]) + half_width(notch) - ROUNDING_MM)
                    return true;
    return false;
}

static bool make_notches(const struct draft_work *w, struct draft_piece *d)
{
    struct draft_notch *notches = base_arena_alloc(w->a, w->piece->notch_count, sizeof *notches);
    bool ok = true;
    for (size_t i = 0; i < w->piece->notch_count; i++)
        if (!make_notch(w, d, &w->piece->notches[i], &notches[d->notch_count])) {
            ok = false;
        } else {
            const struct pattern_notch *written = &w->piece->notches[i];
            if (meets_another(notches, d->notch_count++))
                draft_refuse_mark(w, &notches_meet, written->place, edge_name(w, written->edge), ERR_NONE);
        }
    d->notches = notches;
    return ok;
}

bool draft_lies_outside(struct geometry_path path, struct piece_pt pt)
{
    double along;
    vec2 p = draft_as_vec2(pt);
    return !geometry_path_holds(path, p) && geometry_path_distance(path, p, &along) > ON_LINE_MM;
}

static bool make_drill_marks(const struct draft_work *w, struct draft_piece *d)
{
    struct piece_pt *marks = base_arena_alloc(w->a, w->piece->drill_mark_count, sizeof *marks);
    bool ok = true;
    for (size_t i = 0; i < w->piece->drill_mark_count; i++) {
        const struct pattern_drill_mark *written = &w->piece->drill_marks[i];
        marks[i] = draft_as_pt(w->at->points[written->point]);
        if (draft_lies_outside(d->cut.path, marks[i]))
            ok = draft_refuse_mark(w, &drill_outside, written->place, w->piece->points[written->point].name, ERR_NONE);
    }
    d->drill_marks = marks;
    d->drill_mark_count = w->piece->drill_mark_count;
    return ok;
}

bool draft_dart_mouth(const struct draft_sized_piece *at, const struct pattern_dart *dart, double mouth[2])
{
    struct geometry_path edge = at->edge_paths[dart->edge];
    for (int leg = 0; leg < 2; leg++) {
        vec2 p = at->points[dart->legs[leg]];
        mouth[leg] = 0;
        if (edge.count < 2 || geometry_path_distance(edge, p, &mouth[leg]) > ON_LINE_MM)
            return false;
    }
    if (mouth[0] > mouth[1]) {
        double first = mouth[1];
        mouth[1] = mouth[0];
        mouth[0] = first;
    }
    return true;
}

/* A dart's legs as two lines; told when they are not such that they can be sewn together. */
static bool make_dart(const struct draft_work *w, const struct draft_piece *d, const struct pattern_dart *dart,
                      struct draft_line *legs)
{
    double mouth[2], length[2];
    struct piece_pt apex = draft_as_pt(w->at->points[dart->apex]);
    if (!draft_dart_mouth(w->at, dart, mouth))
        return draft_refuse_mark(w, &dart_off, dart->place, edge_name(w, dart->edge), ERR_NONE);
    if (draft_lies_outside(d->seam.path, apex))
        return draft_refuse_mark(w, &apex_outside, dart->place, w->piece->points[dart->apex].name, ERR_NONE);
    for (int leg = 0; leg < 2; leg++) {
        legs[leg].kind = PATTERN_LINE_DART;
        legs[leg].ends[0] = draft_as_pt(w->at->points[dart->legs[leg]]);
        legs[leg].ends[1] = apex;
        length[leg] = vec2_length(vec2_sub(draft_as_vec2(apex), draft_as_vec2(legs[leg].ends[0])));
    }
    if (fabs(length[0] - length[1]) > LEGS_MM)
        draft_refuse_mark(w, &dart_legs, dart->place, edge_name(w, dart->edge),
                          ERR_OFF_MM(fabs(length[0] - length[1])));
    if (dart->fold != PATTERN_NOT_FOLDED && !draft_dart_cap(w->a, w->piece, w->at, dart, &(struct geometry_path){ 0 }))
        return draft_refuse_mark(w, &dart_room, dart->place, edge_name(w, dart->edge),
                                 ERR_TEXT(base_tr_in("of an edge", pattern_dart_fold_name(dart->fold))));
    return true;
}

static vec2 point_at(const struct draft_work *w, int point)
{
    return w->at->points[point];
}

/* Whether p and q lie on different sides of the line from a to b, neither of them on it. */
static bool are_parted(vec2 a, vec2 b, vec2 p, vec2 q)
{
    vec2 along = vec2_unit(vec2_sub(b, a));
    double left = vec2_cross(along, vec2_sub(p, a)), right = vec2_cross(along, vec2_sub(q, a));
    return fmin(left, right) < -ON_LINE_MM && fmax(left, right) > ON_LINE_MM;
}

/* Two darts may have one apex, or legs that begin at one place; what lies between may not be shared. */
static bool do_darts_meet(const struct draft_work *w, const struct pattern_dart *one, const struct pattern_dart *other)
{
    double mouth[2], beside[2];
    vec2 apex = point_at(w, one->apex), tip = point_at(w, other->apex);
    if (one->edge == other->edge && draft_dart_mouth(w->at, one, mouth) && draft_dart_mouth(w->at, other, beside) &&
        fmin(mouth[1], beside[1]) - fmax(mouth[0], beside[0]) > ON_LINE_MM)
        return true;
    for (int pair = 0; pair < 4; pair++) {
        vec2 leg = point_at(w, one->legs[pair / 2]), side = point_at(w, other->legs[pair % 2]);
        if (are_parted(leg, apex, side, tip) && are_parted(side, tip, leg, apex))
            return true;
    }
    return false;
}

/* Told once of each dart, at its place. */
static void tell_darts_that_meet(const struct draft_work *w)
{
    const struct pattern_dart *darts = w->piece->darts;
    for (size_t i = 1; i < w->piece->dart_count; i++) {
        size_t k = 0;
        while (k < i && !do_darts_meet(w, &darts[k], &darts[i]))
            k++;
        if (k < i)
            draft_refuse_mark(w, &darts_meet, darts[i].place, edge_name(w, darts[i].edge), ERR_NONE);
    }
}

static bool make_line(const struct draft_work *w, const struct draft_piece *d, const struct pattern_line *written,
                      struct draft_line *line)
{
    bool ok = true;
    line->kind = written->kind;
    line->label = written->label;
    for (int i = 0; i < 2; i++) {
        line->ends[i] = draft_as_pt(w->at->points[written->ends[i]]);
        if (draft_lies_outside(d->cut.path, line->ends[i]))
            ok = draft_refuse_mark(w, &line_outside, written->place, w->piece->points[written->ends[i]].name,
                                   ERR_TEXT(base_tr_in("line on a piece", pattern_line_name(written->kind))));
    }
    return ok;
}

static bool make_lines(const struct draft_work *w, struct draft_piece *d)
{
    const struct pattern_piece *piece = w->piece;
    size_t most = 2 * piece->dart_count + piece->line_count + draft_buttonhole_count(w);
    struct draft_line *lines = base_arena_alloc(w->a, most, sizeof *lines);
    bool ok = true;
    for (size_t i = 0; i < piece->dart_count; i++)
        if (make_dart(w, d, &piece->darts[i], &lines[d->line_count]))
            d->line_count += 2;
        else
            ok = false;
    if (ok)
        tell_darts_that_meet(w);
    for (size_t i = 0; i < piece->line_count; i++)
        ok = make_line(w, d, &piece->lines[i], &lines[d->line_count++]) && ok;
    ok = draft_place_buttons(w, d, lines) && ok;
    d->lines = lines;
    return ok;
}

bool draft_place_marks(const struct draft_work *w, struct draft_piece *d)
{
    bool notches = make_notches(w, d), drills = make_drill_marks(w, d), lines = make_lines(w, d);
    return notches && drills && lines;
}

/* An edge as it lies in the outline, darts folded. */
static struct geometry_path sides_of(const struct draft_work *w, int edge)
{
    const struct draft_edge *in_outline = &w->outline.edges[edge];
    struct geometry_path all = w->outline.path;
    struct geometry_path sides = { base_arena_alloc(w->a, in_outline->count + 1, sizeof(vec2)), 0, false };
    for (size_t i = in_outline->first; sides.count <= in_outline->count; i = i + 1 < all.count ? i + 1 : 0)
        sides.points[sides.count++] = all.points[i];
    return sides;
}

/* Whether the cut line runs along an edge at the end where its neighbour's hem is squared or folded back. */
static bool is_cut_beside_hem(const struct draft_work *w, struct geometry_path sides, bool at_end, size_t point,
                              double allowance)
{
    size_t last = sides.count - 1;
    vec2 at, p = sides.points[at_end ? last : 0], next = sides.points[at_end ? last - 1 : 1];
    return has_hem(w, point, !at_end) && hem_corner(w, point, &at) &&
           fabs(vec2_cross(vec2_unit(vec2_sub(next, p)), vec2_sub(at, p))) <= allowance + SWALLOWED_MM;
}

/* Whether the cut line runs nowhere along an edge: everywhere farther out than its own allowance. */
static bool is_swallowed(const struct draft_work *w, int edge, double allowance)
{
    struct geometry_path path = sides_of(w, edge);
    double length = geometry_path_length(path);
    for (int quarter = 1; quarter < 4; quarter++) {
        vec2 direction, at = geometry_path_at(path, length * quarter / 4, &direction);
        double way = draft_way_to(&w->cut, at, vec2_right(direction), allowance + SWALLOWED_MM);
        if (way <= allowance + SWALLOWED_MM || isinf(way))
            return false;
    }
    const struct draft_edge *e = &w->outline.edges[edge];
    return length > 0 && !is_cut_beside_hem(w, path, false, e->first, allowance) &&
           !is_cut_beside_hem(w, path, true, (e->first + e->count) % w->outline.path.count, allowance);
}

void draft_check_allowances(const struct draft_work *w, const struct draft_piece *d)
{
    struct geometry_box box = geometry_path_box(d->seam.path);
    double across = fmin(box.max.x - box.min.x, box.max.y - box.min.y);
    for (int e = 0; e < (int)w->piece->edge_count; e++) {
        double allowance = w->at->allowance_mm[e];
        if (allowance > across)
            draft_refuse_part(w, &wide_allowance, edge_name(w, e));
        else if (e != w->piece->fold && is_swallowed(w, e, allowance))
            draft_refuse_part(w, &swallowed, edge_name(w, e));
    }
}
