/* A lifted piece as pieces are drawn to be cut, and what is said of it in words. */
#include "app/lift_state.h"
#include "base/words.h"
#include "lifting/grain_line.h"

#include <math.h>
#include <string.h>

#define GRAIN_SHARE 0.3    /* of the piece's extent, each way from its middle, where no line lies in the piece */
#define LEAST_APART_MM 0.5 /* of a double notch's two */

static struct piece_pt pt(vec2 p)
{
    return (struct piece_pt){ p.x, p.y };
}

static struct geometry_path outline_of(const struct lifting_piece *piece, int size)
{
    return piece->outlines[size].path.path;
}

static bool is_of_size(const struct lifting_mark *mark, int size)
{
    return mark->size == LIFTING_NONE || mark->size == size;
}

static vec2 middle_of(struct geometry_path path)
{
    struct geometry_box box = geometry_path_box(path);
    return vec2_lerp(box.min, box.max, 0.5);
}

static size_t count_marks(const struct lifting_piece *piece, int size, enum lifting_mark_kind kind)
{
    size_t count = 0;
    for (size_t i = 0; i < piece->mark_count; i++)
        count += piece->marks[i].kind == kind && is_of_size(&piece->marks[i], size);
    return count;
}

/* --- the outline, and the fold ----------------------------------------------------------------------------------- */

/* A closed path from one place along it on to another, around its start if need be, as an open one. */
static struct geometry_path around(struct arena *a, struct geometry_path closed, double from, double to)
{
    double whole = geometry_path_length(closed);
    if (from <= to)
        return geometry_path_part(a, closed, from, to);
    struct geometry_path first = geometry_path_part(a, closed, from, whole),
                         then = geometry_path_part(a, closed, 0, to);
    struct geometry_path out = { base_arena_alloc(a, first.count + then.count, sizeof(vec2)), first.count, false };
    memcpy(out.points, first.points, first.count * sizeof(vec2));
    memcpy(out.points + first.count - 1, then.points, then.count * sizeof(vec2));
    out.count += then.count - 1;
    return out;
}

/* How far it is from one place along a closed path on to another. */
static double way(double whole, double from, double to)
{
    return from <= to ? to - from : whole - from + to;
}

/* The fold runs the shorter way from one of its ends to the other, as the outline does. */
static void draw_fold(struct arena *a, const struct lifting_mark *fold, struct draft_piece *out)
{
    struct geometry_path cut = out->cut.path, line = fold->path.path;
    double whole = geometry_path_length(cut), ends[2];
    if (line.count < 2)
        return;
    geometry_path_distance(cut, line.points[0], &ends[0]);
    geometry_path_distance(cut, line.points[line.count - 1], &ends[1]);
    if (way(whole, ends[0], ends[1]) > way(whole, ends[1], ends[0])) {
        double first = ends[0];
        ends[0] = ends[1];
        ends[1] = first;
    }
    vec2 direction;
    out->has_fold = true;
    for (int i = 0; i < 2; i++)
        out->fold[i] = pt(geometry_path_at(cut, ends[i], &direction));
    out->cut_line.path = around(a, cut, ends[1], ends[0]);
    out->seam_line = out->cut_line;
}

/* --- marks ------------------------------------------------------------------------------------------------------- */

static struct draft_notch_place notch_at(struct geometry_path cut, double along)
{
    vec2 direction, at = geometry_path_at(cut, along, &direction);
    struct draft_notch_place place = { .at = pt(at), .on_seam = pt(at), .mouth = { pt(at), pt(at) } };
    place.inward = vec2_scale(vec2_right(direction), -1);
    return place;
}

static struct draft_notch notch_of(const struct lifting_mark *mark, struct geometry_path cut)
{
    struct draft_notch notch = { .edge = PATTERN_NONE, .place_count = 1 };
    double along, whole = geometry_path_length(cut), half = mark->apart_mm / 2;
    geometry_path_distance(cut, mark->path.path.points[0], &along);
    if (mark->apart_mm < LEAST_APART_MM) {
        notch.places[0] = notch_at(cut, along);
        return notch;
    }
    notch.place_count = 2;
    for (int i = 0; i < 2; i++)
        notch.places[i] = notch_at(cut, fmod(along + (i ? half : -half) + whole, whole));
    return notch;
}

static void draw_notches(struct arena *a, const struct lifting_piece *piece, int size, struct draft_piece *out)
{
    struct draft_notch *notches = base_arena_alloc(a, count_marks(piece, size, LIFTING_NOTCH), sizeof *notches);
    for (size_t i = 0; i < piece->mark_count; i++)
        if (piece->marks[i].kind == LIFTING_NOTCH && is_of_size(&piece->marks[i], size))
            notches[out->notch_count++] = notch_of(&piece->marks[i], out->cut.path);
    out->notches = notches;
}

static void draw_drill_marks(struct arena *a, const struct lifting_piece *piece, int size, struct draft_piece *out)
{
    struct piece_pt *marks = base_arena_alloc(a, count_marks(piece, size, LIFTING_DRILL), sizeof *marks);
    for (size_t i = 0; i < piece->mark_count; i++)
        if (piece->marks[i].kind == LIFTING_DRILL && is_of_size(&piece->marks[i], size))
            marks[out->drill_mark_count++] = pt(piece->marks[i].path.path.points[0]);
    out->drill_marks = marks;
}

/* A dart's two legs, and the line to lengthen at from end to end. */
static void draw_lines(struct arena *a, const struct lifting_piece *piece, int size, struct draft_piece *out)
{
    size_t most = 2 * count_marks(piece, size, LIFTING_DART) + count_marks(piece, size, LIFTING_LENGTHEN);
    struct draft_line *lines = base_arena_alloc(a, most, sizeof *lines);
    for (size_t i = 0; i < piece->mark_count; i++) {
        const struct lifting_mark *mark = &piece->marks[i];
        struct geometry_path path = mark->path.path;
        if (!is_of_size(mark, size))
            continue;
        if (mark->kind == LIFTING_LENGTHEN)
            lines[out->line_count++] =
                (struct draft_line){ .kind = PATTERN_LINE_LENGTHEN,
                                     .ends = { pt(path.points[0]), pt(path.points[path.count - 1]) } };
        for (int leg = 0; leg < 2 && mark->kind == LIFTING_DART; leg++)
            lines[out->line_count++] = (struct draft_line){ .kind = PATTERN_LINE_DART,
                                                            .ends = { pt(path.points[2 * leg]), pt(path.points[1]) } };
    }
    out->lines = lines;
}

size_t app_lift_inner_lines(struct arena *a, const struct lifting_piece *piece, int size,
                            const struct geometry_path **out)
{
    struct geometry_path *lines = base_arena_alloc(a, piece->mark_count, sizeof *lines);
    size_t count = 0;
    for (size_t i = 0; i < piece->mark_count; i++) {
        const struct lifting_mark *mark = &piece->marks[i];
        if ((mark->kind == LIFTING_INNER || mark->kind == LIFTING_STITCH) && is_of_size(mark, size))
            lines[count++] = mark->path.path;
    }
    *out = lines;
    return count;
}

static void draw_grain(const struct lifting_piece *piece, int size, struct draft_piece *out)
{
    vec2 ends[2], middle = middle_of(out->cut.path), grain = piece->grain;
    struct geometry_box box = geometry_path_box(out->cut.path);
    double reach = GRAIN_SHARE * (fabs(grain.x) * (box.max.x - box.min.x) + fabs(grain.y) * (box.max.y - box.min.y));
    if (!lifting_grain_line(piece, size, ends)) {
        ends[0] = vec2_sub(middle, vec2_scale(grain, reach));
        ends[1] = vec2_add(middle, vec2_scale(grain, reach));
    }
    out->grain[0] = pt(ends[0]);
    out->grain[1] = pt(ends[1]);
}

bool app_lift_draft(struct arena *a, const struct lifting_piece *piece, int size, struct draft_piece *out)
{
    if (size == LIFTING_NONE || !piece->outlines[size].there)
        return false;
    struct geometry_path cut = outline_of(piece, size), open = geometry_path_copy(a, cut);
    *out = (struct draft_piece){ .name = piece->words.name,
                                 .label = piece->words.name ? piece->words.name : base_tr("no name"),
                                 .seam = { cut },
                                 .cut = { cut },
                                 .fold_edge = PATTERN_NONE,
                                 .label_at = pt(geometry_path_centre(cut)) };
    out->cut_line.path = open;
    out->seam_line = out->cut_line;
    for (size_t i = 0; i < piece->mark_count; i++)
        if (piece->marks[i].kind == LIFTING_FOLD && is_of_size(&piece->marks[i], size))
            draw_fold(a, &piece->marks[i], out);
    draw_grain(piece, size, out);
    draw_notches(a, piece, size, out);
    draw_drill_marks(a, piece, size, out);
    draw_lines(a, piece, size, out);
    return true;
}
