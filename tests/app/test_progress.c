/* What is told to be cut, against the pattern's own cutting list: the demo's main fabric in one row on folded cloth, so
 * that one cut gives a pair. */
#include "app/memory.h"
#include "app/progress.h"
#include "table/placing.h"

static int all_cut(const struct app_progress *progress)
{
    int count = 0;
    for (size_t i = 0; i < progress->line_count; i++)
        count += progress->lines[i].cut;
    return count;
}

static void all_of_the_main_fabric_is_laid_and_nothing_cut(void **state)
{
    struct placing *p = *state;
    struct app_progress progress = app_progress_of(p->app, p->room.a);
    assert_int_equal(progress.line_count, p->app->draft.cut_count);
    assert_false(progress.is_placed);
    for (size_t i = 0; i < progress.line_count; i++) {
        const struct draft_cut *cut = &p->app->draft.cuts[i];
        assert_int_equal(progress.lines[i].laid, cut->cloth == PATTERN_FABRIC ? cut->count : 0);
        assert_int_equal(progress.lines[i].cut, 0);
    }
}

static void a_tick_counts_all_its_copies_and_can_be_taken_back(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    assert_true(app_progress_of(p->app, p->room.a).is_placed);
    const struct app_place_cloth *c = placing_cloth(p);
    while (c->steps[c->now].kind != APP_STEP_CUT)
        placing_do_step(p);
    struct app_progress before = app_progress_of(p->app, p->room.a);
    int copies = c->lay->task->items[c->steps[c->now].item].copies,
        line = c->lay->task->items[c->steps[c->now].item].cut;
    placing_do_step(p);
    struct app_progress after = app_progress_of(p->app, p->room.a);
    assert_int_equal(all_cut(&before), 0);
    assert_int_equal(after.lines[line].cut, copies);
    assert_int_equal(all_cut(&after), copies);
    placing_press(p, "backspace");
    struct app_progress back = app_progress_of(p->app, p->room.a);
    assert_int_equal(all_cut(&back), 0);
}

static void an_app_that_recalls_tells_the_same(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    placing_do_section(p);
    struct app *again = placing_again(p);
    assert_true(app_recall(again, app_remember(p->app, p->room.a), p->room.errs));
    struct app_progress was = app_progress_of(p->app, p->room.a), is = app_progress_of(again, p->room.a);
    assert_true(all_cut(&was) > 0);
    assert_true(is.is_placed);
    assert_memory_equal(is.lines, was.lines, was.line_count * sizeof *was.lines);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(all_of_the_main_fabric_is_laid_and_nothing_cut, placing_set_up,
                                        placing_tear_down),
        cmocka_unit_test_setup_teardown(a_tick_counts_all_its_copies_and_can_be_taken_back, placing_set_up,
                                        placing_tear_down),
        cmocka_unit_test_setup_teardown(an_app_that_recalls_tells_the_same, placing_set_up, placing_tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
