/* Spans of the demo's lays, as their search leaves them: what is cut is what lies there, and marks are clear of it. */
#include "lay/lay.h"
#include "pattern/read.h"
#include "spans/clear.h"
#include "support/at_size.h"
#include "support/room.h"

#include <math.h>

enum { ROUNDS = 2, SIZE = 3 };

static const char *demo;

struct here {
    struct room room;
    struct draft draft;
    struct cloth cloth;
    struct lay_task task;
    struct lay lay;
};

static void lay_out(struct here *h, enum cloth_spread_kind spread)
{
    struct arena *a = h->room.a;
    const struct pattern *p = pattern_read(a, demo, h->room.errs);
    h->cloth = cloth_plain(1500);
    h->cloth.spread = spread;
    assert_true(p && make_at_size(a, p, SIZE, 0, 0, &h->draft, h->room.errs));
    assert_true(lay_task_make(a, &h->draft, NULL, &h->cloth, PATTERN_FABRIC, &h->task, h->room.errs));
    struct lay_search *search = lay_search_begin(&h->task, NULL, 1, NULL, NULL, h->room.errs);
    for (int i = 0; i < ROUNDS; i++)
        lay_search_round(search, NULL);
    h->lay = lay_search_best(a, search);
    lay_search_end(search);
}

static int set_up(void **state)
{
    static struct here h;
    room_init(&h.room);
    *state = &h;
    return 0;
}

/* Once whole, or in two spans and more in parts. */
static void check_is_cut(const struct spans_plan *plan, int item)
{
    int whole = 0, parts = 0;
    for (size_t k = 0; k < plan->count; k++) {
        for (size_t i = 0; i < plan->spans[k].item_count; i++)
            whole += plan->spans[k].items[i] == item;
        for (size_t i = 0; i < plan->spans[k].part_count; i++)
            parts += plan->spans[k].parts[i] == item;
    }
    assert_true((whole == 1 && parts == 0) || (whole == 0 && parts >= 2));
}

static struct spans_cloth outlines_of(struct arena *a, const struct lay *lay)
{
    const struct lay_task *task = lay->task;
    struct cloth_path *outlines = base_arena_alloc(a, task->item_count, sizeof *outlines);
    for (size_t i = 0; i < task->item_count; i++)
        outlines[i] = lay_outline(a, task, i, &lay->places[i]);
    return (struct spans_cloth){
        .outlines = outlines, .count = task->item_count, .width_mm = task->spread.width_mm, .length_mm = lay->length_mm
    };
}

static void check_spans(struct here *h, struct spans_reach light)
{
    struct spans_plan plan;
    struct spans_cloth cloth = outlines_of(h->room.a, &h->lay);
    assert_true(spans_make(h->room.a, &cloth, light, SPANS_OVERLAP_MM, &plan, h->room.errs));
    assert_true(plan.count >= 2);
    for (size_t i = 0; i < h->task.item_count; i++)
        check_is_cut(&plan, (int)i);
    int marks = 0;
    for (size_t k = 0; k < plan.count; k++) {
        const struct spans_span *span = &plan.spans[k];
        marks += span->mark_count;
        for (int m = 0; m < span->mark_count; m++)
            clear_check(&cloth, light, span->marks[m], span->from_mm, plan.spans[k - 1].to_mm, SPANS_LEAST_CLEAR_MM);
        for (int m = 0; m < span->witness_count; m++)
            clear_check(&cloth, light, span->witnesses[m], span->from_mm, span->to_mm, SPANS_LEAST_CLEAR_MM);
    }
    assert_true(marks >= 1); /* a close layout may leave no waste for any at one of the slides */
}

static void the_demo_is_cut_in_spans(void **state)
{
    lay_out(*state, CLOTH_FOLDED);
    check_spans(*state, (struct spans_reach){ 800, 800 });
    check_spans(*state, (struct spans_reach){ 500, 800 });
}

static void so_it_is_in_a_single_layer(void **state)
{
    lay_out(*state, CLOTH_SINGLE);
    check_spans(*state, (struct spans_reach){ 900, 1500 });
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(the_demo_is_cut_in_spans, set_up, room_close),
        cmocka_unit_test_setup_teardown(so_it_is_in_a_single_layer, set_up, room_close),
    };
    assert_int_equal(argc, 2);
    demo = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
