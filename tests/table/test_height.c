/* Two layers of cloth 3 mm thick: a piece drawn for its height is true on top of them, and one drawn for the table is
 * off by what the height foretells. The virtual table is raised by letting its lens hang that much lower; the light
 * is measured there. */
#include "support/room.h"
#include "table/rig.h"

/* README states 0.1 mm for exact readings. */
#define EXACT_MM 0.1
#define CLOTH_MM 3.0
#define RAISE_MM 6.0 /* two layers */
#define WIDE_MM 400.0
#define DEEP_MM 300.0
#define SEARCH_MM 4.0

#define PATTERN                                                                                                        \
    "{ 'chalklight': 'pattern', 'version': 1, 'name': 'By hand', 'unit': 'mm', 'sizes': ['one'],"                      \
    "  'chart': { 'hip': [900] }, 'main_measurement': 'hip',"                                                          \
    "  'pieces': [ { 'name': 'panel', 'rectangle': { 'width': 380, 'height': 280 }, 'allowance': 10 } ],"              \
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'panel', 'count': 1 } ] } ] }"
#define BODY "{ 'chalklight': 'body', 'version': 1, 'name': 'Hand', 'unit': 'mm', 'measurements': { 'hip': 900 } }"

static const char *const setup_names[] = { "square, 1920x1080", "tilt 20", "axis at the edge", "off centre",
                                           "axis at the edge, 180" };

enum { SETUPS = sizeof setup_names / sizeof setup_names[0], CORNERS = 4 };

static const struct vt_setup *setup_named(const char *name)
{
    size_t count;
    const struct vt_setup *setups = vt_standard_setups(&count);
    for (size_t i = 0; i < count; i++)
        if (strcmp(setups[i].name, name) == 0)
            return &setups[i];
    fail_msg("no set-up is called %s", name);
    return NULL;
}

/* An app on a set-up's table from exact readings, with the panel on that surface. */
static struct app *app_on(struct room *room, const struct vt_setup *setup, struct calibration_lens_place lens,
                          struct calibration_surface surface)
{
    struct calibration_table table;
    struct job_choices choices = { .pattern = room_put(room, "pattern.json", room_json(room, PATTERN)),
                                   .body = room_put(room, "body.json", room_json(room, BODY)),
                                   .surface = surface };
    assert_true(rig_exact_table(room->a, setup, &table, room->errs));
    table.lens = lens;
    struct app *app = rig_app_of(room->a, &choices, &table, NULL, room->errs);
    assert_non_null(app);
    return app;
}

/* The corners of the cut line as the program means them to lie on its surface: the draw list's outline of the panel's
 * own area. */
static void meant(struct room *room, struct app *app, struct vt_pt corner[CORNERS])
{
    struct paint_items in = app_scene(app, room->a).table.in;
    for (size_t i = 0; i < in.count; i++) {
        struct geometry_path path = in.paths[in.items[i].first_path];
        if (path.count != CORNERS || !path.closed || fabs(fabs(geometry_path_area(path)) - WIDE_MM * DEEP_MM) > 1e-6)
            continue;
        for (int c = 0; c < CORNERS; c++)
            corner[c] = (struct vt_pt){ path.points[c].x, path.points[c].y };
        return;
    }
    fail_msg("the panel of %g x %g mm is not drawn", WIDE_MM, DEEP_MM);
}

/* Measures the cut line on a table whose plane is raised; found near where it is expected. */
static struct vt_quad measured(struct room *room, const struct vt_setup *setup, struct app *app,
                               const struct vt_pt expected[CORNERS])
{
    struct vt_setup raised = *setup;
    struct vt_quad quad;
    raised.height_mm -= RAISE_MM;
    struct paint_image image = rig_paint(room->a, app);
    struct vt_frame frame = rig_frame(&image);
    if (!vt_measure_quad(&raised, &frame, expected, SEARCH_MM, &quad))
        fail_msg("%s: the panel is not found", setup->name);
    return quad;
}

/* The farthest that a corner lies from its place. */
static double worst_corner(const struct vt_quad *quad, const struct vt_pt want[CORNERS])
{
    double most = 0;
    for (int i = 0; i < CORNERS; i++)
        most = fmax(most, hypot(quad->corner[i].x - want[i].x, quad->corner[i].y - want[i].y));
    return most;
}

/* The farthest that a side is from its length times `share`. */
static double worst_side(const struct vt_quad *quad, const struct vt_pt want[CORNERS], double share)
{
    double most = 0;
    for (int i = 0; i < CORNERS; i++) {
        const struct vt_pt *next = &want[(i + 1) % CORNERS];
        most = fmax(most, fabs(quad->side_mm[i] - share * hypot(next->x - want[i].x, next->y - want[i].y)));
    }
    return most;
}

static struct calibration_lens_place lens_of(const struct vt_setup *setup)
{
    return (struct calibration_lens_place){ { setup->foot_x_mm, setup->foot_y_mm }, setup->height_mm };
}

static const struct calibration_surface two_layers = { .cloth_mm = CLOTH_MM, .layers = 2 };

static void pieces_drawn_for_the_height_of_two_layers_are_true_on_them(void **state)
{
    struct room *room = *state;
    for (int i = 0; i < SETUPS; i++) {
        const struct vt_setup *setup = setup_named(setup_names[i]);
        struct app *app = app_on(room, setup, lens_of(setup), two_layers);
        struct vt_pt want[CORNERS] = { { 0, 0 } };
        meant(room, app, want);
        struct vt_quad quad = measured(room, setup, app, want);
        double corner = worst_corner(&quad, want), side = worst_side(&quad, want, 1);
        if (!(corner <= EXACT_MM && side <= EXACT_MM))
            fail_msg("%s: a corner %.3f mm, a side %.3f mm off on the cloth", setup->name, corner, side);
    }
}

/* Drawn for the table, every corner lands where its ray meets the cloth: t / h of the way to the foot, so that the
 * sides are 400 and 300 x 6 / 1800 = 1.3 and 1 mm short with a lens 1800 mm high. */
static void pieces_drawn_for_the_table_are_off_on_cloth_as_foretold(void **state)
{
    struct room *room = *state;
    for (int i = 0; i < SETUPS; i++) {
        const struct vt_setup *setup = setup_named(setup_names[i]);
        struct calibration_lens_place lens = lens_of(setup);
        struct app *app = app_on(room, setup, (struct calibration_lens_place){ 0 }, two_layers);
        double share = RAISE_MM / setup->height_mm, foretold = 0;
        struct vt_pt want[CORNERS] = { { 0, 0 } }, lands[CORNERS];
        meant(room, app, want);
        for (int c = 0; c < CORNERS; c++) {
            lands[c] = (struct vt_pt){ want[c].x + share * (setup->foot_x_mm - want[c].x),
                                       want[c].y + share * (setup->foot_y_mm - want[c].y) };
            struct table_pt at = { want[c].x, want[c].y };
            foretold = fmax(foretold, calibration_light_moves_mm(&lens, at, RAISE_MM));
        }
        struct vt_quad quad = measured(room, setup, app, lands);
        double corner = worst_corner(&quad, lands), side = worst_side(&quad, want, 1 - share);
        if (!(corner <= EXACT_MM && side <= EXACT_MM))
            fail_msg("%s: a corner %.3f mm, a side %.3f mm from what was foretold", setup->name, corner, side);
        assert_true(foretold > 0.5);
        assert_near(worst_corner(&quad, want), foretold, EXACT_MM);
    }
}

/* The test square is drawn on the same raised surface. */
static void the_test_square_is_true_on_the_cloth_too(void **state)
{
    struct room *room = *state;
    for (int i = 0; i < SETUPS; i++) {
        const struct vt_setup *setup = setup_named(setup_names[i]);
        struct vt_setup raised = *setup;
        struct app *app = app_on(room, setup, lens_of(setup), two_layers);
        struct vt_pt corner[CORNERS];
        raised.height_mm -= RAISE_MM;
        app_set_mode(app, SCENE_TEST_SQUARE);
        rig_square(room->a, app, corner);
        struct paint_image image = rig_paint(room->a, app);
        double on_cloth = rig_square_error(&raised, &image, corner, 100);
        if (!(on_cloth <= EXACT_MM))
            fail_msg("%s: the square is %.3f mm off on the cloth", setup->name, on_cloth);
    }
}

/* A mat 3 mm thick that goes lowers the cloth by as much; one that comes raises it. */
static void a_mat_that_goes_or_comes_counts(void **state)
{
    struct room *room = *state;
    const struct vt_setup *setup = setup_named("square, 1920x1080");
    const struct calibration_surface comes = { CLOTH_MM, 1, CALIBRATION_MAT_COMES, 3 };
    const struct calibration_surface goes = { CLOTH_MM, 3, CALIBRATION_MAT_GOES, 3 };
    struct app *plain = app_on(room, setup, lens_of(setup), two_layers);
    struct app *one = app_on(room, setup, lens_of(setup), comes), *other = app_on(room, setup, lens_of(setup), goes);
    for (int t = 0; t < GEOMETRY_MAP_TERMS; t++) {
        assert_near(app_map(one)->term[t], app_map(plain)->term[t], 1e-12);
        assert_near(app_map(other)->term[t], app_map(plain)->term[t], 1e-12);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(pieces_drawn_for_the_height_of_two_layers_are_true_on_them),
        room_test(pieces_drawn_for_the_table_are_off_on_cloth_as_foretold),
        room_test(the_test_square_is_true_on_the_cloth_too),
        room_test(a_mat_that_goes_or_comes_counts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
