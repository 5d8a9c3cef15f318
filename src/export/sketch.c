#include "export/sketch.h"

#include "export/xml.h"

#include <math.h>

#define HEAD_MM 1.7 /* of an arrow, on paper, and so are all below */
#define HEAD_HALF_WIDE_MM 0.55
#define NOTCH_MM 1.4
#define DRILL_MM 0.7
#define BUTTON_MM 0.6 /* half a cross */
#define FOLD_BAR_INSIDE_MM 2.2
#define FOLD_BAR_FROM 0.2 /* of the fold's length, and as far from its other end */

/* The way from piece mm to the page. */
struct sketch {
    struct base_buffer *out;
    const struct draft_piece *piece;
    double scale, across; /* across: -1 when mirrored */
    vec2 middle, on_page;
};

static vec2 as_vec2(struct piece_pt p)
{
    return (vec2){ p.x, p.y };
}

static vec2 placed(const struct sketch *s, vec2 p)
{
    return (vec2){ s->on_page.x + s->across * (p.x - s->middle.x) / s->scale,
                   s->on_page.y - (p.y - s->middle.y) / s->scale };
}

static struct export_room size_of(struct geometry_path path)
{
    struct geometry_box box = geometry_path_box(path);
    return (struct export_room){ box.min.x, box.min.y, box.max.x - box.min.x, box.max.y - box.min.y };
}

double export_sketch_scale(const struct draft_piece *piece, double width, double height)
{
    static const double scales[] = { 5, 8, 10, 12, 15, 20, 25, 30, 40, 50 };
    enum { SCALES = sizeof scales / sizeof scales[0] };
    struct export_room size = size_of(piece->cut.path);
    double least = fmax(size.width / width, size.height / height);
    for (int i = 0; i < SCALES; i++)
        if (scales[i] >= least)
            return scales[i];
    double scale = scales[SCALES - 1];
    while (scale < least)
        scale *= 2;
    return scale;
}

static void draw_path(const struct sketch *s, struct geometry_path path, const char *class)
{
    base_buffer_print(s->out, "<path class=\"%s\" d=\"", class);
    for (size_t i = 0; i < path.count; i++) {
        vec2 p = placed(s, path.points[i]);
        base_buffer_print(s->out, "%s%.4f %.4f", i ? " " : "M", p.x, p.y);
    }
    base_buffer_print(s->out, "%s\"/>\n", path.closed ? "Z" : "");
}

static void draw_line(const struct sketch *s, vec2 from, vec2 to, const char *class)
{
    vec2 ends[] = { from, to };
    draw_path(s, (struct geometry_path){ ends, 2, false }, class);
}

/* A head at `tip` that points away from `from`. */
static void draw_head(const struct sketch *s, vec2 from, vec2 tip)
{
    vec2 at = placed(s, tip), way = vec2_unit(vec2_sub(at, placed(s, from)));
    vec2 foot = vec2_sub(at, vec2_scale(way, HEAD_MM)), beside = vec2_scale(vec2_right(way), HEAD_HALF_WIDE_MM);
    vec2 a = vec2_add(foot, beside), b = vec2_sub(foot, beside);
    base_buffer_print(s->out, "<path class=\"head\" d=\"M%.3f %.3f %.3f %.3f %.3f %.3fZ\"/>\n", at.x, at.y, a.x, a.y,
                      b.x, b.y);
}

static void draw_grain(const struct sketch *s)
{
    vec2 a = as_vec2(s->piece->grain[0]), b = as_vec2(s->piece->grain[1]);
    draw_line(s, a, b, "mark");
    draw_head(s, a, b);
    draw_head(s, b, a);
}

/* The fold itself, and the bar whose bent ends point at it. The inside lies to the left of the outline. */
static void draw_fold(const struct sketch *s)
{
    vec2 from = as_vec2(s->piece->fold[0]), to = as_vec2(s->piece->fold[1]);
    vec2 inward = vec2_scale(vec2_right(vec2_unit(vec2_sub(to, from))), -FOLD_BAR_INSIDE_MM * s->scale);
    vec2 a = vec2_lerp(from, to, FOLD_BAR_FROM), b = vec2_lerp(from, to, 1 - FOLD_BAR_FROM);
    vec2 bar[] = { a, vec2_add(a, inward), vec2_add(b, inward), b };
    draw_line(s, from, to, "fold");
    draw_path(s, (struct geometry_path){ bar, 4, false }, "mark");
    draw_head(s, bar[1], a);
    draw_head(s, bar[2], b);
}

static void draw_marks(const struct sketch *s)
{
    const struct draft_piece *piece = s->piece;
    for (size_t i = 0; i < piece->notch_count; i++)
        for (size_t k = 0; k < piece->notches[i].place_count; k++) {
            const struct draft_notch_place *place = &piece->notches[i].places[k];
            vec2 at = as_vec2(place->at);
            draw_line(s, at, vec2_add(at, vec2_scale(place->inward, NOTCH_MM * s->scale)), "mark");
        }
    for (size_t i = 0; i < piece->drill_mark_count; i++) {
        vec2 at = placed(s, as_vec2(piece->drill_marks[i]));
        base_buffer_print(s->out, "<circle class=\"mark\" cx=\"%.3f\" cy=\"%.3f\" r=\"%g\"/>\n", at.x, at.y, DRILL_MM);
    }
    for (size_t i = 0; i < piece->button_count; i++)
        for (int up = -1; up <= 1; up += 2) {
            vec2 at = as_vec2(piece->buttons[i]), arm = { BUTTON_MM * s->scale, up * BUTTON_MM * s->scale };
            draw_line(s, vec2_sub(at, arm), vec2_add(at, arm), "mark");
        }
    for (size_t i = 0; i < piece->line_count; i++)
        draw_line(s, as_vec2(piece->lines[i].ends[0]), as_vec2(piece->lines[i].ends[1]),
                  piece->lines[i].kind == PATTERN_LINE_FOLD ? "fold" : "mark");
}

void export_sketch(struct base_buffer *out, const struct draft_piece *piece, bool mirrored, struct export_room room,
                   double scale)
{
    struct export_room size = size_of(piece->cut.path);
    struct sketch s = { .out = out,
                        .piece = piece,
                        .scale = scale,
                        .across = mirrored ? -1 : 1,
                        .middle = { size.x + size.width / 2, size.y + size.height / 2 },
                        .on_page = { room.x + room.width / 2, room.y + room.height / 2 } };
    base_buffer_print(out, "<g class=\"sketch\"><title>%s, 1 : %g</title>\n", export_xml_text(out->a, piece->name),
                      scale);
    draw_path(&s, piece->seam_line.path, "seam");
    draw_path(&s, piece->cut_line.path, "cut");
    if (piece->has_fold)
        draw_fold(&s);
    draw_grain(&s);
    draw_marks(&s);
    base_buffer_print(out, "</g>\n");
}
