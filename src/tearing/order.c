/* The strips in the order they are torn, round what is faulty. */
#include "tearing/needs.h"

#include <math.h>

/* Lengths of the cloth, from its longest end, in which a fault lies. */
struct stretch {
    double from_mm, to_mm;
};

static const struct stretch nothing_ahead = { INFINITY, INFINITY };

/* The first fault that ends past that place. */
static struct stretch next_fault(const struct cloth *cloth, double from_mm)
{
    struct stretch next = nothing_ahead;
    struct arena *scratch = base_arena_create();
    for (size_t i = 0; i < cloth->fault_count; i++) {
        struct geometry_box box = geometry_path_box(cloth_washed_path(scratch, cloth, cloth->faults[i].path));
        if (box.max.x > from_mm + TEARING_SLACK_MM && box.min.x < next.from_mm)
            next = (struct stretch){ box.min.x, box.max.x };
    }
    base_arena_destroy(scratch);
    return next;
}

/* Where it ends, from the squared end. */
static double past(const struct tearing_task *task, struct stretch fault)
{
    return fault.to_mm - task->off_square_mm;
}

/* The first place from the squared end where so much cloth is without fault. */
static double first_free(const struct tearing_task *task, double length_mm)
{
    double at = 0;
    struct stretch fault = next_fault(task->cloth, task->off_square_mm);
    while (fault.from_mm < task->off_square_mm + at + length_mm) {
        at = past(task, fault);
        fault = next_fault(task->cloth, task->off_square_mm + at);
    }
    return at;
}

static struct tearing_kind kind_of(const struct tearing_need *need)
{
    return (struct tearing_kind){ need->width_mm, need->height_mm, need->count };
}

static struct tearing_strip strip_of(const struct tearing_row *row, double from_mm, double margin_mm)
{
    return (struct tearing_strip){ .from_mm = from_mm,
                                   .to_mm = from_mm + row->height_mm + 2 * margin_mm,
                                   .size_mm = row->height_mm,
                                   .used_mm = row->used_mm,
                                   .spots = row->spots,
                                   .spot_count = row->spot_count };
}

/* The highest row that is not torn yet and ends before the fault; the count of rows when there is none. */
static size_t highest_before(const struct tearing_rows *rows, const bool *torn, double room_mm, double extra_mm)
{
    size_t i = 0;
    while (i < rows->row_count && (torn[i] || rows->rows[i].height_mm + extra_mm > room_mm + TEARING_SLACK_MM))
        i++;
    return i;
}

/* One below the other from the squared end; where a fault is in the way the cloth up to its end is left out. Returns
 * where the last ends. */
static double lay_across(const struct tearing_task *task, const struct tearing_rows *rows, struct tearing_strip *strips,
                         bool *torn)
{
    double at = 0, extra = 2 * task->margin_mm;
    for (size_t done = 0; done < rows->row_count;) {
        struct stretch fault = next_fault(task->cloth, task->off_square_mm + at);
        size_t row = highest_before(rows, torn, fault.from_mm - task->off_square_mm - at, extra);
        if (row == rows->row_count) {
            at = past(task, fault);
            continue;
        }
        torn[row] = true;
        strips[done] = strip_of(&rows->rows[row], at, task->margin_mm);
        at = strips[done++].to_mm;
    }
    return at;
}

static bool lay_along(struct arena *a, struct tearing_plan *plan, const struct tearing_kind *kinds)
{
    const struct tearing_task *task = plan->task;
    double extra = 2 * task->margin_mm, length, at = 0;
    struct tearing_rows rows;
    if (!tearing_fill_along(a, kinds, plan->need_count, cloth_usable_width(task->cloth), extra, &length, &rows))
        return false;
    struct tearing_strip *strips = base_arena_alloc(a, rows.row_count, sizeof *strips);
    for (size_t i = 0; i < rows.row_count; i++) {
        strips[i] = strip_of(&rows.rows[i], at, task->margin_mm);
        at = strips[i].to_mm;
    }
    plan->start_mm = first_free(task, length + extra);
    plan->strips = strips;
    plan->strip_count = rows.row_count;
    plan->strip_length_mm = length;
    plan->length_mm = task->off_square_mm + plan->start_mm + length + extra;
    plan->is_least = rows.is_least;
    return true;
}

bool tearing_lay_strips(struct arena *a, struct tearing_plan *plan)
{
    const struct tearing_task *task = plan->task;
    struct tearing_kind *kinds = base_arena_alloc(a, plan->need_count, sizeof *kinds);
    for (size_t i = 0; i < plan->need_count; i++)
        kinds[i] = kind_of(&plan->needs[i]);
    plan->start_mm = 0;
    if (plan->along)
        return lay_along(a, plan, kinds);
    plan->strip_length_mm = cloth_usable_width(task->cloth);
    struct tearing_rows rows = tearing_fill(a, kinds, plan->need_count, plan->strip_length_mm, 2 * task->margin_mm);
    struct tearing_strip *strips = base_arena_alloc(a, rows.row_count, sizeof *strips);
    bool *torn = base_arena_alloc(a, rows.row_count, sizeof *torn);
    plan->length_mm = task->off_square_mm + lay_across(task, &rows, strips, torn);
    plan->strips = strips;
    plan->strip_count = rows.row_count;
    plan->is_least = rows.is_least;
    return true;
}
