#include "draft/draft.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

/* Adding and multiplying a handful of lengths of at most metres loses no more than this, in mm. */
#define ROUNDING_MM 1e-9

/* What grown lines, which run farther out than the curve they follow, may be off by, in mm. */
#define GROWN_MM 0.05

/* A pattern of three sizes with these pieces and, in its views, these cuts. */
static const struct pattern *pattern_of(struct room *room, const char *pieces, const char *cuts)
{
    const char *text =
        base_arena_print(room->a,
                         "{ 'chalklight': 'pattern', 'version': 1, 'name': 'P', 'unit': 'mm',"
                         "  'sizes': ['S', 'M', 'L'], 'chart': { 'hip': [900, 940, 980] },"
                         "  'main_measurement': 'hip',"
                         "  'cup_groups': [ { 'name': 'A-B', 'bust': 1 }, { 'name': 'C-D', 'bust': 2 } ],\n"
                         "  'pieces': [ %s ],\n 'views': [ { 'name': 'A', 'cut': [ %s ] } ] }",
                         pieces, cuts);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "pattern.json", json, strlen(json), room->errs);
    room_nothing_told(room);
    assert_non_null(p);
    return p;
}

static struct draft draft_all(struct room *room, const struct pattern *p, double position)
{
    struct draft draft;
    bool ok = make_at_size(room->a, p, position, PATTERN_NONE, PATTERN_NONE, &draft, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    return draft;
}

/* The one piece of a pattern. */
static struct draft_piece draft_one(struct room *room, const char *piece, double position)
{
    const char *name = strstr(piece, "'name': '") + strlen("'name': '");
    const char *cut = base_arena_print(room->a, "{ 'piece': '%.*s', 'count': 1 }", (int)strcspn(name, "'"), name);
    struct draft draft = draft_all(room, pattern_of(room, piece, cut), position);
    assert_int_equal(draft.piece_count, 1);
    return draft.pieces[0];
}

static void assert_at(struct piece_pt got, double x, double y, double tol)
{
    assert_near(got.x, x, tol);
    assert_near(got.y, y, tol);
}

static bool has_point(struct geometry_path path, double x, double y)
{
    for (size_t i = 0; i < path.count; i++)
        if (hypot(path.points[i].x - x, path.points[i].y - y) <= ROUNDING_MM)
            return true;
    return false;
}

static double side_sum(const struct draft_piece *d, int edge)
{
    const struct draft_edge *e = &d->edges[edge];
    double sum = 0;
    for (size_t i = e->first; i < e->first + e->count; i++)
        sum += vec2_length(
            vec2_sub(d->seam.path.points[(i + 1) % d->seam.path.count], d->seam.path.points[i % d->seam.path.count]));
    return sum;
}

/* 20 x 30 cm grown by 1.5 cm: 23 x 33 = 759 cm². */
static void a_rectangle_grows_by_its_allowance_with_square_corners(void **state)
{
    struct draft_piece d =
        draft_one(*state, "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 }, 'allowance': 15 }", 0);
    assert_near(geometry_path_area(d.seam.path), 60000, 0);
    assert_near(geometry_path_area(d.cut.path), 75900, 1e-6);
    assert_int_equal(d.cut.path.count, 4);
    assert_true(has_point(d.cut.path, -15, -15) && has_point(d.cut.path, 215, 315));
    assert_true(d.cut_line.path.closed);
    assert_near(geometry_path_length(d.cut_line.path), 2 * (230 + 330), ROUNDING_MM);
    assert_false(d.has_fold);
}

/* (w + left + right) (h + bottom + top), by hand: (200 + 10 + 25) (300 + 0 + 40) = 79 900. */
static void every_edge_of_a_rectangle_has_its_own_allowance(void **state)
{
    struct draft_piece d = draft_one(*state,
                                     "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 }, 'allowance': 10,"
                                     "  'allowances': { 'right': [20, 25, 30], 'top': 40, 'bottom': 0 } }",
                                     1);
    assert_near(geometry_path_area(d.cut.path), 79900, 1e-6);
    assert_true(has_point(d.cut.path, -10, 0) && has_point(d.cut.path, 225, 340));
}

/* Legs 300 and 400, hypotenuse 500, inradius 100: grown by 10, a mitred triangle is the same shape with inradius 110,
 * so its area is 60 000 x 1.21 (the same arithmetic in the small: legs 3 and 4, area 6, grown by 1 to 24). */
static void a_triangle_keeps_its_shape_when_it_grows(void **state)
{
    struct room *room = *state;
    struct draft_piece d =
        draft_one(room,
                  "{ 'name': 't', 'points': { 'a': [0, 0], 'b': [300, 0], 'c': [0, 400] },"
                  "  'outline': [ { 'name': 'base', 'path': ['a', 'b'] },"
                  "    { 'name': 'slope', 'path': ['b', 'c'] }, { 'name': 'rise', 'path': ['c', 'a'] } ],"
                  "  'allowance': 10 }",
                  0);
    assert_near(d.edges[0].length_mm, 300, ROUNDING_MM);
    assert_near(d.edges[1].length_mm, 500, ROUNDING_MM);
    assert_near(d.edges[2].length_mm, 400, ROUNDING_MM);
    assert_near(geometry_path_area(d.cut.path), 60000 * 1.21, 1e-6);
}

/* A circle of radius 150 mm from four cubics whose controls lie kappa = 4/3 (sqrt 2 - 1) of the radius along the
 * tangents. On the quarter from (1, 0) to (0, 1), x = (1 - t)³ + 3 (1 - t)² t + 3 (1 - t) t² kappa and y the same from
 * the other end; x² + y² is 1 at t = 0, 1/2 and 1 and never less, and its largest root 1.000272530 lies near t = 0.211:
 * the cubics' radius is at most 0.02726 % too large (common knowledge; worked out again for this test by sampling t at
 * every millionth). */
#define CIRCLE_MM 150.0
#define KAPPA 0.55228474983079339840 /* 4/3 (sqrt 2 - 1) */
#define CIRCLE_EXCESS 0.0002726
#define PI 3.14159265358979323846

static const char *circle_piece(struct room *room)
{
    double r = CIRCLE_MM, k = KAPPA * CIRCLE_MM;
    return base_arena_print(
        room->a,
        "{ 'name': 'circle', 'allowance': 10, 'points': { 'e': [%.17g, 0], 'n': [0, %.17g], 'w': [%.17g, 0], 's': [0, "
        "%.17g],"
        "  'en': [%.17g, %.17g], 'ne': [%.17g, %.17g], 'nw': [%.17g, %.17g], 'wn': [%.17g, %.17g],"
        "  'ws': [%.17g, %.17g], 'sw': [%.17g, %.17g], 'se': [%.17g, %.17g], 'es': [%.17g, %.17g] },"
        "  'outline': [ { 'name': 'upper', 'path': ['e', ['en', 'ne', 'n'], ['nw', 'wn', 'w']] },"
        "    { 'name': 'lower', 'path': ['w', ['ws', 'sw', 's'], ['se', 'es', 'e']] } ] }",
        r, r, -r, -r, r, k, k, r, -k, r, -r, k, -r, -k, -k, -r, k, -r, r, -k);
}

static void assert_radii(struct geometry_path path, double least, double most)
{
    for (size_t i = 0; i < path.count; i++) {
        vec2 a = path.points[i], b = path.points[(i + 1) % path.count];
        double corner = vec2_length(a), middle = vec2_length(vec2_lerp(a, b, 0.5));
        if (corner < least || corner > most || middle < least || middle > most)
            fail_msg("radius %.6f and %.6f at point %zu, not from %.6f to %.6f", corner, middle, i, least, most);
    }
}

static void a_circle_of_four_cubics_stays_round_and_grows_to_a_circle(void **state)
{
    struct room *room = *state;
    struct draft_piece d = draft_one(room, circle_piece(room), 0);
    double most = CIRCLE_MM * (1 + CIRCLE_EXCESS);
    assert_radii(d.seam.path, CIRCLE_MM - DRAFT_FLATTEN_MM - ROUNDING_MM, most + ROUNDING_MM);
    assert_radii(d.cut.path, CIRCLE_MM + 10 - GROWN_MM, most + 10 + GROWN_MM);
    for (int e = 0; e < 2; e++) {
        assert_near(d.edges[e].length_mm, PI * CIRCLE_MM, PI * CIRCLE_MM * CIRCLE_EXCESS);
        assert_near(side_sum(&d, e), d.edges[e].length_mm, ROUNDING_MM);
    }
    double area = PI * (CIRCLE_MM + 10) * (CIRCLE_MM + 10);
    assert_near(geometry_path_area(d.cut.path), area, 2 * PI * (CIRCLE_MM + 10) * (most - CIRCLE_MM + GROWN_MM));
}

/* ---- Flattening ---- */

static const double bend[4][2] = { { 0, 0 }, { 420, 90 }, { -260, 310 }, { 180, 400 } };

/* By the definition with Bernstein's polynomials. */
static vec2 bend_at(double t)
{
    double u = 1 - t, w[4] = { u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t };
    vec2 p = { 0, 0 };
    for (int i = 0; i < 4; i++)
        p = (vec2){ p.x + w[i] * bend[i][0], p.y + w[i] * bend[i][1] };
    return p;
}

static double distance_to_side(vec2 p, vec2 a, vec2 b)
{
    vec2 ab = vec2_sub(b, a), ap = vec2_sub(p, a);
    double t = fmin(1, fmax(0, vec2_dot(ap, ab) / vec2_dot(ab, ab)));
    return vec2_length(vec2_sub(ap, vec2_scale(ab, t)));
}

/* From a place of the curve to the nearest of an edge's sides. */
static double distance_to_edge(const struct draft_piece *d, int edge, vec2 p)
{
    double least = INFINITY;
    const struct draft_edge *e = &d->edges[edge];
    for (size_t i = e->first; i < e->first + e->count; i++)
        least = fmin(least, distance_to_side(p, d->seam.path.points[i % d->seam.path.count],
                                             d->seam.path.points[(i + 1) % d->seam.path.count]));
    return least;
}

/* The chords of the samples lie within |second derivative| / (8 n²) of the curve: 6 800 / (8 x 20 000²) mm. */
#define SAMPLES 20000
#define SAMPLED_MM 1e-5

static double distance_to_bend(vec2 p)
{
    double least = INFINITY;
    for (int i = 0; i < SAMPLES; i++)
        least = fmin(least, distance_to_side(p, bend_at(i / (double)SAMPLES), bend_at((i + 1) / (double)SAMPLES)));
    return least;
}

static void a_curve_is_flattened_within_a_twentieth_of_a_millimetre_both_ways(void **state)
{
    struct draft_piece d = draft_one(*state,
                                     "{ 'name': 'bend', 'points': { 'a': [0, 0], 'c1': [420, 90], 'c2': [-260, 310], "
                                     "'b': [180, 400], 'w': [-300, 600] },"
                                     "  'outline': [ { 'name': 'bend', 'path': ['a', ['c1', 'c2', 'b']] },"
                                     "    { 'name': 'back', 'path': ['b', 'w', 'a'] } ] }",
                                     0);
    for (int i = 0; i <= 5000; i++)
        assert_true(distance_to_edge(&d, 0, bend_at(i / 5000.0)) <= GROWN_MM);
    double length = 0;
    for (int i = 0; i < SAMPLES; i++)
        length += vec2_length(vec2_sub(bend_at((i + 1) / (double)SAMPLES), bend_at(i / (double)SAMPLES)));
    /* Chords are shorter than the curve: by 8/3 of the square of the sagitta over the chord, for sagittas of 0.01 mm on
     * chords of some millimetres. */
    assert_near(d.edges[0].length_mm, length, 0.02);
    const struct draft_edge *e = &d.edges[0];
    for (size_t i = e->first; i < e->first + e->count; i++) {
        vec2 a = d.seam.path.points[i], b = d.seam.path.points[i + 1];
        assert_true(distance_to_bend(a) <= SAMPLED_MM);
        assert_true(distance_to_bend(vec2_lerp(a, b, 0.5)) <= GROWN_MM);
    }
}

/* ---- Folds ---- */

/* A front on the fold: the hem's allowance is 40, the neckline's 10 at 45° to the fold, the side's 15. */
#define FRONT_POINTS "'points': { 'a': [0, 0], 'b': [200, 0], 'c': [200, 500], 'd': [100, 500], 'e': [0, 400] },"
#define FRONT                                                                                                          \
    "{ 'name': 'front', " FRONT_POINTS "  'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40 },"        \
    "    { 'name': 'side', 'path': ['b', 'c', 'd'] }, { 'name': 'neck', 'path': ['d', 'e'], 'allowance': 10 },"        \
    "    { 'name': 'centre', 'path': ['e', 'a'] } ],"                                                                  \
    "  'allowance': 15, 'fold': 'centre' }"

static void assert_keeps_off_fold(const struct draft_piece *d)
{
    struct geometry_path line = d->cut_line.path;
    assert_false(line.closed);
    for (size_t i = 0; i + 1 < line.count; i++)
        if (fabs(line.points[i].x) < 1e-6 && fabs(line.points[i + 1].x) < 1e-6)
            fail_msg("side %zu of the cut line runs along the fold", i);
}

/* The neckline meets the fold at 45°: grown by 10, it meets it 10 / sin 45° = 10 sqrt 2 higher up. */
static void a_fold_runs_on_by_its_neighbours_allowances_and_is_not_cut(void **state)
{
    struct draft_piece d = draft_one(*state, FRONT, 0);
    assert_true(d.has_fold);
    assert_at(d.fold[0], 0, 400 + 10 * sqrt(2), ROUNDING_MM);
    assert_at(d.fold[1], 0, -40, ROUNDING_MM);
    assert_keeps_off_fold(&d);
    size_t last = d.cut_line.path.count - 1;
    vec2 first_point = d.cut_line.path.points[0], last_point = d.cut_line.path.points[last];
    assert_at((struct piece_pt){ first_point.x, first_point.y }, 0, -40, ROUNDING_MM);
    assert_at((struct piece_pt){ last_point.x, last_point.y }, 0, 400 + 10 * sqrt(2), ROUNDING_MM);
    size_t seam_last = d.seam_line.path.count - 1;
    vec2 seam_first_point = d.seam_line.path.points[0], seam_last_point = d.seam_line.path.points[seam_last];
    assert_false(d.seam_line.path.closed);
    assert_at((struct piece_pt){ seam_first_point.x, seam_first_point.y }, 0, 0, ROUNDING_MM);
    assert_at((struct piece_pt){ seam_last_point.x, seam_last_point.y }, 0, 400, ROUNDING_MM);
    assert_near(geometry_path_length(d.seam_line.path), geometry_path_length(d.seam.path) - 400, ROUNDING_MM);
    double fold = 400 + 10 * sqrt(2) + 40;
    assert_near(geometry_path_length(d.cut_line.path), geometry_path_length(d.cut.path) - fold, ROUNDING_MM);
}

/* Straight above its fold this piece has a slit that is cut, reached by a notch: only the fold's own side is left open.
 */
static void another_edge_in_the_folds_line_is_still_cut(void **state)
{
    struct draft_piece d = draft_one(
        *state,
        "{ 'name': 'slit', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [200, 500], 'd': [0, 500], 'e': [0, 400],"
        "    'f': [50, 350], 'g': [0, 300] },"
        "  'outline': [ { 'name': 'rest', 'path': ['a', 'b', 'c', 'd'] }, { 'name': 'slit', 'path': ['d', 'e'] },"
        "    { 'name': 'notch', 'path': ['e', 'f', 'g'] }, { 'name': 'centre', 'path': ['g', 'a'] } ],"
        "  'fold': 'centre' }",
        0);
    assert_at(d.fold[0], 0, 300, ROUNDING_MM);
    assert_at(d.fold[1], 0, 0, ROUNDING_MM);
    assert_near(geometry_path_length(d.cut_line.path), 200 + 500 + 200 + 100 + 2 * 50 * sqrt(2), ROUNDING_MM);
}

static void a_piece_that_reaches_past_its_fold_is_refused(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room,
                                         "{ 'name': 'past', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [200, 500], "
                                         "'d': [[5, 5, -5], 500], 'e': [0, 400] },"
                                         "  'outline': [ { 'name': 'rest', 'path': ['a', 'b', 'c', 'd', 'e'] }, { "
                                         "'name': 'centre', 'path': ['e', 'a'] } ],"
                                         "  'fold': 'centre' }",
                                         "{ 'piece': 'past', 'count': 1 }");
    struct draft draft;
    draft_all(room, p, 1);
    assert_false(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    const struct err *e = room_only_told(room, "draft.past_fold");
    assert_string_equal(e->args[0].text, "past");
    assert_string_equal(e->args[1].text, "L");
    assert_int_equal(draft.piece_count, 0);
}

static void a_fold_without_length_is_refused(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(
        room,
        "{ 'name': 'point', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [200, 500], 'd': [0, [0, 300, 300]] },"
        "  'outline': [ { 'name': 'rest', 'path': ['a', 'b', 'c', 'd'] }, { 'name': 'centre', 'path': ['d', 'a'] } ],"
        "  'fold': 'centre', 'allowance': 10 }",
        "{ 'piece': 'point', 'count': 1 }");
    struct draft draft;
    draft_all(room, p, 0.5);
    assert_false(make_at_size(room->a, p, 0, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    assert_string_equal(room_only_told(room, "draft.no_fold")->args[1].text, "S");
}

/* ---- Notches and other marks ---- */

/* The front of the folds, with one edge written per side, and marks; its side is a corner of two lines. */
#define MARKED(marks)                                                                                                  \
    "{ 'name': 'front', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [200, 500], 'd': [100, 500], 'e': [0, 400],"      \
    "    'l': [60, 0], 'm': [100, 0], 'x': [80, 90], 'y': [80, [90, 90, 120]], 'z': [[100, 100, 300], 60] },"          \
    "  'outline': [ { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40 },"                                           \
    "    { 'name': 'side', 'path': ['b', 'c', 'd'] }, { 'name': 'neck', 'path': ['d', 'e'], 'allowance': 4 },"         \
    "    { 'name': 'centre', 'path': ['e', 'a'] } ],"                                                                  \
    "  'allowance': 15, 'fold': 'centre', " marks " }"

/* By hand: 30 up the side from (200, 0) and 15 out; 40 back from the end of the neckline (0, 400), which comes down at
 * 45°, and 4 out; 500 along the side to its corner and 20 back along the top. Depth is 3, and half the allowance of 4.
 */
static void notches_stand_square_to_the_seam_on_the_cut_line(void **state)
{
    struct draft_piece d = draft_one(*state,
                                     MARKED("'notches': [ { 'edge': 'side', 'at': [20, 30, 40] },"
                                            "{ 'edge': 'neck', 'from_end': 40 }, { 'edge': 'side', 'at': 520 } ]"),
                                     1);
    const double s = sqrt(0.5);
    const struct {
        double seam_x, seam_y, out_x, out_y, out_mm, depth;
    } rows[] = { { 200, 30, 1, 0, 15, 3 }, { 40 * s, 400 + 40 * s, -s, s, 4, 2 }, { 180, 500, 0, 1, 15, 3 } };
    assert_int_equal(d.notch_count, 3);
    for (int i = 0; i < 3; i++) {
        const struct draft_notch_place *p = &d.notches[i].places[0];
        assert_int_equal(d.notches[i].place_count, 1);
        assert_at(p->on_seam, rows[i].seam_x, rows[i].seam_y, ROUNDING_MM);
        assert_at(p->at, rows[i].seam_x + rows[i].out_mm * rows[i].out_x,
                  rows[i].seam_y + rows[i].out_mm * rows[i].out_y, ROUNDING_MM);
        assert_near(p->inward.x, -rows[i].out_x, ROUNDING_MM);
        assert_near(p->inward.y, -rows[i].out_y, ROUNDING_MM);
        assert_near(d.notches[i].depth_mm, rows[i].depth, 0);
    }
}

/* The neckline comes to the fold at 45°: 4 out from it, the fold is cut off 4 sqrt 2 higher. The hem is square to it.
 */
static void a_notch_where_its_edge_meets_the_fold_lies_along_the_fold(void **state)
{
    struct room *room = *state;
    struct draft_piece d =
        draft_one(room, MARKED("'notches': [ { 'edge': 'neck', 'from_end': 0 }, { 'edge': 'hem', 'at': 0 } ]"), 0);
    static const double depths[] = { 2, 3 };
    const double y[] = { 400 + 4 * sqrt(2), -40 }, seam_y[] = { 400, 0 }, inward_y[] = { -1, 1 };
    struct draft_piece whole = draft_unfold(room->a, &d);
    assert_int_equal(whole.notch_count, 2); /* its own image: snipped once */
    for (int i = 0; i < 2; i++) {
        const struct draft_notch_place *p = &whole.notches[i].places[0];
        assert_at(p->at, 0, y[i], ROUNDING_MM);
        assert_at(p->on_seam, 0, seam_y[i], ROUNDING_MM);
        assert_near(p->inward.x, 0, ROUNDING_MM);
        assert_near(p->inward.y, inward_y[i], ROUNDING_MM);
        assert_near(whole.notches[i].depth_mm, depths[i], 0);
    }
}

/* Square to the sill's end, at (100, 100), the jamb's allowance is met all the way up; the corner of the cut line lies
 * 10 out from the sill and 20 out from the jamb. At the corner (200, 0) square to either edge is right. */
static void a_notch_in_an_inner_corner_points_to_the_cut_lines_corner(void **state)
{
    struct draft_piece d = draft_one(
        *state,
        "{ 'name': 'l', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [200, 100], 'd': [100, 100], 'e': [100, 300],"
        "    'f': [0, 300] }, 'allowance': 10,"
        "  'outline': [ { 'name': 'base', 'path': ['a', 'b', 'c'] }, { 'name': 'sill', 'path': ['c', 'd'] },"
        "    { 'name': 'jamb', 'path': ['d', 'e'], 'allowance': 20 }, { 'name': 'rest', 'path': ['e', 'f', 'a'] } ],"
        "  'notches': [ { 'edge': 'sill', 'from_end': 0 }, { 'edge': 'base', 'at': 0 } ] }",
        0);
    assert_at(d.notches[0].places[0].at, 120, 110, ROUNDING_MM);
    assert_at(d.notches[0].places[0].on_seam, 100, 100, ROUNDING_MM);
    assert_near(d.notches[0].places[0].inward.x, -2 / sqrt(5), ROUNDING_MM);
    assert_at(d.notches[1].places[0].at, 0, -10, ROUNDING_MM);
}

static void a_double_notch_has_two_places_about_its_own(void **state)
{
    struct draft_piece d = draft_one(*state,
                                     MARKED("'notches': [ { 'edge': 'side', 'at': 100, 'double': true },"
                                            "{ 'edge': 'hem', 'at': 50, 'double': true, 'apart': 20 } ]"),
                                     0);
    assert_int_equal(d.notches[0].place_count, 2);
    assert_at(d.notches[0].places[0].at, 215, 94, ROUNDING_MM);
    assert_at(d.notches[0].places[1].at, 215, 106, ROUNDING_MM);
    assert_at(d.notches[1].places[0].at, 40, -40, ROUNDING_MM);
    assert_at(d.notches[1].places[1].at, 60, -40, ROUNDING_MM);
}

/* 3 deep and twice as wide: its cuts begin 3 to either side of its place, on the cut line; in the neckline's allowance
 * of 4, which runs at 45°, 2 deep and 2 to either side. */
static void a_v_is_twice_as_wide_on_the_cut_line_as_it_is_deep(void **state)
{
    struct draft_piece d = draft_one(*state,
                                     MARKED("'notches': [ { 'edge': 'side', 'at': 100, 'shape': 'v', 'double': true },"
                                            "{ 'edge': 'neck', 'from_end': 40, 'shape': 'v' },"
                                            "{ 'edge': 'side', 'at': 30, 'shape': 'slit' } ]"),
                                     0);
    const double s = sqrt(0.5);
    assert_int_equal(d.notches[0].shape, PATTERN_V);
    assert_near(d.notches[0].depth_mm, 3, 0);
    assert_at(d.notches[0].places[0].mouth[0], 215, 91, ROUNDING_MM);
    assert_at(d.notches[0].places[0].mouth[1], 215, 97, ROUNDING_MM);
    assert_at(d.notches[0].places[1].mouth[1], 215, 109, ROUNDING_MM);
    assert_at(d.notches[1].places[0].mouth[0], 38 * s, 400 + 46 * s, ROUNDING_MM);
    assert_at(d.notches[1].places[0].mouth[1], 34 * s, 400 + 42 * s, ROUNDING_MM);
    assert_int_equal(d.notches[2].shape, PATTERN_SLIT);
    assert_at(d.notches[2].places[0].mouth[0], 215, 30, ROUNDING_MM);
    assert_at(d.notches[2].places[0].mouth[1], 215, 30, ROUNDING_MM);
}

/* One millimetre from the cut line's inner corner, (110, 110), a V of 3 to either side runs 2 round it. On the fold
 * half a V is drawn; opened out it is whole. */
static void a_v_runs_round_a_corner_and_over_the_fold(void **state)
{
    struct room *room = *state;
    struct draft_piece d =
        draft_one(room,
                  "{ 'name': 'l', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [200, 100], 'd': [100, 100],"
                  "    'e': [100, 300], 'f': [0, 300] }, 'allowance': 10,"
                  "  'outline': [ { 'name': 'all', 'path': ['d', 'e', 'f', 'a', 'b', 'c', 'd'] } ],"
                  "  'notches': [ { 'edge': 'all', 'from_end': 11, 'shape': 'v' } ] }",
                  0);
    assert_at(d.notches[0].places[0].mouth[0], 114, 110, ROUNDING_MM);
    assert_at(d.notches[0].places[0].mouth[1], 110, 112, ROUNDING_MM);
    d = draft_one(room, MARKED("'notches': [ { 'edge': 'hem', 'at': 0, 'shape': 'v' } ]"), 0);
    assert_at(d.notches[0].places[0].mouth[0], 0, -40, ROUNDING_MM);
    assert_at(d.notches[0].places[0].mouth[1], 3, -40, ROUNDING_MM);
    struct draft_piece whole = draft_unfold(room->a, &d);
    assert_int_equal(whole.notch_count, 1);
    assert_at(whole.notches[0].places[0].mouth[0], -3, -40, ROUNDING_MM);
    assert_at(whole.notches[0].places[0].mouth[1], 3, -40, ROUNDING_MM);
    d = draft_one(room, MARKED("'notches': [ { 'edge': 'hem', 'at': 50, 'shape': 'v' } ]"), 0);
    whole = draft_unfold(room->a, &d);
    assert_at(whole.notches[1].places[0].mouth[0], -53, -40, ROUNDING_MM);
    assert_at(whole.notches[1].places[0].mouth[1], -47, -40, ROUNDING_MM);
}

/* Whichever way the outline is written, outwards is away from the piece. */
static void a_notch_of_an_outline_written_clockwise_points_out_too(void **state)
{
    struct draft_piece d =
        draft_one(*state,
                  "{ 'name': 'q', 'points': { 'a': [0, 0], 'b': [100, 0], 'c': [100, 100], 'd': [0, 100] },"
                  "  'outline': [ { 'name': 'all', 'path': ['a', 'd', 'c', 'b', 'a'] } ], 'allowance': 10,"
                  "  'notches': [ { 'edge': 'all', 'at': 30 }, { 'edge': 'all', 'from_end': 20 } ] }",
                  0);
    assert_at(d.notches[0].places[0].at, -10, 30, ROUNDING_MM);
    assert_at(d.notches[1].places[0].at, 20, -10, ROUNDING_MM);
}

static void a_notch_without_allowance_is_on_the_seam_and_has_no_depth(void **state)
{
    struct draft_piece d = draft_one(*state,
                                     "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 },"
                                     "  'notches': [ { 'edge': 'top', 'at': 50 } ] }",
                                     0);
    assert_at(d.notches[0].places[0].at, 150, 300, ROUNDING_MM); /* the top runs from right to left */
    assert_near(d.notches[0].depth_mm, 0, 0);
}

static void darts_lines_and_drill_marks_come_at_their_size(void **state)
{
    struct draft_piece d = draft_one(*state,
                                     MARKED("'darts': [ { 'edge': 'hem', 'legs': ['l', 'm'], 'apex': 'y' } ],"
                                            "'drill_marks': ['x', 'z'], 'lines': [ { 'kind': 'lengthen', 'from': 'e',"
                                            "'to': 'c' }, { 'kind': 'fold', 'from': 'a', 'to': 'y' } ]"),
                                     1.5);
    static const struct {
        enum pattern_line_kind kind;
        double ends[4];
    } rows[] = { { PATTERN_LINE_DART, { 60, 0, 80, 105 } },
                 { PATTERN_LINE_DART, { 100, 0, 80, 105 } },
                 { PATTERN_LINE_LENGTHEN, { 0, 400, 200, 500 } },
                 { PATTERN_LINE_FOLD, { 0, 0, 80, 105 } } };
    assert_int_equal(d.line_count, 4);
    for (int i = 0; i < 4; i++) {
        assert_int_equal(d.lines[i].kind, rows[i].kind);
        assert_at(d.lines[i].ends[0], rows[i].ends[0], rows[i].ends[1], ROUNDING_MM);
        assert_at(d.lines[i].ends[1], rows[i].ends[2], rows[i].ends[3], ROUNDING_MM);
    }
    assert_int_equal(d.drill_mark_count, 2);
    assert_at(d.drill_marks[1], 200, 60, ROUNDING_MM);
}

#define BUTTONED(rows)                                                                                                 \
    "{ 'name': 'front', 'rectangle': { 'width': 200, 'height': 300 }, 'points': { 'p': [100, 20], 'q': [100, 280],"    \
    "  'o': [0, 150], 'r': [160, 150] }, 'allowance': 10, 'buttons': [ " rows " ] }"

/* From 20 + 10 to 280 - 10 are 240: five at every 60, each 20 long, 10 to either side. Across three from 0 + 40 to 160,
 * 60 apart. One alone stands at its first, which is graded. */
static void buttons_and_buttonholes_stand_at_equal_distances(void **state)
{
    struct draft_piece d = draft_one(
        *state,
        BUTTONED("{ 'kind': 'buttonhole', 'from': 'p', 'to': 'q', 'count': 5, 'first': 10, 'last': 10, 'length': 20 },"
                 "{ 'kind': 'button', 'from': 'q', 'to': 'p', 'count': 1, 'first': [5, 6, 8] },"
                 "{ 'kind': 'button', 'from': 'p', 'to': 'q', 'count': 'floor(7 / 2)', 'last': '10 + 50' },"
                 "{ 'kind': 'buttonhole', 'from': 'o', 'to': 'r', 'count': 3, 'first': 40, 'length': [16, 18, 20],"
                 "  'across': true }"),
        1);
    assert_int_equal(d.line_count, 8);
    for (int i = 0; i < 5; i++) {
        assert_int_equal(d.lines[i].kind, PATTERN_LINE_BUTTONHOLE);
        assert_at(d.lines[i].ends[0], 100, 30 + 60 * i - 10, ROUNDING_MM);
        assert_at(d.lines[i].ends[1], 100, 30 + 60 * i + 10, ROUNDING_MM);
    }
    for (int i = 0; i < 3; i++) {
        assert_near(d.lines[5 + i].ends[0].x, 40 + 60 * i, ROUNDING_MM);
        assert_near(d.lines[5 + i].ends[1].x, 40 + 60 * i, ROUNDING_MM);
        assert_near(fabs(d.lines[5 + i].ends[0].y - d.lines[5 + i].ends[1].y), 18, ROUNDING_MM);
    }
    assert_int_equal(d.button_count, 4);
    assert_at(d.buttons[0], 100, 274, ROUNDING_MM);
    for (int i = 0; i < 3; i++) /* from 20 to 220 */
        assert_at(d.buttons[1 + i], 100, 20 + 100 * i, ROUNDING_MM);
}

/* A whole front, opened out, has those on the fold once and others on both halves. */
static void opened_out_buttons_stand_on_both_halves(void **state)
{
    struct room *room = *state;
    struct draft_piece half =
        draft_one(room,
                  MARKED("'buttons': [ { 'kind': 'button', 'from': 'a', 'to': 'e', 'count': 2 },"
                         "  { 'kind': 'button', 'from': 'x', 'to': 'c', 'count': 1 },"
                         "  { 'kind': 'buttonhole', 'from': 'a', 'to': 'e', 'count': 2, 'first': 50, 'last': 50,"
                         "    'length': 20 },"
                         "  { 'kind': 'buttonhole', 'from': 'x', 'to': 'y', 'count': 1, 'first': 9, 'length': 20 } ]"),
                  2);
    struct draft_piece whole = draft_unfold(room->a, &half);
    assert_int_equal(whole.button_count, 4);
    assert_at(whole.buttons[2], 80, 90, ROUNDING_MM);
    assert_at(whole.buttons[3], -80, 90, ROUNDING_MM);
    assert_int_equal(whole.line_count, 4);
    assert_at(whole.lines[3].ends[0], -80, 89, ROUNDING_MM);
}

/* A row has 1 to 100, by a formula too. */
static void a_row_of_too_many_buttons_is_told(void **state)
{
    struct room *room = *state;
    static const char *const rows[] = {
        BUTTONED("{ 'kind': 'button', 'from': 'p', 'to': 'q', 'count': '50 * 2 + 1' }"),
        BUTTONED("{ 'kind': 'buttonhole', 'from': 'p', 'to': 'q', 'count': '3 / 2', 'length': 9 }"),
        BUTTONED("{ 'kind': 'button', 'from': 'p', 'to': 'q', 'count': '1 - 1' }"),
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct pattern *p = pattern_of(room, rows[i], "{ 'piece': 'front', 'count': 1 }");
        struct draft draft;
        assert_false(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
        room_only_told_at(room, "draft.no_count", "pieces[0].buttons[0].count");
        room_forget(room);
    }
}

static void buttons_without_room_or_outside_are_told(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *code, *piece, *kind;
        bool is_fault;
    } rows[] = {
        { "draft.buttons_room",
          BUTTONED("{ 'kind': 'button', 'from': 'p', 'to': 'q', 'count': 2, 'last': [9, 9, 261] }"), "button", true },
        { "draft.buttons_room",
          BUTTONED("{ 'kind': 'button', 'from': 'p', 'to': 'q', 'count': 1, 'first': [9, 9, 261] }"), "button", true },
        { "draft.button_outside",
          BUTTONED("{ 'kind': 'buttonhole', 'from': 'p', 'to': 'q', 'count': 2, 'length': [39, 40, 41] }"),
          "buttonhole", true },
        { "draft.button_outside",
          BUTTONED(
              "{ 'kind': 'buttonhole', 'from': 'p', 'to': 'q', 'count': 2, 'length': [9, 9, 201], 'across': true }"),
          "buttonhole", true },
        { "draft.buttons_meet",
          BUTTONED("{ 'kind': 'buttonhole', 'from': 'p', 'to': 'q', 'count': 11, 'length': [20, 26, 27] }"),
          "buttonhole", false },
        { "draft.buttons_meet",
          BUTTONED("{ 'kind': 'button', 'from': 'p', 'to': 'q', 'count': 11, 'first': [20, 20, 251] }"), "button",
          false },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct pattern *p = pattern_of(room, rows[i].piece, "{ 'piece': 'front', 'count': 1 }");
        struct draft draft;
        draft_all(room, p, 1);
        assert_int_equal(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs),
                         !rows[i].is_fault);
        const struct err *e = room_only_told_at(room, rows[i].code, "pieces[0].buttons[0]");
        assert_string_equal(e->args[0].text, "front");
        assert_string_equal(e->args[1].text, "L");
        assert_string_equal(e->args[2].text, "p");
        assert_string_equal(e->args[3].text, rows[i].kind);
        room_forget(room);
    }
}

/* What is wrong with marks in the last size, and that it is told there and not in the first. */
static void marks_off_the_piece_are_told_with_piece_size_and_edge(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *code, *piece, *part, *path;
    } rows[] = {
        { "draft.notch_off", MARKED("'notches': [ { 'edge': 'hem', 'at': [200, 200, 201] } ]"), "hem", "notches[0]" },
        { "draft.notch_off",
          MARKED("'notches': [ { 'edge': 'side', 'at': 1 }, { 'edge': 'hem', 'from_end': [9, 9, 201] } ]"), "hem",
          "notches[1]" },
        { "draft.notch_off", MARKED("'notches': [ { 'edge': 'hem', 'at': [6, 6, 5], 'double': true } ]"), "hem",
          "notches[0]" },
        { "draft.notch_in_dart",
          MARKED("'darts': [ { 'edge': 'hem', 'legs': ['m', 'l'], 'apex': 'x' } ],"
                 "'notches': [ { 'edge': 'hem', 'at': [60, 100, 80] } ]"),
          "hem", "notches[0]" },
        { "draft.drill_outside", MARKED("'drill_marks': ['x', 'z']"), "z", "drill_marks[1]" },
        { "draft.dart_off", MARKED("'darts': [ { 'edge': 'side', 'legs': ['b', 'z'], 'apex': 'x' } ]"), "side",
          "darts[0]" },
        { "draft.apex_outside", MARKED("'darts': [ { 'edge': 'hem', 'legs': ['m', 'l'], 'apex': 'z' } ]"), "z",
          "darts[0]" },
        { "draft.line_outside",
          MARKED("'lines': [ { 'kind': 'fold', 'from': 'a', 'to': 'c' }, { 'kind': 'fold', 'from': 'x', 'to': 'z' } ]"),
          "z", "lines[1]" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct pattern *p = pattern_of(room, rows[i].piece, "{ 'piece': 'front', 'count': 1 }");
        struct draft draft;
        if (strcmp(rows[i].path, "darts[0]") != 0) /* in no size a dart that can be sewn */
            draft_all(room, p, 0);
        assert_false(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
        const struct err *e = room_only_told(room, rows[i].code);
        assert_string_equal(e->args[0].text, "front");
        assert_string_equal(e->args[1].text, "L");
        assert_string_equal(e->args[2].text, rows[i].part);
        assert_string_equal(e->place.path, base_arena_print(room->a, "pieces[0].%s", rows[i].path));
        room_forget(room);
    }
}

/* Half of 12 mm before a notch at 5 is before the start of its edge; past the end it is the end. */
static void a_notch_off_its_edge_is_told_by_the_nearer_end(void **state)
{
    struct room *room = *state;
    static const char *const ends[] = { "start", "end" };
    static const char *const places[] = { "'at': 5", "'from_end': 5" };
    for (int i = 0; i < 2; i++) {
        const char *notch = base_arena_print(room->a,
                                             "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 },"
                                             "  'notches': [ { 'edge': 'top', %s, 'double': true } ] }",
                                             places[i]);
        struct draft draft;
        const struct pattern *p = pattern_of(room, notch, "{ 'piece': 'r', 'count': 1 }");
        assert_false(make_at_size(room->a, p, 0, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
        assert_string_equal(room_only_told(room, "draft.notch_off")->args[3].text, ends[i]);
        room_forget(room);
    }
}

/* In the last size a notch has come to the other's place, and a double one's two places are one. */
static void notches_at_one_place_are_warned_of(void **state)
{
    struct room *room = *state;
    static const char *const marks[] = {
        "{ 'edge': 'top', 'at': 50 }, { 'edge': 'left', 'at': 50 }, { 'edge': 'top', 'from_end': [140, 140, 150.5] }",
        "{ 'edge': 'left', 'at': 50 }, { 'edge': 'top', 'at': 50 }, { 'edge': 'top', 'at': [70, 60, 56], 'double': "
        "true }",
        /* Vs 6 wide touch at 6 apart and overlap at 5; a V reaches 3 to its neighbour, a slit half of one */
        "{ 'edge': 'left', 'at': 50 }, { 'edge': 'top', 'at': 50, 'shape': 'v' },"
        "{ 'edge': 'top', 'at': [56, 56, 55], 'shape': 'v' }",
        "{ 'edge': 'left', 'at': 50 }, { 'edge': 'top', 'at': 50 }, { 'edge': 'top', 'at': [54, 54, 53], 'shape': 'v' }"
    };
    for (int i = 0; i < 4; i++) {
        const char *notched = base_arena_print(
            room->a,
            "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 }, 'allowance': 15, 'notches': [ %s ] }",
            marks[i]);
        struct draft draft;
        const struct pattern *p = pattern_of(room, notched, "{ 'piece': 'r', 'count': 1 }");
        draft_all(room, p, 0);
        assert_true(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
        assert_string_equal(room_only_told_at(room, "draft.notches_meet", "pieces[0].notches[2]")->args[2].text, "top");
        room_forget(room);
    }
}

/* A piece of 200 x 300 whose bottom goes by these points. Drawn by hand: within 0.5 mm over the last 2 mm and more
 * lies a spur that opens by 0.1 in 50, one that ends 0.98 wide after 10 (as a facing's that begins too low), one 0.4
 * wide all along, and a slit; a wedge of 8 on 100 (0.16 at 2 mm, 4.6 degrees), a dart of 5 on 100 that is cut out, and
 * the gap of 1 that is left by a tail do not. */
static void an_outline_that_runs_back_along_itself_is_warned_of(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *points, *way;
        bool is_told;
    } rows[] = {
        { "'s': [0, -50], 'k': [0.000000000001, 0]", "'s', 'k', 'b'", true },
        { "'s': [0, -50], 'k': [0.1, 0]", "'s', 'k', 'b'", true },
        { "'s': [0, -50], 'k': [0.4, -50], 'l': [0.4, 0]", "'s', 'k', 'l', 'b'", true },
        { "'s': [0, -50], 'k': [1, -50], 'l': [1, 0]", "'s', 'k', 'l', 'b'", false },
        { "'s': [0, 0], 'k': [100, 0], 't': [100, 50], 'l': [100.1, 0]", "'s', 'k', 't', 'l', 'b'", true },
        { "'s': [0, 0], 'k': [98, 0], 't': [100, 100], 'l': [103, 0]", "'s', 'k', 't', 'l', 'b'", false },
        { "'s': [0, -100], 'k': [8, 0]", "'s', 'k', 'b'", false },
        { "'s': [0, -1], 'k': [0.1, 0]", "'s', 'k', 'b'", false },
        { "'s': [0, -10], 'k': [0.98, 0]", "'s', 'k', 'b'", true },
        { "'s': [0, -10], 'k': [1.4, 0]", "'s', 'k', 'b'", false },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *piece = base_arena_print(
            room->a,
            "{ 'name': 'r', 'points': { 'b': [200, 0], 'c': [200, 300], 'd': [0, 300], %s }, 'allowance': 3,"
            "  'outline': [ { 'name': 'e', 'path': [%s, 'c', 'd', 's'] } ] }",
            rows[i].points, rows[i].way);
        struct draft draft;
        const struct pattern *p = pattern_of(room, piece, "{ 'piece': 'r', 'count': 1 }");
        assert_true(make_at_size(room->a, p, 0, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
        if (rows[i].is_told)
            room_only_told_at(room, "draft.runs_back", "pieces[0]");
        else
            room_nothing_told(room);
        room_forget(room);
    }
}

/* Legs from (60, 0) and (100, 0) to (80, 90) are equal; to (60, 90) they are 90 and sqrt(40² + 90²) = 98.489. */
static void legs_of_a_dart_that_differ_are_warned_of(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room,
                                         "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 }, 'points':"
                                         "  { 'l': [60, 0], 'm': [100, 0], 'x': [[80, 80, 60], 90] },"
                                         "  'darts': [ { 'edge': 'bottom', 'legs': ['l', 'm'], 'apex': 'x' } ] }",
                                         "{ 'piece': 'r', 'count': 1 }");
    struct draft draft;
    draft_all(room, p, 1);
    assert_true(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    const struct err *e = room_only_told(room, "draft.dart_legs");
    assert_near(e->args[3].number, sqrt(40 * 40 + 90 * 90) - 90, ROUNDING_MM);
}

/* The rise of the cap of a straight seam square to a dart of half width a and length l is 2 a² l / (l² - a²), at the
 * dart's middle: 0.2020 for (1, 10), 0.5143 for (1.5, 9) (derived for these values outside the program; common practice
 * gives no figure). In a seam that is straight it is the same whichever way the dart is folded; the cut line's own cap
 * lies the allowance farther out, and that by the cosine of the cap's slope. Lengths along the edge stay those drawn.
 */
static void a_folded_dart_has_its_cap(void **state)
{
    struct room *room = *state;
    static const struct {
        double half, length, rise;
    } rows[] = { { 10, 100, 2.020 }, { 15, 90, 5.143 } };
    static const char *const folds[] = { "start", "end" };
    for (int i = 0; i < 4; i++) {
        double a = rows[i / 2].half, l = rows[i / 2].length, rise = 2 * a * a * l / (l * l - a * a);
        const char *piece = base_arena_print(
            room->a,
            "{ 'name': 'r', 'rectangle': { 'width': 300, 'height': 400 }, 'allowance': 10, 'points': { 'l': [%.17g, 0],"
            "  'r': [%.17g, 0], 'x': [150, %.17g] },"
            "  'darts': [ { 'edge': 'bottom', 'legs': ['r', 'l'], 'apex': 'x', 'fold': '%s' } ] }",
            150 - a, 150 + a, l, folds[i % 2]);
        struct draft_piece d = draft_one(room, piece, 0);
        assert_near(rise, rows[i / 2].rise, 0.0005);
        assert_int_equal(d.seam.path.count, 7);
        assert_true(has_point(d.seam.path, 150 - a, 0) && has_point(d.seam.path, 150 + a, 0));
        assert_true(has_point(d.seam.path, 150, -rise));
        assert_true(has_point(d.cut.path, 150, -rise - 10 * hypot(a, rise) / a));
        assert_near(d.edges[0].length_mm, 300, ROUNDING_MM);
        assert_int_equal(d.edges[0].count, 4);
        assert_near(geometry_path_area(d.seam.path), 300 * 400 + a * rise, 1e-6);
    }
}

/* Legs of 50 from (-30, -40) and (30, -40) to the apex (0, 0). The hem comes to the left leg square to it, so that
 * mirrored in it it runs straight on, with 3 down to 4 across: it meets the dart's middle at (0, -62.5), and the cut
 * line, 10 / (4 / 5) farther, at (0, -75). To the right of the dart the hem runs level: 2 · 30² · 40 / (40² - 30²)
 * below -40, and uses 30 / 0.28 = 107.1 of the hem beside it, more than there is in the last size. */
#define SLANTED(dart)                                                                                                  \
    "{ 'name': 's', 'points': { 'a': [-110, 20], 'l': [-30, -40], 'r': [30, -40], 'b': [[150, 150, 130], -40],"        \
    "    'c': [150, 200], 'd': [-110, 200], 'x': [0, 0] },"                                                            \
    "  'outline': [ { 'name': 'hem', 'path': ['a', 'l', 'r', 'b'] }, { 'name': 'rest', 'path': ['b', 'c', 'd', 'a'] }" \
    "  ], 'allowance': 10, 'darts': [ { 'edge': 'hem', 'legs': ['l', 'r'], 'apex': 'x'" dart " } ] }"

static void a_dart_is_cut_to_the_line_it_is_folded_over(void **state)
{
    struct room *room = *state;
    struct draft_piece d = draft_one(room, SLANTED(", 'fold': 'start'"), 0);
    assert_true(has_point(d.seam.path, 0, -62.5) && has_point(d.cut.path, 0, -75));
    d = draft_one(room, SLANTED(", 'fold': 'end'"), 0);
    assert_true(has_point(d.seam.path, 0, -40 - 2.0 * 900 * 40 / 700));
    assert_near(d.edges[0].length_mm, 100 + 60 + 120, ROUNDING_MM);
    d = draft_one(room, SLANTED(""), 0); /* as it is drawn */
    assert_int_equal(d.seam.path.count, 6);
    struct draft draft;
    const struct pattern *p = pattern_of(room, SLANTED(", 'fold': 'end'"), "{ 'piece': 's', 'count': 1 }");
    draft_all(room, p, 1);
    assert_false(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    const struct err *e = room_only_told_at(room, "draft.dart_room", "pieces[0].darts[0]");
    assert_string_equal(e->args[2].text, "hem");
    assert_string_equal(e->args[3].text, "end");
}

/* p mirrored in the line from the apex to q: its distance kept, its angle as far on the other side. */
static vec2 folded(vec2 apex, vec2 q, vec2 p)
{
    double at = 2 * atan2(q.y - apex.y, q.x - apex.x) - atan2(p.y - apex.y, p.x - apex.x);
    double far = hypot(p.x - apex.x, p.y - apex.y);
    return (vec2){ apex.x + far * cos(at), apex.y + far * sin(at) };
}

#define WAIST(left, right)                                                                                             \
    "{ 'name': 'w', 'points': { 'a': [0, 300], 'b': [400, 320], 'c': [400, 0], 'd': [0, 0], 'p': [130, 190],"          \
    "    'q': [260, 190], 'm': { 'on': 'waist', 'at': 120 }, 'n': { 'on': 'waist', 'at': 150 },"                       \
    "    'o': { 'on': 'waist', 'at': 250 }, 'u': { 'on': 'waist', 'at': 275 },"                                        \
    "    'h': { 'from': 'm', 'towards': 'n', 'share': 0.5 }, 'i': { 'from': 'o', 'towards': 'u', 'share': 0.5 },"      \
    "    'j': { 'turn': 'm', 'about': 'h', 'angle': 90 }, 'k': { 'turn': 'o', 'about': 'i', 'angle': 90 },"            \
    "    'x': { 'from': 'h', 'towards': 'j', 'at': 110 }, 'y': { 'from': 'i', 'towards': 'k', 'at': 90 } },"           \
    "  'outline': [ { 'name': 'waist', 'path': ['a', ['p', 'q', 'b']] },"                                              \
    "    { 'name': 'rest', 'path': ['b', 'c', 'd', 'a'] } ], 'allowance': 10,"                                         \
    "  'darts': [ { 'edge': 'waist', 'legs': ['u', 'o'], 'apex': 'y'" right " },"                                      \
    "    { 'edge': 'waist', 'legs': ['m', 'n'], 'apex': 'x'" left " } ] }"

/* Two darts in a curved waist, written clockwise, folded away from each other. Folded as paper is, each mouth comes to
 * lie on the waist beside its dart: the half next to it once, the other twice. */
static void folded_mouths_lie_on_a_curved_edge_beside_them(void **state)
{
    struct room *room = *state;
    struct draft_piece d = draft_one(room, WAIST(", 'fold': 'start'", ", 'fold': 'end'"), 0);
    struct draft_piece drawn = draft_one(room, WAIST("", ""), 0);
    for (int dart = 0; dart < 2; dart++) {
        const struct draft_line *legs = &d.lines[2 * dart]; /* the first of them is the one it is folded over */
        vec2 apex = { legs[0].ends[1].x, legs[0].ends[1].y }, near = { legs[0].ends[0].x, legs[0].ends[0].y };
        vec2 far = { legs[1].ends[0].x, legs[1].ends[0].y }, middle = vec2_lerp(near, far, 0.5);
        vec2 crease = vec2_unit(vec2_sub(middle, apex)), across = vec2_unit(vec2_sub(far, near));
        double intake = vec2_length(vec2_sub(far, near)) / 2 / vec2_length(vec2_sub(middle, apex));
        int halves[2] = { 0, 0 };
        for (size_t i = 0; i < d.seam.path.count; i++) {
            vec2 p = d.seam.path.points[i], from = vec2_sub(p, apex);
            double slope = vec2_dot(from, across) / vec2_dot(from, crease), along;
            if (vec2_dot(from, crease) < 0 || fabs(slope) > intake - 1e-6)
                continue;
            if (slope > 1e-9)
                p = folded(apex, middle, p);
            halves[slope > 1e-9]++;
            assert_near(geometry_path_distance(drawn.seam.path, folded(apex, near, p), &along), 0, 1e-6);
        }
        assert_true(halves[0] > 2 && halves[1] > 1); /* with the middle, and without */
    }
    assert_true(geometry_path_area(d.seam.path) > geometry_path_area(drawn.seam.path));
    assert_near(d.edges[0].length_mm, drawn.edges[0].length_mm, 0);
}

/* On one edge: mouths 60..100 and 100..140 touch, 60..100 and 90..130 overlap. From two edges: the leg from (100, 0) to
 * (80, 90) is crossed by one from (0, 40) to (120, 50), and not by one that ends at (60, 50), nor by one to its apex.
 */
static void darts_that_overlap_are_warned_of(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *dart;
        bool meets;
    } rows[] = {
        { "{ 'edge': 'bottom', 'legs': ['m', 'r'], 'apex': 'y' }", false },
        { "{ 'edge': 'bottom', 'legs': ['r', 'm'], 'apex': 'x' }", false },
        { "{ 'edge': 'bottom', 'legs': ['n', 'q'], 'apex': 'y' }", true },
        { "{ 'edge': 'left', 'legs': ['u', 'v'], 'apex': 'x' }", false },
        { "{ 'edge': 'left', 'legs': ['u', 'v'], 'apex': 's' }", false },
        { "{ 'edge': 'left', 'legs': ['u', 'v'], 'apex': 't' }", true },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *piece = base_arena_print(
            room->a,
            "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 }, 'points': { 'l': [60, 0], 'm': [100, 0],"
            "  'r': [140, 0], 'n': [90, 0], 'q': [130, 0], 'u': [0, 40], 'v': [0, 60], 'x': [80, 90], 'y': [120, 90],"
            "  's': [60, 50], 't': [120, 50] },"
            "  'darts': [ { 'edge': 'bottom', 'legs': ['l', 'm'], 'apex': 'x' }, %s ] }",
            rows[i].dart);
        struct draft draft;
        assert_true(make_at_size(room->a, pattern_of(room, piece, "{ 'piece': 'r', 'count': 1 }"), 0, PATTERN_NONE,
                                 PATTERN_NONE, &draft, room->errs));
        assert_int_equal(base_err_list_has(room->errs, "draft.darts_meet"), rows[i].meets);
        for (int e = 0; e < room->errs->count; e++)
            if (strcmp(room->errs->items[e].kind->code, "draft.darts_meet") == 0)
                assert_string_equal(room->errs->items[e].place.path, "pieces[0].darts[1]");
        room_forget(room);
    }
}

/* A slot 20 wide: allowances of 9 leave 2 of it open, of 12 they close it; and a strap 40 wide with an allowance of
 * 150, where 15 was meant. */
static void allowances_that_swallow_an_edge_or_a_piece_are_warned_of(void **state)
{
    struct room *room = *state;
    const struct pattern *p =
        pattern_of(room,
                   "{ 'name': 'slot', 'points': { 'a': [0, 0], 'b': [200, 0], 'c': [200, 200], 'd': [110, 200],"
                   "    'e': [110, 80], 'f': [90, 80], 'g': [90, 200], 'h': [0, 200] },"
                   "  'outline': [ { 'name': 'rest', 'path': ['g', 'h', 'a', 'b', 'c', 'd'] },"
                   "    { 'name': 'slot', 'path': ['d', 'e', 'f', 'g'] } ], 'allowance': [5, 9, 12] },"
                   "  { 'name': 'strap', 'rectangle': { 'width': 40, 'height': 300 }, 'allowance': [15, 15, 150] }",
                   "{ 'piece': 'slot', 'count': 1 }");
    struct draft draft;
    draft_all(room, p, 1);
    assert_true(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    assert_int_equal(room->errs->count, 5);
    assert_string_equal(room->errs->items[0].kind->code, "draft.swallowed");
    assert_string_equal(room->errs->items[0].args[0].text, "slot");
    assert_string_equal(room->errs->items[0].args[1].text, "L");
    assert_string_equal(room->errs->items[0].args[2].text, "slot");
    for (int i = 1; i < 5; i++)
        assert_string_equal(room->errs->items[i].kind->code, "draft.wide_allowance");
}

/* ---- Unfolding ---- */

static bool has_notch_at(const struct draft_piece *d, double x, double y, double inward_x)
{
    for (size_t i = 0; i < d->notch_count; i++)
        for (size_t p = 0; p < d->notches[i].place_count; p++) {
            struct draft_notch_place n = d->notches[i].places[p];
            if (hypot(n.at.x - x, n.at.y - y) < ROUNDING_MM && fabs(n.inward.x - inward_x) < ROUNDING_MM)
                return true;
        }
    return false;
}

/* Twice the half's area, closed, counter-clockwise, and alike on both sides of the fold at x = 0. */
static void an_unfolded_piece_is_the_half_and_its_mirror_image(void **state)
{
    struct room *room = *state;
    struct draft_piece half =
        draft_one(room,
                  MARKED("'notches': [ { 'edge': 'side', 'at': 30 }, { 'edge': 'neck', 'from_end': 40 } ],"
                         "'drill_marks': ['x', 'a'], 'lines': [ { 'kind': 'match', 'from': 'a', 'to': 'e' },"
                         "{ 'kind': 'lengthen', 'from': 'e', 'to': 'c' } ], 'grain': ['e', 'a'], 'label_at': 'x'"),
                  0);
    struct draft_piece whole = draft_unfold(room->a, &half);
    assert_false(whole.has_fold);
    assert_true(whole.seam_line.path.closed && whole.cut_line.path.closed);
    assert_near(geometry_path_area(whole.seam.path), 2 * geometry_path_area(half.seam.path), 1e-6);
    assert_near(geometry_path_area(whole.cut.path), 2 * geometry_path_area(half.cut.path), 1e-6);
    vec2 where;
    assert_false(geometry_path_crosses_itself(whole.cut.path, &where));
    assert_near(geometry_path_length(whole.cut.path), 2 * geometry_path_length(half.cut_line.path), ROUNDING_MM);
    for (size_t i = 0; i < whole.cut.path.count; i++)
        assert_true(has_point(whole.cut.path, -whole.cut.path.points[i].x, whole.cut.path.points[i].y));
    assert_true(has_point(whole.cut.path, 215, -40) && has_point(whole.cut.path, -215, -40));

    const double s = sqrt(0.5);
    assert_int_equal(whole.notch_count, 4);
    assert_true(has_notch_at(&whole, 215, 30, -1) && has_notch_at(&whole, -215, 30, 1));
    assert_true(has_notch_at(&whole, 36 * s, 400 + 44 * s, s) && has_notch_at(&whole, -36 * s, 400 + 44 * s, -s));
    assert_int_equal(whole.drill_mark_count, 3); /* the one on the fold once */
    assert_at(whole.drill_marks[1], -80, 90, ROUNDING_MM);
    assert_int_equal(whole.line_count, 3); /* so too the line on the fold */
    assert_at(whole.lines[2].ends[1], -200, 500, ROUNDING_MM);
    assert_near(whole.grain[0].x, whole.grain[1].x, ROUNDING_MM);
    assert_true(whole.grain[0].y > whole.grain[1].y);      /* still from e to a */
    assert_near(fabs(whole.grain[0].x), 100, ROUNDING_MM); /* half way to a side, off the match line at x = 0 */
    assert_at(whole.label_at, 80, 90, 0);
    for (int e = 0; e < 3; e++)
        assert_near(side_sum(&whole, e), half.edges[e].length_mm, ROUNDING_MM);
}

static void a_piece_without_a_fold_unfolds_to_itself(void **state)
{
    struct room *room = *state;
    struct draft_piece d =
        draft_one(room, "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 }, 'allowance': 15 }", 0);
    struct draft_piece whole = draft_unfold(room->a, &d);
    assert_memory_equal(&whole, &d, sizeof d);
}

/* ---- Direction ---- */

static void assert_same_outline(struct geometry_path got, struct geometry_path want)
{
    assert_int_equal(got.count, want.count);
    for (size_t i = 0; i < want.count; i++)
        if (!has_point(got, want.points[i].x, want.points[i].y))
            fail_msg("no point at %g, %g", want.points[i].x, want.points[i].y);
}

static void an_outline_written_clockwise_is_turned_with_its_edges_and_allowances(void **state)
{
    struct room *room = *state;
    struct draft_piece want = draft_one(room, FRONT, 0);
    struct draft_piece got = draft_one(
        room,
        "{ 'name': 'front', " FRONT_POINTS "  'outline': [ { 'name': 'centre', 'path': ['a', 'e'] }, { 'name': 'neck', "
        "'path': ['e', 'd'], 'allowance': 10 },"
        "    { 'name': 'side', 'path': ['d', 'c', 'b'] }, { 'name': 'hem', 'path': ['b', 'a'], 'allowance': 40 } ],"
        "  'allowance': 15, 'fold': 'centre' }",
        0);
    assert_true(geometry_path_area(got.seam.path) > 0);
    assert_same_outline(got.seam.path, want.seam.path);
    assert_same_outline(got.cut.path, want.cut.path);
    assert_at(got.fold[0], want.fold[0].x, want.fold[0].y, ROUNDING_MM);
    assert_at(got.fold[1], want.fold[1].x, want.fold[1].y, ROUNDING_MM);
    assert_keeps_off_fold(&got);
    for (int e = 0; e < 4; e++) {
        const struct draft_edge *there = &got.edges[e], *here = &want.edges[3 - e];
        size_t n = want.seam.path.count;
        assert_int_equal(there->count, here->count);
        assert_near(there->length_mm, here->length_mm, ROUNDING_MM);
        assert_near(side_sum(&got, e), there->length_mm, ROUNDING_MM);
        vec2 a = got.seam.path.points[there->first % n], b = want.seam.path.points[here->first % n];
        assert_near(vec2_length(vec2_sub(a, b)), 0, ROUNDING_MM);
    }
}

static void an_outline_may_begin_anywhere(void **state)
{
    struct room *room = *state;
    struct draft_piece want = draft_one(room, FRONT, 0);
    struct draft_piece got = draft_one(
        room,
        "{ 'name': 'front', " FRONT_POINTS "  'outline': [ { 'name': 'side', 'path': ['b', 'c', 'd'] }, { 'name': "
        "'neck', 'path': ['d', 'e'], 'allowance': 10 },"
        "    { 'name': 'centre', 'path': ['e', 'a'] }, { 'name': 'hem', 'path': ['a', 'b'], 'allowance': 40 } ],"
        "  'allowance': 15, 'fold': 'centre' }",
        0);
    assert_same_outline(got.cut.path, want.cut.path);
    for (int e = 0; e < 4; e++)
        assert_near(side_sum(&got, e), want.edges[(e + 1) % 4].length_mm, ROUNDING_MM);
}

static void an_edge_without_length_in_a_size_has_no_sides_and_a_place(void **state)
{
    struct draft_piece d = draft_one(
        *state,
        "{ 'name': 'q', 'points': { 'a': [0, 0], 'b': [100, 0], 'c': [100, 100], 'd': [[0, 0, 10], 0] },"
        "  'outline': [ { 'name': 'rest', 'path': ['a', 'b', 'c', 'd'] }, { 'name': 'gap', 'path': ['d', 'a'] } ] }",
        0);
    assert_int_equal(d.seam.path.count, 3);
    assert_int_equal(d.edges[1].count, 0);
    assert_int_equal(d.edges[1].first, 0);
    assert_near(d.edges[1].length_mm, 0, 0);
}

/* ---- Faults ---- */

/* The lines from (0, 0) to (200, 200) and from (200, 0) to (0, 200) cross at (100, 100). */
#define BOW                                                                                                            \
    "{ 'name': 'bow', 'points': { 'a': [0, 0], 'b': [200, 200], 'c': [200, 0], 'd': [0, 200] },"                       \
    "  'outline': [ { 'name': 'one', 'path': ['a', 'b', 'c'] }, { 'name': 'two', 'path': ['c', 'd', 'a'] } ] }"
#define FLAT                                                                                                           \
    "{ 'name': 'flat', 'points': { 'a': [0, 0], 'b': [100, 0], 'c': [[200, 200, 150], [5, 5, 0]] },"                   \
    "  'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'a'] } ] }"

static void an_outline_that_crosses_itself_is_told_with_piece_size_and_place(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, BOW, "{ 'piece': 'bow', 'count': 1 }");
    struct draft draft;
    assert_false(make_at_size(room->a, p, 1.5, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    const struct err *e = room_only_told(room, "draft.crosses");
    assert_string_equal(e->args[0].text, "bow");
    assert_string_equal(e->args[1].text, "M to L");
    assert_near(e->args[2].number, 100, ROUNDING_MM);
    assert_near(e->args[3].number, 100, ROUNDING_MM);
    assert_int_equal(e->place.line, 2);
    assert_string_equal(e->place.path, "pieces[0]");
}

static void all_unsound_pieces_are_told_and_the_sound_ones_drafted(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, BOW ", " FRONT ", " FLAT, "{ 'piece': 'front', 'count': 1 }");
    struct draft draft;
    assert_false(make_at_size(room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    assert_int_equal(room->errs->count, 2);
    assert_string_equal(room->errs->items[0].kind->code, "draft.crosses");
    assert_string_equal(room->errs->items[1].kind->code, "draft.no_area");
    assert_string_equal(room->errs->items[1].args[1].text, "L");
    assert_int_equal(draft.piece_count, 1);
    assert_string_equal(draft.pieces[0].name, "front");
    room_forget(room);
    assert_true(make_at_size(room->a, p, 2, PATTERN_NONE, 0, &draft, room->errs)); /* the view cuts only the front */
}

/* ---- Sizes ---- */

static void at_whole_positions_the_points_are_exactly_those_given(void **state)
{
    struct room *room = *state;
    static const double x[] = { 200.1, 213.7, 222.9 }, y[] = { 300.3, 300.3, 311.1 };
    const struct pattern *p =
        pattern_of(room,
                   "{ 'name': 'q', 'points': { 'a': [0, 0], 'b': [[200.1, 213.7, 222.9], 0],"
                   "    'c': [[200.1, 213.7, 222.9], [300.3, 300.3, 311.1]], 'd': [0, [300.3, 300.3, 311.1]] },"
                   "  'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'd', 'a'] } ], 'label_at': 'c' }",
                   "{ 'piece': 'q', 'count': 1 }");
    for (int size = 0; size < 3; size++) {
        struct draft draft = draft_all(room, p, size);
        const struct draft_piece *d = &draft.pieces[0];
        assert_int_equal(d->seam.path.count, 4);
        assert_at((struct piece_pt){ d->seam.path.points[2].x, d->seam.path.points[2].y }, x[size], y[size], 0);
        assert_at(d->label_at, x[size], y[size], 0);
    }
    struct draft half = draft_all(room, p, 1.5);
    vec2 c = half.pieces[0].seam.path.points[2];
    assert_at((struct piece_pt){ c.x, c.y }, (x[1] + x[2]) / 2, (y[1] + y[2]) / 2, ROUNDING_MM);
}

/* ---- Grain and label ---- */

/* Centre of area of a rectangle is its middle; the arrow takes seven tenths of the extent along the grain. */
static void grain_and_label_lie_in_the_middle_unless_told_otherwise(void **state)
{
    struct draft_piece d = draft_one(*state, "{ 'name': 'r', 'rectangle': { 'width': 200, 'height': 300 } }", 0);
    assert_at(d.label_at, 100, 150, ROUNDING_MM);
    assert_at(d.grain[0], 100, 45, ROUNDING_MM);
    assert_at(d.grain[1], 100, 255, ROUNDING_MM);
}

/* The fold of a strap runs where the arrow would: the arrow lies half way to a side, and the fold is seen. */
static void a_grain_arrow_does_not_lie_on_a_line_of_the_piece(void **state)
{
    struct draft_piece d = draft_one(*state,
                                     "{ 'name': 'r', 'rectangle': { 'width': 80, 'height': 300 },"
                                     "  'points': { 'low': [40, 0], 'high': [40, 300] },"
                                     "  'lines': [ { 'kind': 'fold', 'from': 'low', 'to': 'high' } ] }",
                                     0);
    assert_near(d.grain[0].x, d.grain[1].x, ROUNDING_MM);
    assert_near(fabs(d.grain[0].x - 40), 20, ROUNDING_MM);
    assert_near(d.grain[0].y, 45, ROUNDING_MM);
    assert_near(d.grain[1].y, 255, ROUNDING_MM);
}

/* Square of 100 on the true bias, 45°: its extent along the grain is the diagonal, 100 sqrt 2; seven tenths of that
 * centred on (50, 50) runs from 15 to 85. */
static void a_grain_of_its_own_runs_from_the_first_point_to_the_second(void **state)
{
    struct room *room = *state;
    static const char *const grains[] = { "'a', 'c'", "'c', 'a'" };
    for (int i = 0; i < 2; i++) {
        const char *piece = base_arena_print(
            room->a,
            "{ 'name': 'bias', 'points': { 'a': [0, 0], 'b': [100, 0], 'c': [100, 100], 'd': [0, 100] },"
            "  'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'd', 'a'] } ], 'grain': [%s] }",
            grains[i]);
        struct draft_piece d = draft_one(room, piece, 0);
        assert_at(d.grain[i], 15, 15, ROUNDING_MM);
        assert_at(d.grain[1 - i], 85, 85, ROUNDING_MM);
    }
}

static void a_grain_without_direction_is_refused(void **state)
{
    struct room *room = *state;
    const struct pattern *p =
        pattern_of(room,
                   "{ 'name': 'r', 'points': { 'a': [0, 0], 'b': [100, 0], 'c': [100, 100], 'g': [[0, 0, 1], 0] },"
                   "  'outline': [ { 'name': 'all', 'path': ['a', 'b', 'c', 'a'] } ], 'grain': ['a', 'g'] }",
                   "{ 'piece': 'r', 'count': 1 }");
    struct draft draft;
    draft_all(room, p, 2);
    assert_false(make_at_size(room->a, p, 1, PATTERN_NONE, PATTERN_NONE, &draft, room->errs));
    assert_string_equal(room_only_told(room, "draft.no_grain")->args[1].text, "M");
}

/* ---- Which pieces ---- */

#define THREE_PIECES                                                                                                   \
    "{ 'name': 'back', 'rectangle': { 'width': 10, 'height': 10 } },"                                                  \
    "{ 'name': 'small', 'cup_group': 'A-B', 'rectangle': { 'width': 10, 'height': 10 } },"                             \
    "{ 'name': 'full', 'cup_group': 'C-D', 'rectangle': { 'width': 10, 'height': 10 } }"

static void a_view_is_drafted_with_the_pieces_of_one_cup_group_in_the_order_of_its_list(void **state)
{
    struct room *room = *state;
    const struct pattern *p =
        pattern_of(room, THREE_PIECES,
                   "{ 'piece': 'full', 'count': 1 }, { 'piece': 'small', 'count': 1 },"
                   "{ 'piece': 'back', 'count': 2, 'cloth': 'lining' }, { 'piece': 'full', 'count': 3 }");
    struct draft draft;
    assert_true(make_at_size(room->a, p, 0, 1, 0, &draft, room->errs));
    assert_int_equal(draft.piece_count, 2);
    assert_int_equal(draft.cut_count, 3);
    static const struct {
        const char *name;
        int count;
        enum pattern_cloth cloth;
    } rows[] = { { "full", 1, PATTERN_FABRIC }, { "back", 2, PATTERN_LINING }, { "full", 3, PATTERN_FABRIC } };
    for (int i = 0; i < 3; i++) {
        assert_string_equal(draft.pieces[draft.cuts[i].piece].name, rows[i].name);
        assert_int_equal(draft.cuts[i].count, rows[i].count);
        assert_int_equal(draft.cuts[i].cloth, rows[i].cloth);
    }
}

static void without_a_view_all_pieces_of_the_cup_group_are_drafted(void **state)
{
    struct room *room = *state;
    const struct pattern *p = pattern_of(room, THREE_PIECES, "{ 'piece': 'back', 'count': 1 }");
    struct draft draft;
    assert_true(make_at_size(room->a, p, 0, 0, PATTERN_NONE, &draft, room->errs));
    assert_int_equal(draft.piece_count, 2);
    assert_string_equal(draft.pieces[0].name, "back");
    assert_string_equal(draft.pieces[1].name, "small");
    assert_int_equal(draft.cut_count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_rectangle_grows_by_its_allowance_with_square_corners),
        room_test(every_edge_of_a_rectangle_has_its_own_allowance),
        room_test(a_triangle_keeps_its_shape_when_it_grows),
        room_test(a_circle_of_four_cubics_stays_round_and_grows_to_a_circle),
        room_test(a_curve_is_flattened_within_a_twentieth_of_a_millimetre_both_ways),
        room_test(a_fold_runs_on_by_its_neighbours_allowances_and_is_not_cut),
        room_test(another_edge_in_the_folds_line_is_still_cut),
        room_test(a_piece_that_reaches_past_its_fold_is_refused),
        room_test(a_fold_without_length_is_refused),
        room_test(notches_stand_square_to_the_seam_on_the_cut_line),
        room_test(a_notch_where_its_edge_meets_the_fold_lies_along_the_fold),
        room_test(a_notch_in_an_inner_corner_points_to_the_cut_lines_corner),
        room_test(a_double_notch_has_two_places_about_its_own),
        room_test(a_v_is_twice_as_wide_on_the_cut_line_as_it_is_deep),
        room_test(a_v_runs_round_a_corner_and_over_the_fold),
        room_test(a_notch_of_an_outline_written_clockwise_points_out_too),
        room_test(a_notch_without_allowance_is_on_the_seam_and_has_no_depth),
        room_test(darts_lines_and_drill_marks_come_at_their_size),
        room_test(marks_off_the_piece_are_told_with_piece_size_and_edge),
        room_test(a_notch_off_its_edge_is_told_by_the_nearer_end),
        room_test(notches_at_one_place_are_warned_of),
        room_test(an_outline_that_runs_back_along_itself_is_warned_of),
        room_test(legs_of_a_dart_that_differ_are_warned_of),
        room_test(buttons_and_buttonholes_stand_at_equal_distances),
        room_test(opened_out_buttons_stand_on_both_halves),
        room_test(a_row_of_too_many_buttons_is_told),
        room_test(buttons_without_room_or_outside_are_told),
        room_test(a_folded_dart_has_its_cap),
        room_test(a_dart_is_cut_to_the_line_it_is_folded_over),
        room_test(folded_mouths_lie_on_a_curved_edge_beside_them),
        room_test(darts_that_overlap_are_warned_of),
        room_test(allowances_that_swallow_an_edge_or_a_piece_are_warned_of),
        room_test(an_unfolded_piece_is_the_half_and_its_mirror_image),
        room_test(a_piece_without_a_fold_unfolds_to_itself),
        room_test(an_outline_written_clockwise_is_turned_with_its_edges_and_allowances),
        room_test(an_outline_may_begin_anywhere),
        room_test(an_edge_without_length_in_a_size_has_no_sides_and_a_place),
        room_test(an_outline_that_crosses_itself_is_told_with_piece_size_and_place),
        room_test(all_unsound_pieces_are_told_and_the_sound_ones_drafted),
        room_test(at_whole_positions_the_points_are_exactly_those_given),
        room_test(grain_and_label_lie_in_the_middle_unless_told_otherwise),
        room_test(a_grain_arrow_does_not_lie_on_a_line_of_the_piece),
        room_test(a_grain_of_its_own_runs_from_the_first_point_to_the_second),
        room_test(a_grain_without_direction_is_refused),
        room_test(a_view_is_drafted_with_the_pieces_of_one_cup_group_in_the_order_of_its_list),
        room_test(without_a_view_all_pieces_of_the_cup_group_are_drafted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
