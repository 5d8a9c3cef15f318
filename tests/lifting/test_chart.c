/* The size chart of a drawn sheet: its file, and a lifted skirt that is sized and blended by it. All figures are
 * hand-worked. */
#include "draft/draft.h"
#include "job/job.h"
#include "lifting/shapes.h"
#include "lifting/write.h"
#include "pattern/read.h"
#include "support/room.h"

enum { SIZES = 3 };

#define SKIRT_CHART                                                                                                    \
    "{ 'chalklight': 'chart', 'version': 1, 'unit': 'cm', 'sizes': ['S', 'M', 'L'],\n"                                 \
    "  'chart': { 'waist': [68, 72, 76], 'hip': [92, 96, 100] }, 'main_measurement': 'hip',\n"                         \
    "  'levels': { 'skirt': { 'waist': 59.5, 'hip': 40 } } }"

static const char *const size_names[] = { "S", "M", "L" };

static const struct lifting_chart *parse(struct room *room, const char *text)
{
    const char *json = room_json(room, text);
    return lifting_chart_parse(room->a, "chart.json", json, strlen(json), room->errs);
}

/* ---- A skirt ---- */

/* Its left side upright, the waist 600 and a turn in the other side 500 above the hem; 10 mm wider from size to size:
 * S is 180 at the waist, 205 at the turn, 300 at the hem, and 224 at a height of 400: a fifth of the way from 205 to
 * 300. It lies 1000 mm up the sheet. */
static void skirt_outlines(struct arena *a, struct geometry_path *out)
{
    for (int k = 0; k < SIZES; k++) {
        struct shape s = shape_begin(a);
        shape_point(&s, 50, 1000);
        shape_point(&s, 350 + 10 * k, 1000);
        shape_point(&s, 255 + 10 * k, 1500);
        shape_point(&s, 230 + 10 * k, 1600);
        shape_point(&s, 50, 1600);
        out[k] = s.path;
    }
}

/* The same with the side one curve. */
static void curved_outlines(struct arena *a, struct geometry_path *out)
{
    for (int k = 0; k < SIZES; k++) {
        struct shape s = shape_begin(a);
        double w = 10 * k;
        shape_point(&s, 50, 1000);
        shape_point(&s, 330 + w, 1000);
        shape_cubic(&s, (vec2){ 335 + w, 1300 }, (vec2){ 310 + w, 1480 }, (vec2){ 230 + w, 1605 }, 200);
        shape_point(&s, 50, 1600);
        out[k] = s.path;
    }
}

/* The same, its left side on the fold. */
static void folded_outlines(struct arena *a, struct geometry_path *out)
{
    skirt_outlines(a, out);
}

static const char *written(struct room *room, void (*draw)(struct arena *, struct geometry_path *), vec2 grain,
                           const struct lifting_chart *chart)
{
    vec2 fold_ends[] = { { 50, 1000 }, { 50, 1600 } };
    const struct lifting_mark fold = { .kind = LIFTING_FOLD,
                                       .size = LIFTING_NONE,
                                       .path = { { fold_ends, 2, false } } };
    struct geometry_path paths[SIZES];
    struct lifting_outline outlines[SIZES];
    draw(room->a, paths);
    for (size_t k = 0; k < SIZES; k++)
        outlines[k] = (struct lifting_outline){ .there = true, .path = { paths[k] } };
    struct lifting_division division = { .sizes = size_names, .size_count = SIZES };
    struct lifting_piece piece = { .words = { .name = "skirt", .count = 2 },
                                   .cup_group = LIFTING_NONE,
                                   .outlines = outlines,
                                   .marks = &fold,
                                   .mark_count = draw == folded_outlines,
                                   .grain = grain };
    struct lifting l = { .division = &division, .pieces = &piece, .piece_count = 1 };
    struct lifting_wish wish = { .name = "Lifted", .unit = UNITS_MM, .chart = chart };
    return lifting_write(room->a, &l, &wish, room->errs);
}

static const char *skirt_file(struct room *room, void (*draw)(struct arena *, struct geometry_path *))
{
    const char *text = written(room, draw, (vec2){ 0, -1 }, parse(room, SKIRT_CHART));
    room_nothing_told(room);
    assert_non_null(text);
    return room_put(room, "skirt.json", text);
}

/* The stitching line of its one piece. */
static struct geometry_path drafted(struct room *room, const struct draft_figure *figure, const struct pattern *p)
{
    struct draft draft;
    bool ok = draft_make(room->a, p, figure, 0, &draft, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    return draft.pieces[0].seam.path;
}

/* From the leftmost to the rightmost place of a closed outline at a height. */
static double width_at(struct geometry_path p, double y)
{
    double least = INFINITY, most = -INFINITY;
    for (size_t i = 0; i < p.count; i++) {
        vec2 from = p.points[i], to = p.points[(i + 1) % p.count];
        if ((from.y < y && to.y < y) || (from.y > y && to.y > y))
            continue;
        double share = from.y == to.y ? 0 : (y - from.y) / (to.y - from.y), x = from.x + share * (to.x - from.x);
        least = fmin(least, fmin(x, from.y == to.y ? to.x : x));
        most = fmax(most, fmax(x, from.y == to.y ? to.x : x));
    }
    return most - least;
}

static struct job job_of(struct room *room, const char *pattern, const char *body, const char *blend)
{
    struct job_choices choices = { .pattern = pattern,
                                   .body = room_put(room, "b.json", room_json(room, body)),
                                   .blend = blend };
    struct job job;
    bool ok = job_make(room->a, &choices, &job, NULL, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    return job;
}

/* ---- Tests ---- */

static void a_chart_is_read(void **state)
{
    struct room *room = *state;
    const struct lifting_chart *chart =
        parse(room, "{ 'chalklight': 'chart', 'version': 1, 'unit': 'in',\n"
                    "  'chart': { 'bust': [32, '34', '900 mm'], 'hip': [35, 35, 38] },\n"
                    "  'main_measurement': 'hip', 'levels': { 'front': { 'bust': '10 cm' }, 'back': {} } }");
    room_nothing_told(room);
    assert_int_equal(chart->unit, UNITS_IN);
    assert_null(chart->sizes);
    assert_int_equal(chart->size_count, 3);
    assert_int_equal(chart->row_count, 2);
    assert_int_equal(chart->main_row, 1);
    assert_near(chart->rows[0].mm[0], 812.8, 1e-9);
    assert_near(chart->rows[0].mm[1], 863.6, 1e-9);
    assert_near(chart->rows[0].mm[2], 900, 1e-9);
    assert_int_equal(chart->piece_count, 2);
    assert_near(lifting_chart_levels(chart, "front")->levels[0].mm, 100, 1e-9);
    assert_int_equal(lifting_chart_levels(chart, "front")->levels[0].row, 0);
    assert_int_equal(lifting_chart_levels(chart, "front")->levels[0].place.line, 3);
    assert_int_equal(lifting_chart_levels(chart, "back")->count, 0);
    assert_null(lifting_chart_levels(chart, "sleeve"));
}

#define HIP "'unit': 'cm', 'main_measurement': 'hip',\n"

static void faults_are_told_at_their_line_and_path(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code;
        int line;
        const char *path;
    } rows[] = {
        { HIP "'sizes': [],\n'chart': { 'hip': [90] }", "chart.sizes", 2, "sizes" },
        { HIP "'sizes': ['S',\n'S'], 'chart': { 'hip': [90, 94] }", "chart.size_name", 3, "sizes[1]" },
        { HIP "'sizes': ['S', 4], 'chart': { 'hip': [90, 94] }", "json.wrong_type", 2, "sizes[1]" },
        { HIP "'chart': {}", "chart.rows", 2, "chart" },
        { HIP "'chart': { 'hip': [] }", "chart.sizes", 2, "chart.hip" },
        { HIP "'chart': { 'hip': 90 }", "json.wrong_type", 2, "chart.hip" },
        { HIP "'sizes': ['S', 'L'], 'chart': { 'hip': [90] }", "chart.wrong_count", 2, "chart.hip" },
        { HIP "'chart': { 'hip': [90, 94],\n'waist': [70, 74, 78] }", "chart.other_count", 3, "chart.waist" },
        { HIP "'chart': { 'hip': [90, 89.9] }", "chart.not_rising", 2, "chart.hip" },
        { HIP "'chart': { 'hip': [0, 89.9] }", "chart.small", 2, "chart.hip[0]" },
        { HIP "'chart': { 'waist': [60, 64] }", "chart.no_main", 1, "main_measurement" },
        { "'unit': 'cm', 'chart': { 'hip': [90] }", "json.missing", 1, "" },
        { HIP "'chart': { 'hip': [90] }, 'level': {}", "json.unknown_name", 2, "level" },
        { HIP "'chart': { 'hip': [90] },\n'levels': { 'front': { 'bust': 20 } }", "chart.unknown_row", 3,
          "levels.front.bust" },
        { HIP "'chart': { 'hip': [90] },\n'levels': { 'front': { 'hip': -1 } }", "chart.below", 3, "levels.front.hip" },
        { HIP "'chart': { 'hip': [90] },\n'levels': { 'front': { 'hip': true } }", "values.no_length", 3,
          "levels.front.hip" },
        { HIP "'chart': { 'hip': [90] },\n'levels': { 'front': 40 }", "json.wrong_type", 3, "levels.front" },
        { HIP "'chart': { 'hip': [90], 'waist': [70] },\n'levels': { 'front': { 'hip': 40, 'waist': 40.9 } }",
          "chart.too_near", 3, "levels.front.waist" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_null(
            parse(room, base_arena_print(room->a, "{ 'chalklight': 'chart', 'version': 1, %s }", rows[i].text)));
        assert_int_equal(room_only_told_at(room, rows[i].code, rows[i].path)->place.line, rows[i].line);
        room_forget(room);
    }
    assert_null(parse(room, "{ 'chalklight': 'body', 'version': 1 }"));
    room_only_told(room, "json.other_kind");
}

static void a_chart_of_another_sheet_is_refused(void **state)
{
    struct room *room = *state;
    static const struct {
        const char *text, *code, *path;
    } rows[] = {
        { HIP "'chart': { 'hip': [90, 94] }", "chart.sheet_count", "chart.hip" },
        { HIP "'sizes': ['S', 'M', 'L', 'XL'], 'chart': { 'hip': [90, 94, 98, 102] }", "chart.sheet_count", "sizes" },
        { HIP "'sizes': ['S', 'L', 'M'], 'chart': { 'hip': [90, 94, 98] }", "chart.sheet_size", "sizes" },
        { HIP "'chart': { 'hip': [90, 94, 98] }, 'levels': { 'sleeve': {} }", "chart.unknown_piece", "levels.sleeve" },
        { HIP "'chart': { 'hip': [90, 94, 98] }, 'levels': { 'skirt': { 'hip': 63 } }", "chart.beyond",
          "levels.skirt.hip" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct lifting_chart *chart =
            parse(room, base_arena_print(room->a, "{ 'chalklight': 'chart', 'version': 1, %s }", rows[i].text));
        room_nothing_told(room);
        assert_null(written(room, skirt_outlines, (vec2){ 0, 1 }, chart));
        const struct err *told = room_only_told_at(room, rows[i].code, rows[i].path);
        if (strcmp(rows[i].code, "chart.sheet_count") == 0) {
            assert_near(told->args[0].number, i == 0 ? 2 : 4, 0);
            assert_near(told->args[1].number, 3, 0);
            assert_string_equal(told->args[2].text, "S, M, L");
        }
        if (strcmp(rows[i].code, "chart.beyond") == 0)
            assert_near(told->args[2].number, 600, 1e-9);
        room_forget(room);
    }
}

/* A hip of 95.5 and a waist of 71.5 cm are nearest to M: 190 at the waist, 234 at the hip, 310 at the hem. */
static void a_lifted_skirt_is_sized_by_a_body(void **state)
{
    struct room *room = *state;
    struct job job = job_of(room, skirt_file(room, skirt_outlines),
                            "{ 'chalklight': 'body', 'version': 1, 'name': 'Guide', 'unit': 'cm',"
                            "  'measurements': { 'waist': 71.5, 'hip': 95.5 } }",
                            NULL);
    assert_near(job.position, 1, 0);
    struct draft_figure figure = job_figure(&job);
    struct geometry_path line = drafted(room, &figure, job.pattern);
    assert_near(width_at(line, 600), 190, 0.01);
    assert_near(width_at(line, 400), 234, 0.01);
    assert_near(width_at(line, 0), 310, 0.01);
}

/* Waist as S (180), hip as L (244), and so is the hem (320), beyond the last level. The turn between lies
 * sqrt(25² + 100²) = 103.078 from the waist and sqrt(19² + 100²) = 101.789 from the hip, so at 2 × 0.503146 of S to L:
 * 205 + 10.0629. */
static void a_lifted_skirt_is_blended_by_level(void **state)
{
    struct room *room = *state;
    static const struct {
        void (*draw)(struct arena *, struct geometry_path *);
        const char *blend, *body;
    } rows[] = {
        { skirt_outlines, "waist S, hip L", "'waist': 71.5, 'hip': 95.5" },
        { skirt_outlines, "body", "'waist': 68, 'hip': 100" },
        { folded_outlines, "waist S, hip L", "'waist': 71.5, 'hip': 95.5" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *body = base_arena_print(room->a,
                                            "{ 'chalklight': 'body', 'version': 1, 'name': 'Guide', "
                                            "'unit': 'cm', 'measurements': { %s } }",
                                            rows[i].body);
        struct job job = job_of(room, skirt_file(room, rows[i].draw), body, rows[i].blend);
        struct draft_figure figure = job_figure(&job);
        assert_int_equal(job.pattern->pieces[0].fold != PATTERN_NONE, rows[i].draw == folded_outlines);
        struct geometry_path line = drafted(room, &figure, job.pattern);
        assert_near(width_at(line, 600), 180, 0.01);
        assert_near(width_at(line, 500), 215.0629, 0.01);
        assert_near(width_at(line, 400), 244, 0.01);
        assert_near(width_at(line, 0), 320, 0.01);
    }
}

/* Lying on its side, the waist to the right: heights run from its left end. */
static void lying_outlines(struct arena *a, struct geometry_path *out)
{
    skirt_outlines(a, out);
    for (int k = 0; k < SIZES; k++)
        for (size_t i = 0; i < out[k].count; i++)
            out[k].points[i] = (vec2){ out[k].points[i].y, 1000 - out[k].points[i].x };
}

static void levels_of_a_piece_on_its_side_run_along_the_grain(void **state)
{
    struct room *room = *state;
    const char *text = written(room, lying_outlines, (vec2){ -1, 0 }, parse(room, SKIRT_CHART));
    const struct pattern *p = pattern_parse(room->a, "p", text, strlen(text), room->errs);
    room_nothing_told(room);
    const struct pattern_piece *piece = &p->pieces[0];
    size_t on_waist = 0, on_hip = 0;
    for (size_t i = 0; i < piece->point_count; i++) {
        double x = pattern_value_at(piece->points[i].v[0], 2);
        on_waist += piece->levels[i] == 0;
        on_hip += piece->levels[i] == 1;
        if (piece->levels[i] == 0)
            assert_near(x, 600, 0.01);
        if (piece->levels[i] == 1 && x > 0.01) /* the hem follows the hip, too */
            assert_near(x, 400, 0.01);
    }
    assert_int_equal(on_waist, 2);
    assert_int_equal(on_hip, 4);
}

/* A curve that a level parts is the same curve, in every size and between two. */
static void parting_a_curve_changes_no_outline(void **state)
{
    struct room *room = *state;
    const struct lifting_chart *chart = parse(room, SKIRT_CHART);
    const char *with = written(room, curved_outlines, (vec2){ 0, 1 }, chart);
    const char *without = written(room, curved_outlines, (vec2){ 0, 1 }, NULL);
    const struct pattern *p = pattern_parse(room->a, "with", with, strlen(with), room->errs);
    const struct pattern *q = pattern_parse(room->a, "without", without, strlen(without), room->errs);
    room_nothing_told(room);
    assert_int_equal(p->pieces[0].point_count, q->pieces[0].point_count + 4); /* 1 on the left, 3 on the curve */
    assert_null(q->pieces[0].levels);
    for (int k = 0; k < 4; k++) {
        struct draft_figure figure = draft_figure_at(k / 2.0, PATTERN_NONE);
        struct geometry_path one = drafted(room, &figure, p), other = drafted(room, &figure, q);
        assert_true(shape_farthest(one, other, 4) < 2 * DRAFT_FLATTEN_MM);
        assert_true(shape_farthest(other, one, 4) < 2 * DRAFT_FLATTEN_MM);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(a_chart_is_read),
        room_test(faults_are_told_at_their_line_and_path),
        room_test(a_chart_of_another_sheet_is_refused),
        room_test(a_lifted_skirt_is_sized_by_a_body),
        room_test(a_lifted_skirt_is_blended_by_level),
        room_test(levels_of_a_piece_on_its_side_run_along_the_grain),
        room_test(parting_a_curve_changes_no_outline),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
