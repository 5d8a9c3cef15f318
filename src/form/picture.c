#include "form/picture.h"

#include "base/text.h"

#include <math.h>
#include <string.h>

enum { LEAST_WIDTH = 1024, LEAST_HEIGHT = 600, CIRCLE_SIDES = 48 };

static const double dash_on = 6, dash_off = 4;

double form_scale(int width, int height, int steps)
{
    double most = fmin((double)width / LEAST_WIDTH, (double)height / LEAST_HEIGHT);
    return fmax(1, (floor(4 * most) - steps) / 4);
}

struct form_picture form_picture_create(struct arena *a, const struct form_type *type, int width, int height,
                                        double scale, bool night)
{
    struct form_picture p = { .a = a, .type = type, .scale = scale, .width = width, .height = height, .night = night };
    form_fill_box(&p, (struct bench_box){ 0, 0, form_page_width(&p), form_page_height(&p) }, FORM_SHEET);
    return p;
}

double form_page_width(const struct form_picture *p)
{
    return p->width / p->scale;
}

double form_page_height(const struct form_picture *p)
{
    return p->height / p->scale;
}

static struct form_mark *add(struct form_picture *p, struct form_mark mark)
{
    p->marks = base_arena_grow(p->a, p->marks, &p->cap, p->count + 1, sizeof *p->marks);
    p->marks[p->count] = mark;
    return &p->marks[p->count++];
}

static double whole(const struct form_picture *p, double u)
{
    return floor(u * p->scale + 0.5);
}

static int line_px(const struct form_picture *p, double width)
{
    return (int)fmax(1, whole(p, width));
}

static vec2 px(const struct form_picture *p, struct bench_pt at)
{
    return (vec2){ at.x * p->scale, at.y * p->scale };
}

static void add_box(struct form_picture *p, enum form_colour colour, int left, int top, int right, int bottom)
{
    if (left < right && top < bottom)
        add(p, (struct form_mark){ .shape = FORM_BOX, .colour = colour, .box = { left, top, right, bottom } });
}

static struct form_px_box px_box(const struct form_picture *p, struct bench_box box)
{
    return (struct form_px_box){ (int)whole(p, box.x), (int)whole(p, box.y), (int)whole(p, box.x + box.width),
                                 (int)whole(p, box.y + box.height) };
}

void form_fill_box(struct form_picture *p, struct bench_box box, enum form_colour colour)
{
    struct form_px_box b = px_box(p, box);
    add_box(p, colour, b.left, b.top, b.right, b.bottom);
}

void form_fill_own(struct form_picture *p, struct bench_box box, uint32_t rgb)
{
    struct form_px_box b = px_box(p, box);
    add(p, (struct form_mark){ .shape = FORM_BOX, .colour = FORM_OWN, .own = rgb, .box = b });
}

/* A row of dashes: `on` px, then `off` px, the last cut off at the end. */
static void dash_row(struct form_picture *p, enum form_colour colour, struct form_px_box row, bool across, double on,
                     double off)
{
    int from = across ? row.left : row.top, to = across ? row.right : row.bottom;
    for (double at = from; at < to; at += on + off) {
        int begin = (int)floor(at + 0.5), end = (int)fmin(to, fmax(begin + 1, floor(at + on + 0.5)));
        if (across)
            add_box(p, colour, begin, row.top, end, row.bottom);
        else
            add_box(p, colour, row.left, begin, row.right, end);
    }
}

/* The four sides of a frame, inside its box; no dash: whole. */
static void frame(struct form_picture *p, struct bench_box box, double width, double on, double off,
                  enum form_colour colour)
{
    struct form_px_box b = px_box(p, box);
    int w = line_px(p, width);
    const struct form_px_box sides[] = { { b.left, b.top, b.right, b.top + w },
                                         { b.left, b.bottom - w, b.right, b.bottom },
                                         { b.left, b.top + w, b.left + w, b.bottom - w },
                                         { b.right - w, b.top + w, b.right, b.bottom - w } };
    for (int i = 0; i < 4; i++)
        dash_row(p, colour, sides[i], i < 2, on * p->scale, off * p->scale);
}

void form_frame_box(struct form_picture *p, struct bench_box box, double width, enum form_colour colour)
{
    frame(p, box, width, form_page_width(p) + form_page_height(p), 0, colour);
}

void form_dash_box(struct form_picture *p, struct bench_box box, double width, enum form_colour colour)
{
    frame(p, box, width, dash_on, dash_off, colour);
}

/* The whole pixels of a line along an axis. */
static struct form_px_box line_box(const struct form_picture *p, struct bench_pt from, struct bench_pt to, int w)
{
    double left = fmin(from.x, to.x), right = fmax(from.x, to.x), top = fmin(from.y, to.y), low = fmax(from.y, to.y);
    struct form_px_box b = px_box(p, (struct bench_box){ left, top, right - left, low - top });
    if (b.top == b.bottom) {
        b.top = (int)floor(top * p->scale - w / 2.0 + 0.5);
        b.bottom = b.top + w;
    } else {
        b.left = (int)floor(left * p->scale - w / 2.0 + 0.5);
        b.right = b.left + w;
    }
    return b;
}

void form_dash_line(struct form_picture *p, struct bench_pt from, struct bench_pt to, double width, double on,
                    double off, enum form_colour colour)
{
    struct form_px_box b = line_box(p, from, to, line_px(p, width));
    dash_row(p, colour, b, from.y == to.y, on * p->scale, off * p->scale);
}

void form_line(struct form_picture *p, struct bench_pt from, struct bench_pt to, double width, enum form_colour colour)
{
    struct form_px_box b = line_box(p, from, to, line_px(p, width));
    add_box(p, colour, b.left, b.top, b.right, b.bottom);
}

static struct geometry_path path_of(struct form_picture *p, const struct bench_pt *points, size_t count, bool closed)
{
    struct geometry_path path = { base_arena_alloc(p->a, count, sizeof *path.points), count, closed };
    for (size_t i = 0; i < count; i++)
        path.points[i] = px(p, points[i]);
    return path;
}

void form_fill(struct form_picture *p, const struct bench_pt *points, size_t count, enum form_colour colour)
{
    add(p, (struct form_mark){ .shape = FORM_FILL, .colour = colour, .path = path_of(p, points, count, true) });
}

void form_stroke(struct form_picture *p, const struct bench_pt *points, size_t count, bool closed, double width,
                 enum form_colour colour)
{
    add(p, (struct form_mark){ .shape = FORM_STROKE,
                               .colour = colour,
                               .width_px = fmax(1, width * p->scale),
                               .path = path_of(p, points, count, closed) });
}

static void circle(struct bench_pt out[CIRCLE_SIDES], struct bench_pt middle, double radius)
{
    for (int i = 0; i < CIRCLE_SIDES; i++) {
        double turn = 2 * M_PI * i / CIRCLE_SIDES;
        out[i] = (struct bench_pt){ middle.x + radius * cos(turn), middle.y + radius * sin(turn) };
    }
}

void form_dot(struct form_picture *p, struct bench_pt middle, double radius, enum form_colour colour)
{
    struct bench_pt points[CIRCLE_SIDES];
    circle(points, middle, radius);
    form_fill(p, points, CIRCLE_SIDES, colour);
}

void form_ring(struct form_picture *p, struct bench_pt middle, double radius, double width, enum form_colour colour)
{
    struct bench_pt points[CIRCLE_SIDES];
    circle(points, middle, radius);
    form_stroke(p, points, CIRCLE_SIDES, true, width, colour);
}

void form_text(struct form_picture *p, struct bench_pt at, enum form_align align, enum form_style style,
               enum form_colour colour, double room, const char *text)
{
    if (!text || !*text)
        return;
    add(p, (struct form_mark){ .shape = FORM_TEXT,
                               .colour = colour,
                               .style = style,
                               .align = align,
                               .text = text,
                               .at = { whole(p, at.x), whole(p, at.y) },
                               .room_u = room });
}

/* How many bytes of the text stand in its first line: up to the last blank that still fits, one word at least. */
static size_t first_line(const struct form_type *type, enum form_style style, const char *text, double room)
{
    size_t end = strcspn(text, " ");
    while (text[end] && type->width(type->of, style, text, end + 1 + strcspn(text + end + 1, " ")) <= room)
        end += 1 + strcspn(text + end + 1, " ");
    return end;
}

size_t form_paragraph(struct form_picture *p, struct bench_pt at, enum form_style style, enum form_colour colour,
                      double room, const char *text)
{
    size_t lines = 0;
    while (text && *text) {
        size_t end = first_line(p->type, style, text, room);
        form_text(p, at, FORM_LEFT, style, colour, room, base_arena_copy_bytes(p->a, text, end));
        at.y += form_line_step(style);
        text += end + (text[end] == ' ');
        lines++;
    }
    return lines;
}

size_t form_paragraph_lines(const struct form_picture *p, enum form_style style, double room, const char *text)
{
    size_t lines = 0;
    while (text && *text) {
        size_t end = first_line(p->type, style, text, room);
        text += end + (text[end] == ' ');
        lines++;
    }
    return lines;
}

const char *form_cut_text(struct form_picture *p, enum form_style style, double room, const char *text)
{
    if (!text || form_width(p->type, style, text) <= room)
        return text;
    const char *cut = "";
    for (const char *end = text; *end;) {
        base_text_next(&end);
        const char *longer = base_arena_print(p->a, "%.*s…", (int)(end - text), text);
        if (form_width(p->type, style, longer) > room)
            break;
        cut = longer;
    }
    return cut;
}

void form_text_fit(struct form_picture *p, struct bench_pt at, enum form_align align, enum form_style style,
                   enum form_style smaller, enum form_colour colour, double room, const char *text)
{
    if (text && form_width(p->type, style, text) > room)
        style = smaller;
    form_text(p, at, align, style, colour, room, form_cut_text(p, style, room, text));
}

/* Where a text that is so wide begins, u. */
static double left_of(const struct form_picture *p, const struct form_mark *mark, double width)
{
    double x = mark->at.x / p->scale;
    return mark->align == FORM_LEFT ? x : mark->align == FORM_RIGHT ? x - width : x - width / 2;
}

/* px. */
static struct geometry_box extent_of(const struct form_picture *p, const struct form_mark *mark)
{
    struct form_px_box b = mark->box;
    if (mark->shape == FORM_BOX)
        return (struct geometry_box){ { b.left, b.top }, { b.right, b.bottom } };
    if (mark->shape != FORM_TEXT)
        return geometry_path_box(mark->path);
    double width = form_width(p->type, mark->style, mark->text), left = left_of(p, mark, width);
    double high = form_style(mark->style)->size_u * p->scale;
    return (struct geometry_box){ { left * p->scale, mark->at.y - high },
                                  { (left + width) * p->scale, mark->at.y + 0.3 * high } };
}

bool form_is_free(const struct form_picture *p, size_t from, struct bench_box box)
{
    double right = (box.x + box.width) * p->scale, low = (box.y + box.height) * p->scale;
    bool is_free = true;
    for (size_t i = from; is_free && i < p->count; i++) {
        struct geometry_box e = extent_of(p, &p->marks[i]);
        is_free = e.max.x <= box.x * p->scale || e.min.x >= right || e.max.y <= box.y * p->scale || e.min.y >= low;
    }
    return is_free;
}

static bool is_too_wide(const struct form_picture *p, const struct form_mark *mark)
{
    double width = form_width(p->type, mark->style, mark->text), left = left_of(p, mark, width);
    bool on_page = left >= 0 && left + width <= form_page_width(p) && mark->at.y > 0 && mark->at.y < p->height;
    return !on_page || (mark->room_u > 0 && width > mark->room_u + 0.5);
}

const struct form_mark *form_first_too_wide(const struct form_picture *p)
{
    for (size_t i = 0; i < p->count; i++)
        if (p->marks[i].shape == FORM_TEXT && is_too_wide(p, &p->marks[i]))
            return &p->marks[i];
    return NULL;
}
