/* A mat printed at home is a faulty ruler when the printer fitted it to the page. Readings on such rulings are all
 * wrong by one factor, so that they agree with each other and no solve can find the fault: the test square must show
 * it. The light then draws everything by that factor too small or large, and a rule on the square reads what is
 * expected here.
 *
 * Factors by arithmetic from paper sizes: A4 210 × 297 mm (ISO 216), letter 8 1/2 × 11 in (ANSI/ASME Y14.1), the inch
 * 25.4 mm; CSS and SVG have 96 px to the inch, PDF 72 units. Half a millimetre in 10 cm is the usual limit (common
 * practice, no source). */
#include "support/room.h"
#include "table/rig.h"

#include <math.h>

#define LIMIT 0.005
#define AS_MEASURED_MM 0.15
#define A4_WIDE 210.0
#define A4_HIGH 297.0
#define IN 25.4
#define LETTER_WIDE (8.5 * IN)
#define LETTER_HIGH (11 * IN)
#define POINT (IN / 72)

struct fault {
    const char *name;
    double factor;
    double ten_cm, four_in; /* what a rule reads on the square, mm */
};

static double fitted(double wide, double high, double page_wide, double page_high, double margin)
{
    return fmin((page_wide - 2 * margin) / wide, (page_high - 2 * margin) / high);
}

/* The lengths of each row were worked out apart from this program, by hand and rounded to 0.001 mm. */
static const struct fault *faults(size_t *count)
{
    static struct fault rows[12];
    const struct fault made[] = {
        { "A4 fitted to letter", fitted(A4_WIDE, A4_HIGH, LETTER_WIDE, LETTER_HIGH, 0), 94.074, 95.579 },
        { "letter fitted to A4", fitted(LETTER_WIDE, LETTER_HIGH, A4_WIDE, A4_HIGH, 0), 97.267, 98.824 },
        { "letter within margins of 1/4 in", fitted(LETTER_WIDE, LETTER_HIGH, LETTER_WIDE, LETTER_HIGH, IN / 4), 94.118,
          95.624 },
        { "letter within margins of 12 points", fitted(LETTER_WIDE, LETTER_HIGH, LETTER_WIDE, LETTER_HIGH, 12 * POINT),
          96.078, 97.616 },
        { "A4 within margins of 3 mm", fitted(A4_WIDE, A4_HIGH, A4_WIDE, A4_HIGH, 3), 97.143, 98.697 },
        { "A4 within margins of 5 mm", fitted(A4_WIDE, A4_HIGH, A4_WIDE, A4_HIGH, 5), 95.238, 96.762 },
        { "A4 fitted to letter with margins of 1/4 in", fitted(A4_WIDE, A4_HIGH, LETTER_WIDE, LETTER_HIGH, IN / 4),
          89.798, 91.235 },
        { "an inch taken for 2.5 cm", 25 / IN, 98.425, 100.000 },
        { "72 for 96 dots an inch", 72.0 / 96, 75.000, 76.200 },
        { "96 for 72 dots an inch", 96.0 / 72, 133.333, 135.467 },
        { "90 for 96 dots an inch", 90.0 / 96, 93.750, 95.250 },
        { "96 for 90 dots an inch", 96.0 / 90, 106.667, 108.373 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        rows[i] = made[i];
    *count = sizeof rows / sizeof rows[0];
    return rows;
}

/* What a person reads whose rulings are all by that factor too close together. */
static struct calibration_readings read_faulty(struct room *room, const struct vt_setup *setup, double factor,
                                               enum units_length unit)
{
    struct vt_noise none = { 0 };
    struct calibration_readings readings = rig_read(room->a, setup, RIG_READINGS, 0, &none);
    readings.unit = unit;
    for (size_t i = 0; i < readings.count; i++) {
        readings.items[i].at.x /= factor;
        readings.items[i].at.y /= factor;
    }
    return readings;
}

/* The mean side of the square as a rule on the table reads it; infinite when it is not seen. */
static double ruled_side(struct room *room, const struct vt_setup *setup, double factor, enum units_length unit)
{
    struct calibration_readings readings = read_faulty(room, setup, factor, unit);
    struct calibration_table table;
    assert_true(rig_calibrate(room->a, &readings, &table, room->errs)); /* nothing looks wrong */
    struct app *app = rig_app(room->a, &table, NULL, room->errs);
    assert_non_null(app);
    app_set_mode(app, SCENE_TEST_SQUARE);
    struct vt_pt corner[4] = { 0 };
    rig_square(room->a, app, corner);
    for (int i = 0; i < 4; i++)
        corner[i] = (struct vt_pt){ corner[i].x * factor, corner[i].y * factor };
    struct paint_image image = rig_paint(room->a, app);
    struct vt_frame frame = rig_frame(&image);
    struct vt_quad quad;
    if (!vt_measure_quad(setup, &frame, corner, 4, &quad))
        return INFINITY;
    return (quad.side_mm[0] + quad.side_mm[1] + quad.side_mm[2] + quad.side_mm[3]) / 4;
}

static void the_square_shows_each_print_scale_fault(void **state)
{
    static const struct {
        enum units_length unit;
        double side;
    } squares[] = { { UNITS_MM, 100 }, { UNITS_IN, 4 * IN } };
    size_t count, setup_count;
    const struct fault *rows = faults(&count);
    const struct vt_setup *setup = vt_standard_setups(&setup_count);
    for (size_t i = 0; i < count; i++)
        for (int u = 0; u < 2; u++) {
            double wanted = u ? rows[i].four_in : rows[i].ten_cm;
            double ruled = ruled_side(*state, setup, rows[i].factor, squares[u].unit);
            if (!(fabs(ruled - wanted) <= AS_MEASURED_MM))
                fail_msg("%s: a rule reads %.3f mm, not %.3f", rows[i].name, ruled, wanted);
            assert_true(fabs(ruled / squares[u].side - 1) > LIMIT);
        }
}

/* And none where there is none. */
static void a_true_mat_shows_a_true_square(void **state)
{
    size_t count;
    assert_near(ruled_side(*state, vt_standard_setups(&count), 1, UNITS_MM), 100, AS_MEASURED_MM);
    assert_near(ruled_side(*state, vt_standard_setups(&count), 1, UNITS_IN), 4 * IN, AS_MEASURED_MM);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_square_shows_each_print_scale_fault, room_open, room_close),
        cmocka_unit_test_setup_teardown(a_true_mat_shows_a_true_square, room_open, room_close),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
