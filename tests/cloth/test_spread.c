/* How cloth lies. All figures by hand from cloth 1400 mm wide without selvedges, 3000 mm long. */
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
        struct cloth_band bands[3];
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
        { CLOTH_FOLDED, 100, 50, 100, 650 },    /* 50 from a selvedge */
        { CLOTH_FOLDED, 100, 1350, 100, 650 },  /* 50 from the other */
        { CLOTH_FOLDED_TO, 100, 50, 100, 250 }, /* folded over: the selvedge lies at 300 */
        { CLOTH_FOLDED_TO, 100, 1350, 100, 1050 },
        { CLOTH_TO_MIDDLE, 100, 50, 100, 300 },   /* the near selvedge lies at 350 */
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
    struct cloth narrow = { .width_mm = 20, .selvedge_mm = 10 };
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

/* Lines of a repeat at 100, 700, 1300 (600 apart): folds mirror them there and midway between, at 400 and 1000. */
static void a_repeat_says_where_it_is_folded(void **state)
{
    struct room *room = *state;
    static const struct {
        enum cloth_spread_kind spread;
        double line, depth, width, from_fold; /* the first line's place as it lies */
        int count;
        struct cloth_band bands[3];
        const char *told;
    } rows[] = {
        { CLOTH_FOLDED, 100, 0, 700, -600, 1, { { 0, 700, 2, true, false } }, "cloth.fold_on_line" },
        /* 50, 350, 650, 950: at 650 the far 750 lie below */
        { CLOTH_FOLDED, 50, 0, 750, -600, 2, { { 0, 650, 2, true, false }, { 650, 750, 1, false, false } },
          "cloth.fold_on_line" },
        /* 150, 450, 750: at 750 the far 650 lie over, and 100 are not used */
        { CLOTH_FOLDED, 150, 0, 650, -600, 1, { { 0, 650, 2, true, false } }, "cloth.fold_on_line" },
        { CLOTH_FOLDED_TO, 100, 300, 1000, -300, 2, { { 0, 400, 2, true, false }, { 400, 1000, 1, false, false } },
          "cloth.fold_on_line" },
        /* at 100 and 1300: the flaps are 100 each, 1000 between them are single */
        { CLOTH_TO_MIDDLE, 100, 0, 1200, 0, 3,
          { { 0, 100, 2, true, false }, { 100, 1100, 1, false, false }, { 1100, 1200, 2, false, true } },
          "cloth.fold_on_lines" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct cloth c = wide(rows[i].spread);
        struct cloth_spread s;
        c.repeat = (struct cloth_repeat){ .across_mm = 600, .line_across_mm = rows[i].line };
        c.fold_depth_mm = rows[i].depth;
        assert_true(cloth_spread(room->a, &c, &s, room->errs));
        room_only_told(room, rows[i].told);
        room_forget(room);
        assert_near(s.width_mm, rows[i].width, 1e-9);
        assert_near(s.repeat.line_across_mm, rows[i].from_fold, 1e-9);
        bands_are(&s, rows[i].count, rows[i].bands);
    }
}

/* 3000 long, lines at 30, 140, 250 …: folded across at 1460, the last of 30 + 55 k up to 1500 (k = 26).
 * One-way it is cut after 13 repeats, at 1430; then (x, y) of the upper half lies at (x - 1430, 1400 - y). Hand-worked. */
static void a_repeat_says_where_it_is_folded_across(void **state)
{
    struct room *room = *state;
    struct cloth c = with_fault(room, CLOTH_FOLDED_ACROSS, 1500, 50);
    struct cloth_spread s;
    c.repeat = (struct cloth_repeat){ .along_mm = 110, .line_along_mm = 30 };
    assert_true(cloth_spread(room->a, &c, &s, room->errs));
    room_only_told(room, "cloth.fold_across_on_line");
    room_forget(room);
    assert_near(s.most_length_mm, 1460, 1e-9);
    assert_near(geometry_path_centre(s.blocked[0].path).x, 2 * 1460 - 1500, 1e-9);
    c.one_way = true;
    assert_true(cloth_spread(room->a, &c, &s, room->errs));
    room_only_told(room, "cloth.cut_at_repeats");
    assert_near(s.most_length_mm, 1430, 1e-9);
    vec2 at = geometry_path_centre(s.blocked[0].path);
    assert_near(at.x, 70, 1e-9);
    assert_near(at.y, 1350, 1e-9);
    assert_near(cloth_fold_past(&c, 500), 1430, 1e-9); /* with its fault it is cut where the upper layer was reckoned */
    c.fault_count = 0;
    assert_near(cloth_fold_past(&c, 500), 550, 1e-9);
}

/* Lines at 20 + 60 k across 1400: turned, they lie at 1400 - 20 - 60 k, which is 0 + 60 k; 20 further they match. */
static void a_turned_layer_slips_until_it_matches(void **state)
{
    struct room *room = *state;
    struct cloth c = wide(CLOTH_FOLDED_ACROSS);
    struct cloth_spread s;
    c.one_way = true;
    c.repeat = (struct cloth_repeat){ .across_mm = 60, .line_across_mm = 20 };
    assert_true(cloth_spread(room->a, &c, &s, room->errs));
    room_only_told(room, "cloth.slip_layer");
    bands_are(&s, 1, (const struct cloth_band[]){ { 20, 1400, 2, false, false } });
}

/* 3000 at 10 % leave 2700, 1400 less 2 x 10 at 5 % 1330 less 2 x 10: what was seen at 2800 and 690 before washing lies
 * at 2520 and 690 · 1310 / 1380 = 655. Washed already it stays, or lies off the cloth. */
static void what_is_seen_before_washing_shrinks_with_the_cloth(void **state)
{
    struct room *room = *state;
    struct cloth c = with_fault(room, CLOTH_SINGLE, 2800, 690);
    c.selvedge_mm = 10;
    c.shrink_warp = 0.1;
    c.shrink_weft = 0.05;
    c.repeat = (struct cloth_repeat){ .along_mm = 100, .across_mm = 138, .line_along_mm = 20, .line_across_mm = 69 };
    struct cloth_spread s = spread_of(room, &c);
    vec2 at = geometry_path_centre(s.blocked[0].path);
    assert_near(at.x, 2520, 1e-9);
    assert_near(at.y, 655, 1e-9);
    assert_near(s.repeat.along_mm, 90, 1e-9);
    assert_near(s.repeat.line_along_mm, 18, 1e-9);
    assert_near(s.repeat.across_mm, 131, 1e-9);
    assert_near(s.repeat.line_across_mm, 65.5, 1e-9);
    c.is_washed = true;
    c.length_mm = 2700;
    assert_true(cloth_spread(room->a, &c, &s, room->errs));
    assert_int_equal(s.blocked_count, 0);
    room_only_told(room, "cloth.fault_outside");
}

/* A square of 400 that shrinks by 10 % along is 360 by 400. */
static void a_scrap_shrinks(void **state)
{
    struct room *room = *state;
    vec2 corners[] = { { 0, 0 }, { 400, 0 }, { 400, 400 }, { 0, 400 } };
    struct cloth c = { .outline = { { corners, 4, true } }, .shrink_warp = 0.1 };
    struct cloth_spread s = spread_of(room, &c);
    assert_near(s.most_length_mm, 360, 1e-9);
    assert_near(s.width_mm, 400, 1e-9);
    assert_int_equal(s.blocked_count, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        room_test(each_spread_has_its_bands),     room_test(a_fault_lies_where_its_layer_is_folded_to),
        room_test(a_fault_on_a_fold_is_folded),   room_test(a_scrap_is_its_box_less_what_is_missing),
        room_test(what_cannot_be_spread_is_told),
        room_test(a_repeat_says_where_it_is_folded),
        room_test(a_repeat_says_where_it_is_folded_across),
        room_test(a_turned_layer_slips_until_it_matches),
        room_test(what_is_seen_before_washing_shrinks_with_the_cloth),
        room_test(a_scrap_shrinks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
