#include "drawing/drawn.h"
#include "drawing/squares.h"
#include "support/room.h"

#include <math.h>
#include <stdlib.h>

static const struct collect_style fine = { 0.3, 0x000000, SHEET_STROKED, NULL, 0 };
static const struct collect_style black = { 0, 0x000000, SHEET_FILLED, NULL, 0 };
static const struct collect_style even_odd = { 0, 0x000000, SHEET_FILLED | SHEET_EVEN_ODD, NULL, 0 };
static const struct collect_style dashed = { 0.3, 0x000000, SHEET_STROKED, (const double[]){ 3, 2 }, 2 };

static void rectangle(struct collect *c, const struct collect_style *style, double x, double y, double w, double h)
{
    collect_begin(c, SHEET_NONE, style);
    collect_move(c, x, y);
    collect_line(c, x + w, y);
    collect_line(c, x + w, y + h);
    collect_line(c, x, y + h);
    collect_close(c);
    collect_end(c);
}

static void segment(struct collect *c, double x0, double y0, double x1, double y1)
{
    drawn_line(c, SHEET_NONE, (const double[]){ x0, y0, x1, y1 }, 2, false);
}

/* ---- The same square as different producers draw it: lower left corner, width, height ---- */

static void one_path(struct collect *c, double x, double y, double w, double h)
{
    rectangle(c, &fine, x, y, w, h);
}

static void path_left_open(struct collect *c, double x, double y, double w, double h)
{
    drawn_line(c, SHEET_NONE, (const double[]){ x, y, x + w, y, x + w, y + h, x, y + h, x, y }, 5, false);
}

static void four_lines(struct collect *c, double x, double y, double w, double h)
{
    segment(c, x, y, x + w, y);
    segment(c, x + w, y + h, x, y + h);
    segment(c, x, y, x, y + h);
    segment(c, x + w, y, x + w, y + h);
}

static void two_corners(struct collect *c, double x, double y, double w, double h)
{
    drawn_line(c, SHEET_NONE, (const double[]){ x, y + h, x, y, x + w, y }, 3, false);
    drawn_line(c, SHEET_NONE, (const double[]){ x, y + h, x + w, y + h, x + w, y }, 3, false);
}

static void halved_lines(struct collect *c, double x, double y, double w, double h)
{
    four_lines(c, x, y, w / 2, 0);
    four_lines(c, x + w / 2, y, w / 2, 0);
    segment(c, x, y + h, x + w / 3, y + h);
    segment(c, x + w / 3, y + h, x + w, y + h);
    segment(c, x, y, x, y + h);
    segment(c, x + w, y, x + w, y + h);
}

static void dashes_of_style(struct collect *c, double x, double y, double w, double h)
{
    rectangle(c, &dashed, x, y, w, h);
}

/* Each dash a line of its own, 2.2 mm and 1 mm of gap, the last one short or left out. */
static void dashes_as_lines(struct collect *c, double x, double y, double w, double h)
{
    for (double at = 0; at < w; at += 3.2) {
        segment(c, x + at, y, x + fmin(at + 2.2, w), y);
        segment(c, x + at, y + h, x + fmin(at + 2.2, w), y + h);
    }
    for (double at = 0; at < h; at += 3.2) {
        segment(c, x, y + at, x, y + fmin(at + 2.2, h));
        segment(c, x + w, y + at, x + w, y + fmin(at + 2.2, h));
    }
}

static void doubled(struct collect *c, double x, double y, double w, double h)
{
    one_path(c, x, y, w, h);
    four_lines(c, x, y, w, h);
    one_path(c, x, y, w, h);
}

/* A line 0.8 mm thick as a filled frame: its outer and its inner outline. */
static void filled_frame(struct collect *c, double x, double y, double w, double h)
{
    collect_begin(c, SHEET_NONE, &even_odd);
    for (int side = -1; side <= 1; side += 2) {
        double out = 0.4 * side;
        collect_move(c, x - out, y - out);
        collect_line(c, x + w + out, y - out);
        collect_line(c, x + w + out, y + h + out);
        collect_line(c, x - out, y + h + out);
        collect_close(c);
    }
    collect_end(c);
}

static void light_upon_dark(struct collect *c, double x, double y, double w, double h)
{
    static const struct collect_style white = { 0, 0xffffff, SHEET_FILLED, NULL, 0 };
    rectangle(c, &black, x - 0.25, y - 0.25, w + 0.5, h + 0.5);
    rectangle(c, &white, x + 0.25, y + 0.25, w - 0.5, h - 0.5);
}

/* Its sides as rectangles 0.5 mm thick that overlap at the corners. */
static void thin_rectangles(struct collect *c, double x, double y, double w, double h)
{
    rectangle(c, &black, x - 0.25, y - 0.25, w + 0.5, 0.5);
    rectangle(c, &black, x - 0.25, y + h - 0.25, w + 0.5, 0.5);
    rectangle(c, &black, x - 0.25, y + 0.25, 0.5, h - 0.5);
    rectangle(c, &black, x + w - 0.25, y + 0.25, 0.5, h - 0.5);
}

static void filled_square(struct collect *c, double x, double y, double w, double h)
{
    rectangle(c, &black, x, y, w, h);
}

static void rounded(struct collect *c, double x, double y, double w, double h)
{
    double r = w / 20, k = 0.44772 * r; /* handles of a quarter circle: 1 - 0.55228 from the corner */
    collect_begin(c, SHEET_NONE, &fine);
    collect_move(c, x + r, y);
    collect_line(c, x + w - r, y);
    collect_cubic(c, x + w - k, y, x + w, y + k, x + w, y + r);
    collect_line(c, x + w, y + h - r);
    collect_cubic(c, x + w, y + h - k, x + w - k, y + h, x + w - r, y + h);
    collect_line(c, x + r, y + h);
    collect_cubic(c, x + k, y + h, x, y + h - k, x, y + h - r);
    collect_line(c, x, y + r);
    collect_cubic(c, x, y + k, x + k, y, x + r, y);
    collect_close(c);
    collect_end(c);
}

/* With a point in the middle of each side. */
static void many_points(struct collect *c, double x, double y, double w, double h)
{
    drawn_line(c, SHEET_NONE,
               (const double[]){ x, y, x + w / 2, y, x + w, y, x + w, y + h / 3, x + w, y + h, x + w / 2, y + h, x,
                                 y + h, x, y + h / 2 },
               8, true);
}

static const struct {
    const char *name;
    void (*draw)(struct collect *c, double x, double y, double w, double h);
} ways[] = {
    { "one path", one_path },
    { "a path left open", path_left_open },
    { "four lines", four_lines },
    { "two corners", two_corners },
    { "halved lines", halved_lines },
    { "dashes of a style", dashes_of_style },
    { "dashes as lines", dashes_as_lines },
    { "doubled", doubled },
    { "a filled frame", filled_frame },
    { "light upon dark", light_upon_dark },
    { "thin rectangles", thin_rectangles },
    { "a filled square", filled_square },
    { "rounded corners", rounded },
    { "many points", many_points },
};

enum { WAYS = sizeof ways / sizeof ways[0] };

/* The sides that the header names, as they may stand written: in both units. mm by hand, 1 in = 25.4 mm. */
static const struct {
    double mm;
    const char *words;
} sides[] = {
    { 25.4, "1 in" }, { 25.4, "2,54 cm" },    { 50.8, "2\" x 2\"" }, { 101.6, "4 inch" },
    { 50, "5 cm" },   { 100, "10cm x 10cm" }, { 100, "100 mm" },     { 101.6, "Testquadrat 4 x 4 Zoll" },
    { 20, "2 cm" },   { 76.2, "3 in" },
};

enum { SIDES = sizeof sides / sizeof sides[0] };

/* A page with whatever is not a square on it. */
static struct collect *page(void)
{
    struct collect *c = collect_create(-1);
    collect_page(c, 841, 1189, NULL);
    rectangle(c, &fine, 5, 5, 831, 1179);
    drawn_line(c, SHEET_NONE, (const double[]){ 300, 300, 500, 310, 480, 700, 310, 690 }, 4, true);
    drawn_words(c, SHEET_NONE, 350, 400, 10, "Front, cut 2 in main cloth, 1.5 cm seam allowance");
    segment(c, 5, 150, 836, 150);
    return c;
}

static struct drawing_truth judge(struct arena *a, struct collect *c, size_t *count)
{
    struct drawing d = drawn_drawing(a, c);
    const struct drawing_square *squares;
    *count = drawing_find_squares(a, &d, &squares);
    return drawing_judge(squares, *count);
}

/* However it is drawn, a square of 10 cm at 95.5 % measures 95.5 mm and says so. */
static void a_square_is_found_however_it_is_drawn(void **state)
{
    for (size_t i = 0; i < WAYS; i++) {
        struct collect *c = page();
        size_t count;
        ways[i].draw(c, 40, 40, 95.5, 95.5);
        drawn_words(c, SHEET_NONE, 60, 80, 5, "10 cm");
        struct drawing_truth truth = judge(*state, c, &count);
        if (count != 1 || truth.kind != DRAWING_OFF || fabs(truth.saved.across - 0.955) > 1e-5 ||
            fabs(truth.saved.up - 0.955) > 1e-5 || truth.side_mm != 100 || fabs(truth.square->corner.x - 40) > 1e-3)
            fail_msg("%s: %zu squares, kind %d, scale %.6f", ways[i].name, count, (int)truth.kind, truth.saved.across);
    }
}

static void every_scale_of_every_side_is_told(void **state)
{
    (void)state;
    for (size_t i = 0; i < SIDES; i++) {
        for (int tenth = 900; tenth <= 1100; tenth++) {
            struct arena *a = base_arena_create();
            struct collect *c = page();
            double scale = tenth / 1000.0, side = sides[i].mm * scale;
            size_t count;
            one_path(c, 40, 40, side, side);
            drawn_words(c, SHEET_NONE, 42, 44, 3, sides[i].words);
            struct drawing_truth truth = judge(a, c, &count);
            enum drawing_truth_kind want = abs(tenth - 1000) <= 1 ? DRAWING_TRUE : DRAWING_OFF;
            double told = truth.kind == DRAWING_TRUE ? 1 : scale;
            bool good =
                count == 1 && fabs(truth.saved.across - told) < 1e-9 && fabs(truth.side_mm - sides[i].mm) < 1e-9;
            /* one per mille off is as near to true as to off */
            if (!good || (truth.kind != want && abs(tenth - 1000) != 1))
                fail_msg("%s at %g: %zu squares, kind %d, scale %.6f", sides[i].words, scale, count, (int)truth.kind,
                         truth.saved.across);
            base_arena_destroy(a);
        }
    }
}

/* Scanned at 150 dots to the inch a side may be off by 25.4 / 150 = 0.169 mm; no word of a scan is read. */
static void a_scans_square_is_true_within_a_dot(void **state)
{
    const struct collect_style traced = { 0.3, 0x000000, SHEET_STROKED | SHEET_TRACED, NULL, 0 };
    static const struct {
        double width_mm, height_mm;
        enum drawing_truth_kind kind;
    } rows[] = { { 49.96, 50.125, DRAWING_TRUE }, { 49.84, 50.16, DRAWING_TRUE }, { 50.5, 50.5, DRAWING_ASK_SIZE } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct collect *c = page();
        size_t count;
        collect_note(c, SHEET_NOTE_SCAN, NULL, 1, 150);
        rectangle(c, &traced, 40, 40, rows[i].width_mm, rows[i].height_mm);
        struct drawing_truth truth = judge(*state, c, &count);
        assert_int_equal(count, 1);
        assert_near(truth.square->dot_mm, 0.16933, 1e-5);
        assert_int_equal(truth.kind, rows[i].kind);
        assert_near(truth.saved.across, 1, 0);
    }
}

/* 4 in at 94 % is 95.504 mm; so is 10 cm at 95.504 %: without words the person is asked, the whole percent first. */
static void without_words_the_person_is_asked(void **state)
{
    size_t count;
    struct collect *c = page();
    one_path(c, 40, 40, 95.504, 95.504);
    struct drawing_truth truth = judge(*state, c, &count);
    assert_int_equal(count, 1);
    assert_int_equal(truth.kind, DRAWING_ASK_SIZE);
    assert_near(truth.square->likely_mm[0], 101.6, 1e-9);
    assert_near(truth.square->likely_mm[1], 100, 1e-9);
    assert_near(truth.saved.across, 1, 0);
    truth = drawing_judge_as(truth.square, 101.6);
    assert_int_equal(truth.kind, DRAWING_OFF);
    assert_near(truth.saved.up, 0.94, 1e-9);
    assert_near(drawing_correction(truth.saved).up * 95.504, 101.6, 1e-9);
    assert_near(drawing_judge_as(truth.square, 100).saved.up, 0.95504, 1e-9);
}

static void without_words_a_round_square_is_believed(void **state)
{
    static const double round[] = { 25.4, 50, 50.8, 100, 101.6 };
    for (size_t i = 0; i < 5; i++) {
        size_t count;
        struct collect *c = page();
        one_path(c, 40, 40, round[i], round[i]);
        struct drawing_truth truth = judge(*state, c, &count);
        assert_int_equal(truth.kind, DRAWING_TRUE);
        assert_near(truth.side_mm, round[i], 1e-9);
    }
}

/* 94, 95.504 and 23.876 mm are 10 cm, 4 in and 1 in at 94 %, and at no other scale are all three round. */
static void squares_of_different_sizes_tell_the_scale_together(void **state)
{
    size_t count;
    struct collect *c = page();
    one_path(c, 40, 20, 94, 94);
    one_path(c, 150, 20, 95.504, 95.504);
    four_lines(c, 260, 20, 23.876, 23.876);
    struct drawing_truth truth = judge(*state, c, &count);
    assert_int_equal(count, 3);
    assert_int_equal(truth.kind, DRAWING_OFF);
    assert_near(truth.saved.across, 0.94, 1e-6);
    /* 25 and 100 mm: 10 cm at true scale or 1 in and 4 in at 98.4 %. */
    c = page();
    one_path(c, 40, 20, 100, 100);
    one_path(c, 150, 20, 25, 25);
    assert_int_equal(judge(*state, c, &count).kind, DRAWING_ASK_SIZE);
}

/* 97 % across and 100 % up, as programs do that fill a paper. */
static void across_and_up_may_differ(void **state)
{
    size_t count;
    struct collect *c = page();
    four_lines(c, 40, 40, 98.552, 101.6);
    drawn_words(c, SHEET_NONE, 60, 80, 5, "4 in");
    struct drawing_truth truth = judge(*state, c, &count);
    assert_int_equal(truth.kind, DRAWING_OFF);
    assert_near(truth.saved.across, 0.97, 1e-9);
    assert_near(truth.saved.up, 1, 1e-9);
}

static void a_small_square_in_a_large_one_is_another(void **state)
{
    for (int corner = 0; corner <= 1; corner++) { /* in its corner, both of loose lines; or in its middle */
        size_t count;
        struct collect *c = page();
        double at = corner ? 40 : 75;
        four_lines(c, 40, 40, 95.504, 95.504);
        four_lines(c, at, at, 23.876, 23.876);
        drawn_words(c, SHEET_NONE, 60, 120, 5, "4 in");
        drawn_words(c, SHEET_NONE, at + 5, at + 8, 4, "1 in");
        struct drawing_truth truth = judge(*state, c, &count);
        assert_int_equal(count, 2);
        assert_int_equal(truth.kind, DRAWING_OFF);
        assert_near(truth.side_mm, 101.6, 1e-9);
        assert_near(truth.saved.up, 0.94, 1e-9);
    }
}

/* Side by side, 4 mm apart, each with its size below: 18.8 is 2 cm and 23.876 is 1 in at 94 %. */
static void a_pair_has_each_its_own_words(void **state)
{
    struct arena *a = *state;
    struct collect *c = page();
    one_path(c, 40, 40, 18.8, 18.8);
    one_path(c, 62.8, 40, 23.876, 23.876);
    drawn_words(c, SHEET_NONE, 44, 34, 4, "2 cm");
    drawn_words(c, SHEET_NONE, 68, 34, 4, "1 in");
    struct drawing d = drawn_drawing(a, c);
    const struct drawing_square *squares;
    assert_int_equal(drawing_find_squares(a, &d, &squares), 2);
    assert_near(squares[0].written_mm, 25.4, 1e-9);
    assert_near(squares[1].written_mm, 20, 1e-9);
    assert_near(drawing_judge(squares, 2).saved.across, 0.94, 1e-9);
}

/* Where both sizes are written into one square, what it comes to decides. */
static void of_two_sizes_in_one_square_the_rounder_is_meant(void **state)
{
    static const struct {
        double drawn, want; /* want 0: asked */
    } rows[] = {
        { 100, 100 }, { 101.6, 101.6 }, { 94, 100 }, { 95.504, 101.6 }, { 96.37, 0 }, { 103, 100 },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t count;
        struct collect *c = page();
        one_path(c, 40, 40, rows[i].drawn, rows[i].drawn);
        drawn_words(c, SHEET_NONE, 45, 90, 4, "Test square: this box should");
        drawn_words(c, SHEET_NONE, 45, 84, 4, "measure 10 cm / 4 in");
        struct drawing_truth truth = judge(*state, c, &count);
        if (truth.side_mm != rows[i].want || (rows[i].want == 0 && truth.kind != DRAWING_ASK_SIZE))
            fail_msg("%g: kind %d, side %g", rows[i].drawn, (int)truth.kind, truth.side_mm);
    }
}

/* The other unit is written as people round it: 4 in are 10.16 cm, 2 in are 5.08 cm, 10 cm are 3.937 in. */
static void a_rounded_second_size_is_the_first_in_other_words(void **state)
{
    static const struct {
        double meant;
        const char *words;
    } rows[] = {
        { 101.6, "4 in (10.2 cm)" }, { 101.6, "10,2 cm = 4 inch" }, { 101.6, "4\" x 4\" / 10.16cm x 10.16cm" },
        { 50.8, "2 in / 5.1 cm" },   { 100, "10 cm / 3.94 in" },    { 76.2, "3 in or 7.6 cm" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t count;
        struct collect *c = page();
        double side = 0.96371 * rows[i].meant; /* fitted to some paper */
        one_path(c, 40, 40, side, side);
        drawn_words(c, SHEET_NONE, 42, 46, 3, rows[i].words);
        struct drawing_truth truth = judge(*state, c, &count);
        if (truth.kind != DRAWING_OFF || fabs(truth.saved.across - 0.96371) > 1e-9)
            fail_msg("%s: kind %d, scale %.6f", rows[i].words, (int)truth.kind, truth.saved.across);
    }
}

/* Saved with 72 units to the inch where 96 were meant, and the other way round. */
static void words_within_are_believed_far_off(void **state)
{
    static const double scales[] = { 0.5, 0.75, 4 / 3.0, 2 };
    for (size_t i = 0; i < 4; i++) {
        size_t count;
        struct collect *c = page();
        one_path(c, 40, 40, 100 * scales[i], 100 * scales[i]);
        drawn_words(c, SHEET_NONE, 50, 60, 4, "10 cm");
        struct drawing_truth truth = judge(*state, c, &count);
        assert_int_equal(truth.kind, DRAWING_OFF);
        assert_near(truth.saved.across, scales[i], 1e-9);
    }
}

static void squares_that_say_different_things_are_told(void **state)
{
    size_t count;
    struct collect *c = page();
    one_path(c, 40, 20, 100, 100);
    drawn_words(c, SHEET_NONE, 60, 60, 5, "10 cm");
    one_path(c, 150, 20, 95.504, 95.504);
    drawn_words(c, SHEET_NONE, 170, 60, 5, "4 in");
    struct drawing_truth truth = judge(*state, c, &count);
    assert_int_equal(truth.kind, DRAWING_DISAGREE);
    assert_near(truth.side_mm, 100, 1e-9);
    assert_near(truth.saved.across, 1, 1e-9);
}

static void what_is_no_square_is_left(void **state)
{
    size_t count;
    struct collect *c = page();
    rectangle(c, &fine, 40, 20, 100, 50);
    four_lines(c, 150, 20, 100, 80);  /* no square */
    four_lines(c, 260, 20, 130, 130); /* of no size that is known */
    drawn_line(c, SHEET_NONE, (const double[]){ 420, 20, 520, 20, 520, 120, 420, 120 }, 4, false); /* open */
    drawn_line(c, SHEET_NONE, (const double[]){ 540, 20, 640, 20, 590, 120 }, 3, true);
    filled_square(c, 540, 150, 24, 24); /* a patch of colour */
    segment(c, 650, 20, 750, 20);       /* three sides */
    segment(c, 650, 20, 650, 120);
    segment(c, 750, 20, 750, 120);
    assert_int_equal(judge(*state, c, &count).kind, DRAWING_NO_SQUARE);
    assert_int_equal(count, 0);
    c = collect_create(-1); /* the page's own edge as a square */
    collect_page(c, 101.6, 101.6, NULL);
    rectangle(c, &fine, 0, 0, 101.6, 101.6);
    assert_int_equal(judge(*state, c, &count).kind, DRAWING_NO_SQUARE);
}

/* A page that ends 6 mm into a square cuts it to 94 x 100; lines that end there are no square of 94 %. */
static void a_square_cut_by_the_page_is_left(void **state)
{
    size_t count;
    struct collect *c = collect_create(-1);
    collect_page(c, 210, 297, NULL);
    one_path(c, 0, 40, 94, 100);
    drawn_words(c, SHEET_NONE, 20, 80, 5, "10 cm");
    assert_int_equal(judge(*state, c, &count).kind, DRAWING_NO_SQUARE);
}

static void a_grid_is_left_and_what_has_words_is_taken(void **state)
{
    size_t count;
    struct collect *c = page();
    for (int i = 0; i < 100; i++) /* as rectangles, an inch at 96 % each */
        one_path(c, 300 + 24.384 * (i % 10), 300 + 24.384 * (i / 10), 24.384, 24.384);
    for (int i = 0; i <= 10; i++) { /* as rulings, 5 cm at 96 % */
        segment(c, 20, 700 + 48 * i, 500, 700 + 48 * i);
        segment(c, 20 + 48 * i, 700, 20 + 48 * i, 1180);
    }
    one_path(c, 40, 40, 96, 96);
    drawn_words(c, SHEET_NONE, 60, 30, 5, "Kontrollquadrat 10 cm"); /* 3 mm below it */
    struct drawing_truth truth = judge(*state, c, &count);
    assert_int_equal(count, 1);
    assert_int_equal(truth.kind, DRAWING_OFF);
    assert_near(truth.saved.across, 0.96, 1e-9);
}

static void what_is_on_every_page_is_told_once(void **state)
{
    size_t count;
    struct collect *c = collect_create(-1);
    for (int i = 0; i < 30; i++) {
        collect_page(c, 210, 297, NULL);
        one_path(c, 40, 40, 50, 50);
        drawn_words(c, SHEET_NONE, 45, 60, 4, "5 cm");
    }
    assert_int_equal(judge(*state, c, &count).kind, DRAWING_TRUE);
    assert_int_equal(count, 1);
}

/* Pages that repeat the whole sheet: the square is at 150, 40 of it and seen on the second page alone. */
static void a_square_is_told_where_it_is_seen(void **state)
{
    struct arena *a = *state;
    struct collect *c = collect_create(-1);
    for (int i = 0; i < 4; i++) {
        collect_page(c, 210, 297, NULL);
        one_path(c, 150 - 140 * i, 40, 100 + 1e-7 * i, 100);
        drawn_words(c, SHEET_NONE, 180 - 140 * i, 60, 4, "10 cm");
    }
    struct drawing d = drawn_drawing(a, c);
    const struct drawing_square *squares;
    assert_int_equal(drawing_find_squares(a, &d, &squares), 1);
    assert_int_equal(squares[0].page, 1);
    assert_near(squares[0].corner.x, 10, 1e-9);
}

/* A page turned a quarter: its words run up it. */
static void a_turned_page_is_read(void **state)
{
    static const struct collect_style letters = { 0, 0, SHEET_FILLED | SHEET_TEXT, NULL, 0 };
    size_t count;
    struct collect *c = collect_create(-1);
    collect_page(c, 297, 210, NULL);
    four_lines(c, 40, 40, 103, 103);
    collect_begin_run(c, SHEET_NONE, &letters, "10 cm", 5, &(struct sheet_run){ 90, 60, 0, 1, 5 });
    collect_end(c);
    struct drawing_truth truth = judge(*state, c, &count);
    assert_int_equal(truth.kind, DRAWING_OFF);
    assert_near(truth.saved.across, 1.03, 1e-9);
}

static unsigned next_random(unsigned *seed)
{
    *seed = *seed * 1664525u + 1013904223u; /* Numerical Recipes' constants */
    return *seed >> 8;
}

/* Both borders of a line 0.5 mm thick, as a scan is followed, with a point each 5 mm that lies up to 0.04 mm beside. */
static void scanned(struct collect *c, double x, double y, double side, double across, double up)
{
    unsigned seed = 7;
    collect_begin(c, SHEET_NONE, &black);
    for (int border = -1; border <= 1; border += 2) {
        double half = side / 2 + border * 0.25;
        static const int corners[][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 }, { -1, -1 } };
        for (int k = 0; k < 4; k++) {
            for (double t = 0; t < 1; t += 5 / side) {
                double u = half * (corners[k][0] + t * (corners[k + 1][0] - corners[k][0]));
                double v = half * (corners[k][1] + t * (corners[k + 1][1] - corners[k][1]));
                double beside = (next_random(&seed) % 1000 / 1000.0 - 0.5) * 0.08;
                u += k % 2 ? beside : 0;
                v += k % 2 ? 0 : beside;
                (k || t > 0 ? collect_line : collect_move)(c, x + across * u - up * v, y + up * u + across * v);
            }
        }
        collect_close(c);
    }
    collect_end(c);
}

/* Directions with whole numbers: 3-4-5, 20-99-101; the last is 0.573 degrees as a scan may be. */
static void a_square_askew_is_measured_along_its_sides(void **state)
{
    static const double turns[][2] = { { 0.8, 0.6 }, { 99 / 101.0, -20 / 101.0 }, { 0.99995, 0.0099998750 } };
    for (size_t i = 0; i < 3; i++) {
        size_t count;
        struct collect *c = page();
        double across = turns[i][0] * 48, up = turns[i][1] * 48; /* half the side of 10 cm at 96 % */
        drawn_line(c, SHEET_NONE,
                   (const double[]){ 120 - across + up, 90 - up - across, 120 + across + up, 90 + up - across,
                                     120 + across - up, 90 + up + across, 120 - across - up, 90 - up + across },
                   4, true);
        drawn_words(c, SHEET_NONE, 110, 90, 5, "10 cm");
        struct drawing_truth truth = judge(*state, c, &count);
        assert_int_equal(count, 1);
        assert_int_equal(truth.kind, DRAWING_OFF);
        assert_near(truth.saved.across, 0.96, 1e-6);
    }
}

static void a_square_on_a_scan_is_found(void **state)
{
    size_t count;
    struct collect *c = page();
    scanned(c, 120, 90, 100, 0.99995, 0.0099998750);
    struct drawing_truth truth = judge(*state, c, &count);
    assert_int_equal(count, 1);
    assert_int_equal(truth.kind, DRAWING_TRUE);
    assert_near(truth.square->width_mm, 100, 0.02);
    assert_near(truth.square->height_mm, 100, 0.02);
}

static void two_points_tell_the_scale(void **state)
{
    (void)state;
    struct drawing_scale scale = { 0, 0 };
    /* 30, 40: 50 mm drawn, which is 60 mm in truth */
    assert_true(drawing_scale_by_points((vec2){ 10, 10 }, (vec2){ 40, 50 }, 60, &scale));
    assert_near(scale.across, 1.2, 1e-12);
    assert_near(scale.up, 1.2, 1e-12);
    assert_false(drawing_scale_by_points((vec2){ 10, 10 }, (vec2){ 10, 10 }, 60, &scale));
    assert_false(drawing_scale_by_points((vec2){ 0, 0 }, (vec2){ 50, 0 }, 501, &scale));
    assert_false(drawing_scale_by_points((vec2){ 0, 0 }, (vec2){ 50, 0 }, 4.9, &scale));
    assert_false(drawing_scale_by_points((vec2){ 0, 0 }, (vec2){ 50, 0 }, 0, &scale));
    assert_false(drawing_scale_by_points((vec2){ 0, 0 }, (vec2){ 50, 0 }, -50, &scale));
    assert_near(scale.across, 1.2, 1e-12);
}

/* ---- What nobody draws ---- */

static void crowds_end_soon(void **state)
{
    unsigned seed = 1;
    for (int kind = 0; kind < 5; kind++) {
        size_t count;
        struct arena *a = base_arena_create();
        struct collect *c = page();
        for (int i = 0; i < 200000; i++) {
            double x = next_random(&seed) % 800000 / 1000.0, y = next_random(&seed) % 1100000 / 1000.0;
            if (kind == 0) /* tiny lines */
                segment(c, x, y, x + 0.4, y);
            if (kind == 1) /* all on one line, all the same, across and up */
                segment(c, 100, 100, i % 2 ? 200 : 100, i % 2 ? 100 : 200);
            if (kind == 2) /* lines of a side's length in one corner */
                segment(c, 100 + i % 2 * x / 1e4, 100 + y / 1e4, i % 2 ? 200 : 100 + x / 1e4, i % 2 ? 100 : 200);
            if (kind == 3 && i < 50000) /* squares about one place */
                one_path(c, 100, 100, 20 + x / 10, 20 + x / 10);
            if (kind == 4 && i < 20000) { /* squares, and words in each */
                one_path(c, x, y, 90 + x / 100, 90 + x / 100);
                drawn_words(c, SHEET_NONE, x + 5, y + 5, 3, i % 3 ? "10 cm" : "25 cm");
            }
        }
        judge(a, c, &count);
        base_arena_destroy(a);
    }
    (void)state;
}

static void far_and_degenerate_lines_are_borne(void **state)
{
    size_t count;
    struct collect *c = page();
    double most = SHEET_COORDINATE_MOST;
    one_path(c, -most, -most, 2 * most, 2 * most);
    four_lines(c, -most, -most, 2 * most, 2 * most);
    one_path(c, most - 100, most - 100, 100, 100);
    one_path(c, 40, 40, 0, 0);
    one_path(c, 40, 40, 100, 0);
    four_lines(c, 40, 40, 0, 0);
    drawn_line(c, SHEET_NONE, (const double[]){ 40, 40 }, 1, true);
    drawn_words(c, SHEET_NONE, 40, 40, 0, "10 cm");
    drawn_words(c, SHEET_NONE, most, most, most, "10 cm");
    drawn_words(c, SHEET_NONE, 40, 40, 4, "");
    struct drawing_truth truth = judge(*state, c, &count);
    assert_int_equal(truth.kind, DRAWING_TRUE); /* the one in the far corner */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_square_is_found_however_it_is_drawn),
        room_arena_test(every_scale_of_every_side_is_told),
        room_arena_test(a_scans_square_is_true_within_a_dot),
        room_arena_test(without_words_the_person_is_asked),
        room_arena_test(without_words_a_round_square_is_believed),
        room_arena_test(squares_of_different_sizes_tell_the_scale_together),
        room_arena_test(across_and_up_may_differ),
        room_arena_test(a_small_square_in_a_large_one_is_another),
        room_arena_test(a_pair_has_each_its_own_words),
        room_arena_test(of_two_sizes_in_one_square_the_rounder_is_meant),
        room_arena_test(a_rounded_second_size_is_the_first_in_other_words),
        room_arena_test(words_within_are_believed_far_off),
        room_arena_test(squares_that_say_different_things_are_told),
        room_arena_test(what_is_no_square_is_left),
        room_arena_test(a_square_cut_by_the_page_is_left),
        room_arena_test(a_grid_is_left_and_what_has_words_is_taken),
        room_arena_test(what_is_on_every_page_is_told_once),
        room_arena_test(a_square_is_told_where_it_is_seen),
        room_arena_test(a_turned_page_is_read),
        room_arena_test(a_square_askew_is_measured_along_its_sides),
        room_arena_test(a_square_on_a_scan_is_found),
        room_arena_test(two_points_tell_the_scale),
        room_arena_test(crowds_end_soon),
        room_arena_test(far_and_degenerate_lines_are_borne),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
