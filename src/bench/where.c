#include "bench/where.h"

#include "form/parts.h"

#include <math.h>

double bench_where_height(const struct bench_lying *lying, double width, double most)
{
    double length = bench_length_laid(lying);
    return length > 0 ? fmin(most, width * lying->task.spread.width_mm / length) : 0;
}

/* Cloth mm to u: its length to the right, its near edge below. */
struct small {
    struct form_picture *p;
    const struct bench_lying *lying;
    struct bench_pt corner;
    double scale;
};

static void draw_item(const struct small *s, size_t item, bool bright, bool is_cut)
{
    struct geometry_path path = lay_outline(s->p->a, &s->lying->task, item, &s->lying->places[item]).path;
    struct geometry_box box = geometry_path_box(path);
    struct bench_pt *points = base_arena_alloc(s->p->a, path.count, sizeof *points);
    for (size_t i = 0; i < path.count; i++)
        points[i] =
            (struct bench_pt){ s->corner.x + s->scale * path.points[i].x, s->corner.y - s->scale * path.points[i].y };
    form_fill(s->p, points, path.count, bright ? FORM_WASH : is_cut ? FORM_CLOTH : FORM_SHEET);
    form_stroke(s->p, points, path.count, true, bright ? 2.2 : 1, bright ? FORM_BLUE : is_cut ? FORM_LINE : FORM_INK);
    struct bench_pt middle = { s->corner.x + s->scale * (box.min.x + box.max.x) / 2,
                               s->corner.y - s->scale * (box.min.y + box.max.y) / 2 };
    double side = fmin(12, 0.7 * s->scale * fmin(box.max.x - box.min.x, box.max.y - box.min.y));
    if (is_cut && side >= 5)
        form_tick_mark(s->p, middle, side, 2, FORM_GREEN);
}

void bench_draw_where(struct form_picture *p, struct bench_box box, const struct bench_lying *lying, int cut,
                      const struct app_cloth_progress *progress)
{
    const struct lay_task *task = &lying->task;
    double length = bench_length_laid(lying);
    struct small s = {
        p, lying, { box.x, box.y + box.height }, fmin(box.width / length, box.height / task->spread.width_mm)
    };
    bool known = progress && progress->item_count == task->item_count;
    form_fill_box(p,
                  (struct bench_box){ box.x, box.y + box.height - s.scale * task->spread.width_mm, s.scale * length,
                                      s.scale * task->spread.width_mm },
                  FORM_CLOTH);
    for (int bright = 0; bright < 2; bright++) /* it lies over its neighbours' lines */
        for (size_t i = 0; i < task->item_count; i++)
            if (lying->places[i].is_laid && (task->items[i].cut == cut) == bright)
                draw_item(&s, i, bright, known && progress->done[i]);
}
