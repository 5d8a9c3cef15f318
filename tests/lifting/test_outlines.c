/* Drawings made by hand, with what should come of them worked out by hand. */
#include "geometry/path.h"
#include "lifting/lift.h"
#include "lifting/staged.h"
#include "support/room.h"

#include <string.h>

/* What comes out of a drawing is within this of what was drawn: the sheet keeps floats of single precision, whose step
 * at 1000 mm is 0.00006 mm, and the network's grid is 0.00024 mm. */
#define EXACT_MM 0.0005

static double worst_from(struct geometry_path from, struct geometry_path to)
{
    double worst = 0, along;
    for (size_t i = 0; i < from.count; i++)
        worst = fmax(worst, geometry_path_distance(to, from.points[i], &along));
    return worst;
}

/* The outline of a shape in a size is the polygon, counter-clockwise. Corners are compared, so that an outline may have
 * more points on its sides but no other corner. */
static void is_outline(const struct staged *s, size_t shape, size_t size, const double *xy, size_t count, double within)
{
    assert_true(shape < s->count);
    const struct lifting_outline *o = &s->shapes[shape].outlines[size];
    struct geometry_path want = { base_arena_alloc(s->a, count, sizeof(vec2)), count, true };
    for (size_t i = 0; i < count; i++)
        want.points[i] = (vec2){ xy[2 * i], xy[2 * i + 1] };
    assert_true(o->there);
    assert_true(o->path.path.closed);
    assert_true(geometry_path_area(o->path.path) > 0);
    assert_near(worst_from(want, o->path.path), 0, within);
    assert_near(worst_from(o->path.path, want), 0, within);
    assert_near(geometry_path_area(o->path.path), fabs(geometry_path_area(want)), within * geometry_path_length(want));
}

#define IS_OUTLINE(staged, shape, size, ...)                                                                           \
    is_outline((staged), (shape), (size), (const double[]){ __VA_ARGS__ },                                             \
               sizeof((const double[]){ __VA_ARGS__ }) / sizeof(double) / 2, EXACT_MM)

static bool has_line(const struct staged *s, size_t shape, size_t line)
{
    for (size_t i = 0; i < s->shapes[shape].line_count; i++)
        if (s->shapes[shape].lines[i] == line)
            return true;
    return false;
}

/* ---- How an outline is drawn ---- */

static void a_closed_path_is_an_outline_point_by_point(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    DRAW(&s, FIRST, true, 100, 100, 100, 250.123, 180.5, 300.25, 220, 100); /* clockwise */
    staged_find(&s);
    assert_int_equal(s.count, 1);
    assert_int_equal(s.loose, 0);
    assert_false(s.shapes[0].one_size);
    assert_int_equal(s.shapes[0].outlines[0].path.path.count, 4);
    assert_near(s.shapes[0].outlines[0].closed_over_mm, 0, 0);
    IS_OUTLINE(&s, 0, 0, 100, 100, 100, 250.123, 180.5, 300.25, 220, 100);
    staged_end(&s);
}

/* Every edge ends 0.25 mm before the corner: the ends are apart by 0.25 √2 = 0.354 mm, and meet led on in the corner.
 */
static void ends_that_stop_before_a_corner_meet_in_it(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    DRAW(&s, FIRST, false, 100.25, 100, 299.75, 100);
    DRAW(&s, FIRST, false, 300, 100.25, 300, 199.75);
    DRAW(&s, FIRST, false, 100.25, 200, 299.75, 200);
    DRAW(&s, FIRST, false, 100, 199.75, 100, 100.25);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 200, 100, 200);
    assert_near(s.shapes[0].outlines[0].closed_over_mm, 0.25 * sqrt(2), 0.001);
    staged_end(&s);
}

static size_t shapes_with_a_gap_of(struct arena *a, double gap, double *told)
{
    struct staged s = staged_begin(a, 1, 0);
    DRAW(&s, FIRST, false, 100, 100, 300, 100, 300, 200, 200, 200);
    DRAW(&s, FIRST, false, 200 - gap, 200, 100, 200, 100, 100);
    staged_find(&s);
    if (s.count) {
        *told = s.shapes[0].outlines[0].closed_over_mm;
        IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 200, 100, 200);
    }
    staged_end(&s);
    return s.count;
}

static void a_gap_amid_an_edge_is_closed_straight_up_to_half_a_millimetre(void **state)
{
    double told = 0;
    assert_int_equal(shapes_with_a_gap_of(*state, 0, &told), 1);
    assert_near(told, 0, 0);
    assert_int_equal(shapes_with_a_gap_of(*state, 0.3, &told), 1);
    assert_near(told, 0.3, 0.001);
    assert_int_equal(shapes_with_a_gap_of(*state, 0.49, &told), 1);
    assert_near(told, 0.49, 0.001);
    assert_int_equal(shapes_with_a_gap_of(*state, 0.52, &told), 0);
}

/* Its two ends are the gap: one path that does not quite come back. */
static void a_path_that_all_but_comes_back_is_closed(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    DRAW(&s, FIRST, false, 200.2, 100, 300, 100, 300, 200, 100, 200, 100, 100, 200, 100);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 200, 100, 200);
    assert_near(s.shapes[0].outlines[0].closed_over_mm, 0.2, 0.001);
    staged_end(&s);
}

/* The upright edges stop 0.4 mm short of the hem, which runs on past them. */
static void an_end_that_stops_short_of_a_line_is_led_on_to_it(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    DRAW(&s, FIRST, false, 60, 100, 340, 100);
    DRAW(&s, FIRST, false, 100, 100.4, 100, 200, 300, 200, 300, 100.4);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 200, 100, 200);
    assert_near(s.shapes[0].outlines[0].closed_over_mm, 0.4, 0.001);
    staged_end(&s);
}

/* Copies on each other, the other way round, in part, and off by 0.02 mm. */
static void lines_drawn_over_each_other_are_one(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    for (int i = 0; i < 3; i++)
        DRAW(&s, FIRST, false, 100, 100, 300, 100, 300, 200);
    DRAW(&s, FIRST, false, 300, 200, 100, 200, 100, 100);
    DRAW(&s, FIRST, false, 100, 100, 100, 200, 300, 200);
    DRAW(&s, FIRST, false, 250, 100, 150, 100);
    DRAW(&s, FIRST, false, 300.02, 120, 300.01, 180);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    is_outline(&s, 0, 0, (const double[]){ 100, 100, 300, 100, 300, 200, 100, 200 }, 4, 0.021);
    assert_int_equal(s.loose, 0);
    assert_int_equal(s.shapes[0].line_count, 0);
    staged_end(&s);
}

static void a_notch_across_a_broken_outline_is_a_line_of_the_shape(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    DRAW(&s, FIRST, false, 200, 100, 300, 100, 300, 200, 100, 200, 100, 100, 200, 100);
    DRAW(&s, FIRST, false, 200, 97, 200, 105);            /* where the outline is broken */
    DRAW(&s, FIRST, false, 300, 150, 295, 150);           /* inwards */
    DRAW(&s, FIRST, false, 148, 200, 150, 204, 152, 200); /* a V outwards */
    DRAW(&s, FIRST, true, 100, 148, 105, 150, 100, 152);  /* a triangle inwards */
    DRAW(&s, FIRST, true, 200, 200, 202, 204, 198, 204);  /* a triangle that touches with its tip */
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 200, 100, 200);
    for (size_t line = 1; line < 6; line++)
        assert_true(has_line(&s, 0, line));
    assert_false(has_line(&s, 0, 0));
    assert_int_equal(s.loose, 0);
    staged_end(&s);
}

/* ---- Common lines ---- */

/* The fold edge is drawn once, past both its corners, and the hem of all sizes too. */
static void a_common_edge_serves_every_size(void **state)
{
    struct staged s = staged_begin(*state, 3, 0);
    DRAW(&s, COMMON, false, 100, 90, 100, 320);
    DRAW(&s, COMMON, false, 100, 100, 160, 100);
    for (int k = 0; k < 3; k++) {
        double more = 10.0 * k;
        DRAW(&s, (uint32_t)(FIRST + k), false, 160, 100, 200 + more, 110, 190 + more, 250 + more, 100, 260 + more);
    }
    staged_find(&s);
    assert_int_equal(s.count, 1);
    assert_false(s.shapes[0].one_size);
    for (size_t k = 0; k < 3; k++) {
        double more = 10.0 * (double)k;
        IS_OUTLINE(&s, 0, k, 100, 100, 160, 100, 200 + more, 110, 190 + more, 250 + more, 100, 260 + more);
        assert_near(s.shapes[0].outlines[k].closed_over_mm, 0, 0);
    }
    staged_end(&s);
}

static void what_is_common_alone_is_one_size(void **state)
{
    struct staged s = staged_begin(*state, 2, 0);
    staged_rectangle(&s, COMMON, 100, 600, 150, 120);
    staged_rectangle(&s, FIRST, 400, 600, 150, 120);
    staged_rectangle(&s, SECOND, 400, 600, 160, 130);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    assert_true(s.shapes[0].one_size);
    assert_false(s.shapes[1].one_size);
    staged_end(&s);
}

/* The same line in every size's layer is one size too. */
static void what_is_drawn_alike_in_every_size_is_one_size(void **state)
{
    struct staged s = staged_begin(*state, 3, 0);
    for (uint32_t k = FIRST; k <= THIRD; k++)
        staged_rectangle(&s, k, 100, 600, 150, 120);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    assert_true(s.shapes[0].one_size);
    staged_end(&s);
}

static void without_sizes_the_common_lines_have_one_outline(void **state)
{
    struct staged s = staged_begin(*state, 0, 0);
    staged_rectangle(&s, COMMON, 100, 600, 150, 120);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 600, 250, 600, 250, 720, 100, 720);
    staged_end(&s);
}

/* ---- Neighbours, and lines within ---- */

/* B is drawn on to A's right side; one line serves both. */
static void a_piece_drawn_on_to_another_shares_its_edge(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 100, 100, 200, 300);
    DRAW(&s, FIRST, false, 300, 150, 420, 150, 450, 320, 300, 320);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 400, 100, 400);
    IS_OUTLINE(&s, 1, 0, 300, 150, 420, 150, 450, 320, 300, 320);
    staged_end(&s);
}

/* Every edge by itself; the one between them once. */
static void two_pieces_of_single_edges_share_one(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    DRAW(&s, FIRST, false, 300, 100, 310, 400); /* of both */
    DRAW(&s, FIRST, false, 100, 120, 300, 100);
    DRAW(&s, FIRST, false, 310, 400, 100, 380);
    DRAW(&s, FIRST, false, 100, 380, 100, 120);
    DRAW(&s, FIRST, false, 300, 100, 500, 140);
    DRAW(&s, FIRST, false, 500, 140, 500, 360);
    DRAW(&s, FIRST, false, 500, 360, 310, 400);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    IS_OUTLINE(&s, 0, 0, 100, 120, 300, 100, 310, 400, 100, 380);
    IS_OUTLINE(&s, 1, 0, 300, 100, 500, 140, 500, 360, 310, 400);
    staged_end(&s);
}

/* Both are whole paths, and lie on each other along the edge. */
static void two_closed_paths_side_by_side_are_two(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 100, 100, 200, 300);
    staged_rectangle(&s, FIRST, 300, 100, 200, 200);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 400, 100, 400);
    IS_OUTLINE(&s, 1, 0, 300, 100, 500, 100, 500, 300, 300, 300);
    staged_end(&s);
}

static void draw_inner_lines(struct staged *s)
{
    DRAW(s, FIRST, false, 180, 100, 200, 200, 220, 100);           /* 1: a dart from the hem */
    DRAW(s, COMMON, false, 95, 300, 305, 300);                     /* 2: to lengthen, past both sides */
    DRAW(s, COMMON, false, 100, 320, 300, 320);                    /* 3: from side to side */
    DRAW(s, COMMON, true, 130, 350, 190, 350, 190, 390, 130, 390); /* 4: a pocket's place */
    DRAW(s, FIRST, true, 300, 150, 240, 150, 240, 260, 300, 260);  /* 5: one set to the side */
    DRAW(s, COMMON, false, 150, 150, 150, 280);                    /* 6: grain */
    DRAW(s, FIRST, false, 100, 380, 130, 400);                     /* 7: a corner cut off */
}

static void inner_lines_do_not_part_a_piece(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 100, 100, 200, 300);
    draw_inner_lines(&s);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 400, 100, 400);
    for (size_t line = 1; line < 8; line++)
        assert_true(has_line(&s, 0, line));
    assert_int_equal(s.shapes[0].line_count, 7);
    staged_end(&s);
}

/* The same where the outline is drawn edge by edge. */
static void inner_lines_do_not_part_a_piece_of_single_edges(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    DRAW(&s, FIRST, false, 100, 100, 300, 100);
    draw_inner_lines(&s);
    DRAW(&s, FIRST, false, 300, 100, 300, 400);
    DRAW(&s, FIRST, false, 300, 400, 100, 400);
    DRAW(&s, FIRST, false, 100, 400, 100, 100);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 400, 100, 400);
    assert_int_equal(s.shapes[0].line_count, 7);
    staged_end(&s);
}

/* The outline is broken at the dart's legs and its mouth drawn apart. */
static void a_dart_whose_mouth_is_drawn_apart_is_within(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    DRAW(&s, FIRST, false, 220, 100, 300, 100, 300, 400, 100, 400, 100, 100, 180, 100);
    DRAW(&s, FIRST, false, 180, 100, 200, 95, 220, 100);
    DRAW(&s, FIRST, false, 180, 100, 200, 220);
    DRAW(&s, FIRST, false, 200, 220, 220, 100);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 180, 100, 200, 95, 220, 100, 300, 100, 300, 400, 100, 400);
    staged_end(&s);
}

/* A line from corner to corner parts two pieces, unless only one of both has a name. */
static void words_tell_whether_a_line_between_corners_parts_two_pieces(void **state)
{
    for (int both = 0; both < 2; both++) {
        struct staged s = staged_begin(*state, 1, 0);
        DRAW(&s, FIRST, false, 100, 100, 300, 100);
        DRAW(&s, FIRST, false, 300, 100, 320, 400);
        DRAW(&s, FIRST, false, 320, 400, 100, 420);
        DRAW(&s, FIRST, false, 100, 420, 100, 100);
        DRAW(&s, FIRST, false, 100, 100, 320, 400);
        drawn_words(s.c, COMMON, 200, 150, 8, "Front");
        if (both)
            drawn_words(s.c, COMMON, 120, 300, 8, "Back");
        staged_find(&s);
        assert_int_equal(s.count, both ? 2 : 1);
        staged_end(&s);
    }
}

/* ---- What is no piece ---- */

/* 2 × 4 cm is the smallest piece. */
static void a_belt_loop_is_a_piece_and_smaller_things_are_none(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 100, 100, 40, 20);
    staged_rectangle(&s, FIRST, 200, 100, 25, 25);
    staged_rectangle(&s, FIRST, 300, 100, 400, 8); /* a thick line */
    DRAW(&s, FIRST, true, 300, 300, 310, 300, 305, 310);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 140, 100, 140, 120, 100, 120);
    staged_end(&s);
}

static void a_frame_around_pieces_is_none(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, COMMON, 5, 5, 1190, 890);
    staged_rectangle(&s, FIRST, 10, 10, 1100, 800);
    staged_rectangle(&s, FIRST, 20, 20, 400, 700);
    DRAW(&s, FIRST, true, 600, 20, 900, 20, 880, 500, 620, 480);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    IS_OUTLINE(&s, 0, 0, 20, 20, 420, 20, 420, 720, 20, 720);
    staged_end(&s);
}

/* Of four lines that cross in its corners, and a ruling across the pieces. */
static void rulings_across_the_sheet_part_no_piece(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    for (int i = 0; i < 4; i++) {
        DRAW(&s, COMMON, false, 5, 5 + 280.0 * i, 1195, 5 + 280.0 * i);
        DRAW(&s, COMMON, false, 5 + 390.0 * i, 5, 5 + 390.0 * i, 895);
    }
    DRAW(&s, FIRST, true, 100, 100, 600, 120, 560, 500, 120, 480);
    DRAW(&s, FIRST, true, 700, 200, 1100, 220, 1000, 800);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    IS_OUTLINE(&s, 0, 0, 100, 100, 600, 120, 560, 500, 120, 480);
    IS_OUTLINE(&s, 1, 0, 700, 200, 1100, 220, 1000, 800);
    staged_end(&s);
}

/* Two of a tenth of a page each, and the ground that all is drawn on. */
static void draw_border(struct staged *s, uint32_t layer)
{
    staged_rectangle(s, COMMON, 0, 0, 1200, 900);
    staged_rectangle(s, COMMON, 10, 10, 1180, 880);
    staged_rectangle(s, layer, 100, 100, 300, 300);
    staged_rectangle(s, layer, 600, 100, 300, 300);
}

static void a_frame_round_few_pieces_is_none(void **state)
{
    for (uint32_t layer = COMMON; layer <= FIRST; layer++) {
        struct staged s = staged_begin(*state, 1, 0);
        draw_border(&s, layer);
        drawn_words(s.c, COMMON, 120, 200, 6, "Back, cut 2");
        drawn_words(s.c, COMMON, 620, 200, 6, "Front, cut 2");
        drawn_words(s.c, COMMON, 500, 800, 6, "Skirt");
        staged_find(&s);
        assert_int_equal(s.count, 2);
        IS_OUTLINE(&s, 0, 0, 100, 100, 400, 100, 400, 400, 100, 400);
        IS_OUTLINE(&s, 1, 0, 600, 100, 900, 100, 900, 400, 600, 400);
        staged_end(&s);
    }
}

/* The frame is half a page; its pieces, a fifth of it, tell their counts. The panel beside it tells its own. */
static void a_panel_with_pockets_is_a_piece_and_a_frame_round_pieces_is_none(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    for (int i = 0; i < 2; i++) {
        staged_rectangle(&s, COMMON, 20 + 600 * i, 20, 500, 800);
        staged_rectangle(&s, COMMON, 60 + 600 * i, 400, 150, 200);
        staged_rectangle(&s, COMMON, 300 + 600 * i, 400, 150, 200);
        drawn_words(s.c, COMMON, 70 + 600 * i, 500, 6, "Pocket, cut 1");
        drawn_words(s.c, COMMON, 310 + 600 * i, 500, 6, "Flap, cut 2");
    }
    drawn_words(s.c, COMMON, 650, 100, 6, "Back, cut 1");
    staged_find(&s);
    assert_int_equal(s.count, 3);
    IS_OUTLINE(&s, 0, 0, 60, 400, 210, 400, 210, 600, 60, 600);
    IS_OUTLINE(&s, 1, 0, 300, 400, 450, 400, 450, 600, 300, 600);
    IS_OUTLINE(&s, 2, 0, 620, 20, 1120, 20, 1120, 820, 620, 820);
    assert_int_equal(s.shapes[2].own_text_count, 1);
    assert_int_equal(s.shapes[2].text_count, 3);
    staged_end(&s);
}

/* The facing drawn on the skirt is cut from interfacing; the skirt is not. */
static void what_an_outline_within_tells_is_not_mixed_in_but_told(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, COMMON, 100, 100, 350, 450);
    drawn_words(s.c, COMMON, 120, 520, 8, "Skirt");
    drawn_words(s.c, COMMON, 120, 508, 8, "Cut 1 on fold");
    staged_rectangle(&s, COMMON, 180, 300, 150, 100);
    drawn_words(s.c, COMMON, 190, 360, 8, "Facing");
    drawn_words(s.c, COMMON, 190, 348, 8, "Cut 2 interfacing");
    staged_find(&s);
    struct lifting l = lifting_lift(s.a, &s.d, &s.division, NULL, 0, s.errs);
    assert_int_equal(l.piece_count, 1);
    assert_string_equal(l.pieces[0].words.name, "Skirt");
    assert_int_equal(l.pieces[0].words.count, 1);
    assert_false(l.pieces[0].words.cloths & 1U << LIFTING_INTERFACING);
    assert_true(l.pieces[0].doubts & LIFTING_DOUBT_TWO);
    staged_end(&s);
}

/* Also on a page as small as the piece. */
static void a_piece_that_is_told_within_its_stitching_line_is_no_frame(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 5, 5, 1190, 890);
    staged_rectangle(&s, FIRST, 15, 15, 1170, 870);
    drawn_words(s.c, COMMON, 600, 400, 6, "Back, cut 1");
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 5, 5, 1195, 5, 1195, 895, 5, 895);
    assert_int_equal(s.shapes[0].own_text_count, 1);
    staged_end(&s);
}

static void closed_lines_within_a_rectangular_piece_are_lines(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 20, 20, 700, 500); /* a skirt's panel with two pockets */
    staged_rectangle(&s, FIRST, 100, 300, 140, 150);
    staged_rectangle(&s, FIRST, 500, 300, 140, 150);
    staged_rectangle(&s, FIRST, 20, 600, 700, 80); /* a band with its stitching line */
    staged_rectangle(&s, FIRST, 30, 610, 680, 60);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    IS_OUTLINE(&s, 0, 0, 20, 600, 720, 600, 720, 680, 20, 680);
    assert_int_equal(s.shapes[0].line_count, 1);
    assert_int_equal(s.shapes[1].line_count, 2);
    staged_end(&s);
}

static void a_test_square_is_no_piece_but_a_square_pocket_is(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, COMMON, 100, 100, 100, 100);
    drawn_words(s.c, COMMON, 130, 150, 6, "10 cm");
    staged_rectangle(&s, COMMON, 300, 100, 120, 120);
    drawn_words(s.c, COMMON, 310, 150, 6, "Pocket");
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 300, 100, 420, 100, 420, 220, 300, 220);
    assert_int_equal(s.shapes[0].text_count, 1);
    staged_end(&s);
}

/* 10 cm to the tenth of a millimetre, without a word that can be read; and 2 in. One with a grain line is a piece. */
static void a_square_of_a_round_side_with_nothing_in_it_is_no_piece(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, COMMON, 100, 100, 100, 100);
    staged_rectangle(&s, COMMON, 300, 100, 50.8, 50.8);
    staged_rectangle(&s, COMMON, 500, 100, 100, 100);
    DRAW(&s, COMMON, false, 550, 120, 550, 180);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 500, 100, 600, 100, 600, 200, 500, 200);
    staged_end(&s);
}

static void a_box_with_a_title_is_no_piece_but_one_that_is_cut_is(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, COMMON, 100, 100, 140, 90);
    drawn_words(s.c, COMMON, 110, 170, 8, "Skirt with a yoke");
    drawn_words(s.c, COMMON, 110, 150, 5, "Sizes S to XL");
    drawn_words(s.c, COMMON, 110, 130, 5, "Print at true scale");
    staged_rectangle(&s, COMMON, 300, 100, 140, 90);
    drawn_words(s.c, COMMON, 310, 170, 8, "7");
    drawn_words(s.c, COMMON, 310, 150, 5, "Loops");
    drawn_words(s.c, COMMON, 310, 130, 5, "cut 2");
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 300, 100, 440, 100, 440, 190, 300, 190);
    staged_end(&s);
}

/* Two closed outlines that overlap a little are both pieces; a pocket that stands out a little is none. */
static void outlines_that_cross_are_whole(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 100, 100, 300, 300);
    DRAW(&s, FIRST, true, 380, 150, 700, 150, 700, 350, 380, 350);
    staged_rectangle(&s, FIRST, 80, 200, 90, 90);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    IS_OUTLINE(&s, 0, 0, 100, 100, 400, 100, 400, 400, 100, 400);
    IS_OUTLINE(&s, 1, 0, 380, 150, 700, 150, 700, 350, 380, 350);
    staged_end(&s);
}

static void unused_lines_are_not_looked_at(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST + 1, 100, 100, 300, 300);
    DRAW(&s, FIRST, false, 100, 500, 300, 500);
    staged_find(&s);
    assert_int_equal(s.count, 0);
    assert_int_equal(s.loose, 1);
    staged_end(&s);
}

/* ---- Sizes ---- */

/* The second is narrower and taller, so that they cross. */
static void nested_sizes_are_one_shape(void **state)
{
    struct staged s = staged_begin(*state, 3, 0);
    staged_rectangle(&s, FIRST, 100, 100, 200, 300);
    staged_rectangle(&s, SECOND, 105, 100, 190, 330);
    staged_rectangle(&s, THIRD, 90, 90, 240, 350);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 300, 400, 100, 400);
    IS_OUTLINE(&s, 0, 1, 105, 100, 295, 100, 295, 430, 105, 430);
    IS_OUTLINE(&s, 0, 2, 90, 90, 330, 90, 330, 440, 90, 440);
    staged_end(&s);
}

/* Each size stands by itself, its pieces in a row of their own. */
static void sizes_set_apart_are_matched_by_their_likeness(void **state)
{
    struct staged s = staged_begin(*state, 2, 0);
    for (uint32_t k = 0; k < 2; k++) {
        double up = 400.0 * k, more = 10.0 * k;
        staged_rectangle(&s, FIRST + k, 50, 50 + up, 300 + more, 80);
        staged_rectangle(&s, FIRST + k, 400, 50 + up, 200 + more, 300 + more);
        staged_rectangle(&s, FIRST + k, 700, 50 + up, 210 + more, 310 + more);
        DRAW(&s, FIRST + k, true, 950, 50 + up, 1150 + more, 50 + up, 1050, 200 + up + more);
    }
    staged_find(&s);
    assert_int_equal(s.count, 4);
    for (size_t i = 0; i < 4; i++) {
        const struct lifting_outline *o = s.shapes[i].outlines;
        assert_true(o[0].there && o[1].there);
        vec2 low = geometry_path_box(o[0].path.path).min, up = geometry_path_box(o[1].path.path).min;
        assert_near(low.x, up.x, EXACT_MM);
        assert_near(up.y - low.y, 400, EXACT_MM);
    }
    staged_end(&s);
}

static void a_piece_of_some_sizes_is_not_there_in_others(void **state)
{
    struct staged s = staged_begin(*state, 3, 0);
    staged_rectangle(&s, FIRST, 100, 100, 200, 300);
    staged_rectangle(&s, THIRD, 100, 100, 220, 320);
    staged_rectangle(&s, SECOND, 600, 100, 50, 60);
    staged_find(&s);
    assert_int_equal(s.count, 2);
    assert_true(s.shapes[0].outlines[0].there);
    assert_false(s.shapes[0].outlines[1].there);
    assert_true(s.shapes[0].outlines[2].there);
    assert_true(s.shapes[1].outlines[1].there);
    staged_end(&s);
}

/* The front is one for each cup group, in the second with an edge that both have; the back is one for all. */
static void cup_groups_have_pieces_of_their_own(void **state)
{
    struct staged s = staged_begin(*state, 1, 2);
    staged_rectangle(&s, FIRST, 600, 100, 200, 300);
    DRAW(&s, FIRST, false, 300, 100, 100, 100, 100, 400);
    DRAW(&s, FIRST + 1, false, 300, 100, 310, 300, 100, 400);
    DRAW(&s, FIRST + 2, false, 300, 100, 330, 320, 100, 400);
    staged_find(&s);
    assert_int_equal(s.count, 3);
    assert_int_equal(s.shapes[0].cup_group, 0);
    assert_int_equal(s.shapes[1].cup_group, 1);
    IS_OUTLINE(&s, 0, 0, 100, 100, 300, 100, 310, 300, 100, 400);
    IS_OUTLINE(&s, 1, 0, 100, 100, 300, 100, 330, 320, 100, 400);
    assert_int_equal(s.shapes[2].cup_group, LIFTING_NONE);
    staged_end(&s);
}

/* What stands in the smaller cup's piece stands in the larger's around it too; what stands outside of both, in none. */
static void words_of_all_cups_go_with_each(void **state)
{
    struct staged s = staged_begin(*state, 1, 2);
    staged_rectangle(&s, FIRST + 1, 100, 100, 200, 300);
    staged_rectangle(&s, FIRST + 2, 100, 100, 230, 320);
    drawn_words(s.c, COMMON, 150, 250, 10, "Front");
    drawn_words(s.c, COMMON, 500, 250, 10, "Elsewhere");
    staged_find(&s);
    assert_int_equal(s.count, 2);
    for (size_t i = 0; i < 2; i++) {
        assert_int_equal(s.shapes[i].text_count, 1);
        assert_string_equal(s.d.texts[s.shapes[i].texts[0]].words, "Front");
    }
    staged_end(&s);
}

/* ---- Lines and words ---- */

static void lines_of_every_size_and_words_go_with_their_shape(void **state)
{
    struct staged s = staged_begin(*state, 2, 0);
    staged_rectangle(&s, FIRST, 100, 500, 200, 300);  /* 0 */
    staged_rectangle(&s, SECOND, 100, 500, 220, 320); /* 1 */
    DRAW(&s, FIRST, false, 300, 600, 294, 600);       /* 2: a notch of the first size */
    DRAW(&s, SECOND, false, 320, 610, 314, 610);      /* 3: of the second */
    DRAW(&s, COMMON, false, 310, 700, 310, 760);      /* 4: in the second alone */
    DRAW(&s, COMMON, false, 500, 600, 500, 700);      /* 5: nowhere */
    staged_rectangle(&s, COMMON, 700, 500, 40, 20);   /* 6: a loop with its name beside it */
    drawn_words(s.c, COMMON, 150, 650, 10, "Front");
    drawn_words(s.c, COMMON, 745, 508, 5, "Loop");
    drawn_words(s.c, COMMON, 400, 100, 5, "Print at 100 %");
    staged_find(&s);
    assert_int_equal(s.count, 2);
    assert_int_equal(s.shapes[0].line_count, 3);
    assert_true(has_line(&s, 0, 2) && has_line(&s, 0, 3) && has_line(&s, 0, 4));
    assert_int_equal(s.shapes[0].text_count, 1);
    assert_string_equal(s.d.texts[s.shapes[0].texts[0]].words, "Front");
    assert_int_equal(s.shapes[1].line_count, 0);
    assert_int_equal(s.shapes[1].text_count, 1);
    assert_string_equal(s.d.texts[s.shapes[1].texts[0]].words, "Loop");
    staged_end(&s);
}

/* 5 mm beside a loop from (700, 500) to (740, 525). A letter is 0.5 of 8 mm wide: “Belt loop” 36 mm, the sentence 156.
 */
static void a_label_begins_or_ends_beside_its_shape(void **state)
{
    static const struct {
        double x;
        const char *words;
        size_t count;
    } rows[] = { { 745, "Belt loop", 1 },
                 { 659, "Belt loop", 1 },
                 { 782, "Belt loop", 0 },
                 { 745, "Wash and press all cloth before you cut", 0 } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct staged s = staged_begin(*state, 1, 0);
        staged_rectangle(&s, FIRST, 100, 500, 200, 300);
        staged_rectangle(&s, COMMON, 700, 500, 40, 25);
        drawn_words(s.c, COMMON, 150, 650, 10, "Front");
        drawn_words(s.c, COMMON, rows[i].x, 510, 8, rows[i].words);
        staged_find(&s);
        assert_int_equal(s.count, 2);
        assert_int_equal(s.shapes[1].text_count, rows[i].count);
        staged_end(&s);
    }
}

/* Filled outlines, a row of them, that cross the outline; filled arrowheads and a dot are none. */
static void letters_drawn_as_outlines_are_no_lines_of_a_shape(void **state)
{
    static const struct collect_style black = { 0, 0x000000, SHEET_FILLED, NULL, 0 };
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 100, 500, 200, 300);
    for (int i = 0; i < 5; i++) {
        static const double l[] = { 0, 0, 4, 0, 4, 1, 1, 1, 1, 6, 0, 6 };
        double at = 288 + 5.0 * i;
        collect_begin(s.c, COMMON, &black);
        collect_move(s.c, at, 650);
        for (int k = 1; k < 6; k++)
            collect_line(s.c, at + l[2 * k], 650 + l[2 * k + 1]);
        collect_close(s.c);
        collect_end(s.c);
    }
    collect_begin(s.c, COMMON, &black);
    collect_move(s.c, 200, 600);
    collect_line(s.c, 203, 610);
    collect_line(s.c, 197, 610);
    collect_close(s.c);
    collect_end(s.c);
    staged_find(&s);
    assert_int_equal(s.count, 1);
    IS_OUTLINE(&s, 0, 0, 100, 500, 300, 500, 300, 800, 100, 800);
    assert_int_equal(s.shapes[0].line_count, 1);
    assert_true(has_line(&s, 0, 6));
    staged_end(&s);
}

static void shapes_come_row_by_row_from_the_top_left(void **state)
{
    struct staged s = staged_begin(*state, 1, 0);
    staged_rectangle(&s, FIRST, 500, 100, 100, 100);
    staged_rectangle(&s, FIRST, 100, 120, 100, 100);
    staged_rectangle(&s, FIRST, 400, 560, 300, 300);
    staged_rectangle(&s, FIRST, 100, 600, 200, 200);
    staged_find(&s);
    assert_int_equal(s.count, 4);
    static const double left[] = { 100, 400, 100, 500 }, low[] = { 600, 560, 120, 100 };
    for (size_t i = 0; i < 4; i++) {
        struct geometry_box box = geometry_path_box(s.shapes[i].outlines[0].path.path);
        assert_near(box.min.x, left[i], EXACT_MM);
        assert_near(box.min.y, low[i], EXACT_MM);
    }
    staged_end(&s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_closed_path_is_an_outline_point_by_point),
        room_arena_test(ends_that_stop_before_a_corner_meet_in_it),
        room_arena_test(a_gap_amid_an_edge_is_closed_straight_up_to_half_a_millimetre),
        room_arena_test(a_path_that_all_but_comes_back_is_closed),
        room_arena_test(an_end_that_stops_short_of_a_line_is_led_on_to_it),
        room_arena_test(lines_drawn_over_each_other_are_one),
        room_arena_test(a_notch_across_a_broken_outline_is_a_line_of_the_shape),
        room_arena_test(a_common_edge_serves_every_size),
        room_arena_test(what_is_common_alone_is_one_size),
        room_arena_test(what_is_drawn_alike_in_every_size_is_one_size),
        room_arena_test(without_sizes_the_common_lines_have_one_outline),
        room_arena_test(a_piece_drawn_on_to_another_shares_its_edge),
        room_arena_test(two_pieces_of_single_edges_share_one),
        room_arena_test(two_closed_paths_side_by_side_are_two),
        room_arena_test(inner_lines_do_not_part_a_piece),
        room_arena_test(inner_lines_do_not_part_a_piece_of_single_edges),
        room_arena_test(a_dart_whose_mouth_is_drawn_apart_is_within),
        room_arena_test(words_tell_whether_a_line_between_corners_parts_two_pieces),
        room_arena_test(a_belt_loop_is_a_piece_and_smaller_things_are_none),
        room_arena_test(a_frame_around_pieces_is_none),
        room_arena_test(a_frame_round_few_pieces_is_none),
        room_arena_test(a_panel_with_pockets_is_a_piece_and_a_frame_round_pieces_is_none),
        room_arena_test(what_an_outline_within_tells_is_not_mixed_in_but_told),
        room_arena_test(a_piece_that_is_told_within_its_stitching_line_is_no_frame),
        room_arena_test(rulings_across_the_sheet_part_no_piece),
        room_arena_test(closed_lines_within_a_rectangular_piece_are_lines),
        room_arena_test(a_test_square_is_no_piece_but_a_square_pocket_is),
        room_arena_test(a_square_of_a_round_side_with_nothing_in_it_is_no_piece),
        room_arena_test(a_box_with_a_title_is_no_piece_but_one_that_is_cut_is),
        room_arena_test(outlines_that_cross_are_whole),
        room_arena_test(unused_lines_are_not_looked_at),
        room_arena_test(nested_sizes_are_one_shape),
        room_arena_test(sizes_set_apart_are_matched_by_their_likeness),
        room_arena_test(a_piece_of_some_sizes_is_not_there_in_others),
        room_arena_test(cup_groups_have_pieces_of_their_own),
        room_arena_test(words_of_all_cups_go_with_each),
        room_arena_test(lines_of_every_size_and_words_go_with_their_shape),
        room_arena_test(a_label_begins_or_ends_beside_its_shape),
        room_arena_test(letters_drawn_as_outlines_are_no_lines_of_a_shape),
        room_arena_test(shapes_come_row_by_row_from_the_top_left),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
