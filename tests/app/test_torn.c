/* A layout behind a tearing plan. All figures are worked out by hand beside them, on one small view: two rectangles 30
 * cm wide and 20 cm high, and two triangles. The first argument is the demo's pattern. */
#include "app/lacks.h"
#include "app/lay_report.h"
#include "app/torn.h"
#include "job/cloth.h"
#include "pattern/read.h"
#include "support/at_size.h"
#include "support/room.h"
#include "json/tree.h"

static const struct lay_effort few = { 2, NULL, NULL };

#define MM 1e-6

enum { DEMO_VIEW_D = 3, DEMO_SIZE = 5 };

static const char *demo;

static const char *const view =
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'cm', 'sizes': ['1'],"
    "  'pieces': [ { 'name': 'panel', 'rectangle': { 'width': 30, 'height': 20 } },"
    "    { 'name': 'corner', 'points': { 'a': [0, 0], 'b': [20, 0], 'c': [0, 20] },"
    "      'outline': [ { 'name': 'edge', 'path': ['a', 'b', 'c', 'a'] } ] } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'panel', 'count': 2 }, { 'piece': 'corner', 'count': 2 },"
    "    { 'piece': 'panel', 'count': 1, 'cloth': 'lining' } ] } ] }";

/* On cloth 1 m wide all over, 3 cm off square, 1 cm to be trimmed off each torn edge. */
struct set {
    struct cloth cloth;
    struct draft draft;
    struct job job;
    struct app_material m;
    struct lay_task task;
    const struct tearing_plan *plan;
};

static struct set *set_of_view(struct room *room, const char *text, bool along)
{
    struct set *s = base_arena_alloc(room->a, 1, sizeof *s);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    assert_true(p && make_at_size(room->a, p, 0, PATTERN_NONE, 0, &s->draft, room->errs));
    s->cloth = (struct cloth){ .width_mm = 1000 };
    struct job_cloth kept = { .material = PATTERN_FABRIC, .cloth = s->cloth, .torn = { true, along, 30, 10, false } };
    job_put_cloth(room->a, &s->job, &kept);
    kept.material = PATTERN_LINING;
    job_put_cloth(room->a, &s->job, &kept);
    s->m = (struct app_material){ &s->job, &s->draft, &s->cloth, PATTERN_FABRIC, UNITS_CM, NULL };
    return s;
}

static struct set *set_of(struct room *room, bool along)
{
    return set_of_view(room, view, along);
}

static bool task(struct room *room, struct set *s)
{
    return app_torn_task(room->a, &s->m, &s->task, &s->plan, room->errs);
}

/* Both panels in one strip across, 20 + 2 x 1 cm: with what squaring takes 25 cm. */
static void the_rest_is_laid_behind_strips_across(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    s->cloth.length_mm = 1000;
    assert_true(task(room, s));
    room_nothing_told(room);
    assert_near(s->plan->length_mm, 250, MM);
    assert_int_equal(s->task.item_count, 2);
    for (size_t i = 0; i < 2; i++)
        assert_string_equal(s->task.items[i].piece->name, "corner");
    assert_near(s->task.spread.most_length_mm, 750, MM);
    assert_near(s->task.spread.usable_mm, 1000, MM);
}

/* Strips along are shortest with the panels in two, side by side: one length of 20 + 2 x 1 cm is torn off. */
static void the_rest_is_laid_behind_strips_along(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, true);
    s->cloth.length_mm = 1000;
    assert_true(task(room, s));
    room_nothing_told(room);
    assert_true(s->plan->along);
    assert_int_equal(s->task.item_count, 2);
    assert_near(s->plan->length_mm, 250, 0.02); /* halved down to 0.01 mm */
    assert_near(s->task.spread.most_length_mm, 750, 0.02);
    assert_near(s->task.spread.usable_mm, 1000, MM);
}

/* 1 m that shrinks by 5 % is 95 cm, and 4 % of weft leave 96 cm, washed. Measured after washing it stays 1 m. */
static void washed_cloth_is_lessened_as_it_was_washed(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    s->cloth.length_mm = 1000;
    s->cloth.shrink_warp = 0.05;
    s->cloth.shrink_weft = 0.04;
    assert_true(task(room, s));
    assert_near(s->task.spread.most_length_mm, 950 - 250, MM);
    assert_near(s->task.spread.usable_mm, 960, MM);
    s->cloth.is_washed = true;
    assert_true(task(room, s));
    assert_near(s->task.spread.most_length_mm, 1000 - 250, MM);
    room_nothing_told(room);
}

/* A fault 30 to 32 cm from the end lies 5 to 7 cm behind the last tear at 25 cm; stripes every 7 cm from 2 cm on: at 23
 * and 30 cm, the first 5 cm behind it. */
static void faults_and_stripes_lie_behind_the_last_tear(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    vec2 corners[] = { { 300, 100 }, { 320, 100 }, { 320, 150 }, { 300, 150 } };
    struct cloth_path fault = { { corners, 4, true } };
    s->cloth.faults = &fault;
    s->cloth.fault_count = 1;
    s->cloth.repeat = (struct cloth_repeat){ .along_mm = 70, .line_along_mm = 20 };
    assert_true(task(room, s));
    room_nothing_told(room);
    assert_int_equal(s->task.spread.blocked_count, 1);
    struct geometry_box box = geometry_path_box(s->task.spread.blocked[0].path);
    assert_near(box.min.x, 50, MM);
    assert_near(box.max.x, 70, MM);
    assert_near(box.min.y, 100, MM);
    assert_near(s->task.cloth->repeat.line_along_mm, 50, MM);
    assert_near(corners[0].x, 300, 0);
}

/* Seen before 10 % are lost, that fault comes to lie at 27 to 28.8 cm and the stripes at 1.8 + 6.3 k, so at 27: both 2
 * cm behind the last tear. A fault in what squaring takes is torn off with that. */
static void what_was_seen_before_washing_shrinks_first(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    vec2 corners[] = { { 300, 100 }, { 320, 100 }, { 320, 150 }, { 300, 150 } };
    vec2 early[] = { { 0, 100 }, { 20, 100 }, { 20, 150 }, { 0, 150 } };
    const struct cloth_path faults[] = { { { early, 4, true } }, { { corners, 4, true } } };
    s->cloth.faults = faults;
    s->cloth.fault_count = 2;
    s->cloth.shrink_warp = 0.1;
    s->cloth.repeat = (struct cloth_repeat){ .along_mm = 70, .line_along_mm = 20 };
    assert_true(task(room, s));
    room_nothing_told(room);
    assert_int_equal(s->task.spread.blocked_count, 1);
    struct geometry_box box = geometry_path_box(s->task.spread.blocked[0].path);
    assert_near(box.min.x, 20, MM);
    assert_near(box.max.x, 38, MM);
    assert_near(s->task.spread.repeat.line_along_mm, 20, MM);
}

/* A layout by hand, 20 cm long: across they need 25 + 20 = 45 cm, bought 50; panels 2 x 600, triangles 2 x 200 cm2 out
 * of 100 x 45: 35.6 %. */
static void lengths_and_shares_are_of_both_together(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    s->cloth.length_mm = 600;
    assert_true(task(room, s));
    struct lay_figures laid = { .length_mm = 200, .used = 400.0 / 2000, .to_buy_mm = 200, .spare_mm = 150 };
    struct lay_figures both = app_torn_both(s->plan, &laid, UNITS_CM);
    assert_near(both.length_mm, 450, MM);
    assert_near(both.to_buy_mm, 500, MM);
    assert_near(both.spare_mm, 150, MM);
    assert_near(both.used, 1600.0 / 4500, 1e-9);
    laid.length_mm = 20;
    assert_near(app_torn_both(NULL, &laid, UNITS_CM).length_mm, 20, 0);
}

/* As above, 90 cm wide: the strip across stays 22 cm, and two triangles fit into 20 cm of length. */
static void other_widths_hold_both(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    struct lay_figures f;
    assert_true(task(room, s));
    assert_true(app_torn_on_width(room->a, s->plan, &s->task, 900, &few, &f));
    assert_near(f.length_mm, 450, 0.5);
    assert_near(f.used, 1600.0 / (90 * 45), 1e-3);
    assert_false(app_torn_on_width(room->a, s->plan, &s->task, 150, &few, &f)); /* no triangle of 20 cm */
    room_nothing_told(room);
}

/* What strips leave is used as well. */
static struct set *set_with_rests(struct room *room, bool along)
{
    struct set *s = set_of(room, along);
    struct job_cloth kept = *job_find_cloth(&s->job, PATTERN_FABRIC);
    kept.torn.rests = true;
    job_put_cloth(room->a, &s->job, &kept);
    return s;
}

/* 1 m holds both panels, 60 cm, and leaves 40 by 20 cm, in which the two triangles of 20 cm lie beside each other: all
 * is cut of those 25 cm, and what the layout needed, 20 cm, is spared. */
static void what_strips_leave_is_used(void **state)
{
    struct room *room = *state;
    struct set *s = set_with_rests(room, false);
    struct tearing_rests rests;
    assert_false(task(room, s));
    assert_true(app_torn_is_all(s->plan));
    assert_int_equal(room_only_told(room, "app.all_torn")->kind->severity, ERR_WARNING);
    assert_int_equal(s->plan->rests->count, 1);
    assert_string_equal(app_torn_rest_name(room->a, s->plan->rests->rests), "the rest of strip 1");
    assert_string_equal(app_torn_rest_pieces(room->a, s->plan->rests->rests), "2 × corner");
    tearing_rests_find(room->a, s->plan, &rests);
    assert_near(app_torn_worth_of(room->a, s->plan, &rests).spared_mm, 200, 1);
    assert_false(app_torn_worth_of(room->a, s->plan, &rests).is_short);
    room_forget(room);
}

/* So nothing is to be laid out; were they not cut of the rest, both had to be. */
static void what_is_cut_of_rests_needs_no_place(void **state)
{
    struct room *room = *state;
    struct set *s = set_with_rests(room, false);
    const struct job_lacking *lacks;
    struct job_cloth kept = *job_find_cloth(&s->job, PATTERN_FABRIC);
    s->job.pattern = s->draft.sized->pattern;
    s->job.cup_group = PATTERN_NONE;
    for (int rests = 0; rests < 2; rests++) {
        size_t to_lay_out = 0;
        kept.torn.rests = rests;
        job_put_cloth(room->a, &s->job, &kept);
        for (size_t i = 0, count = app_lacks(room->a, &s->job, &lacks); i < count; i++)
            to_lay_out += lacks[i].stage == JOB_STAGE_LAYOUT && lacks[i].material == PATTERN_FABRIC;
        assert_int_equal(to_lay_out, 1 - rests);
    }
    room_nothing_told(room);
}

/* Its pieces could not be told from what is laid behind it: stopped, there is neither. */
static void stopped_there_is_no_plan(void **state)
{
    struct room *room = *state;
    static const atomic_bool stop = true;
    struct set *s = set_with_rests(room, false);
    s->m.stop = &stop;
    assert_false(task(room, s));
    assert_null(s->plan);
    room_nothing_told(room);
}

/* Behind the 25 cm a wing 75 cm wide takes 30 cm, and both triangles have room beside it: cut of the rest they spare
 * nothing. Of 60 cm at hand they stay there; of 45 cm the rest is used, as not all can be laid. */
static void where_the_length_is_short_rests_are_used(void **state)
{
    struct room *room = *state;
    const char *with_wing =
        "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'cm', 'sizes': "
        "['1'],"
        "  'pieces': [ { 'name': 'panel', 'rectangle': { 'width': 30, 'height': 20 } },"
        "    { 'name': 'corner', 'points': { 'a': [0, 0], 'b': [20, 0], 'c': [0, 20] },"
        "      'outline': [ { 'name': 'edge', 'path': ['a', 'b', 'c', 'a'] } ] },"
        "    { 'name': 'wing', 'points': { 'a': [0, 0], 'b': [75, 0], 'c': [75, 29], 'd': [0, 30] },"
        "      'outline': [ { 'name': 'edge', 'path': ['a', 'b', 'c', 'd', 'a'] } ] } ],"
        "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'panel', 'count': 2 }, { 'piece': 'corner', 'count': 2 },"
        "    { 'piece': 'wing', 'count': 1 } ] } ] }";
    struct set *s = set_of_view(room, with_wing, false);
    const double lengths[] = { 600, 450 };
    for (int i = 0; i < 2; i++) {
        struct tearing_rests rests;
        s->cloth.length_mm = lengths[i];
        assert_true(task(room, s));
        tearing_rests_find(room->a, s->plan, &rests);
        assert_int_equal(rests.pieces[1].right, 2);
        struct app_torn_worth worth = app_torn_worth_of(room->a, s->plan, &rests);
        assert_true(worth.spared_mm < APP_TORN_WORTH_MM);
        assert_int_equal(worth.is_short, i == 1);
        assert_int_equal(worth.is_worth_it, i == 1);
    }
    room_nothing_told(room);
}

/* With a nap no triangle is turned round to lie on the other's long side. 70 cm leave 10 by 20 cm, where none lies; 85
 * cm leave 25 by 20 cm, for one. 50 cm hold one panel, so that 20 by 20 cm are left of either strip: one of each. */
static void on_other_widths_other_rests_are_used(void **state)
{
    struct room *room = *state;
    struct set *s = set_with_rests(room, false);
    struct lay_figures f;
    s->cloth.one_way = true;
    s->cloth.width_mm = 700;
    assert_true(task(room, s));
    assert_null(s->plan->rests);
    assert_true(app_torn_on_width(room->a, s->plan, &s->task, 1000, &few, &f));
    assert_near(f.length_mm, 450, 0.5); /* a plan without rests stays one */
    s->cloth.width_mm = 850;
    assert_true(task(room, s));
    assert_int_equal(s->plan->rests->pieces[1].right, 1);
    assert_int_equal(s->task.item_count, 1);
    assert_true(app_torn_on_width(room->a, s->plan, &s->task, 500, &few, &f));
    assert_near(f.length_mm, 30 + 2 * 220, 0.1);
    assert_near(f.used, 1600.0 / (50 * 47), 1e-4);
    room_nothing_told(room);
}

/* The demo's view D on 140 cm: what is laid, what is torn and what is cut of rests is the list, and it needs less. */
static void rests_of_the_demo_lose_no_piece(void **state)
{
    struct room *room = *state;
    struct set *s = set_with_rests(room, false);
    const struct pattern *p = pattern_read(room->a, demo, room->errs);
    assert_true(p && make_at_size(room->a, p, DEMO_SIZE, 0, DEMO_VIEW_D, &s->draft, room->errs));
    s->cloth = cloth_plain(1400);
    s->cloth.spread = CLOTH_FOLDED;
    assert_true(task(room, s));
    assert_non_null(s->plan->rests);
    int listed = 0, found = 0;
    for (size_t i = 0; i < s->draft.cut_count; i++)
        listed += s->draft.cuts[i].cloth == PATTERN_FABRIC ? s->draft.cuts[i].count : 0;
    for (size_t i = 0; i < s->plan->need_count; i++)
        found += s->plan->needs[i].is_rest ? 0 : s->plan->needs[i].pieces;
    for (size_t i = 0; i < s->task.item_count; i++)
        found += s->task.items[i].copies;
    for (size_t i = 0; i < s->plan->rests->count; i++)
        found += (int)s->plan->rests->rests[i].lay->task->item_count;
    assert_int_equal(found, listed);
    assert_true(app_torn_worth_of(room->a, s->plan, s->plan->rests).spared_mm > APP_TORN_WORTH_MM);
    room_forget(room);
}

static void the_report_tells_of_both(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    struct lay lay;
    s->cloth.length_mm = 1000;
    assert_true(task(room, s));
    struct lay_place places[] = { { true, false, { false, -90, { 0, 200 } } },
                                  { true, false, { false, -90, { 0, 400 } } } };
    lay = lay_of(room->a, &s->task, places);
    struct app_layout layout = { .lay = &lay, .figures = lay_figures_of(&lay, UNITS_CM), .torn = s->plan };
    const char *text = app_lay_report(room->a, &layout, UNITS_CM);
    assert_non_null(strstr(text, "First the rectangles are torn (`chalklight tear`), which takes 0.25 m."));
    assert_non_null(strstr(text, "its cut end where they were torn off, and needs 0.20 m."));
    assert_non_null(
        strstr(text, "Both together need 0.45 m of washed cloth; of the 1.00 m at hand 0.55 m are left over"));
    assert_non_null(strstr(text, "Cloth used: 36 % of both, 20 % of the layout"));
    assert_non_null(
        strstr(app_lay_title(room->a, &layout, UNITS_CM), "needs 0.45 m with its torn strips, cloth used 36 %"));
}

static void what_does_not_go_is_told(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    s->cloth.kind = CLOTH_KNIT;
    assert_false(task(room, s));
    assert_non_null(strstr(room_only_told(room, "app.not_torn")->args[1].text, "knit"));
    room_forget(room);
    s->cloth.kind = CLOTH_WOVEN;
    s->cloth.length_mm = 250; /* all of which is torn */
    assert_false(task(room, s));
    room_only_told(room, "app.torn_no_length");
    room_forget(room);
    assert_false(app_torn_is_all(s->plan));
    s->m.material = PATTERN_LINING;
    assert_false(task(room, s));
    assert_true(app_torn_is_all(s->plan));
    assert_int_equal(room_only_told(room, "app.all_torn")->kind->severity, ERR_WARNING);
}

/* The demo's view D: of ten lines of fabric six are rectangles, all of which are torn; the others are all laid. */
static void no_rectangle_of_the_demo_is_laid(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, false);
    const struct pattern *p = pattern_read(room->a, demo, room->errs);
    assert_non_null(p);
    assert_string_equal(p->views[DEMO_VIEW_D].name, "D");
    assert_true(make_at_size(room->a, p, DEMO_SIZE, 0, DEMO_VIEW_D, &s->draft, room->errs));
    s->cloth = cloth_plain(1400);
    assert_true(task(room, s));
    assert_int_equal(s->plan->need_count, 6);
    assert_int_equal(s->plan->other_count, 4);
    int copies = 0;
    for (size_t i = 0; i < s->task.item_count; i++) {
        assert_false(p->pieces[s->task.items[i].piece->index].is_rectangle);
        copies += s->task.items[i].copies;
    }
    assert_int_equal(copies, 1 + 2 + 1 + 2); /* bib front, bib backs, front facing, back facings */
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        room_test(the_rest_is_laid_behind_strips_across),
        room_test(the_rest_is_laid_behind_strips_along),
        room_test(washed_cloth_is_lessened_as_it_was_washed),
        room_test(faults_and_stripes_lie_behind_the_last_tear),
        room_test(what_was_seen_before_washing_shrinks_first),
        room_test(lengths_and_shares_are_of_both_together),
        room_test(other_widths_hold_both),
        room_test(what_strips_leave_is_used),
        room_test(what_is_cut_of_rests_needs_no_place),
        room_test(stopped_there_is_no_plan),
        room_test(where_the_length_is_short_rests_are_used),
        room_test(on_other_widths_other_rests_are_used),
        room_test(rests_of_the_demo_lose_no_piece),
        room_test(the_report_tells_of_both),
        room_test(what_does_not_go_is_told),
        room_test(no_rectangle_of_the_demo_is_laid),
    };
    if (argc < 2)
        return 1;
    demo = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
