#include "lettering/rows.h"

#include <stdlib.h>

/* Own bounds, no source; shares of the higher letter's height. */
#define LETTERS_APART 1.7 /* with a wide space between them */
#define HIGHER 2.7        /* a letter with all above and below it than one of the smallest */
#define SHARED 0.5        /* of the lower one's height that both have */
#define MARK_LOWER 0.6    /* a dot or dash than its letter */
#define MARK_BEYOND 0.75  /* above or below its letter */
#define MARK_APART 0.8

enum { MARKS_MOST = 2 };

struct lining {
    struct lettering_cell *cells;
    size_t count;
    size_t *root, *members; /* how many each row has, at its root */
};

static size_t root_of(size_t *root, size_t i)
{
    while (root[i] != i)
        i = root[i] = root[root[i]];
    return i;
}

static void join(struct lining *l, size_t i, size_t k)
{
    size_t a = root_of(l->root, i), b = root_of(l->root, k);
    if (a == b)
        return;
    l->root[b] = a;
    l->members[a] += l->members[b];
}

static double high(const struct lettering_cell *c)
{
    return c->high - c->low;
}

struct lettering_cell lettering_cell_of(const struct lettering_ink *inks, size_t ink, vec2 along)
{
    const struct geometry_path *outer = inks[ink].contours;
    struct lettering_cell cell = { ink, INFINITY, -INFINITY, INFINITY, -INFINITY };
    for (size_t i = 0; i < outer->count; i++) {
        double u = vec2_dot(along, outer->points[i]), v = vec2_cross(along, outer->points[i]);
        cell.left = fmin(cell.left, u);
        cell.right = fmax(cell.right, u);
        cell.low = fmin(cell.low, v);
        cell.high = fmax(cell.high, v);
    }
    return cell;
}

static int by_left(const void *pa, const void *pb)
{
    const struct lettering_cell *a = pa, *b = pb;
    if (a->left != b->left)
        return a->left < b->left ? -1 : 1;
    return (a->ink > b->ink) - (a->ink < b->ink);
}

void lettering_sort_cells(struct lettering_cell *cells, size_t count)
{
    if (count)
        qsort(cells, count, sizeof *cells, by_left);
}

/* Letters beside each other. */
static bool are_letters(const struct lettering_cell *a, const struct lettering_cell *b)
{
    double most = fmax(high(a), high(b)), least = fmin(high(a), high(b));
    double shared = fmin(a->high, b->high) - fmax(a->low, b->low);
    return most <= HIGHER * least && shared >= SHARED * least && b->left - a->right <= LETTERS_APART * most;
}

/* How far a dot or a dash lies from the letter that it may belong to; INFINITY: to none. */
static double mark_apart(const struct lettering_cell *mark, const struct lettering_cell *letter)
{
    double height = high(letter), beyond = MARK_BEYOND * height;
    double apart = fmax(mark->left - letter->right, letter->left - mark->right);
    double off = fmax(letter->low - mark->high, mark->low - letter->high);
    bool near = high(mark) <= MARK_LOWER * height && mark->right - mark->left <= 1.5 * height &&
                apart <= MARK_APART * height && mark->low >= letter->low - beyond &&
                mark->high <= letter->high + beyond;
    return near ? fmax(apart, 0) + fmax(off, 0) : INFINITY;
}

static double tallest_of(const struct lining *l)
{
    double tallest = 0;
    for (size_t i = 0; i < l->count; i++)
        tallest = fmax(tallest, high(&l->cells[i]));
    return tallest;
}

static double widest_of(const struct lining *l)
{
    double widest = 0;
    for (size_t i = 0; i < l->count; i++)
        widest = fmax(widest, l->cells[i].right - l->cells[i].left);
    return widest;
}

static void join_letters(struct lining *l, double tallest)
{
    for (size_t i = 0; i < l->count; i++)
        for (size_t k = i + 1; k < l->count && l->cells[k].left <= l->cells[i].right + LETTERS_APART * tallest; k++)
            if (are_letters(&l->cells[i], &l->cells[k]))
                join(l, i, k);
}

/* A mark has next to nothing in its own row: what has is small letters beside a large one. */
static bool *lone_cells(struct arena *a, const struct lining *l)
{
    bool *lone = base_arena_alloc(a, l->count, sizeof *lone);
    for (size_t i = 0; i < l->count; i++)
        lone[i] = l->members[root_of(l->root, i)] <= MARKS_MOST;
    return lone;
}

/* The letter to the left or right that a mark stands beside, or `i` itself. */
static size_t letter_beside(const struct lining *l, size_t i, size_t first, bool to_the_left, double tallest)
{
    const struct lettering_cell *mark = &l->cells[i];
    double best = INFINITY, middle = mark->left + mark->right;
    size_t to = i;
    for (size_t k = first; k < l->count && l->cells[k].left <= mark->right + MARK_APART * tallest; k++) {
        bool on_left = l->cells[k].left + l->cells[k].right <= middle;
        double apart = k != i && on_left == to_the_left ? mark_apart(mark, &l->cells[k]) : INFINITY;
        if (apart < best) {
            best = apart;
            to = k;
        }
    }
    return to;
}

static void join_marks(struct lining *l, const bool *lone, double tallest)
{
    double widest = widest_of(l);
    size_t first = 0;
    for (size_t i = 0; i < l->count; i++) {
        while (l->cells[first].left < l->cells[i].left - widest - MARK_APART * tallest)
            first++;
        for (int side = 0; lone[i] && side < 2; side++)
            join(l, letter_beside(l, i, first, side == 0, tallest), i);
    }
}

size_t lettering_find_lines(struct arena *a, const struct lettering_ink *inks, const size_t *which, size_t count,
                            vec2 along, struct lettering_line **out)
{
    struct lining l = { base_arena_alloc(a, count, sizeof *l.cells), count, base_arena_alloc(a, count, sizeof(size_t)),
                        base_arena_alloc(a, count, sizeof(size_t)) };
    size_t *line_of = base_arena_alloc(a, count, sizeof *line_of), lines = 0;
    for (size_t i = 0; i < count; i++)
        l.cells[i] = lettering_cell_of(inks, which[i], along);
    lettering_sort_cells(l.cells, count);
    for (size_t i = 0; i < count; i++) {
        l.root[i] = i;
        l.members[i] = 1;
    }
    join_letters(&l, tallest_of(&l));
    join_marks(&l, lone_cells(a, &l), tallest_of(&l));
    *out = base_arena_alloc(a, count, sizeof **out);
    for (size_t i = 0; i < count; i++) {
        size_t root = root_of(l.root, i);
        if (!line_of[root]) {
            line_of[root] = ++lines;
            (*out)[lines - 1].cells = base_arena_alloc(a, l.members[root], sizeof(struct lettering_cell));
        }
        struct lettering_line *line = &(*out)[line_of[root] - 1];
        line->cells[line->count++] = l.cells[i];
    }
    return lines;
}
