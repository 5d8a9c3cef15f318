/* How true a table is, all over the light: lines along which a place may be off by as much, and hatching where no cross
 * was read. */
#include "scene/parts.h"

#include <math.h>

#define LABEL 0.8 /* of the page's letters */
#define HATCH_MM 30.0
#define HATCH_DASH_MM 24.0
#define HATCH_LEVEL 0.35
#define LINE_PX 2.0
#define EDGE_MM 25.0        /* a label stands in from the frame's edges */
#define APART_MM 60.0       /* from label to label */
#define SAME_APART_MM 350.0 /* … along one line */

enum { COLUMNS = 64, ROWS = 36, MOST_LABELS = 128 };

/* By how much a place may be off along a line, mm. */
static const double levels[] = { 0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.7, 1, 1.5, 2, 3, 5, 7, 10, 20, 50, 100 };

enum { LEVELS = sizeof levels / sizeof levels[0] };

/* The doubt at the corners of a grid of cells over the frame. */
struct field {
    const struct geometry_map *map;
    double mm[ROWS + 1][COLUMNS + 1];
};

static struct px_pt corner_px(const struct field *f, int column, int row)
{
    return (struct px_pt){ f->map->width_px * (double)column / COLUMNS, f->map->height_px * (double)row / ROWS };
}

static const struct field *field_of(struct arena *a, const struct geometry_map *map,
                                    const struct calibration_doubt *doubt, enum scene_doubt_of of)
{
    struct field *f = base_arena_alloc(a, 1, sizeof *f);
    f->map = map;
    for (int row = 0; row <= ROWS; row++)
        for (int column = 0; column <= COLUMNS; column++)
            f->mm[row][column] =
                (of == SCENE_DOUBT_OF_LINES ? calibration_doubt_hundred_mm
                                            : calibration_doubt_place_mm)(map, doubt, corner_px(f, column, row));
    return f;
}

static void draw_line(const struct scene_canvas *c, vec2 from, vec2 to, double width, double level)
{
    struct px_path line = { { base_arena_alloc(c->a, 2, sizeof(vec2)), 2, false } };
    line.path.points[0] = from;
    line.path.points[1] = to;
    paint_px_stroke(&c->out->px, line, (struct paint_pen){ .width = width },
                    (struct paint_ink){ c->view->look.chalks->main, level });
}

/* Where a level crosses the sides of a triangle of the grid: two places, or none. (Of triangles no crossing is
 * ambiguous, as in marching squares it may be.) */
static bool crossing(const struct px_pt px[3], const double mm[3], double level, vec2 ends[2])
{
    int count = 0;
    for (int i = 0; i < 3 && count < 2; i++) {
        int j = (i + 1) % 3;
        if ((mm[i] < level) == (mm[j] < level))
            continue;
        double t = (level - mm[i]) / (mm[j] - mm[i]);
        ends[count++] = vec2_lerp((vec2){ px[i].x, px[i].y }, (vec2){ px[j].x, px[j].y }, t);
    }
    return count == 2;
}

/* Where a line of equal doubt is labelled. */
struct label {
    double level;
    vec2 px;
};

struct labels {
    struct label items[MOST_LABELS];
    int count;
};

/* A line is labelled again and again, but no two labels of it, and none of any two lines, stand close together. */
static void add_label(struct labels *to, double level, const vec2 ends[2], const struct geometry_map *map,
                      double px_per_mm)
{
    vec2 at = vec2_lerp(ends[0], ends[1], 0.5);
    double in = EDGE_MM * px_per_mm;
    bool inside = at.x > in && at.y > in && at.x < map->width_px - in && at.y < map->height_px - in;
    if (to->count == MOST_LABELS || !inside)
        return;
    for (int i = 0; i < to->count; i++) {
        double apart = (to->items[i].level == level ? SAME_APART_MM : APART_MM) * px_per_mm;
        if (vec2_length(vec2_sub(to->items[i].px, at)) < apart)
            return;
    }
    to->items[to->count++] = (struct label){ level, at };
}

static void draw_level(const struct scene_canvas *c, const struct field *f, double level, struct labels *labels)
{
    static const int halves[2][3][2] = { { { 0, 0 }, { 1, 0 }, { 0, 1 } }, { { 1, 1 }, { 0, 1 }, { 1, 0 } } };
    for (int i = 0; i < 2 * ROWS * COLUMNS; i++) {
        int column = i / 2 % COLUMNS, row = i / 2 / COLUMNS;
        struct px_pt px[3];
        double mm[3];
        vec2 ends[2];
        for (int k = 0; k < 3; k++) {
            int x = column + halves[i % 2][k][0], y = row + halves[i % 2][k][1];
            px[k] = corner_px(f, x, y);
            mm[k] = f->mm[y][x];
        }
        if (!crossing(px, mm, level, ends))
            continue;
        draw_line(c, ends[0], ends[1], LINE_PX, 1);
        add_label(labels, level, ends, f->map, c->page.px_per_mm);
    }
}

static void draw_label(const struct scene_canvas *c, const struct label *label)
{
    vec2 at = scene_page_at(&c->page, (struct px_pt){ label->px.x, label->px.y });
    double cap = LABEL * scene_page_cap(c);
    char text[UNITS_TEXT];
    units_print_decimal(text, label->level, 3);
    double half = scene_words_width(c, text, cap) / 2 + 0.4 * cap;
    scene_page_box(c, at.x - half, at.y - 0.9 * cap, at.x + half, at.y + 0.9 * cap, (struct paint_ink){ 0, 0 });
    scene_page_words(c, text, SCENE_MIDDLE, at.x, at.y - 0.5 * cap, cap, scene_letter_ink(&c->view->look));
}

static bool is_in_frame(const struct geometry_map *map, vec2 px)
{
    return px.x >= 0 && px.y >= 0 && px.x <= map->width_px && px.y <= map->height_px;
}

/* Dashes at 45° wherever nothing was measured. */
static void hatch(const struct scene_canvas *c, const struct geometry_map *map, const struct calibration_doubt *doubt)
{
    double dash = HATCH_DASH_MM * c->page.px_per_mm, apart = HATCH_MM * c->page.px_per_mm * sqrt(2);
    vec2 along = { sqrt(0.5), sqrt(0.5) };
    for (double from = -map->height_px; from < map->width_px; from += apart)
        for (double s = 0; s < map->height_px * sqrt(2); s += 2 * dash) {
            vec2 start = vec2_add((vec2){ from, 0 }, vec2_scale(along, s));
            vec2 end = vec2_add(start, vec2_scale(along, dash)), mid = vec2_lerp(start, end, 0.5);
            if (is_in_frame(map, mid) && !calibration_doubt_is_measured(doubt, (struct px_pt){ mid.x, mid.y }))
                draw_line(c, start, end, SCENE_LEAST_STROKE_PX, HATCH_LEVEL);
        }
}

void scene_draw_doubt(const struct scene_canvas *c, const struct geometry_map *map,
                      const struct calibration_doubt *doubt, enum scene_doubt_of of)
{
    const struct field *f = field_of(c->a, map, doubt, of);
    struct labels labels = { .count = 0 };
    hatch(c, map, doubt);
    for (int i = 0; i < LEVELS; i++)
        draw_level(c, f, levels[i], &labels);
    for (int i = 0; i < labels.count; i++)
        draw_label(c, &labels.items[i]);
}
