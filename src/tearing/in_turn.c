/* Many rectangles: one after the other, the highest first, each where it leaves least: above others in a column as
 * wide, else in a column of its own beside them, else in a strip of its own. */
#include "tearing/fill.h"

#include <math.h>

struct stack {
    size_t row;
    double width_mm, high_mm;
    size_t *kinds;
    size_t count, cap;
};

struct turn {
    struct tearing_filling *f;
    struct stack *stacks;
    size_t count, cap;
    double *height_mm, *used_mm; /* of each row */
    size_t rows, height_cap, used_cap;
};

static void put(struct turn *t, struct stack *s, size_t kind)
{
    s->kinds = base_arena_grow(t->f->a, s->kinds, &s->cap, s->count + 1, sizeof *s->kinds);
    s->kinds[s->count++] = kind;
    s->high_mm += t->f->kinds[kind].height_mm;
}

/* The column with room above that is wider by the least. */
static struct stack *find_above(const struct turn *t, const struct tearing_kind *kind)
{
    struct stack *best = NULL;
    for (size_t i = 0; i < t->count; i++) {
        struct stack *s = &t->stacks[i];
        bool fits = kind->width_mm <= s->width_mm + TEARING_SLACK_MM &&
                    s->high_mm + kind->height_mm <= t->height_mm[s->row] + TEARING_SLACK_MM;
        if (fits && (!best || s->width_mm < best->width_mm))
            best = s;
    }
    return best;
}

/* The row with room beside that is left the least; a new one where there is none. */
static size_t find_beside(struct turn *t, const struct tearing_kind *kind)
{
    size_t best = t->rows;
    for (size_t i = 0; i < t->rows; i++)
        if (t->used_mm[i] + kind->width_mm <= t->f->width_mm + TEARING_SLACK_MM &&
            (best == t->rows || t->used_mm[i] > t->used_mm[best]))
            best = i;
    if (best < t->rows)
        return best;
    t->height_mm = base_arena_grow(t->f->a, t->height_mm, &t->height_cap, t->rows + 1, sizeof *t->height_mm);
    t->used_mm = base_arena_grow(t->f->a, t->used_mm, &t->used_cap, t->rows + 1, sizeof *t->used_mm);
    t->height_mm[t->rows] = kind->height_mm;
    t->used_mm[t->rows] = 0;
    return t->rows++;
}

static void place(struct turn *t, size_t kind)
{
    const struct tearing_kind *k = &t->f->kinds[kind];
    struct stack *above = find_above(t, k);
    if (above) {
        put(t, above, kind);
        return;
    }
    size_t row = find_beside(t, k);
    t->used_mm[row] += k->width_mm;
    t->stacks = base_arena_grow(t->f->a, t->stacks, &t->cap, t->count + 1, sizeof *t->stacks);
    t->stacks[t->count] = (struct stack){ .row = row, .width_mm = k->width_mm };
    put(t, &t->stacks[t->count++], kind);
}

static void lay_row(const struct turn *t, size_t row)
{
    tearing_begin_row(t->f, t->height_mm[row]);
    for (size_t i = 0; i < t->count; i++) {
        if (t->stacks[i].row != row)
            continue;
        tearing_begin_column(t->f);
        for (size_t k = 0; k < t->stacks[i].count; k++)
            tearing_add(t->f, t->stacks[i].kinds[k]);
    }
}

void tearing_fill_in_turn(struct tearing_filling *f)
{
    struct turn t = { .f = f };
    for (size_t k = 0; k < f->count; k++)
        for (int i = 0; i < f->kinds[k].count; i++)
            place(&t, k);
    for (size_t row = 0; row < t.rows; row++)
        lay_row(&t, row);
}
