#include "draft/draft.h"
#include "lifting/doubt.h"
#include "lifting/fit.h"
#include "lifting/shapes.h"
#include "lifting/write.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"

enum { SIZES = 5, PLACES = 200 };

/* What the outlines in a plane of their own are drawn to in all; that much is a curve's chord off (DRAFT_FLATTEN_MM).
 */
#define DRAFTED_MM (LIFTING_FIT_MM + DRAFT_FLATTEN_MM)

static const char *const size_names[] = { "36", "38", "40", "42", "44" };

/* A sheet with a few pieces, as it is lifted. */
struct sheet_of {
    struct room *room;
    struct lifting_division division;
    struct lifting_piece pieces[4];
    struct lifting_mark marks[8 * SIZES];
    struct lifting l;
    struct lifting_wish wish;
};

static struct sheet_of begin(struct room *room)
{
    return (struct sheet_of){ .room = room,
                              .division = { .sizes = size_names, .size_count = SIZES },
                              .wish = { .name = "Lifted", .unit = UNITS_MM } };
}

static struct lifting_piece *add(struct sheet_of *s, const char *name, const struct geometry_path *outlines)
{
    struct lifting_outline *all = base_arena_alloc(s->room->a, SIZES, sizeof *all);
    struct lifting_piece *piece = &s->pieces[s->l.piece_count++];
    for (size_t k = 0; k < SIZES; k++)
        all[k] = (struct lifting_outline){ .there = outlines[k].count > 0, .path = { outlines[k] } };
    *piece = (struct lifting_piece){ .words = { .name = name, .count = 1 },
                                     .cup_group = LIFTING_NONE,
                                     .outlines = all,
                                     .marks = s->marks,
                                     .grain = { 0, 1 } };
    return piece;
}

/* A mark through such points; `size` LIFTING_NONE: in all. */
static struct lifting_mark *mark(struct sheet_of *s, struct lifting_piece *piece, enum lifting_mark_kind kind, int size,
                                 const double *xy, size_t count)
{
    struct shape shape = shape_begin(s->room->a);
    for (size_t i = 0; i < count; i++)
        shape_point(&shape, xy[2 * i], xy[2 * i + 1]);
    shape.path.closed = false;
    struct lifting_mark *m = &s->marks[piece->mark_count++];
    *m = (struct lifting_mark){ .kind = kind, .size = size, .path = { shape.path } };
    return m;
}

#define MARK(s, piece, kind, size, ...)                                                                                \
    mark(s, piece, kind, size, (const double[]){ __VA_ARGS__ },                                                        \
         sizeof((const double[]){ __VA_ARGS__ }) / sizeof(double) / 2)

static const struct pattern *written(struct sheet_of *s)
{
    s->l.division = &s->division;
    s->l.pieces = s->pieces;
    const char *text = lifting_write(s->room->a, &s->l, &s->wish, s->room->errs);
    assert_non_null(text);
    const struct pattern *p = pattern_parse(s->room->a, "lifted.json", text, strlen(text), s->room->errs);
    if (!p)
        room_print_told(s->room);
    assert_non_null(p);
    return p;
}

static vec2 point_at(const struct pattern_piece *piece, int point, double position)
{
    return (vec2){ pattern_value_at(piece->points[point].v[0], position),
                   pattern_value_at(piece->points[point].v[1], position) };
}

/* The outline as the file tells it, by de Casteljau's construction. */
static struct geometry_path told_outline(struct arena *a, const struct pattern_piece *piece, double position)
{
    struct shape s = shape_begin(a);
    for (size_t e = 0; e < piece->edge_count; e++) {
        vec2 at = point_at(piece, piece->edges[e].start, position);
        for (size_t i = 0; i < piece->edges[e].step_count; i++) {
            const struct pattern_step *step = &piece->edges[e].steps[i];
            vec2 end = point_at(piece, step->end, position);
            if (step->kind == PATTERN_STEP_LINE) {
                shape_point(&s, at.x, at.y);
            } else {
                const vec2 p[] = { at, point_at(piece, step->control[0], position),
                                   point_at(piece, step->control[1], position), end };
                struct geometry_path seen = shape_seen_cubic(a, p, PLACES);
                for (size_t k = 0; k + 1 < seen.count; k++)
                    shape_point(&s, seen.points[k].x, seen.points[k].y);
            }
            at = end;
        }
    }
    return s.path;
}

static struct geometry_path moved(struct arena *a, struct geometry_path p, vec2 by)
{
    struct geometry_path out = geometry_path_copy(a, p);
    for (size_t i = 0; i < out.count; i++)
        out.points[i] = vec2_add(out.points[i], by);
    return out;
}

static void assert_same_line(struct geometry_path one, struct geometry_path other, double tol)
{
    double there = shape_farthest(one, other, 1), back = shape_farthest(other, one, 1);
    if (!(there <= tol && back <= tol))
        fail_msg("the lines are %g and %g apart, not %g", there, back, tol);
}

/* In every size what is told and what is drafted lies on what was drawn, moved by whole mm in all sizes alike. */
static void assert_as_drawn(struct sheet_of *s, const struct pattern *p, size_t piece, vec2 by)
{
    for (size_t k = 0; k < SIZES; k++) {
        struct draft draft;
        struct geometry_path drawn = moved(s->room->a, s->pieces[piece].outlines[k].path.path, by);
        assert_same_line(told_outline(s->room->a, &p->pieces[piece], (double)k), drawn, LIFTING_FIT_MM);
        assert_true(make_at_size(s->room->a, p, (double)k, PATTERN_NONE, PATTERN_NONE, &draft, s->room->errs));
        room_nothing_told(s->room);
        struct geometry_path line = s->wish.cutting_line ? draft.pieces[piece].cut.path : draft.pieces[piece].seam.path;
        assert_same_line(line, drawn, DRAFTED_MM);
    }
}

/* ---- Tests ---- */

static void rectangles(struct arena *a, struct geometry_path *out)
{
    for (int k = 0; k < SIZES; k++)
        out[k] = shape_rectangle(a, 500, 700, 200 + 10 * k, 300 + 5 * k, k % 4);
}

static void a_rectangle_has_four_lines_and_whole_numbers(void **state)
{
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    rectangles(s.room->a, outlines);
    add(&s, "front", outlines);
    const struct pattern *p = written(&s);
    const struct pattern_piece *front = &p->pieces[0];
    room_nothing_told(s.room);
    assert_int_equal(front->edge_count, 4);
    assert_int_equal(front->point_count, 6);
    assert_string_equal(front->points[front->grain[0]].name, "grain 1");
    assert_false(pattern_has_chart(p));
    assert_int_equal(p->outline, PATTERN_STITCHING_LINE);
    assert_string_equal(p->sizes[4], "44");
    for (size_t i = 0; i < 4; i++) { /* one at the origin, the others as the rectangle has grown */
        vec2 at = point_at(front, (int)i, 1.5);
        assert_true(fabs(at.x) < 1e-9 || fabs(at.x - 215) < 1e-9);
        assert_true(fabs(at.y) < 1e-9 || fabs(at.y - 307.5) < 1e-9);
    }
    assert_as_drawn(&s, p, 0, (vec2){ -500, -700 });
}

/* Half of a front on the fold: armhole and neckline as drawn cubics, the side a line. In steps whose chords lie within
 * 0.002 mm. */
static void fronts(struct arena *a, struct geometry_path *out)
{
    for (int k = 0; k < SIZES; k++) {
        struct shape s = shape_begin(a);
        double w = 6.0 * k, h = 4.0 * k;
        shape_point(&s, 100, 100);
        shape_point(&s, 350 + w, 100);
        shape_point(&s, 360 + w, 400 + h);
        shape_cubic(&s, (vec2){ 300 + w / 2, 405 + h }, (vec2){ 305 + w / 2, 520 + h },
                    (vec2){ 320 + w / 2, 560 + h * 1.5 }, 160);
        shape_point(&s, 180, 590 + h * 1.5);
        shape_cubic(&s, (vec2){ 180, 540 + h }, (vec2){ 150, 520 + h }, (vec2){ 100, 520 + h }, 100);
        out[k] = s.path;
    }
}

static void a_front_on_the_fold_is_as_drawn(void **state)
{
    static const struct {
        enum units_length unit;
        bool cutting_line;
        double allowance_mm;
    } rows[] = { { UNITS_MM, false, 15 }, { UNITS_CM, true, 0 }, { UNITS_IN, true, 15.875 } };
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        struct sheet_of s = begin(*state);
        struct geometry_path outlines[SIZES];
        fronts(s.room->a, outlines);
        struct lifting_piece *piece = add(&s, "front", outlines);
        MARK(&s, piece, LIFTING_FOLD, 4, 100, 100, 100, 536);
        piece->words.on_fold = true;
        s.wish.unit = rows[r].unit;
        s.wish.cutting_line = rows[r].cutting_line;
        s.wish.allowance_mm = rows[r].allowance_mm;
        const struct pattern *p = written(&s);
        const struct pattern_piece *front = &p->pieces[0];
        room_nothing_told(s.room);
        assert_int_equal(p->unit, rows[r].unit);
        assert_int_equal(front->edge_count, 6);
        assert_int_equal(front->fold, pattern_find_edge(front, "fold"));
        size_t cubics = 0;
        for (size_t e = 0; e < front->edge_count; e++) {
            assert_int_equal(front->edges[e].step_count, 1);
            cubics += front->edges[e].steps[0].kind == PATTERN_STEP_CUBIC;
        }
        assert_int_equal(cubics, 2);
        if (!rows[r].cutting_line || rows[r].allowance_mm == 0)
            assert_as_drawn(&s, p, 0, (vec2){ -100, -100 });
        vec2 half = point_at(front, front->edges[2].steps[0].control[0], 0.5);
        assert_near(half.x, 300 + 1.5 - 100, 0.002); /* the mean of both sizes' controls */
        assert_near(half.y, 405 + 2 - 100, 0.002);
    }
}

/* Drawn by the cutting line, 10 mm wide allowances within: the stitching line begins 10 mm further on. */
static void notches_stand_along_the_stitching_line(void **state)
{
    static const struct {
        bool cutting_line;
        double at_mm;
    } rows[] = { { false, 40 }, { true, 30 } };
    for (size_t r = 0; r < 2; r++) {
        struct sheet_of s = begin(*state);
        struct geometry_path outlines[SIZES];
        rectangles(s.room->a, outlines);
        struct lifting_piece *piece = add(&s, "front", outlines);
        for (int k = 0; k < SIZES; k++) {
            MARK(&s, piece, LIFTING_NOTCH, k, 700 + 10 * k, 740 + 3 * k);            /* on the right, from below */
            struct lifting_mark *pair = MARK(&s, piece, LIFTING_NOTCH, k, 500, 760); /* on the left, from its end */
            pair->apart_mm = 8;
            pair->is_v = true;
        }
        s.wish.cutting_line = rows[r].cutting_line;
        s.wish.allowance_mm = 10;
        const struct pattern *p = written(&s);
        room_nothing_told(s.room);
        const struct pattern_piece *front = &p->pieces[0];
        assert_int_equal(front->notch_count, 2);
        for (size_t i = 0; i < 2; i++) {
            const struct pattern_notch *notch = &front->notches[i];
            for (int k = 0; k < SIZES; k++)
                assert_near(pattern_value_at(notch->at, k),
                            notch->is_double ? rows[r].at_mm + 20 : rows[r].at_mm + 3 * k, 0.001);
            assert_int_equal(notch->from_end, notch->is_double);
            assert_int_equal(notch->shape, notch->is_double ? PATTERN_V : PATTERN_SLIT);
            assert_near(notch->is_double ? notch->apart_mm : 8, 8, 1e-9);
        }
        struct draft draft;
        assert_true(make_at_size(s.room->a, p, 2, PATTERN_NONE, PATTERN_NONE, &draft, s.room->errs));
        for (size_t i = 0; i < 2 && rows[r].cutting_line; i++) {
            struct piece_pt at = draft.pieces[0].notches[i].places[0].at;
            if (draft.pieces[0].notches[i].place_count == 1) {
                assert_near(at.x, 220, 0.01);
                assert_near(at.y, 46, 0.01);
            }
        }
    }
}

static void a_notch_that_a_size_lacks_is_put_there(void **state)
{
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    rectangles(s.room->a, outlines);
    struct lifting_piece *piece = add(&s, "front", outlines);
    for (int k = 0; k < SIZES; k++)
        if (k != 2)
            MARK(&s, piece, LIFTING_NOTCH, k, 700 + 10 * k, 730 + 0.5 * k); /* a tenth of the edge */
    const struct pattern *p = written(&s);
    assert_int_equal(p->pieces[0].notch_count, 1);
    assert_near(pattern_value_at(p->pieces[0].notches[0].at, 2), 31, 0.001);
}

static void inner_marks_are_points_in_every_size(void **state)
{
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    rectangles(s.room->a, outlines);
    struct lifting_piece *piece = add(&s, "front", outlines);
    piece->grain = (vec2){ 0.6, 0.8 };
    MARK(&s, piece, LIFTING_DRILL, LIFTING_NONE, 600, 800);
    for (int k = 0; k < SIZES; k++) {
        MARK(&s, piece, LIFTING_DRILL, k, 540 + 2 * k, 900);
        MARK(&s, piece, LIFTING_DART, k, 580 + 2 * k, 700, 600 + 2 * k, 780, 620 + 2 * k, 700);
        MARK(&s, piece, LIFTING_LENGTHEN, k, 490, 850 + k, 800, 850 + k);
        MARK(&s, piece, LIFTING_INNER, k, 520, 720, 560 + k, 720, 560 + k, 760); /* a pocket's corner */
    }
    const struct pattern *p = written(&s);
    const struct pattern_piece *front = &p->pieces[0];
    room_nothing_told(s.room);
    assert_int_equal(front->drill_mark_count, 2);
    assert_int_equal(front->dart_count, 1);
    assert_int_equal(front->line_count, 3);
    assert_int_equal(front->lines[0].kind, PATTERN_LINE_LENGTHEN);
    assert_int_equal(front->lines[2].kind, PATTERN_LINE_PLACEMENT);
    vec2 bottom = point_at(front, front->lines[2].ends[0], 2), top = point_at(front, front->lines[2].ends[1], 2);
    assert_near(bottom.x, 62, 1e-6);
    assert_near(top.y, 60, 1e-6);
    vec2 apex = point_at(front, front->darts[0].apex, 3), leg = point_at(front, front->darts[0].legs[0], 3);
    assert_near(apex.x, 106, 1e-9);
    assert_near(apex.y, 80, 1e-9);
    assert_near(leg.x, 86, 1e-9);
    assert_near(leg.y, 0, 1e-9);
    vec2 from = point_at(front, front->lines[0].ends[0], 1), to = point_at(front, front->lines[0].ends[1], 1);
    assert_near(from.x, 0.2, 1e-6); /* a little within the piece */
    assert_near(to.x, 209.8, 1e-6);
    assert_near(to.y, 151, 1e-9);
    vec2 grain = vec2_sub(point_at(front, front->grain[1], 0), point_at(front, front->grain[0], 0));
    assert_near(grain.x * 0.8 - grain.y * 0.6, 0, 0.01);
    assert_as_drawn(&s, p, 0, (vec2){ -500, -700 });
}

/* Rectangles from (500, 700) on: a place of the sheet is moved by (-500, -700). */
static void the_grain_line_is_where_it_was_drawn(void **state)
{
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    rectangles(s.room->a, outlines);
    struct lifting_piece *front = add(&s, "front", outlines);
    MARK(&s, front, LIFTING_GRAIN, LIFTING_NONE, 530, 720, 530, 990);
    const struct pattern_piece *told = &written(&s)->pieces[0];
    for (int i = 0; i < 2; i++) {
        vec2 at = point_at(told, told->grain[i], 1);
        assert_near(at.x, 30, 1e-9);
        assert_near(at.y, i ? 290 : 20, 1e-9);
    }
    front->marks = NULL;
    front->mark_count = 0; /* none: 100 mm long in the middle of the largest, which is 240 by 320 */
    told = &written(&s)->pieces[0];
    assert_near(point_at(told, told->grain[0], 0).y, 110, 1e-9);
    assert_near(point_at(told, told->grain[1], 0).y, 210, 1e-9);
    assert_near(point_at(told, told->grain[1], 0).x, 120, 1e-9);
}

static void sizes_laid_apart_lie_over_each_other(void **state)
{
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    for (int k = 0; k < SIZES; k++)
        outlines[k] = shape_rectangle(s.room->a, 600 * k, 30 * k, 200 + 10 * k, 300, 0);
    add(&s, "front", outlines);
    const struct pattern *p = written(&s);
    for (int k = 0; k < SIZES; k++)
        assert_same_line(told_outline(s.room->a, &p->pieces[0], k),
                         shape_rectangle(s.room->a, 0, 0, 200 + 10 * k, 300, 0), 1e-6);
}

static void what_is_not_drawn_in_a_size_is_its_neighbours(void **state)
{
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    rectangles(s.room->a, outlines);
    outlines[0].count = outlines[1].count = outlines[4].count = 0;
    add(&s, "pocket", outlines);
    const struct pattern *p = written(&s);
    const struct err *told = room_only_told(s.room, "lifting.stands_in");
    assert_string_equal(told->args[0].text, "pocket");
    assert_string_equal(told->args[1].text, "36, 38, 44");
    room_forget(s.room);
    for (int k = 0; k < SIZES; k++) {
        struct geometry_path told_line = told_outline(s.room->a, &p->pieces[0], k);
        assert_near(geometry_path_area(told_line), k < 3 ? 220.0 * 310 : 230.0 * 315, 0.1);
    }
}

static void names_cuts_and_cup_groups_are_written(void **state)
{
    static const char *const groups[] = { "A-B", "C-D" };
    static const double bust[] = { 840, 880, 920, 960, 1000 };
    static const struct lifting_row row = { "bust", bust };
    static const struct lifting_chart chart = { .size_count = SIZES, .rows = &row, .row_count = 1 };
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    rectangles(s.room->a, outlines);
    for (int i = 0; i < 4; i++)
        add(&s, i < 3 ? "front no. 1" : NULL, outlines)->cup_group = i < 2 ? i : LIFTING_NONE;
    s.pieces[0].words.number = "7";
    s.pieces[2].words = (struct lifting_words){ .name = "front no. 1",
                                                .count = 2,
                                                .pairs = true,
                                                .cloths = 1 << LIFTING_FABRIC | 1 << LIFTING_INTERFACING,
                                                .counts = { 0, 1, 0 } };
    s.pieces[3].words.count = 0;
    s.division.cup_groups = groups;
    s.division.cup_group_count = 2;
    s.wish.chart = &chart;
    const struct pattern *p = written(&s);
    room_nothing_told(s.room);
    assert_string_equal(p->pieces[0].name, "front no  1");
    assert_string_equal(p->pieces[0].label, "7 front no. 1");
    assert_string_equal(p->pieces[1].name, "front no  1 C-D");
    assert_string_equal(p->pieces[2].name, "front no  1 2");
    assert_string_equal(p->pieces[3].name, "piece 4");
    assert_int_equal(p->pieces[1].cup_group, 1);
    assert_int_equal(p->pieces[3].cup_group, PATTERN_NONE);
    assert_int_equal(p->main_row, 0);
    assert_near(pattern_value_at(p->chart[0].value, 1), 880, 1e-9);
    assert_int_equal(p->views[0].cut_count, 5);
    const struct pattern_cut *cuts = p->views[0].cuts;
    assert_int_equal(cuts[2].hand, PATTERN_PAIRS);
    assert_int_equal(cuts[2].count.number, 2);
    assert_int_equal(cuts[3].cloth, PATTERN_INTERFACING);
    assert_int_equal(cuts[3].count.number, 1);
    assert_int_equal(cuts[4].count.number, 1);
}

static void sizes_beside_each_other_are_doubted(void **state)
{
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    rectangles(s.room->a, outlines);
    assert_int_equal(lifting_doubt_sizes(add(&s, "front", outlines), SIZES), 0);
    struct geometry_path kept = outlines[1];
    outlines[1] = outlines[3];
    outlines[3] = kept;
    assert_int_equal(lifting_doubt_sizes(add(&s, "mixed up", outlines), SIZES), LIFTING_DOUBT_ORDER);
    rectangles(s.room->a, outlines);
    static const double xy[][2] = { { 500, 700 }, { 720, 700 }, { 720, 980 }, { 690, 1010 }, { 500, 1010 } };
    struct shape cut = shape_begin(s.room->a); /* a corner is cut off in one size */
    for (size_t i = 0; i < 5; i++)
        shape_point(&cut, xy[i][0], xy[i][1]);
    outlines[2] = cut.path;
    assert_int_equal(lifting_doubt_sizes(add(&s, "cut off", outlines), SIZES), LIFTING_DOUBT_MATCH);
}

static void a_fold_that_is_not_found_is_told(void **state)
{
    struct sheet_of s = begin(*state);
    struct geometry_path outlines[SIZES];
    rectangles(s.room->a, outlines);
    add(&s, "front", outlines)->words.on_fold = true;
    assert_int_equal(written(&s)->pieces[0].fold, PATTERN_NONE);
    room_only_told(s.room, "lifting.no_fold");
}

static void nothing_to_write_is_told(void **state)
{
    struct sheet_of s = begin(*state);
    s.l.division = &s.division;
    assert_null(lifting_write(s.room->a, &s.l, &s.wish, s.room->errs));
    room_only_told(s.room, "lifting.no_piece");
}

/* A generator of numbers from 0 to 1 (Knuth's MMIX constants). */
static double next(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

/* A round outline of a few waves, each grown from size to size, begun anywhere; as points every third of a degree. */
static void random_outlines(struct arena *a, uint64_t seed, struct geometry_path *out)
{
    double radius[6], grow[6], phase[6], turn = 2 * 3.14159265358979323846;
    for (int i = 0; i < 6; i++) {
        radius[i] = i ? 60 * (next(&seed) - 0.5) / (i * i) : 150 + 100 * next(&seed);
        grow[i] = i ? 2 * (next(&seed) - 0.5) / i : 4 + 4 * next(&seed);
        phase[i] = turn * next(&seed);
    }
    for (int k = 0; k < SIZES; k++) {
        struct shape s = shape_begin(a);
        double from = turn * next(&seed);
        for (int i = 0; i < 1080; i++) {
            double angle = from + turn * i / 1080, r = 0;
            for (int h = 0; h < 6; h++)
                r += (radius[h] + grow[h] * k) * cos(h * (angle - phase[h]));
            shape_point(&s, 600 + r * cos(angle), 600 + r * sin(angle));
        }
        out[k] = s.path;
    }
}

static void random_round_outlines_are_as_drawn(void **state)
{
    size_t steps = 0;
    for (uint64_t seed = 1; seed <= 6; seed++) {
        struct sheet_of s = begin(*state);
        struct geometry_path outlines[SIZES];
        random_outlines(s.room->a, seed, outlines);
        add(&s, "round", outlines);
        const struct pattern *p = written(&s);
        struct geometry_box box = geometry_path_box(outlines[SIZES - 1]);
        for (size_t e = 0; e < p->pieces[0].edge_count; e++)
            steps += p->pieces[0].edges[e].step_count;
        assert_as_drawn(&s, p, 0, (vec2){ -floor(box.min.x), -floor(box.min.y) });
    }
    printf("steps of a round outline: %.1f\n", (double)steps / 6);
    assert_true(steps <= 6 * 24);
}

/* A star of a few sharp points, other in every size; often with tiny sides, or points that tremble. */
static struct geometry_path random_star(struct arena *a, uint64_t *seed, int points, double tremble_mm)
{
    struct shape s = shape_begin(a);
    double turn = 2 * 3.14159265358979323846;
    for (int i = 0; i < points; i++) {
        double angle = turn * (i + 0.8 * next(seed)) / points, r = 40 + 160 * next(seed);
        double x = 500 + r * cos(angle), y = 500 + r * sin(angle);
        shape_point(&s, x, y);
        if (next(seed) < 0.3)
            shape_point(&s, x + tremble_mm * (next(seed) - 0.5) + 1e-6, y + tremble_mm * (next(seed) - 0.5));
    }
    return s.path;
}

/* Marks of all kinds anywhere about the piece. */
static void random_marks(struct sheet_of *s, uint64_t *seed, struct lifting_piece *piece)
{
    static const size_t points[] = {
        [LIFTING_GRAIN] = 2,    [LIFTING_FOLD] = 2, [LIFTING_NOTCH] = 1,  [LIFTING_DRILL] = 1,
        [LIFTING_LENGTHEN] = 2, [LIFTING_DART] = 3, [LIFTING_STITCH] = 4, [LIFTING_INNER] = 4
    };
    for (int i = 0; i < 6 * SIZES; i++) {
        double xy[8];
        enum lifting_mark_kind kind = (enum lifting_mark_kind)(next(seed) * 8);
        for (size_t k = 0; k < 8; k++)
            xy[k] = 300 + 400 * next(seed);
        int size = (int)(next(seed) * (SIZES + 1)) - 1;
        mark(s, piece, kind, size, xy, points[kind])->apart_mm = next(seed) < 0.3 ? 8 : 0;
    }
}

/* Whatever was lifted is written so that it can be read, and no mark of it is refused when it is drafted. Outlines may
 * well be unsound: these were. */
static void whatever_is_lifted_can_be_read_and_its_marks_drafted(void **state)
{
    static const char *const refused[] = { "draft.notch_off",    "draft.notch_in_dart", "draft.dart_off",
                                           "draft.apex_outside", "draft.line_outside",  "draft.drill_outside" };
    for (uint64_t seed = 1; seed <= 60; seed++) {
        struct sheet_of s = begin(*state);
        struct geometry_path outlines[SIZES];
        uint64_t now = seed * 77;
        int points = 3 + (int)(12 * next(&now));
        for (int k = 0; k < SIZES; k++)
            outlines[k] = random_star(s.room->a, &now, points + (int)(2 * next(&now)), seed % 3 ? 0.2 : 20);
        random_marks(&s, &now, add(&s, "star", outlines));
        s.wish.cutting_line = seed % 2;
        s.wish.allowance_mm = (double)(seed % 5);
        const struct pattern *p = written(&s);
        for (int k = 0; k < SIZES; k++) {
            struct draft draft;
            make_at_size(s.room->a, p, k, PATTERN_NONE, PATTERN_NONE, &draft, s.room->errs);
        }
        for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++)
            if (base_err_list_has(s.room->errs, refused[i]))
                fail_msg("%s of seed %d", refused[i], (int)seed);
        room_forget(s.room);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_rectangle_has_four_lines_and_whole_numbers),
        room_test(a_front_on_the_fold_is_as_drawn),
        room_test(notches_stand_along_the_stitching_line),
        room_test(a_notch_that_a_size_lacks_is_put_there),
        room_test(inner_marks_are_points_in_every_size),
        room_test(the_grain_line_is_where_it_was_drawn),
        room_test(sizes_laid_apart_lie_over_each_other),
        room_test(what_is_not_drawn_in_a_size_is_its_neighbours),
        room_test(names_cuts_and_cup_groups_are_written),
        room_test(sizes_beside_each_other_are_doubted),
        room_test(a_fold_that_is_not_found_is_told),
        room_test(nothing_to_write_is_told),
        room_test(random_round_outlines_are_as_drawn),
        room_test(whatever_is_lifted_can_be_read_and_its_marks_drafted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
