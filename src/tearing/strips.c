#include "tearing/strips.h"

#include "tearing/fill.h"

#include <assert.h>
#include <math.h>

#define MOST_STEPS 3e7  /* in search of the least length: a tenth of a second or two … */
#define ALONG_STEPS 8e6 /* … and less for one of many tries */
#define FINE_MM 0.01    /* the least length along is found to that: thinner than a thread */

static struct tearing_row *row_at_hand(struct tearing_filling *f)
{
    return &f->rows[f->row_count - 1];
}

void tearing_begin_row(struct tearing_filling *f, double height_mm)
{
    f->rows = base_arena_grow(f->a, f->rows, &f->row_cap, f->row_count + 1, sizeof *f->rows);
    f->rows[f->row_count++] = (struct tearing_row){ .height_mm = height_mm };
    f->spots = NULL;
    f->spot_cap = 0;
    f->column_mm = f->stack_mm = 0;
}

void tearing_begin_column(struct tearing_filling *f)
{
    f->column_mm = f->stack_mm = 0;
}

void tearing_add(struct tearing_filling *f, size_t kind)
{
    struct tearing_row *row = row_at_hand(f);
    double wider = fmax(0, f->kinds[kind].width_mm - f->column_mm);
    double from = row->used_mm - f->column_mm;
    f->spots = base_arena_grow(f->a, f->spots, &f->spot_cap, row->spot_count + 1, sizeof *f->spots);
    f->spots[row->spot_count++] = (struct tearing_spot){ f->order[kind], from, f->stack_mm };
    row->spots = f->spots;
    row->used_mm += wider;
    f->column_mm += wider;
    f->stack_mm += f->kinds[kind].height_mm;
}

static bool comes_before(const struct tearing_kind *one, const struct tearing_kind *other)
{
    return one->height_mm > other->height_mm || (one->height_mm == other->height_mm && one->width_mm > other->width_mm);
}

/* Few kinds: by insertion, so that equal ones keep their order. Those of which there is none are left out. */
static void sort(struct tearing_filling *f, const struct tearing_kind *kinds, size_t count)
{
    struct tearing_kind *sorted = base_arena_alloc(f->a, count, sizeof *sorted);
    int *order = base_arena_alloc(f->a, count, sizeof *order);
    for (size_t i = 0; i < count; i++) {
        size_t at = kinds[i].count > 0 ? f->count++ : 0;
        for (; at > 0 && comes_before(&kinds[i], &sorted[at - 1]); at--) {
            sorted[at] = sorted[at - 1];
            order[at] = order[at - 1];
        }
        if (kinds[i].count > 0) {
            sorted[at] = kinds[i];
            order[at] = (int)i;
        }
    }
    f->kinds = sorted;
    f->order = order;
}

static double length_of(const struct tearing_filling *f)
{
    double mm = 0;
    for (size_t i = 0; i < f->row_count; i++)
        mm += f->rows[i].height_mm + f->extra_mm;
    return mm;
}

static struct tearing_rows fill(struct arena *a, const struct tearing_kind *kinds, size_t count, double width_mm,
                                double extra_mm, double most_steps)
{
    struct tearing_filling f = { .a = a, .width_mm = width_mm, .extra_mm = extra_mm, .most_steps = most_steps };
    for (size_t i = 0; i < count; i++)
        assert(kinds[i].width_mm <= width_mm + TEARING_SLACK_MM);
    sort(&f, kinds, count);
    bool is_least = tearing_fill_least(&f);
    if (!is_least)
        tearing_fill_in_turn(&f);
    return (struct tearing_rows){ f.rows, f.row_count, length_of(&f), is_least };
}

struct tearing_rows tearing_fill(struct arena *a, const struct tearing_kind *kinds, size_t count, double width_mm,
                                 double extra_mm)
{
    return fill(a, kinds, count, width_mm, extra_mm, MOST_STEPS);
}

/* How much of the length the strips that were filled along it take. */
static double reach_of(const struct tearing_rows *rows)
{
    double mm = 0;
    for (size_t i = 0; i < rows->row_count; i++)
        mm = fmax(mm, rows->rows[i].used_mm);
    return mm;
}

/* Whether there is room across for what needs that length. */
static bool has_room(const struct tearing_kind *turned, size_t count, double length_mm, double width_mm,
                     double extra_mm)
{
    struct arena *scratch = base_arena_create();
    bool ok = fill(scratch, turned, count, length_mm, extra_mm, ALONG_STEPS).length_mm <= width_mm + TEARING_SLACK_MM;
    base_arena_destroy(scratch);
    return ok;
}

bool tearing_fill_along(struct arena *a, const struct tearing_kind *kinds, size_t count, double width_mm,
                        double extra_mm, double *length_mm, struct tearing_rows *out)
{
    struct tearing_kind *turned = base_arena_alloc(a, count, sizeof *turned);
    double least = 0, most = 0;
    for (size_t i = 0; i < count; i++) {
        turned[i] = (struct tearing_kind){ kinds[i].height_mm, kinds[i].width_mm, kinds[i].count };
        least = fmax(least, kinds[i].height_mm);
        most += kinds[i].height_mm * kinds[i].count;
    }
    if (!has_room(turned, count, most, width_mm, extra_mm))
        return false;
    if (has_room(turned, count, least, width_mm, extra_mm))
        most = least;
    while (most - least > FINE_MM) {
        double middle = least + (most - least) / 2;
        if (has_room(turned, count, middle, width_mm, extra_mm))
            most = middle;
        else
            least = middle;
    }
    *out = fill(a, turned, count, most, extra_mm, ALONG_STEPS);
    *length_mm = reach_of(out);
    return true;
}
