#include "calibration/campaign.h"

#include "calibration/rulings.h"
#include "scene/crosses.h"

#include <math.h>
#include <stdlib.h>

enum { FRAMES = 2, SLIP_KINDS = 8 };

#define IN 0.03
#define RULING_MM 10.0
#define NUDGED_MM 0.2
#define LEAST_MISTAKE_MM 5.0
#define PI 3.14159265358979323846

/* 0.95 of a chi-square of two degrees of freedom. */
#define WITHIN_95 5.991464547107982

static double even(struct vt_noise *noise, double from, double to)
{
    /* A normal deviate put through its distribution is even. */
    return from + (to - from) * 0.5 * erfc(-vt_noise_draw(noise) / sqrt(2));
}

struct vt_setup campaign_setup(struct vt_noise *noise)
{
    static const int sizes[FRAMES][2] = { { 1280, 720 }, { 1920, 1080 } };
    const int *size = sizes[even(noise, 0, 1) < 0.5];
    struct vt_setup s = { .name = "drawn", .width_px = size[0], .height_px = size[1] };
    s.throw_ratio = even(noise, 1.0, 1.5);
    s.height_mm = s.throw_ratio * even(noise, 1000, 1400);
    s.tilt_deg = even(noise, 0, 25);
    s.roll_deg = even(noise, -5, 5);
    s.turn_deg = even(noise, 0, 360);
    s.foot_x_mm = even(noise, 300, 900);
    s.foot_y_mm = even(noise, 200, 600);
    s.shift = even(noise, 0, 1);
    s.k1 = even(noise, -0.01, 0.01);
    return s;
}

static const struct {
    size_t columns, rows; /* 0: the standard walk's */
    bool nudged;
} walks[CAMPAIGN_WALKS] = {
    [CAMPAIGN_NINE] = { 3, 3, false },   [CAMPAIGN_TWELVE] = { 4, 3, false }, [CAMPAIGN_THIRTEEN] = { 0, 0, false },
    [CAMPAIGN_TWENTY] = { 5, 4, false }, [CAMPAIGN_NUDGED] = { 0, 0, true },  [CAMPAIGN_FOUR_PLACES] = { 5, 4, true },
};

static struct px_pt share_px(const struct vt_setup *setup, double x, double y)
{
    return (struct px_pt){ floor(x * setup->width_px) + 0.5, floor(y * setup->height_px) + 0.5 };
}

/* At the light's top left corner, and mirrored at the others, clockwise. */
static struct px_pt four_places_px(const struct vt_setup *setup, size_t i, int place)
{
    static const double shares[5][2] = { { 0.03, 0.03 }, { 0.04, 0.04 }, { 0.6, 0.04 }, { 0.03, 0.71 }, { 0.3, 0.71 } };
    double x = shares[i][0], y = shares[i][1];
    return share_px(setup, place == 1 || place == 2 ? 1 - x : x, place >= 2 ? 1 - y : y);
}

/* Where the crosses of a walk stand at first, and where the mat lies then. */
static void stand(enum campaign_walk walk, const struct vt_setup *setup, size_t i, struct calibration_reading *out)
{
    size_t columns = walks[walk].columns, rows = walks[walk].rows, column = columns ? i % columns : 0;
    if (walk == CAMPAIGN_FOUR_PLACES) {
        out->place = (int)(i / columns);
        out->px = four_places_px(setup, column, out->place);
    } else if (columns) {
        double across = (double)column / (double)(columns - 1), down = (double)(i / columns) / (double)(rows - 1);
        out->px = share_px(setup, IN + (1 - 2 * IN) * across, IN + (1 - 2 * IN) * down);
    } else {
        out->px = scene_standard_cross(out->cross, setup->width_px, setup->height_px);
    }
}

/* How the mat lies at each of its places: the first where the table is. */
static void draw_poses(struct vt_noise *noise, struct calibration_unknowns *at)
{
    *at = (struct calibration_unknowns){ .pose = { { .turn_rad = 0 } } };
    for (int p = 1; p < 4; p++)
        at->pose[p] =
            (struct calibration_pose){ { even(noise, -800, 800), even(noise, -800, 800) }, even(noise, -PI, PI) };
}

/* The eye's part of a nudge, so that it comes to NUDGED_MM with the quarter pixels' part in the middle of the light. */
static double eye_mm(const struct vt_setup *setup)
{
    double px = CALIBRATION_NUDGE_SIGMA_PX * vt_mm_per_px(setup, setup->width_px / 2.0, setup->height_px / 2.0);
    return sqrt(NUDGED_MM * NUDGED_MM - px * px);
}

/* The cross is moved until the eye sees it on the ruling nearest to where it fell first; it moves in quarter pixels. */
static void nudge(const struct vt_setup *setup, const struct calibration_unknowns *poses, double eye,
                  struct vt_noise *noise, struct calibration_reading *r)
{
    double x = 0, y = 0;
    vt_px_to_mat(setup, r->px.x, r->px.y, &x, &y);
    struct table_pt rulings = rulings_at(&poses->pose[r->place], (struct table_pt){ x, y });
    r->kind = CALIBRATION_NUDGE;
    r->at = (struct table_pt){ RULING_MM * round(rulings.x / RULING_MM), RULING_MM * round(rulings.y / RULING_MM) };
    struct table_pt seen = calibration_pose_to_table(poses, r->place, r->at);
    seen.x += eye * vt_noise_draw(noise);
    seen.y += eye * vt_noise_draw(noise);
    vt_mat_to_px(setup, seen.x, seen.y, &r->px.x, &r->px.y);
    r->px = (struct px_pt){ round(4 * r->px.x) / 4, round(4 * r->px.y) / 4 };
}

struct calibration_readings campaign_read(struct arena *a, const struct vt_setup *setup, enum campaign_walk walk,
                                          double typed_mm, struct vt_noise *noise)
{
    size_t grid = walks[walk].columns * walks[walk].rows;
    struct calibration_unknowns poses;
    struct calibration_readings r = { .name = setup->name,
                                      .unit = UNITS_CM,
                                      .width_px = setup->width_px,
                                      .height_px = setup->height_px,
                                      .sigma_mm = CALIBRATION_TYPED_SIGMA_MM,
                                      .eye_mm = eye_mm(setup),
                                      .mat = { .name = "centimetres", .unit = UNITS_CM, .ruling_mm = RULING_MM },
                                      .count = grid ? grid : SCENE_STANDARD_CROSSES };
    draw_poses(noise, &poses);
    r.items = base_arena_alloc(a, r.count, sizeof *r.items);
    for (size_t i = 0; i < r.count; i++) {
        struct calibration_reading *item = &r.items[i];
        item->cross = (int)i + 1;
        stand(walk, setup, i, item);
        if (walks[walk].nudged)
            nudge(setup, &poses, r.eye_mm, noise, item);
        else
            vt_reading(setup, item->px.x, item->px.y, typed_mm, noise, &item->at.x, &item->at.y);
    }
    return r;
}

/* --- how true it is --------------------------------------------------------------------------------------------- */

struct compared {
    vec2 is[CAMPAIGN_PLACES], truth[CAMPAIGN_PLACES];
};

static struct px_pt place_px(const struct vt_setup *setup, int place)
{
    return (struct px_pt){ setup->width_px * (double)(place % CAMPAIGN_COLUMNS) / (CAMPAIGN_COLUMNS - 1),
                           setup->height_px * (double)(place / CAMPAIGN_COLUMNS) / (CAMPAIGN_ROWS - 1) };
}

/* Mean square and largest distance between what is and what should be. */
static double errors_of(const vec2 *is, const vec2 *truth, double *largest)
{
    double squares = 0;
    *largest = 0;
    for (int i = 0; i < CAMPAIGN_PLACES; i++) {
        double off = vec2_length(vec2_sub(is[i], truth[i]));
        squares += off * off / CAMPAIGN_PLACES;
        *largest = fmax(*largest, off);
    }
    return squares;
}

/* What is, turned and shifted onto what should be. */
static void lay_over(struct compared *c)
{
    struct calibration_move move = calibration_move_fitting(c->is, c->truth, CAMPAIGN_PLACES);
    double cosine = cos(move.turn_rad), sine = sin(move.turn_rad);
    for (int i = 0; i < CAMPAIGN_PLACES; i++) {
        vec2 p = c->is[i];
        c->is[i] = vec2_add((vec2){ cosine * p.x - sine * p.y, sine * p.x + cosine * p.y }, move.shift_mm);
    }
}

/* A place's error against what the solve says of it. */
static void judge_place(struct campaign_tally *tally, const struct vt_setup *setup,
                        const struct calibration_solution *s, int i, vec2 off)
{
    struct px_pt px = place_px(setup, i);
    double dx[GEOMETRY_MAP_TERMS], dy[GEOMETRY_MAP_TERMS], xx = 0, xy = 0, yy = 0;
    geometry_map_term_gradient(&s->map, px, dx, dy);
    for (int t = 0; t < GEOMETRY_MAP_TERMS; t++)
        for (int u = 0; u < GEOMETRY_MAP_TERMS; u++) {
            double cov = s->doubt.covariance[t][u];
            xx += dx[t] * cov * dx[u];
            xy += dx[t] * cov * dy[u];
            yy += dy[t] * cov * dy[u];
        }
    double far = (yy * off.x * off.x - 2 * xy * off.x * off.y + xx * off.y * off.y) / (xx * yy - xy * xy);
    tally->within[i] += far <= WITHIN_95;
    tally->circled += vec2_length(off) <= calibration_doubt_place_mm(&s->map, &s->doubt, px);
    tally->bound += (xx + yy) / CAMPAIGN_PLACES;
}

/* Of a mat in several places the solve speaks of size and shape alone: judged after the best turn and shift. */
static void compare(struct campaign_tally *tally, const struct vt_setup *setup, const struct calibration_solution *s,
                    bool several_places)
{
    struct compared c, moved;
    for (int i = 0; i < CAMPAIGN_PLACES; i++) {
        struct px_pt px = place_px(setup, i);
        struct table_pt at = geometry_map_to_table(&s->map, px);
        c.is[i] = (vec2){ at.x, at.y };
        vt_px_to_mat(setup, px.x, px.y, &c.truth[i].x, &c.truth[i].y);
    }
    moved = c;
    lay_over(&moved);
    const struct compared *judged = several_places ? &moved : &c;
    for (int i = 0; i < CAMPAIGN_PLACES; i++)
        judge_place(tally, setup, s, i, vec2_sub(judged->is[i], judged->truth[i]));
    tally->squares += errors_of(judged->is, judged->truth, &tally->largest_mm[tally->tables]);
    tally->squares_moved += errors_of(moved.is, moved.truth, &tally->largest_moved_mm[tally->tables]);
    tally->tables++;
}

struct campaign_tally campaign_truth(struct arena *a, enum campaign_walk walk, int seeds)
{
    struct campaign_tally tally = { .tables = 0 };
    tally.largest_mm = base_arena_alloc(a, (size_t)seeds, sizeof *tally.largest_mm);
    tally.largest_moved_mm = base_arena_alloc(a, (size_t)seeds, sizeof *tally.largest_moved_mm);
    for (int seed = 1; seed <= seeds; seed++) {
        struct arena *room = base_arena_create();
        struct err_list *errs = base_err_list_create();
        struct vt_noise noise = { (uint64_t)seed };
        struct vt_setup setup = campaign_setup(&noise);
        struct calibration_readings r = campaign_read(room, &setup, walk, CALIBRATION_TYPED_SIGMA_MM, &noise);
        struct calibration_solution s;
        if (calibration_solve_without_mistakes(room, NULL, &r, CALIBRATION_LENS_WEAK, &s, errs)) {
            compare(&tally, &setup, &s, walk == CAMPAIGN_FOUR_PLACES);
        } else {
            tally.refused++;
            tally.largest_mm[seeds - tally.refused] = tally.largest_moved_mm[seeds - tally.refused] = INFINITY;
        }
        base_err_list_destroy(errs);
        base_arena_destroy(room);
    }
    return tally;
}

double campaign_coverage_pct(const struct campaign_tally *tally)
{
    double within = 0;
    for (int i = 0; i < CAMPAIGN_PLACES; i++)
        within += tally->within[i];
    return 100 * within / CAMPAIGN_PLACES / (tally->tables + tally->refused);
}

double campaign_worst_coverage_pct(const struct campaign_tally *tally)
{
    int least = tally->tables;
    for (int i = 0; i < CAMPAIGN_PLACES; i++)
        least = tally->within[i] < least ? tally->within[i] : least;
    return 100.0 * least / (tally->tables + tally->refused);
}

double campaign_circled_pct(const struct campaign_tally *tally)
{
    return 100.0 * tally->circled / CAMPAIGN_PLACES / (tally->tables + tally->refused);
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

double campaign_95(double *values, int count)
{
    qsort(values, (size_t)count, sizeof *values, by_size);
    return values[(int)ceil(0.95 * count) - 1];
}

/* --- mistakes ---------------------------------------------------------------------------------------------------- */

/* A reading that was made wrong, and how the right one would be. */
struct misread {
    size_t index;
    bool has_name;
    struct table_pt meant;
    struct px_pt others; /* the cross whose place it got, or off the frame */
};

/* The first two digits of the whole millimetres exchanged. */
static double digits_exchanged(double mm)
{
    double size = fabs(mm), place = pow(10, floor(log10(fmax(size, 10)))), first = floor(size / place);
    double second = floor((size - first * place) / (place / 10));
    double moved = size + (second - first) * (place - place / 10);
    return mm < 0 ? -moved : moved;
}

/* One slip of a person, or none when it would be too small to be one. */
static struct table_pt slip(const struct calibration_readings *readings, struct misread *m, struct vt_noise *noise)
{
    struct table_pt at = m->meant, was = at;
    double sign = even(noise, 0, 1) < 0.5 ? -1 : 1, turn = even(noise, 0, 2 * PI);
    double *number = even(noise, 0, 1) < 0.5 ? &at.x : &at.y;
    size_t other = (size_t)even(noise, 0, (double)readings->count - 1e-6);
    m->has_name = true;
    m->others = (struct px_pt){ -1, -1 };
    switch ((int)even(noise, 0, SLIP_KINDS - 1e-6)) {
    case 0:
        at = (struct table_pt){ was.y, was.x };
        break;
    case 1:
        *number += sign * RULING_MM;
        break;
    case 2:
        *number += sign * 25.4;
        break;
    case 3:
        *number *= 2.54;
        break;
    case 4:
        *number /= 2.54;
        break;
    case 5:
        *number = digits_exchanged(*number);
        break;
    case 6:
        at = readings->items[other].at;
        m->others = readings->items[other].px;
        break;
    default:
        at.x += LEAST_MISTAKE_MM * cos(turn);
        at.y += LEAST_MISTAKE_MM * sin(turn);
        m->has_name = false;
    }
    return at;
}

static struct misread misread_one(struct calibration_readings *readings, size_t index, struct vt_noise *noise)
{
    struct misread m = { .index = index, .meant = readings->items[index].at };
    for (;;) {
        struct table_pt at = slip(readings, &m, noise);
        if (hypot(at.x - m.meant.x, at.y - m.meant.y) < LEAST_MISTAKE_MM * 0.999)
            continue;
        readings->items[index].at = at;
        return m;
    }
}

/* Whether a repair makes the reading true: by its numbers, or as the other cross's; and what has no name gets none. */
static bool is_named(const struct calibration_repair *repair, const struct misread *m)
{
    const struct calibration_reading *is = &repair->repaired;
    if (!m->has_name)
        return repair->slip == CALIBRATION_SLIP_NONE;
    if (repair->slip == CALIBRATION_SLIP_CROSS)
        return is->px.x == m->others.x && is->px.y == m->others.y;
    return hypot(is->at.x - m->meant.x, is->at.y - m->meant.y) < 1e-6;
}

static void judge(struct campaign_mistakes *tally, const struct misread *misread, int wrong, bool solved,
                  const struct calibration_solution *s)
{
    int aside = 0, named = 0;
    for (size_t i = 0; solved && i < s->aside_count; i++)
        for (int m = 0; m < wrong; m++)
            if (s->aside[i].index == misread[m].index) {
                aside++;
                named += is_named(&s->aside[i], &misread[m]);
            }
    tally->made++;
    tally->found += !solved || aside == wrong;
    tally->named += solved && named == wrong && (int)s->aside_count == wrong;
    tally->sorry += solved && (int)s->aside_count > aside;
}

struct campaign_mistakes campaign_mistakes(enum campaign_walk walk, int seeds, int wrong, double typed_mm)
{
    struct campaign_mistakes tally = { .made = 0 };
    for (int seed = 1; seed <= seeds; seed++) {
        struct arena *room = base_arena_create();
        struct err_list *errs = base_err_list_create();
        struct vt_noise noise = { (uint64_t)seed };
        struct vt_setup setup = campaign_setup(&noise);
        struct calibration_readings r = campaign_read(room, &setup, walk, typed_mm, &noise);
        struct misread misread[2];
        size_t first = (size_t)even(&noise, 0, (double)r.count - 1e-6);
        size_t second = (first + 1 + (size_t)even(&noise, 0, (double)r.count - 1 - 1e-6)) % r.count;
        for (int m = 0; m < wrong; m++)
            misread[m] = misread_one(&r, m ? second : first, &noise);
        struct calibration_solution s;
        bool solved = calibration_solve_without_mistakes(room, NULL, &r, CALIBRATION_LENS_WEAK, &s, errs);
        if (wrong) {
            judge(&tally, misread, wrong, solved, &s);
        } else {
            tally.clean++;
            tally.alarms += !solved || s.aside_count > 0;
        }
        base_err_list_destroy(errs);
        base_arena_destroy(room);
    }
    return tally;
}

/* --- questions as readings are made ------------------------------------------------------------------------------ */

static bool is_questioned(const struct calibration_readings *readings, size_t count, struct calibration_repair *out)
{
    struct calibration_readings so_far = *readings;
    so_far.count = count;
    return calibration_last_is_doubtful(&so_far, out);
}

struct campaign_questions campaign_questions(enum campaign_walk walk, int seeds)
{
    enum { FIRST_MISREAD = 5 };
    struct campaign_questions tally = { .walks = seeds, .made = seeds };
    for (int seed = 1; seed <= seeds; seed++) {
        struct arena *room = base_arena_create();
        struct vt_noise noise = { (uint64_t)seed };
        struct vt_setup setup = campaign_setup(&noise);
        struct calibration_readings r = campaign_read(room, &setup, walk, CALIBRATION_TYPED_SIGMA_MM, &noise);
        struct calibration_repair repair;
        bool asked = false;
        for (size_t count = 1; count <= r.count; count++)
            asked = is_questioned(&r, count, &repair) || asked;
        tally.asked += asked;
        size_t wrong = (size_t)even(&noise, FIRST_MISREAD, (double)r.count - 1e-6);
        struct misread misread = misread_one(&r, wrong, &noise);
        bool found = is_questioned(&r, wrong + 1, &repair);
        tally.found += found;
        tally.named += found && is_named(&repair, &misread);
        base_arena_destroy(room);
    }
    return tally;
}
