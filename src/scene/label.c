#include "scene/label.h"

#include "base/text.h"
#include "scene/squares.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#define NAME_SIZE 1.35     /* of the cap height */
#define LINE_STEP 1.7      /* of the cap height */
#define TIGHT_STEP 1.45    /* where there is little room */
#define CLOSE_STEP 1.3     /* of many short lines, where there is least */
#define BESIDE_MM 10.0     /* air between letters and what else is drawn */
#define REACH_MM 50.0      /* how far letters may stand from their piece: beyond its notches, and some more … */
#define FAR_REACH_MM 250.0 /* … and where its neighbours leave no room there */
#define LEADER_IN_MM 7.0   /* how far within the cut line a leader ends: in most allowances */
#define LEADER_AIR_MM 3.0  /* between the letters and their leader */
#define LEADER_DOT_MM 2.5  /* radius */
#define LEADER_OWN_MM 30.0 /* at its end, of the way over what belongs to the piece itself: its notches */
#define CROSSED_MM 1000.0  /* of a longer leader that one over a line is worth: any that is clear is better */
#define FORM_MM 8.0        /* of a longer leader that the next better form of the letters is worth */
#define ALONE_MM 1e5       /* likewise, of the name alone: all of the letters are better, over whatever lines */
#define PUSH_MM 16.0       /* the first step nearer to the piece */

/* Places across and up a piece, in search of room; fewer, and none beside, among so many pieces that a search would be
 * felt at every key. */
enum { PLACES = 21, FEW_PLACES = 5, MANY_PIECES = 24, DOT_CORNERS = 12, LOOKS = 3 };

enum { FRAME_STEPS = 16 }; /* of the frame, from corner to corner */

/* How the letters may stand, best first. `lines`: N, C and S are name, count and size, "/" begins another line, "."
 * joins two in one; a small letter is broken in two lines, and "w" is the name with each of its words in a line. Facing
 * the person before running up along the piece, as letters do in a drawing (ISO 129: read from below or from the
 * right). */
static const struct form {
    const char *lines;
    double name_size, step;
    bool along;
} forms[] = {
    { "N/C/S", NAME_SIZE, LINE_STEP, false }, { "N/C/S", 1, LINE_STEP, false },  { "n/C/S", 1, LINE_STEP, false },
    { "N/C.S", 1, LINE_STEP, false },         { "N/C/S", 1, TIGHT_STEP, false }, { "n/C/S", 1, TIGHT_STEP, false },
    { "N/C/S", 1, LINE_STEP, true },          { "N/C.S", 1, LINE_STEP, true },   { "N.C/S", 1, LINE_STEP, true },
    { "N.C.S", 1, LINE_STEP, true },          { "N/C/S", 1, TIGHT_STEP, true },  { "N/C.S", 1, TIGHT_STEP, true },
    { "N.C/S", 1, TIGHT_STEP, true },         { "n/c/S", 1, TIGHT_STEP, false }, { "n/c/s", 1, TIGHT_STEP, false },
    { "n/c/S", 1, TIGHT_STEP, true },         { "n/c/s", 1, TIGHT_STEP, true },  { "N.C.S", 1, LINE_STEP, false },
},
  beside_forms[] = { { "N/C/S", NAME_SIZE, LINE_STEP, false },
                     { "N/C/S", 1, TIGHT_STEP, false },
                     { "N/C.S", 1, TIGHT_STEP, false },
                     { "n/c/s", 1, TIGHT_STEP, false },
                     { "N.C.S", 1, TIGHT_STEP, true },
                     { "N", 1, TIGHT_STEP, false } },
  over_forms[] = { { "N/C/S", 1, TIGHT_STEP, false }, { "N/C/S", 1, TIGHT_STEP, true },
                   { "n/c/s", 1, TIGHT_STEP, false }, { "n/c/s", 1, TIGHT_STEP, true },
                   { "N/C", 1, TIGHT_STEP, false },   { "N/C", 1, TIGHT_STEP, true },
                   { "n/c", 1, TIGHT_STEP, false },   { "n/c", 1, TIGHT_STEP, true },
                   { "w/c", 1, CLOSE_STEP, false },   { "w/c", 1, CLOSE_STEP, true } },
  name_forms[] = { { "N", 1, TIGHT_STEP, false }, { "N", 1, TIGHT_STEP, true }, { "n", 1, TIGHT_STEP, false },
                   { "n", 1, TIGHT_STEP, true },  { "w", 1, TIGHT_STEP, false }, { "w", 1, TIGHT_STEP, true } };

enum {
    FORMS = sizeof forms / sizeof forms[0],
    FEW_FORMS = 7, /* with the first that runs along the piece */
    BESIDE_FORMS = sizeof beside_forms / sizeof beside_forms[0],
    OVER_FORMS = sizeof over_forms / sizeof over_forms[0],
    NAME_FORMS = sizeof name_forms / sizeof name_forms[0],
    NAME_WORDS = SCENE_LABEL_LINES - 2 /* with the halves of one more text below them */
};

/* A text and how long it is at a cap height of 1 mm: measured once for all forms. */
struct line {
    const char *text;
    double width;
};

/* The texts of the room, whole and in halves. */
struct lines {
    struct line whole[SCENE_LABEL_TEXTS], halves[SCENE_LABEL_TEXTS][2];
    struct line words[NAME_WORDS]; /* of the name; what has no line of its own stays in the last */
    double dot_width;              /* of what joins two */
};

static const char joint[] = " · ";

static const char *before_words(void)
{
    /* To: with what words tell where a piece is laid begin (“on the fold”, “on wrong side”), a blank behind it */
    return base_tr_in("beginning of where a piece is laid", "on ");
}

/* A name may be broken at any blank; a count and a size, of which one half alone would be misread, only behind a comma
 * or before where the piece is laid or fused: "2 pairs" and "cup C-D" stay whole. */
static bool may_break(const char *text, size_t at, bool is_name)
{
    if (text[at] != ' ')
        return false;
    return is_name || (at && text[at - 1] == ',') || base_text_behind(text + at + 1, before_words());
}

/* Where a text is best broken: at the blank that leaves the shorter longest half; its end when it has none. */
static size_t break_of(const char *text, bool is_name)
{
    size_t length = strlen(text), best = length, longest = length;
    for (size_t i = 0; i < length; i++) {
        size_t half = i > length - i ? i : length - i;
        if (may_break(text, i, is_name) && half < longest) {
            best = i;
            longest = half;
        }
    }
    return best;
}

static struct line line_of(const struct scene_canvas *c, const char *text)
{
    return (struct line){ text, scene_words_width(c, text, 1) };
}

static void break_by_words(const struct scene_canvas *c, const char *name, struct line words[NAME_WORDS])
{
    for (size_t i = 0; *name; i++) {
        size_t length = i + 1 < NAME_WORDS ? strcspn(name, " ") : strlen(name);
        words[i] = line_of(c, base_arena_copy_bytes(c->a, name, length));
        name += length;
        name += *name == ' ';
    }
}

static struct lines lines_of(const struct scene_canvas *c, const struct scene_label_room *room)
{
    struct lines lines = { .dot_width = scene_words_width(c, joint, 1) };
    break_by_words(c, room->texts[0], lines.words);
    for (size_t i = 0; i < SCENE_LABEL_TEXTS; i++) {
        const char *text = room->texts[i];
        if (!text)
            continue;
        size_t at = break_of(text, i == 0 || (i == 1 && room->breaks));
        lines.whole[i] = line_of(c, text);
        lines.halves[i][0] = text[at] ? line_of(c, base_arena_copy_bytes(c->a, text, at)) : lines.whole[i];
        lines.halves[i][1] = text[at] ? line_of(c, text + at + 1) : (struct line){ NULL, 0 };
    }
    return lines;
}

static void add_line(struct scene_label *l, struct line line, double cap)
{
    if (!line.text)
        return;
    l->text[l->count] = line.text;
    l->cap[l->count++] = cap;
    l->width = fmax(l->width, line.width * cap);
    l->height += cap * l->step;
}

/* Two texts in one line; one alone where there is no other. */
static struct line joined(const struct scene_canvas *c, const struct lines *lines, struct line a, struct line b)
{
    if (!a.text || !b.text)
        return a.text ? a : b;
    return (struct line){ base_arena_print(c->a, "%s%s%s", a.text, joint, b.text),
                          a.width + lines->dot_width + b.width };
}

static struct scene_label in_form(const struct scene_canvas *c, const struct scene_label_room *room,
                                  const struct lines *lines, const struct form *form)
{
    double cap = scene_cap_height(&c->view->look);
    vec2 right = scene_side_right(c->view->side), away = scene_side_away(c->view->side);
    struct scene_label l = { .middle = room->wish,
                             .right = form->along ? away : right,
                             .down = form->along ? right : vec2_scale(away, -1),
                             .step = form->step };
    struct line line = { NULL, 0 };
    const char *texts = form->lines;
    if (*texts == 'w') {
        for (size_t i = 0; i < NAME_WORDS; i++)
            add_line(&l, lines->words[i], cap * form->name_size);
        texts += texts[1] ? 2 : 1;
    }
    for (const char *at = texts; *at; at++) {
        size_t text = (size_t)(strchr("NCS", toupper((unsigned char)*at)) - "NCS");
        double size = text ? 1 : form->name_size;
        if (*at >= 'a') {
            add_line(&l, lines->halves[text][0], cap * size);
            add_line(&l, lines->halves[text][1], cap * size);
        } else {
            line = joined(c, lines, line, lines->whole[text]);
        }
        if (at[1])
            at++;
        if (*at == '.')
            continue;
        add_line(&l, line, cap * size);
        line = (struct line){ NULL, 0 };
    }
    return l;
}

const double scene_name_sizes[SCENE_NAME_SIZES] = { 1, 0.85, 0.7 };

double scene_name_share(const struct scene_canvas *c, int size)
{
    return fmax(scene_name_sizes[size], SCENE_LEAST_CAP_MM / scene_cap_height(&c->view->look));
}

static void shrink(struct scene_label *l, double share)
{
    for (size_t i = 0; i < l->count; i++)
        l->cap[i] *= share;
    l->width *= share;
    l->height *= share;
}

/* Half of the block with the air about it: across and down. */
static vec2 half_of(const struct scene_label *l)
{
    return (vec2){ (l->width + l->cap[0]) / 2, l->height / 2 };
}

/* The same along the table's axes: letters run along one of them. */
static vec2 on_table(const struct scene_label *l, vec2 half)
{
    return l->right.x != 0 ? half : (vec2){ half.y, half.x };
}

/* Whether a stretch touches a box about a middle: no line along the box's sides or along the stretch parts them
 * (separating axes). */
static bool touches(vec2 middle, vec2 half, vec2 from, vec2 to)
{
    vec2 off = vec2_sub(vec2_lerp(from, to, 0.5), middle), way = vec2_scale(vec2_sub(to, from), 0.5);
    return fabs(off.x) <= half.x + fabs(way.x) && fabs(off.y) <= half.y + fabs(way.y) &&
           fabs(vec2_cross(way, off)) <= half.x * fabs(way.y) + half.y * fabs(way.x);
}

/* `last`: the side that was in the way last, asked first, for it mostly is in the way again. */
static bool path_touches(vec2 middle, vec2 half, struct geometry_path path, size_t *last)
{
    size_t sides = path.closed || !path.count ? path.count : path.count - 1;
    for (size_t i = 0; i < sides; i++) {
        size_t side = (*last + i) % sides;
        if (!touches(middle, half, path.points[side], path.points[(side + 1) % path.count]))
            continue;
        *last = side;
        return true;
    }
    return false;
}

/* Whether a stretch meets a path's sides. */
static bool path_crosses(struct geometry_path path, vec2 from, vec2 to)
{
    size_t sides = path.closed || !path.count ? path.count : path.count - 1;
    vec2 way = vec2_sub(to, from);
    for (size_t i = 0; i < sides; i++) {
        vec2 p = path.points[i], q = path.points[(i + 1) % path.count], side = vec2_sub(q, p);
        if (vec2_cross(way, vec2_sub(p, from)) * vec2_cross(way, vec2_sub(q, from)) < 0 &&
            vec2_cross(side, vec2_sub(from, p)) * vec2_cross(side, vec2_sub(to, p)) < 0)
            return true;
    }
    return false;
}

/* Obstacles, and the box of each: most places are far from most of them. */
struct boxed {
    struct scene_obstacles of;
    const struct geometry_box *boxes;
};

static struct boxed boxed(struct arena *a, struct scene_obstacles of)
{
    struct geometry_box *boxes = base_arena_alloc(a, of.count, sizeof *boxes);
    for (size_t i = 0; i < of.count; i++)
        boxes[i] = geometry_path_box(of.paths[i]);
    return (struct boxed){ of, boxes };
}

static struct geometry_box box_about(vec2 middle, vec2 half)
{
    return (struct geometry_box){ vec2_sub(middle, half), vec2_add(middle, half) };
}

static bool any_touches(vec2 middle, vec2 half, const struct boxed *obstacles)
{
    struct geometry_box box = box_about(middle, half);
    for (size_t i = 0; i < obstacles->of.count; i++)
        if (geometry_boxes_meet(obstacles->boxes[i], box) &&
            path_touches(middle, half, obstacles->of.paths[i], &(size_t){ 0 }))
            return true;
    return false;
}

/* A search for a place: within the piece, clear of its marks or over them, or beside it. */
struct search {
    const struct scene_canvas *c;
    const struct scene_label_room *room;
    const struct boxed *clear_of;        /* NULL: over marks */
    const struct boxed *pieces;          /* beside them; NULL: within the room's own */
    const struct scene_squares *squares; /* within a piece: of its seam and of what is to be clear */
    size_t last;
    struct geometry_box light; /* beside: no light falls outside it */
};

/* The quick questions first. */
static bool has_room_inside(struct search *s, const struct scene_label *l)
{
    vec2 half = on_table(l, half_of(l));
    return !scene_squares_taken(s->squares, box_about(l->middle, half)) &&
           (!s->clear_of || !any_touches(l->middle, half, s->clear_of)) &&
           !path_touches(l->middle, half, s->room->seam, &s->last) && geometry_path_holds(s->room->seam, l->middle);
}

/* Whether a place lies on the other side of the piece's fold, where there is no cloth. */
static bool is_beyond_fold(const struct scene_label_room *room, vec2 at)
{
    if (!room->has_fold)
        return false;
    vec2 along = vec2_sub(room->fold[1], room->fold[0]);
    double here = vec2_cross(along, vec2_sub(room->wish, room->fold[0]));
    return here * vec2_cross(along, vec2_sub(at, room->fold[0])) < 0;
}

static bool is_lit(const struct search *s, vec2 at)
{
    const struct geometry_box *light = &s->light;
    bool near = at.x >= light->min.x && at.x <= light->max.x && at.y >= light->min.y && at.y <= light->max.y;
    return near && (s->room->light || scene_is_lit(s->c, at));
}

/* The quick questions first. */
static bool has_room_beside(const struct search *s, const struct scene_label *l)
{
    vec2 half = on_table(l, vec2_add(half_of(l), (vec2){ BESIDE_MM, BESIDE_MM }));
    for (int corner = 0; corner < 4; corner++) {
        vec2 at = vec2_add(l->middle, (vec2){ corner % 2 ? half.x : -half.x, corner / 2 ? half.y : -half.y });
        if (!is_lit(s, at) || is_beyond_fold(s->room, at))
            return false;
    }
    if (any_touches(l->middle, half, s->clear_of))
        return false;
    for (size_t i = 0; i < s->pieces->of.count; i++)
        if (geometry_boxes_meet(s->pieces->boxes[i], (struct geometry_box){ l->middle, l->middle }) &&
            geometry_path_holds(s->pieces->of.paths[i], l->middle))
            return false;
    return true;
}

static bool has_room(struct search *s, const struct scene_label *l)
{
    return s->pieces ? has_room_beside(s, l) : has_room_inside(s, l);
}

static bool are_many(const struct scene_canvas *c)
{
    return c->view->piece_count > MANY_PIECES;
}

/* Moves the block's middle to where it has room: where it is wished, else the nearest of places all over the box. */
static bool find_room(struct search *s, struct scene_label *l, struct geometry_box box)
{
    if (box.min.x > box.max.x || box.min.y > box.max.y)
        return false;
    if (has_room(s, l))
        return true;
    double nearest = INFINITY;
    vec2 wish = s->room->wish, best = wish, size = vec2_sub(box.max, box.min);
    int places = are_many(s->c) ? FEW_PLACES : PLACES;
    for (int i = 0; i < places * places; i++) {
        l->middle = vec2_add(box.min, (vec2){ size.x * scene_outwards(i % places, places),
                                              size.y * scene_outwards(i / places, places) });
        double far = vec2_length(vec2_sub(l->middle, wish));
        if (far >= nearest || !has_room(s, l))
            continue;
        nearest = far;
        best = l->middle;
    }
    l->middle = best;
    return nearest < INFINITY;
}

/* Where the middle of a block may lie that stays within a box, or, below zero, touches it from outside. */
static struct geometry_box smaller(struct geometry_box box, vec2 half)
{
    return (struct geometry_box){ vec2_add(box.min, half), vec2_sub(box.max, half) };
}

struct geometry_path scene_label_box(const struct scene_canvas *c, const struct scene_label *l)
{
    vec2 half = half_of(l), across = vec2_scale(l->right, half.x), down = vec2_scale(l->down, half.y);
    const vec2 corners[] = { vec2_add(vec2_sub(l->middle, across), down), vec2_add(vec2_add(l->middle, across), down),
                             vec2_sub(vec2_add(l->middle, across), down), vec2_sub(vec2_sub(l->middle, across), down) };
    struct geometry_path box = { base_arena_alloc(c->a, 4, sizeof *corners), 4, true };
    memcpy(box.points, corners, sizeof corners);
    return box;
}

bool scene_label_inside(const struct scene_canvas *c, const struct scene_label_room *room, struct scene_label *label,
                        vec2 grain[2])
{
    struct geometry_box box = geometry_path_box(room->seam);
    struct lines lines = lines_of(c, room);
    size_t marks = room->marks.count;
    struct geometry_path *all = base_arena_alloc(c->a, marks + 2, sizeof *all); /* and the seam, and the letters */
    if (marks)
        memcpy(all, room->marks.paths, marks * sizeof *all);
    all[marks] = room->seam;
    struct boxed of = boxed(c->a, room->marks);
    struct scene_squares squares = scene_squares_of(c->a, box, &(struct scene_obstacles){ all, marks + 1 }, 1);
    struct search s = { .c = c, .room = room, .clear_of = &of, .squares = &squares };
    for (int form = 0; form < (are_many(c) ? FEW_FORMS : FORMS); form++) {
        *label = in_form(c, room, &lines, &forms[form]);
        if (!find_room(&s, label, smaller(box, on_table(label, half_of(label)))))
            continue;
        all[marks + 1] = scene_label_box(c, label);
        if (scene_grain_place(c->a, room->seam, all[marks + 1], &(struct scene_obstacles){ all, marks + 2 },
                              room->grain, are_many(c) ? FEW_PLACES : SCENE_LANES, grain))
            return true;
    }
    return false;
}

/* Of obstacles those that come into a box: the others need not be asked again and again. */
static struct boxed within(struct arena *a, const struct boxed *all, struct geometry_box box)
{
    struct geometry_path *paths = base_arena_alloc(a, all->of.count, sizeof *paths);
    struct geometry_box *boxes = base_arena_alloc(a, all->of.count, sizeof *boxes);
    size_t count = 0;
    for (size_t i = 0; i < all->of.count; i++) {
        if (!geometry_boxes_meet(all->boxes[i], box))
            continue;
        paths[count] = all->of.paths[i];
        boxes[count++] = all->boxes[i];
    }
    return (struct boxed){ { paths, count }, boxes };
}

/* --- beside the piece -------------------------------------------------------------------------------------------- */

/* From the letters to the nearest place of the piece's stitching line, which lies well within it at a corner, too. */
struct lead {
    vec2 from, to;
    double length;
};

static vec2 nearest_of(struct geometry_path path, vec2 at)
{
    vec2 best = path.points[0];
    double nearest = INFINITY;
    for (size_t i = 0; i < path.count; i++) {
        vec2 p = path.points[i], side = vec2_sub(path.points[(i + 1) % path.count], p);
        double square = vec2_dot(side, side), share = square > 0 ? vec2_dot(vec2_sub(at, p), side) / square : 0;
        vec2 foot = vec2_add(p, vec2_scale(side, fmin(fmax(share, 0), 1)));
        double far = vec2_length(vec2_sub(foot, at));
        if (far < nearest)
            best = foot;
        nearest = fmin(nearest, far);
    }
    return best;
}

/* The place of the block's edge that is nearest to another one. */
static vec2 edge_towards(const struct scene_label *l, vec2 to)
{
    vec2 half = on_table(l, vec2_add(half_of(l), (vec2){ LEADER_AIR_MM, LEADER_AIR_MM })),
         off = vec2_sub(to, l->middle);
    return vec2_add(l->middle, (vec2){ fmin(half.x, fmax(-half.x, off.x)), fmin(half.y, fmax(-half.y, off.y)) });
}

/* Each looks for the nearest of the other until both are found, all but exactly. */
static struct lead lead_of(const struct scene_label *l, struct geometry_path seam)
{
    struct lead lead = { .from = l->middle };
    for (int i = 0; i < LOOKS; i++) {
        lead.to = nearest_of(seam, lead.from);
        lead.from = edge_towards(l, lead.to);
    }
    lead.length = vec2_length(vec2_sub(lead.to, lead.from));
    return lead;
}

/* How much of what is drawn it runs over, its own piece's lines at its end aside. */
static int crossings_of(const struct search *s, const struct lead *lead)
{
    double own = lead->length > 0 ? fmax(0, 1 - LEADER_OWN_MM / lead->length) : 0;
    vec2 end = vec2_lerp(lead->from, lead->to, own), half = vec2_scale(vec2_sub(end, lead->from), 0.5);
    vec2 middle = vec2_lerp(lead->from, end, 0.5);
    struct geometry_box box = { { middle.x - fabs(half.x), middle.y - fabs(half.y) },
                                { middle.x + fabs(half.x), middle.y + fabs(half.y) } };
    const struct boxed *lists[] = { s->clear_of, s->pieces };
    int count = 0;
    for (int k = 0; k < 2; k++)
        for (size_t i = 0; i < lists[k]->of.count; i++)
            count +=
                geometry_boxes_meet(lists[k]->boxes[i], box) && path_crosses(lists[k]->of.paths[i], lead->from, end);
    return count;
}

/* What a place is worth: its leader's length, and far more for each line that it runs over. */
static double cost_of(const struct search *s, const struct scene_label *l)
{
    struct lead lead = lead_of(l, s->room->seam);
    return lead.length + CROSSED_MM * crossings_of(s, &lead);
}

/* Nearer and nearer by ever smaller steps, as long as there is room. */
static double push_nearer(struct search *s, struct scene_label *l, double cost)
{
    static const vec2 ways[] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
    for (double step = PUSH_MM; step >= 1; step /= 2)
        for (int way = 0; way < 4; way++) {
            vec2 before = l->middle;
            l->middle = vec2_add(before, vec2_scale(ways[way], step));
            double there = cost_of(s, l);
            if (there >= cost || !has_room(s, l))
                l->middle = before;
            else
                cost = there;
        }
    return cost;
}

/* What a leader from a block has at least: its way to the stitching line's box. */
static double least_lead(const struct scene_label *l, struct geometry_box seam)
{
    vec2 half = on_table(l, vec2_add(half_of(l), (vec2){ LEADER_AIR_MM, LEADER_AIR_MM })), m = l->middle;
    vec2 off = { fmax(0, fmax(seam.min.x - m.x, m.x - seam.max.x) - half.x),
                 fmax(0, fmax(seam.min.y - m.y, m.y - seam.max.y) - half.y) };
    return vec2_length(off);
}

/* The place about the piece with the shortest leader; what it costs, or INFINITY where there is none below `most`. */
static double find_beside(struct search *s, struct scene_label *l, struct geometry_box box, double most)
{
    vec2 size = vec2_sub(box.max, box.min), best = l->middle;
    const struct geometry_box seam = geometry_path_box(s->room->seam);
    double cheapest = most;
    for (int i = 0; i < PLACES * PLACES; i++) {
        l->middle = vec2_add(box.min, (vec2){ size.x * scene_outwards(i % PLACES, PLACES),
                                              size.y * scene_outwards(i / PLACES, PLACES) });
        if (least_lead(l, seam) > cheapest || !has_room(s, l))
            continue;
        double cost = cost_of(s, l);
        if (cost >= cheapest)
            continue;
        cheapest = cost;
        best = l->middle;
    }
    l->middle = best;
    return cheapest < most ? push_nearer(s, l, cheapest) : INFINITY;
}

/* Of all forms the one with the shortest leader; a better one may have it a little longer. */
bool scene_label_beside(const struct scene_canvas *c, const struct scene_label_room *room, struct geometry_path cut,
                        const struct scene_obstacles *drawn, const struct scene_obstacles *pieces, bool over_lines,
                        struct scene_label *label)
{
    struct geometry_box box = geometry_path_box(cut);
    struct lines lines = lines_of(c, room);
    const struct boxed all = boxed(c->a, *drawn), all_pieces = boxed(c->a, *pieces);
    const struct geometry_box light =
        room->light ? *room->light : geometry_path_box(geometry_map_frame(c->a, c->view->map, FRAME_STEPS).path);
    const double most = over_lines ? INFINITY : CROSSED_MM;
    double cheapest = most;
    for (int form = 0; form < 2 * BESIDE_FORMS && !are_many(c); form++) {
        double reach = form < BESIDE_FORMS ? REACH_MM : FAR_REACH_MM, worse = FORM_MM * (form % BESIDE_FORMS);
        if (form == BESIDE_FORMS && cheapest < CROSSED_MM)
            break;
        if (form % BESIDE_FORMS == BESIDE_FORMS - 1 && !over_lines)
            continue; /* the name alone only where nothing else can be had */
        if (form % BESIDE_FORMS == BESIDE_FORMS - 1)
            worse += ALONE_MM;
        struct scene_label l = in_form(c, room, &lines, &beside_forms[form % BESIDE_FORMS]);
        vec2 half = on_table(&l, vec2_add(half_of(&l), (vec2){ reach, reach }));
        struct geometry_box middles = smaller(box, vec2_scale(half, -1));
        struct geometry_box area = smaller(middles, vec2_scale(half, -1));
        struct boxed near = within(c->a, &all, area), near_pieces = within(c->a, &all_pieces, area);
        struct search s = { c, room, &near, &near_pieces, NULL, 0, light };
        double cost = find_beside(&s, &l, middles, cheapest - worse) + worse;
        if (cost >= cheapest)
            continue;
        cheapest = cost;
        *label = l;
    }
    return cheapest < most;
}

/* Smaller letters before hidden marks: a mark that is hidden is not made, a line may be. */
static bool find_over(const struct scene_canvas *c, const struct scene_label_room *room, const struct form *ways,
                      int count, const struct boxed *clear_of, struct scene_label *label)
{
    struct geometry_box box = geometry_path_box(room->seam);
    struct lines lines = lines_of(c, room);
    const struct scene_obstacles drawn[] = { { &room->seam, 1 },
                                             clear_of ? clear_of->of : (struct scene_obstacles){ 0 } };
    const struct scene_squares squares = scene_squares_of(c->a, box, drawn, 2);
    struct search s = { .c = c, .room = room, .clear_of = clear_of, .squares = &squares };
    for (int way = 0; way < SCENE_NAME_SIZES * count; way++) {
        *label = in_form(c, room, &lines, &ways[way % count]);
        shrink(label, scene_name_share(c, way / count));
        if (find_room(&s, label, smaller(box, on_table(label, half_of(label)))))
            return true;
    }
    return false;
}

bool scene_label_whole_over(const struct scene_canvas *c, const struct scene_label_room *room,
                            struct scene_label *label)
{
    const struct boxed pricked = boxed(c->a, room->pricked);
    return room->texts[1] && find_over(c, room, over_forms, OVER_FORMS, &pricked, label);
}

bool scene_label_clear(const struct scene_canvas *c, const struct scene_label_room *room, struct scene_label *label)
{
    const struct boxed pricked = boxed(c->a, room->pricked);
    return find_over(c, room, name_forms, NAME_FORMS, &pricked, label);
}

bool scene_label_over(const struct scene_canvas *c, const struct scene_label_room *room, struct scene_label *label)
{
    return scene_label_whole_over(c, room, label) || scene_label_clear(c, room, label) ||
           (room->texts[1] && find_over(c, room, over_forms, OVER_FORMS, NULL, label)) ||
           find_over(c, room, name_forms, NAME_FORMS, NULL, label);
}

void scene_label_darken(const struct scene_canvas *c, const struct scene_label *l)
{
    struct table_path box = { scene_label_box(c, l) };
    paint_table_fill(&c->out->table, &box, 1, (struct paint_ink){ 0, 0 });
}

void scene_label_write_in(const struct scene_canvas *c, const struct scene_label *l, struct paint_ink ink)
{
    vec2 top = vec2_sub(l->middle, vec2_scale(l->down, l->height / 2));
    for (size_t i = 0; i < l->count; i++) {
        double step = l->cap[i] * l->step;
        vec2 at = vec2_add(top, vec2_scale(l->down, step / 2));
        scene_table_words_in(c, l->text[i], (struct table_pt){ at.x, at.y }, l->right, l->cap[i], ink);
        top = vec2_add(top, vec2_scale(l->down, step));
    }
}

void scene_label_write(const struct scene_canvas *c, const struct scene_label *l)
{
    scene_label_write_in(c, l, scene_letter_ink(&c->view->look));
}

void scene_label_write_lit(const struct scene_canvas *c, const struct scene_label *l)
{
    struct table_path box = { scene_label_box(c, l) };
    paint_table_fill(&c->out->table, &box, 1, scene_letter_ink(&c->view->look));
    scene_label_write_in(c, l, (struct paint_ink){ 0, 0 });
}

/* Where the way from a place outside to one inside a closed path enters it, as a share of the way; 0 when it does not.
 */
static double entry(struct geometry_path path, vec2 from, vec2 to)
{
    double first = 1;
    vec2 way = vec2_sub(to, from);
    for (size_t i = 0; i < path.count; i++) {
        vec2 a = vec2_sub(path.points[i], from), b = vec2_sub(path.points[(i + 1) % path.count], from);
        double left = vec2_cross(way, a), right = vec2_cross(way, b);
        if ((left < 0) == (right < 0))
            continue;
        double share = vec2_dot(way, vec2_lerp(a, b, left / (left - right))) / vec2_dot(way, way);
        if (share >= 0 && share < first)
            first = share;
    }
    return first < 1 ? first : 0;
}

void scene_label_leader(const struct scene_label *l, const struct scene_label_room *room, vec2 ends[2])
{
    struct lead lead = lead_of(l, room->seam);
    ends[0] = lead.from;
    ends[1] = lead.to;
}

void scene_label_lead(const struct scene_canvas *c, const struct scene_label *l, const struct scene_label_room *room,
                      struct geometry_path cut)
{
    struct paint_ink ink = scene_ink(&c->view->look, SCENE_LEADER);
    vec2 *ends = base_arena_alloc(c->a, 2, sizeof *ends), *dot = base_arena_alloc(c->a, DOT_CORNERS, sizeof *dot);
    scene_label_leader(l, room, ends);
    vec2 way = vec2_sub(ends[1], ends[0]);
    double length = vec2_length(way), end = fmin(length, entry(cut, ends[0], ends[1]) * length + LEADER_IN_MM);
    ends[1] = vec2_add(ends[0], vec2_scale(vec2_unit(way), end));
    for (int i = 0; i < DOT_CORNERS; i++) {
        double s, k;
        geometry_sincos(360.0 * i / DOT_CORNERS, &s, &k);
        dot[i] = vec2_add(ends[1], (vec2){ LEADER_DOT_MM * k, LEADER_DOT_MM * s });
    }
    paint_table_stroke(&c->out->table, (struct table_path){ { ends, 2, false } },
                       scene_pen(&c->view->look, SCENE_LEADER), ink);
    paint_table_fill(&c->out->table, &(struct table_path){ { dot, DOT_CORNERS, true } }, 1, ink);
}
