/* The drafts that come with the program, made to a body and in their sizes. Expected values are arithmetic from the
 * textbook formula that stands beside each, worked out by hand; where a figure is a trade's custom the row says so. */
#include "support/drafted.h"

#define FLATTENED_MM 0.05 /* what chords within DRAFT_FLATTEN_MM of a hem lose of its length */

static const char *const files[] = { "circle-skirts.json" };

static void every_draft_is_sound_and_its_seams_match_in_every_size_and_half_size(void **state)
{
    struct room *room = *state;
    struct arena *scratch = base_arena_create();
    for (size_t f = 0; f < sizeof files / sizeof files[0]; f++) {
        const struct pattern *p = read_draft(room, files[f]);
        for (double at = 0; at <= (double)(p->size_count - 1); at += 0.5) {
            struct draft_figure figure = draft_figure_at(at, PATTERN_NONE);
            struct draft d = draft_figure_soundly(scratch, p, &figure, room);
            assert_true(d.piece_count == p->piece_count);
            seams_match(scratch, &d, 0.1);
            base_arena_reset(scratch);
        }
    }
    base_arena_destroy(scratch);
}

#define WAIST_EASE_MM 10.0 /* of circle-skirts.json */

static struct draft circle_skirts(struct room *room, double waist_mm)
{
    const struct taped body[] = { { "waist", waist_mm - WAIST_EASE_MM }, { "skirt length", 600 } };
    return draft_to_body(room, read_draft(room, "circle-skirts.json"), body, 2);
}

/* Radius = waist / (2 pi, 3/2 pi, pi, 1/2 pi), to four places of the unit of the row. */
static void circle_skirts_have_the_radius_of_their_waist(void **state)
{
    static const char *const skirts[] = { "full", "three quarter", "half", "quarter" };
    static const struct {
        double unit_mm, waist, radius[4];
    } rows[] = {
        { 10, 70, { 11.1408, 14.8545, 22.2817, 44.5634 } },
        { 10, 80, { 12.7324, 16.9765, 25.4648, 50.9296 } },
        { 25.4, 26, { 4.1380, 5.5174, 8.2761, 16.5521 } },
        { 25.4, 28, { 4.4563, 5.9418, 8.9127, 17.8254 } },
    };
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        struct draft d = circle_skirts(*state, rows[r].waist * rows[r].unit_mm);
        for (int i = 0; i < 4; i++) {
            struct geometry_path waist = edge_of(&d, skirts[i], "waist");
            for (size_t k = 0; k < waist.count; k++)
                assert_near(vec2_length(waist.points[k]), rows[r].radius[i] * rows[r].unit_mm,
                            0.00006 * rows[r].unit_mm);
        }
    }
}

/* Hem = theta (r + L), area = theta / 2 ((r + L)^2 - r^2), for a waist of 70 cm and a length of 60: in cm and cm2. The
 * full, three-quarter and half skirt are cut as two halves on the fold, the quarter as one. */
static void circle_skirts_have_the_hem_and_the_area_of_their_ring(void **state)
{
    static const struct {
        const char *skirt;
        double halves, hem, area;
    } rows[] = {
        { "full", 4, 446.991, 15509.734 },
        { "three quarter", 4, 352.743, 12682.300 },
        { "half", 4, 258.496, 9854.867 },
        { "quarter", 2, 164.248, 7027.433 },
    };
    struct draft d = circle_skirts(*state, 700);
    for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
        assert_near(rows[r].halves * edge_mm(&d, rows[r].skirt, "hem"), 10 * rows[r].hem, 4 * FLATTENED_MM);
        assert_near(rows[r].halves * edge_mm(&d, rows[r].skirt, "waist"), 700, 4 * FLATTENED_MM);
        assert_near(rows[r].halves * area_mm2(&d, rows[r].skirt), 100 * rows[r].area, 100);
    }
}

/* As deep as it is told all along, so of a half circle theta / 2 (r^2 - (r + depth)^2): 1/4 of pi (28.2817^2 -
 * 22.2817^2) / 2 = 119.137 cm2 for a depth of 6. */
static void a_facing_is_as_deep_all_along_the_edge_it_faces(void **state)
{
    struct draft d = circle_skirts(*state, 700);
    struct geometry_path low = edge_of(&d, "half facing", "low");
    for (size_t i = 0; i < low.count; i++)
        assert_near(vec2_length(low.points[i]), 282.817, 0.03);
    assert_near(area_mm2(&d, "half facing"), 11913.7, 3);
}

/* What the band is told to measure, its fold in the middle, and where it overlaps beside it. */
static void the_band_goes_round_the_waist_and_overlaps(void **state)
{
    struct draft d = circle_skirts(*state, 700);
    assert_near(edge_mm(&d, "waistband", "seam"), 700, 1e-6);
    assert_near(edge_mm(&d, "waistband", "inner"), 730, 1e-6);
    assert_near(edge_mm(&d, "waistband", "near"), 60, 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(every_draft_is_sound_and_its_seams_match_in_every_size_and_half_size),
        room_test(circle_skirts_have_the_radius_of_their_waist),
        room_test(circle_skirts_have_the_hem_and_the_area_of_their_ring),
        room_test(a_facing_is_as_deep_all_along_the_edge_it_faces),
        room_test(the_band_goes_round_the_waist_and_overlaps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
