#include "calibration/begin.h"

#include "calibration/move.h"
#include "calibration/start.h"

enum { LEAST_DIRECT = 4 };

/* The crosses of one place of the mat: in the picture, and by the rulings. */
struct sheet {
    vec2 *px, *at;
    size_t count;
};

static struct sheet sheet_of(struct arena *scratch, const struct calibration_readings *readings, int place)
{
    struct sheet s = { .count = 0 };
    s.px = base_arena_alloc(scratch, readings->count, sizeof *s.px);
    s.at = base_arena_alloc(scratch, readings->count, sizeof *s.at);
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *r = &readings->items[i];
        if (r->kind == CALIBRATION_DISTANCE || r->place != place)
            continue;
        s.px[s.count] = (vec2){ r->px.x, r->px.y };
        s.at[s.count++] = (vec2){ r->at.x, r->at.y };
    }
    return s;
}

static double half_diagonal_px(const struct calibration_readings *readings)
{
    double w = readings->width_px, h = readings->height_px;
    return 0.5 * sqrt(w * w + h * h);
}

/* The move that lays a place of the mat where the map puts its crosses. */
static struct calibration_move laid_on(struct arena *scratch, const struct geometry_map *map, const struct sheet *sheet)
{
    vec2 *to = base_arena_alloc(scratch, sheet->count, sizeof *to);
    for (size_t i = 0; i < sheet->count; i++) {
        struct table_pt at = geometry_map_to_table(map, (struct px_pt){ sheet->px[i].x, sheet->px[i].y });
        to[i] = (vec2){ at.x, at.y };
    }
    return calibration_move_fitting(sheet->at, to, sheet->count);
}

static struct calibration_move inverse_of(struct calibration_move move)
{
    double c = cos(move.turn_rad), s = sin(move.turn_rad);
    vec2 t = move.shift_mm;
    return (struct calibration_move){ false, -move.turn_rad, { -(c * t.x + s * t.y), s * t.x - c * t.y } };
}

/* Moves the map so that the mat's first place lies at zero, and lays the others on it. */
static void lay_places(struct arena *scratch, const struct calibration_model *model, struct calibration_unknowns *at)
{
    struct sheet first = sheet_of(scratch, model->readings, 0);
    at->map = calibration_move_map(&at->map, inverse_of(laid_on(scratch, &at->map, &first)));
    for (size_t p = 1; p < model->places; p++) {
        struct sheet sheet = sheet_of(scratch, model->readings, (int)p);
        struct calibration_move move = laid_on(scratch, &at->map, &sheet);
        at->pose[p] = (struct calibration_pose){ move.shift_mm, move.turn_rad };
    }
}

bool calibration_begin_direct(struct arena *scratch, const struct calibration_model *model,
                              struct calibration_unknowns *out)
{
    const struct calibration_readings *readings = model->readings;
    struct sheet most = { .count = 0 };
    for (size_t p = 0; p < model->places; p++) {
        struct sheet sheet = sheet_of(scratch, readings, (int)p);
        most = sheet.count > most.count ? sheet : most;
    }
    if (most.count < LEAST_DIRECT)
        return false;
    double rho = half_diagonal_px(readings);
    vec2 *from = base_arena_alloc(scratch, most.count, sizeof *from);
    for (size_t i = 0; i < most.count; i++)
        from[i] =
            (vec2){ (most.px[i].x - 0.5 * readings->width_px) / rho, (most.px[i].y - 0.5 * readings->height_px) / rho };
    *out = (struct calibration_unknowns){ .map = { readings->width_px, readings->height_px, { 0 } } };
    if (!calibration_start(scratch, from, most.at, most.count, out->map.term))
        return false;
    if (model->places > 1)
        lay_places(scratch, model, out);
    return true;
}

/* mm of table for each half diagonal of picture: of all that lies between two crosses of one place, or was taped. */
static double scale_mm(struct arena *scratch, const struct calibration_model *model)
{
    const struct calibration_readings *readings = model->readings;
    double mm = 0, px = 0;
    for (size_t i = 0; i < readings->count; i++) {
        const struct calibration_reading *r = &readings->items[i];
        if (r->kind != CALIBRATION_DISTANCE)
            continue;
        mm += r->distance_mm;
        px += vec2_length((vec2){ r->other_px.x - r->px.x, r->other_px.y - r->px.y });
    }
    for (size_t p = 0; p < model->places; p++) {
        struct sheet sheet = sheet_of(scratch, readings, (int)p);
        for (size_t i = 1; i < sheet.count; i++) {
            mm += vec2_length(vec2_sub(sheet.at[i], sheet.at[i - 1]));
            px += vec2_length(vec2_sub(sheet.px[i], sheet.px[i - 1]));
        }
    }
    return px > 0 ? mm / px * half_diagonal_px(readings) : 0;
}

/* What floats: the first cross to zero, the line to the other along x. */
static void lay_floating(const struct calibration_model *model, struct calibration_unknowns *at)
{
    const struct calibration_reading *r = &model->readings->items[0];
    struct table_pt zero = geometry_map_to_table(&at->map, r->px), end = geometry_map_to_table(&at->map, r->other_px);
    struct calibration_move to_zero = { .shift_mm = { -zero.x, -zero.y } };
    struct calibration_move level = { .turn_rad = -atan2(end.y - zero.y, end.x - zero.x) };
    at->map = calibration_move_map(&at->map, to_zero);
    at->map = calibration_move_map(&at->map, level);
}

bool calibration_begin_plain(struct arena *scratch, const struct calibration_model *model, vec2 tilt,
                             struct calibration_unknowns *out)
{
    double scale = scale_mm(scratch, model);
    if (!(scale > 0))
        return false;
    *out = (struct calibration_unknowns){
        .map = { model->readings->width_px,
                 model->readings->height_px,
                 { [GEOMETRY_H00] = scale, [GEOMETRY_H11] = -scale, [GEOMETRY_H20] = tilt.x, [GEOMETRY_H21] = tilt.y } }
    };
    if (model->floats)
        lay_floating(model, out);
    else
        lay_places(scratch, model, out);
    return true;
}
