/* Spans of lays: what is cut in which, in which order, and marks in the waste, tried by winding numbers, by distances
 * and by a walk over the cloth that is left, all written anew here. */
#include "geometry/random.h"
#include "spans/clear.h"
#include "spans/laid.h"
#include "spans/marks.h"
#include "support/room.h"

#include <math.h>

enum { LAYS = 40, CLOSE_LAYS = 200 };

static const struct spans_reach light = { 1000, 900 };

static struct spans_plan plan_of(struct room *room, const struct spans_cloth *cloth)
{
    struct spans_plan plan;
    if (!spans_make(room->a, cloth, light, SPANS_OVERLAP_MM, &plan, room->errs)) {
        room_print_told(room);
        fail_msg("no spans");
    }
    return plan;
}

/* Hand-worked: the pieces of the first span end at 950; windows start at 0, at 875 (half way to the last) and at 1750,
 * from where the last piece ends at 2750. */
static void pieces_are_cut_from_the_free_end(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_three_spans(room->a);
    struct spans_plan plan = plan_of(room, &cloth);
    assert_int_equal(plan.count, 3);
    static const struct {
        double from, slide;
        size_t count;
        int items[2];
    } want[] = { { 0, 0, 2, { 2, 1 } }, { 875, 875, 2, { 3, 4 } }, { 1750, 875, 1, { 0 } } };
    for (size_t k = 0; k < 3; k++) {
        const struct spans_span *span = &plan.spans[k];
        assert_near(span->from_mm, want[k].from, 1e-9);
        assert_near(span->to_mm, want[k].from + light.along_mm, 1e-9);
        assert_near(span->slide_mm, want[k].slide, 1e-9);
        assert_int_equal(span->part_count, 0);
        assert_int_equal(span->item_count, want[k].count);
        for (size_t i = 0; i < want[k].count; i++)
            assert_int_equal(span->items[i], want[k].items[i]);
    }
}

static void a_long_piece_is_shown_in_parts(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_cloth(room->a, 1800, 800, 2);
    laid_add_box(room->a, &cloth, 0, 50, 1700, 300);
    laid_add_box(room->a, &cloth, 0, 400, 900, 300);
    struct spans_plan plan = plan_of(room, &cloth);
    assert_int_equal(plan.count, 2);
    assert_int_equal(plan.spans[0].items[0], 1);
    assert_int_equal(plan.spans[1].item_count, 0);
    for (int k = 0; k < 2; k++) {
        assert_int_equal(plan.spans[k].part_count, 1);
        assert_int_equal(plan.spans[k].parts[0], 0);
    }
}

static void nothing_laid_takes_no_span(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_cloth(room->a, 1000, 800, 1);
    assert_int_equal(plan_of(room, &cloth).count, 0);
    cloth.count = 1; /* an item without a place */
    assert_int_equal(plan_of(room, &cloth).count, 0);
}

/* ---- Marks ---- */

static bool is_cut_by(const struct spans_plan *plan, size_t span, size_t item)
{
    for (size_t k = 0; k <= span; k++) {
        for (size_t i = 0; i < plan->spans[k].item_count; i++)
            if (plan->spans[k].items[i] == (int)item)
                return true;
        for (size_t i = 0; i < plan->spans[k].part_count; i++)
            if (plan->spans[k].parts[i] == (int)item)
                return true;
    }
    return false;
}

/* The cloth that is left in squares of 4 mm; those reached from one place. */
enum { SQUARE = 4, ACROSS = 225, ALONG = 1000 };

struct left {
    const struct spans_cloth *cloth;
    const struct spans_plan *plan;
    size_t span;
    char seen[ALONG][ACROSS];
    int stack[ALONG * ACROSS];
};

static bool is_cloth(const struct left *l, int i, int j)
{
    struct cloth_pt at = { (i + 0.5) * SQUARE, (j + 0.5) * SQUARE };
    if (at.x > l->cloth->length_mm || at.y > l->cloth->width_mm)
        return false;
    for (size_t k = 0; k < l->cloth->count; k++)
        if (is_cut_by(l->plan, l->span, k) && clear_winding(l->cloth->outlines[k], at) != 0)
            return false;
    return true;
}

/* Whether there is cloth all the way from a mark to past the span's light. */
static bool holds_on(struct left *l, struct cloth_pt mark)
{
    static const int ways[4][2] = { { -1, 0 }, { 0, 1 }, { 0, -1 }, { 1, 0 } };
    int count = 0, end = (int)(l->plan->spans[l->span].to_mm / SQUARE);
    memset(l->seen, 0, sizeof l->seen);
    l->stack[count++] = (int)(mark.x / SQUARE) * ACROSS + (int)(mark.y / SQUARE);
    while (count > 0) {
        int cell = l->stack[--count], i = cell / ACROSS, j = cell % ACROSS;
        if (i >= end)
            return true;
        for (int w = 0; w < 4; w++) {
            int ni = i + ways[w][0], nj = j + ways[w][1];
            if (ni < 0 || ni >= ALONG || nj < 0 || nj >= ACROSS || l->seen[ni][nj] || !is_cloth(l, ni, nj))
                continue;
            l->seen[ni][nj] = 1;
            l->stack[count++] = ni * ACROSS + nj;
        }
    }
    return false;
}

static double apart(struct cloth_pt p, struct cloth_pt q)
{
    return hypot(p.x - q.x, p.y - q.y);
}

static void check_marks(const struct spans_cloth *cloth, const struct spans_plan *plan, double clear_mm)
{
    static struct left left;
    left.cloth = cloth;
    left.plan = plan;
    for (size_t k = 0; k < plan->count; k++) {
        const struct spans_span *span = &plan->spans[k];
        for (int i = 0; i < span->witness_count; i++)
            clear_check(cloth, light, span->witnesses[i], span->from_mm, span->to_mm, clear_mm);
        left.span = k - 1; /* there are no marks in the first */
        for (int i = 0; i < span->mark_count; i++) {
            for (int j = 0; j < i; j++)
                assert_true(apart(span->marks[i], span->marks[j]) >= SPANS_APART_MM);
            clear_check(cloth, light, span->marks[i], span->from_mm, plan->spans[k - 1].to_mm, clear_mm);
            assert_true(holds_on(&left, span->marks[i]));
        }
    }
}

static void marks_lie_in_the_waste_that_two_spans_see(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_three_spans(room->a);
    struct spans_plan plan = plan_of(room, &cloth);
    room_nothing_told(room);
    assert_int_equal(plan.spans[0].mark_count, 0);
    check_marks(&cloth, &plan, SPANS_CLEAR_MM);
    /* From 890 to 985 both spans see; up to 965, and from y = 50 to 750, a piece lies. Clear are 965 to 985, and on
     * either side of the piece y from 15 to 35 and from 765 to 785, as far along as both see. */
    const struct cloth_pt *marks = plan.spans[1].marks;
    assert_true(plan.spans[1].mark_count >= 2);
    assert_near(fabs(marks[0].y - marks[1].y), 765, 5.01); /* 15 … 785, every 5 mm */
}

/* A piece of the first span lies all across but for a strip at the far edge, which another piece of it parts from the
 * rest of the cloth: the strip's waste is no place for marks, though both spans see it. */
static void waste_that_falls_off_is_not_marked(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_cloth(room->a, 1900, 800, 8);
    const vec2 hook[] = { { 0, 0 },     { 990, 0 },   { 990, 800 }, { 970, 800 },
                          { 970, 600 }, { 600, 600 }, { 600, 800 }, { 0, 800 } };
    laid_add(room->a, &cloth, hook, 8);
    laid_add_box(room->a, &cloth, 1050, 50, 800, 700);
    struct spans_plan plan = plan_of(room, &cloth);
    assert_int_equal(plan.count, 2);
    assert_true(plan.spans[1].from_mm < 900); /* both see the bay of the hook, which nothing lies in */
    check_marks(&cloth, &plan, SPANS_CLEAR_MM);
    for (int i = 0; i < plan.spans[1].mark_count; i++)
        assert_true(plan.spans[1].marks[i].x > 990);
}

/* The bay lies between a piece and another that is longer than the light: that one is cut along the bay in this span,
 * though not all round. */
static void waste_beside_a_part_falls_off_too(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_cloth(room->a, 1900, 800, 8);
    const vec2 bay[] = { { 0, 0 },    { 990, 0 },  { 990, 600 }, { 970, 600 },
                         { 970, 20 }, { 600, 20 }, { 600, 600 }, { 0, 600 } };
    laid_add(room->a, &cloth, bay, 8);
    laid_add_box(room->a, &cloth, 0, 600, 1800, 100);
    struct spans_plan plan = plan_of(room, &cloth);
    assert_int_equal(plan.count, 2);
    check_marks(&cloth, &plan, SPANS_LEAST_CLEAR_MM);
    for (int i = 0; i < plan.spans[1].mark_count; i++)
        assert_true(plan.spans[1].marks[i].y > 700 || plan.spans[1].marks[i].x > 990);
}

static void faults_of_the_cloth_are_not_marked(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_three_spans(room->a), holes = laid_cloth(room->a, 1, 1, 1);
    laid_add_box(room->a, &holes, 860, 752, 200, 48);
    cloth.blocked = holes.outlines;
    cloth.blocked_count = 1;
    struct spans_plan plan = plan_of(room, &cloth);
    check_marks(&cloth, &plan, SPANS_CLEAR_MM);
    for (int i = 0; i < plan.spans[1].mark_count; i++)
        assert_true(plan.spans[1].marks[i].y < 740);
}

/* Hand-worked: what is cut first ends at 950, the rest begins there, and 900 to 1000 both spans see. Clear of it lies
 * y = 15 … 45 from 965 on, which has room for one mark; of two, 150 mm apart, one lies within the rest. */
static void waste_without_room_for_two_marks_is_told(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_cloth(room->a, 1900, 800, 8);
    laid_add_box(room->a, &cloth, 0, 0, 950, 800);
    laid_add_box(room->a, &cloth, 950, 60, 900, 740);
    struct spans_plan plan = plan_of(room, &cloth);
    assert_int_equal(plan.spans[1].mark_count, 2);
    assert_true(plan.spans[1].mark_items[0] == 1 || plan.spans[1].mark_items[1] == 1);
    assert_near(room_only_told(room, "spans.mark_on_piece")->args[1].number, 2, 0);
}

/* Hand-worked: what is cut first takes all that both spans see, but for 965 to 1000 at the near edge, or all. */
static void where_all_is_cut_away_it_is_told(void **state)
{
    struct room *room = *state;
    struct spans_cloth cloth = laid_cloth(room->a, 2000, 800, 8);
    const vec2 notched[] = { { 0, 0 }, { 940, 0 }, { 940, 60 }, { 1000, 60 }, { 1000, 800 }, { 0, 800 } };
    laid_add(room->a, &cloth, notched, 6);
    laid_add_box(room->a, &cloth, 1000, 0, 900, 800);
    assert_int_equal(plan_of(room, &cloth).spans[1].mark_count, 1);
    assert_near(room_only_told(room, "spans.one_mark")->args[1].number, 2, 0);
    room_forget(room);
    laid_add_box(room->a, &cloth, 940, 0, 60, 60);
    assert_int_equal(plan_of(room, &cloth).spans[1].mark_count, 0);
    assert_near(room_only_told(room, "spans.no_mark")->args[0].number, 1, 0);
}

/* ---- Lays without waste ---- */

static bool is_among(const int *items, size_t count, int item)
{
    for (size_t i = 0; i < count; i++)
        if (items[i] == item)
            return true;
    return false;
}

/* Whether a piece is still held once a span is cut: nothing of it is, or it goes on past the light. */
static bool is_held(const struct spans_cloth *cloth, const struct spans_plan *plan, size_t span, int item)
{
    for (size_t k = 0; k <= span; k++)
        if (is_among(plan->spans[k].items, plan->spans[k].item_count, item))
            return false;
    return !is_among(plan->spans[span].parts, plan->spans[span].part_count, item) ||
           geometry_path_box(cloth->outlines[item].path).max.x > plan->spans[span].to_mm;
}

struct told {
    int slides, on_pieces, told;
};

/* Marks within pieces lie well within one that is held; any two tell how the cloth lies (spans_sit does not refuse). */
static void check_slide(const struct spans_cloth *cloth, const struct spans_plan *plan, size_t k, struct told *t)
{
    const struct spans_span *span = &plan->spans[k];
    struct spans_sighting seen[SPANS_MARKS];
    for (int i = 0; i < span->mark_count; i++) {
        struct cloth_pt at = span->marks[i];
        seen[i] = (struct spans_sighting){ SPANS_MARK, at, { at.x, at.y }, 0.8 };
        for (size_t item = 0; item < cloth->count; item++) {
            assert_int_equal(clear_winding(cloth->outlines[item], at) != 0, (int)item == span->mark_items[i]);
            assert_true(clear_distance(cloth->outlines[item], at, 20) > SPANS_LEAST_CLEAR_MM - 0.01);
        }
        assert_true(at.x >= span->from_mm && at.x <= plan->spans[k - 1].to_mm);
        if (span->mark_items[i] == SPANS_WASTE)
            continue;
        assert_true(is_held(cloth, plan, k - 1, span->mark_items[i]));
        t->on_pieces++;
    }
    struct spans_seat seat;
    struct err_list *errs = base_err_list_create();
    t->slides++;
    if (span->mark_count == SPANS_MARKS)
        assert_true(spans_sit(seen, SPANS_MARKS, &seat, errs));
    base_err_list_destroy(errs);
}

/* Warnings that a slide has too few marks. */
static int count_too_few(const struct err_list *errs)
{
    int count = 0;
    for (int i = 0; i < errs->count; i++)
        count +=
            !strcmp(errs->items[i].kind->code, "spans.no_mark") || !strcmp(errs->items[i].kind->code, "spans.one_mark");
    return count;
}

/* A slide has two marks, in the waste or within pieces, or it is told before anything is cut that it has not. */
static void close_lays_are_lined_up_or_told(void **state)
{
    struct room *room = *state;
    uint64_t seed = 11;
    struct told t = { 0 };
    for (int i = 0; i < CLOSE_LAYS; i++) {
        struct spans_cloth cloth = laid_close(room->a, &seed);
        struct spans_plan plan = plan_of(room, &cloth);
        int few = 0;
        for (size_t k = 1; k < plan.count; k++) {
            check_slide(&cloth, &plan, k, &t);
            few += plan.spans[k].mark_count < SPANS_MARKS;
        }
        assert_int_equal(count_too_few(room->errs), few);
        t.told += few;
        room_forget(room);
    }
    print_message("of %d slides %d are told to have too few marks; %d marks lie within pieces\n", t.slides, t.told,
                  t.on_pieces);
    assert_true(t.on_pieces > 0);
    assert_true(t.told * 20 <= t.slides);
}

static void marks_of_random_lays_are_sound(void **state)
{
    struct room *room = *state;
    uint64_t seed = 3;
    int marks = 0;
    for (int i = 0; i < LAYS; i++) {
        struct spans_cloth cloth = laid_random(room->a, &seed);
        struct spans_plan plan = plan_of(room, &cloth);
        check_marks(&cloth, &plan, SPANS_LEAST_CLEAR_MM);
        size_t cut = 0;
        for (size_t k = 0; k < plan.count; k++) {
            cut += plan.spans[k].item_count;
            marks += plan.spans[k].mark_count;
        }
        for (size_t item = 0; item < cloth.count; item++) /* each is cut at some time, whole or in parts */
            assert_true(is_cut_by(&plan, plan.count - 1, item));
        assert_true(cut <= cloth.count);
    }
    assert_true(marks > 2 * LAYS);
}

/* How far the worst of a box's corners may be off by two marks, by the seat itself. */
static double worst_doubt(struct cloth_pt p, struct cloth_pt q, struct geometry_box told)
{
    const struct cloth_pt marks[] = { p, q };
    struct spans_sighting seen[2];
    struct spans_seat seat;
    struct err_list *errs = base_err_list_create();
    double worst = 0;
    for (int i = 0; i < 2; i++)
        seen[i] = (struct spans_sighting){ SPANS_MARK, marks[i], { marks[i].x, marks[i].y }, 0.8 };
    assert_true(spans_sit(seen, 2, &seat, errs));
    for (int i = 0; i < 4; i++)
        worst = fmax(worst, spans_doubt(&seat, (struct cloth_pt){ i % 2 ? told.max.x : told.min.x,
                                                                  i / 2 ? told.max.y : told.min.y }));
    base_err_list_destroy(errs);
    return worst;
}

enum { PLACES = 60 };

/* Of all pairs there are, the doubt that the seat tells of the worst corner is about the least. */
static void the_pair_is_chosen_by_what_it_tells(void **state)
{
    uint64_t seed = 5;
    (void)state;
    for (int i = 0; i < 100; i++) {
        struct cloth_pt places[PLACES];
        struct geometry_box told = { { 0, 0 }, { random_between(&seed, 600, 1400), 900 } };
        double least = INFINITY;
        for (int k = 0; k < PLACES; k++) {
            places[k] = (struct cloth_pt){ random_between(&seed, 0, 1200), random_between(&seed, 0, 900) };
            for (int j = 0; j < k; j++)
                if (apart(places[k], places[j]) >= SPANS_APART_MM)
                    least = fmin(least, worst_doubt(places[k], places[j], told));
        }
        struct spans_waste waste = { .places = places, .count = PLACES };
        struct spans_pair pair = spans_marks_choose(&waste, told);
        assert_int_equal(pair.count, 2);
        assert_true(worst_doubt(pair.at[0], pair.at[1], told) <= 1.05 * least);
    }
}

/* Hand-worked: of marks at opposite corners one is on the cloth, 20 mm beside the best place; it serves again, with the
 * corner across. One amid the cloth, which tells little, does not. */
static void chalk_on_the_cloth_serves_again(void **state)
{
    static const struct cloth_pt corners[] = { { 20, 20 }, { 980, 20 }, { 20, 780 }, { 980, 780 } };
    static const struct cloth_pt beside = { 40, 20 }, amid = { 500, 400 };
    static const struct geometry_box told = { { 0, 0 }, { 1000, 800 } };
    (void)state;
    struct spans_waste waste = {
        .places = corners, .count = 4, .chalked = &beside, .chalked_count = 1, .is_chalked = true
    };
    struct spans_pair pair = spans_marks_choose(&waste, told);
    assert_int_equal(pair.count, 2);
    assert_near(pair.at[0].x, beside.x, 0);
    assert_near(pair.at[1].x, 980, 0);
    assert_near(pair.at[1].y, 780, 0);
    waste.chalked = &amid;
    pair = spans_marks_choose(&waste, told);
    assert_int_equal(pair.count, 2);
    for (int i = 0; i < 2; i++)
        assert_true(pair.at[i].x != 500);
}

struct again {
    int all, again, near;
};

static void count_again(struct again *t, const struct spans_cloth *cloth, const struct cloth_pt *marks, int count)
{
    for (int k = 0; k < count; k++, t->all++) {
        double off = INFINITY;
        for (size_t c = 0; c < cloth->chalked_count; c++)
            off = fmin(off, apart(marks[k], cloth->chalked[c]));
        t->again += off == 0;
        t->near += off > 0 && off < SPANS_APART_MM;
    }
}

/* Of random lays that are found 40 mm aside once their first span was marked: what is chosen anew is what is chalked,
 * or lies well away from it. */
static void new_marks_keep_off_those_of_before(void **state)
{
    struct room *room = *state;
    uint64_t seed = 7;
    struct again t = { 0 };
    for (int i = 0; i < LAYS; i++) {
        struct spans_cloth cloth = laid_random(room->a, &seed);
        struct spans_plan before = plan_of(room, &cloth);
        struct cloth_pt chalked[SPANS_WITNESSES + SPANS_MARKS];
        cloth.chalked = chalked;
        for (int k = 0; k < before.spans[0].witness_count; k++)
            chalked[cloth.chalked_count++] = before.spans[0].witnesses[k];
        for (int k = 0; k < before.spans[1].mark_count; k++)
            chalked[cloth.chalked_count++] = before.spans[1].marks[k];
        cloth.begin_mm = 40;
        struct spans_plan plan = plan_of(room, &cloth);
        count_again(&t, &cloth, plan.spans[0].witnesses, plan.spans[0].witness_count);
        count_again(&t, &cloth, plan.spans[1].marks, plan.spans[1].mark_count);
    }
    print_message("of %d marks %d serve again, %d stand beside one\n", t.all, t.again, t.near);
    assert_int_equal(t.near, 0);
    assert_true(t.again >= t.all * 2 / 3);
}

/* ---- What cannot be ---- */

static void pieces_beyond_the_light_are_told(void **state)
{
    struct room *room = *state;
    struct spans_plan plan;
    struct spans_cloth cloth = laid_cloth(room->a, 1000, 1400, 1);
    laid_add_box(room->a, &cloth, 0, 700, 300, 300);
    assert_false(spans_make(room->a, &cloth, light, SPANS_OVERLAP_MM, &plan, room->errs));
    assert_near(room_only_told(room, "spans.beyond_across")->args[0].number, 1000, 1e-9);
}

static void a_reach_of_next_to_nothing_is_told(void **state)
{
    struct room *room = *state;
    struct spans_plan plan;
    struct spans_cloth cloth = laid_three_spans(room->a);
    assert_false(spans_make(room->a, &cloth, (struct spans_reach){ 150, 900 }, 100, &plan, room->errs));
    room_only_told(room, "spans.no_reach");
    room_forget(room);
    assert_false(spans_make(room->a, &cloth, (struct spans_reach){ 0, 0 }, 0, &plan, room->errs));
    room_only_told(room, "spans.no_reach");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(pieces_are_cut_from_the_free_end),   room_test(a_long_piece_is_shown_in_parts),
        room_test(nothing_laid_takes_no_span),         room_test(marks_lie_in_the_waste_that_two_spans_see),
        room_test(waste_that_falls_off_is_not_marked), room_test(waste_beside_a_part_falls_off_too),
        room_test(faults_of_the_cloth_are_not_marked), room_test(waste_without_room_for_two_marks_is_told),
        room_test(where_all_is_cut_away_it_is_told),   room_test(close_lays_are_lined_up_or_told),
        room_test(marks_of_random_lays_are_sound),     room_test(the_pair_is_chosen_by_what_it_tells),
        room_test(chalk_on_the_cloth_serves_again),    room_test(new_marks_keep_off_those_of_before),
        room_test(pieces_beyond_the_light_are_told),   room_test(a_reach_of_next_to_nothing_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
