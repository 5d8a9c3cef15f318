#include "bench/light_picture.h"

#include "bench/contour.h"
#include "units/length.h"

#include <math.h>

static const double air = 8, hatch_step = 13, mark_room = 26;

/* Places of the frame at which the doubt is reckoned, edges included. */
enum { COLUMNS = 33, ROWS = 21, SIDE_STEPS = 16, HATCH_STEPS = 160, MOST_LEVELS = 3 };

/* The doubts at which a line is drawn, mm: steps that a person counts in (own choice, no source). */
static const double levels[] = { 0.1, 0.2, 0.3, 0.5, 0.7, 1, 1.5, 2, 3, 5, 7, 10 };

enum { LEVELS = sizeof levels / sizeof levels[0] };

/* Table mm to u: x to the right, away upwards. */
struct light {
    struct form_picture *p;
    const struct calibration_table *table;
    double scale, left, bottom;
    vec2 least;
};

static struct bench_pt seen(const struct light *l, struct table_pt at)
{
    return (struct bench_pt){ l->left + l->scale * (at.x - l->least.x), l->bottom - l->scale * (at.y - l->least.y) };
}

static struct bench_pt seen_px(const struct light *l, double u, double v)
{
    return seen(l, geometry_map_to_table(&l->table->map, (struct px_pt){ u, v }));
}

/* --- mat and light ----------------------------------------------------------------------------------------------- */

static struct geometry_box shown_of(const struct calibration_table *table, struct geometry_path frame)
{
    struct geometry_box box = geometry_path_box(frame);
    box.min = (vec2){ fmin(box.min.x, 0), fmin(box.min.y, 0) };
    box.max = (vec2){ fmax(box.max.x, table->mat.width_mm), fmax(box.max.y, table->mat.height_mm) };
    return box;
}

static struct light light_of(struct form_picture *p, struct bench_box box, const struct calibration_table *table,
                             struct geometry_path frame)
{
    struct geometry_box shown = shown_of(table, frame);
    double wide = shown.max.x - shown.min.x, high = shown.max.y - shown.min.y;
    double scale = fmin((box.width - 2 * air) / wide, (box.height - 2 * air) / high);
    return (struct light){ .p = p,
                           .table = table,
                           .scale = scale,
                           .left = box.x + (box.width - scale * wide) / 2,
                           .bottom = box.y + (box.height + scale * high) / 2,
                           .least = shown.min };
}

static void draw_mat(const struct light *l)
{
    const struct calibration_mat *mat = &l->table->mat;
    struct bench_pt far = seen(l, (struct table_pt){ 0, mat->height_mm });
    form_fill_box(l->p, (struct bench_box){ far.x, far.y, l->scale * mat->width_mm, l->scale * mat->height_mm },
                  FORM_SELVEDGE);
}

static void draw_frame(const struct light *l, struct geometry_path frame)
{
    struct bench_pt *points = base_arena_alloc(l->p->a, frame.count, sizeof *points);
    for (size_t i = 0; i < frame.count; i++)
        points[i] = seen(l, (struct table_pt){ frame.points[i].x, frame.points[i].y });
    form_stroke(l->p, points, frame.count, true, 2, FORM_LINE);
}

/* --- what was not measured --------------------------------------------------------------------------------------- */

static bool is_hatched(const struct light *l, double u, double v)
{
    const struct geometry_map *map = &l->table->map;
    return u >= 0 && v >= 0 && u <= map->width_px && v <= map->height_px &&
           !calibration_doubt_is_measured(&l->table->doubt, (struct px_pt){ u, v });
}

/* One line of the hatching, from the frame's upper edge down to the right; where it is not measured it is drawn. */
static void draw_hatch(const struct light *l, double from_u, double fall)
{
    const struct geometry_map *map = &l->table->map;
    double begun = -1;
    for (int i = 0; i <= HATCH_STEPS; i++) {
        double share = (double)i / HATCH_STEPS, v = share * map->height_px, u = from_u + fall * share;
        bool on = i < HATCH_STEPS && is_hatched(l, u, v);
        if (on && begun < 0)
            begun = share;
        if (!on && begun >= 0) {
            struct bench_pt ends[] = { seen_px(l, from_u + fall * begun, begun * map->height_px), seen_px(l, u, v) };
            form_stroke(l->p, ends, 2, false, 1, FORM_LINE);
            begun = -1;
        }
    }
}

static void draw_hatching(const struct light *l)
{
    const struct geometry_map *map = &l->table->map;
    double step = hatch_step * M_SQRT2 / l->scale / geometry_map_mm_per_px(map), fall = map->height_px;
    for (double u = -fall; u < map->width_px; u += step)
        draw_hatch(l, u, fall);
}

/* --- lines of equal doubt ---------------------------------------------------------------------------------------- */

static void reckon(const struct calibration_table *table, double *doubts)
{
    for (int row = 0; row < ROWS; row++)
        for (int column = 0; column < COLUMNS; column++)
            doubts[row * COLUMNS + column] =
                calibration_doubt_place_mm(&table->map, &table->doubt,
                                           (struct px_pt){ column * table->map.width_px / (COLUMNS - 1.0),
                                                           row * table->map.height_px / (ROWS - 1.0) });
}

/* The doubt beside its line, in the middle of it, on a patch of the page. */
static void draw_doubt(const struct light *l, struct bench_pt at, double level_mm)
{
    char text[UNITS_TEXT];
    units_print_decimal(text, level_mm, 1);
    double drop = form_drop(FORM_SMALL), high = form_style(FORM_SMALL)->size_u;
    form_fill_box(l->p, (struct bench_box){ at.x - mark_room / 2, at.y - high / 2, mark_room, high }, FORM_WELL);
    form_text(l->p, (struct bench_pt){ at.x, at.y + drop }, FORM_MIDDLE, FORM_SMALL, FORM_INK, mark_room,
              base_arena_copy_text(l->p->a, text));
}

/* Each next line has its number farther along, beside that of the line before. */
static void draw_line(const struct light *l, const struct bench_contour *line, double level_mm, int nth)
{
    const struct geometry_map *map = &l->table->map;
    struct bench_pt *points = base_arena_alloc(l->p->a, line->count, sizeof *points);
    for (size_t i = 0; i < line->count; i++)
        points[i] = seen_px(l, line->points[i].x * map->width_px / (COLUMNS - 1.0),
                            line->points[i].y * map->height_px / (ROWS - 1.0));
    form_stroke(l->p, points, line->count, line->closed, 1.2, FORM_INK_2);
    if (line->count > COLUMNS / 2)
        draw_doubt(l, points[line->count * (size_t)(nth + 1) / (MOST_LEVELS + 1)], level_mm);
}

/* The highest levels that the picture has lie at its corners; the lowest tells most of where she cuts. */
static void draw_lines(const struct light *l)
{
    double doubts[ROWS * COLUMNS];
    reckon(l->table, doubts);
    for (int i = 0, drawn = 0; i < LEVELS && drawn < MOST_LEVELS; i++) {
        struct bench_contours lines = bench_contours_of(l->p->a, doubts, COLUMNS, ROWS, levels[i]);
        for (size_t j = 0; j < lines.count; j++)
            draw_line(l, &lines.items[j], levels[i], drawn);
        drawn += lines.count > 0;
    }
}

void bench_draw_light(struct form_picture *p, struct bench_box box, const struct calibration_table *table)
{
    struct geometry_path frame = geometry_map_frame(p->a, &table->map, SIDE_STEPS).path;
    struct light l = light_of(p, box, table, frame);
    form_fill_box(p, box, FORM_WELL);
    draw_mat(&l);
    if (table->has_doubt) {
        draw_hatching(&l);
        draw_lines(&l);
    }
    draw_frame(&l, frame);
    form_frame_box(p, box, 1, FORM_HAIR);
}
