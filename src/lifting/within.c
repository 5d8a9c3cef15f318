#include "lifting/within.h"
#include "drawing/phrases.h"
#include "lifting/counts.h"

#include <math.h>
#include <string.h>

/* ---- Letters ---- */

/* Letters are filled, and no larger than a title's. So are arrowheads, notches and drill marks; but those have at most
 * four corners or are discs. With more corners than straight letters have it is a letter also by itself; else where
 * several follow each other; and so is what stands between letters (the dot on an i). */
#define LETTER_MOST_MM 15.0
#define LETTERS_APART_MM 30.0
enum { CORNERS_OF_MARK = 4, CORNERS_OF_STRAIGHT = 12, STRAIGHT_IN_ROW = 3 };

/* A disc fills π/4 of its box; no letter comes so near to that in a square box but o, which has a hole. */
#define DISC_SHARE 0.785398
#define DISC_NEAR 0.02

static bool is_disc(struct geometry_path p, vec2 size)
{
    return fabs(size.x - size.y) < DISC_NEAR * size.x &&
           fabs(fabs(geometry_path_area(p)) - DISC_SHARE * size.x * size.y) < DISC_NEAR * size.x * size.y;
}

static bool may_be_letter(const struct drawing *d, size_t line)
{
    const struct drawing_style *style = &d->styles[d->lines[line].style];
    struct geometry_box box = geometry_path_box(d->lines[line].path.path);
    return style->filled && !style->stroked && box.max.x - box.min.x <= LETTER_MOST_MM &&
           box.max.y - box.min.y <= LETTER_MOST_MM;
}

/* Corners that speak for a letter; 0: a mark. */
static size_t letter_corners(struct geometry_path p)
{
    struct geometry_box box = geometry_path_box(p);
    return p.count > CORNERS_OF_MARK && !is_disc(p, vec2_sub(box.max, box.min)) ? p.count : 0;
}

static vec2 box_middle(struct geometry_path p)
{
    struct geometry_box box = geometry_path_box(p);
    return vec2_lerp(box.min, box.max, 0.5);
}

/* The end of a row that begins at `first`: painted one after the other, alike and near. */
static size_t row_end(const struct drawing *d, size_t first)
{
    size_t i = first + 1;
    for (; i < d->line_count && may_be_letter(d, i) && d->lines[i].style == d->lines[first].style; i++) {
        vec2 apart = vec2_sub(box_middle(d->lines[i].path.path), box_middle(d->lines[i - 1].path.path));
        if (vec2_length(apart) > LETTERS_APART_MM)
            break;
    }
    return i;
}

static void find_letters_in_row(const struct drawing *d, size_t first, size_t end, bool *letter)
{
    size_t from = end, to = first, straight = 0;
    bool curved = false;
    for (size_t i = first; i < end; i++) {
        size_t corners = letter_corners(d->lines[i].path.path);
        if (corners == 0)
            continue;
        from = i < from ? i : from;
        to = i;
        straight++;
        curved = curved || corners > CORNERS_OF_STRAIGHT;
    }
    for (size_t i = from; (curved || straight >= STRAIGHT_IN_ROW) && i <= to; i++)
        letter[i] = true;
}

const bool *within_find_letters(struct arena *a, const struct drawing *d, const struct lifting_division *division)
{
    bool *letter = base_arena_alloc(a, d->line_count, sizeof *letter);
    for (size_t i = 0, end; i < d->line_count; i = end) {
        end = i + 1;
        if (!may_be_letter(d, i))
            continue;
        end = row_end(d, i);
        find_letters_in_row(d, i, end, letter);
    }
    for (size_t i = 0; i < d->line_count; i++)
        if (d->styles[d->lines[i].style].lettering || division->strand_of_line[i] == LIFTING_NONE)
            letter[i] = true;
    return letter;
}

/* A place that share of the way along a run, at half the height of small letters. */
static vec2 place_in(const struct drawing_text *t, double share)
{
    vec2 up = { -t->along.y, t->along.x }, at = { t->at.x, t->at.y };
    return vec2_add(vec2_add(at, vec2_scale(t->along, share * t->length_mm)), vec2_scale(up, t->size_mm / 4));
}

static vec2 middle_of(const struct drawing_text *t)
{
    return place_in(t, 0.5);
}

const vec2 *within_written(struct arena *a, const struct drawing *d, const bool *is_letter, size_t *count)
{
    vec2 *places = base_arena_alloc(a, d->text_count + d->line_count, sizeof *places);
    *count = 0;
    for (size_t i = 0; i < d->text_count; i++)
        places[(*count)++] = middle_of(&d->texts[i]);
    for (size_t i = 0; i < d->line_count; i++)
        if (is_letter[i])
            places[(*count)++] = d->lines[i].path.path.points[0];
    return places;
}

static bool tells_count(struct arena *work, const char *words)
{
    struct lifting_tokens tokens = lifting_tokens_of(work, words);
    struct lifting_spoken *spoken = base_arena_alloc(work, tokens.count, sizeof *spoken);
    struct lifting_counts counts = { .count = 0 };
    lifting_speak(&tokens, spoken);
    lifting_find_counts(spoken, tokens.count, &counts);
    return counts.count > 0 && counts.items[0].number > 0;
}

const vec2 *within_counts(struct arena *a, const struct drawing *d, size_t *count)
{
    struct arena *work = base_arena_create();
    const struct drawing_phrase *phrases;
    size_t phrase_count = drawing_phrases(work, d, &phrases);
    vec2 *places = base_arena_alloc(a, phrase_count, sizeof *places);
    *count = 0;
    for (size_t i = 0; i < phrase_count; i++)
        if (tells_count(work, phrases[i].words))
            places[(*count)++] = vec2_lerp(phrases[i].box.min, phrases[i].box.max, 0.5);
    base_arena_destroy(work);
    return places;
}

/* ---- Lines ---- */

/* Notches, ticks and the ends of lines that run across an outline stand out by no more than this (the longest notches
 * are 15 mm, own measurement on sheets; lines that run past a corner a little more). */
#define PAST_MOST_MM 25.0

/* Marks that stand outside begin this near to the outline. */
#define TOUCH_MM 0.6

/* Copies of a part of the outline lie this near to it: a quarter of a fine line. */
#define COPY_MM 0.1

/* Of a line's length along an outline: then it is part of that and no line within. */
#define PART_SHARE 0.5

/* Lines are looked at this often at least: where their points are and between them. */
#define STEP_MM 10.0

struct sorting {
    struct arena *a;
    const struct one_size_sheet *sheet;
    struct within_shape *shapes;
    size_t count, outline_count;
    bool *taken;            /* lines that belong to a shape */
    const int *cup_of_text; /* or LIFTING_NONE */
};

static bool boxes_meet(struct geometry_box a, struct geometry_box b, double near)
{
    return a.min.x <= b.max.x + near && b.min.x <= a.max.x + near && a.min.y <= b.max.y + near &&
           b.min.y <= a.max.y + near;
}

static bool box_holds(struct geometry_box b, vec2 p)
{
    return p.x >= b.min.x && p.x <= b.max.x && p.y >= b.min.y && p.y <= b.max.y;
}

static bool holds(const struct nest_outline *o, vec2 p)
{
    return box_holds(o->box, p) && geometry_path_holds(o->path, p);
}

struct lengths {
    double in, out;
};

static void measure_side(const struct nest_outline *o, vec2 from, vec2 to, struct lengths *sum)
{
    double length = vec2_length(vec2_sub(to, from)), steps = ceil(length / STEP_MM);
    for (double k = 0; k < steps; k++) {
        bool in = holds(o, vec2_lerp(from, to, (k + 0.5) / steps));
        *(in ? &sum->in : &sum->out) += length / steps;
    }
}

/* How much of a line lies within. Given up once that cannot matter any more. */
static struct lengths measure(const struct nest_outline *o, struct geometry_path p)
{
    struct lengths sum = { 0, 0 };
    for (size_t i = 1; i < p.count + p.closed; i++)
        measure_side(o, p.points[i - 1], p.points[i % p.count], &sum);
    return sum;
}

static bool touches(const struct nest_outline *o, struct geometry_path p)
{
    double along;
    return geometry_path_distance(o->path, p.points[0], &along) < TOUCH_MM ||
           geometry_path_distance(o->path, p.points[p.count - 1], &along) < TOUCH_MM;
}

/* How much of an outline a line is. */
static double part_of(const struct nest_outline *o, size_t line)
{
    size_t low = 0, high = o->use_count;
    while (low < high) {
        size_t middle = (low + high) / 2;
        if (o->uses[middle].line < line)
            low = middle + 1;
        else
            high = middle;
    }
    return low < o->use_count && o->uses[low].line == line ? o->uses[low].length_mm : 0;
}

/* Whether a line lies along the outline from end to end: a copy of some of it. */
static bool lies_along(const struct nest_outline *o, struct geometry_path p)
{
    double along;
    for (size_t i = 0; i < p.count; i++) {
        vec2 middle = vec2_lerp(p.points[i], p.points[i + 1 < p.count ? i + 1 : p.closed ? 0 : i], 0.5);
        if (geometry_path_distance(o->path, p.points[i], &along) > COPY_MM ||
            geometry_path_distance(o->path, middle, &along) > COPY_MM)
            return false;
    }
    return true;
}

enum belongs { BELONGS_NOT, BELONGS_WITHIN, BELONGS_OUTLINE };

static enum belongs belongs(const struct nest_outline *o, size_t line, struct geometry_path p, struct geometry_box box)
{
    if (!boxes_meet(o->box, box, TOUCH_MM))
        return BELONGS_NOT;
    double length = geometry_path_length(p);
    if (part_of(o, line) > PART_SHARE * length || (length > COPY_MM && lies_along(o, p)))
        return BELONGS_OUTLINE;
    struct lengths sum = measure(o, p);
    if (sum.in > sum.out || (length == 0 && holds(o, p.points[0])))
        return BELONGS_WITHIN;
    return sum.out <= PAST_MOST_MM && (sum.in > 0 || touches(o, p)) ? BELONGS_WITHIN : BELONGS_NOT;
}

/* In which of a shape's sizes the line is looked for: its own, or, if it is of all, the largest first. */
static enum belongs belongs_to_shape(const struct sorting *s, const struct within_shape *shape, size_t line,
                                     struct geometry_path p, struct geometry_box box)
{
    enum belongs found = BELONGS_NOT;
    for (size_t k = s->outline_count; k-- > 0 && found != BELONGS_OUTLINE;) {
        bool one = s->sheet->division->size_count > 0;
        if (!shape->outlines[k] || !one_size_has(s->sheet, line, one ? (int)k : LIFTING_NONE, shape->shape.cup_group))
            continue;
        if (k + 1 < s->outline_count && shape->outlines[k] == shape->outlines[k + 1])
            continue;
        if (found == BELONGS_NOT || part_of(shape->outlines[k], line) > 0) {
            enum belongs now = belongs(shape->outlines[k], line, p, box);
            found = now > found ? now : found;
        }
    }
    return found;
}

static bool is_drawn_line(const struct sorting *s, size_t line)
{
    int strand = s->sheet->division->strand_of_line[line];
    return strand != LIFTING_NONE && !s->sheet->is_letter[line] &&
           s->sheet->division->strands[strand].role != LIFTING_UNUSED;
}

static struct geometry_box box_of_shape(const struct sorting *s, const struct within_shape *shape)
{
    struct geometry_box box = geometry_box_empty();
    for (size_t k = 0; k < s->outline_count; k++)
        if (shape->outlines[k])
            box = geometry_box_join(box, shape->outlines[k]->box);
    return box;
}

static void sort_lines(struct sorting *s, struct within_shape *shape, const struct geometry_box *boxes)
{
    const struct drawing *d = s->sheet->d;
    struct geometry_box box = box_of_shape(s, shape);
    size_t *lines = NULL, cap = 0, count = 0;
    for (size_t i = 0; i < d->line_count; i++) {
        if (!is_drawn_line(s, i) || !boxes_meet(box, boxes[i], TOUCH_MM))
            continue;
        enum belongs found = belongs_to_shape(s, shape, i, d->lines[i].path.path, boxes[i]);
        s->taken[i] = s->taken[i] || found != BELONGS_NOT;
        if (found != BELONGS_WITHIN)
            continue;
        lines = base_arena_grow(s->a, lines, &cap, count + 1, sizeof *lines);
        lines[count++] = i;
    }
    shape->shape.lines = lines;
    shape->shape.line_count = count;
}

/* ---- Words ---- */

/* Words that stand in no shape are of one that has none, if they stand this near. */
#define BESIDE_MM 20.0

/* Longer runs are no labels but sentences: it is their middle that stands beside something. Common practice, no source.
 */
#define LABEL_MOST_MM 60.0

/* In how many of its sizes. */
static size_t sizes_with(const struct sorting *s, const struct within_shape *shape, vec2 at)
{
    size_t count = 0;
    for (size_t k = 0; k < s->outline_count; k++)
        count += shape->outlines[k] && holds(shape->outlines[k], at);
    return count;
}

/* The shape with most sizes around it, of words' own cup group. */
static size_t shape_around(const struct sorting *s, const struct geometry_box *boxes, vec2 at, int cup)
{
    size_t best = s->count, most = 0;
    for (size_t i = 0; i < s->count; i++) {
        int other = s->shapes[i].shape.cup_group;
        if (cup != LIFTING_NONE && other != LIFTING_NONE && other != cup)
            continue;
        size_t sizes = box_holds(boxes[i], at) ? sizes_with(s, &s->shapes[i], at) : 0;
        if (sizes > most) {
            most = sizes;
            best = i;
        }
    }
    return best;
}

/* Brings *least_mm down to how far it is to the nearest shape without words; that shape, else `best`. */
static size_t nearer_to(const struct sorting *s, const size_t *counts, vec2 at, double *least_mm, size_t best)
{
    double least = *least_mm, along;
    for (size_t i = 0; i < s->count; i++)
        for (size_t k = 0; counts[i] == 0 && k < s->outline_count; k++) {
            const struct nest_outline *o = s->shapes[i].outlines[k];
            double away = o && boxes_meet(o->box, (struct geometry_box){ at, at }, least)
                              ? geometry_path_distance(o->path, at, &along)
                              : BESIDE_MM;
            if (away < least) {
                least = away;
                best = i;
            }
        }
    *least_mm = least;
    return best;
}

/* A label begins or ends beside what it is of. */
static size_t shape_beside(const struct sorting *s, const size_t *counts, const struct drawing_text *t)
{
    double within = BESIDE_MM;
    size_t best = nearer_to(s, counts, middle_of(t), &within, s->count);
    if (t->length_mm > LABEL_MOST_MM)
        return best;
    best = nearer_to(s, counts, place_in(t, 0), &within, best);
    return nearer_to(s, counts, place_in(t, 1), &within, best);
}

/* For each run the cup group of its layer's lines, or LIFTING_NONE: of all, or not known. */
static const int *cups_of_texts(const struct sorting *s)
{
    const struct lifting_division *v = s->sheet->division;
    const struct drawing *d = s->sheet->d;
    int *of_layer = base_arena_alloc(s->a, d->layer_count, sizeof *of_layer);
    int *cups = base_arena_alloc(s->a, d->text_count, sizeof *cups);
    for (size_t i = 0; i < d->layer_count; i++)
        of_layer[i] = LIFTING_NONE;
    for (size_t i = 0; i < v->strand_count; i++)
        if (v->strands[i].layer != DRAWING_NONE)
            of_layer[v->strands[i].layer] = v->strands[i].cup_group;
    for (size_t i = 0; i < d->text_count; i++)
        cups[i] = d->texts[i].layer == DRAWING_NONE ? LIFTING_NONE : of_layer[d->texts[i].layer];
    return cups;
}

/* Cups are drawn within each other: words that stand in a shape stand as well in the same piece's of other cups. */
static bool is_of_cup_too(const struct sorting *s, const struct geometry_box *boxes, size_t text, size_t of, size_t i)
{
    int cup = s->shapes[i].shape.cup_group, first = of < s->count ? s->shapes[of].shape.cup_group : LIFTING_NONE;
    vec2 at = middle_of(&s->sheet->d->texts[text]);
    if (first == LIFTING_NONE || cup == LIFTING_NONE || cup == first || !box_holds(boxes[i], at))
        return false;
    return s->cup_of_text[text] == LIFTING_NONE && sizes_with(s, &s->shapes[i], at) > 0;
}

/* Whether something stands in a room of a shape. */
static bool in_room(const struct sorting *s, const struct within_shape *shape, vec2 at)
{
    for (size_t k = 0; k < s->outline_count; k++)
        for (size_t i = 0; shape->outlines[k] && i < shape->outlines[k]->room_count; i++)
            if (holds(&shape->outlines[k]->rooms[i], at))
                return true;
    return false;
}

/* Of all texts those of a shape, its own first. */
static void tell_texts(const struct sorting *s, const struct geometry_box *boxes, const size_t *of, size_t index)
{
    struct within_shape *shape = &s->shapes[index];
    const struct drawing *d = s->sheet->d;
    size_t *texts = NULL, cap = 0, count = 0;
    for (int rooms = 0; rooms < 2; rooms++) {
        for (size_t k = 0; k < d->text_count; k++) {
            bool is_its = of[k] == index || is_of_cup_too(s, boxes, k, of[k], index);
            if (!is_its || in_room(s, shape, middle_of(&d->texts[k])) != (rooms == 1))
                continue;
            texts = base_arena_grow(s->a, texts, &cap, count + 1, sizeof *texts);
            texts[count++] = k;
        }
        if (rooms == 0)
            shape->shape.own_text_count = count;
    }
    shape->shape.texts = texts;
    shape->shape.text_count = count;
}

static void sort_texts(struct sorting *s)
{
    const struct drawing *d = s->sheet->d;
    size_t *of = base_arena_alloc(s->a, d->text_count, sizeof *of);
    size_t *counts = base_arena_alloc(s->a, s->count, sizeof *counts);
    struct geometry_box *boxes = base_arena_alloc(s->a, s->count, sizeof *boxes);
    for (size_t i = 0; i < s->count; i++)
        boxes[i] = box_of_shape(s, &s->shapes[i]);
    for (size_t i = 0; i < d->text_count; i++) {
        of[i] = shape_around(s, boxes, middle_of(&d->texts[i]), s->cup_of_text[i]);
        for (size_t k = 0; k < s->count; k++)
            counts[k] += of[i] == k || is_of_cup_too(s, boxes, i, of[i], k);
    }
    for (size_t i = 0; i < d->text_count; i++)
        if (of[i] == s->count)
            of[i] = shape_beside(s, counts, &d->texts[i]);
    for (size_t i = 0; i < s->count; i++)
        tell_texts(s, boxes, of, i);
}

/* ---- All ---- */

size_t within_sort(struct arena *a, const struct one_size_sheet *sheet, struct within_shape *shapes, size_t count,
                   size_t outline_count)
{
    struct sorting s = { .a = a, .sheet = sheet, .shapes = shapes, .count = count, .outline_count = outline_count };
    const struct drawing *d = sheet->d;
    struct geometry_box *boxes = base_arena_alloc(a, d->line_count, sizeof *boxes);
    s.taken = base_arena_alloc(a, d->line_count, sizeof *s.taken);
    for (size_t i = 0; i < d->line_count; i++)
        boxes[i] = geometry_path_box(d->lines[i].path.path);
    for (size_t i = 0; i < count; i++)
        sort_lines(&s, &shapes[i], boxes);
    s.cup_of_text = cups_of_texts(&s);
    sort_texts(&s);
    size_t loose = 0;
    for (size_t i = 0; i < d->line_count; i++)
        loose += is_drawn_line(&s, i) && !s.taken[i] &&
                 sheet->division->strands[sheet->division->strand_of_line[i]].role == LIFTING_SIZE;
    return loose;
}
