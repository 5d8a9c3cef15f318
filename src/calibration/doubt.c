#include "calibration/doubt.h"

#include "geometry/vec2.h"

#include <assert.h>

enum { TERMS = GEOMETRY_MAP_TERMS, DIRECTIONS = 12, MOTIONS = 3 };

/* 95 of 100 lie within: of the two numbers of a place, and of one number. */
#define OF_PLACE 2.4477468306808161 /* sqrt(-2 ln 0.05) */
#define OF_LENGTH 1.9599639845400543

#define NEXT_IN 0.03 /* of the frame, in from its edges */

/* A symmetric matrix of two rows. */
struct two {
    double xx, xy, yy;
};

static double product(const double *a, const struct calibration_doubt *doubt, const double *b)
{
    double sum = 0;
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++)
            sum += a[i] * doubt->covariance[i][j] * b[j];
    return sum;
}

/* J C Jᵀ. */
static struct two covariance_at(const struct geometry_map *map, const struct calibration_doubt *doubt, struct px_pt px)
{
    double dx[TERMS], dy[TERMS];
    geometry_map_term_gradient(map, px, dx, dy);
    return (struct two){ product(dx, doubt, dx), product(dx, doubt, dy), product(dy, doubt, dy) };
}

static double larger_root(struct two c)
{
    double half = 0.5 * (c.xx - c.yy);
    return 0.5 * (c.xx + c.yy) + sqrt(half * half + c.xy * c.xy);
}

double calibration_doubt_place_mm(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                  struct px_pt px)
{
    return OF_PLACE * sqrt(fmax(larger_root(covariance_at(map, doubt, px)), 0));
}

double calibration_doubt_line_mm(const struct geometry_map *map, const struct calibration_doubt *doubt, struct px_pt a,
                                 struct px_pt b)
{
    double ax[TERMS], ay[TERMS], bx[TERMS], by[TERMS], along[TERMS];
    struct table_pt from = geometry_map_to_table(map, a), to = geometry_map_to_table(map, b);
    vec2 e = vec2_unit((vec2){ to.x - from.x, to.y - from.y });
    geometry_map_term_gradient(map, a, ax, ay);
    geometry_map_term_gradient(map, b, bx, by);
    for (int t = 0; t < TERMS; t++)
        along[t] = e.x * (bx[t] - ax[t]) + e.y * (by[t] - ay[t]);
    return OF_LENGTH * sqrt(fmax(product(along, doubt, along), 0));
}

/* Half of 100 mm each way, by the map's scale at the place: the ends' own scale is of no weight here. */
double calibration_doubt_hundred_mm(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                    struct px_pt px)
{
    struct geometry_jacobian j = geometry_map_jacobian(map, px);
    double det = j.xu * j.yv - j.xv * j.yu, worst = 0;
    for (int i = 0; i < DIRECTIONS; i++) {
        double turn = 3.14159265358979323846 * i / DIRECTIONS, x = 50 * cos(turn), y = 50 * sin(turn);
        vec2 half = { (j.yv * x - j.xv * y) / det, (j.xu * y - j.yu * x) / det };
        struct px_pt a = { px.x - half.x, px.y - half.y }, b = { px.x + half.x, px.y + half.y };
        worst = fmax(worst, calibration_doubt_line_mm(map, doubt, a, b));
    }
    return worst;
}

/* How the map's terms move when the whole is shifted by 1 mm along or away, or turned by 1 rad about the origin: of
 * X' = X + s the terms h0 grow by s times h2, and a turn exchanges the rows. */
static void motions(const struct geometry_map *map, double g[MOTIONS][TERMS])
{
    const double *t = map->term, last[3] = { t[GEOMETRY_H20], t[GEOMETRY_H21], 1 };
    for (int m = 0; m < MOTIONS; m++)
        for (int i = 0; i < TERMS; i++)
            g[m][i] = 0;
    for (int i = 0; i < 3; i++) {
        g[0][GEOMETRY_H00 + i] = last[i];
        g[1][GEOMETRY_H10 + i] = last[i];
        g[2][GEOMETRY_H00 + i] = -t[GEOMETRY_H10 + i];
        g[2][GEOMETRY_H10 + i] = t[GEOMETRY_H00 + i];
    }
}

/* The motion that a change of each term looks like over the grid, by least squares: the mean shift, and the turn about
 * the grid's middle. As shifts of the origin and that turn. */
static void motion_of_terms(const struct geometry_map *map, double a[MOTIONS][TERMS])
{
    enum { PLACES = CALIBRATION_DOUBT_COLUMNS * CALIBRATION_DOUBT_ROWS };
    vec2 at[PLACES], middle = { 0, 0 };
    double dx[PLACES][TERMS], dy[PLACES][TERMS], spread = 0;
    for (int i = 0; i < PLACES; i++) {
        struct px_pt px = calibration_doubt_grid(map, i % CALIBRATION_DOUBT_COLUMNS, i / CALIBRATION_DOUBT_COLUMNS);
        struct table_pt p = geometry_map_to_table(map, px);
        at[i] = (vec2){ p.x, p.y };
        middle = vec2_lerp(middle, at[i], 1.0 / (i + 1));
        geometry_map_term_gradient(map, px, dx[i], dy[i]);
    }
    for (int i = 0; i < PLACES; i++)
        spread += vec2_dot(vec2_sub(at[i], middle), vec2_sub(at[i], middle));
    for (int t = 0; t < TERMS; t++) {
        vec2 shift = { 0, 0 };
        double turn = 0;
        for (int i = 0; i < PLACES; i++) {
            vec2 moved = { dx[i][t], dy[i][t] };
            shift = vec2_lerp(shift, moved, 1.0 / (i + 1));
            turn += vec2_cross(vec2_sub(at[i], middle), moved) / spread;
        }
        a[0][t] = shift.x + turn * middle.y;
        a[1][t] = shift.y - turn * middle.x;
        a[2][t] = turn;
    }
}

/* (I - G A) C (I - G A)ᵀ, G the motions and A what of them the terms' changes hold. */
void calibration_doubt_release(const struct geometry_map *map, struct calibration_doubt *doubt)
{
    double g[MOTIONS][TERMS], a[MOTIONS][TERMS], keep[TERMS][TERMS], half[TERMS][TERMS];
    motions(map, g);
    motion_of_terms(map, a);
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++) {
            keep[i][j] = i == j;
            for (int m = 0; m < MOTIONS; m++)
                keep[i][j] -= g[m][i] * a[m][j];
        }
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++) {
            half[i][j] = 0;
            for (int k = 0; k < TERMS; k++)
                half[i][j] += keep[i][k] * doubt->covariance[k][j];
        }
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++) {
            doubt->covariance[i][j] = 0;
            for (int k = 0; k < TERMS; k++)
                doubt->covariance[i][j] += half[i][k] * keep[j][k];
        }
}

static double side(struct px_pt a, struct px_pt b, struct px_pt p)
{
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

/* Gift wrapping (Jarvis 1973): from the leftmost cross always to the one that has none to its right. */
void calibration_doubt_measure(struct arena *a, struct calibration_doubt *doubt, const struct px_pt *crosses,
                               size_t count)
{
    size_t first = 0;
    doubt->hull = base_arena_alloc(a, count, sizeof *doubt->hull);
    doubt->hull_count = 0;
    for (size_t i = 1; i < count; i++)
        if (crosses[i].x < crosses[first].x || (crosses[i].x == crosses[first].x && crosses[i].y < crosses[first].y))
            first = i;
    struct px_pt from = count ? crosses[first] : (struct px_pt){ 0, 0 };
    for (size_t n = 0; n < count; n++) {
        doubt->hull[doubt->hull_count++] = from;
        struct px_pt next = from;
        for (size_t i = 0; i < count; i++) {
            double turn = side(from, next, crosses[i]);
            double near = hypot(next.x - from.x, next.y - from.y);
            double far = hypot(crosses[i].x - from.x, crosses[i].y - from.y);
            if ((near == 0 && far > 0) || turn < 0 || (turn == 0 && far > near))
                next = crosses[i];
        }
        if (next.x == crosses[first].x && next.y == crosses[first].y)
            break;
        from = next;
    }
}

bool calibration_doubt_is_measured(const struct calibration_doubt *doubt, struct px_pt px)
{
    for (size_t i = 0; i < doubt->hull_count; i++)
        if (side(doubt->hull[i], doubt->hull[(i + 1) % doubt->hull_count], px) < 0)
            return false;
    return doubt->hull_count >= 3;
}

struct px_pt calibration_doubt_grid(const struct geometry_map *map, int column, int row)
{
    return (struct px_pt){ map->width_px * (double)column / (CALIBRATION_DOUBT_COLUMNS - 1),
                           map->height_px * (double)row / (CALIBRATION_DOUBT_ROWS - 1) };
}

double calibration_doubt_worst_mm(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                  struct px_pt *where)
{
    double worst = -1;
    for (int row = 0; row < CALIBRATION_DOUBT_ROWS; row++)
        for (int column = 0; column < CALIBRATION_DOUBT_COLUMNS; column++) {
            struct px_pt px = calibration_doubt_grid(map, column, row);
            double mm = calibration_doubt_place_mm(map, doubt, px);
            if (mm <= worst)
                continue;
            worst = mm;
            if (where)
                *where = px;
        }
    return worst;
}

/* What is left of the covariance after one more position: C - C Jᵀ (J C Jᵀ + sigma² I)⁻¹ J C. */
static struct calibration_doubt with_reading(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                             struct px_pt px, double sigma_mm)
{
    struct calibration_doubt then = *doubt;
    double dx[TERMS], dy[TERMS], cx[TERMS] = { 0 }, cy[TERMS] = { 0 };
    geometry_map_term_gradient(map, px, dx, dy);
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++) {
            cx[i] += doubt->covariance[i][j] * dx[j];
            cy[i] += doubt->covariance[i][j] * dy[j];
        }
    struct two s = covariance_at(map, doubt, px);
    s.xx += sigma_mm * sigma_mm;
    s.yy += sigma_mm * sigma_mm;
    double det = s.xx * s.yy - s.xy * s.xy;
    for (int i = 0; i < TERMS; i++)
        for (int j = 0; j < TERMS; j++)
            then.covariance[i][j] -=
                (s.yy * cx[i] * cx[j] - s.xy * (cx[i] * cy[j] + cy[i] * cx[j]) + s.xx * cy[i] * cy[j]) / det;
    return then;
}

struct px_pt calibration_doubt_next(const struct geometry_map *map, const struct calibration_doubt *doubt,
                                    double sigma_mm, double *then_mm)
{
    assert(sigma_mm > 0);
    struct px_pt best = { 0, 0 };
    double least = INFINITY;
    for (int row = 0; row < CALIBRATION_DOUBT_ROWS; row++)
        for (int column = 0; column < CALIBRATION_DOUBT_COLUMNS; column++) {
            struct px_pt px = calibration_doubt_grid(map, column, row);
            px.x = NEXT_IN * map->width_px + (1 - 2 * NEXT_IN) * px.x;
            px.y = NEXT_IN * map->height_px + (1 - 2 * NEXT_IN) * px.y;
            struct calibration_doubt then = with_reading(map, doubt, px, sigma_mm);
            double worst = calibration_doubt_worst_mm(map, &then, NULL);
            if (worst < least) {
                least = worst;
                best = px;
            }
        }
    if (then_mm)
        *then_mm = least;
    return best;
}
