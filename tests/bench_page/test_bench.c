/* The bench driven by keys, its letters those of the real window; no display is needed. */
#include "base/file.h"
#include "base/text.h"
#include "bench/bench.h"
#include "calibration/readings.h"
#include "calibration/solve.h"
#include "calibration/table.h"
#include "form/picture.h"
#include "input/key.h"
#include "screen/bench.h"
#include "support/cmocka_all.h"
#include "support/room.h"

#include <string.h>
#include <unistd.h>

static const char *pattern_path, *body_path, *readings_path; /* the demo's, from the command line */
static const char own_table[] = "own-table.json";            /* not there but in the test that makes it */

struct desk {
    struct bench *bench;
    struct screen_letters *letters;
    struct bench_effects last;
    int width, height;
};

static void fit(struct desk *d)
{
    bench_fit(d->bench, d->width, d->height, screen_letters_at(d->letters, bench_scale(d->bench, d->width, d->height)));
}

static int open_desk(void **state)
{
    struct desk *d = test_malloc(sizeof *d);
    struct err_list *errs = base_err_list_create();
    struct bench_start start = { .manner = { .unit = UNITS_CM },
                                 .example_pattern = pattern_path,
                                 .example_body = body_path,
                                 .own_table = own_table };
    *d = (struct desk){
        .bench = bench_create(&start), .letters = screen_letters_open(errs), .width = 1024, .height = 600
    };
    assert_non_null(d->letters);
    base_err_list_destroy(errs);
    fit(d);
    *state = d;
    return 0;
}

static int close_desk(void **state)
{
    struct desk *d = *state;
    bench_destroy(d->bench);
    screen_letters_close(d->letters);
    test_free(d);
    return 0;
}

static void press(struct desk *d, const char *names)
{
    char name[64];
    while (*names) {
        size_t count = strcspn(names, ";");
        int key, mods;
        assert_true(count < sizeof name);
        memcpy(name, names, count);
        name[count] = 0;
        assert_true(input_key_from_name(name, &key, &mods));
        d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_KEY, .key = key, .mods = mods });
        fit(d);
        names += count + (names[count] == ';');
    }
}

static void write_text(struct desk *d, const char *text)
{
    while (*text) {
        unsigned long point = base_text_next(&text);
        d->last = bench_handle(
            d->bench, (struct input_event){ .type = INPUT_KEY, .key = input_key_printing(point), .printed = point });
    }
}

static bool reads(struct desk *d, const char *text)
{
    const struct form_picture *p = bench_picture(d->bench);
    for (size_t i = 0; i < p->count; i++)
        if (p->marks[i].text && strstr(p->marks[i].text, text))
            return true;
    return false;
}

static void assert_reads(struct desk *d, const char *text)
{
    if (!reads(d, text))
        fail_msg("the bench does not say “%s”", text);
}

/* How far down a text stands, as a share of the page. */
static double share_down(struct desk *d, const char *text)
{
    const struct form_picture *p = bench_picture(d->bench);
    for (size_t i = 0; i < p->count; i++)
        if (p->marks[i].shape == FORM_TEXT && strstr(p->marks[i].text, text))
            return p->marks[i].at.y / p->height;
    fail_msg("the bench does not say “%s”", text);
    return 0;
}

/* As she comes from the first page to the pattern's: the example, one step on, the first view. */
static void open_example(struct desk *d)
{
    press(d, "Tab;Tab;Enter");
    assert_non_null(bench_job(d->bench));
}

static void nothing_is_open_at_first(void **state)
{
    struct desk *d = *state;
    assert_null(bench_job(d->bench));
    assert_reads(d, "No ticket yet");
    assert_reads(d, "Blank ticket");
    press(d, "F12");
    assert_int_equal(d->last.to, BENCH_STAY);
    assert_reads(d, "Choose pattern, view and size first.");
}

/* Above the foot, but where the form has that place above it. */
static void a_slip_covers_nothing(void **state)
{
    struct desk *d = *state;
    press(d, "F12");
    assert_true(share_down(d, "Choose pattern, view and size first.") > 0.8);
    assert_reads(d, "A ticket keeps one garment together");
    press(d, "Tab;Enter;F12"); /* a field for where a file is */
    assert_true(share_down(d, "Choose pattern, view and size first.") < 0.2);
}

static void a_new_ticket_is_filled_by_hand(void **state)
{
    struct desk *d = *state;
    press(d, "Enter");
    assert_true(d->last.keep);
    assert_string_equal(d->last.opened, "");
    write_text(d, "Möwe");
    press(d, "Enter");
    assert_string_equal(bench_job(d->bench)->body->name, "Möwe");
    assert_reads(d, "for Möwe");
}

static void a_measurement_is_kept_as_it_is_left(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Tab");
    write_text(d, "90.5");
    press(d, "Tab");
    assert_true(d->last.keep);
    assert_near(sizing_body_find(bench_job(d->bench)->body, "upper bust")->mm, 905, 1e-9);
    press(d, "Ctrl Z");
    assert_reads(d, "Undone: Upper bust 90.5 cm.");
    assert_near(sizing_body_find(bench_job(d->bench)->body, "upper bust")->mm, 890, 1e-9);
    press(d, "Ctrl Y");
    assert_near(sizing_body_find(bench_job(d->bench)->body, "upper bust")->mm, 905, 1e-9);
}

/* 37 in are 939.8 mm (1 in = 25.4 mm exactly). */
static void inches_are_read_and_shown_by_one_key(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "F2");
    assert_true(d->last.settings);
    press(d, "Tab;Tab");
    write_text(d, "37 1/2");
    press(d, "Tab");
    assert_near(sizing_body_find(bench_job(d->bench)->body, "bust")->mm, 952.5, 1e-9);
    assert_reads(d, "37 1\342\201\2042");
    press(d, "F2");
    assert_reads(d, "95.25");
}

static void a_slip_of_the_tape_is_asked_about_and_mended_by_one_key(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Tab;Tab");
    write_text(d, "37");
    press(d, "Tab;Shift Tab");
    assert_reads(d, "37 cm is small for a full bust.");
    press(d, "F4");
    assert_near(sizing_body_find(bench_job(d->bench)->body, "bust")->mm, 939.8, 1e-6);
}

static void words_that_are_no_length_stay_in_red_until_they_are_mended(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Tab");
    write_text(d, "about 90");
    press(d, "Tab");
    assert_reads(d, "about 90");
    assert_reads(d, "That is not a length.");
    assert_near(sizing_body_find(bench_job(d->bench)->body, "upper bust")->mm, 890, 1e-9);
    press(d, "Shift Tab");
    write_text(d, "90");
    press(d, "Tab");
    assert_false(reads(d, "That is not a length."));
    assert_near(sizing_body_find(bench_job(d->bench)->body, "upper bust")->mm, 900, 1e-9);
}

static void view_size_and_cup_group_are_chosen(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right");
    assert_int_equal(bench_job(d->bench)->view, 0);
    press(d, "Tab;+");
    assert_near(bench_job(d->bench)->position, 4.25, 1e-9);
    assert_true(bench_job(d->bench)->ticket.size_by_hand);
    assert_true(job_is_finished(bench_job(d->bench)));
    press(d, "F12");
    assert_int_equal(d->last.to, BENCH_TO_CUT);
}

/* 150 cm at 5 % leave 142.5 (hand-worked). */
static void the_cloth_is_told_with_what_it_shrinks(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Page Down;Tab;Tab;Tab");
    write_text(d, "150");
    press(d, "Tab");
    write_text(d, "5");
    press(d, "Tab;Tab");
    write_text(d, "3 1/4 yd");
    press(d, "Tab");
    const struct cloth *cloth = &bench_job(d->bench)->cloths[0].cloth;
    assert_near(cloth_washed_width(cloth), 1425, 1e-9);
    assert_near(cloth->length_mm, 3.25 * 914.4, 1e-9);
    assert_reads(d, "142.5 cm washed");
}

/* Used from edge to edge, since no resin is missing there; common practice, no source. */
static void new_interfacing_is_fusible_from_edge_to_edge(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Page Down;Right;Tab;Tab;Tab");
    write_text(d, "60");
    press(d, "Tab");
    const struct job_cloth *cloth = &bench_job(d->bench)->cloths[0];
    assert_int_equal(cloth->material, PATTERN_INTERFACING);
    assert_int_equal(cloth->cloth.kind, CLOTH_FUSIBLE);
    assert_near(cloth->cloth.width_mm, 600, 1e-9);
    assert_near(cloth->cloth.selvedge_mm, 0, 0);
    assert_int_equal(cloth->cloth.spread, CLOTH_SINGLE);
}

static void the_layout_is_there_at_once_and_kept(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Page Down;Tab;Tab;Tab");
    write_text(d, "150");
    press(d, "Page Down");
    assert_reads(d, "Needed");
    assert_true(bench_is_working(d->bench));
    for (int i = 0; i < 20 && !d->last.keep; i++)
        d->last = bench_work(d->bench, i);
    assert_true(bench_job(d->bench)->cloths[0].laid_count > 5);
    press(d, "Ctrl Page Down");
    assert_false(bench_is_working(d->bench));
}

/* 140 cm with the usual selvedges of 1.25 cm, folded: 140 / 2 = 70 cm from fold to selvedge, selvedge and all; single
 * 140 cm (hand-worked). */
static void the_page_of_placing_tells_how_the_cloth_is_laid(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down");
    assert_reads(d, "lines for the fold or selvedge");
    press(d, "Ctrl Page Up;Ctrl Page Up;Ctrl Page Up;Tab;Tab;Tab");
    write_text(d, "140");
    press(d, "Ctrl Page Down;Ctrl Page Down;Ctrl Page Down");
    assert_false(reads(d, "lines for the fold or selvedge"));
    assert_false(reads(d, "fold"));
    assert_reads(d, "140 cm");
    press(d, "Ctrl Page Up;Ctrl Page Up;Ctrl Page Up;Tab;Tab;Tab;Tab;Tab;Tab;Tab;Tab;Tab;Tab;Right");
    press(d, "Ctrl Page Down;Ctrl Page Down;Ctrl Page Down");
    assert_reads(d, "Press the fold flat");
    assert_reads(d, "70 cm");
    press(d, "Enter");
    assert_int_equal(d->last.to, BENCH_TO_CUT);
}

/* The example's view A at its first line: one bib front, cut on the fold (assets/demo/pinafore.json). */
enum { VIEW_A_LINES = 16 }; /* in cup group C-D, counted in that file */

static void to_cutting(struct desk *d)
{
    open_example(d);
    press(d, "Page Down;Right;Page Down;Page Down;Ctrl Page Down;Page Down;Page Down");
    assert_reads(d, "Cut and mark");
}

static void a_piece_has_a_note_that_stands_on_the_last_page_too(void **state)
{
    struct desk *d = *state;
    to_cutting(d);
    press(d, "Down;Tab;Tab");
    write_text(d, "slub by the pocket");
    press(d, "Tab");
    assert_string_equal(bench_job(d->bench)->ticket.notes.items[0].of, "bib back");
    press(d, "Page Down");
    assert_reads(d, "Bib back: slub");
    press(d, "Ctrl Z");
    assert_int_equal(bench_job(d->bench)->ticket.notes.count, 0);
}

/* As it is found on a new ticket, chosen and undone; once a piece is cut what is left stands in its place. */
static void the_way_of_working_is_chosen_until_something_is_cut(void **state)
{
    struct desk *d = *state;
    struct app_cut_progress lines[64] = { { 1, 1 } };
    struct app_progress progress = { .lines = lines, .line_count = VIEW_A_LINES, .in_hand = APP_NO_LINE };
    to_cutting(d);
    press(d, "Tab;Down");
    assert_int_equal(bench_job(d->bench)->ticket.way, JOB_CHALK_ALL);
    assert_true(d->last.keep);
    press(d, "Ctrl Z");
    assert_int_equal(bench_job(d->bench)->ticket.way, JOB_CUT_ON_LIGHT);
    press(d, "Ctrl Y");
    assert_reads(d, "Way of working");
    bench_set_progress(d->bench, &progress);
    assert_false(reads(d, "Way of working"));
    assert_reads(d, "Left");
}

static void the_ticket_says_what_is_missing(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Tab;Tab;End");
    for (int i = 0; i < 4; i++)
        press(d, "Backspace");
    press(d, "Tab");
    assert_reads(d, "still missing: full bust");
    press(d, "Page Down;Right;Page Down");
    assert_reads(d, "width of the cloth?");
    press(d, "Tab;Tab;Tab");
    write_text(d, "150");
    press(d, "Tab");
    assert_reads(d, "width of the interfacing?");
}

/* One at a time in words, all of them in red: the form keeps its length. */
static void of_two_faults_of_the_cloth_the_one_she_is_at_is_told(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Page Down;Tab;Tab;Tab");
    write_text(d, "wide");
    press(d, "Tab");
    write_text(d, "120");
    press(d, "Tab");
    assert_reads(d, "That is not a width.");
    assert_false(reads(d, "Write 5 for 5 in a hundred."));
    press(d, "Shift Tab");
    assert_reads(d, "Write 5 for 5 in a hundred.");
    assert_false(reads(d, "That is not a width."));
    assert_reads(d, "wide");
}

static void help_on_layout_tells_its_own_keys(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Page Down;Tab;Tab;Tab");
    write_text(d, "150");
    press(d, "Page Down");
    assert_reads(d, "arrange again");
    assert_reads(d, "interfacing to lay out");
    press(d, "F1");
    assert_reads(d, "butt it against its neighbours");
    assert_false(reads(d, "the next line of the ticket"));
    press(d, "F1;Ctrl Page Up;F1");
    assert_reads(d, "the next line of the ticket");
}

static void a_ticket_has_a_name_of_its_own(void **state)
{
    struct desk *d = *state;
    open_example(d);
    assert_reads(d, "Gull Rock pinafore");
    press(d, "Shift Tab;Shift Tab");
    write_text(d, "For the autumn");
    press(d, "Tab");
    assert_string_equal(bench_job(d->bench)->ticket.name, "For the autumn");
    assert_false(reads(d, "Gull Rock pinafore"));
}

static void an_alteration_is_added_in_words_and_taken_off(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Shift Tab;Shift Tab;Enter");
    assert_reads(d, "Nothing is altered yet");
    press(d, "Tab;Tab");
    write_text(d, "make it nicer");
    press(d, "Enter");
    assert_int_equal(bench_job(d->bench)->alteration_count, 0);
    assert_null(form_first_too_wide(bench_picture(d->bench)));
    assert_reads(d, "That is no alteration.");
    write_text(d, "lengthen skirt by 3 cm");
    press(d, "Enter");
    assert_int_equal(bench_job(d->bench)->alteration_count, 1);
    press(d, "Tab;Delete");
    assert_int_equal(bench_job(d->bench)->alteration_count, 0);
    press(d, "Ctrl Z;Esc");
    assert_reads(d, "Alterations: 1");
}

/* The first that is offered, by an inch, which are 25.4 mm exactly. */
static void an_alteration_is_chosen_and_its_length_written(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Shift Tab;Shift Tab;Enter;Tab");
    write_text(d, "some");
    press(d, "Enter");
    assert_reads(d, "That is not a length.");
    write_text(d, "3,200"); /* 3.2 or 3200 */
    press(d, "Enter");
    assert_reads(d, "It can be read in two ways");
    assert_int_equal(bench_job(d->bench)->alteration_count, 0);
    write_text(d, "1 in");
    press(d, "Enter");
    assert_false(reads(d, "That is not a length."));
    assert_int_equal(bench_job(d->bench)->alteration_count, 1);
    assert_near(bench_job(d->bench)->alterations[0].amount_mm, 25.4, 1e-9);
}

static void pieces_are_made_to_her_own_measurements(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Shift Tab;Shift Tab;Shift Tab;Shift Tab");
    bool before = bench_job(d->bench)->to_body;
    press(d, "Space");
    assert_true(bench_job(d->bench)->to_body != before);
}

/* One of the list's lines is ticked off, another half: 1 of so many. */
static void what_is_ticked_off_is_told_line_by_line(void **state)
{
    struct desk *d = *state;
    struct app_cut_progress lines[64] = { { 1, 1 }, { 2, 1 } };
    to_cutting(d);
    struct app_progress progress = {
        .lines = lines, .line_count = VIEW_A_LINES, .is_placed = true, .in_hand = APP_NO_LINE
    };
    assert_false(reads(d, "1 of 2"));
    bench_set_progress(d->bench, &progress);
    assert_reads(d, "Left");
    assert_reads(d, "1 of 2");
    assert_reads(d, base_arena_print(bench_picture(d->bench)->a, "1 of %zu ticked off", progress.line_count));
    assert_reads(d, "the cloth is placed");
    bench_set_progress(d->bench, NULL);
    assert_false(reads(d, "1 of 2"));
}

/* Notes and the ticket's name are hers at any time; what moves a line waits until the table is left. */
static void while_she_cuts_no_line_changes(void **state)
{
    struct desk *d = *state;
    to_cutting(d);
    double before = sizing_body_find(bench_job(d->bench)->body, "bust")->mm;
    bench_set_at_table(d->bench, BENCH_TO_CUT);
    press(d, "Tab");
    write_text(d, "slub");
    press(d, "Tab");
    assert_true(d->last.keep);
    assert_int_equal(bench_job(d->bench)->ticket.notes.count, 1);
    press(d, "Page Up;Page Up;Page Up;Page Up;Page Up;Page Up;Tab;Tab");
    write_text(d, "99");
    press(d, "Tab");
    assert_false(d->last.keep);
    assert_reads(d, "leave the table first");
    assert_near(sizing_body_find(bench_job(d->bench)->body, "bust")->mm, before, 1e-9);
    press(d, "Ctrl N;Enter");
    assert_null(d->last.opened);
    assert_reads(d, "leave the table first");
    bench_set_at_table(d->bench, BENCH_STAY);
    press(d, "Enter");
    assert_non_null(d->last.opened);
}

/* Her note is undone; the view, chosen before she went there, is not. */
static void at_the_table_she_may_undo_a_note_and_nothing_before_it(void **state)
{
    struct desk *d = *state;
    to_cutting(d);
    bench_set_at_table(d->bench, BENCH_TO_CUT);
    press(d, "Tab");
    write_text(d, "slub");
    press(d, "Tab;Ctrl Z");
    assert_int_equal(bench_job(d->bench)->ticket.notes.count, 0);
    press(d, "Ctrl Z");
    assert_reads(d, "leave the table first");
    assert_int_equal(bench_job(d->bench)->view, 0);
    press(d, "Ctrl Y");
    assert_int_equal(bench_job(d->bench)->ticket.notes.count, 1);
}

static void the_page_of_cutting_goes_with_the_table(void **state)
{
    struct desk *d = *state;
    struct app_cut_progress lines[64] = { { 1, 0 } };
    struct app_progress progress = { .lines = lines, .line_count = VIEW_A_LINES, .is_placed = true, .in_hand = 1 };
    to_cutting(d);
    press(d, "Page Up");
    bench_set_at_table(d->bench, BENCH_TO_CUT);
    assert_reads(d, "Cut and mark");
    assert_true(bench_set_progress(d->bench, &progress));
    assert_reads(d, "In hand at the table: Bib back. Lines of the list ticked off: 0 of 16.");
    assert_reads(d, "Leave the table");
    lines[0].cut = 1;
    assert_true(bench_set_progress(d->bench, &progress));
    assert_false(bench_set_progress(d->bench, &progress));
    assert_reads(d, "Lines of the list ticked off: 1 of 16.");
    press(d, "F12");
    assert_int_equal(d->last.to, BENCH_TO_CUT);
    press(d, "W");
    assert_true(d->last.not_mine);
    press(d, "Down");
    assert_false(d->last.not_mine);
}

/* Layouts from the table are one step to undo, once she is back, whatever she wrote meanwhile comes along. */
static void layouts_of_the_table_are_taken_on(void **state)
{
    struct desk *d = *state;
    to_cutting(d);
    bench_set_at_table(d->bench, BENCH_TO_ARRANGE);
    struct job from = *bench_job(d->bench);
    struct job_cloth cloths[2] = { { .material = PATTERN_FABRIC }, { .material = PATTERN_LINING } };
    for (int i = 0; i < 2; i++)
        cloths[i].cloth = (struct cloth){ .width_mm = 1400 + 100 * i };
    from.cloths = cloths;
    from.cloth_count = 1;
    bench_take_layouts(d->bench, &from);
    from.cloth_count = 2;
    bench_take_layouts(d->bench, &from);
    assert_int_equal(bench_job(d->bench)->cloth_count, 2);
    bench_set_at_table(d->bench, BENCH_STAY);
    press(d, "Ctrl Page Up;Ctrl Z");
    assert_reads(d, "Undone: What was done at the table.");
    assert_int_equal(bench_job(d->bench)->cloth_count, 0);
}

/* Fabric that is cut need not be made ready, and what is not placed yet comes next. */
static void what_is_placed_is_told_of_each_material(void **state)
{
    struct desk *d = *state;
    struct app_cut_progress lines[64] = { { 1, 1 } };
    const bool begun[] = { true };
    struct app_cloth_progress cloth = {
        .material = PATTERN_FABRIC, .begun = begun, .done = begun, .item_count = 1, .cut = 1
    };
    open_example(d);
    press(d, "Page Down;Right;Page Down;Tab;Tab;Tab");
    write_text(d, "140");
    press(d, "Enter;Tab");
    write_text(d, "0");
    press(d, "Enter;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down");
    assert_reads(d, "table set-up first");
    cloth.is_placed = true;
    struct app_progress progress = { .lines = lines,
                                     .line_count = VIEW_A_LINES,
                                     .cloths = &cloth,
                                     .cloth_count = 1,
                                     .is_placed = true,
                                     .in_hand = APP_NO_LINE };
    bench_set_progress(d->bench, &progress);
    assert_reads(d, "interfacing to place");
    press(d, "Down"); /* among the materials */
    assert_reads(d, "How wide it is");
    press(d, "Enter");
    assert_reads(d, "Width to lay on");
    assert_int_equal(d->last.to, BENCH_STAY);
}

static void another_copy_is_a_ticket_of_its_own(void **state)
{
    struct desk *d = *state;
    struct app_cut_progress lines[64];
    to_cutting(d);
    struct app_progress progress = {
        .lines = lines, .line_count = VIEW_A_LINES, .is_placed = true, .in_hand = APP_NO_LINE
    };
    for (size_t i = 0; i < progress.line_count; i++)
        lines[i] = (struct app_cut_progress){ 99, 99 };
    bench_set_progress(d->bench, &progress);
    press(d, "Page Down");
    assert_reads(d, "Everything on this ticket is cut");
    assert_reads(d, "all is cut");
    press(d, "Enter");
    assert_string_equal(d->last.opened, "");
    assert_true(d->last.keep);
    assert_int_equal(bench_job(d->bench)->view, 0);
    assert_false(reads(d, "all is cut"));
}

/* What is cut holds the ticket that it is cut of, not the example that is begun beside it. */
static void the_example_begins_while_another_ticket_is_partly_cut(void **state)
{
    struct desk *d = *state;
    struct app_cut_progress lines[64] = { { 1, 1 } };
    const bool begun[] = { true };
    struct app_cloth_progress cloth = {
        .material = PATTERN_FABRIC, .begun = begun, .done = begun, .item_count = 1, .cut = 1
    };
    struct app_progress progress = {
        .lines = lines, .line_count = VIEW_A_LINES, .cloths = &cloth, .cloth_count = 1, .in_hand = APP_NO_LINE
    };
    to_cutting(d);
    bench_set_progress(d->bench, &progress);
    press(d, "Ctrl N");
    assert_reads(d, "Another ticket");
    press(d, "Tab;Tab;Enter");
    assert_non_null(bench_job(d->bench)->pattern);
    assert_int_equal(bench_job(d->bench)->view, PATTERN_NONE);
    assert_false(reads(d, "partly cut"));
}

static void while_pieces_are_left_the_last_page_leads_back_to_them(void **state)
{
    struct desk *d = *state;
    to_cutting(d);
    press(d, "Page Down");
    assert_reads(d, "Back to cutting");
    press(d, "Enter");
    assert_false(d->last.opened);
    assert_reads(d, "Next: done");
}

static void what_is_no_file_of_ours_is_told(void **state)
{
    struct desk *d = *state;
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = "/no/such/file" });
    assert_null(bench_job(d->bench));
    assert_reads(d, "Choose another file");
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = pattern_path });
    assert_non_null(bench_job(d->bench)->pattern);
}

/* Of a folder what is in it is shown; a file is opened. */
static void where_a_file_is_can_be_typed(void **state)
{
    struct desk *d = *state;
    const char *name = strrchr(pattern_path, '/') + 1;
    char folder[512] = "";
    assert_true((size_t)(name - pattern_path) < sizeof folder);
    memcpy(folder, pattern_path, (size_t)(name - pattern_path) - 1);
    press(d, "Tab;Enter;Tab");
    write_text(d, folder);
    press(d, "Enter");
    assert_reads(d, folder);
    assert_null(bench_job(d->bench));
    write_text(d, "nothing here");
    press(d, "Enter");
    assert_reads(d, "Choose another file");
    write_text(d, name);
    press(d, "Enter");
    assert_non_null(bench_job(d->bench)->pattern);
}

/* An L of 70 x 55 cm with one flaw. */
static void a_cloth_file_is_taken_and_a_scrap_is_told_as_one(void **state)
{
    struct desk *d = *state;
    struct room room;
    room_init(&room);
    const char *cloth =
        room_put(&room, "cloth.json",
                 room_json(&room, "{'chalklight': 'cloth', 'version': 1, 'unit': 'cm', 'spread': 'single',"
                                  "'outline': [[0, 0], [70, 0], [70, 30], [40, 30], [40, 55], [0, 55]],"
                                  "'faults': [[[10, 10], [12, 10], [12, 12]]]}"));
    open_example(d);
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = cloth });
    assert_int_equal(bench_job(d->bench)->cloth_count, 1);
    assert_int_equal(bench_job(d->bench)->cloths[0].material, PATTERN_FABRIC);
    assert_reads(d, "a scrap, up to 55 cm wide");
    assert_reads(d, "Width to lay on, round 1 flaw");
    assert_false(reads(d, "Length at hand"));
    room_finish(&room);
}

/* More than the ten rows of 40 u that 434 have room for (hand-worked): the last is seen once she is there. */
static void a_form_longer_than_the_window_goes_along_with_her(void **state)
{
    struct desk *d = *state;
    struct room room;
    room_init(&room);
    const char *body = room_put(
        &room, "body.json",
        room_json(&room, "{'chalklight': 'body', 'version': 1, 'name': 'Nine', 'unit': 'cm', 'measurements': {"
                         "'bust': 90, 'waist': 70, 'hip': 96, 'a1': 11, 'a2': 12, 'a3': 13, 'a4': 14, 'a5': 15,"
                         "'a6': 16, 'a7': 17, 'a8': 18, 'a9': 19, 'b1': 61.5}}"));
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = body });
    assert_non_null(bench_job(d->bench));
    assert_false(reads(d, "61.5"));
    assert_null(form_first_too_wide(bench_picture(d->bench)));
    press(d, "Shift Tab;Shift Tab;Shift Tab");
    assert_reads(d, "61.5");
    assert_false(reads(d, "Full bust"));
    room_finish(&room);
}

/* Every page in both units: no text is wider than its room or leaves the window of the least size. */
static void no_text_is_clipped_in_the_least_window(void **state)
{
    struct desk *d = *state;
    open_example(d);
    press(d, "Page Down;Right;Page Down;Tab;Tab;Tab");
    write_text(d, "150");
    press(d, "Page Up;Page Up");
    for (int page = 0; page < 8; page++) {
        for (int i = 0; i < 2; i++) {
            const struct form_mark *wide = form_first_too_wide(bench_picture(d->bench));
            if (wide)
                fail_msg("page %d, no room for “%s”", page, wide->text);
            press(d, "F2");
        }
        press(d, "Ctrl Page Down");
    }
}

static void the_same_ticket_gives_the_same_picture(void **state)
{
    struct desk *d = *state;
    struct arena *a = base_arena_create();
    struct paint_image one = paint_image_create(a, d->width, d->height),
                       two = paint_image_create(a, d->width, d->height);
    open_example(d);
    screen_draw_bench(d->letters, bench_picture(d->bench), &one);
    press(d, "Page Down;Page Up");
    screen_draw_bench(d->letters, bench_picture(d->bench), &two);
    assert_memory_equal(one.pixels, two.pixels, (size_t)(d->width * d->height) * sizeof *one.pixels);
    press(d, "F3");
    screen_draw_bench(d->letters, bench_picture(d->bench), &two);
    assert_memory_not_equal(one.pixels, two.pixels, (size_t)(d->width * d->height) * sizeof *one.pixels);
    base_arena_destroy(a);
}

static void a_press_of_the_mouse_on_the_ticket_opens_that_line(void **state)
{
    struct desk *d = *state;
    open_example(d);
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_POINT, .x = 100, .y = 249 });
    assert_reads(d, "Width to lay on");
}

/* The caller speaks it and keeps it; the choice has each language's own name. */
static void another_language_is_asked_for_on_the_page_of_settings(void **state)
{
    struct desk *d = *state;
    press(d, "F5");
    assert_reads(d, "Deutsch");
    press(d, "Right");
    assert_true(d->last.settings);
    assert_int_equal(bench_manner(d->bench).language, BENCH_ENGLISH);
    press(d, "Right");
    assert_int_equal(bench_manner(d->bench).language, BENCH_GERMAN);
    press(d, "Left;Left");
    assert_int_equal(bench_manner(d->bench).language, BENCH_AS_DESKTOP);
}

/* What is nearest to what was told is the one that is chosen; chosen anew it is that word's own. */
static void how_bright_it_is_is_told_on_the_page_of_settings(void **state)
{
    struct desk *d = *state;
    press(d, "F5");
    assert_reads(d, "Light in the room");
    assert_int_equal(bench_manner(d->bench).room_lux, 0);
    press(d, "Tab;Tab;Tab;Tab;Tab;Tab;Right");
    assert_true(d->last.settings);
    int bright = bench_manner(d->bench).room_lux;
    press(d, "Left;Left");
    assert_true(bench_manner(d->bench).room_lux < bright);
    press(d, "Tab;Left");
    assert_true(bench_manner(d->bench).light_lux > bench_manner(d->bench).room_lux);
    assert_int_equal(bench_manner(d->bench).language, BENCH_AS_DESKTOP);
}

/* Each row is one step of Tab further; what the table takes of them is cli/remembered.c's. */
static void hand_sides_and_way_are_told_on_the_page_of_settings(void **state)
{
    struct desk *d = *state;
    press(d, "F5;Tab;Right;Tab;Right");
    assert_int_equal(bench_manner(d->bench).unit, UNITS_IN);
    assert_true(bench_manner(d->bench).left_handed);
    press(d, "Tab;Right;Right;Tab;Right;Tab;Right");
    assert_int_equal(bench_manner(d->bench).side, 2);
    assert_int_equal(bench_manner(d->bench).strip, 1);
    assert_int_equal(bench_manner(d->bench).way, JOB_CHALK_ALL);
    press(d, "Esc;Enter"); /* back on the page where tickets are begun */
    assert_int_equal(bench_job(d->bench)->ticket.way, JOB_CHALK_ALL);
}

/* In a folder that holds the example alone, kept without a cloth: it goes on there. */
static void a_ticket_is_found_in_the_list_renamed_and_gone_on_with(void **state)
{
    struct desk *d = *state;
    struct room room;
    room_init(&room);
    open_example(d);
    press(d, "Page Down;Right;Shift Tab;Enter"); /* a view, and the size kept */
    const char *path = room_put(&room, "one.json", job_print(room.a, bench_job(d->bench)));
    bench_destroy(d->bench);
    const struct bench_start start = { .manner = { .unit = UNITS_CM }, .tickets = room_folder(&room) };
    d->bench = bench_create(&start);
    fit(d);
    press(d, "Shift Tab;Enter");
    assert_reads(d, "Gull Rock pinafore");
    assert_reads(d, "cloth next");
    press(d, "Enter");
    assert_string_equal(d->last.opened, path);
    assert_reads(d, "Width to lay on");
    press(d, "Ctrl N;Shift Tab;Enter;Shift Tab;Enter");
    write_text(d, "Blue one");
    press(d, "Enter");
    assert_string_equal(bench_job(d->bench)->ticket.name, "Blue one");
    press(d, "Esc;Esc;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down");
    const char *left = room_put(&room, "left.json", job_print(room.a, bench_job(d->bench)));
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = left });
    assert_reads(d, "Place the cloth"); /* where she left it, though the cloth lacks its width */
    room_finish(&room);
}

/* What comes of it is told on the page where she was. */
static void a_table_that_cannot_be_used_leaves_her_on_the_page_of_placing(void **state)
{
    struct desk *d = *state;
    to_cutting(d);
    press(d, "Page Up");
    bench_set_at_table(d->bench, BENCH_TO_CUT);
    bench_set_at_table(d->bench, BENCH_STAY);
    bench_come_back(d->bench, NULL, "The light is of another size.");
    assert_reads(d, "Place the cloth");
    assert_reads(d, "The light is of another size.");
}

static void the_projector_is_asked_for_on_the_page_of_settings(void **state)
{
    struct desk *d = *state;
    press(d, "F5;Shift Tab;Shift Tab;Enter");
    assert_true(d->last.asks_projector);
    bench_tell(d->bench, "The projector is “B” from now on.");
    assert_reads(d, "The projector is “B” from now on.");
}

/* The names and usual keys are app/key_map.h's. */
static void a_key_of_her_own_is_given_and_taken_back(void **state)
{
    struct desk *d = *state;
    const char *const *given;
    press(d, "F5;Shift Tab;Enter");
    assert_reads(d, "Keys of your own");
    press(d, "Enter");
    assert_reads(d, "Press the key for “tick”");
    press(d, "F6"); /* the bench's own key for its letters, which means nothing now */
    assert_true(d->last.own_keys);
    assert_int_equal(bench_given_keys(d->bench, &given), 1);
    assert_string_equal(given[0], "tick = F6");
    assert_reads(d, "F6");
    press(d, "Down;Enter;S"); /* “tick all of it” cannot have the test square's */
    assert_false(d->last.own_keys);
    assert_reads(d, "S is the key of “test square”");
    assert_int_equal(bench_given_keys(d->bench, &given), 1);
    press(d, "Enter;Esc");
    assert_int_equal(bench_given_keys(d->bench, &given), 1);
    press(d, "Up;Delete");
    assert_true(d->last.own_keys);
    assert_int_equal(bench_given_keys(d->bench, &given), 0);
    press(d, "Esc;Esc");
    assert_reads(d, "Blank ticket");
}

/* Any key goes on, and does nothing else: Enter would begin a ticket. */
static void the_usual_cautions_come_before_all_else(void **state)
{
    struct desk *d = *state;
    struct bench_start start = { .manner = { .unit = UNITS_CM }, .cautions = true };
    bench_destroy(d->bench);
    d->bench = bench_create(&start);
    fit(d);
    assert_reads(d, "Before you begin");
    assert_reads(d, "risk group 2");
    press(d, "Enter");
    assert_true(d->last.cautioned);
    assert_null(bench_job(d->bench));
    assert_reads(d, "No ticket yet");
    press(d, "Enter");
    assert_false(d->last.cautioned);
    assert_non_null(bench_job(d->bench));
    press(d, "F1");
    assert_reads(d, "Before you begin");
    press(d,
          "F1;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down;F1;Tab;Enter"); /* help of the layout has no room for them */
    assert_reads(d, "risk group 2");
    press(d, "Enter");
    assert_reads(d, "What the keys do here");
}

static void a_pattern_sheet_is_taken_to_the_table(void **state)
{
    struct desk *d = *state;
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = "/tmp/Skirt.PDF" });
    assert_int_equal(d->last.to, BENCH_TO_LIFT);
    assert_string_equal(d->last.sheet, "/tmp/Skirt.PDF");
    assert_true(d->last.keep);
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = "/tmp/scan 1.JPeG" });
    assert_int_equal(d->last.to, BENCH_TO_LIFT); /* where its dots per inch are asked for */
    assert_string_equal(d->last.sheet, "/tmp/scan 1.JPeG");
    bench_set_at_table(d->bench, BENCH_TO_CUT);
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = "/tmp/Skirt.PDF" });
    assert_int_equal(d->last.to, BENCH_STAY);
    assert_reads(d, "leave the table first");
}

static void make_own_table(struct room *room)
{
    struct calibration_readings readings;
    struct calibration_solution solution;
    assert_true(calibration_readings_read(room->a, readings_path, &readings, room->errs));
    assert_true(calibration_solve(room->a, readings_path, &readings, CALIBRATION_LENS_WEAK, &solution, room->errs));
    struct calibration_table table = calibration_table_of(room->a, &readings, &solution, "2026-11-28");
    const char *text = calibration_table_print(room->a, &table);
    assert_true(base_file_save(own_table, text, strlen(text), room->errs));
}

static void the_table_of_an_earlier_ticket_is_offered_and_so_is_a_sample(void **state)
{
    struct desk *d = *state;
    struct room room;
    room_init(&room);
    make_own_table(&room);
    press(d, "Enter");
    press(d, "Ctrl Page Down;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down");
    assert_reads(d, "Use the last table set-up");
    press(d, "Tab;Tab;Tab;Enter"); /* past it, and another file */
    assert_true(d->last.wants_sample);
    assert_false(bench_job(d->bench)->has_table);
    press(d, "Shift Tab;Shift Tab;Enter");
    unlink(own_table);
    assert_true(bench_job(d->bench)->has_table);
    assert_string_equal(bench_job(d->bench)->table.made, "2026-11-28");
    assert_reads(d, "A place may be off by");
    room_finish(&room);
}

static void the_last_table_is_offered_to_a_ticket_with_a_sample(void **state)
{
    static const char sample[] = "a-sample-table.json";
    struct desk *d = *state;
    struct room room;
    struct calibration_table table;
    room_init(&room);
    make_own_table(&room);
    assert_true(calibration_table_read(room.a, own_table, &table, room.errs));
    table.sample = true;
    const char *text = calibration_table_print(room.a, &table);
    assert_true(base_file_save(sample, text, strlen(text), room.errs));
    press(d, "Enter");
    d->last = bench_handle(d->bench, (struct input_event){ .type = INPUT_DROP, .path = sample });
    assert_true(bench_job(d->bench)->table.sample);
    assert_reads(d, "Last table set-up, of 28 Nov 2026");
    press(d, "Tab;Enter"); /* past setting it up */
    unlink(own_table);
    unlink(sample);
    assert_false(bench_job(d->bench)->table.sample);
    assert_false(reads(d, "Last table set-up"));
    room_finish(&room);
}

static void the_page_of_the_table_says_what_is_begun_and_how_warm_the_lamp_is(void **state)
{
    struct desk *d = *state;
    struct bench_lamp lamp = { .read = 4, .of = 13 };
    press(d, "Enter");
    press(d, "Ctrl Page Down;Ctrl Page Down;Ctrl Page Down;Ctrl Page Down");
    assert_reads(d, "Let the lamp warm up for 15 minutes first");
    assert_true(bench_set_lamp(d->bench, &lamp));
    assert_false(bench_set_lamp(d->bench, &lamp));
    assert_reads(d, "A table set-up is begun");
    assert_reads(d, "4 of 13 crosses read");
    lamp.since = "20:05";
    lamp.left_min = 12;
    assert_true(bench_set_lamp(d->bench, &lamp));
    assert_reads(d, "since 20:05");
    assert_reads(d, "12 minutes of 15 are left");
    lamp.left_min = 0;
    assert_true(bench_set_lamp(d->bench, &lamp));
    assert_reads(d, "the lamp is warm");
}

int main(int argc, char **argv)
{
    if (argc != 4)
        return 1;
    pattern_path = argv[1];
    body_path = argv[2];
    readings_path = argv[3];
    const struct CMUnitTest tests[] = {
#define DESK(name) cmocka_unit_test_setup_teardown(name, open_desk, close_desk)
        DESK(nothing_is_open_at_first),
        DESK(the_usual_cautions_come_before_all_else),
        DESK(a_pattern_sheet_is_taken_to_the_table),
        DESK(the_table_of_an_earlier_ticket_is_offered_and_so_is_a_sample),
        DESK(the_last_table_is_offered_to_a_ticket_with_a_sample),
        DESK(the_page_of_the_table_says_what_is_begun_and_how_warm_the_lamp_is),
        DESK(another_language_is_asked_for_on_the_page_of_settings),
        DESK(a_key_of_her_own_is_given_and_taken_back),
        DESK(how_bright_it_is_is_told_on_the_page_of_settings),
        DESK(hand_sides_and_way_are_told_on_the_page_of_settings),
        DESK(the_projector_is_asked_for_on_the_page_of_settings),
        DESK(a_ticket_is_found_in_the_list_renamed_and_gone_on_with),
        DESK(a_table_that_cannot_be_used_leaves_her_on_the_page_of_placing),
        DESK(a_slip_covers_nothing),
        DESK(a_new_ticket_is_filled_by_hand),
        DESK(a_measurement_is_kept_as_it_is_left),
        DESK(inches_are_read_and_shown_by_one_key),
        DESK(a_slip_of_the_tape_is_asked_about_and_mended_by_one_key),
        DESK(words_that_are_no_length_stay_in_red_until_they_are_mended),
        DESK(view_size_and_cup_group_are_chosen),
        DESK(the_cloth_is_told_with_what_it_shrinks),
        DESK(new_interfacing_is_fusible_from_edge_to_edge),
        DESK(the_layout_is_there_at_once_and_kept),
        DESK(the_page_of_placing_tells_how_the_cloth_is_laid),
        DESK(a_piece_has_a_note_that_stands_on_the_last_page_too),
        DESK(the_way_of_working_is_chosen_until_something_is_cut),
        DESK(the_ticket_says_what_is_missing),
        DESK(of_two_faults_of_the_cloth_the_one_she_is_at_is_told),
        DESK(help_on_layout_tells_its_own_keys),
        DESK(while_pieces_are_left_the_last_page_leads_back_to_them),
        DESK(a_ticket_has_a_name_of_its_own),
        DESK(an_alteration_is_added_in_words_and_taken_off),
        DESK(an_alteration_is_chosen_and_its_length_written),
        DESK(pieces_are_made_to_her_own_measurements),
        DESK(what_is_ticked_off_is_told_line_by_line),
        DESK(while_she_cuts_no_line_changes),
        DESK(at_the_table_she_may_undo_a_note_and_nothing_before_it),
        DESK(the_page_of_cutting_goes_with_the_table),
        DESK(layouts_of_the_table_are_taken_on),
        DESK(what_is_placed_is_told_of_each_material),
        DESK(another_copy_is_a_ticket_of_its_own),
        DESK(the_example_begins_while_another_ticket_is_partly_cut),
        DESK(what_is_no_file_of_ours_is_told),
        DESK(where_a_file_is_can_be_typed),
        DESK(a_cloth_file_is_taken_and_a_scrap_is_told_as_one),
        DESK(a_form_longer_than_the_window_goes_along_with_her),
        DESK(no_text_is_clipped_in_the_least_window),
        DESK(the_same_ticket_gives_the_same_picture),
        DESK(a_press_of_the_mouse_on_the_ticket_opens_that_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
