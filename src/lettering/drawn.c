#include "lettering/drawn.h"

#include "geometry/turn.h"

/* All in heights of capitals. The forms are our own, in the proportions that sans-serifs have: common practice. */
static const double weights[DRAWN_WEIGHTS] = { 0.07, 0.11, 0.15, 0.2, 0.27 };

enum { CORNERS_MOST = 16, ROUND_STEPS = 28 };

/* A corner of an outline: where it is in a letter of no weight, and how far it moves for each unit of weight. */
struct corner {
    double x, x_by, y, y_by;
};

static const struct {
    const char *letter;
    bool bowl; /* a circle of the height of an x joins it on the left */
    size_t count;
    struct corner corners[CORNERS_MOST]; /* counter-clockwise */
} forms[DRAWN_FORMS] = {
    /* a stroke with a straight flag, */
    { "1",
      false,
      7,
      { { 0.42, 0, 0, 0 },
        { 0.42, 0, 1, 0 },
        { 0.38, 0, 1, 0 },
        { 0.06, 0, 0.86, 0 },
        { 0.06, 0, 0.86, -1 },
        { 0.42, -1, 1.018, -1.44 },
        { 0.42, -1, 0, 0 } } },
    /* or one that is rounded into the stroke */
    { "1",
      false,
      8,
      { { 0.42, 0, 0, 0 },
        { 0.42, 0, 1, 0 },
        { 0.42, -0.65, 1, 0 },
        { 0.3, -0.4, 0.85, 0 },
        { 0.06, 0, 0.76, 0 },
        { 0.06, 0, 0.76, -0.7 },
        { 0.42, -1, 0.76, -0.7 },
        { 0.42, -1, 0, 0 } } },
    /* a cross, */
    { "t",
      false,
      12,
      { { 0.14, 0, 0, 0 },
        { 0.14, 1, 0, 0 },
        { 0.14, 1, 0.71, -0.85 },
        { 0.28, 1, 0.71, -0.85 },
        { 0.28, 1, 0.71, 0 },
        { 0.14, 1, 0.71, 0 },
        { 0.14, 1, 0.97, 0 },
        { 0.14, 0, 0.97, 0 },
        { 0.14, 0, 0.71, 0 },
        { 0, 0, 0.71, 0 },
        { 0, 0, 0.71, -0.85 },
        { 0.14, 0, 0.71, -0.85 } } },
    /* a stroke with a tail */
    { "l",
      false,
      10,
      { { 0, 0, 1.06, 0 },
        { 0, 0, 0.2, 0 },
        { 0.02, 0, 0.08, 0 },
        { 0.08, 0, 0.01, 0 },
        { 0.18, 0, -0.01, 0 },
        { 0.22, 0.3, 0, 0 },
        { 0.22, 0.3, 0, 0.85 },
        { 0.07, 1, 0, 0.95 },
        { 0, 1, 0.1, 0.6 },
        { 0, 1, 1.06, 0 } } },
    /* a circle with a stroke as high, */
    { "a", true, 4, { { 0.72, 0, 0, 0 }, { 0.72, 0, 0.72, 0 }, { 0.72, -1, 0.72, 0 }, { 0.72, -1, 0, 0 } } },
    /* or one that goes down */
    { "g",
      true,
      10,
      { { 0.72, 0, -0.02, 0 },
        { 0.72, 0, 0.72, 0 },
        { 0.72, -1, 0.72, 0 },
        { 0.72, -1, 0, 0 },
        { 0.6, -0.5, -0.2, 0.6 },
        { 0.38, 0, -0.28, 0.9 },
        { 0.08, 0, -0.2, 0.8 },
        { 0.08, 0, -0.22, 0 },
        { 0.38, 0, -0.28, 0 },
        { 0.62, 0, -0.2, 0 } } },
};

#define BOWL_MIDDLE 0.36 /* across and up, and its radius */

static void put(struct arena *a, struct geometry_path *path, size_t *cap, vec2 p)
{
    path->points = base_arena_grow(a, path->points, cap, path->count + 1, sizeof(vec2));
    path->points[path->count++] = p;
}

static vec2 on_circle(double radius, double degrees)
{
    double s, c;
    geometry_sincos(degrees, &s, &c);
    return (vec2){ BOWL_MIDDLE + radius * c, BOWL_MIDDLE + radius * s };
}

/* The way around the bowl from where it leaves the stroke's left side to where it comes back to it. */
static void put_bowl(struct arena *a, struct geometry_path *path, size_t *cap, double weight)
{
    for (int i = 0; i <= ROUND_STEPS; i++) {
        vec2 p = on_circle(BOWL_MIDDLE, i * 360.0 / ROUND_STEPS);
        if (p.x < 2 * BOWL_MIDDLE - weight)
            put(a, path, cap, p);
    }
}

static struct geometry_path hole(struct arena *a, double weight)
{
    struct geometry_path path = { NULL, 0, true };
    size_t cap = 0;
    for (int i = ROUND_STEPS; i > 0; i--)
        put(a, &path, &cap, on_circle(BOWL_MIDDLE - weight, i * 360.0 / ROUND_STEPS));
    return path;
}

const char *lettering_drawn_letter(size_t form)
{
    return forms[form].letter;
}

struct text_run lettering_draw(struct arena *a, size_t form, size_t weight)
{
    double w = weights[weight];
    struct text_run run = { base_arena_alloc(a, 2, sizeof *run.contours), 1, 0 };
    struct geometry_path *outer = &run.contours[0];
    size_t cap = 0;
    outer->closed = true;
    for (size_t i = 0; i < forms[form].count; i++) {
        const struct corner *c = &forms[form].corners[i];
        put(a, outer, &cap, (vec2){ c->x + w * c->x_by, c->y + w * c->y_by });
        if (forms[form].bowl && i == 2)
            put_bowl(a, outer, &cap, w);
    }
    if (forms[form].bowl)
        run.contours[run.count++] = hole(a, w);
    return run;
}
