#include "bench/figure.h"

#include <math.h>

/* The right half of the form from the neck's edge to its lower edge: x from its middle, y from the neck down, in shares
 * of its height. */
static const vec2 half[] = {
    { 0.066, 0.000 }, { 0.070, 0.045 }, { 0.120, 0.085 }, { 0.230, 0.135 }, { 0.222, 0.180 },
    { 0.197, 0.235 }, { 0.205, 0.295 }, { 0.232, 0.360 }, { 0.218, 0.440 }, { 0.180, 0.530 },
    { 0.164, 0.620 }, { 0.186, 0.720 }, { 0.222, 0.820 }, { 0.233, 0.900 }, { 0.220, 1.000 },
};
/* The armhole's edge and the seam from the shoulder over the bust. */
static const vec2 armhole[] = { { 0.230, 0.135 }, { 0.205, 0.150 }, { 0.182, 0.210 }, { 0.197, 0.235 } };
static const vec2 seam[] = { { 0.145, 0.095 }, { 0.120, 0.230 }, { 0.128, 0.360 },
                             { 0.090, 0.620 }, { 0.125, 0.850 }, { 0.118, 1.020 } };

enum {
    HALF = sizeof half / sizeof half[0],
    ARMHOLE = sizeof armhole / sizeof armhole[0],
    SEAM = sizeof seam / sizeof seam[0],
    STEPS = 8,
    MOST = 2 * (HALF * STEPS + 2)
};

struct figure {
    struct form_picture *p;
    double middle, top, height;
};

static struct bench_pt place(const struct figure *f, vec2 at)
{
    return (struct bench_pt){ f->middle + at.x * f->height, f->top + at.y * f->height };
}

/* A curve through points, each leaving along the line between its neighbours (Catmull and Rom, 1974). */
static vec2 between(const vec2 *points, int count, int i, double t)
{
    vec2 a = points[i > 0 ? i - 1 : 0], b = points[i], c = points[i + 1], d = points[i + 2 < count ? i + 2 : i + 1];
    double t2 = t * t, t3 = t2 * t;
    vec2 out = vec2_scale(a, -t3 + 2 * t2 - t);
    out = vec2_add(out, vec2_scale(b, 3 * t3 - 5 * t2 + 2));
    out = vec2_add(out, vec2_scale(c, -3 * t3 + 4 * t2 + t));
    out = vec2_add(out, vec2_scale(d, t3 - t2));
    return vec2_scale(out, 0.5);
}

static size_t curve(const vec2 *points, int count, vec2 out[MOST])
{
    size_t n = 0;
    for (int i = 0; i + 1 < count; i++)
        for (int s = 0; s < STEPS; s++)
            out[n++] = between(points, count, i, (double)s / STEPS);
    out[n++] = points[count - 1];
    return n;
}

static vec2 mirrored(vec2 at)
{
    return (vec2){ -at.x, at.y };
}

static void draw_both(const struct figure *f, const vec2 *points, int count, double width, enum form_colour colour)
{
    vec2 on[MOST];
    struct bench_pt right[MOST], left[MOST];
    size_t n = curve(points, count, on);
    for (size_t i = 0; i < n; i++) {
        right[i] = place(f, on[i]);
        left[i] = place(f, mirrored(on[i]));
    }
    form_stroke(f->p, right, n, false, width, colour);
    form_stroke(f->p, left, n, false, width, colour);
}

static void draw_body(const struct figure *f)
{
    vec2 on[MOST];
    struct bench_pt whole[MOST];
    size_t n = curve(half, HALF, on);
    for (size_t i = 0; i < n; i++) {
        whole[i] = place(f, on[i]);
        whole[2 * n - 1 - i] = place(f, mirrored(on[i]));
    }
    form_fill(f->p, whole, 2 * n, FORM_CLOTH);
    form_line(f->p, place(f, (vec2){ 0, 0 }), place(f, (vec2){ 0, 1.01 }), 1, FORM_LINE);
    draw_both(f, seam, SEAM, 1, FORM_LINE);
    form_stroke(f->p, whole, 2 * n, true, 1.8, FORM_INK);
    draw_both(f, armhole, ARMHOLE, 1.4, FORM_INK);
}

static void draw_stand(const struct figure *f)
{
    static const double knob = 0.015, pole = 0.009, foot = 1.2, base = 0.115, base_high = 0.045;
    double x = f->middle, h = f->height;
    struct bench_pt arch[25];
    for (int i = 0; i < 25; i++) {
        double turn = M_PI * i / 24;
        arch[i] = place(f, (vec2){ -base * cos(turn), foot + base_high - base_high * sin(turn) });
    }
    form_line(f->p, place(f, (vec2){ -pole, 1.02 }), place(f, (vec2){ -pole, foot }), 2, FORM_LINE);
    form_line(f->p, place(f, (vec2){ pole, 1.02 }), place(f, (vec2){ pole, foot }), 2, FORM_LINE);
    form_stroke(f->p, arch, 25, true, 2.2, FORM_LINE);
    form_ring(f->p, (struct bench_pt){ x, f->top - 0.05 * h }, knob * h, 1.6, FORM_INK);
    form_line(f->p, (struct bench_pt){ x, f->top - 0.035 * h }, (struct bench_pt){ x, f->top }, 1.6, FORM_INK);
}

/* Half the form's width at a level. */
static double half_width(double y)
{
    vec2 on[MOST];
    size_t n = curve(half, HALF, on);
    for (size_t i = 1; i < n; i++)
        if (on[i].y >= y)
            return vec2_lerp(on[i - 1], on[i], (y - on[i - 1].y) / (on[i].y - on[i - 1].y + 1e-12)).x;
    return on[n - 1].x;
}

static void draw_bubble(const struct figure *f, struct bench_pt at, const struct bench_taken *t)
{
    static const double radius = 10;
    if (t->here) {
        form_dot(f->p, at, radius, FORM_BLUE);
    } else {
        form_dot(f->p, at, radius, FORM_SHEET);
        form_ring(f->p, at, radius, 1.6, FORM_BLUE);
    }
    at.y += form_drop(FORM_SMALL);
    form_text(f->p, at, FORM_MIDDLE, FORM_SMALL, t->here ? FORM_ON_INK : FORM_BLUE, 2 * radius, t->number);
}

/* The tape's front half bows down a little. */
static void tape_points(const struct figure *f, double y, double over, struct bench_pt out[17])
{
    double w = half_width(y) + over, bow = 0.012;
    for (int i = 0; i < 17; i++) {
        double x = -1 + i / 8.0;
        out[i] = place(f, (vec2){ w * x, y + bow * (1 - x * x) });
    }
}

static void draw_round(const struct figure *f, const struct bench_taken *t, double bubble_x)
{
    struct bench_pt tape[17];
    tape_points(f, t->at, 0.004, tape);
    struct bench_pt bubble = { bubble_x, tape[16].y };
    form_line(f->p, (struct bench_pt){ tape[16].x + 5, bubble.y }, (struct bench_pt){ bubble.x - 12, bubble.y }, 1,
              FORM_LINE);
    form_stroke(f->p, tape, 17, false, t->here ? 9 : 1.8, t->here ? FORM_INK : FORM_BLUE);
    if (t->here) {
        form_stroke(f->p, tape, 17, false, 6, FORM_MANILA);
        for (int i = 0; i < 17; i++)
            form_stroke(f->p, (struct bench_pt[]){ { tape[i].x, tape[i].y - 3 }, { tape[i].x, tape[i].y } }, 2, false,
                        1, FORM_INK);
    }
    draw_bubble(f, bubble, t);
}

static void draw_upright(const struct figure *f, const struct bench_taken *t, double x)
{
    double top = place(f, (vec2){ 0, t->at }).y, low = place(f, (vec2){ 0, t->to }).y, width = t->here ? 3 : 1.6;
    struct bench_pt middle = { x, (top + low) / 2 };
    form_line(f->p, (struct bench_pt){ x, top }, (struct bench_pt){ x, low }, width, FORM_BLUE);
    form_line(f->p, (struct bench_pt){ x - 6, top }, (struct bench_pt){ x + 6, top }, width, FORM_BLUE);
    form_line(f->p, (struct bench_pt){ x - 6, low }, (struct bench_pt){ x + 6, low }, width, FORM_BLUE);
    draw_bubble(f, middle, t);
}

void bench_draw_figure(struct form_picture *p, struct bench_box box, const struct bench_taken *taken, size_t count)
{
    static const double whole = 1.32, above = 0.07, side = 14; /* with knob and stand; a bubble's room */
    double height = fmin(box.height / whole, box.width / 0.78);
    struct figure f = { p, box.x + box.width / 2, box.y + above * height, height };
    double left = box.x + side;
    draw_stand(&f);
    draw_body(&f);
    for (size_t i = 0; i < count; i++) {
        if (taken[i].to > 0) {
            draw_upright(&f, &taken[i], left);
            left += 26;
        } else {
            draw_round(&f, &taken[i], box.x + box.width - side);
        }
    }
}
