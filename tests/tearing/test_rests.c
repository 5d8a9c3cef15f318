/* What is cut of the rests of torn strips. Places and sizes are worked out by hand beside each; that pieces lie within
 * their rest and not over each other is asked of GEOS. */
#include "geometry/region.h"
#include "pattern/read.h"
#include "support/room.h"
#include "tearing/rests.h"

#include <math.h>

#define IN(n) ((n)*25.4)
#define MM 1e-4

/* In inches, as cut: panels of 34 by 21 1/4, others of 10 by 40, gussets that fill a square of so much but for one
 * corner, and such cuts.
 */
static const char *view_of(struct room *room, int gusset, const char *cuts)
{
    return base_arena_print(
        room->a,
        "{ 'chalklight': 'pattern', 'version': 2, 'outline': 'stitching line', 'name': 'P', 'unit': 'in', 'sizes': "
        "['1'], 'pieces': [ { 'name': 'panel', 'rectangle': { 'width': 34, 'height': 21.25 } },"
        "    { 'name': 'tall', 'rectangle': { 'width': 10, 'height': 40 } },"
        "    { 'name': 'gusset', 'points': { 'a': [0, 0], 'b': [%d, 0], 'c': [%d, %d], 'd': [2, %d], 'e': [0, 1] },"
        "      'outline': [ { 'name': 'edge', 'path': ['a', 'b', 'c', 'd', 'e', 'a'] } ] } ],"
        "  'views': [ { 'name': 'A', 'cut': [ %s ] } ] }",
        gusset, gusset, gusset, gusset, cuts);
}

struct set {
    struct cloth cloth;
    struct draft draft;
    struct tearing_task task;
    struct tearing_plan plan;
    struct tearing_rests rests;
};

/* On cloth usable over its whole width, nothing trimmed. */
static struct set *set_of(struct room *room, const char *text, double width_mm)
{
    struct set *s = base_arena_alloc(room->a, 1, sizeof *s);
    const char *json = room_json(room, text);
    const struct pattern *p = pattern_parse(room->a, "p.json", json, strlen(json), room->errs);
    struct draft_figure figure = { .cup_group = PATTERN_NONE };
    room_nothing_told(room);
    assert_true(draft_make(room->a, p, &figure, 0, &s->draft, room->errs));
    s->cloth = (struct cloth){ .width_mm = width_mm };
    s->task = (struct tearing_task){
        .pattern = p, .draft = &s->draft, .cloth = &s->cloth, .unit = p->unit, .way = TEARING_ACROSS
    };
    return s;
}

/* Nothing lies past its rest or over another piece, and no piece is cut twice. */
static void holds_together(struct room *room, const struct set *s)
{
    size_t items = 0, listed = 0;
    for (size_t r = 0; r < s->rests.count; r++) {
        const struct tearing_rest *rest = &s->rests.rests[r];
        const struct lay_task *task = rest->lay->task;
        items += task->item_count;
        assert_int_equal(rest->lay->left_out, 0);
        for (size_t i = 0; i < task->item_count; i++) {
            struct geometry_path one = lay_outline(room->a, task, i, &rest->lay->places[i]).path;
            struct geometry_box box = geometry_path_box(one);
            assert_int_equal(task->items[i].layers, 1);
            assert_true(box.min.x > -MM && box.max.x < rest->at.max.x - rest->at.min.x + MM);
            assert_true(box.min.y > -MM && box.max.y < rest->at.max.y - rest->at.min.y + MM);
            for (size_t k = 0; k < i; k++)
                assert_true(geometry_common_area(one, lay_outline(room->a, task, k, &rest->lay->places[k]).path) <
                            1e-6 * geometry_path_area(one));
        }
    }
    for (size_t c = 0; c < s->draft.cut_count && s->rests.count; c++) {
        struct lay_hands all = lay_hands_of(&s->draft.cuts[c]), used = s->rests.pieces[c];
        assert_true(used.right <= all.right && used.left <= all.left);
        listed += (size_t)(used.right + used.left);
    }
    assert_int_equal(items, listed);
}

static void use(struct room *room, struct set *s)
{
    assert_true(tearing_plan_make(room->a, &s->task, &s->plan, room->errs));
    assert_true(tearing_rests_find(room->a, &s->plan, &s->rests));
    holds_together(room, s);
}

/* 56 in hold one panel of 34 in, so that 22 by 21 1/4 in are left of either strip. Four gussets of 10 in go into the
 * first, two beside each other (20 of 22 in) and two above those (20 of 21 1/4 in); with a fifth the second is used. */
static void what_is_left_of_strips_takes_small_pieces(void **state)
{
    struct room *room = *state;
    struct set *s =
        set_of(room, view_of(room, 10, "{ 'piece': 'panel', 'count': 2 }, { 'piece': 'gusset', 'count': 5 }"), IN(56));
    s->cloth.spread = CLOTH_SINGLE;
    use(room, s);
    assert_int_equal(s->rests.count, 2);
    const struct tearing_rest *first = &s->rests.rests[0], *second = &s->rests.rests[1];
    assert_int_equal(first->strip, 0);
    assert_int_equal(first->lay->task->item_count, 4);
    assert_near(first->at.min.x, 0, MM);
    assert_near(first->at.max.x, IN(21.25), MM);
    assert_near(first->at.min.y, IN(34), MM);
    assert_near(first->at.max.y, IN(56), MM);
    assert_int_equal(second->strip, 1);
    assert_int_equal(second->lay->task->item_count, 1);
    assert_near(second->at.min.x, IN(21.25), MM);
    assert_int_equal(s->rests.pieces[1].right, 5);
    assert_near(s->rests.area_mm2, IN(IN(5 * (100 - 9.0))), 1); /* 10 x 10 less (1 x 9 + ... ) */
}

/* The same, were it stopped. */
static void what_is_stopped_uses_no_rest(void **state)
{
    struct room *room = *state;
    static const atomic_bool stop = true;
    struct set *s =
        set_of(room, view_of(room, 10, "{ 'piece': 'panel', 'count': 2 }, { 'piece': 'gusset', 'count': 5 }"), IN(56));
    s->task.stop = &stop;
    assert_true(tearing_plan_make(room->a, &s->task, &s->plan, room->errs));
    assert_false(tearing_rests_find(room->a, &s->plan, &s->rests));
    assert_int_equal(s->rests.count, 0);
}

/* Of 1 in left on at each torn edge the rest loses what the strip loses, and begins that far from the tear. */
static void a_rest_is_trimmed_as_its_strip_is(void **state)
{
    struct room *room = *state;
    struct set *s =
        set_of(room, view_of(room, 10, "{ 'piece': 'panel', 'count': 2 }, { 'piece': 'gusset', 'count': 1 }"), IN(56));
    s->task.margin_mm = IN(1);
    s->task.off_square_mm = IN(3);
    use(room, s);
    assert_int_equal(s->rests.count, 1);
    assert_near(s->rests.rests[0].at.min.x, IN(1), MM);
    assert_near(s->rests.rests[0].at.max.x, IN(22.25), MM);
    assert_near(s->rests.rests[0].cloth.length_mm, IN(21.25), MM);
    assert_near(s->rests.rests[0].cloth.width_mm, IN(22), MM);
}

/* A rest of 22 by 21 1/4 in has room for one gusset of 20 in. Folded cloth cuts two at once: one alone would not spare
 * anything. In a single layer it does. A second strip takes the other. */
static void what_is_cut_through_two_layers_goes_as_a_pair(void **state)
{
    struct room *room = *state;
    const char *one = "{ 'piece': 'panel', 'count': 1 }, { 'piece': 'gusset', 'pairs': 1 }";
    struct set *s = set_of(room, view_of(room, 20, one), IN(56));
    s->cloth.spread = CLOTH_FOLDED;
    use(room, s);
    assert_int_equal(s->rests.count, 0);
    s->cloth.spread = CLOTH_SINGLE;
    use(room, s);
    assert_int_equal(s->rests.count, 1);
    assert_int_equal(s->rests.pieces[1].right + s->rests.pieces[1].left, 1);
    s = set_of(room, view_of(room, 20, "{ 'piece': 'panel', 'count': 2 }, { 'piece': 'gusset', 'pairs': 1 }"), IN(56));
    s->cloth.spread = CLOTH_FOLDED;
    use(room, s);
    assert_int_equal(s->rests.count, 2);
    assert_int_equal(s->rests.pieces[1].right, 1);
    assert_int_equal(s->rests.pieces[1].left, 1);
}

/* One panel along the cloth, 1 in trimmed off each torn edge: torn off are 21 1/4 + 2 in, and of that a strip of 34 + 2
 * in. Beside it 56 - 36 - 1 = 19 in are left once that tear is trimmed, too. */
static void cloth_beside_strips_along_it_is_used(void **state)
{
    struct room *room = *state;
    struct set *s =
        set_of(room, view_of(room, 18, "{ 'piece': 'panel', 'count': 1 }, { 'piece': 'gusset', 'count': 1 }"), IN(56));
    s->task.way = TEARING_ALONG;
    s->task.margin_mm = IN(1);
    use(room, s);
    assert_int_equal(s->rests.count, 1);
    assert_int_equal(s->rests.rests[0].strip, TEARING_BESIDE);
    assert_near(s->rests.rests[0].at.min.y, IN(37), MM);
    assert_near(s->rests.rests[0].cloth.width_mm, IN(19), MM);
    assert_near(s->rests.rests[0].cloth.length_mm, IN(21.25), 0.02); /* halved down to 0.01 mm */
}

/* A panel beside a rectangle of 10 by 40 in: above it, from 10 to 44 in across and 21 1/4 to 40 in up, 34 by 18 3/4 in
 * are left, and behind it 12 by 40 in. A gusset of 16 in has room in the one, one of 11 in in the smaller, the other.
 * Two panels beside each other leave one rest above both: 10 to 78 in across, behind which 2 in are left of 80. */
static void what_is_left_above_lower_rectangles_is_used(void **state)
{
    struct room *room = *state;
    const char *cuts =
        "{ 'piece': 'tall', 'count': 1 }, { 'piece': 'panel', 'count': 1 }, { 'piece': 'gusset', 'count': 1 }";
    struct set *s = set_of(room, view_of(room, 16, cuts), IN(56));
    use(room, s);
    assert_int_equal(s->rests.count, 1);
    const struct tearing_rest *rest = &s->rests.rests[0];
    assert_string_equal(rest->above, "“panel”");
    assert_near(rest->at.min.x, IN(21.25), MM);
    assert_near(rest->at.max.x, IN(40), MM);
    assert_near(rest->at.min.y, IN(10), MM);
    assert_near(rest->at.max.y, IN(44), MM);
    s = set_of(room, view_of(room, 11, cuts), IN(56));
    use(room, s);
    assert_int_equal(s->rests.count, 1);
    assert_null(s->rests.rests[0].above);
    struct tearing_rest *left;
    s = set_of(room, view_of(room, 5, "{ 'piece': 'tall', 'count': 1 }, { 'piece': 'panel', 'count': 2 }"), IN(80));
    assert_true(tearing_plan_make(room->a, &s->task, &s->plan, room->errs));
    assert_int_equal(tearing_left(room->a, &s->plan, &left), 2);
    assert_near(left[0].cloth.width_mm, IN(68), MM);
    assert_near(left[0].cloth.length_mm, IN(18.75), MM);
    assert_near(left[1].cloth.width_mm, IN(2), MM);
}

/* Stripes would have to match, and a block is fused before anything is cut of it. */
static void some_cloth_is_not_cut_of_rests(void **state)
{
    struct room *room = *state;
    struct set *s =
        set_of(room, view_of(room, 10, "{ 'piece': 'panel', 'count': 2 }, { 'piece': 'gusset', 'count': 2 }"), IN(56));
    s->cloth.block_mm = 900;
    use(room, s);
    assert_int_equal(s->rests.count, 0);
    s->cloth.block_mm = 0;
    use(room, s);
    assert_int_equal(s->rests.count, 1);
    s->cloth.repeat.along_mm = 50;
    tearing_rests_find(room->a, &s->plan, &s->rests);
    assert_int_equal(s->rests.count, 0);
}

/* Pieces with a nap keep their upper end away from the cut end: none is turned round. */
static void a_nap_runs_on_in_rests(void **state)
{
    struct room *room = *state;
    struct set *s =
        set_of(room, view_of(room, 10, "{ 'piece': 'panel', 'count': 2 }, { 'piece': 'gusset', 'count': 4 }"), IN(56));
    s->cloth.one_way = true;
    use(room, s);
    assert_int_equal(s->rests.rests[0].lay->task->item_count, 4);
    for (size_t i = 0; i < 4; i++)
        assert_near(s->rests.rests[0].lay->places[i].motion.turn_deg, -90, MM);
}

/* The plan's share of cloth counts them: 34 x 21 1/4 and 10 x 10 less 9 square inches, out of 56 x 21 1/4. */
static void a_plan_with_rests_uses_more_of_the_cloth(void **state)
{
    struct room *room = *state;
    struct set *s =
        set_of(room, view_of(room, 10, "{ 'piece': 'panel', 'count': 1 }, { 'piece': 'gusset', 'count': 1 }"), IN(56));
    use(room, s);
    tearing_rests_take(&s->plan, &s->rests);
    assert_near(s->plan.used, (34 * 21.25 + 91) / (56 * 21.25), 1e-6);
}

/* A hundred gussets of 3 in where there is room for them all: it is done at once, with as many as were tried. */
static void many_pieces_end(void **state)
{
    struct room *room = *state;
    struct set *s =
        set_of(room, view_of(room, 3, "{ 'piece': 'panel', 'count': 2 }, { 'piece': 'gusset', 'count': 100 }"), IN(56));
    s->cloth.spread = CLOTH_FOLDED; /* two and two */
    use(room, s);
    int used = s->rests.pieces[1].right;
    assert_true(used > 20 && used % 2 == 0 && used <= 40);
}

static unsigned throw_dice(unsigned *seed, unsigned sides)
{
    *seed = *seed * 1664525u + 1013904223u;
    return (*seed >> 16) % sides;
}

/* To the bit, but not what lies between the fields. */
static void is_same_motion(const struct geometry_motion *a, const struct geometry_motion *b)
{
    assert_int_equal(a->mirror, b->mirror);
    assert_true(a->turn_deg == b->turn_deg && a->shift.x == b->shift.x && a->shift.y == b->shift.y);
}

static void random_views_hold_together(void **state)
{
    struct room *room = *state;
    unsigned seed = 7;
    for (int i = 0; i < 12; i++) {
        const char *cuts = base_arena_print(
            room->a, "{ 'piece': 'panel', 'count': %u }, { 'piece': 'gusset', '%s': %u }", 1 + throw_dice(&seed, 3),
            throw_dice(&seed, 2) ? "pairs" : "count", 1 + throw_dice(&seed, 4));
        struct set *s =
            set_of(room, view_of(room, 4 + (int)throw_dice(&seed, 18), cuts), IN(36 + throw_dice(&seed, 30)));
        s->task.way = throw_dice(&seed, 2) ? TEARING_ACROSS : TEARING_ALONG;
        s->task.margin_mm = throw_dice(&seed, 20);
        s->cloth.spread = throw_dice(&seed, 2) ? CLOTH_SINGLE : CLOTH_FOLDED;
        s->cloth.gap_mm = throw_dice(&seed, 4);
        use(room, s);
        struct tearing_rests again;
        tearing_rests_find(room->a, &s->plan, &again);
        assert_int_equal(again.count, s->rests.count);
        for (size_t r = 0; r < again.count; r++)
            is_same_motion(&again.rests[r].lay->places[0].motion, &s->rests.rests[r].lay->places[0].motion);
        room_forget(room);
    }
}

int main(void)
{
    static const struct CMUnitTest tests[] = {
        room_test(what_is_left_of_strips_takes_small_pieces),
        room_test(what_is_stopped_uses_no_rest),
        room_test(a_rest_is_trimmed_as_its_strip_is),
        room_test(what_is_cut_through_two_layers_goes_as_a_pair),
        room_test(cloth_beside_strips_along_it_is_used),
        room_test(what_is_left_above_lower_rectangles_is_used),
        room_test(some_cloth_is_not_cut_of_rests),
        room_test(a_nap_runs_on_in_rests),
        room_test(a_plan_with_rests_uses_more_of_the_cloth),
        room_test(many_pieces_end),
        room_test(random_views_hold_together),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
