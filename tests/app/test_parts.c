/* What is done with each piece, told one after the other, and the two ways of working: cut along the light, or chalk
 * all and cut by the room's lamp. The layout is a row of the demo's pieces, view A, cup C-D (tests/table/placing.h);
 * counts of notches and marks are those of assets/demo/pinafore.json, by hand. */
#include "app/memory.h"
#include "app/place.h"
#include "app/progress.h"
#include "table/placing.h"

#include <string.h>

static const char *left(struct placing *p)
{
    return app_place_strip_left(p->app, p->room.a);
}

static void assert_says(const char *text, const char *part)
{
    if (!text || !strstr(text, part))
        fail_msg("“%s” says not “%s”", text ? text : "nothing", part);
}

/* Lays the cloth, and does what comes before the first piece: the bib's front. */
static void go_to_first_piece(struct placing *p)
{
    placing_lay(p);
    while (placing_cloth(p)->steps[placing_cloth(p)->now].kind != APP_STEP_CUT)
        placing_do_step(p);
}

/* As a ticket that says so has it. */
static void chalk_all(struct placing *p)
{
    struct app_place_cloth *c = app_place_now(p->app);
    c->chalks_all = true;
    assert_true(app_place_plan_in(p->app, c, c->light, c->quarter));
}

static int all_cut(struct placing *p)
{
    struct app_progress progress = app_progress_of(p->app, p->room.a);
    int count = 0;
    for (size_t i = 0; i < progress.line_count; i++)
        count += progress.lines[i].cut;
    return count;
}

/* Five notches, two darts and no dot; on the fold, so two layers. */
static const char *const bib_front[] = { "cut Bib front, then Bib back", "Bib front: snip 5 notches",
                                         "Bib front: mark dart points on every layer",
                                         "Bib front: wrong side and name on tape" };

enum { BIB_PARTS = sizeof bib_front / sizeof bib_front[0] };

static void a_key_goes_on_from_part_to_part_and_then_ticks(void **state)
{
    struct placing *p = *state;
    go_to_first_piece(p);
    for (int i = 0; i < BIB_PARTS; i++) {
        assert_says(left(p), bib_front[i]);
        assert_int_equal(all_cut(p), 0);
        placing_press(p, "enter");
    }
    assert_int_equal(all_cut(p), 1);
    assert_says(left(p), "cut Bib back");
    placing_press(p, "enter"); /* one single notch and three double ones; a dart; a pair */
    assert_says(left(p), "Bib back: snip 7 notches");
}

static void a_key_goes_back_likewise(void **state)
{
    struct placing *p = *state;
    go_to_first_piece(p);
    size_t piece = placing_cloth(p)->now;
    placing_press(p, "shift enter");
    assert_int_equal(all_cut(p), 1);
    for (int i = BIB_PARTS - 1; i >= 0; i--) {
        placing_press(p, "backspace");
        assert_says(left(p), bib_front[i]);
        assert_int_equal(placing_cloth(p)->now, piece);
    }
    assert_int_equal(all_cut(p), 0);
    placing_press(p, "backspace");
    assert_true(placing_cloth(p)->now < piece);
}

/* A pocket has dots and no notches; a strap neither: parts that a piece has not are not told. */
static void a_piece_has_only_its_own_parts(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    const struct app_place_cloth *c = placing_cloth(p);
    for (size_t i = 0; i < c->step_count; i++) {
        if (c->steps[i].kind != APP_STEP_CUT)
            continue;
        const char *name = c->lay->task->items[c->steps[i].item].piece->name;
        bool pocket = strcmp(name, "pocket") == 0, plain = strcmp(name, "strap") == 0;
        enum app_part next = app_place_part_from(c, &c->steps[i], APP_PART_NOTCHES, +1);
        if (pocket)
            assert_int_equal(next, APP_PART_MARKS);
        if (plain)
            assert_int_equal(next, APP_PART_NAME);
        if (!pocket && !plain && strcmp(name, "bib back") == 0)
            assert_int_equal(next, APP_PART_NOTCHES);
    }
}

static void what_is_in_hand_of_a_piece_comes_back(void **state)
{
    struct placing *p = *state;
    go_to_first_piece(p);
    placing_press(p, "enter");
    placing_press(p, "enter");
    placing_press(p, "page down"); /* another one first; this one stays where it was */
    const char *line = app_remember(p->app, p->room.a);
    struct app *again = placing_again(p);
    assert_true(app_recall(again, line, p->room.errs));
    assert_string_equal(app_remember(again, p->room.a), line);
    p->app = again;
    placing_press(p, "page up");
    assert_says(left(p), bib_front[2]);
    placing_refuses(p, "\"parts\": [", "\"parts\": [99, 1, ");
    placing_refuses(p, "\"parts\": [", "\"parts\": [1, ");
    placing_refuses(p, "\"parts\": [", "\"parts\": [0, 1, "); /* marks have no notches */
}

/* --- chalk all --------------------------------------------------------------------------------------------------- */

static void chalk_everything(struct placing *p)
{
    chalk_all(p);
    placing_lay(p);
    while (placing_cloth(p)->stage != APP_PLACE_LAMP) {
        placing_do_section(p);
        if (placing_cloth(p)->stage == APP_PLACE_SLIDE) {
            placing_slide(p, (vec2){ 0, 0 }, 0);
            placing_nudge_all(p);
        }
    }
}

static void a_first_round_chalks_outline_notches_and_marks(void **state)
{
    struct placing *p = *state;
    static const char *const want[] = { "chalk Bib front, then Bib back", "Bib front: chalk 5 notches",
                                        "Bib front: chalk dart points" };
    chalk_all(p);
    go_to_first_piece(p);
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        assert_says(left(p), want[i]);
        placing_press(p, "enter");
    }
    assert_says(left(p), "chalk Bib back");
    assert_int_equal(all_cut(p), 0);
}

/* As many as the pattern's cutting list has of its main fabric. */
static void a_second_round_ticks_what_is_cut_by_the_lamp(void **state)
{
    struct placing *p = *state;
    static const char *const want[] = { "By the lamp: cut Bib front", "Bib front: snip 5 notches",
                                        "Bib front: mark dart points on the other layer",
                                        "Bib front: wrong side and name on tape" };
    chalk_everything(p);
    const struct app_place_cloth *c = placing_cloth(p);
    size_t pieces = c->lay->task->item_count;
    int copies = 0;
    for (size_t i = 0; i < p->app->draft.cut_count; i++)
        copies += p->app->draft.cuts[i].cloth == PATTERN_FABRIC ? p->app->draft.cuts[i].count : 0;
    assert_int_equal(app_place_left(c, c->plan.count), pieces);
    assert_int_equal(app_place_pieces_left(c, c->plan.count, c->plan.count), copies);
    assert_int_equal(all_cut(p), 0);
    struct paint_items light = app_scene(p->app, p->room.a).table.in;
    assert_int_equal(light.count, 0); /* no line is cut along */
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        assert_says(left(p), want[i]);
        placing_press(p, "enter");
    }
    assert_int_equal(all_cut(p), 1);
    placing_press(p, "backspace");
    assert_says(left(p), want[3]);
    assert_int_equal(all_cut(p), 0);
    for (size_t i = 0; i < pieces; i++)
        placing_press(p, "shift enter");
    assert_int_equal(c->stage, APP_PLACE_DONE);
    assert_int_equal(all_cut(p), copies);
    placing_press(p, "backspace");
    assert_int_equal(c->stage, APP_PLACE_LAMP);
}

static void from_the_lamp_there_is_a_way_back_to_the_light(void **state)
{
    struct placing *p = *state;
    chalk_everything(p);
    placing_press(p, "backspace");
    assert_int_equal(placing_cloth(p)->stage, APP_PLACE_CUT);
    placing_press(p, "shift enter");
    assert_int_equal(placing_cloth(p)->stage, APP_PLACE_LAMP);
}

/* Whatever the ticket says since. */
static void what_is_begun_goes_on_as_it_was_begun(void **state)
{
    struct placing *p = *state;
    chalk_everything(p);
    placing_press(p, "shift enter");
    const char *line = app_remember(p->app, p->room.a);
    struct app *again = placing_again(p); /* cut along the light */
    assert_true(app_recall(again, line, p->room.errs));
    assert_string_equal(app_remember(again, p->room.a), line);
    assert_int_equal(app_place_now(again)->stage, APP_PLACE_LAMP);
    p->app = again;
    assert_int_equal(all_cut(p), 1);
}

/* --- the list ---------------------------------------------------------------------------------------------------- */

static void a_key_lists_what_is_left(void **state)
{
    struct placing *p = *state;
    struct arena *a = p->room.a;
    const struct scene_help_line *lines;
    const size_t pieces = placing_cloth(p)->lay->task->item_count, sections = placing_cloth(p)->plan.count;
    size_t copies = 0; /* of the pattern's cutting list */
    for (size_t i = 0; i < p->app->draft.cut_count; i++)
        copies += p->app->draft.cuts[i].cloth == PATTERN_FABRIC ? (size_t)p->app->draft.cuts[i].count : 0;
    assert_int_equal(app_left_lines(p->app, a, &lines), 1 + pieces);
    assert_string_equal(lines[0].what, base_arena_print(a, "%zu pieces are left to be cut", copies));
    assert_string_equal(lines[1].key, "Bib front");
    assert_string_equal(lines[1].what, base_arena_print(a, "On the fold · fabric, section 1 of %zu", sections));
    assert_string_equal(lines[2].key, "Bib back");
    assert_string_equal(lines[2].what, base_arena_print(a, "Both layers · fabric, section 1 of %zu", sections));
    go_to_first_piece(p);
    placing_press(p, "shift enter");
    assert_int_equal(app_left_lines(p->app, a, &lines), pieces);
    assert_string_equal(lines[0].what, base_arena_print(a, "%zu pieces are left to be cut", copies - 1));
    assert_string_equal(lines[1].key, "Bib back");
    placing_press(p, "i");
    assert_int_equal(p->app->mode, SCENE_LIST);
    placing_press(p, "i");
    assert_int_equal(p->app->mode, SCENE_PIECES);
    for (size_t i = 0; i < placing_cloth(p)->step_count; i++)
        app_place_now(p->app)->steps[i].done = true;
    assert_int_equal(app_left_lines(p->app, a, &lines), 1);
    assert_string_equal(lines[0].what, "Nothing is left");
}

/* A piece that reaches over two sections is cut in each, and is one piece of the list and of the count. */
static void a_piece_over_two_sections_is_counted_once(void **state)
{
    struct placing *p = *state;
    struct arena *a = p->room.a;
    struct app_place_cloth *c = app_place_now(p->app);
    const struct scene_help_line *lines;
    size_t pieces = c->lay->task->item_count, sections = c->plan.count, all = app_place_pieces_left(c, 0, sections);
    struct app_step *steps = base_arena_alloc(a, c->step_count + 1, sizeof *steps);
    assert_true(sections > 1);
    memcpy(steps, c->steps, c->step_count * sizeof *steps);
    steps[c->step_count] = (struct app_step){ .span = 1, .kind = APP_STEP_CUT, .item = 0 }; /* the bib's front again */
    c->steps = steps;
    c->step_count++;
    assert_int_equal(app_left_lines(p->app, a, &lines), 1 + pieces);
    assert_string_equal(lines[0].what, base_arena_print(a, "%zu pieces are left to be cut", all));
    assert_string_equal(lines[1].what, base_arena_print(a, "On the fold · fabric, sections 1 to 2 of %zu", sections));
    assert_int_equal(app_place_pieces_left(c, 0, sections), all);
}

/* Two rectangles of 140 x 12 cm, in a plan that takes 128 cm: told before the cloth lies there, and listed. */
static void what_is_torn_off_first_is_told_until_the_cloth_lies_there(void **state)
{
    struct placing *p = *state;
    struct arena *a = p->room.a;
    const struct scene_help_line *lines;
    const struct tearing_task task = { .material = PATTERN_FABRIC };
    const struct tearing_need ruffle = {
        .piece = &p->app->draft.pieces[0], .width_mm = 1400, .height_mm = 120, .count = 2, .pieces = 2, .parts = 1
    };
    const struct tearing_plan plan = { .task = &task, .needs = &ruffle, .need_count = 1, .length_mm = 1280 };
    const size_t pieces = placing_cloth(p)->lay->task->item_count;
    app_place_now(p->app)->torn = &plan;
    assert_says(app_place_notice(p->app, a), "Tear off first 2 × Bib front, which takes 1.28 m of this cloth");
    assert_int_equal(app_left_lines(p->app, a, &lines), 2 + pieces);
    assert_string_equal(lines[1].key, "Bib front");
    assert_string_equal(lines[1].what, "2 × torn off first, 1400 × 120 mm · fabric");
    app_place_turned(p->app, SCENE_NEAR); /* and is not forgotten as the sections are made anew */
    assert_int_equal(app_left_lines(p->app, a, &lines), 2 + pieces);
    placing_lay(p);
    assert_null(app_place_notice(p->app, a));
    assert_int_equal(app_left_lines(p->app, a, &lines), 1 + pieces);
}

#define PLACING(f) cmocka_unit_test_setup_teardown(f, placing_set_up, placing_tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        PLACING(a_key_goes_on_from_part_to_part_and_then_ticks),
        PLACING(a_key_goes_back_likewise),
        PLACING(a_piece_has_only_its_own_parts),
        PLACING(what_is_in_hand_of_a_piece_comes_back),
        PLACING(a_first_round_chalks_outline_notches_and_marks),
        PLACING(a_second_round_ticks_what_is_cut_by_the_lamp),
        PLACING(from_the_lamp_there_is_a_way_back_to_the_light),
        PLACING(what_is_begun_goes_on_as_it_was_begun),
        PLACING(a_key_lists_what_is_left),
        PLACING(a_piece_over_two_sections_is_counted_once),
        PLACING(what_is_torn_off_first_is_told_until_the_cloth_lies_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
