/* Cloth that is partly cut when its layout is arranged anew, or planned anew in other sections: what is cut stays cut,
 * what is left is cut once, and no mark's name comes twice. The layout is a row of the demo's pieces
 * (tests/table/placing.h). */
#include "app/memory.h"
#include "app/place.h"
#include "app/progress.h"
#include "job/cloth.h"
#include "table/placing.h"

#include <math.h>
#include <string.h>

static int set_up_narrow(void **state)
{
    static struct placing p;
    *state = &p;
    return placing_open_narrow(&p, NULL) ? 0 : -1;
}

static size_t last_item(const struct app_place_cloth *c)
{
    size_t last = 0;
    for (size_t i = 0; i < c->lay->task->item_count; i++)
        if (c->lay->places[i].motion.shift.x > c->lay->places[last].motion.shift.x)
            last = i;
    return last;
}

/* Another app, with one item moved along the cloth. */
static struct app *arranged_anew(struct placing *p, size_t item, double by_mm)
{
    struct app *app = rig_app(p->room.a, &p->table, NULL, p->room.errs);
    const struct lay *was = placing_cloth(p)->lay;
    struct lay_place *places = base_arena_alloc(p->room.a, was->task->item_count, sizeof *places);
    struct lay *lay = base_arena_alloc(p->room.a, 1, sizeof *lay);
    memcpy(places, was->places, was->task->item_count * sizeof *places);
    places[item].motion.shift.x += by_mm;
    *lay = lay_of(p->room.a, was->task, places);
    app_place_add(app, lay);
    return app;
}

static size_t first_cut(const struct app_place_cloth *c)
{
    size_t i = 0;
    while (i < c->lay->task->item_count && app_place_cut_to(c, i) < INFINITY)
        i++;
    return i;
}

/* The last piece lies 200 mm farther on. What was cut has no step any more, all else has one. */
static void what_is_cut_stays_cut_in_another_layout(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    placing_do_section(p);
    const struct app_place_cloth *was = placing_cloth(p);
    size_t moved = last_item(was);
    assert_true(app_place_cut_to(was, moved) == -INFINITY);
    struct app *again = arranged_anew(p, moved, 200);
    assert_true(app_recall(again, app_remember(p->app, p->room.a), p->room.errs));
    const struct app_place_cloth *is = app_place_now(again);
    assert_non_null(is->earlier);
    for (size_t i = 0; i < is->lay->task->item_count; i++) {
        size_t steps = 0;
        for (size_t k = 0; k < is->step_count; k++)
            steps += is->steps[k].item == (int)i;
        assert_int_equal(app_place_cut_to(is, i) == INFINITY, app_place_cut_to(was, i) == INFINITY);
        assert_int_equal(steps, app_place_cut_to(was, i) < INFINITY);
    }
    struct app_progress before = app_progress_of(p->app, p->room.a), after = app_progress_of(again, p->room.a);
    for (size_t i = 0; i < before.line_count; i++)
        assert_int_equal(after.lines[i].cut, before.lines[i].cut);
    assert_int_equal(app_progress_find(&after, PATTERN_FABRIC)->cut, app_progress_find(&before, PATTERN_FABRIC)->cut);
    assert_null(app_progress_find(&after, PATTERN_LINING));
}

/* It is lined up on chalk that is on the cloth, and cut to the end; W1 of before is no other mark's name. */
static void the_rest_is_cut_by_marks_of_before(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    placing_do_section(p);
    const char *before = app_remember(p->app, p->room.a);
    int marks_before = p->mark_count;
    p->app = arranged_anew(p, last_item(placing_cloth(p)), 200);
    assert_true(app_recall(p->app, before, p->room.errs));
    const struct app_place_cloth *c = placing_cloth(p);
    assert_int_equal(c->stage, APP_PLACE_MOVED);
    assert_non_null(strstr(p->app->told, "what is cut stays"));
    placing_nudge_all(p);
    for (int rounds = 0; c->stage != APP_PLACE_DONE && rounds < 20; rounds++) {
        placing_do_section(p);
        if (c->stage == APP_PLACE_SLIDE) {
            placing_slide(p, (vec2){ 0, 0 }, 0);
            placing_nudge_all(p);
        }
        assert_int_not_equal(c->stage, APP_PLACE_MOVED);
    }
    assert_int_equal(c->stage, APP_PLACE_DONE);
    assert_true(p->mark_count > marks_before);
    for (int i = 0; i < p->mark_count; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(p->marks[i].name, p->marks[k].name);
    for (size_t i = 0; i < c->lay->task->item_count; i++)
        assert_true(app_place_cut_to(c, i) == INFINITY);
}

static void a_layout_arranged_anew_comes_back_as_it_is(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    placing_do_section(p);
    size_t moved = last_item(placing_cloth(p));
    struct app *app = arranged_anew(p, moved, 200), *again = arranged_anew(p, moved, 200),
               *third = arranged_anew(p, moved, 250);
    assert_true(app_recall(app, app_remember(p->app, p->room.a), p->room.errs));
    p->app = app;
    placing_press(p, "esc");
    placing_do_step(p);
    placing_do_step(p);
    const char *line = app_remember(app, p->room.a);
    assert_true(app_recall(again, line, p->room.errs));
    assert_string_equal(app_remember(again, p->room.a), line);
    assert_true(app_recall(third, line, p->room.errs)); /* and once more */
    for (size_t i = 0; i < app_place_now(third)->lay->task->item_count; i++)
        assert_true((app_place_cut_to(app_place_now(third), i) == INFINITY) ==
                    (app_place_cut_to(app_place_now(app), i) == INFINITY));
}

/* Nothing of it can be believed then. */
static void a_layout_with_a_cut_piece_elsewhere_is_refused(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    placing_do_section(p);
    struct app *again = arranged_anew(p, first_cut(placing_cloth(p)), 1);
    assert_false(app_recall(again, app_remember(p->app, p->room.a), p->room.errs));
    assert_true(base_err_list_has(p->room.errs, "app.memory"));
    assert_null(app_place_now(again)->earlier);
}

/* Where nothing is cut another layout begins at the lines. */
static void nothing_cut_is_nothing_kept(void **state)
{
    struct placing *p = *state;
    placing_lay(p);
    placing_do_step(p); /* its own marks */
    struct app *again = arranged_anew(p, 0, 1);
    assert_true(app_recall(again, app_remember(p->app, p->room.a), p->room.errs));
    assert_null(app_place_now(again)->earlier);
    assert_int_equal(app_place_now(again)->stage, APP_PLACE_LINES);
}

static void a_spoilt_line_of_what_was_cut_is_refused(void **state)
{
    static const char *const spoilt[][2] = {
        { "\"earlier\": {\"items\": [", "\"earlier\": {\"items\": [[999], " },
        { "\"earlier\": {\"items\": [", "\"earlier\": {\"items\": [7, " },
        { "\"earlier\": {\"items\": [", "\"earlier\": {\"items\": [[0, 1, 2], " },
        { "\"earlier\": {", "\"earlier\": {\"x\": " },
        { "\"earlier\": {\"items\"", "\"earlier\": {\"other\"" },
    };
    struct placing *p = *state;
    placing_lay(p);
    placing_do_section(p);
    size_t moved = last_item(placing_cloth(p));
    struct app *app = arranged_anew(p, moved, 200);
    assert_true(app_recall(app, app_remember(p->app, p->room.a), p->room.errs));
    const char *line = app_remember(app, p->room.a);
    for (size_t i = 0; i < sizeof spoilt / sizeof spoilt[0]; i++) {
        const char *at = strstr(line, spoilt[i][0]);
        assert_non_null(at);
        const char *other =
            base_arena_print(p->room.a, "%.*s%s%s", (int)(at - line), line, spoilt[i][1], at + strlen(spoilt[i][0]));
        assert_false(app_recall(arranged_anew(p, moved, 200), other, p->room.errs));
    }
}

/* --- pieces in parts ---------------------------------------------------------------------------------------------- */

static void slide(struct placing *p)
{
    placing_slide(p, (vec2){ 0, 0 }, 0);
    placing_nudge_all(p);
}

/* How far the section would have to be pushed to her right to leave the light. */
static double spare_mm(struct placing *p)
{
    const struct app_place_cloth *c = placing_cloth(p);
    double last = -INFINITY;
    for (size_t i = 0; i < c->step_count; i++)
        if (c->steps[i].span == c->span && c->steps[i].kind == APP_STEP_CUT) {
            size_t item = (size_t)c->steps[i].item;
            struct geometry_path path = lay_outline(p->room.a, c->lay->task, item, &c->lay->places[item]).path;
            last = fmax(last, fmin(geometry_path_box(path).max.x, c->plan.spans[c->span].to_mm));
        }
    return app_place_light(p->app, c).max.x - app_place_at(&c->seat.to_table, (struct cloth_pt){ last, 0 }).x;
}

/* Marks that were pushed out of the light are left out. */
static void line_up(struct placing *p)
{
    const struct app_place_cloth *c = placing_cloth(p);
    while (c->stage == APP_PLACE_MOVED) {
        const struct spans_sighting *hand = &c->aims[c->in_hand].sighting;
        vec2 lies = placing_truly(p, (vec2){ hand->cloth.x, hand->cloth.y });
        struct px_pt px;
        bool lit = geometry_map_to_px(app_map(p->app), (struct table_pt){ lies.x, lies.y }, &px) && px.x >= 5 &&
                   px.x <= app_map(p->app)->width_px - 5 && px.y >= 5 && px.y <= app_map(p->app)->height_px - 5;
        if (hand->sign == SPANS_MARK && !lit)
            placing_press(p, "x");
        else
            placing_nudge(p);
    }
}

static bool has_part_left(const struct app_place_cloth *c)
{
    for (size_t i = 0; i < c->lay->task->item_count; i++) {
        double to = app_place_cut_to(c, i);
        if (to > -INFINITY && to < INFINITY)
            return true;
    }
    return false;
}

#define BEYOND_MM 40.0 /* of the light that pieces may use: there is some more beside it */

/* Pushed so that the section is out of the light, and found again; whether that made a new plan. */
static bool is_planned_anew(struct placing *p)
{
    size_t sections = placing_cloth(p)->plan.count;
    double by = spare_mm(p) + BEYOND_MM;
    placing_push(p, (vec2){ by, 0 }, 0);
    placing_press(p, "w");
    line_up(p);
    if (placing_cloth(p)->plan.count != sections || strstr(p->app->told, "Planned anew"))
        return true;
    assert_non_null(strstr(p->app->told, "out of the light: move the cloth"));
    placing_push(p, (vec2){ -by, 0 }, 0);
    placing_press(p, "w");
    line_up(p);
    return false;
}

/* In every section that is begun while a piece is cut in part the cloth is pushed out of the light. What is left of
 * such a piece begins where it was cut as far as, whatever the sections are then, and all of it is cut in the end. */
static void a_piece_cut_in_parts_is_planned_anew_from_its_line(void **state)
{
    struct placing *p = *state;
    const struct app_place_cloth *c = placing_cloth(p);
    double *line = base_arena_alloc(p->room.a, c->lay->task->item_count, sizeof *line);
    int anew = 0;
    placing_lay(p);
    for (int rounds = 0; c->stage != APP_PLACE_DONE && rounds < 40; rounds++) {
        for (size_t i = 0; i < c->lay->task->item_count; i++)
            line[i] = app_place_cut_to(c, i);
        if (has_part_left(c) && c->steps[c->now].kind == APP_STEP_WITNESSES) {
            placing_do_step(p);
            anew += is_planned_anew(p);
            for (size_t i = 0; i < c->lay->task->item_count; i++)
                assert_true(line[i] == app_place_cut_to(c, i));
        }
        placing_do_section(p);
        if (c->stage == APP_PLACE_SLIDE)
            slide(p);
    }
    assert_int_equal(c->stage, APP_PLACE_DONE);
    assert_true(anew > 0);
    struct app_progress progress = app_progress_of(p->app, p->room.a);
    for (size_t i = 0; i < progress.line_count; i++)
        assert_int_equal(progress.lines[i].cut, progress.lines[i].laid);
    struct app *again = rig_app(p->room.a, &p->table, NULL, p->room.errs);
    app_place_add(again, c->lay);
    assert_true(app_recall(again, app_remember(p->app, p->room.a), p->room.errs));
    assert_string_equal(app_remember(again, p->room.a), app_remember(p->app, p->room.a));
}

/* --- what may be changed ------------------------------------------------------------------------------------------ */

static bool allows(struct placing *p, const struct app_progress *progress, const struct job *was, const struct job *is)
{
    return app_progress_allows(progress, was, is, p->room.errs);
}

static void partly_cut_cloth_and_its_pieces_stay_as_they_are(void **state)
{
    struct placing *p = *state;
    struct job was = *p->app->job, other;
    struct job_cloth fabric = { .material = PATTERN_FABRIC, .cloth = cloth_plain(1500) },
                     lining = { .material = PATTERN_LINING, .cloth = cloth_plain(1400) };
    job_put_cloth(p->room.a, &was, &fabric);
    placing_lay(p);
    struct app_progress nothing = app_progress_of(p->app, p->room.a);
    placing_do_section(p);
    struct app_progress some = app_progress_of(p->app, p->room.a);
    other = was;
    other.position += 0.5;
    assert_true(allows(p, &nothing, &was, &other));
    assert_false(allows(p, &some, &was, &other));
    other = was;
    fabric.cloth.width_mm = 1400;
    job_put_cloth(p->room.a, &other, &fabric);
    assert_true(allows(p, &nothing, &was, &other));
    assert_false(allows(p, &some, &was, &other));
    fabric.cloth.width_mm = 1500;
    fabric.torn.is_kept = true;
    job_put_cloth(p->room.a, &other, &fabric);
    assert_false(allows(p, &some, &was, &other));
    other = was;
    job_put_cloth(p->room.a, &other, &lining); /* not begun */
    assert_true(allows(p, &some, &was, &other));
    other.has_table = !was.has_table;
    other.surface.layers++;
    assert_true(allows(p, &some, &was, &other));
}

#define test(f) cmocka_unit_test_setup_teardown(f, placing_set_up, placing_tear_down)

int main(void)
{
    const struct CMUnitTest tests[] = {
        test(what_is_cut_stays_cut_in_another_layout),
        test(the_rest_is_cut_by_marks_of_before),
        test(a_layout_arranged_anew_comes_back_as_it_is),
        test(a_layout_with_a_cut_piece_elsewhere_is_refused),
        test(nothing_cut_is_nothing_kept),
        test(a_spoilt_line_of_what_was_cut_is_refused),
        cmocka_unit_test_setup_teardown(a_piece_cut_in_parts_is_planned_anew_from_its_line, set_up_narrow,
                                        placing_tear_down),
        test(partly_cut_cloth_and_its_pieces_stay_as_they_are),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
