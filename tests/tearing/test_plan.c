/* Tearing plans of drafted views, and what is offered for strips that are longer than needed. */
#include "pattern/read.h"
#include "support/room.h"
#include "tearing/tearing.h"

#include <math.h>

#define IN(n) ((n)*25.4)
#define MM 1e-4

/* So many panels of 34 in as cut, 5/8 in allowances, gathered to a band of 34 in; and a pocket that is no rectangle. */
static const char *skirt(struct room *room, int panels, const char *ratio)
{
    return base_arena_print(
        room->a,
        "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'in', 'sizes': "
        "['1'], 'pieces': [ { 'name': 'panel', 'rectangle': { 'width': 32.75, 'height': 20 }, 'allowance': '5/8 in' },"
        "    { 'name': 'band', 'rectangle': { 'width': 34, 'height': 2 } },"
        "    { 'name': 'pocket', 'points': { 'a': [0, 0], 'b': [5, 0], 'c': [0, 5] },"
        "      'outline': [ { 'name': 'edge', 'path': ['a', 'b', 'c', 'a'] } ] } ],"
        "  'seams': [ { 'name': 'waist', 'join': [ [%s], ['band.bottom'] ], 'ratio': '%s' } ],"
        "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'panel', 'count': %d }, { 'piece': 'pocket', 'count': 2 },"
        "    { 'piece': 'band', 'count': 1, 'cloth': 'lining' },"
        "    { 'piece': 'pocket', 'count': 2, 'cloth': 'interfacing' } ] } ] }",
        panels == 3 ? "'panel.top', 'panel.top', 'panel.top'" : "'panel.top', 'panel.top'", ratio, panels);
}

/* In cm, without allowances. */
struct sides {
    int width, height, count;
};

/* A view of rectangles. */
static const char *rectangles(struct room *room, const struct sides *sides, size_t count)
{
    const char *pieces = "", *cuts = "";
    for (size_t i = 0; i < count; i++) {
        const char *comma = i ? "," : "";
        pieces = base_arena_print(room->a, "%s%s{ 'name': 'r%zu', 'rectangle': { 'width': %d, 'height': %d } }", pieces,
                                  comma, i, sides[i].width, sides[i].height);
        cuts = base_arena_print(room->a, "%s%s{ 'piece': 'r%zu', 'count': %d }", cuts, comma, i, sides[i].count);
    }
    return base_arena_print(room->a,
                            "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', "
                            "'unit': 'cm', 'sizes': ['1'], 'pieces': [%s], 'views': [ { 'name': 'A', 'cut': [%s] } ] }",
                            pieces, cuts);
}

/* A task on a cloth that is ready to be torn, usable over its whole width. */
struct set {
    struct cloth cloth;
    struct draft draft;
    struct tearing_task task;
    struct tearing_plan plan;
};

static struct set *set_of(struct room *room, const char *text, double width_mm, const struct draft_alteration *altered)
{
    struct set *s = base_arena_alloc(room->a, 1, sizeof *s);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    struct draft_figure figure = { .cup_group = PATTERN_NONE,
                                   .alterations = altered,
                                   .alteration_count = altered ? 1 : 0 };
    room_nothing_told(room);
    assert_true(draft_make(room->a, p, &figure, 0, &s->draft, room->errs));
    s->cloth = (struct cloth){ .width_mm = width_mm };
    s->task = (struct tearing_task){
        .pattern = p, .draft = &s->draft, .cloth = &s->cloth, .unit = p->unit, .way = TEARING_ACROSS
    };
    return s;
}

static bool plan(struct room *room, struct set *s)
{
    return tearing_plan_make(room->a, &s->task, &s->plan, room->errs);
}

static double ratio_of(struct tearing_gathers g)
{
    return g.from_mm / g.to_mm;
}

static const struct tearing_choice *choice_of(struct room *room, const struct set *s, enum tearing_choice_kind kind)
{
    const struct tearing_choice *choices;
    size_t count = tearing_choices(room->a, &s->plan, &choices);
    for (size_t i = 0; i < count; i++)
        if (choices[i].kind == kind)
            return &choices[i];
    return NULL;
}

/* The trade's example, hand-worked: 56 in hold one panel of 34 in, so two strips of 21 1/4 in, 22 in left of each. Two
 * of 28 in come out of one strip. Sewn into a ring they lose 4 allowances: (2 x 34 - 2.5) / 34 = 1.926 (the example's
 * 1.93), (2 x 28 - 2.5) / 34 = 1.574 (1.57); the hem is as long as what is gathered: 65.5 and 53.5 in. */
static void two_panels_out_of_56_in_are_offered_as_28(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, skirt(room, 2, "65.5 / 34"), IN(56), NULL);
    assert_true(plan(room, s));
    room_nothing_told(room);
    assert_int_equal(s->plan.strip_count, 2);
    assert_near(s->plan.length_mm, IN(42.5), MM);
    assert_int_equal(s->plan.other_count, 1);
    const struct tearing_choice *trim = choice_of(room, s, TEARING_TRIM), *less = choice_of(room, s, TEARING_SPARER);
    assert_int_equal(trim->strips, 2);
    assert_near(trim->left_mm, IN(44), MM);
    assert_near(less->changes[0].width_mm, IN(28), MM);
    assert_near(ratio_of(less->changes[0].was), 65.5 / 34, 1e-9);
    assert_near(ratio_of(less->changes[0].is), 53.5 / 34, 1e-9);
    assert_near(less->changes[0].was.hem_mm, IN(65.5), MM);
    assert_near(less->changes[0].is.hem_mm, IN(53.5), MM);
    assert_int_equal(less->strips, 1);
    assert_near(less->left_mm, 0, MM);
    assert_near(less->length_mm, IN(21.25), MM);
    assert_null(choice_of(room, s, TEARING_PIECE)); /* two strips would still be torn */
}

/* The other way: the whole strip to each panel, (2 x 56 - 2.5) / 34 = 3.22, as many strips. */
static void the_whole_width_makes_more_gathers(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, skirt(room, 2, "65.5 / 34"), IN(56), NULL);
    assert_true(plan(room, s));
    const struct tearing_choice *more = choice_of(room, s, TEARING_FULLER);
    assert_near(more->changes[0].width_mm, IN(56), MM);
    assert_near(ratio_of(more->changes[0].is), 109.5 / 34, 1e-9);
    assert_near(more->length_mm, IN(42.5), MM);
}

/* Hand-worked: of three panels two come whole out of two strips, and of the two 22 in that are left, joined with 5/8 in
 * on either side, 42 3/4 in, the third: two strips in place of three, one more seam. */
static void a_third_panel_is_pieced_of_what_is_left(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, skirt(room, 3, "98.25 / 34"), IN(56), NULL);
    assert_true(plan(room, s));
    const struct tearing_choice *piece = choice_of(room, s, TEARING_PIECE);
    assert_int_equal(piece->strips, 2);
    assert_int_equal(piece->joins, 1);
    assert_near(piece->seam_mm, IN(0.625), MM);
    assert_near(piece->length_mm, IN(42.5), MM);
    assert_near(piece->left_mm, IN(112 - 3 * 34 - 1.25), MM);
}

/* Hand-worked: on cloth of 30 in each of two panels of 34 in is joined of the whole width and of 34 + 1 1/4 - 30 = 5
 * 1/4 in: three strips, two joins. Two of 30 in need none: (2 x 30 - 2.5) / 34 = 1.69. */
static void what_is_wider_may_be_cut_as_wide_as_the_cloth(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, skirt(room, 2, "65.5 / 34"), IN(30), NULL);
    assert_true(plan(room, s));
    room_only_told(room, "tearing.pieced");
    assert_near(s->plan.length_mm, IN(3 * 21.25), MM);
    const struct tearing_choice *whole = choice_of(room, s, TEARING_SPARER);
    assert_int_equal(choice_of(room, s, TEARING_TRIM)->joins, 2);
    assert_int_equal(choice_of(room, s, TEARING_TRIM)->strips, 3);
    assert_near(whole->changes[0].width_mm, IN(30), MM);
    assert_near(ratio_of(whole->changes[0].is), 57.5 / 34, 1e-9);
    assert_near(whole->length_mm, IN(2 * 21.25), MM);
}

/* What is offered is what comes of it: the same length and no strip left over, once it is taken. */
static void a_choice_that_is_taken_changes_the_plan(void **state)
{
    struct room *room = *state;
    struct draft_alteration taken = { DRAFT_WIDTH, "panel", PATTERN_NONE, 0 };
    struct set *s = set_of(room, skirt(room, 3, "98.25 / 34"), IN(60), NULL);
    assert_true(plan(room, s));
    const struct tearing_choice *less = choice_of(room, s, TEARING_SPARER);
    taken.amount_mm = less->changes[0].width_mm;
    struct set *now = set_of(room, skirt(room, 3, "98.25 / 34"), IN(60), &taken);
    assert_true(plan(room, now));
    assert_near(now->plan.length_mm, less->length_mm, MM);
    assert_near(ratio_of(choice_of(room, now, TEARING_TRIM)->changes[0].was), ratio_of(less->changes[0].is), 1e-9);
    assert_true(now->plan.length_mm < s->plan.length_mm);
}

/* Two tiers of two panels on the fold, drawn 40 and, half as much again, 60 cm wide. */
static const char tiers[] =
    "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'cm', 'sizes': ['1'],"
    "  'pieces': [ { 'name': 'upper', 'rectangle': { 'width': 40, 'height': 30 }, 'allowance': 1, 'fold': 'left' },"
    "    { 'name': 'lower', 'rectangle': { 'width': '1.5 * length(upper.bottom)', 'height': 20 }, 'allowance': 1,"
    "      'fold': 'left' }, { 'name': 'band', 'rectangle': { 'width': 80, 'height': 4 } } ],"
    "  'seams': [ { 'name': 'waist', 'join': [ ['upper.top', 'upper.top', 'upper.top', 'upper.top'],"
    "      ['band.bottom'] ], 'ratio': 2 },"
    "    { 'name': 'between', 'join': [ ['lower.top'], ['upper.bottom backwards'] ], 'ratio': 1.5 } ],"
    "  'views': [ { 'name': 'A', 'cut': [ { 'piece': 'upper', 'count': 2 }, { 'piece': 'lower', 'count': 2 },"
    "    { 'piece': 'band', 'count': 1, 'cloth': 'lining' } ] } ] }";

/* Hand-worked, out of cloth 130 cm wide: all the way round 4 x 40 cm are gathered to 80, and 4 x 60 to those, which is
 * the hem. Two upper panels of 65 cm in one strip are sewn 4 x 31.5 = 126 cm wide, and the lower ones 4 x 47.25 = 189.
 * Two as wide as the cloth, 4 x 64 cm as sewn, take lower ones of 2 x (96 + 1) = 194 cm, each joined of 130 and 66: two
 * strips of 32 and four of 22 cm. */
static void tiers_are_told_all_the_way_round(void **state)
{
    struct room *room = *state;
    const struct tearing_choice *all;
    struct set *s = set_of(room, tiers, 1300, NULL);
    assert_true(plan(room, s));
    const struct tearing_choice *less = choice_of(room, s, TEARING_SPARER), *more = choice_of(room, s, TEARING_FULLER);
    assert_near(less->changes[0].was.from_mm, 1600, MM);
    assert_near(less->changes[0].was.to_mm, 800, MM);
    assert_near(less->changes[0].is.from_mm, 1260, MM);
    assert_near(less->changes[0].was.hem_mm, 2400, MM);
    assert_near(less->changes[0].is.hem_mm, 1890, MM);
    assert_near(less->length_mm, 320 + 2 * 220, MM);
    assert_near(more->length_mm, 2 * 320 + 4 * 220, MM);
    size_t count = tearing_choices(room->a, &s->plan, &all);
    assert_string_equal(all[count - 1].changes[0].was.seam, "between");
    assert_near(all[count - 1].changes[0].was.from_mm, 2400, MM);
    assert_near(all[count - 1].changes[0].was.to_mm, 1600, MM);
    assert_near(all[count - 1].changes[0].was.hem_mm, 2400, MM);
}

/* The two panels of the trade's example in two lines of the list: what is offered is the same. */
static void a_rectangle_in_two_lines_is_one(void **state)
{
    struct room *room = *state;
    char *text = base_arena_copy_text(room->a, skirt(room, 1, "65.5 / 34"));
    const char *once = "{ 'piece': 'panel', 'count': 1 }", *rest = strstr(text, once) + strlen(once);
    const char *twice = base_arena_print(room->a, "%.*s, %s%s", (int)(rest - text), text, once, rest);
    struct set *s = set_of(room, twice, IN(56), NULL);
    assert_true(plan(room, s));
    const struct tearing_choice *less = choice_of(room, s, TEARING_SPARER);
    assert_int_equal(less->change_count, 1);
    assert_near(less->changes[0].width_mm, IN(28), MM);
    assert_near(less->length_mm, IN(21.25), MM);
    assert_int_equal(less->strips, 1);
    assert_near(less->changes[0].was.hem_mm, IN(65.5), MM);
}

/* Widths are offered on marks of the tape, never more than there is: half of 55 3/8 in is 27 11/16 in, so 27 5/8 in; of
 * 173 cm, which hold two panels of 86.36 cm, a third is 57.67 cm, so 57.6 cm (hand-worked). */
static void offered_widths_lie_on_the_tape(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, skirt(room, 2, "65.5 / 34"), IN(55.375), NULL);
    assert_true(plan(room, s));
    assert_near(choice_of(room, s, TEARING_SPARER)->changes[0].width_mm, IN(27.625), MM);
    s = set_of(room, skirt(room, 3, "98.25 / 34"), 1730, NULL);
    s->task.unit = UNITS_CM;
    assert_true(plan(room, s));
    assert_near(choice_of(room, s, TEARING_SPARER)->changes[0].width_mm, 576, MM);
}

/* Hand-worked: 2 strips of 30 cm with 1 cm left at each of their torn edges, 3 cm to square the end: 3 + 2 x 32 = 67 cm
 * of washed cloth. At 5 % shrinkage 67 / 0.95 = 70.53, sold as 80 cm. Of 1 m at hand 95 cm are washed: 28 are left. */
static void margins_squaring_and_shrinkage_are_counted(void **state)
{
    struct room *room = *state;
    static const struct sides sides[] = { { 60, 30, 2 } };
    struct set *s = set_of(room, rectangles(room, sides, 1), 1000, NULL);
    s->cloth.shrink_warp = 0.05;
    s->cloth.length_mm = 1000;
    s->task.margin_mm = 10;
    s->task.off_square_mm = 30;
    assert_true(plan(room, s));
    room_nothing_told(room);
    assert_near(s->plan.length_mm, 670, MM);
    assert_near(s->plan.to_buy_mm, 800, MM);
    assert_near(s->plan.spare_mm, 280, MM);
    assert_near(s->plan.strips[1].from_mm, 320, MM); /* from the squared end */
    assert_near(s->plan.strips[1].to_mm, 640, MM);
    assert_near(s->plan.used, 2 * 600 * 300 / (1000 * 670.0), 1e-9);
    s->cloth.length_mm = 700; /* 66.5 washed */
    assert_true(plan(room, s));
    assert_near(room_only_told(room, "tearing.short")->args[2].number, 5, MM);
}

/* A university extension's leaflet: cords, easy-care and some other weaves do not tear true, knits and bonded cloth
 * cannot be torn; lace and hides have no threads that run across (common knowledge). */
static void what_does_not_tear_is_refused(void **state)
{
    struct room *room = *state;
    static const enum cloth_kind kinds[] = { CLOTH_EASY_CARE, CLOTH_CORD, CLOTH_KNIT,
                                             CLOTH_BONDED,    CLOTH_LACE, CLOTH_HIDE };
    static const struct sides sides[] = { { 60, 30, 2 } };
    struct set *s = set_of(room, rectangles(room, sides, 1), 1000, NULL);
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        s->cloth.kind = kinds[i];
        assert_false(plan(room, s));
        assert_non_null(strstr(room_only_told(room, "tearing.no_tear")->args[0].text, "instead"));
        room_forget(room);
    }
    s->cloth.kind = CLOTH_WOVEN;
    assert_true(plan(room, s));
}

static void what_cannot_be_planned_is_told(void **state)
{
    struct room *room = *state;
    static const struct sides sides[] = { { 60, 30, 2 } }, many[] = { { 5, 5, 999 }, { 6, 5, 999 }, { 7, 5, 999 } };
    vec2 corners[] = { { 0, 0 }, { 900, 0 }, { 900, 900 } };
    struct set *s = set_of(room, skirt(room, 2, "65.5 / 34"), IN(56), NULL);
    s->task.material = PATTERN_INTERFACING;
    assert_false(plan(room, s));
    room_only_told(room, "tearing.no_rectangle");
    room_forget(room);
    s = set_of(room, rectangles(room, many, 3), 1000, NULL);
    assert_false(plan(room, s));
    room_only_told(room, "tearing.too_many");
    room_forget(room);
    s = set_of(room, rectangles(room, sides, 1), 1000, NULL);
    s->cloth.selvedge_mm = 500;
    assert_false(plan(room, s));
    room_only_told(room, "tearing.no_width");
    room_forget(room);
    s->cloth.outline.path = (struct geometry_path){ corners, 3, true };
    assert_false(plan(room, s));
    room_only_told(room, "tearing.scrap");
    room_forget(room);
    s = set_of(room, rectangles(room, sides, 1), 1000, NULL);
    s->cloth.repeat.along_mm = 50;
    assert_true(plan(room, s));
    room_only_told(room, "tearing.repeat");
}

/* Hand-worked: 100 cm out of cloth of 60 are the whole of it and 100 + 3 - 60 = 43 cm, with 1.5 cm on either side of
 * the join: two strips. Of 61 cm the second part would be 4 cm, hardly more than its join, so both are alike: (61 + 3)
 * / 2 = 32 cm. Of cloth of 2 cm no part could be joined. */
static void what_is_wider_than_the_cloth_is_pieced(void **state)
{
    struct room *room = *state;
    static const struct sides sides[] = { { 100, 30, 1 } }, hardly[] = { { 61, 30, 1 } };
    struct set *s = set_of(room, rectangles(room, sides, 1), 600, NULL);
    assert_true(plan(room, s));
    room_only_told(room, "tearing.pieced");
    assert_int_equal(s->plan.need_count, 2);
    assert_near(s->plan.needs[0].width_mm, 600, MM);
    assert_near(s->plan.needs[1].width_mm, 430, MM);
    assert_near(s->plan.length_mm, 600, MM);
    room_forget(room);
    s = set_of(room, rectangles(room, hardly, 1), 600, NULL);
    assert_true(plan(room, s));
    assert_int_equal(s->plan.needs[0].count, 2);
    assert_near(s->plan.needs[0].width_mm, 320, MM);
    room_forget(room);
    s->cloth.width_mm = 20;
    assert_false(plan(room, s));
    room_only_told(room, "tearing.too_narrow");
}

/* Two ties of 10 x 80 cm and one of 20 x 60, 1 cm at each torn edge (hand-worked): along the cloth three strips of 12,
 * 12 and 22 cm lie beside each other within 50 cm, 80 + 2 long; across it one strip does as well, and 40 cm are used.
 */
static void strips_may_run_along_the_cloth(void **state)
{
    struct room *room = *state;
    static const struct sides sides[] = { { 10, 80, 2 }, { 20, 60, 1 } };
    struct set *s = set_of(room, rectangles(room, sides, 2), 500, NULL);
    s->task.margin_mm = 10;
    s->task.way = TEARING_ALONG;
    assert_true(plan(room, s));
    assert_int_equal(s->plan.strip_count, 3);
    assert_near(s->plan.length_mm, 820, 0.02);
    assert_near(s->plan.other_mm, 820, MM);
    assert_near(s->plan.strips[0].to_mm, 220, MM);
    s->cloth.width_mm = 210; /* the wide tie and its torn edges need 22 */
    assert_false(plan(room, s));
    room_only_told(room, "tearing.no_room_along");
}

/* Hand-worked: the two panels with half an inch at each torn edge and 1 in off square take 1 + 2 x 22 1/4 = 45 1/2 in
 * across, 11 times 1/8 yd (4 1/2 in), and along, one behind the other, 1 + 2 x 21 1/4 + 1 = 44 1/2 in, 10 times. With a
 * square end both take 10 times, and strips run across. Two of 28 in out of one strip take less than either. */
static void strips_run_the_way_that_wastes_least(void **state)
{
    struct room *room = *state;
    struct set *s = set_of(room, skirt(room, 2, "65.5 / 34"), IN(56), NULL);
    s->task.way = TEARING_LEAST;
    s->task.margin_mm = IN(0.5);
    s->task.off_square_mm = IN(1);
    assert_true(plan(room, s));
    assert_true(s->plan.along);
    assert_near(s->plan.length_mm, IN(44.5), 0.02);
    assert_near(s->plan.other_mm, IN(45.5), MM);
    assert_near(choice_of(room, s, TEARING_SPARER)->length_mm, IN(23.25), MM);
    const struct tearing_choice *trim = choice_of(room, s, TEARING_TRIM), *more = choice_of(room, s, TEARING_FULLER);
    assert_near(trim->length_mm, s->plan.length_mm, MM); /* as it is: the plan that is shown */
    assert_true(trim->along);
    assert_int_equal(trim->strips, 1);
    assert_false(choice_of(room, s, TEARING_SPARER)->along);
    assert_near(more->changes[0].width_mm, IN(56), MM); /* so wide there is no room for torn edges along the cloth */
    assert_near(more->length_mm, IN(45.5), MM);
    assert_false(more->along);
    s->task.way = TEARING_ALONG; /* two beside each other with their torn edges: 28 - 1 in */
    assert_true(plan(room, s));
    assert_near(choice_of(room, s, TEARING_SPARER)->changes[0].width_mm, IN(27), MM);
    assert_near(choice_of(room, s, TEARING_SPARER)->length_mm, IN(23.25), 0.02);
    assert_true(choice_of(room, s, TEARING_SPARER)->along);
    s->task.way = TEARING_LEAST;
    s->task.off_square_mm = 0;
    assert_true(plan(room, s));
    assert_false(s->plan.along);
    assert_near(s->plan.length_mm, IN(44.5), MM);
    assert_non_null(choice_of(room, s, TEARING_FULLER));
}

/* A hole from 35 to 40 cm: the strip of 40 cm comes after it, that of 30 before (hand-worked: 30, then 40 to 80). */
static void strips_lie_round_faults(void **state)
{
    struct room *room = *state;
    static const struct sides sides[] = { { 60, 40, 1 }, { 60, 30, 1 } };
    vec2 hole[] = { { 350, 100 }, { 400, 100 }, { 400, 200 } };
    struct cloth_path fault = { { hole, 3, true } };
    struct set *s = set_of(room, rectangles(room, sides, 2), 1000, NULL);
    s->cloth.faults = &fault;
    s->cloth.fault_count = 1;
    assert_true(plan(room, s));
    assert_near(s->plan.strips[0].size_mm, 300, MM);
    assert_near(s->plan.strips[1].from_mm, 400, MM);
    assert_near(s->plan.length_mm, 800, MM);
    s->task.way = TEARING_ALONG; /* 40 cm in one go only past the hole */
    s->cloth.width_mm = 1400;
    assert_true(plan(room, s));
    assert_near(s->plan.start_mm, 400, MM);
    assert_near(s->plan.length_mm, 800, 0.02);
}

int main(void)
{
    static const struct CMUnitTest tests[] = {
        room_test(two_panels_out_of_56_in_are_offered_as_28),
        room_test(the_whole_width_makes_more_gathers),
        room_test(a_third_panel_is_pieced_of_what_is_left),
        room_test(what_is_wider_may_be_cut_as_wide_as_the_cloth),
        room_test(a_choice_that_is_taken_changes_the_plan),
        room_test(tiers_are_told_all_the_way_round),
        room_test(a_rectangle_in_two_lines_is_one),
        room_test(offered_widths_lie_on_the_tape),
        room_test(margins_squaring_and_shrinkage_are_counted),
        room_test(what_does_not_tear_is_refused),
        room_test(what_cannot_be_planned_is_told),
        room_test(what_is_wider_than_the_cloth_is_pieced),
        room_test(strips_may_run_along_the_cloth),
        room_test(strips_run_the_way_that_wastes_least),
        room_test(strips_lie_round_faults),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
