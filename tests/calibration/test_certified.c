/* Every kind of reading against answers certified elsewhere, and worked examples of the literature. */
#include "calibration/misfit.h"
#include "calibration/mistake.h"
#include "calibration/solve.h"

#include "cases.h"
#include "certified.h"
#include "support/room.h"
#include "zhang.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

/* What the tolerances are for: places 1e-6 mm, sigmas a millionth of themselves. */
#define PLACE_TOL 1e-6
#define PART_TOL 1e-6

static void assert_part(double got, double want)
{
    assert_near(got, want, PART_TOL * fabs(want));
}

static struct calibration_solution solved(struct room *room, const struct calibration_readings *r,
                                          enum calibration_lens lens)
{
    struct calibration_solution s;
    if (!calibration_solve_without_mistakes(room->a, "case", r, lens, &s, room->errs)) {
        room_print_told(room);
        fail_msg("not solved");
    }
    return s;
}

/* 2.45 and 1.96 of the doubts are Chi-square's and the normal distribution's points for 95 %: sqrt(5.991) and 1.960. */
static void assert_places(const struct calibration_solution *s, const struct place_case *wanted, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct table_pt at = geometry_map_to_table(&s->map, wanted[i].px);
        assert_near(at.x, wanted[i].at.x, PLACE_TOL);
        assert_near(at.y, wanted[i].at.y, PLACE_TOL);
        assert_part(calibration_doubt_place_mm(&s->map, &s->doubt, wanted[i].px),
                    sqrt(5.991464547107982) * wanted[i].sigma_mm);
    }
}

static void assert_lines(const struct calibration_solution *s, const struct line_case *wanted, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct table_pt a = geometry_map_to_table(&s->map, wanted[i].a),
                        b = geometry_map_to_table(&s->map, wanted[i].b);
        assert_near(hypot(b.x - a.x, b.y - a.y), wanted[i].length_mm, PLACE_TOL);
        assert_part(calibration_doubt_line_mm(&s->map, &s->doubt, wanted[i].a, wanted[i].b),
                    1.959963984540054 * wanted[i].sigma_mm);
    }
}

static void nine_positions_have_the_certified_doubt(void **state)
{
    struct room *room = *state;
    struct calibration_readings r = readings_of(room->a, nine, COUNT(nine));
    struct calibration_solution s = solved(room, &r, CALIBRATION_LENS_NONE);
    assert_part(s.chi2, nine_chi2);
    assert_int_equal(s.freedom, 10);
    assert_places(&s, nine_places, COUNT(nine_places));
    assert_lines(&s, nine_lines, COUNT(nine_lines));
}

/* The twelve were made through a lens: without one they scatter 2.5 times wider than their sigma, and still agree. */
static void twelve_positions_without_a_lens_have_the_certified_doubt(void **state)
{
    struct room *room = *state;
    struct calibration_readings r = readings_of(room->a, twelve, COUNT(twelve));
    struct calibration_solution s = solved(room, &r, CALIBRATION_LENS_NONE);
    assert_part(s.chi2, twelve_flat_chi2);
    for (int t = 0; t < GEOMETRY_K1; t++)
        assert_near(s.map.term[t], twelve_flat_terms[t], 1e-9 * fabs(twelve_flat_terms[t]));
    assert_places(&s, twelve_places, COUNT(twelve_places));
    assert_lines(&s, twelve_lines, COUNT(twelve_lines));
}

static struct calibration_reading tape(const struct px_pt *crosses, const struct tape_case *t)
{
    return (struct calibration_reading){ .kind = CALIBRATION_DISTANCE,
                                         .cross = t->a + 1,
                                         .px = crosses[t->a],
                                         .other = t->b + 1,
                                         .other_px = crosses[t->b],
                                         .distance_mm = t->mm };
}

static struct calibration_readings tapes(struct arena *a, const struct px_pt *crosses, const struct tape_case *all,
                                         size_t count)
{
    struct calibration_readings r = {
        .name = "tapes", .unit = UNITS_MM, .width_px = 1920, .height_px = 1080, .sigma_mm = 0.3, .count = count
    };
    r.items = base_arena_alloc(a, count, sizeof *r.items);
    for (size_t i = 0; i < count; i++)
        r.items[i] = tape(crosses, &all[i]);
    return r;
}

/* The certified cases hold the first cross at zero and the second along x, as a solution that floats is left. */
static void assert_tapes(struct room *room, const struct px_pt *crosses, const struct tape_case *all, size_t count,
                         double chi2, int freedom, const double *normalised, const double *redundancy,
                         const struct place_case *places, size_t place_count, const struct line_case *lines,
                         size_t line_count)
{
    struct calibration_readings r = tapes(room->a, crosses, all, count);
    struct calibration_solution s = solved(room, &r, CALIBRATION_LENS_NONE);
    assert_true(s.floats);
    assert_true(base_err_list_has(room->errs, "calibration.floats"));
    assert_part(s.chi2, chi2);
    assert_int_equal(s.freedom, freedom);
    for (size_t i = 0; i < count; i++) {
        assert_near(s.residual[i].x + all[i].mm, all[i].adjusted_mm, PLACE_TOL);
        assert_near(s.residual[i].x / CALIBRATION_TAPE_SIGMA_MM / sqrt(redundancy[i]), normalised[i], PART_TOL);
    }
    /* The cases' y runs down, as pixels do: ours is their mirror image, which is as true. */
    calibration_lay(&s, (struct calibration_move){ .flip = true, .turn_rad = 3.14159265358979323846 });
    assert_places(&s, places, place_count);
    assert_lines(&s, lines, line_count);
}

static void six_tapes_between_four_crosses_fix_a_shape(void **state)
{
    assert_tapes(*state, quad_crosses, quad_tapes, COUNT(quad_tapes), quad_chi2, 1, quad_normalised, quad_redundancy,
                 quad_places, COUNT(quad_places), quad_lines, COUNT(quad_lines));
}

static void ten_tapes_between_five_crosses_fix_a_shape(void **state)
{
    assert_tapes(*state, five_crosses, five_tapes, COUNT(five_tapes), five_chi2, 5, five_normalised, five_redundancy,
                 five_places, COUNT(five_places), five_lines, COUNT(five_lines));
}

static struct calibration_readings mixed_readings(struct arena *a)
{
    struct calibration_readings r = {
        .name = "mixed", .unit = UNITS_MM, .width_px = 1920, .height_px = 1080, .sigma_mm = 0.3
    };
    struct px_pt crosses[COUNT(mixed)];
    r.items = base_arena_alloc(a, COUNT(mixed) + COUNT(mixed_tapes), sizeof *r.items);
    for (size_t i = 0; i < COUNT(mixed); i++) {
        r.items[i] = calibration_position((int)i + 1, mixed[i].px, mixed[i].at);
        r.items[i].kind = i < 6 ? CALIBRATION_POSITION : CALIBRATION_NUDGE;
        r.items[i].sigma_mm = mixed[i].sigma_mm;
        crosses[i] = mixed[i].px;
    }
    r.count = COUNT(mixed);
    for (size_t i = 0; i < COUNT(mixed_tapes); i++)
        r.items[r.count++] = tape(crosses, &mixed_tapes[i]);
    return r;
}

static void assert_mixed_fit(struct arena *a, const struct calibration_readings *r, const double *terms, double chi2,
                             const double *t, size_t positions, const double *w)
{
    struct calibration_model model = calibration_model_of(a, r, CALIBRATION_LENS_WEAK, 0);
    struct calibration_fit fit;
    struct calibration_spread spread;
    assert_true(calibration_fit(a, &model, NULL, &fit));
    assert_true(calibration_fit_spread(a, &model, &fit, &spread));
    assert_part(fit.chi2, chi2);
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++)
        assert_near(fit.at.map.term[i], terms[i], 1e-8 * (1e-1 + fabs(terms[i])));
    for (size_t i = 0; i < positions; i++)
        assert_part(calibration_misfit_within(&model, &fit, &spread, i).t, t[i]);
    for (size_t i = 0; i < COUNT(mixed_tapes); i++)
        assert_part(sqrt(calibration_misfit_within(&model, &fit, &spread, positions + i).t), w[i]);
}

static void a_blunder_among_mixed_readings_stands_out_as_certified(void **state)
{
    struct room *room = *state;
    struct calibration_readings r = mixed_readings(room->a);
    assert_mixed_fit(room->a, &r, mixed_step1_terms, mixed_step1_chi2, mixed_step1_t, COUNT(mixed), mixed_step1_w);
    const size_t wrong = 9;
    struct calibration_readings rest = calibration_readings_without(room->a, &r, &wrong, 1);
    assert_mixed_fit(room->a, &rest, mixed_step2_terms, mixed_step2_chi2, mixed_step2_t, COUNT(mixed) - 1,
                     mixed_step2_w);
}

static void the_blunder_is_set_aside_and_the_rest_is_as_certified(void **state)
{
    struct room *room = *state;
    struct calibration_readings r = mixed_readings(room->a);
    struct calibration_solution s = solved(room, &r, CALIBRATION_LENS_WEAK);
    assert_int_equal(s.aside_count, 1);
    assert_int_equal(s.aside[0].index, 9);
    assert_int_equal(s.aside[0].slip, CALIBRATION_SLIP_INCH);
    assert_near(s.aside[0].repaired.at.x, mixed[9].at.x - 25.4, 1e-9);
    assert_int_equal(s.freedom, 20);
    assert_part(s.chi2, mixed_step2_chi2);
    for (int t = 0; t < GEOMETRY_MAP_TERMS; t++)
        assert_part(sqrt(s.doubt.covariance[t][t]), mixed_sigma_terms[t]);
    assert_places(&s, mixed_places, COUNT(mixed_places));
    assert_lines(&s, mixed_lines, COUNT(mixed_lines));
    const struct err *e = room_only_told(room, "calibration.aside");
    assert_near(e->args[0].number, 10, 0);
}

/* Standard deviations of a place along x and y. */
static vec2 sigmas_at(const struct calibration_solution *s, struct px_pt px)
{
    double dx[GEOMETRY_MAP_TERMS], dy[GEOMETRY_MAP_TERMS], xx = 0, yy = 0;
    geometry_map_term_gradient(&s->map, px, dx, dy);
    for (int i = 0; i < GEOMETRY_MAP_TERMS; i++)
        for (int j = 0; j < GEOMETRY_MAP_TERMS; j++) {
            xx += dx[i] * s->doubt.covariance[i][j] * dx[j];
            yy += dy[i] * s->doubt.covariance[i][j] * dy[j];
        }
    return (vec2){ sqrt(xx), sqrt(yy) };
}

/* C. D. Ghilani, Adjustment Computations, Example 14.2: a station by distances from three known ones, in feet. The data
 * were seen as quoted in a course's text; the answer was worked out with SciPy, as the book's own was not seen. Three
 * crosses that are known exactly and one that is not: what the eight terms of a plain map leave open is where the
 * fourth lies. Feet are called mm. */
static void ghilanis_station_is_found(void **state)
{
    struct room *room = *state;
    static const struct table_pt known[3] = { { 865.40, 4527.15 }, { 2432.55, 2047.25 }, { 2865.22, 27.15 } };
    static const double measured[3] = { 6049.00, 4736.83, 5446.49 };
    static const double residual[3] = { -0.037372653585407534, 0.07679284325331537, -0.04736556880106946 };
    const double s0 = 0.09765937291828154;
    const struct px_pt station = { 7000, 2500 }; /* a pixel to the foot, the map nearly stands still */
    struct calibration_reading items[6];
    struct calibration_readings r = { .name = "ghilani",
                                      .unit = UNITS_MM,
                                      .width_px = 8000,
                                      .height_px = 6000,
                                      .sigma_mm = 1e-5,
                                      .tape_mm = 1,
                                      .items = items,
                                      .count = 6 };
    for (int i = 0; i < 3; i++) {
        items[i] = calibration_position(i + 1, (struct px_pt){ known[i].x, 6000 - known[i].y }, known[i]);
        items[3 + i] = (struct calibration_reading){ .kind = CALIBRATION_DISTANCE,
                                                     .cross = i + 1,
                                                     .px = items[i].px,
                                                     .other = 4,
                                                     .other_px = station,
                                                     .distance_mm = measured[i] };
    }
    struct calibration_solution s = solved(room, &r, CALIBRATION_LENS_NONE);
    struct table_pt at = geometry_map_to_table(&s.map, station);
    assert_near(at.x, 6861.31678771609, PLACE_TOL);
    assert_near(at.y, 3727.8185657263334, PLACE_TOL);
    for (int i = 0; i < 3; i++)
        assert_near(s.residual[3 + i].x, residual[i], PLACE_TOL);
    assert_int_equal(s.freedom, 1);
    assert_part(sqrt(s.chi2), s0);
    assert_part(s0 * sigmas_at(&s, station).x, 0.07752634840389708);
    assert_part(s0 * sigmas_at(&s, station).y, 0.15424890756405704);
}

/* F. Zaki, M. El Kady and M. Ahmed, A New Treatment for the Adjustment of Trilateration Networks, ISPRS Congress 1992,
 * B3: the data line of their braced quadrilateral, in metres, was seen; the page with their corrections was not, so
 * these were worked out with SciPy (equal weights). Metres are called mm. */
static void zakis_quadrilateral_is_adjusted(void **state)
{
    struct room *room = *state;
    static const struct px_pt corners[4] = { { 100, 2300 }, { 1440, 2300 }, { 2240, 540 }, { 760, 240 } };
    static const struct tape_case edges[6] = {
        { 0, 1, 1341.785, 1341.7814867829848 }, { 0, 2, 2775.364, 2775.3701834660533 },
        { 0, 3, 2167.437, 2167.4328710140912 }, { 1, 2, 1937.887, 1937.8820749397682 },
        { 1, 3, 2173.715, 2173.7197236143147 }, { 2, 3, 1511.014, 1511.0112059997512 },
    };
    struct calibration_readings r = tapes(room->a, corners, edges, COUNT(edges));
    r.tape_mm = 1;
    r.width_px = r.height_px = 2400;
    struct calibration_solution s = solved(room, &r, CALIBRATION_LENS_NONE);
    for (size_t i = 0; i < COUNT(edges); i++)
        assert_near(s.residual[i].x + edges[i].mm, edges[i].adjusted_mm, PLACE_TOL);
    assert_part(s.chi2 * 1e6, 122.00165873098682);
}

/* Where a corner would be without the lens, which the published terms undo. */
static struct px_pt without_lens(struct px_pt px)
{
    const double *c = zhang_camera;
    double bent_y = (px.y - c[4]) / c[2], bent_x = (px.x - c[3] - c[1] * bent_y) / c[0], x = bent_x, y = bent_y;
    for (int i = 0; i < 50; i++) {
        double r2 = x * x + y * y, by = 1 + zhang_lens[0] * r2 + zhang_lens[1] * r2 * r2;
        x = bent_x / by;
        y = bent_y / by;
    }
    return (struct px_pt){ c[0] * x + c[1] * y + c[3], c[2] * y + c[4] };
}

/* Where the published camera sees a place of the plane. */
static struct px_pt seen(struct table_pt at_mm)
{
    double p[3];
    for (int i = 0; i < 3; i++)
        p[i] = zhang_view[i][0] * at_mm.x / 25.4 + zhang_view[i][1] * at_mm.y / 25.4 + zhang_view[i][2];
    double x = p[0] / p[2], y = p[1] / p[2];
    return (struct px_pt){ zhang_camera[0] * x + zhang_camera[1] * y + zhang_camera[3],
                           zhang_camera[2] * y + zhang_camera[4] };
}

static struct calibration_readings zhang_readings(struct arena *a)
{
    struct calibration_readings r = { .name = "zhang",
                                      .unit = UNITS_IN,
                                      .width_px = ZHANG_WIDTH_PX,
                                      .height_px = ZHANG_HEIGHT_PX,
                                      .sigma_mm = 0.1,
                                      .count = 2 * (size_t)ZHANG_SQUARES };
    double pitch = 25.4 * ZHANG_PITCH_IN, side = 25.4 * ZHANG_SIDE_IN;
    r.items = base_arena_alloc(a, r.count, sizeof *r.items);
    for (int i = 0; i < ZHANG_SQUARES; i++) {
        double x = pitch * (i % 8), y = -pitch * (i / 8); /* whole rows */
        r.items[2 * i] = calibration_position(2 * i + 1, without_lens(zhang_low[i]), (struct table_pt){ x, y - side });
        r.items[2 * i + 1] =
            calibration_position(2 * i + 2, without_lens(zhang_high[i]), (struct table_pt){ x + side, y });
    }
    return r;
}

/* His camera was found from five photographs at once, our map from one of them: they agree as far as ours leaves in
 * doubt, and the corners lie from ours as SciPy's least_squares has them. */
static void zhangs_photograph_is_mapped_as_his_camera_saw_it(void **state)
{
    struct room *room = *state;
    struct calibration_readings r = zhang_readings(room->a);
    struct calibration_solution s = solved(room, &r, CALIBRATION_LENS_NONE);
    assert_int_equal(s.aside_count, 0);
    assert_near(s.rms_mm, 0.1425986, 1e-6);
    for (size_t i = 0; i < r.count; i++) {
        struct px_pt px = seen(r.items[i].at);
        struct table_pt is = geometry_map_to_table(&s.map, px);
        double off_mm = hypot(is.x - r.items[i].at.x, is.y - r.items[i].at.y);
        assert_true(off_mm <= calibration_doubt_place_mm(&s.map, &s.doubt, px));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(nine_positions_have_the_certified_doubt),
        room_test(twelve_positions_without_a_lens_have_the_certified_doubt),
        room_test(six_tapes_between_four_crosses_fix_a_shape),
        room_test(ten_tapes_between_five_crosses_fix_a_shape),
        room_test(a_blunder_among_mixed_readings_stands_out_as_certified),
        room_test(the_blunder_is_set_aside_and_the_rest_is_as_certified),
        room_test(ghilanis_station_is_found),
        room_test(zakis_quadrilateral_is_adjusted),
        room_test(zhangs_photograph_is_mapped_as_his_camera_saw_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
