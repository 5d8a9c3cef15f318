/* One piece on the table: cut line, stitching line, fold, grain and what is written on it. */
#include "scene/label.h"
#include "scene/parts.h"

#include <math.h>
#include <string.h>

#define GRAIN_HEAD_MM 14.0
#define GRAIN_LONGER 1.38
#define GRAIN_HEAD_WIDE_MM 10.0
#define FOLD_HEAD_MM 11.0
#define FOLD_HEAD_WIDE_MM 10.0
#define FOLD_BAR_INSIDE_MM 24.0
#define FOLD_BAR_LEAST_MM 80.0
#define FOLD_BAR_MOST 0.7 /* of the fold's length, where that is short */
#define FOLD_TIP_SHORT_MM 4.0
#define NOTCH_MM 10.0
#define NOTCH_FOOT_MM 9.0
#define DRILL_MM 12.0
#define DRILL_GAP_MM 3.0
#define DRILL_TICK_MM 6.0
#define LOZENGE_MM 16.0
#define LOZENGE_WIDE_MM 12.0
#define DOUBLE_LINE_MM 6.0

enum { RING_CORNERS = 24 };

/* The way from piece mm to table mm. */
struct placing {
    const struct scene_canvas *c;
    const struct scene_piece *piece;
    vec2 shift;
    const struct geometry_mover *mover;
};

vec2 scene_piece_place(const struct scene_piece *piece, vec2 p)
{
    return piece->mirrored ? (vec2){ -p.x, p.y } : p;
}

static vec2 placed(const struct placing *w, vec2 p)
{
    return geometry_move(w->mover, vec2_add(scene_piece_place(w->piece, p), w->shift));
}

static struct table_path placed_path(const struct placing *w, struct geometry_path path)
{
    struct table_path out = { geometry_path_copy(w->c->a, path) };
    for (size_t i = 0; i < path.count; i++)
        out.path.points[i] = placed(w, path.points[i]);
    return out;
}

static void stroke(const struct placing *w, struct geometry_path path, enum scene_line line)
{
    const struct scene_look *look = &w->c->view->look;
    paint_table_stroke(&w->c->out->table, placed_path(w, path), scene_pen(look, line), scene_ink(look, line));
}

static struct geometry_path path_of(struct arena *a, const vec2 *points, size_t count, bool closed)
{
    struct geometry_path path = { base_arena_alloc(a, count, sizeof *points), count, closed };
    memcpy(path.points, points, count * sizeof *points);
    return path;
}

static void stroke_points(const struct placing *w, const vec2 *points, size_t count, enum scene_line line)
{
    stroke(w, path_of(w->c->a, points, count, false), line);
}

/* A filled triangle with its tip at `tip`, pointing along the unit direction. */
static void arrow_head(const struct placing *w, vec2 tip, vec2 direction, double length, double wide,
                       enum scene_line line)
{
    vec2 foot = vec2_sub(tip, vec2_scale(direction, length));
    vec2 side = vec2_scale(vec2_right(direction), wide / 2);
    const vec2 corners[] = { tip, vec2_sub(foot, side), vec2_add(foot, side) };
    struct table_path head = placed_path(w, path_of(w->c->a, corners, 3, true));
    paint_table_fill(&w->c->out->table, &head, 1, scene_ink(&w->c->view->look, line));
}

/* `longer`: how far the arrow is drawn out, where letters run along it and would cover it. */
static void grain_ends(const struct draft_piece *piece, double longer, vec2 ends[2])
{
    vec2 from = { piece->grain[0].x, piece->grain[0].y }, to = { piece->grain[1].x, piece->grain[1].y };
    ends[0] = vec2_lerp(to, from, (1 + longer) / 2);
    ends[1] = vec2_lerp(from, to, (1 + longer) / 2);
}

/* The shaft ends inside the heads, so that the tips stay sharp. */
static void draw_grain_shaft(const struct placing *w, const struct draft_piece *piece, double longer)
{
    vec2 ends[2];
    grain_ends(piece, longer, ends);
    vec2 inset = vec2_scale(vec2_unit(vec2_sub(ends[1], ends[0])), GRAIN_HEAD_MM / 2);
    stroke_points(w, (const vec2[]){ vec2_add(ends[0], inset), vec2_sub(ends[1], inset) }, 2, SCENE_GRAIN);
}

/* Both heads always show: one alone would mean that the cloth has a nap. */
static void draw_grain_heads(const struct placing *w, const struct draft_piece *piece, double longer)
{
    vec2 ends[2];
    grain_ends(piece, longer, ends);
    vec2 along = vec2_unit(vec2_sub(ends[1], ends[0]));
    arrow_head(w, ends[1], along, GRAIN_HEAD_MM, GRAIN_HEAD_WIDE_MM, SCENE_GRAIN);
    arrow_head(w, ends[0], vec2_scale(along, -1), GRAIN_HEAD_MM, GRAIN_HEAD_WIDE_MM, SCENE_GRAIN);
}

/* The fold's line, and inside it a bar with both ends bent to the fold. */
static void draw_fold(const struct placing *w, const struct draft_piece *piece)
{
    vec2 from = { piece->fold[0].x, piece->fold[0].y }, to = { piece->fold[1].x, piece->fold[1].y };
    vec2 along = vec2_unit(vec2_sub(to, from)), in = vec2_scale(vec2_right(along), -1);
    double length = vec2_length(vec2_sub(to, from));
    double bar = fmin(fmax(length / 2, FOLD_BAR_LEAST_MM), length * FOLD_BAR_MOST);
    vec2 middle = vec2_add(vec2_lerp(from, to, 0.5), vec2_scale(in, FOLD_BAR_INSIDE_MM));
    vec2 ends[2] = { vec2_sub(middle, vec2_scale(along, bar / 2)), vec2_add(middle, vec2_scale(along, bar / 2)) };
    vec2 drop = vec2_scale(in, -(FOLD_BAR_INSIDE_MM - FOLD_TIP_SHORT_MM));
    vec2 shaft = vec2_scale(in, -(FOLD_BAR_INSIDE_MM - FOLD_TIP_SHORT_MM - FOLD_HEAD_MM / 2));
    stroke_points(w, (const vec2[]){ from, to }, 2, SCENE_FOLD);
    stroke_points(w, (const vec2[]){ vec2_add(ends[0], shaft), ends[0], ends[1], vec2_add(ends[1], shaft) }, 4,
                  SCENE_GRAIN);
    for (int i = 0; i < 2; i++)
        arrow_head(w, vec2_add(ends[i], drop), vec2_scale(in, -1), FOLD_HEAD_MM, FOLD_HEAD_WIDE_MM, SCENE_FOLD);
}

static vec2 as_vec2(struct piece_pt p)
{
    return (vec2){ p.x, p.y };
}

/* How far outside the cut line its light reaches: nothing when its outer edge is the one to be cut. */
static double light_outside(const struct scene_canvas *c)
{
    return c->view->cut_outer_edge ? 0 : scene_cut_width(&c->view->look) / 2;
}

/* A triangle outside with its tip on the line's light, and inside the snip at its true depth. */
static void draw_notch(const struct placing *w, const struct draft_notch *notch, const struct draft_notch_place *place)
{
    vec2 at = as_vec2(place->at), tip = vec2_sub(at, vec2_scale(place->inward, light_outside(w->c)));
    arrow_head(w, tip, place->inward, NOTCH_MM, NOTCH_FOOT_MM, SCENE_NOTCH);
    if (notch->depth_mm > 0)
        stroke_points(w, (const vec2[]){ at, vec2_add(at, vec2_scale(place->inward, notch->depth_mm)) }, 2,
                      SCENE_NOTCH);
}

/* A ring with a dark middle for the awl, and four ticks outside it. */
static void draw_drill_mark(const struct placing *w, vec2 at)
{
    vec2 ring[RING_CORNERS];
    for (int i = 0; i < RING_CORNERS; i++) {
        double s, c;
        geometry_sincos(360.0 * i / RING_CORNERS, &s, &c);
        ring[i] = vec2_add(at, (vec2){ DRILL_MM / 2 * c, DRILL_MM / 2 * s });
    }
    stroke(w, path_of(w->c->a, ring, RING_CORNERS, true), SCENE_DRILL);
    static const vec2 directions[] = { { 1, 0 }, { 0, 1 }, { -1, 0 }, { 0, -1 } };
    for (int d = 0; d < 4; d++) {
        vec2 from = vec2_add(at, vec2_scale(directions[d], DRILL_MM / 2 + DRILL_GAP_MM));
        stroke_points(w, (const vec2[]){ from, vec2_add(from, vec2_scale(directions[d], DRILL_TICK_MM)) }, 2,
                      SCENE_DRILL);
    }
}

/* An open lozenge at the end of a match line. */
static void draw_lozenge(const struct placing *w, vec2 at, vec2 along)
{
    vec2 half = vec2_scale(along, LOZENGE_MM / 2), side = vec2_scale(vec2_right(along), LOZENGE_WIDE_MM / 2);
    const vec2 corners[] = { vec2_add(at, half), vec2_add(at, side), vec2_sub(at, half), vec2_sub(at, side) };
    stroke(w, path_of(w->c->a, corners, 4, true), SCENE_GRAIN);
}

static void draw_line(const struct placing *w, const struct draft_line *line)
{
    static const enum scene_line kinds[] = { [PATTERN_LINE_DART] = SCENE_DART,
                                             [PATTERN_LINE_FOLD] = SCENE_FOLD_LINE,
                                             [PATTERN_LINE_LENGTHEN] = SCENE_LENGTHEN,
                                             [PATTERN_LINE_MATCH] = SCENE_MATCH };
    vec2 ends[2] = { as_vec2(line->ends[0]), as_vec2(line->ends[1]) };
    vec2 along = vec2_unit(vec2_sub(ends[1], ends[0])), side = vec2_scale(vec2_right(along), DOUBLE_LINE_MM / 2);
    if (line->kind == PATTERN_LINE_LENGTHEN) { /* two lines, as the trade draws it */
        stroke_points(w, (const vec2[]){ vec2_add(ends[0], side), vec2_add(ends[1], side) }, 2, kinds[line->kind]);
        stroke_points(w, (const vec2[]){ vec2_sub(ends[0], side), vec2_sub(ends[1], side) }, 2, kinds[line->kind]);
        return;
    }
    stroke_points(w, ends, 2, kinds[line->kind]);
    for (int i = 0; i < 2 && line->kind == PATTERN_LINE_MATCH; i++)
        draw_lozenge(w, ends[i], along);
}

static void draw_notches(const struct placing *w, const struct draft_piece *piece)
{
    for (size_t i = 0; i < piece->notch_count; i++)
        for (size_t p = 0; p < piece->notches[i].place_count; p++)
            draw_notch(w, &piece->notches[i], &piece->notches[i].places[p]);
}

static void draw_drill_marks(const struct placing *w, const struct draft_piece *piece)
{
    for (size_t i = 0; i < piece->drill_mark_count; i++)
        draw_drill_mark(w, as_vec2(piece->drill_marks[i]));
}

static void draw_lines(const struct placing *w, const struct draft_piece *piece)
{
    for (size_t i = 0; i < piece->line_count; i++)
        draw_line(w, &piece->lines[i]);
}

/* The light of the cut line: its middle on the line, or all of it inside. */
static struct geometry_path cut_light(const struct placing *w, const struct draft_piece *piece)
{
    struct geometry_path line = piece->cut_line.path;
    double inside = scene_cut_width(&w->c->view->look) / 2 - light_outside(w->c);
    return inside > 0 ? geometry_path_beside(w->c->a, line, inside) : line;
}

/* `from`: the first path of the draw list that is a mark of this piece. */
static struct scene_label label_of(const struct placing *w, const struct draft_piece *piece, size_t from)
{
    const struct paint_items *drawn = &w->c->out->table.in;
    struct scene_label_room room = { .texts = { piece->label, w->piece->lines[0], w->piece->lines[1] },
                                     .seam = placed_path(w, piece->seam.path).path,
                                     .marks = drawn->paths + from,
                                     .mark_count = drawn->path_count - from,
                                     .wish = placed(w, as_vec2(piece->label_at)) };
    grain_ends(piece, 1, room.grain);
    grain_ends(piece, GRAIN_LONGER, room.longer_grain);
    for (int i = 0; i < 2; i++) {
        room.grain[i] = placed(w, room.grain[i]);
        room.longer_grain[i] = placed(w, room.longer_grain[i]);
    }
    return scene_label_place(w->c, &room);
}

/* Marks first, then the letters' place among them; what guides the shears is drawn over the dark of the letters. */
void scene_draw_piece(const struct scene_canvas *c, const struct scene_piece *piece, vec2 shift,
                      const struct geometry_mover *mover)
{
    struct placing w = { c, piece, shift, mover };
    const struct draft_piece *drafted = piece->piece;
    size_t marks = c->out->table.in.path_count;
    draw_lines(&w, drafted);
    draw_drill_marks(&w, drafted);
    if (drafted->has_fold)
        draw_fold(&w, drafted);
    struct scene_label label = label_of(&w, drafted, marks);
    double longer = label.along ? GRAIN_LONGER : 1;
    draw_grain_shaft(&w, drafted, longer);
    if (c->view->font)
        scene_label_darken(c, &label);
    draw_grain_heads(&w, drafted, longer);
    stroke(&w, drafted->seam_line.path, SCENE_SEAM);
    stroke(&w, cut_light(&w, drafted), SCENE_CUT);
    draw_notches(&w, drafted);
    scene_label_write(c, &label);
}
