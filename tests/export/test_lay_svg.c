/* A layout's drawing: a front 20 cm × 30 cm through both layers of cloth 150 cm wide, folded, and a pocket that has no
 * place. All numbers are worked out by hand; the whole page is read back by tests/e2e/lay_check.py. */
#include "export/lay_svg.h"
#include "support/room.h"

enum { FRONT, POCKET, ITEMS };

struct bench {
    struct room room;
    struct cloth cloth;
    struct draft_piece pieces[ITEMS];
    struct lay_item items[ITEMS];
    struct lay_task task;
    struct lay_place places[ITEMS];
};

static struct draft_piece rectangle(struct arena *a, const char *name, double width, double height)
{
    struct geometry_path path = { base_arena_alloc(a, 4, sizeof(vec2)), 4, true };
    path.points[1].x = path.points[2].x = width;
    path.points[2].y = path.points[3].y = height;
    return (struct draft_piece){ .name = name,
                                 .label = name,
                                 .cut.path = path,
                                 .cut_line.path = path,
                                 .seam.path = path,
                                 .seam_line.path = path,
                                 .label_at = { width / 2, height / 2 },
                                 .grain = { { width / 4, height / 4 }, { width / 4, 3 * height / 4 } } };
}

static int open_bench(void **state)
{
    static struct bench b;
    b = (struct bench){ .cloth = cloth_plain(1500) }; /* 147.5 cm without selvedges */
    room_init(&b.room);
    b.cloth.spread = CLOTH_FOLDED;
    b.pieces[FRONT] = rectangle(b.room.a, "Front & <side>", 200, 300);
    b.pieces[POCKET] = rectangle(b.room.a, "Pocket", 100, 150);
    for (int i = 0; i < ITEMS; i++)
        b.items[i] = (struct lay_item){ .cut = i, .piece = &b.pieces[i], .copies = 2, .layers = 2 };
    b.task = (struct lay_task){ .cloth = &b.cloth, .items = b.items, .item_count = ITEMS };
    b.places[FRONT] = (struct lay_place){ .is_laid = true, .motion = { .turn_deg = 270, .shift = { 0, 200 } } };
    *state = &b;
    return 0;
}

static const char *drawn_as(struct bench *b, const char *title)
{
    assert_true(cloth_spread(b->room.a, &b->cloth, &b->task.spread, b->room.errs));
    struct lay lay = lay_of(b->room.a, &b->task, b->places);
    return export_lay_svg(b->room.a, &lay, title);
}

static const char *drawn(struct bench *b)
{
    return drawn_as(b, "Layout & cloth");
}

static void has(const char *svg, const char *text)
{
    if (!strstr(svg, text))
        fail_msg("no %s", text);
}

/* 30 cm of cloth and a margin of 4 cm at either end; 73.75 cm of folded cloth, the margins, and 18 mm for the title. */
static void a_user_unit_is_a_millimetre(void **state)
{
    const char *svg = drawn(*state);
    has(svg, "width=\"380.0000mm\" height=\"835.5000mm\" viewBox=\"0 0 380.0000 835.5000\"");
    has(svg, "<title>Layout &amp; cloth</title>");
}

/* 51 letters of 0.6 of their size each on what is left of 38 cm beside the near margin, 34 cm: 340 / 30.6 = 11.11 mm.
 */
static void a_long_title_is_lettered_smaller(void **state)
{
    has(drawn(*state), "font-size=\"18\" fill=\"#000\" stroke=\"none\">Layout &amp; cloth<");
    const char *svg = drawn_as(*state, "Fabric, 150 cm wide, folded lengthwise: needs 30 cm");
    has(svg, "font-size=\"11.1111\" fill=\"#000\" stroke=\"none\">Fabric, 150 cm wide,");
}

/* A quarter turn to the right takes (x, y) to (y, -x); the page's y runs down from 835.5 - 40. */
static void a_piece_is_drawn_where_it_lies(void **state)
{
    const char *svg = drawn(*state);
    has(svg, "M40.0000,595.5000 L40.0000,795.5000 L340.0000,795.5000 L340.0000,595.5000 Z");
    has(svg, "<title>Front &amp; &lt;side&gt;</title>");
    has(svg, "2 layers");
    has(svg, "class=\"grain\"");
    assert_null(strstr(svg, "Pocket"));
}

/* One copy out of two layers of cloth whose sides are alike: one is left over, whichever. */
static void which_layer_is_kept_is_told_on_the_piece(void **state)
{
    struct bench *b = *state;
    b->cloth.sides_alike = true;
    b->items[FRONT].copies = 1;
    const char *svg = drawn(b);
    has(svg, ">keep one<");
    assert_null(strstr(svg, "layers"));
}

static void a_piece_on_the_fold_says_so(void **state)
{
    struct bench *b = *state;
    b->items[FRONT].on_fold = true;
    has(drawn(b), ">2 layers, on the fold<");
    b->items[FRONT].copies = 1;
    has(drawn(b), ">on the fold<");
}

static void folded_cloth_has_its_fold_below_and_its_selvedges_above(void **state)
{
    const char *svg = drawn(*state);
    has(svg, "class=\"cloth-fold\"");
    has(svg, "d=\"M40.0000,795.5000 L340.0000,795.5000\"");
    has(svg, "class=\"selvedge\"");
    has(svg, "d=\"M40.0000,58.0000 L340.0000,58.0000\""); /* 835.5 - 40 - 737.5 */
    assert_null(strstr(svg, "blocked"));
}

/* The front lies over [0, 300] × [0, 200], and its block reaches 5 mm past it, but not past the cloth. */
static void the_block_that_is_fused_is_drawn_round_its_pieces(void **state)
{
    struct bench *b = *state;
    assert_null(strstr(drawn(b), "class=\"fused\""));
    b->cloth.block_mm = 900;
    b->task.block = (struct cloth_band){ .from_mm = 5, .to_mm = 732.5, .layers = 2 };
    b->items[FRONT].covered = true;
    has(drawn(b), "class=\"fused\"");
    has(drawn(b), "M40.0000,795.5000 L345.0000,795.5000 L345.0000,590.5000 L40.0000,590.5000 Z");
    has(drawn(b), "dashed: the block that is fused first");
}

/* The grain runs from 75 to 225 mm from the cut end, its upper end at 225, 50 mm down from the far edge of the front at
 * 200; heads are 14 mm long and 7 wide. */
static void one_way_cloth_has_grain_with_one_head(void **state)
{
    struct bench *b = *state;
    const char *both = drawn(b), *far = "M251.0000,649.0000 L265.0000,645.5000 L251.0000,642.0000",
               *near = "M129.0000,642.0000 L115.0000,645.5000 L129.0000,649.0000";
    has(both, far);
    has(both, near);
    b->cloth.one_way = true;
    has(drawn(b), far);
    assert_null(strstr(drawn(b), near));
}

static void what_must_not_be_cut_is_filled(void **state)
{
    struct bench *b = *state;
    vec2 points[] = { { 310, 100 }, { 350, 100 }, { 350, 140 } };
    const struct cloth_path fault = { { points, 3, true } };
    b->cloth.spread = CLOTH_SINGLE;
    b->cloth.faults = &fault;
    b->cloth.fault_count = 1;
    has(drawn(b), "class=\"blocked\"");
}

#define bench_test(f) cmocka_unit_test_setup_teardown((f), open_bench, room_close)

int main(void)
{
    const struct CMUnitTest tests[] = {
        bench_test(a_user_unit_is_a_millimetre),
        bench_test(a_long_title_is_lettered_smaller),
        bench_test(a_piece_is_drawn_where_it_lies),
        bench_test(which_layer_is_kept_is_told_on_the_piece),
        bench_test(a_piece_on_the_fold_says_so),
        bench_test(folded_cloth_has_its_fold_below_and_its_selvedges_above),
        bench_test(the_block_that_is_fused_is_drawn_round_its_pieces),
        bench_test(one_way_cloth_has_grain_with_one_head),
        bench_test(what_must_not_be_cut_is_filled),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
