#include "app/sheet_truth.h"
#include "support/room.h"

/* Reckoned by hand: 4 in = 101.6 mm, 0.94 x 4 in = 3.76 in = 95.504 mm. */
static const struct drawing_square four_in = {
    .page = 0, .width_mm = 95.504, .height_mm = 95.504, .written_mm = 101.6
};

static void told(struct arena *a, const struct drawing_truth *truth, enum units_length unit, const char *want)
{
    assert_string_equal(app_sheet_truth_text(a, truth, unit), want);
}

static void a_sheet_that_was_saved_smaller_is_told_so(void **state)
{
    struct drawing_truth truth = drawing_judge(&four_in, 1);
    told(*state, &truth, UNITS_IN, "The 4 in square measures 3.76 in here: this sheet was saved at 94 %.");
    told(*state, &truth, UNITS_CM, "The 4 in square measures 3.76 in here: this sheet was saved at 94 %.");
    struct drawing_square ten_cm = { .width_mm = 95.5, .height_mm = 95.5, .written_mm = 100 };
    truth = drawing_judge(&ten_cm, 1);
    told(*state, &truth, UNITS_IN, "The 10 cm square measures 9.55 cm here: this sheet was saved at 95.5 %.");
}

static void across_and_up_are_told_apart(void **state)
{
    struct drawing_square square = { .width_mm = 98.552, .height_mm = 101.6, .written_mm = 101.6 };
    struct drawing_truth truth = drawing_judge(&square, 1);
    told(*state, &truth, UNITS_MM,
         "The 4 in square measures 3.88 in across and 4 in up here: this sheet was saved at 97 % across and 100 % up.");
    assert_string_equal(app_sheet_square_text(*state, &square, UNITS_MM),
                        "4 in square on page 1: 3.88 in across and 4 in up");
}

/* 150 dots to the inch: a dot is 25.4 / 150 = 0.169 mm, of 5 cm 0.34 %. */
static void a_scan_is_true_within_a_dot_and_was_saved_at_no_scale(void **state)
{
    struct drawing_square square = { .width_mm = 49.96, .height_mm = 50.125, .written_mm = 50, .dot_mm = 25.4 / 150 };
    struct drawing_truth truth = drawing_judge(&square, 1);
    told(*state, &truth, UNITS_CM, "The 5 cm square is true: this scan is at true size.");
    assert_near(truth.saved.up, 1, 0);
    square.width_mm = square.height_mm = 50.5;
    truth = drawing_judge(&square, 1);
    told(*state, &truth, UNITS_CM, "The 5 cm square measures 5.05 cm here: this scan is 1 % too large.");
    square.width_mm = 49.9;
    square.height_mm = 49;
    truth = drawing_judge(&square, 1);
    told(*state, &truth, UNITS_CM,
         "The 5 cm square measures 4.99 cm across and 4.9 cm up here: this scan is 2 % too small up.");
    square.dot_mm = 0;
    truth = drawing_judge(&square, 1);
    told(*state, &truth, UNITS_CM,
         "The 5 cm square measures 4.99 cm across and 4.9 cm up here: this sheet was saved at 99.8 % across and 98 % "
         "up.");
}

static void a_true_sheet_is_told_so(void **state)
{
    struct drawing_square square = { .width_mm = 100, .height_mm = 100.01, .written_mm = 100 };
    struct drawing_truth truth = drawing_judge(&square, 1);
    told(*state, &truth, UNITS_MM, "The 10 cm square is true: this sheet is at true size.");
}

static void what_is_not_known_is_asked(void **state)
{
    struct drawing_square square = four_in;
    square.written_mm = 0;
    square.page = 2;
    square.likely_mm[0] = 101.6;
    square.likely_mm[1] = 100;
    struct drawing_truth truth = drawing_judge(&square, 1);
    told(
        *state, &truth, UNITS_CM,
        "A square on page 3 measures 9.55 cm here. Is it meant as 4 in (then this sheet was saved at 94 %) or as 10 cm "
        "(then this sheet was saved at 95.5 %)? Say which.");
    assert_string_equal(app_sheet_square_text(*state, &square, UNITS_MM), "square on page 3: 95.5 mm");
    struct drawing_square inch = { .width_mm = 23.876, .height_mm = 23.876, .likely_mm = { 25.4 } };
    truth = drawing_judge(&inch, 1);
    told(*state, &truth, UNITS_IN,
         "A square on page 1 measures 0.94 in here. Is it meant as 1 in (then this sheet was saved at 94 %)? Say what "
         "it "
         "is meant as.");
    truth = drawing_judge(NULL, 0);
    told(*state, &truth, UNITS_IN,
         "No test square was found. Mark two points on the sheet and type how far apart they truly are, or use it as "
         "it is "
         "drawn.");
}

static void squares_that_disagree_are_told(void **state)
{
    struct drawing_square squares[] = { four_in, { .width_mm = 50, .height_mm = 50, .written_mm = 50 } };
    struct drawing_truth truth = drawing_judge(squares, 2);
    told(*state, &truth, UNITS_IN,
         "The test squares do not agree. By the 4 in square on page 1 this sheet was saved at 94 %. Say which square "
         "holds.");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_arena_test(a_sheet_that_was_saved_smaller_is_told_so),
        room_arena_test(across_and_up_are_told_apart),
        room_arena_test(a_scan_is_true_within_a_dot_and_was_saved_at_no_scale),
        room_arena_test(a_true_sheet_is_told_so),
        room_arena_test(what_is_not_known_is_asked),
        room_arena_test(squares_that_disagree_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
