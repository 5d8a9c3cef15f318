#include "scene/arrange.h"

#include "base/digest.h"
#include "scene/hatch.h"
#include "scene/label.h"
#include "scene/names.h"

#include <math.h>

#define TITLE 1.35 /* of the cap height, as all that follows */
#define TITLE_STEP 2.3
#define LINE_STEP 1.8
#define EDGE_ROOM 2.4  /* above the cloth, for what its far edge is and where the lay ends */
#define RULER_ROOM 3.7 /* below it, for the ruler and its figures */
#define RULER_GAP 0.5
#define TICK 0.35
#define LONG_TICK 0.7
#define FIGURE_APART 4.0
#define PIN_RADIUS 0.35
#define HEAD_LONG 0.7
#define HEAD_WIDE 0.3 /* to either side */
#define ARROW 4.5
#define DOT_RADIUS 0.18
#define MARGIN_MM 20.0
#define LENGTH_SHARE 1.03 /* of what the pieces take: so much cloth is shown, where its length is not told */
#define LEAST_LENGTH_MM 200.0
#define IN_HAND_PX 4.0
#define DIM 0.6      /* a piece's light, as of pieces to come */
#define BLOCKED 0.35 /* of what may not be cut, as of what is not measured */
#define HATCH_PX 6.0 /* on the table 10 mm, where it is true to scale; a small overlap has to show, too */
#define BLOCKED_HATCH_PX 20.0
#define LEADER_IN_MM 4.0 /* within the outline, to its end */

enum { PIN_CORNERS = 16, MOST_AMOUNTS = 8 };

/* From the cloth's mm to the page, px across and up. */
struct small {
    const struct scene_canvas *c;
    double cap, left, near, scale;
    double length_mm; /* of cloth that is shown */
};

static vec2 place_of(const struct small *s, double x, double y)
{
    return (vec2){ s->left + x * s->scale, s->near + y * s->scale };
}

static struct geometry_path path_of(const struct small *s, struct geometry_path cloth)
{
    struct geometry_path out = geometry_path_copy(s->c->a, cloth);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = place_of(s, out.points[i].x, out.points[i].y);
    return out;
}

/* A path of the page in the frame's pixels. */
static struct px_path px_of(const struct scene_canvas *c, struct geometry_path page)
{
    struct px_path out = { geometry_path_copy(c->a, page) };
    for (size_t i = 0; i < page.count; i++) {
        struct px_pt px = scene_page_px(&c->page, page.points[i].x, page.points[i].y);
        out.path.points[i] = (vec2){ px.x, px.y };
    }
    return out;
}

static struct paint_ink dimmed(const struct small *s, double level)
{
    return (struct paint_ink){ s->c->view->look.chalks->main, level };
}

/* A kind of line as wide and as dashed in the light as it is on the table. */
static struct paint_pen pen_of(const struct small *s, enum scene_line line)
{
    struct paint_pen pen = scene_pen(&s->c->view->look, line);
    double scale = s->c->page.px_per_mm;
    pen.width = fmax(pen.width * scale, SCENE_LEAST_STROKE_PX);
    for (int i = 0; i < PAINT_DASHES; i++)
        pen.dash[i] *= scale;
    return pen;
}

/* --- hatching ---------------------------------------------------------------------------------------------------- */

/* Strokes along a direction wherever all outlines are, so far from each other; the box about them. */
static struct geometry_box hatch(const struct small *s, const struct scene_obstacles *outlines, vec2 along,
                                 double apart, struct paint_ink ink)
{
    struct geometry_box box = geometry_box_empty();
    vec2 *ends;
    size_t count = scene_hatch(s->c->a, outlines, along, apart, &ends);
    for (size_t i = 0; i < 2 * count; i += 2) {
        scene_page_line(s->c, ends[i], ends[i + 1], (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX }, ink);
        box = geometry_box_join(box, geometry_path_box((struct geometry_path){ &ends[i], 2, false }));
    }
    return box;
}

/* --- the cloth --------------------------------------------------------------------------------------------------- */

static void draw_line(const struct small *s, vec2 from, vec2 to, enum scene_line line)
{
    scene_page_line(s->c, from, to, pen_of(s, line), scene_ink(&s->c->view->look, line));
}

static void draw_level(const struct small *s, double y, enum scene_line line)
{
    draw_line(s, place_of(s, 0, y), place_of(s, s->length_mm, y), line);
}

static void draw_upright(const struct small *s, double x, double width_mm, enum scene_line line)
{
    draw_line(s, place_of(s, x, 0), place_of(s, x, width_mm), line);
}

/* Its long edges, and where the layers change; a fold is drawn as one. */
static void draw_bands(const struct small *s, const struct cloth_spread *spread)
{
    for (int i = 0; i < spread->band_count; i++) {
        const struct cloth_band *band = &spread->bands[i];
        bool last = i + 1 == spread->band_count;
        draw_level(s, band->from_mm, band->fold_at_from ? SCENE_FOLD : i == 0 ? SCENE_SQUARE : SCENE_RULE);
        if (last || band->fold_at_to)
            draw_level(s, band->to_mm, band->fold_at_to ? SCENE_FOLD : SCENE_SQUARE);
    }
}

static void draw_blocked(const struct small *s, struct geometry_path blocked)
{
    struct geometry_path path = path_of(s, blocked);
    struct scene_obstacles one = { &path, 1 };
    paint_px_stroke(&s->c->out->px, px_of(s->c, path), (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX },
                    dimmed(s, BLOCKED));
    if (path.count)
        hatch(s, &one, scene_hatch_ways[0], BLOCKED_HATCH_PX, dimmed(s, BLOCKED));
}

/* As what is set on a piece. */
static void draw_block(const struct small *s, struct geometry_path block)
{
    if (block.count)
        paint_px_stroke(&s->c->out->px, px_of(s->c, path_of(s, block)), pen_of(s, SCENE_DART),
                        scene_ink(&s->c->view->look, SCENE_DART));
}

/* What its edges are and how much the lay needs stand beyond the far edge; what the near one is, below the ruler. */
static void write_edges(const struct small *s, const struct scene_arrange *ar)
{
    double width = ar->spread->width_mm, cap = 0.8 * s->cap;
    vec2 far = place_of(s, 0, width), near = place_of(s, 0, 0), needs = place_of(s, ar->needs_mm, width);
    double needs_wide = scene_words_width(s->c, ar->needs, s->cap),
           edge_wide = scene_words_width(s->c, ar->far_edge, cap);
    double at = fmax(needs.x, far.x + edge_wide + s->cap + needs_wide);
    scene_page_words(s->c, ar->far_edge, SCENE_START, far.x, far.y + 0.5 * s->cap, cap, dimmed(s, DIM));
    scene_page_words(s->c, ar->needs, SCENE_END, at, far.y + 0.5 * s->cap, s->cap, dimmed(s, 1));
    scene_page_words(s->c, ar->near_edge, SCENE_START, near.x, near.y - RULER_ROOM * s->cap, cap, dimmed(s, DIM));
}

static void draw_cloth(const struct small *s, const struct scene_arrange *ar)
{
    const struct cloth_spread *spread = ar->spread;
    bool across = spread->layers_long > 1; /* folded crosswise: its far end is the fold */
    draw_bands(s, spread);
    draw_upright(s, 0, spread->width_mm, SCENE_SQUARE);
    if (spread->most_length_mm > 0)
        draw_upright(s, spread->most_length_mm, spread->width_mm, across ? SCENE_FOLD : SCENE_SQUARE);
    if (ar->needs_mm > 0)
        draw_upright(s, ar->needs_mm, spread->width_mm,
                     across && !(spread->most_length_mm > 0) ? SCENE_FOLD : SCENE_LEADER);
    write_edges(s, ar);
}

/* --- the ruler --------------------------------------------------------------------------------------------------- */

/* How far its ticks, and its figures, lie apart: as fine as the figures have room. In inches by quarters of a yard. */
static const struct ruler_step {
    enum units_length unit;
    double tick, figure;
} ruler_steps[] = {
    { UNITS_CM, 1, 10 },     { UNITS_CM, 5, 20 }, { UNITS_CM, 10, 50 }, { UNITS_CM, 10, 100 }, { UNITS_CM, 50, 500 },
    { UNITS_CM, 500, 1000 }, { UNITS_IN, 1, 9 },  { UNITS_IN, 3, 18 },  { UNITS_IN, 9, 36 },   { UNITS_IN, 36, 360 },
};

static struct ruler_step ruler_step_of(const struct small *s, enum units_length unit)
{
    enum units_length shown = unit == UNITS_IN ? UNITS_IN : UNITS_CM;
    struct ruler_step step = { shown, 100, 1000 };
    for (size_t i = sizeof ruler_steps / sizeof ruler_steps[0]; i-- > 0;)
        if (ruler_steps[i].unit == shown &&
            ruler_steps[i].figure * units_mm_per(shown) * s->scale >= FIGURE_APART * s->cap)
            step = ruler_steps[i];
    return step;
}

static void draw_ruler(const struct small *s, enum units_length unit)
{
    struct ruler_step step = ruler_step_of(s, unit);
    double mm = units_mm_per(step.unit), up = s->near - RULER_GAP * s->cap, cap = 0.8 * s->cap;
    size_t ticks = (size_t)floor(s->length_mm / (step.tick * mm)), long_every = (size_t)(step.figure / step.tick);
    char number[UNITS_TEXT];
    for (size_t i = 0; i <= ticks; i++) {
        vec2 at = { s->left + (double)i * step.tick * mm * s->scale, up };
        bool figure = i % long_every == 0;
        vec2 end = { at.x, up - (figure ? LONG_TICK : TICK) * s->cap };
        scene_page_line(s->c, at, end, (struct paint_pen){ .width = SCENE_LEAST_STROKE_PX }, dimmed(s, DIM));
        if (figure)
            scene_page_words(s->c,
                             base_arena_print(s->c->a, "%s%s%s", units_print_decimal(number, (double)i * step.tick, 2),
                                              i ? "" : " ", i ? "" : units_shown_name(step.unit)),
                             i ? SCENE_MIDDLE : SCENE_START, at.x, end.y - 0.3 * s->cap - cap, cap, dimmed(s, DIM));
    }
}

/* --- names and grain --------------------------------------------------------------------------------------------- */

/* Letters are placed as they are on the table, and as large: in the page's own mm, as by who stands at its near side.
 */
struct naming {
    const struct small *s;
    struct scene_view view;
    struct scene_canvas c;
    double px_per_mm;
    struct scene_names *kept;    /* where names stood in the picture before; NULL: all are placed anew */
    struct geometry_box light;   /* where letters beside pieces may stand */
    struct geometry_path *drawn; /* the outlines of all pieces, the cloth's, and then letters */
    size_t drawn_count, drawn_cap, outline_count, amount_count;
};

static struct geometry_path scaled(struct arena *a, struct geometry_path path, double by)
{
    struct geometry_path out = geometry_path_copy(a, path);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = vec2_scale(out.points[i], by);
    return out;
}

static struct geometry_path rectangle(struct arena *a, struct geometry_box box)
{
    struct geometry_path path = { base_arena_alloc(a, 4, sizeof(vec2)), 4, true };
    path.points[0] = box.min;
    path.points[1] = (vec2){ box.max.x, box.min.y };
    path.points[2] = box.max;
    path.points[3] = (vec2){ box.min.x, box.max.y };
    return path;
}

/* Nothing is written over it any more. */
static void add_drawn(struct naming *n, struct geometry_path path)
{
    n->drawn = base_arena_grow(n->c.a, n->drawn, &n->drawn_cap, n->drawn_count + 1, sizeof *n->drawn);
    n->drawn[n->drawn_count++] = path;
}

static void add_stretch(struct naming *n, const vec2 ends[2])
{
    struct geometry_path path = { base_arena_alloc(n->c.a, 2, sizeof *path.points), 2, false };
    path.points[0] = ends[0];
    path.points[1] = ends[1];
    add_drawn(n, path);
}

static struct naming *naming_of(const struct small *s, const struct scene_arrange *ar)
{
    struct arena *a = s->c->a;
    struct naming *n = base_arena_alloc(a, 1, sizeof *n);
    vec2 near = place_of(s, 0, 0), end = place_of(s, ar->needs_mm, ar->spread->width_mm);
    *n = (struct naming){
        .s = s, .view = *s->c->view, .c = *s->c, .px_per_mm = s->c->page.px_per_mm, .kept = ar->names
    };
    n->view.side = SCENE_NEAR;
    n->c.view = &n->view;
    n->light = (struct geometry_box){ { 0, near.y / n->px_per_mm },
                                      { s->c->page.width / n->px_per_mm, end.y / n->px_per_mm } };
    for (size_t i = 0; i < ar->piece_count; i++)
        add_drawn(n, scaled(a, path_of(s, ar->pieces[i].outline.path), 1 / n->px_per_mm));
    n->outline_count = n->drawn_count;
    add_drawn(n, scaled(a, rectangle(a, (struct geometry_box){ near, end }), 1 / n->px_per_mm));
    return n;
}

static vec2 px_at(const struct naming *n, vec2 mm)
{
    return vec2_scale(mm, n->px_per_mm);
}

static void fill_page(const struct small *s, struct geometry_path path, struct paint_ink ink)
{
    struct px_path px = px_of(s->c, path);
    paint_px_fill(&s->c->out->px, &px, 1, ink);
}

static void draw_disc(const struct small *s, vec2 at, double radius, struct paint_ink ink)
{
    struct geometry_path disc = { base_arena_alloc(s->c->a, PIN_CORNERS, sizeof(vec2)), PIN_CORNERS, true };
    for (int i = 0; i < PIN_CORNERS; i++) {
        double sine, cosine;
        geometry_sincos(360.0 * i / PIN_CORNERS, &sine, &cosine);
        disc.points[i] = vec2_add(at, vec2_scale((vec2){ cosine, sine }, radius));
    }
    fill_page(s, disc, ink);
}

/* Letters where they are placed. `pinned`: a pin's head stands in the blanks
 * that they begin with. */
static void write_label(struct naming *n, const struct scene_label *l, bool in_hand, bool pinned)
{
    struct paint_ink ink = dimmed(n->s, in_hand ? 0 : 1);
    struct geometry_path box = scene_label_box(&n->c, l);
    vec2 top = vec2_sub(l->middle, vec2_scale(l->down, l->height / 2));
    if (in_hand)
        fill_page(n->s, scaled(n->c.a, box, n->px_per_mm), dimmed(n->s, 1));
    for (size_t i = 0; i < l->count; i++) {
        double step = l->cap[i] * l->step, wide = scene_words_width(&n->c, l->text[i], l->cap[i]);
        vec2 foot = vec2_add(top, vec2_scale(l->down, step / 2 + l->cap[i] / 2));
        vec2 start = vec2_sub(foot, vec2_scale(l->right, wide / 2));
        scene_page_words_along(&n->c, l->text[i], px_at(n, start), l->right, l->cap[i] * n->px_per_mm, ink);
        if (pinned && i == 0)
            draw_disc(n->s,
                      px_at(n, vec2_add(start, vec2_sub(vec2_scale(l->right, PIN_RADIUS * l->cap[0]),
                                                        vec2_scale(l->down, l->cap[0] / 2)))),
                      PIN_RADIUS * l->cap[0] * n->px_per_mm, ink);
        top = vec2_add(top, vec2_scale(l->down, step));
    }
    add_drawn(n, box);
}

static void draw_leader(struct naming *n, const struct scene_label *l, const struct scene_label_room *room)
{
    vec2 ends[2];
    struct paint_ink ink = scene_ink(&n->view.look, SCENE_LEADER);
    scene_label_leader(l, room, ends);
    ends[1] = vec2_add(ends[1], vec2_scale(vec2_unit(vec2_sub(ends[1], ends[0])), LEADER_IN_MM));
    scene_page_line(&n->c, px_at(n, ends[0]), px_at(n, ends[1]), pen_of(n->s, SCENE_LEADER), ink);
    draw_disc(n->s, px_at(n, ends[1]), DOT_RADIUS * n->s->cap, ink);
    add_stretch(n, ends);
}

/* What is drawn about a piece, but its own outline. */
static struct scene_obstacles others_of(const struct naming *n, size_t piece)
{
    struct geometry_path *others = base_arena_alloc(n->c.a, n->drawn_count, sizeof *others);
    struct geometry_box box = geometry_path_box(n->drawn[piece]);
    size_t count = 0;
    for (size_t i = 0; i < n->drawn_count; i++)
        if (i != piece && geometry_boxes_meet(geometry_path_box(n->drawn[i]), box))
            others[count++] = n->drawn[i];
    return (struct scene_obstacles){ others, count };
}

static struct scene_label_room room_of(const struct naming *n, const struct scene_arrange_piece *piece, size_t index)
{
    struct geometry_path outline = n->drawn[index];
    vec2 middle = geometry_path_centre(outline);
    vec2 half = vec2_scale(piece->grain, ARROW * scene_cap_height(&n->view.look) / 2);
    const char *name = piece->held ? base_arena_print(n->c.a, "\u00a0\u00a0\u00a0%s", piece->name) : piece->name;
    return (struct scene_label_room){ .texts = { name },
                                      .seam = outline,
                                      .marks = others_of(n, index),
                                      .wish = middle,
                                      .grain = { vec2_sub(middle, half), vec2_add(middle, half) },
                                      .light = &n->light };
}

static void draw_head(const struct small *s, vec2 tip, vec2 along, struct paint_ink ink)
{
    struct geometry_path head = { base_arena_alloc(s->c->a, 3, sizeof(vec2)), 3, true };
    vec2 foot = vec2_sub(tip, vec2_scale(along, HEAD_LONG * s->cap));
    vec2 aside = vec2_scale(vec2_right(along), HEAD_WIDE * s->cap);
    head.points[0] = tip;
    head.points[1] = vec2_sub(foot, aside);
    head.points[2] = vec2_add(foot, aside);
    fill_page(s, head, ink);
}

static void draw_grain(struct naming *n, const struct scene_arrange_piece *piece, const vec2 ends[2])
{
    struct paint_ink ink = scene_ink(&n->view.look, SCENE_GRAIN);
    bool turned = vec2_dot(vec2_sub(ends[1], ends[0]), piece->grain) < 0;
    vec2 tail = px_at(n, ends[turned]), head = px_at(n, ends[!turned]);
    scene_page_line(&n->c, tail, head, pen_of(n->s, SCENE_GRAIN), ink);
    draw_head(n->s, head, piece->grain, ink);
    if (!piece->one_way)
        draw_head(n->s, tail, vec2_scale(piece->grain, -1), ink);
    add_stretch(n, ends);
}

/* --- where names stand: searched for, or as in the picture before ------------------------------------------------- */

static uint64_t with_path(uint64_t digest, struct geometry_path path)
{
    return base_digest(base_digest(digest, &path.count, sizeof path.count), path.points,
                       path.count * sizeof *path.points);
}

static uint64_t with_paths(uint64_t digest, struct scene_obstacles of)
{
    for (size_t i = 0; i < of.count; i++)
        digest = with_path(digest, of.paths[i]);
    return digest;
}

/* Of all that a name's place depends on, but for what is drawn farther away than its piece. */
static uint64_t digest_of(const struct naming *n, const struct scene_label_room *room)
{
    const double sizes[] = { scene_cap_height(&n->view.look), n->px_per_mm };
    uint64_t digest = base_digest(base_digest_text(room->texts[0]), sizes, sizeof sizes);
    digest = with_paths(with_path(digest, room->seam), room->marks);
    digest = base_digest(digest, &room->wish, sizeof room->wish);
    digest = base_digest(digest, room->grain, sizeof room->grain);
    return base_digest(digest, room->light, sizeof *room->light);
}

static struct scene_name inside(const struct naming *n, const struct scene_label_room *room)
{
    uint64_t digest = digest_of(n, room);
    const struct scene_name *before = scene_names_find(n->kept, digest);
    if (before)
        return *before;
    struct scene_name name = { 0 };
    name.found = name.has_grain = scene_label_inside(&n->c, room, &name.label, name.grain);
    scene_names_keep(n->kept, digest, &name);
    return name;
}

/* Over where its arrow would be while the letters are no smaller than they may be on the table, else beside it with a
 * leader, else smaller; a leader over lines last. */
static struct scene_name look_about(const struct naming *n, const struct scene_label_room *room)
{
    const struct scene_obstacles drawn = { n->drawn, n->drawn_count }, pieces = { n->drawn, n->outline_count };
    struct scene_label over;
    bool has_over = scene_label_over(&n->c, room, &over);
    struct scene_name name = { .found = has_over, .label = over };
    if (has_over && over.cap[0] >= SCENE_LEAST_CAP_MM)
        return name;
    name.beside = scene_label_beside(&n->c, room, room->seam, &drawn, &pieces, false, &name.label) ||
                  (!has_over && scene_label_beside(&n->c, room, room->seam, &drawn, &pieces, true, &name.label));
    if (!name.beside && has_over)
        name.label = over;
    name.found = has_over || name.beside;
    name.has_grain = name.beside && scene_grain_place(n->c.a, room->seam, (struct geometry_path){ NULL, 0, true },
                                                      &room->marks, room->grain, SCENE_LANES, name.grain);
    return name;
}

static struct scene_name about(const struct naming *n, const struct scene_label_room *room)
{
    uint64_t digest = with_paths(digest_of(n, room), (struct scene_obstacles){ n->drawn, n->drawn_count });
    const struct scene_name *before = scene_names_find(n->kept, digest);
    if (before)
        return *before;
    struct scene_name name = look_about(n, room);
    scene_names_keep(n->kept, digest, &name);
    return name;
}

/* False: there is no room. */
static bool draw_name(struct naming *n, const struct scene_arrange_piece *piece, const struct scene_label_room *room,
                      const struct scene_name *name)
{
    if (!name->found)
        return false;
    if (name->has_grain)
        draw_grain(n, piece, name->grain);
    if (name->beside)
        draw_leader(n, &name->label, room);
    write_label(n, &name->label, piece->in_hand, piece->held);
    return true;
}

static bool name_inside(struct naming *n, const struct scene_arrange_piece *piece, size_t index)
{
    struct scene_label_room room = room_of(n, piece, index);
    struct scene_name name = inside(n, &room);
    return draw_name(n, piece, &room, &name);
}

static void name_beside(struct naming *n, const struct scene_arrange_piece *piece, size_t index)
{
    struct scene_label_room room = room_of(n, piece, index);
    struct scene_name name = about(n, &room);
    draw_name(n, piece, &room, &name);
}

/* Names stand still while another piece is taken: which one is in hand is no matter here. */
static void name_pieces(struct naming *n, const struct scene_arrange *ar)
{
    bool *named = base_arena_alloc(n->c.a, ar->piece_count, sizeof *named);
    if (!n->view.font)
        return;
    scene_names_begin(n->kept);
    for (size_t i = 0; i < ar->piece_count; i++)
        named[i] = n->drawn[i].count > 2 && name_inside(n, &ar->pieces[i], i);
    for (size_t i = 0; i < ar->piece_count; i++)
        if (!named[i] && n->drawn[i].count > 2)
            name_beside(n, &ar->pieces[i], i);
}

/* What two outlines share, hatched both ways, and the amount beside it, clear of lines and names. */
static void draw_overlap(struct naming *n, const struct scene_arrange_overlap *overlap)
{
    const struct small *s = n->s;
    struct geometry_path paths[2] = { path_of(s, overlap->over[0].path), path_of(s, overlap->over[1].path) };
    struct scene_obstacles both = { paths, 2 };
    if (!paths[0].count || !paths[1].count)
        return;
    struct geometry_box box = hatch(s, &both, scene_hatch_ways[0], HATCH_PX, dimmed(s, 1));
    box = geometry_box_join(box, hatch(s, &both, scene_hatch_ways[1], HATCH_PX, dimmed(s, 1)));
    if (!n->view.font || !overlap->amount || box.min.x > box.max.x || n->amount_count == MOST_AMOUNTS)
        return;
    struct geometry_path about = scaled(n->c.a, rectangle(n->c.a, box), 1 / n->px_per_mm);
    struct scene_label_room room = {
        .texts = { overlap->amount }, .seam = about, .wish = geometry_path_centre(about), .light = &n->light
    };
    const struct scene_obstacles drawn = { n->drawn, n->drawn_count }, none = { NULL, 0 };
    struct scene_label label;
    if (!scene_label_beside(&n->c, &room, about, &drawn, &none, true, &label))
        return;
    n->amount_count++;
    draw_leader(n, &label, &room);
    write_label(n, &label, false, false);
}

/* What is cut is as what may not be cut: there is no cloth any more. */
static struct paint_pen outline_pen(const struct small *s, const struct scene_arrange_piece *piece)
{
    struct paint_pen pen = { .width = SCENE_LEAST_STROKE_PX };
    if (piece->cut)
        pen = pen_of(s, SCENE_CUT_BEFORE);
    if (piece->in_hand)
        pen.width = IN_HAND_PX;
    return pen;
}

static void draw_piece(const struct small *s, const struct scene_arrange_piece *piece)
{
    struct geometry_path path = path_of(s, piece->outline.path);
    if (path.count < 3)
        return;
    if (piece->cut)
        hatch(s, &(struct scene_obstacles){ &path, 1 }, scene_hatch_ways[0], BLOCKED_HATCH_PX, dimmed(s, BLOCKED));
    paint_px_stroke(&s->c->out->px, px_of(s->c, path), outline_pen(s, piece), dimmed(s, piece->in_hand ? 1 : DIM));
}

/* The one in hand lies over all. */
static void draw_pieces(const struct small *s, const struct scene_arrange *ar)
{
    for (int in_hand = 0; in_hand < 2; in_hand++)
        for (size_t i = 0; i < ar->piece_count; i++)
            if (ar->pieces[i].in_hand == (in_hand != 0))
                draw_piece(s, &ar->pieces[i]);
}

/* --- the page ---------------------------------------------------------------------------------------------------- */

/* A line of words, smaller where it would be too long. */
static void write_line(const struct small *s, const char *text, double up, double cap)
{
    double width = scene_words_width(s->c, text, cap), room = s->c->page.width - 2 * s->left;
    scene_page_words(s->c, text, SCENE_START, s->left, up, cap * (width > room ? room / width : 1), dimmed(s, 1));
}

/* From the far edge of the page down to `top`. */
static double write_head(const struct small *s, const struct scene_arrange *ar, double top)
{
    top -= TITLE_STEP * s->cap;
    write_line(s, ar->title, top, TITLE * s->cap);
    for (const char *const *line = ar->lines; line && *line; line++) {
        top -= LINE_STEP * s->cap;
        write_line(s, *line, top, s->cap);
    }
    return top;
}

/* How much cloth is shown: what there is, or else what the pieces take and a little more, and all that a hand has moved
 * beyond that. */
static double length_shown(const struct scene_arrange *ar)
{
    double most = ar->spread->most_length_mm, length = fmax(fmax(ar->needs_mm, most), LEAST_LENGTH_MM);
    for (size_t i = 0; i < ar->piece_count; i++)
        length = fmax(length, geometry_path_box(ar->pieces[i].outline.path).max.x);
    return most > 0 && length == most ? length : LENGTH_SHARE * length;
}

static void fit_picture(struct small *s, const struct scene_arrange *ar, double top)
{
    double foot = s->c->strip.top_px + (RULER_ROOM + 0.6) * s->cap, room = s->c->page.width - 2 * s->left;
    double high = fmax(top - EDGE_ROOM * s->cap - foot, 1);
    s->length_mm = length_shown(ar);
    s->scale = fmin(room / s->length_mm, high / ar->spread->width_mm);
    s->near = foot + (high - s->scale * ar->spread->width_mm) / 2;
    s->left += (room - s->scale * s->length_mm) / 2;
}

struct paint_scene scene_arrange(struct arena *a, const struct scene_view *view, const struct scene_arrange *ar)
{
    struct paint_scene scene = paint_scene_create(a);
    struct scene_canvas c = scene_canvas_of(a, view, scene_page_of(view->map, view->side), &scene);
    struct small s = { .c = &c, .cap = scene_page_cap(&c), .left = MARGIN_MM * c.page.px_per_mm };
    double top = write_head(&s, ar, c.page.height - scene_notice_depth(&c));
    fit_picture(&s, ar, top);
    for (size_t i = 0; i < ar->spread->blocked_count; i++)
        draw_blocked(&s, ar->spread->blocked[i].path);
    draw_block(&s, ar->block.path);
    draw_pieces(&s, ar);
    draw_cloth(&s, ar); /* over the pieces: a fold shows along those that lie on it */
    draw_ruler(&s, ar->unit);
    struct naming *n = naming_of(&s, ar);
    name_pieces(n, ar);
    for (size_t i = 0; i < ar->overlap_count; i++)
        draw_overlap(n, &ar->overlaps[i]);
    scene_draw_strip(&c);
    scene_draw_notice(&c);
    return scene;
}
