#include "sheet_reader/svg_path.h"

#include "geometry/turn.h"
#include "sheet_reader/svg_number.h"

void svg_pen_move(struct svg_pen *p, double x, double y)
{
    vec2 to = svg_matrix_apply(&p->to_page, x, y);
    p->at = p->start = (vec2){ x, y };
    if (p->clip)
        clip_shape_move(p->clip, to.x, to.y);
    else
        collect_move(p->c, to.x, to.y);
}

void svg_pen_line(struct svg_pen *p, double x, double y)
{
    vec2 to = svg_matrix_apply(&p->to_page, x, y);
    p->at = (vec2){ x, y };
    if (p->clip)
        clip_shape_line(p->clip, to.x, to.y);
    else
        collect_line(p->c, to.x, to.y);
}

void svg_pen_cubic(struct svg_pen *p, vec2 c1, vec2 c2, vec2 end)
{
    vec2 a = svg_matrix_apply(&p->to_page, c1.x, c1.y), b = svg_matrix_apply(&p->to_page, c2.x, c2.y);
    vec2 to = svg_matrix_apply(&p->to_page, end.x, end.y);
    p->at = end;
    if (p->clip)
        clip_shape_cubic(p->clip, a.x, a.y, b.x, b.y, to.x, to.y);
    else
        collect_cubic(p->c, a.x, a.y, b.x, b.y, to.x, to.y);
}

void svg_pen_close(struct svg_pen *p)
{
    p->at = p->start;
    if (p->clip)
        clip_shape_close(p->clip);
    else
        collect_close(p->c);
}

/* --------------------------------------------------------------------------------------------------------------- arcs
 */

/* An ellipse and the part of it that is drawn. */
struct arc {
    vec2 centre;
    double rx, ry, sine, cosine; /* of its turn */
    double from_deg, by_deg;     /* in the ellipse's own parameter */
};

static vec2 arc_point(const struct arc *a, double x, double y)
{
    double u = a->rx * x, v = a->ry * y;
    return (vec2){ a->centre.x + a->cosine * u - a->sine * v, a->centre.y + a->sine * u + a->cosine * v };
}

/* One cubic from angle to angle: its controls lie on the tangents, 4/3 tan(step / 4) out. */
static void arc_step(struct svg_pen *p, const struct arc *a, double from, double step, const vec2 *end)
{
    double s0, c0, s1, c1, s, c;
    geometry_sincos(from, &s0, &c0);
    geometry_sincos(from + step, &s1, &c1);
    geometry_sincos(step / 4, &s, &c);
    double k = 4.0 / 3 * s / c;
    svg_pen_cubic(p, arc_point(a, c0 - k * s0, s0 + k * c0), arc_point(a, c1 + k * s1, s1 - k * c1),
                  end ? *end : arc_point(a, c1, s1));
}

static void arc_draw(struct svg_pen *p, const struct arc *a, vec2 end)
{
    int steps = (int)ceil(fabs(a->by_deg) / 45 - 1e-9);
    if (steps < 1)
        steps = 1;
    for (int i = 0; i < steps; i++)
        arc_step(p, a, a->from_deg + a->by_deg * i / steps, a->by_deg / steps, i + 1 == steps ? &end : NULL);
}

/* F.6.5 and F.6.6: from the two ends to the centre; radii that are too small grow until they reach. */
static struct arc arc_between(vec2 from, vec2 to, double rx, double ry, double turn_deg, bool large, bool sweep)
{
    struct arc a = { .rx = rx, .ry = ry };
    geometry_sincos(turn_deg, &a.sine, &a.cosine);
    vec2 half = vec2_scale(vec2_sub(from, to), 0.5), middle = vec2_lerp(from, to, 0.5);
    vec2 own = { (a.cosine * half.x + a.sine * half.y) / rx, (a.cosine * half.y - a.sine * half.x) / ry };
    double reach = vec2_dot(own, own); /* of the half chord on the circle of radius 1 */
    if (reach > 1) {
        a.rx *= sqrt(reach);
        a.ry *= sqrt(reach);
        own = vec2_scale(own, 1 / sqrt(reach));
        reach = 1;
    }
    double off = sqrt((1 - reach) / reach) * (large == sweep ? -1 : 1);
    vec2 centre = { off * own.y, -off * own.x }; /* on that circle */
    a.centre = middle;
    a.centre = arc_point(&a, centre.x, centre.y);
    double first = geometry_direction(own.y - centre.y, own.x - centre.x);
    double last = geometry_direction(-own.y - centre.y, -own.x - centre.x);
    a.from_deg = first;
    a.by_deg = last - first;
    if (sweep && a.by_deg < 0)
        a.by_deg += 360;
    if (!sweep && a.by_deg > 0)
        a.by_deg -= 360;
    return a;
}

void svg_pen_arc(struct svg_pen *p, double rx, double ry, double turn_deg, bool large, bool sweep, vec2 end)
{
    rx = fabs(rx);
    ry = fabs(ry);
    if (end.x == p->at.x && end.y == p->at.y)
        return;
    if (rx < 1e-9 || ry < 1e-9) {
        svg_pen_line(p, end.x, end.y);
        return;
    }
    struct arc a = arc_between(p->at, end, rx, ry, turn_deg, large, sweep);
    arc_draw(p, &a, end);
}

/* ---------------------------------------------------------------------------------------------------------- path data
 */

/* How far path data has been drawn. */
struct track {
    struct svg_pen *pen;
    char last;    /* the command before this one, as a capital */
    vec2 control; /* the last control of the curve before this one */
    vec2 from;    /* what a relative command counts from; of an absolute one the origin */
};

static vec2 mirrored(const struct track *t, const char *after)
{
    bool follows = t->last == after[0] || t->last == after[1];
    vec2 at = t->pen->at;
    return follows ? vec2_sub(vec2_scale(at, 2), t->control) : at;
}

static vec2 pair(const struct track *t, const double *v)
{
    return vec2_add(t->from, (vec2){ v[0], v[1] });
}

static void draw_cubic(struct track *t, vec2 c1, vec2 c2, vec2 end)
{
    t->control = c2;
    svg_pen_cubic(t->pen, c1, c2, end);
}

/* A quadratic, raised to a cubic: exact. */
static void draw_quadratic(struct track *t, vec2 control, vec2 end)
{
    t->control = control;
    svg_pen_cubic(t->pen, vec2_lerp(t->pen->at, control, 2.0 / 3), vec2_lerp(end, control, 2.0 / 3), end);
}

/* One command with its numbers. */
static void draw_command(struct track *t, char command, const double *v)
{
    struct svg_pen *p = t->pen;
    vec2 end;
    switch (command) {
    case 'M':
        end = pair(t, v);
        svg_pen_move(p, end.x, end.y);
        return;
    case 'L':
        end = pair(t, v);
        svg_pen_line(p, end.x, end.y);
        return;
    case 'H':
        svg_pen_line(p, t->from.x + v[0], p->at.y);
        return;
    case 'V':
        svg_pen_line(p, p->at.x, t->from.y + v[0]);
        return;
    case 'C':
        draw_cubic(t, pair(t, v), pair(t, v + 2), pair(t, v + 4));
        return;
    case 'S':
        draw_cubic(t, mirrored(t, "CS"), pair(t, v), pair(t, v + 2));
        return;
    case 'Q':
        draw_quadratic(t, pair(t, v), pair(t, v + 2));
        return;
    case 'T':
        draw_quadratic(t, mirrored(t, "QT"), pair(t, v));
        return;
    case 'A':
        svg_pen_arc(p, v[0], v[1], v[2], v[3] != 0, v[4] != 0, pair(t, v + 5));
        return;
    }
}

static const struct command {
    char letter;
    int numbers;
} commands[] = { { 'M', 2 }, { 'L', 2 }, { 'H', 1 }, { 'V', 1 }, { 'C', 6 },
                 { 'S', 4 }, { 'Q', 4 }, { 'T', 2 }, { 'A', 7 }, { 'Z', 0 } };

static const struct command *find_command(char letter)
{
    for (size_t i = 0; i < sizeof commands / sizeof commands[0]; i++)
        if (commands[i].letter == (letter & ~32))
            return &commands[i];
    return NULL;
}

/* The numbers of one command; an arc's fourth and fifth are flags, which need nothing between them. */
static bool scan_numbers(struct svg_scan *s, const struct command *c, double *v)
{
    for (int i = 0; i < c->numbers; i++) {
        bool flag = false, is_flag = c->letter == 'A' && (i == 3 || i == 4);
        if (i)
            svg_skip_comma(s);
        if (is_flag ? !svg_scan_flag(s, &flag) : !svg_scan_number(s, &v[i]))
            return false;
        if (is_flag)
            v[i] = flag;
    }
    return true;
}

static bool starts_number(char c)
{
    return (c >= '0' && c <= '9') || c == '-' || c == '+' || c == '.';
}

/* One letter, and its numbers as often as they come; after a move they are lines. */
static bool draw_letter(struct track *t, struct svg_scan *s, const struct command *c, bool relative)
{
    double v[7] = { 0 };
    if (c->letter == 'Z') {
        svg_pen_close(t->pen);
        t->last = 'Z';
        return true;
    }
    do {
        if (!scan_numbers(s, c, v))
            return false;
        t->from = relative ? t->pen->at : (vec2){ 0, 0 };
        draw_command(t, c->letter, v);
        t->last = c->letter;
        if (c->letter == 'M')
            c = find_command('L');
        svg_skip_comma(s);
    } while (starts_number(*s->at) && !collect_failed(t->pen->c));
    return true;
}

bool svg_path_draw(struct svg_pen *p, const char *data)
{
    struct svg_scan s = { data };
    struct track t = { .pen = p };
    p->at = p->start = (vec2){ 0, 0 };
    svg_skip_space(&s);
    while (*s.at && !collect_failed(p->c)) {
        char letter = *s.at++;
        const struct command *c = find_command(letter);
        bool is_letter = (letter >= 'A' && letter <= 'Z') || (letter >= 'a' && letter <= 'z');
        if (!c || !is_letter || (!t.last && c->letter != 'M'))
            return false;
        svg_skip_space(&s);
        if (!draw_letter(&t, &s, c, letter >= 'a'))
            return false;
        svg_skip_space(&s);
    }
    return true;
}

/* ------------------------------------------------------------------------------------------------------------- shapes
 */

void svg_points_draw(struct svg_pen *p, const char *points, bool closed)
{
    struct svg_scan s = { points };
    double x, y;
    bool first = true;
    svg_skip_space(&s);
    while (svg_scan_number(&s, &x)) {
        svg_skip_comma(&s);
        if (!svg_scan_number(&s, &y))
            break;
        svg_skip_comma(&s);
        if (first)
            svg_pen_move(p, x, y);
        else
            svg_pen_line(p, x, y);
        first = false;
    }
    if (closed && !first)
        svg_pen_close(p);
}

/* A side of a rectangle, unless its corners have used it up. */
static void side(struct svg_pen *p, double x, double y)
{
    if (x != p->at.x || y != p->at.y)
        svg_pen_line(p, x, y);
}

/* In the order of SVG 1.1, 9.2: from the upper left corner's end along the top. */
void svg_rect_draw(struct svg_pen *p, struct svg_box r, double rx, double ry)
{
    double right = r.x + r.width, low = r.y + r.height;
    bool rounded = rx > 0 && ry > 0;
    if (!rounded)
        rx = ry = 0;
    svg_pen_move(p, r.x + rx, r.y);
    side(p, right - rx, r.y);
    svg_pen_arc(p, rx, ry, 0, false, true, (vec2){ right, r.y + ry });
    side(p, right, low - ry);
    svg_pen_arc(p, rx, ry, 0, false, true, (vec2){ right - rx, low });
    side(p, r.x + rx, low);
    svg_pen_arc(p, rx, ry, 0, false, true, (vec2){ r.x, low - ry });
    if (rounded) {
        side(p, r.x, r.y + ry);
        svg_pen_arc(p, rx, ry, 0, false, true, (vec2){ r.x + rx, r.y });
    }
    svg_pen_close(p);
}

void svg_ellipse_draw(struct svg_pen *p, double cx, double cy, double rx, double ry)
{
    struct arc whole = { { cx, cy }, rx, ry, 0, 1, 0, 360 };
    svg_pen_move(p, cx + rx, cy);
    arc_draw(p, &whole, (vec2){ cx + rx, cy });
    svg_pen_close(p);
}
