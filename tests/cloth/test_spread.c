/* How cloth lies. All figures by hand from cloth 1400 mm wide without selvages, 3000 mm long. */
#include "cloth/cloth.h"

#include "support/room.h"

static struct cloth wide(enum cloth_spread_kind spread)
{
    return (struct cloth){ .width_mm = 1400, .length_mm = 3000, .spread = spread, .fold_depth_mm = 300 };
}

static struct cloth_spread spread_of(struct room *room, const struct cloth *cloth)
{
    struct cloth_spread s;
    bool ok = cloth_spread(room->a, cloth, &s, room->errs);
    room_nothing_told(room);
    assert_true(ok);
    return s;
}

static void bands_are(const struct cloth_spread *s, int count, const struct cloth_band *want)
{
    assert_int_equal(s->band_count, count);
    for (int i = 0; i < count; i++) {
        assert_near(s->bands[i].from_mm, want[i].from_mm, 1e-9);
        assert_near(s->bands[i].to_mm, want[i].to_mm, 1e-9);
        assert_int_equal(s->bands[i].layers, want[i].layers);
        assert_int_equal(s->bands[i].fold_at_from, want[i].fold_at_from);
        assert_int_equal(s->bands[i].fold_at_to, want[i].fold_at_to);
    }
}

static void each_spread_has_its_bands(void **state)
{
    struct room *room = *state;
    static const struct {
        enum cloth_spread_kind spread;
        double width, most, layers_long;
        int count;
        struct cloth_band bands[2];
    } rows[] = {
        { CLOTH_SINGLE, 1400, 3000, 1, 1, { { 0, 1400, 1, false, false } } },
        { CLOTH_FOLDED, 700, 3000, 1, 1, { { 0, 700, 2, true, false } } },
        { CLOTH_FOLDED_TO, 1100, 3000, 1, 2, { { 0, 300, 2, true, false }, { 300, 1100, 1, false, false } } },
        { CLOTH_TO_MIDDLE, 700, 3000, 1, 2, { { 0, 350, 2, true, false }, { 350, 700, 2, false, true } } },
        { CLOTH_FOLDED_ACROSS, 1400, 1500, 2, 1, { { 0, 1400, 2, false, false } } },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct cloth c = wide(rows[i].spread);
        struct cloth_spread s = spread_of(room, &c);
        assert_near(s.width_mm, rows[i].width, 1e-9);
        assert_near(s.usable_mm, 1400, 1e-9);
        assert_near(s.most_length_mm, rows[i].most, 1e-9);
        assert_near(s.layers_long, rows[i].layers_long, 0);
        bands_are(&s, rows[i].count, rows[i].bands);
        /* all of the width is somewhere */
        double layered = 0;
        for (int b = 0; b < s.band_count; b++)
            layered += s.bands[b].layers * (s.bands[b].to_mm - s.bands[b].from_mm);
        assert_near(layered, 1400 * rows[i].layers_long, 1e-9);
    }
}

/* A fault as a square of 20 mm about (100, y). */
static struct cloth with_fault(struct room *room, enum cloth_spread_kind spread, double x, double y)
{
    struct cloth c = wide(spread);
    const vec2 corners[] = { { x - 10, y - 10 }, { x + 10, y - 10 }, { x + 10, y + 10 }, { x - 10, y + 10 } };
    struct cloth_path *fault = base_arena_alloc(room->a, 1, sizeof *fault);
    fault->path = geometry_path_copy(room->a, (struct geometry_path){ (vec2 *)(uintptr_t)corners, 4, true });
    c.faults = fault;
    c.fault_count = 1;
    return c;
}

/* Which place of the opened cloth lies where: by folding a strip of paper. */
static void a_fault_lies_where_its_layer_is_folded_to(void **state)
{
    struct room *room = *state;
    static const struct {
        enum cloth_spread_kind spread;
        double x, y, lies_x, lies_y;
    } rows[] = {
        { CLOTH_SINGLE, 100, 50, 100, 50 },
        { CLOTH_FOLDED, 100, 50, 100, 650 },    /* 50 from a selvage */
        { CLOTH_FOLDED, 100, 1350, 100, 650 },  /* 50 from the other */
        { CLOTH_FOLDED_TO, 100, 50, 100, 250 }, /* folded over: the selvage lies at 300 */
        { CLOTH_FOLDED_TO, 100, 1350, 100, 1050 },
        { CLOTH_TO_MIDDLE, 100, 50, 100, 300 },   /* the near selvage lies at 350 */
        { CLOTH_TO_MIDDLE, 100, 1350, 100, 400 }, /* the far one, too */
        { CLOTH_TO_MIDDLE, 100, 700, 100, 350 },
        { CLOTH_FOLDED_ACROSS, 100, 50, 100, 50 },
        { CLOTH_FOLDED_ACROSS, 2900, 50, 100, 50 }, /* 100 from the other end */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct cloth c = with_fault(room, rows[i].spread, rows[i].x, rows[i].y);
        struct cloth_spread s = spread_of(room, &c);
        assert_int_equal(s.blocked_count, 1);
        vec2 centre = geometry_path_centre(s.blocked[0].path);
        assert_near(centre.x, rows[i].lies_x, 1e-9);
        assert_near(centre.y, rows[i].lies_y, 1e-9);
        assert_near(geometry_path_area(s.blocked[0].path), 400, 1e-9); /* counter-clockwise */
    }
}

/* On a fold it lies in both layers, half of it in each. */
static void a_fault_on_a_fold_is_folded(void **state)
{
    struct room *room = *state;
    struct cloth c = with_fault(room, CLOTH_FOLDED, 100, 700);
    struct cloth_spread s = spread_of(room, &c);
    assert_int_equal(s.blocked_count, 2);
    for (int i = 0; i < 2; i++) {
        struct geometry_box box = geometry_path_box(s.blocked[i].path);
        assert_near(box.min.y, 0, 1e-9);
        assert_near(box.max.y, 10, 1e-9);
        assert_near(geometry_path_area(s.blocked[i].path), 200, 1e-9);
    }
}

/* A right-angled triangle, 400 by 300, that begins at (50, 20): its box less itself is the other half. */
static void a_scrap_is_its_box_less_what_is_missing(void **state)
{
    struct room *room = *state;
    vec2 corners[] = { { 50, 20 }, { 450, 20 }, { 50, 320 } };
    struct cloth c = { .outline = { { corners, 3, true } } };
    struct cloth_spread s = spread_of(room, &c);
    assert_near(s.width_mm, 300, 1e-9);
    assert_near(s.most_length_mm, 400, 1e-9);
    assert_int_equal(s.blocked_count, 1);
    assert_near(geometry_path_area(s.blocked[0].path), 60000, 1e-6);
    assert_true(geometry_path_holds(s.blocked[0].path, (vec2){ 399, 299 }));
    assert_false(geometry_path_holds(s.blocked[0].path, (vec2){ 1, 1 }));
}

static void what_cannot_be_spread_is_told(void **state)
{
    struct room *room = *state;
    vec2 corners[] = { { 0, 0 }, { 400, 0 }, { 0, 300 } };
    struct cloth narrow = { .width_mm = 20, .selvage_mm = 10 };
    struct cloth deep = wide(CLOTH_FOLDED_TO), no_depth = deep, scrap = wide(CLOTH_FOLDED), uneven = scrap;
    struct cloth plaid = wide(CLOTH_SINGLE), stripes = plaid, gap = plaid, fault = wide(CLOTH_FOLDED_ACROSS);
    deep.fold_depth_mm = 701;
    no_depth.fold_depth_mm = 0;
    scrap.outline = (struct cloth_path){ { corners, 3, true } };
    uneven.repeat = (struct cloth_repeat){ .along_mm = 50, .uneven = true };
    plaid.repeat.across_mm = 1401;
    stripes.repeat.along_mm = 3001;
    gap.gap_mm = 1400;
    fault = with_fault(room, CLOTH_FOLDED_ACROSS, 100, 50);
    fault.length_mm = 0;
    const struct {
        const struct cloth *cloth;
        const char *code;
    } rows[] = { { &narrow, "cloth.no_width" },       { &deep, "cloth.deep_fold" },
                 { &no_depth, "cloth.no_depth" },     { &scrap, "cloth.folded_scrap" },
                 { &uneven, "cloth.uneven_doubled" }, { &plaid, "cloth.wide_repeat" },
                 { &stripes, "cloth.long_repeat" },   { &gap, "cloth.wide_gap" },
                 { &fault, "cloth.faults_across" } };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct cloth_spread s;
        assert_false(cloth_spread(room->a, rows[i].cloth, &s, room->errs));
        room_only_told(room, rows[i].code);
        room_forget(room);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(each_spread_has_its_bands),     room_test(a_fault_lies_where_its_layer_is_folded_to),
        room_test(a_fault_on_a_fold_is_folded),   room_test(a_scrap_is_its_box_less_what_is_missing),
        room_test(what_cannot_be_spread_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
