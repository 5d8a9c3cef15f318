#include "scene/label.h"

#include <math.h>
#include <string.h>

#define NAME_SIZE 1.35 /* of the cap height */
#define LINE_STEP 1.7  /* of the cap height */
#define HEAD_MM 14.0   /* what an arrow's head takes about its tip */

enum { PLACES = 21 }; /* across and up a piece, in search of room */

/* How the letters may stand, best first: facing the person with all lines; with fewer and smaller ones; running up
 * along the piece, as they do in a drawing (ISO 129: read from below or from the right). The count is worth more than
 * an unbroken mark, so that only the name alone makes way further. */
static const struct form {
    bool along;
    bool broken; /* the name in two lines */
    bool over;   /* a mark may end at the letters' dark ground and go on behind it */
    size_t lines;
    double name_size;
} forms[] = {
    { .lines = 3, .name_size = NAME_SIZE },
    { .lines = 3, .name_size = 1 },
    { .lines = 2, .name_size = 1 },
    { .lines = 2, .name_size = 1, .along = true },
    { .lines = 2, .name_size = 1, .over = true },
    { .lines = 2, .name_size = 1, .along = true, .over = true },
    { .lines = 1, .name_size = 1 },
    { .lines = 1, .name_size = 1, .along = true },
    { .lines = 1, .name_size = 1, .broken = true },
    { .lines = 1, .name_size = 1, .broken = true, .along = true },
    { .lines = 1, .name_size = 1, .broken = true, .over = true },
    { .lines = 1, .name_size = 1, .broken = true, .along = true, .over = true },
    { .lines = 1, .name_size = 1, .over = true },
    { .lines = 1, .name_size = 1, .over = true, .along = true },
};

enum { FORMS = sizeof forms / sizeof forms[0] };

/* A line and how long it is at a cap height of 1 mm: measured once for all forms. */
struct line {
    const char *text;
    double width;
};

/* The lines of the room, the name first, and the name's two halves. */
struct lines {
    struct line all[SCENE_LABEL_LINES], halves[2];
};

static void add_line(struct scene_label *l, struct line line, double cap)
{
    if (!line.text)
        return;
    l->text[l->count] = line.text;
    l->cap[l->count++] = cap;
    l->width = fmax(l->width, line.width * cap);
    l->height += cap * LINE_STEP;
}

/* Where a name is best broken: at the blank that leaves the shorter longest half; its end when it has none. */
static size_t break_of(const char *name)
{
    size_t length = strlen(name), best = length, longest = length;
    for (size_t i = 0; i < length; i++) {
        size_t half = i > length - i ? i : length - i;
        if (name[i] == ' ' && half < longest) {
            best = i;
            longest = half;
        }
    }
    return best;
}

static struct line line_of(const struct scene_canvas *c, const char *text)
{
    return (struct line){ text, text ? scene_words_width(c, text, 1) : 0 };
}

static struct lines lines_of(const struct scene_canvas *c, const struct scene_label_room *room)
{
    struct lines lines;
    const char *name = room->texts[0];
    size_t at = break_of(name);
    for (size_t i = 0; i < SCENE_LABEL_LINES; i++)
        lines.all[i] = line_of(c, room->texts[i]);
    lines.halves[0] = name[at] ? line_of(c, base_arena_copy_bytes(c->a, name, at)) : lines.all[0];
    lines.halves[1] = line_of(c, name[at] ? name + at + 1 : NULL);
    return lines;
}

static struct scene_label in_form(const struct scene_canvas *c, const struct scene_label_room *room,
                                  const struct lines *lines, const struct form *form)
{
    double cap = scene_cap_height(&c->view->look);
    vec2 right = scene_side_right(c->view->side), away = scene_side_away(c->view->side);
    struct scene_label l = { .middle = room->wish,
                             .right = form->along ? away : right,
                             .down = form->along ? right : vec2_scale(away, -1),
                             .along = form->along };
    const struct line *name = form->broken ? lines->halves : lines->all;
    add_line(&l, name[0], cap * form->name_size);
    if (form->broken)
        add_line(&l, name[1], cap * form->name_size);
    for (size_t i = 1; i < form->lines; i++)
        add_line(&l, lines->all[i], cap);
    return l;
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

static bool is_clear(const struct scene_label *l, const struct scene_label_room *room)
{
    const vec2 *grain = l->along ? room->longer_grain : room->grain;
    vec2 half = on_table(l, half_of(l));
    vec2 with_head = on_table(l, (vec2){ l->width / 2 + HEAD_MM, l->height / 2 + HEAD_MM });
    for (size_t i = 0; i < room->mark_count; i++)
        if (path_touches(l->middle, half, room->marks[i], &(size_t){ 0 }))
            return false;
    return !touches(l->middle, with_head, grain[0], grain[0]) && !touches(l->middle, with_head, grain[1], grain[1]);
}

/* The quick questions first. */
static bool has_room(const struct scene_label *l, const struct scene_label_room *room, bool over, size_t *last)
{
    return (over || is_clear(l, room)) && !path_touches(l->middle, on_table(l, half_of(l)), room->seam, last) &&
           geometry_path_holds(room->seam, l->middle);
}

/* Counts from the middle outwards: the nearest places come early, and farther ones are then not looked at. */
static double outwards(int i)
{
    int step = i % 2 ? (i + 1) / 2 : -i / 2;
    return 0.5 + (double)step / PLACES;
}

/* Moves the block to where it has room: where it is wished, else the nearest of places all over the piece, whose box is
 * given. */
static bool find_room(struct scene_label *l, const struct scene_label_room *room, struct geometry_box box, bool over)
{
    vec2 half = on_table(l, half_of(l)), from = vec2_add(box.min, half), to = vec2_sub(box.max, half);
    size_t last = 0;
    if (from.x > to.x || from.y > to.y)
        return false;
    if (has_room(l, room, over, &last))
        return true;
    double nearest = INFINITY;
    vec2 best = room->wish;
    for (int i = 0; i < PLACES * PLACES; i++) {
        l->middle =
            (vec2){ from.x + (to.x - from.x) * outwards(i % PLACES), from.y + (to.y - from.y) * outwards(i / PLACES) };
        double far = vec2_length(vec2_sub(l->middle, room->wish));
        if (far >= nearest || !has_room(l, room, over, &last))
            continue;
        nearest = far;
        best = l->middle;
    }
    l->middle = best;
    return nearest < INFINITY;
}

/* Where nothing fits inside, the name runs the way the piece is longer. */
struct scene_label scene_label_place(const struct scene_canvas *c, const struct scene_label_room *room)
{
    struct geometry_box box = geometry_path_box(room->seam);
    struct lines lines = lines_of(c, room);
    for (int form = 0; form < FORMS; form++) {
        struct scene_label l = in_form(c, room, &lines, &forms[form]);
        if (find_room(&l, room, box, forms[form].over))
            return l;
    }
    vec2 size = vec2_sub(box.max, box.min), right = scene_side_right(c->view->side);
    bool higher = right.x != 0 ? size.y > size.x : size.x > size.y;
    return in_form(c, room, &lines, &(struct form){ .lines = 1, .name_size = 1, .along = higher });
}

void scene_label_darken(const struct scene_canvas *c, const struct scene_label *l)
{
    vec2 half = half_of(l), across = vec2_scale(l->right, half.x), down = vec2_scale(l->down, half.y);
    const vec2 corners[] = { vec2_add(vec2_sub(l->middle, across), down), vec2_add(vec2_add(l->middle, across), down),
                             vec2_sub(vec2_add(l->middle, across), down), vec2_sub(vec2_sub(l->middle, across), down) };
    struct table_path box = { { base_arena_alloc(c->a, 4, sizeof *corners), 4, true } };
    memcpy(box.path.points, corners, sizeof corners);
    paint_table_fill(&c->out->table, &box, 1, (struct paint_ink){ 0, 0 });
}

void scene_label_write(const struct scene_canvas *c, const struct scene_label *l)
{
    vec2 top = vec2_sub(l->middle, vec2_scale(l->down, l->height / 2));
    for (size_t i = 0; i < l->count; i++) {
        double step = l->cap[i] * LINE_STEP;
        vec2 at = vec2_add(top, vec2_scale(l->down, step / 2));
        scene_table_words(c, l->text[i], (struct table_pt){ at.x, at.y }, l->right, l->cap[i]);
        top = vec2_add(top, vec2_scale(l->down, step));
    }
}
