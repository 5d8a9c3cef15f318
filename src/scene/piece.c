/* One piece on the table: cut line, stitching line, fold, grain and what is written on it. */
#include "scene/label.h"
#include "scene/parts.h"

#include <math.h>
#include <string.h>

#define GRAIN_HEAD_MM 14.0
#define GRAIN_HEAD_WIDE_MM 10.0
#define CHEVRON_MM 9.0 /* long and wide, at the tail of an arrow with one head … */
#define CHEVRON_APART_MM 8.0
#define GRAIN_LONGER 1.38 /* of its length, under letters */
#define FOLD_HEAD_MM 11.0
#define FOLD_HEAD_WIDE_MM 10.0
#define FOLD_BAR_INSIDE_MM 24.0
#define FOLD_BAR_LEAST_MM 80.0
#define FOLD_BAR_SHORTEST_MM 20.0 /* both heads still apart */
#define FOLD_BAR_AIR_MM 3.0       /* about it and its heads */
#define FOLD_TIP_SHORT_MM 4.0
#define NOTCH_MM 10.0
#define NOTCH_FOOT_MM 9.0
#define DRILL_MM 12.0
#define DRILL_GAP_MM 3.0
#define DRILL_TICK_MM 6.0
#define BUTTON_MM 10.0  /* its cross, corner to corner each way */
#define HOLE_BAR_MM 6.0 /* at a buttonhole's ends */
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

/* Whether the cloth has a nap, or a print that stands up. */
static bool is_one_way(const struct scene_canvas *c)
{
    return c->view->layout && c->view->layout->one_way;
}

/* The shaft ends inside the heads, so that the tips stay sharp. Both heads always show: one alone means that the cloth
 * has a nap, and is at the piece's upper end, the second one. `ends` are on the table already. */
static void draw_grain_heads(const struct scene_canvas *c, const vec2 ends[2])
{
    vec2 along = vec2_unit(vec2_sub(ends[1], ends[0]));
    for (int i = is_one_way(c); i < 2; i++) {
        vec2 out = vec2_scale(along, i ? 1 : -1), foot = vec2_sub(ends[i], vec2_scale(out, GRAIN_HEAD_MM));
        vec2 side = vec2_scale(vec2_right(out), GRAIN_HEAD_WIDE_MM / 2);
        const vec2 corners[] = { ends[i], vec2_sub(foot, side), vec2_add(foot, side) };
        struct table_path head = { path_of(c->a, corners, 3, true) };
        paint_table_fill(&c->out->table, &head, 1, scene_ink(&c->view->look, SCENE_GRAIN));
    }
}

/* Three at the tail, where there is room behind the head, pointing to it. */
static void draw_chevrons(const struct scene_canvas *c, const vec2 ends[2])
{
    enum { CHEVRONS = 3 };
    const struct scene_look *look = &c->view->look;
    vec2 along = vec2_unit(vec2_sub(ends[1], ends[0])), side = vec2_scale(vec2_right(along), CHEVRON_MM / 2);
    double room = vec2_length(vec2_sub(ends[1], ends[0])) - GRAIN_HEAD_MM;
    for (int i = 0; i < CHEVRONS && CHEVRON_MM + i * CHEVRON_APART_MM < room; i++) {
        vec2 foot = vec2_add(ends[0], vec2_scale(along, i * CHEVRON_APART_MM));
        vec2 tip = vec2_add(foot, vec2_scale(along, CHEVRON_MM));
        const vec2 points[] = { vec2_sub(foot, side), tip, vec2_add(foot, side) };
        paint_table_stroke(&c->out->table, (struct table_path){ path_of(c->a, points, 3, false) },
                           scene_pen(look, SCENE_GRAIN), scene_ink(look, SCENE_GRAIN));
    }
}

void scene_draw_grain(const struct scene_canvas *c, const vec2 ends[2])
{
    const struct scene_look *look = &c->view->look;
    vec2 inset = vec2_scale(vec2_unit(vec2_sub(ends[1], ends[0])), GRAIN_HEAD_MM / 2);
    const vec2 shaft[] = { is_one_way(c) ? ends[0] : vec2_add(ends[0], inset), vec2_sub(ends[1], inset) };
    if (is_one_way(c))
        draw_chevrons(c, ends);
    paint_table_stroke(&c->out->table, (struct table_path){ path_of(c->a, shaft, 2, false) },
                       scene_pen(look, SCENE_GRAIN), scene_ink(look, SCENE_GRAIN));
    draw_grain_heads(c, ends);
}

/* What was drawn of a piece from the draw list's path `first_mark` on, and its stitching line. */
static struct scene_obstacles drawn_of(const struct placing *w, const struct draft_piece *piece, size_t first_mark)
{
    const struct paint_items *drawn = &w->c->out->table.in;
    size_t marks = drawn->path_count - first_mark;
    struct geometry_path *paths = base_arena_alloc(w->c->a, marks + 1, sizeof *paths);
    if (marks)
        memcpy(paths, drawn->paths + first_mark, marks * sizeof *paths);
    paths[marks] = placed_path(w, piece->seam_line.path).path;
    return (struct scene_obstacles){ paths, marks + 1 };
}

/* Where along the fold its bar finds the most room: clear of the piece's lines and of the stitching lines that end on
 * the fold. As places from `from`, on the table as in the piece. */
static struct scene_gap fold_room(const struct placing *w, const struct draft_piece *piece, vec2 from, vec2 along,
                                  double length, size_t first_mark)
{
    struct scene_obstacles drawn = drawn_of(w, piece, first_mark);
    vec2 at = placed(w, from), on_table = vec2_unit(vec2_sub(placed(w, vec2_add(from, along)), at));
    double reach = FOLD_BAR_INSIDE_MM + FOLD_BAR_AIR_MM;
    bool is_left = vec2_cross(on_table, vec2_sub(placed(w, vec2_sub(from, vec2_right(along))), at)) > 0;
    struct scene_lane lane = { at, on_table, is_left ? reach : 0, is_left ? 0 : reach,
                               FOLD_HEAD_WIDE_MM / 2 + FOLD_BAR_AIR_MM };
    struct scene_gap *gaps, best = { 0, 0 };
    size_t count = scene_lane_gaps(w->c->a, &lane, &drawn, 0, length, &gaps);
    for (size_t i = 0; i < count; i++)
        if (gaps[i].to - gaps[i].from > best.to - best.from)
            best = gaps[i];
    return best;
}

/* Open, unlike the grain's: the two are not to be taken for each other where they lie close. */
static void draw_open_head(const struct placing *w, vec2 tip, vec2 direction)
{
    vec2 foot = vec2_sub(tip, vec2_scale(direction, FOLD_HEAD_MM));
    vec2 side = vec2_scale(vec2_right(direction), FOLD_HEAD_WIDE_MM / 2);
    stroke_points(w, (const vec2[]){ vec2_sub(foot, side), tip, vec2_add(foot, side) }, 3, SCENE_GRAIN);
}

/* The fold's line, and inside it a bar with both ends bent to the fold, where there is room for two arrows. */
static void draw_fold(const struct placing *w, const struct draft_piece *piece, size_t first_mark)
{
    vec2 from = { piece->fold[0].x, piece->fold[0].y }, to = { piece->fold[1].x, piece->fold[1].y };
    vec2 along = vec2_unit(vec2_sub(to, from)), in = vec2_scale(vec2_right(along), -1);
    double length = vec2_length(vec2_sub(to, from));
    struct scene_gap room = fold_room(w, piece, from, along, length, first_mark);
    double bar = fmin(fmax(length / 2, FOLD_BAR_LEAST_MM), room.to - room.from);
    double middle = fmin(fmax(length / 2, room.from + bar / 2), room.to - bar / 2);
    vec2 drop = vec2_scale(in, -(FOLD_BAR_INSIDE_MM - FOLD_TIP_SHORT_MM));
    stroke_points(w, (const vec2[]){ from, to }, 2, SCENE_FOLD);
    if (bar < FOLD_BAR_SHORTEST_MM)
        return;
    vec2 inside = vec2_add(from, vec2_scale(in, FOLD_BAR_INSIDE_MM));
    vec2 ends[2] = { vec2_add(inside, vec2_scale(along, middle - bar / 2)),
                     vec2_add(inside, vec2_scale(along, middle + bar / 2)) };
    stroke_points(w, (const vec2[]){ vec2_add(ends[0], drop), ends[0], ends[1], vec2_add(ends[1], drop) }, 4,
                  SCENE_GRAIN);
    for (int i = 0; i < 2; i++)
        draw_open_head(w, vec2_add(ends[i], drop), vec2_scale(in, -1));
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

/* From the cut line into the allowance: straight, or down one side of a V and up the other. */
static void stroke_inward(const struct placing *w, const struct draft_notch *notch,
                          const struct draft_notch_place *place, double length, struct paint_pen pen,
                          struct paint_ink ink)
{
    vec2 tip = vec2_add(as_vec2(place->at), vec2_scale(place->inward, length));
    const vec2 slit[] = { as_vec2(place->at), tip };
    const vec2 v[] = { as_vec2(place->mouth[0]), tip, as_vec2(place->mouth[1]) };
    struct geometry_path way =
        notch->shape == PATTERN_V ? path_of(w->c->a, v, 3, false) : path_of(w->c->a, slit, 2, false);
    paint_table_stroke(&w->c->out->table, placed_path(w, way), pen, ink);
}

/* A triangle outside with its tip on the line's light, and inside the light that its snip shows dark in: as wide again
 * on either side and at the end, for the line's own light reaches past the snip, ends short of it or wholly covers it.
 */
static void draw_notch(const struct placing *w, const struct draft_notch *notch, const struct draft_notch_place *place)
{
    vec2 tip = vec2_sub(as_vec2(place->at), vec2_scale(place->inward, light_outside(w->c)));
    struct paint_pen pen = scene_pen(&w->c->view->look, SCENE_NOTCH);
    double around = pen.width;
    arrow_head(w, tip, place->inward, NOTCH_MM, NOTCH_FOOT_MM, SCENE_NOTCH);
    pen.width = around + 2 * around;
    if (notch->depth_mm > 0)
        stroke_inward(w, notch, place, notch->depth_mm + around, pen, scene_ink(&w->c->view->look, SCENE_NOTCH));
}

/* The snip itself at its true depth, unlit. */
static void draw_snip(const struct placing *w, const struct draft_notch *notch, const struct draft_notch_place *place)
{
    if (notch->depth_mm > 0)
        stroke_inward(w, notch, place, notch->depth_mm, scene_pen(&w->c->view->look, SCENE_NOTCH),
                      (struct paint_ink){ 0, 0 });
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

/* Square to a buttonhole at its end: the hole is as long as from bar to bar. */
static void draw_bar(const struct placing *w, vec2 at, vec2 along)
{
    vec2 side = vec2_scale(vec2_right(along), HOLE_BAR_MM / 2);
    stroke_points(w, (const vec2[]){ vec2_add(at, side), vec2_sub(at, side) }, 2, SCENE_BUTTON);
}

/* A cross aslant, where drill marks have a ring. */
static void draw_button(const struct placing *w, vec2 at)
{
    for (int up = -1; up <= 1; up += 2) {
        vec2 arm = { BUTTON_MM / 2, up * BUTTON_MM / 2 };
        stroke_points(w, (const vec2[]){ vec2_sub(at, arm), vec2_add(at, arm) }, 2, SCENE_BUTTON);
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
    static const enum scene_line kinds[] = {
        [PATTERN_LINE_DART] = SCENE_DART,         [PATTERN_LINE_FOLD] = SCENE_FOLD_LINE,
        [PATTERN_LINE_LENGTHEN] = SCENE_LENGTHEN, [PATTERN_LINE_MATCH] = SCENE_MATCH,
        [PATTERN_LINE_PLACEMENT] = SCENE_DART,    [PATTERN_LINE_BUTTONHOLE] = SCENE_BUTTON
    };
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
    for (int i = 0; i < 2 && line->kind == PATTERN_LINE_BUTTONHOLE; i++)
        draw_bar(w, ends[i], along);
}

static void for_each_notch(const struct placing *w, const struct draft_piece *piece,
                           void (*draw)(const struct placing *, const struct draft_notch *,
                                        const struct draft_notch_place *))
{
    for (size_t i = 0; i < piece->notch_count; i++)
        for (size_t p = 0; p < piece->notches[i].place_count; p++)
            draw(w, &piece->notches[i], &piece->notches[i].places[p]);
}

/* All that is lit before all that is not: each is then one layer to paint, and no notch fills its neighbour's snip. */
static void draw_notches(const struct placing *w, const struct draft_piece *piece)
{
    for_each_notch(w, piece, draw_notch);
    for_each_notch(w, piece, draw_snip);
}

static void draw_drill_marks(const struct placing *w, const struct draft_piece *piece)
{
    for (size_t i = 0; i < piece->drill_mark_count; i++)
        draw_drill_mark(w, as_vec2(piece->drill_marks[i]));
}

static void draw_buttons(const struct placing *w, const struct draft_piece *piece)
{
    for (size_t i = 0; i < piece->button_count; i++)
        draw_button(w, as_vec2(piece->buttons[i]));
}

static void draw_lines(const struct placing *w, const struct draft_piece *piece)
{
    for (size_t i = 0; i < piece->line_count; i++)
        draw_line(w, &piece->lines[i]);
}

/* Beside all lines that are drawn before. */
static void label_lines(const struct placing *w, const struct draft_piece *piece, size_t first_mark)
{
    for (size_t i = 0; i < piece->line_count && w->c->view->font; i++) {
        const struct draft_line *line = &piece->lines[i];
        const vec2 ends[] = { placed(w, as_vec2(line->ends[0])), placed(w, as_vec2(line->ends[1])) };
        struct scene_obstacles drawn = drawn_of(w, piece, first_mark);
        if (line->label)
            scene_write_along(w->c, line->label, ends, placed_path(w, piece->cut.path).path, &drawn);
    }
}

/* The light of the cut line: its middle on the line, or all of it inside. */
static struct geometry_path cut_light(const struct placing *w, const struct draft_piece *piece)
{
    struct geometry_path line = piece->cut_line.path;
    double inside = scene_cut_width(&w->c->view->look) / 2 - light_outside(w->c);
    return inside > 0 ? geometry_path_beside(w->c->a, line, inside) : line;
}

static vec2 placed_pt(const struct placing *w, struct piece_pt p)
{
    return placed(w, as_vec2(p));
}

/* About a mark's middle, as far as it reaches. */
static struct geometry_path box_about(const struct placing *w, struct piece_pt p, double reach)
{
    vec2 at = placed_pt(w, p);
    const vec2 corners[] = { { at.x - reach, at.y - reach },
                             { at.x + reach, at.y - reach },
                             { at.x + reach, at.y + reach },
                             { at.x - reach, at.y + reach } };
    return path_of(w->c->a, corners, 4, true);
}

/* What is pricked or chalked through the piece at one place. */
static struct scene_obstacles pricked_of(const struct placing *w, const struct draft_piece *piece)
{
    size_t drills = piece->drill_mark_count, count = drills + piece->button_count;
    struct geometry_path *paths = base_arena_alloc(w->c->a, count, sizeof *paths);
    for (size_t i = 0; i < drills; i++)
        paths[i] = box_about(w, piece->drill_marks[i], DRILL_MM / 2 + DRILL_GAP_MM + DRILL_TICK_MM);
    for (size_t i = drills; i < count; i++)
        paths[i] = box_about(w, piece->buttons[i - drills], BUTTON_MM / 2);
    return (struct scene_obstacles){ paths, count };
}

/* `first_mark`: the first path of the draw list that is a mark of this piece; the last is `end`. */
static struct scene_label_room room_of(const struct placing *w, const struct draft_piece *piece, size_t first_mark,
                                       size_t end)
{
    struct geometry_path seam = placed_path(w, piece->seam.path).path;
    const struct scene_obstacles drawn = { w->c->out->table.in.paths + first_mark, end - first_mark };
    return (struct scene_label_room){ .texts = { piece->label, w->piece->lines[0], w->piece->lines[1] },
                                      .breaks = w->piece->must_tell,
                                      .seam = seam,
                                      .marks = scene_joined(w->c->a, drawn, w->c->kept, geometry_path_box(seam)),
                                      .pricked = pricked_of(w, piece),
                                      .wish = placed_pt(w, piece->label_at),
                                      .grain = { placed_pt(w, piece->grain[0]), placed_pt(w, piece->grain[1]) },
                                      .has_fold = piece->has_fold,
                                      .fold = { placed_pt(w, piece->fold[0]), placed_pt(w, piece->fold[1]) } };
}

/* The grain arrow without letters to mind; where there is no clear place, through the middle all the same. */
static void place_grain_alone(const struct placing *w, const struct scene_label_room *room, vec2 grain[2])
{
    struct geometry_path *all = base_arena_alloc(w->c->a, room->marks.count + 1, sizeof *all);
    if (room->marks.count)
        memcpy(all, room->marks.paths, room->marks.count * sizeof *all);
    all[room->marks.count] = room->seam;
    if (scene_grain_place(w->c->a, room->seam, (struct geometry_path){ NULL, 0, true },
                          &(struct scene_obstacles){ all, room->marks.count + 1 }, room->grain, SCENE_LANES, grain))
        return;
    grain[0] = room->grain[0];
    grain[1] = room->grain[1];
}

/* The arrow's second end is the piece's upper one as it is drawn. */
static void turn_up(const struct placing *w, const struct draft_piece *piece, vec2 grain[2])
{
    int upper = piece->grain[1].y >= piece->grain[0].y;
    vec2 up = vec2_sub(placed_pt(w, piece->grain[upper]), placed_pt(w, piece->grain[!upper])), lower = grain[0];
    if (vec2_dot(vec2_sub(grain[1], grain[0]), up) >= 0)
        return;
    grain[0] = grain[1];
    grain[1] = lower;
}

static void write_label(const struct scene_canvas *c, const struct scene_piece *piece, const struct scene_label *label)
{
    if (piece->in_hand)
        scene_label_write_lit(c, label);
    else
        scene_label_write(c, label);
}

/* Marks first, then the letters and the grain arrow in the room they leave. */
void scene_draw_piece(const struct scene_canvas *c, struct scene_placed *placed)
{
    struct placing w = { c, placed->piece, placed->shift, placed->mover };
    const struct draft_piece *drafted = placed->piece->piece;
    const struct paint_items *drawn = &c->out->table.in;
    size_t marks = drawn->path_count;
    struct scene_label label;
    vec2 grain[2];
    draw_lines(&w, drafted);
    draw_drill_marks(&w, drafted);
    draw_buttons(&w, drafted);
    if (drafted->has_fold)
        draw_fold(&w, drafted, marks);
    label_lines(&w, drafted, marks);
    struct scene_label_room room = room_of(&w, drafted, marks, drawn->path_count);
    bool inside = c->view->font && scene_label_inside(c, &room, &label, grain);
    if (!inside)
        place_grain_alone(&w, &room, grain);
    turn_up(&w, drafted, grain);
    placed->grain[0] = grain[0];
    placed->grain[1] = grain[1];
    scene_draw_grain(c, grain);
    stroke(&w, drafted->seam_line.path, SCENE_SEAM);
    stroke(&w, cut_light(&w, drafted), SCENE_CUT);
    draw_notches(&w, drafted);
    if (inside)
        write_label(c, placed->piece, &label);
    placed->lettered = inside || !c->view->font;
}

/* The heads of the arrow, where letters that run along it cover them: drawn out to beyond their ends. */
static void show_heads(const struct scene_canvas *c, const struct scene_label *label, const vec2 grain[2])
{
    vec2 run = vec2_sub(grain[1], grain[0]);
    bool along = fabs(vec2_dot(vec2_unit(run), label->right)) > 0.5;
    double covered = (along ? label->width : label->height) / 2;
    if (covered < vec2_length(run) / 2 - GRAIN_HEAD_MM)
        return;
    double out = along ? (GRAIN_LONGER - 1) / 2 : 0;
    draw_grain_heads(
        c, (const vec2[]){ vec2_sub(grain[0], vec2_scale(run, out)), vec2_add(grain[1], vec2_scale(run, out)) });
}

/* Where letters come to stand that had no room in their piece. */
enum standing { STANDS_NOWHERE, STANDS_BESIDE, STANDS_OVER };

/* Over the stitching line before the count is left out; what must be told, over other lines before that. */
static enum standing find_standing(const struct placing *w, const struct scene_label_room *room,
                                   struct geometry_path cut, const struct scene_obstacles *pieces,
                                   struct scene_label *label)
{
    struct scene_label_room wider = *room;
    double within = scene_cut_width(&w->c->view->look) / 2;
    wider.seam = geometry_path_beside(w->c->a, cut, geometry_path_area(cut) > 0 ? within : -within);
    if (scene_label_beside(w->c, room, cut, &room->marks, pieces, false, label))
        return STANDS_BESIDE;
    if (scene_label_whole_over(w->c, room, label) || scene_label_whole_over(w->c, &wider, label))
        return STANDS_OVER;
    if (w->piece->must_tell && scene_label_beside(w->c, room, cut, &room->marks, pieces, true, label))
        return STANDS_BESIDE;
    if (scene_label_over(w->c, room, label) || scene_label_over(w->c, &wider, label))
        return STANDS_OVER;
    return scene_label_beside(w->c, room, cut, &room->marks, pieces, true, label) ? STANDS_BESIDE : STANDS_NOWHERE;
}

/* No letters rather than letters across a cut line. */
void scene_letter_beside(const struct scene_canvas *c, const struct scene_placed *placed, size_t first,
                         const struct scene_obstacles *pieces)
{
    struct placing w = { c, placed->piece, placed->shift, placed->mover };
    struct scene_label_room room = room_of(&w, placed->piece->piece, first, c->out->table.in.path_count);
    struct geometry_path cut = scene_piece_outline(c, placed);
    struct scene_label label;
    enum standing stands = find_standing(&w, &room, cut, pieces, &label);
    if (stands == STANDS_NOWHERE)
        return;
    if (stands == STANDS_BESIDE) {
        scene_label_lead(c, &label, &room, cut);
    } else {
        scene_label_darken(c, &label);
        show_heads(c, &label, placed->grain);
    }
    write_label(c, placed->piece, &label);
}

struct geometry_path scene_piece_outline(const struct scene_canvas *c, const struct scene_placed *placed)
{
    struct placing w = { c, placed->piece, placed->shift, placed->mover };
    return placed_path(&w, placed->piece->piece->cut.path).path;
}
